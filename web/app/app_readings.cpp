// Digits that become a reading of the scale, and how many pieces lay on it.
#include <algorithm>
#include <cmath>
#include <utility>

#include "app.h"
#include "digits.h"
#include "line_of.h"

namespace tallyblock {
namespace {

bool is_single(Habit habit) { return habit == Habit::piece || habit == Habit::taken_off; }

// What one piece of the pile weighs: its target, else the mean of those weighed one by one.
std::optional<Mass> one_piece(const Figures& figures, const PileFigures& pile) {
  if (const TargetFigures* target = target_of(figures, pile.key)) return target->target;
  Mass sum;
  unsigned pieces = 0;
  for (const ReadingLine& line : pile.lines) {
    if (line.is_void || line.count != 1 || !is_single(line.habit)) continue;
    sum += line.net;
    ++pieces;
  }
  if (pieces < 2) return std::nullopt;
  return sum * (1.0 / pieces);
}

}  // namespace

unsigned like_several(Mass weight, Mass one) {
  constexpr double like_two = 1.75;
  if (!(one > Mass())) return 1;
  const double times = std::abs(weight / one);
  return times < like_two ? 1 : static_cast<unsigned>(std::lround(std::min(times, 999.0)));
}

// Live readings of a pile that no other reading of it includes yet; of a named tub, not those weighed
// in another one.
std::vector<EntryId> App::uncovered_of(const std::string& pile, const std::string& tub) const {
  std::vector<EntryId> ids;
  for (const PileFigures& figures : open_->figures.piles) {
    if (figures.key != pile) continue;
    for (const ReadingLine& line : figures.lines) {
      if (line.is_void || line.covered) continue;
      const auto& reading = std::get<body::Reading>(open_->set.find(line.id)->body);
      if (!tub.empty() && !reading.tub.empty() && reading.tub != tub) continue;
      ids.push_back(line.id);
    }
  }
  return ids;
}

// The weight is not less than that of the tub it was weighed in; refused with a sentence if it is.
bool App::holds_its_tub(const body::Reading& reading) {
  const TubFigures* tub = tub_named(open_->figures, reading.tub);
  if (tub == nullptr || reading.weight.mass >= tub->tare.mass) return true;
  return refuse({Code::typed_under_tub, "reading", {Arg::typed(tub->tare.text)}});
}

// How many portions the reading weighs like, 1 where it is like one or cannot be told. Only portions
// are alike: what is trimmed off comes in every size.
unsigned App::looks_like(const body::Reading& reading) const {
  const PileFigures* pile = pile_named(open_->figures, reading.pile);
  if (pile == nullptr || pile->role != Role::primary || !is_single(reading.habit)) return 1;
  const std::optional<Mass> one = one_piece(open_->figures, *pile);
  if (!one) return 1;
  Mass net = reading.weight.mass;
  if (net < Mass()) net = -net;
  if (const TubFigures* tub = tub_named(open_->figures, reading.tub)) net -= tub->tare.mass;
  return like_several(net, *one);
}

// A portion that weighs like several is asked about, not believed. True: the digits wait for it.
bool App::asks_count(const body::Reading& reading) {
  const unsigned like = reading.count > 1 || count_said_ ? 1 : looks_like(reading);
  if (like == 1) return false;
  asked_count_ = like;
  draft_.panel = "count";
  changed_draft();
  return true;
}

bool App::commit_reading() {
  if (draft_.digits.empty()) return refuse({Code::typed_empty, "reading", {}});
  if (draft_.pile.empty()) {
    tell("notice.choose-pile");
    return false;
  }
  body::Reading reading;
  reading.pile = draft_.pile;
  reading.habit = habit_from(draft_.habit).value_or(Habit::piece);
  const bool off = reading.habit == Habit::taken_off;
  const auto mass = typed_mass(off ? Sign::negative_only : Sign::positive_only);
  if (!mass) return false;
  reading.weight = *mass;
  reading.division = open_->figures.settings.division;
  reading.count = draft_.count;
  if (!off && tub_named(open_->figures, draft_.tub) != nullptr) reading.tub = draft_.tub;
  if (!holds_its_tub(reading) || asks_count(reading)) return false;
  if (reading.habit == Habit::tub_now) reading.covers = uncovered_of(draft_.pile, reading.tub);
  Writing writing = this->writing();
  const std::string pile = pile_name(draft_.pile);
  writing.add(std::move(reading));
  const char* key = off ? "notice.taken-off" : "notice.weighed";
  const std::string shown = as_shown(settings_, weight_text(draft_.digits, draft_.unit));
  return put(std::move(writing), {key, {shown, pile}, true, false}, [this] { after_field(); });
}

// A weight typed wrong, or several pieces taken for one: the same reading with another weight or
// another count in its place. No digits: the weight stays.
bool App::commit_anew() {
  const auto id = entry_id_from(draft_.field.subject);
  const Entry* entry = id ? open_->set.find(*id) : nullptr;
  const auto* found = entry == nullptr ? nullptr : std::get_if<body::Reading>(&entry->body);
  if (found == nullptr) {
    edit({FieldKind::reading, ""});
    return false;
  }
  body::Reading reading = *found;
  reading.count = draft_.count;
  if (!draft_.digits.empty() || reading.count == found->count) {
    const bool off = found->habit == Habit::taken_off;
    const auto mass = typed_mass(off ? Sign::negative_only : Sign::positive_only);
    if (!mass) return false;
    reading.weight = *mass;
    reading.sure = reading.cut.has_value();  // looked at once more
  }
  const ReadingLine* line = line_of(open_->figures, entry->id);
  if (line != nullptr) reading.pile = line->pile;  // where it was moved to
  if (!holds_its_tub(reading) || asks_count(reading)) return false;
  Notice notice{"notice.anew",
                {as_shown(settings_, reading.weight.text), as_shown(settings_, found->weight.text)},
                true,
                false};
  if (reading.count != found->count) {
    notice.key = "notice.counted-anew";
    notice.args = {as_shown(settings_, reading.weight.text), std::to_string(reading.count)};
  }
  Writing writing = this->writing();
  writing.add(std::move(reading), {entry->id});
  return put(std::move(writing), std::move(notice), [this] { after_field(); });
}

}  // namespace tallyblock
