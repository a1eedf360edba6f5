// How the cook cuts, in words; whether to measure once more; and with a strong habit all marks at once, to be scored first.
#include <cmath>

#include "core/ruler.h"
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
  const Length at = ruler_mark(advice.measure_at, ui.app.ruler_unit());
  ui.kit.paragraph(
      say("cut.measure-gains",
          {length_shown(ui, at), percent(advice.within_if_measured), percent(advice.within)}),
      Tone::normal, "cut/measure-gains");
  if (!ui.kit.button("cut/add-place", say("cut.add-place"))) return;
  open_part(ui, "measure");
  ui.app.edit({FieldKind::length, "at"});
}

// The marks are the plan's: a habit shows in blocks that are set off from the face before, not in these.
// Such a cut is entered as if set off so, the habit allowed for, which gives the same: it is not unlearned.
void score_part(Ui& ui, const PlanInput& input, const CuttingObject& object,
                const Guide::Advice& advice, bool first) {
  constexpr double strong = 0.04;
  const double habit = std::abs(object.cook.habit);
  const bool open = ui.draft().selected == kScore;
  if (!open && (habit <= strong || habit <= object.cook.habit_sd)) return;
  if (ui.kit.button("cut/score", say("cut.score"), {.pressed = open})) {
    ui.app.select(open ? "" : kScore);
  }
  if (!open) return;
  ui.kit.paragraph(say("cut.score-why"), Tone::quiet, "cut/score-why");
  marks_table(ui, input, advice.rest, object.cuts.size(), say(first ? "cut.at" : "cut.thick"),
              false);
}

}  // namespace tallyblock
