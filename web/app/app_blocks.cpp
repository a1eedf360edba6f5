// Weighed blocks: the cut with its portions, a weight that is asked about, and what is trimmed off.
#include <algorithm>
#include <cmath>
#include <utility>

#include "app.h"
#include "core/base/rounding.h"
#include "core/cutting/advice_text.h"
#include "core/cutting/ruler.h"
#include "core/typed/slips.h"
#include "digits.h"
#include "line_of.h"

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

}  // namespace

void App::answer_weight(const std::string& digits) {
  if (!asked_weight_) return;
  weight_sure_ = digits == asked_weight_->digits;
  draft_.digits = digits;
  asked_weight_.reset();
  enter();
}

// Too far from what the cut should have given. True: the digits wait for an answer.
bool App::asks_weight(const TypedMass& mass, unsigned count) {
  if (!followed_ || weight_sure_) return false;
  const Followed& f = *followed_;
  if (!(f.log_sd > 0.0)) return false;
  const Mass expected = f.expected * static_cast<double>(count);
  if (surprise(mass.mass.in_grams(), expected.in_grams(), f.log_sd) <= kImprobable) return false;
  AskedWeight asked{draft_.digits, {}, expected};
  // "61", or "61 oz" on the keys for pounds and ounces.
  const std::size_t sign = draft_.digits.find(" oz");
  const std::string digits = draft_.digits.substr(0, sign);
  const std::string behind = sign == std::string::npos ? "" : draft_.digits.substr(sign);
  if (is_plain_number(digits)) {
    const int seen = decimals_of(digits);
    const double typed = std::stod(digits);
    const double unit = mass.mass.in_grams() / typed;
    const double step = open_->figures.settings.division.mass.in_grams() / unit;
    const int decimals = std::max(seen, digits_behind(step));
    for (const double one :
         likely_meant(typed, decimals, expected.in_grams() / unit, f.log_sd, 2)) {
      asked.meant.push_back(fixed_text(one, std::max(seen, digits_behind(one))) + behind);
    }
  }
  asked_weight_ = std::move(asked);
  changed();
  return true;
}

// A block: the cut with the advice it followed, and its weight. The keypad stays for the next one.
bool App::commit_block() {
  if (!followed_) return false;
  const Followed& f = *followed_;
  const auto mass = typed_mass(Sign::positive_only);
  if (!mass) return false;
  const unsigned count = std::clamp(draft_.count, 1U, std::max(1U, f.missing));
  if (asks_weight(*mass, count)) return false;
  Writing writing = this->writing();
  std::optional<EntryId> cut = f.cut;
  if (!cut) {
    body::Cut made;
    made.step = kMainStep;
    const auto mark = parse_length(ruler_text(f.thickness, ruler_unit()), "mark");
    if (mark) made.mark = *mark;
    const auto target = parse_mass(shown_mass(f.target, open_->figures.settings), "target");
    if (target) made.target = *target;
    made.plan = advice_text(
        {f.k, f.pile, f.long_piece, f.thickness, f.expected, f.other, f.counted}, ruler_unit());
    cut = writing.add(std::move(made));
  }
  body::Reading reading;
  reading.pile = f.pile;
  reading.habit = Habit::piece;
  reading.weight = *mass;
  reading.division = open_->figures.settings.division;
  reading.count = count;
  reading.cut = cut;
  reading.sure = weight_sure_;
  writing.add(std::move(reading));
  const std::string name = pile_name(f.pile);
  const std::string shown = as_shown(settings_, weight_text(draft_.digits, draft_.unit));
  return put(std::move(writing), {"notice.weighed", {shown, name}, true, false}, [this] {
    draft_.digits.clear();
    field_problem_.reset();
    followed_.reset();
    forget_asked();
    block_made_ = true;
  });
}

// The block as it is now, and what came off it, in one act: what the cut gave stays known, to the digit
// that weights are shown with.
void App::trim_block(const EntryId& block, Mass target, const std::string& pile) {
  if (!may_write()) return;
  const Entry* entry = open_->set.find(block);
  const auto* found = entry == nullptr ? nullptr : std::get_if<body::Reading>(&entry->body);
  if (found == nullptr || !found->cut) return;
  const ReadingLine* line = line_of(open_->figures, block);
  const auto kept = parse_mass(shown_mass(target, open_->figures.settings), "target");
  if (line == nullptr || !kept || !(line->net > kept->mass)) return;
  const auto off = parse_mass(shown_mass(line->net - kept->mass, open_->figures.settings), "trim");
  if (!off || !(off->mass > Mass())) return;
  body::Reading portion = *found, trim;
  portion.pile = line->pile;
  portion.weight = *kept;
  for (body::Reading* each : {&portion, &trim}) {
    each->sure = false;
    each->tub.clear();
    each->tare.reset();
  }
  trim.pile = pile;
  trim.habit = Habit::piece;
  trim.weight = *off;
  trim.division = found->division;
  trim.cut = found->cut;
  Writing writing = this->writing();
  writing.add(std::move(portion), {entry->id});
  writing.add(std::move(trim));
  put(std::move(writing),
      {"notice.trimmed", {as_shown(settings_, off->text), pile_name(pile)}, true, false}, [] {});
}

// What was trimmed off the block that the reading weighs, where its cut gave that one block.
std::vector<EntryId> App::trims_of(const EntryId& id) const {
  std::vector<EntryId> trims;
  const auto* block = std::get_if<body::Reading>(&open_->set.find(id)->body);
  if (block == nullptr || !block->cut || target_of(open_->figures, block->pile) == nullptr)
    return trims;
  const Entry* cut = open_->set.find(*block->cut);
  const auto* made = cut == nullptr ? nullptr : std::get_if<body::Cut>(&cut->body);
  if (made == nullptr || advice_from(made->plan).k != 1) return trims;
  for (const Entry* entry : open_->set.in_order()) {
    const auto* other = std::get_if<body::Reading>(&entry->body);
    if (other != nullptr && other->cut == block->cut &&
        target_of(open_->figures, other->pile) == nullptr) {
      trims.push_back(entry->id);
    }
  }
  return trims;
}

}  // namespace tallyblock
