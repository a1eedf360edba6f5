#include "acts_of_blocks.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/decimal.h"
#include "core/base/rounding.h"
#include "core/cutting/advice_text.h"
#include "core/cutting/ruler.h"
#include "core/typed/slips.h"
#include "guided.h"
#include "web/app/desk/line_of.h"
#include "web/app/keypad/digits.h"
#include "work.h"

namespace tallyblock {
namespace {

// How many digits stand behind the decimal mark.
int decimals_of(const std::string& digits) {
  const std::size_t mark = digits.find('.');
  return mark == std::string::npos ? 0 : static_cast<int>(digits.size() - mark - 1);
}

// The fewest digits behind the mark that show the number; 3 at most.
int digits_behind(double number) {
  int digits = 0;
  for (; digits < 3 && std::abs(number - std::round(number)) > 1e-6; number *= 10.0) ++digits;
  return digits;
}

bool is_plain_number(const std::string& digits) {
  return !digits.empty() && digits.find_first_not_of("0123456789.") == std::string::npos;
}

// What else the digits may have been, as they would be typed: "61", or "61 oz" on the keys for pounds and ounces.
std::vector<std::string> meant(const std::string& typed_digits, Mass mass, Mass expected,
                               Mass division, double log_sd) {
  std::vector<std::string> all;
  const std::size_t sign = typed_digits.find(" oz");
  const std::string digits = typed_digits.substr(0, sign);
  const std::string behind = sign == std::string::npos ? "" : typed_digits.substr(sign);
  if (!is_plain_number(digits)) return all;
  const int seen = decimals_of(digits);
  const double typed = read_decimal(digits).value;
  const double unit = mass.in_grams() / typed;
  const int decimals = std::max(seen, digits_behind(division.in_grams() / unit));
  for (const double one : likely_meant(typed, decimals, expected.in_grams() / unit, log_sd, 2)) {
    all.push_back(fixed_text(one, std::max(seen, digits_behind(one))) + behind);
  }
  return all;
}

// Too far from what the cut should have given. True: the digits wait for an answer.
bool asks_weight(Work& w, const Followed& f, Mass mass, unsigned count) {
  if (w.keypad.asked.weight_sure || !(f.log_sd > 0.0)) return false;
  const Mass expected = f.expected * static_cast<double>(count);
  if (surprise(mass.in_grams(), expected.in_grams(), f.log_sd) <= kImprobable) return false;
  const std::string& digits = w.draft().digits;
  const Mass division = w.figures().settings.division.mass;
  w.keypad.asked.weight =
      AskedWeight{digits, meant(digits, mass, expected, division, f.log_sd), expected};
  return true;
}

// The cut with the advice it follows.
body::Cut cut_after(const OpenSession& open, const Followed& f) {
  const LengthUnit ruler = ruler_unit_of(open);
  body::Cut made;
  made.step = kMainStep;
  if (const auto mark = parse_length(ruler_text(f.thickness, ruler), "mark")) made.mark = *mark;
  if (const auto target = parse_mass(shown_mass(f.target, open.figures.settings), "target")) {
    made.target = *target;
  }
  made.plan =
      advice_text({f.k, f.pile, f.long_piece, f.thickness, f.expected, f.other, f.counted}, ruler);
  return made;
}

}  // namespace

// A block: the cut with the advice it followed, and its weight.
Made commit_block(Work& w) {
  const std::optional<Followed> f = followed(w.open(), w.draft(), w.desk.cutting());
  if (!f) return {};
  const auto mass = typed_mass(w, Sign::positive_only);
  if (!mass) return mass.problem();
  const unsigned count = std::clamp(w.draft().count, 1U, std::max(1U, f->missing));
  if (asks_weight(w, *f, mass->mass, count)) return {};
  std::optional<EntryId> cut = f->cut;
  if (!cut) cut = w.to.add(cut_after(w.open(), *f));
  body::Reading reading;
  reading.pile = f->pile;
  reading.habit = Habit::piece;
  reading.weight = *mass;
  reading.division = w.figures().settings.division;
  reading.count = count;
  reading.cut = cut;
  reading.sure = w.keypad.asked.weight_sure;
  return one(
      w, std::move(reading),
      done("notice.weighed", {as_shown(w.settings, weight_text(w.draft().digits, w.draft().unit)),
                              pile_name(w.open(), f->pile)}));
}

Made trim_block(const OpenSession& open, Writing to, const EntryId& block, Mass target,
                const std::string& pile, const AppSettings& settings) {
  const auto* found = body_at<body::Reading>(open, block);
  if (found == nullptr || !found->cut) return {};
  const ReadingLine* line = line_of(open.figures, block);
  const auto kept = parse_mass(shown_mass(target, open.figures.settings), "target");
  if (line == nullptr || !kept || !(line->net > kept->mass)) return {};
  const auto off = parse_mass(shown_mass(line->net - kept->mass, open.figures.settings), "trim");
  if (!off || !(off->mass > Mass())) return {};
  body::Reading portion = *found, trim;
  portion.pile = line->pile;
  portion.weight = *kept;
  portion.sure = false;
  portion.tub.clear();
  portion.tare.reset();
  trim.pile = pile;
  trim.habit = Habit::piece;
  trim.weight = *off;
  trim.division = found->division;
  trim.cut = found->cut;
  to.add(std::move(portion), {block});
  to.add(std::move(trim));
  return {std::move(to),
          done("notice.trimmed", {as_shown(settings, off->text), pile_name(open, pile)})};
}

std::optional<CookRecord> learned(const OpenSession& open, const CookRecord& shown,
                                  const EntryId& person) {
  if (shown.cuts == 0 || open.sample) return std::nullopt;
  const LiveView live(open.set);
  for (const Entry* entry : live.entries()) {
    const bool cut = std::holds_alternative<body::Cut>(entry->body);
    if (cut && entry->by.value_or(EntryId{}) != person) return std::nullopt;
  }
  return shown;
}

}  // namespace tallyblock
