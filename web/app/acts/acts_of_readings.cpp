// Digits that become a reading of the scale, and how many pieces lay on it.
#include "acts_of_readings.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "web/app/desk/line_of.h"
#include "web/app/keypad/digits.h"
#include "work.h"

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

// Live readings of a pile that no other reading of it includes yet; of a named tub, not those weighed
// in another one.
std::vector<EntryId> uncovered_of(const OpenSession& open, const std::string& pile,
                                  const std::string& tub) {
  std::vector<EntryId> ids;
  for (const PileFigures& figures : open.figures.piles) {
    if (figures.key != pile) continue;
    for (const ReadingLine& line : figures.lines) {
      if (line.is_void || line.covered) continue;
      const auto& reading = std::get<body::Reading>(open.set.find(line.id)->body);
      if (!tub.empty() && !reading.tub.empty() && reading.tub != tub) continue;
      ids.push_back(line.id);
    }
  }
  return ids;
}

// The weight is not less than that of the tub it was weighed in, else the problem.
std::optional<Problem> under_its_tub(const Work& w, const body::Reading& reading) {
  const TubFigures* tub = tub_named(w.figures(), reading.tub);
  if (tub == nullptr || reading.weight.mass >= tub->tare.mass) return std::nullopt;
  return Problem{Code::typed_under_tub, "reading", {Arg::typed(tub->tare.text)}};
}

// How many portions the reading weighs like, 1 where it is like one or cannot be told. Only portions
// are alike: what is trimmed off comes in every size.
unsigned looks_like(const Figures& figures, const body::Reading& reading) {
  const PileFigures* pile = pile_named(figures, reading.pile);
  if (pile == nullptr || pile->role != Role::primary || !is_single(reading.habit)) return 1;
  const std::optional<Mass> one = one_piece(figures, *pile);
  if (!one) return 1;
  Mass net = reading.weight.mass;
  if (net < Mass()) net = -net;
  if (const TubFigures* tub = tub_named(figures, reading.tub)) net -= tub->tare.mass;
  return like_several(net, *one);
}

// A portion that weighs like several is asked about, not believed. True: the digits wait for it.
bool asks_count(Work& w, const body::Reading& reading) {
  const bool said = reading.count > 1 || w.keypad.asked.count_said;
  const unsigned like = said ? 1 : looks_like(w.figures(), reading);
  if (like == 1) return false;
  w.keypad.asked.count = like;
  w.draft().panel = "count";
  return true;
}

}  // namespace

unsigned like_several(Mass weight, Mass one) {
  constexpr double like_two = 1.75;
  if (!(one > Mass())) return 1;
  const double times = std::abs(weight / one);
  return times < like_two ? 1 : static_cast<unsigned>(std::lround(std::min(times, 999.0)));
}

Made commit_reading(Work& w) {
  const Draft& draft = w.draft();
  if (draft.digits.empty()) return Problem{Code::typed_empty, "reading", {}};
  if (pile_named(w.figures(), draft.pile) == nullptr) return Notice{"notice.choose-pile", {}};
  body::Reading reading;
  reading.pile = draft.pile;
  reading.habit = habit_from(draft.habit).value_or(Habit::piece);
  const bool off = reading.habit == Habit::taken_off;
  const auto mass = typed_mass(w, off ? Sign::negative_only : Sign::positive_only);
  if (!mass) return mass.problem();
  reading.weight = *mass;
  reading.division = w.figures().settings.division;
  reading.count = draft.count;
  if (!off && tub_named(w.figures(), draft.tub) != nullptr) reading.tub = draft.tub;
  if (auto problem = under_its_tub(w, reading)) return *std::move(problem);
  if (asks_count(w, reading)) return {};
  if (reading.habit == Habit::tub_now) {
    reading.covers = uncovered_of(w.open(), draft.pile, reading.tub);
  }
  return one(w, std::move(reading),
             done(off ? "notice.taken-off" : "notice.weighed",
                  {as_shown(w.settings, weight_text(draft.digits, draft.unit)),
                   pile_name(w.open(), draft.pile)}));
}

// A weight typed wrong, or several pieces taken for one: the same reading with another weight or
// another count in its place. No digits: the weight stays.
Made commit_anew(Work& w) {
  const auto id = entry_id_from(w.field().subject);
  const auto* found = id ? body_at<body::Reading>(w.open(), *id) : nullptr;
  if (!id || found == nullptr) {
    w.keypad.edit({FieldKind::reading, ""}, &w.open(), w.settings);
    return {};
  }
  body::Reading reading = *found;
  reading.count = w.draft().count;
  if (!w.draft().digits.empty() || reading.count == found->count) {
    const bool off = found->habit == Habit::taken_off;
    const auto mass = typed_mass(w, off ? Sign::negative_only : Sign::positive_only);
    if (!mass) return mass.problem();
    reading.weight = *mass;
    reading.sure = reading.cut.has_value();  // looked at once more
  }
  const ReadingLine* line = line_of(w.figures(), *id);
  if (line != nullptr) reading.pile = line->pile;  // where it was moved to
  if (auto problem = under_its_tub(w, reading)) return *std::move(problem);
  if (asks_count(w, reading)) return {};
  Notice notice = done("notice.anew", {as_shown(w.settings, reading.weight.text),
                                       as_shown(w.settings, found->weight.text)});
  if (reading.count != found->count) {
    notice.key = "notice.counted-anew";
    notice.args = {as_shown(w.settings, reading.weight.text), std::to_string(reading.count)};
  }
  w.to.add(std::move(reading), {*id});
  return {std::move(w.to), std::move(notice)};
}

}  // namespace tallyblock
