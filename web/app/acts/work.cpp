#include "work.h"

#include "web/app/keypad/digits.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr double kMostMoney = 1e7;

}  // namespace

std::string label_of(FieldKind kind) { return say("field." + std::string(name_of(kind))); }

Result<TypedMass> typed_mass(const Work& w, Sign sign) {
  std::string text = weight_text(w.draft().digits, w.draft().unit);
  if (sign == Sign::negative_only && !text.empty()) text.insert(0, "-");
  auto mass = parse_mass(text, name_of(w.field().kind), sign);
  // Where every weight may be in pounds and ounces, ounces alone are those of the next bare number.
  const OpenSession* open = w.desk.session();
  const bool both = open != nullptr && open->figures.settings.unit == "lb-oz";
  const bool ounces = text.ends_with("oz") && text.find("lb") == std::string::npos;
  if (mass && both && ounces) w.draft().unit = "oz";
  return mass;
}

Result<TypedMass> typed_mass(const Work& w) { return typed_mass(w, row_of(w.field().kind).sign); }

Result<TypedNumber> typed_amount(const Work& w) {
  const FieldRow& row = row_of(w.field().kind);
  return parse_number(w.draft().digits, row.name, row.sign, kMostMoney);
}

// Without digits nothing was said; " %" alone would be another problem.
Result<TypedNumber> typed_share(const Work& w) {
  if (w.draft().digits.empty()) return Problem{Code::typed_empty, where_typed(w), {}};
  return parse_percent(w.draft().digits + " %", where_typed(w));
}

Made one(Work& w, Body body, Notice notice) {
  w.to.add(std::move(body));
  return {std::move(w.to), std::move(notice)};
}

Made one_fact(Work& w, Body body, Notice notice) {
  w.to.add_fact(w.open(), std::move(body));
  return {std::move(w.to), std::move(notice)};
}

Made fact(Work& w, Body body, const std::string& label, const std::string& value) {
  return one_fact(w, std::move(body), done("notice.entered", {label, value}));
}

Made fact(Work& w, Body body, const std::string& value) {
  return fact(w, std::move(body), label_of(w.field().kind), as_shown(w.settings, value));
}

Made commit_nothing(Work& /*w*/) { return {}; }

Made taken(Work& w) {
  // NOLINTBEGIN(bugprone-branch-clone): the digits of some fields are taken alike
  switch (w.field().kind) {
#define TALLYBLOCK_FIELD(kind, name, measure, sign, subject, kept, commit) \
  case FieldKind::kind: return commit(w);
    TALLYBLOCK_FIELDS(TALLYBLOCK_FIELD)
#undef TALLYBLOCK_FIELD
  }
  // NOLINTEND(bugprone-branch-clone)
  return {};
}

}  // namespace tallyblock
