// How the cook cuts, in words; whether to measure once more; and with a strong habit all marks at once, to be scored first.
#include <cmath>
#include <cstdlib>

#include "core/rounding.h"
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

namespace {

std::string text_of(const PlannedBlock& block) {
  std::string text;
  for (const Length at : {block.left_from, block.from, block.to}) {
    text += fixed_text(at.in_millimetres(), 4) + " ";
  }
  const auto k = static_cast<std::size_t>(block.k);
  for (const std::size_t n : {k, block.spec, std::size_t{block.counted}, block.other}) {
    text += std::to_string(n) + " ";
  }
  return text + std::to_string(block.other_counted);
}

std::optional<PlannedBlock> block_from(const std::string& text, std::size_t specs) {
  double numbers[8] = {};
  const char* at = text.c_str();
  for (double& number : numbers) {
    char* end = nullptr;
    number = std::strtod(at, &end);
    if (end == at || !(number >= 0.0) || number > 1e4) return std::nullopt;
    at = end;
  }
  PlannedBlock block;
  block.left_from = Length::millimetres(numbers[0]);
  block.from = Length::millimetres(numbers[1]);
  block.to = Length::millimetres(numbers[2]);
  block.k = static_cast<int>(numbers[3]);
  block.spec = static_cast<std::size_t>(numbers[4]);
  block.counted = static_cast<unsigned>(numbers[5]);
  block.other = static_cast<std::size_t>(numbers[6]);
  block.other_counted = static_cast<unsigned>(numbers[7]);
  const bool fits = block.k >= 1 && block.k <= 4 && block.spec < specs && block.other < specs;
  return fits ? std::optional(block) : std::nullopt;
}

std::vector<std::string> scored_text(const Ui& ui, const CuttingObject& object,
                                     const Guide::Advice& advice) {
  std::vector<std::string> text = {ui.app.session()->id, object.long_piece,
                                   std::to_string(object.cuts.size()),
                                   fixed_text(advice.stands_at.in_millimetres(), 4)};
  for (const PlannedBlock& block : advice.rest.blocks) text.push_back(text_of(block));
  return text;
}

}  // namespace

std::optional<ScoredMarks> scored_marks(const Ui& ui, const CuttingView& view,
                                        const CuttingObject& object) {
  const std::vector<std::string>& text = ui.draft().scored;
  if (text.size() < 5 || text[0] != ui.app.session()->id || text[1] != object.long_piece) return {};
  ScoredMarks marks;
  marks.first = static_cast<std::size_t>(std::strtoul(text[2].c_str(), nullptr, 10));
  marks.face = Length::millimetres(std::strtod(text[3].c_str(), nullptr));
  for (std::size_t i = 4; i < text.size(); ++i) {
    const std::optional<PlannedBlock> block = block_from(text[i], view.specs.size());
    if (!block) return {};
    marks.blocks.push_back(*block);
  }
  const std::size_t cuts = object.cuts.size();
  if (cuts < marks.first || cuts - marks.first >= marks.blocks.size()) return {};
  return marks;
}

// The place of a scored mark is known and the face before it by weight: so is the block between them.
NextCut next_cut(const Ui& ui, const CuttingView& view, const CuttingObject& object,
                 const Guide::Advice& advice) {
  const LengthUnit ruler = ui.app.ruler_unit();
  const Length next = ruler_mark(advice.next, ruler);
  const NextCut guided{advice.rest.blocks.front(), false, next, next, advice.expected};
  const std::optional<ScoredMarks> marks = scored_marks(ui, view, object);
  if (!marks) return guided;
  const PlannedBlock& block = marks->blocks[object.cuts.size() - marks->first];
  const double habit = std::exp(object.cook.habit);
  const Length thick = marks->face + block.to - advice.stands_at;
  const Length advised = advice.next * habit - advice.face_off;
  const Length asked = (thick + advice.face_off) * (1.0 / habit);
  const Length least = Length::millimetres(1.0);
  if (thick < least || advised < least || asked < least) return guided;
  const Mass all = advice.expected * static_cast<double>(advice.k) * (thick / advised);
  return {block, true, block.to, ruler_mark(asked, ruler), all / static_cast<double>(block.k)};
}

// The marks are the plan's: a habit shows in blocks that are set off from the face before, not in these.
// Such a cut is entered as if set off so, the habit allowed for, which gives the same: it is not unlearned.
void score_part(Ui& ui, const CuttingView& view, const PlanInput& input,
                const CuttingObject& object, const Guide::Advice& advice, bool first) {
  constexpr double strong = 0.04;
  const double habit = std::abs(object.cook.habit);
  const std::optional<ScoredMarks> marks = scored_marks(ui, view, object);
  if (!marks && (habit <= strong || habit <= object.cook.habit_sd)) return;
  if (ui.kit.button("cut/score", say("cut.score"), {.pressed = marks.has_value()})) {
    ui.app.score_marks(marks ? std::vector<std::string>() : scored_text(ui, object, advice));
  }
  if (!marks) return;
  ui.kit.paragraph(say("cut.score-why"), Tone::quiet, "cut/score-why");
  Plan left;
  const std::size_t done = object.cuts.size() - marks->first;
  left.blocks.assign(marks->blocks.begin() + static_cast<std::ptrdiff_t>(done),
                     marks->blocks.end());
  const char* from = first || marks->face < Length::millimetres(1.0) ? "cut.at"
                     : done == 0                                     ? "cut.thick"
                                                                     : "cut.at-scored";
  marks_table(ui, input, left, object.cuts.size(), say(from), false);
}

}  // namespace tallyblock
