// What becomes of the digits, one function for each field: facts and weights. Money is in app_money.cpp,
// which function is whose in fields.h.
#include <utility>

#include "app.h"
#include "digits.h"
#include "line_of.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr std::string_view kCleaned = "cleaned";

// The subject of the field, else the first step.
std::string step_of(const Field& field) {
  return field.subject.empty() ? kMainStep : field.subject;
}

}  // namespace

std::string App::pile_name(const std::string& key) const {
  const PileFigures* pile = pile_named(open_->figures, key);
  return pile == nullptr ? key : pile->name;
}

// ---- facts

std::vector<EntryId> App::live_of(const Body& body) const {
  std::vector<EntryId> ids;
  if (!open_) return ids;
  Entry like;
  like.body = body;
  const std::string key = fact_key(like);
  if (key.empty()) return ids;
  const LiveView live(open_->set);
  for (const Entry* entry : live.entries()) {
    if (fact_key(*entry) == key) ids.push_back(entry->id);
  }
  return ids;
}

// The body that decides the fact `like` belongs to, or null.
template <class B>
const B* App::latest(const Body& like) const {
  const std::vector<EntryId> ids = live_of(like);
  const Entry* entry = ids.empty() ? nullptr : open_->set.find(ids.back());
  return entry == nullptr ? nullptr : std::get_if<B>(&entry->body);
}
template const body::Price* App::latest<body::Price>(const Body& like) const;
template const body::Target* App::latest<body::Target>(const Body& like) const;
template const body::Tub* App::latest<body::Tub>(const Body& like) const;
template const body::Step* App::latest<body::Step>(const Body& like) const;
template const body::Pile* App::latest<body::Pile>(const Body& like) const;
template const body::Piece* App::latest<body::Piece>(const Body& like) const;
template const body::PlanLimits* App::latest<body::PlanLimits>(const Body& like) const;

// A fact out of the digits: takes the place of whatever stands for it, and the keypad moves on.
bool App::put_fact(Body body, const std::string& label, const std::string& value) {
  Writing writing = this->writing();
  std::vector<EntryId> replaces = live_of(body);
  writing.add(std::move(body), std::move(replaces));
  return put(std::move(writing), {"notice.entered", {label, value}, true, false},
             [this] { after_field(); });
}

bool App::put_fact(Body body, const std::string& value) {
  return put_fact(std::move(body), label(), as_shown(settings_, value));
}

// ---- dispatch

bool App::commit_field() {
  const FieldRow& row = row_of(draft_.field.kind);
  if (row.kept == KeptIn::settings && !may_act()) return false;
  if (row.kept == KeptIn::session && !may_write()) return false;
  // NOLINTBEGIN(bugprone-branch-clone): the digits of some fields are taken alike
  switch (draft_.field.kind) {
#define TALLYBLOCK_FIELD(kind, name, measure, sign, subject, kept, commit) \
  case FieldKind::kind: return commit();
    TALLYBLOCK_FIELDS(TALLYBLOCK_FIELD)
#undef TALLYBLOCK_FIELD
  }
  // NOLINTEND(bugprone-branch-clone)
  return false;
}

std::string App::label() const { return say("field." + std::string(name_of(draft_.field.kind))); }

std::optional<TypedMass> App::typed_mass() { return typed_mass(row_of(draft_.field.kind).sign); }

std::optional<TypedMass> App::typed_mass(Sign sign) {
  std::string text = weight_text(draft_.digits, draft_.unit);
  if (sign == Sign::negative_only && !text.empty()) text.insert(0, "-");
  auto mass = accepted(parse_mass(text, name_of(draft_.field.kind), sign));
  // Where every weight may be in pounds and ounces, ounces alone are those of the next bare number.
  const bool both = open_ && open_->figures.settings.unit == "lb-oz";
  const bool ounces = text.ends_with("oz") && text.find("lb") == std::string::npos;
  if (mass && both && ounces) draft_.unit = "oz";
  return mass;
}

// ---- weights

// The names of their fields are those of the weights.
bool App::commit_incoming() {
  const auto which = incoming_from(name_of(draft_.field.kind));
  const auto mass = typed_mass();
  if (!which || !mass) return false;
  body::IncomingWeight weight{*which, *mass, open_->figures.settings.division, draft_.count};
  return put_fact(std::move(weight), mass->text);
}

bool App::commit_remainder() {
  const auto mass = typed_mass();
  if (!mass) return false;
  body::Remainder left{step_of(draft_.field), *mass, open_->figures.settings.division};
  return put_fact(std::move(left), mass->text);
}

bool App::commit_checkpoint() {
  const auto mass = typed_mass();
  if (!mass) return false;
  body::Checkpoint cleaned{step_of(draft_.field), std::string(kCleaned), *mass,
                           open_->figures.settings.division};
  return put_fact(std::move(cleaned), mass->text);
}

bool App::commit_division() {
  const auto mass = typed_mass();
  return mass && put_fact(body::Setting{"division", mass->text}, mass->text);
}

bool App::commit_target() {
  const auto mass = typed_mass();
  if (!mass) return false;
  body::Target target{draft_.field.subject, *mass, std::nullopt};
  if (const auto* now = latest<body::Target>(target)) target.tolerance = now->tolerance;
  return put_fact(std::move(target), mass->text);
}

bool App::commit_tolerance() {
  const auto mass = typed_mass();
  if (!mass) return false;
  body::Target target{draft_.field.subject, {}, mass};
  const auto* now = latest<body::Target>(target);
  if (now == nullptr)
    return refuse({Code::need_target, std::string(name_of(FieldKind::target)), {}});
  target.weight = now->weight;
  return put_fact(std::move(target), mass->text);
}

bool App::commit_tub_tare() {
  const auto mass = typed_mass();
  if (!mass) return false;
  body::Tub tub{draft_.field.subject, "", *mass, open_->figures.settings.division};
  if (const auto* now = latest<body::Tub>(tub)) tub.name = now->name;
  return put_fact(std::move(tub), mass->text);
}

// No more than is left of the pile, as far as its readings tell; `but` is the step that asks.
bool App::takes_too_much(const std::string& key, const TypedMass& mass, Process process,
                         const std::string& but) {
  const PileFigures* pile = pile_named(open_->figures, key);
  if (pile == nullptr) return false;
  const auto left = left_of(open_->figures, *pile, process, but);
  if (!left || mass.mass <= left->value() + 2.0 * left->uncertainty() + Mass::grams(1e-6))
    return false;
  const Settings& settings = open_->figures.settings;
  if (!(left->value() > Mass())) {
    tell_error("notice.nothing-left", {pile->name});
  } else {
    tell_error("notice.more-than-left",
               {pile->name, as_shown(settings_, shown_mass(left->value(), settings)),
                as_shown(settings_, mass.text)});
  }
  return true;
}

bool App::commit_step_weight() {
  const auto mass = typed_mass();
  if (!mass) return false;
  for (auto step = open_->figures.steps.rbegin(); step != open_->figures.steps.rend(); ++step) {
    if (step->from_pile != draft_.field.subject) continue;
    body::Step like;
    like.key = step->key;
    const auto* now = latest<body::Step>(like);
    if (now == nullptr) continue;
    if (takes_too_much(step->from_pile, *mass, step->process, step->key)) return false;
    body::Step weighed = *now;
    weighed.weight = *mass;
    weighed.division = open_->figures.settings.division;
    return put_fact(std::move(weighed), mass->text);
  }
  tell_error("notice.no-step");
  return false;
}

bool App::commit_transfer() {
  const auto mass = typed_mass();
  if (!mass) return false;
  const std::string from = draft_.field.subject;
  if (draft_.pile.empty() || draft_.pile == from) {
    tell("notice.choose-other-pile");
    return false;
  }
  if (takes_too_much(from, *mass, Process::other, {})) return false;
  Writing writing = this->writing();
  writing.add(body::Transfer{from, draft_.pile, *mass, open_->figures.settings.division});
  const std::string to = pile_name(draft_.pile);
  return put(
      std::move(writing),
      {"notice.carried", {as_shown(settings_, mass->text), pile_name(from), to}, true, false},
      [this] { after_field(); });
}

}  // namespace tallyblock
