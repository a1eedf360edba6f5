// How the cook cuts, in words; whether to measure once more; and with a strong habit all marks at once, to be scored first.
#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "core/base/rounding.h"
#include "core/cutting/ruler.h"
#include "cut_parts.h"
#include "web/words/words.h"

namespace tallyblock {

// A habit is worth a word when it is more than its own uncertainty; within it, when that is small.
void habit_words(Ui& ui, const CookRecord& cook) {
  constexpr double sure = 0.02;
  const char* key = "cut.habit-unknown";
  double share = 0.0;
  if (cook.cuts >= 3) {
    share = std::exp(cook.habit) - 1.0;
    const bool clear = std::abs(cook.habit) > cook.habit_sd;
    key = clear ? (share > 0.0 ? "cut.habit-heavy" : "cut.habit-light")
                : (cook.habit_sd < sure ? "cut.habit-true" : "cut.habit-unclear");
  }
  ui.kit.paragraph(say(key, {show::percent(std::abs(share), ui.style)}), Tone::quiet, "cut/habit");
}

// One more measure is asked for only where it gains something; before the first cut, while the ruler lies there.
void ask_for_measure(Ui& ui, const CuttingObject& object, const Guide::Advice& advice) {
  constexpr double worth_it = 0.08;
  const bool whole = object.cuts.empty() && object.long_piece.empty() && !advice.done;
  if (!whole || advice.within_if_measured - advice.within < worth_it) return;
  const auto percent = [](double share) { return std::to_string(std::lround(100.0 * share)); };
  const Length at = ruler_mark(advice.measure_at, ui.app.desk().ruler_unit());
  ui.kit.paragraph(
      say("cut.measure-gains",
          {length_shown(ui, at), percent(advice.within_if_measured), percent(advice.within)}),
      Tone::normal, "cut/measure-gains");
  if (!ui.kit.button("cut/add-place", say("cut.add-place"))) return;
  open_part(ui, "measure");
  ask::edit(ui.app, {FieldKind::length, "at"});
}

namespace {

bool without_gaps(const Plan& plan) {
  return std::ranges::none_of(
      plan.blocks, [](const PlannedBlock& block) { return block.left_from < block.from; });
}

}  // namespace

Guide::Advice with_scored(const NextCut& next, Guide::Advice advice) {
  if (!next.scored || !next.marks) return advice;
  advice.next = next.mark;
  advice.rest.blocks = next.marks->blocks;
  advice.rest.blocks.front().from = advice.rest.blocks.front().left_from = Length();
  advice.left = 0;
  for (const PlannedBlock& block : next.marks->blocks) {
    advice.left += block.counted + block.other_counted;
  }
  return advice;
}

// The marks are the plan's: a habit shows in blocks that are set off from the face before, not in these.
// Such a cut is entered as if set off so, the habit allowed for, which gives the same: it is not unlearned.
void score_part(Ui& ui, const CuttingView& view, const PlanInput& input,
                const CuttingObject& object, const Guide::Advice& advice,
                const std::optional<ScoredMarks>& marks, bool first) {
  constexpr double strong = 0.04;
  const double habit = std::abs(object.cook.habit);
  const bool offered = habit > strong && habit > object.cook.habit_sd && without_gaps(advice.rest);
  if (!marks && !offered) return;
  if (ui.kit.button("cut/score", say("cut.score"), {.pressed = marks.has_value()})) {
    ask::score_marks(ui.app, scored_key(*ui.app.session(), object),
                     marks ? "" : scored_text(view, object, advice));
  }
  if (!marks) return;
  ui.kit.paragraph(say("cut.score-why"), Tone::quiet, "cut/score-why");
  Plan left;
  left.blocks = marks->blocks;
  const char* from = first || marks->face < Length::millimetres(1.0) ? "cut.at"
                     : marks->blocks.front().from == Length()        ? "cut.thick"
                                                                     : "cut.at-scored";
  marks_table(ui, input, left, object.cuts.size(), say(from), false);
}

}  // namespace tallyblock
