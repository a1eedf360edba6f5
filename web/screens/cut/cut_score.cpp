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

std::string key_of(const Ui& ui, const CuttingObject& object) {
  return ui.app.session()->id + "/" + object.long_piece;
}

Mass whole_of(const CuttingView& view, const CuttingObject& object) {
  if (object.weight) return *object.weight;
  return view.input ? view.input->shape.mass() : Mass();
}

std::string text_of(const CuttingView& view, const CuttingObject& object,
                    const Guide::Advice& advice) {
  std::string text = fixed_text((object.to - object.from).in_millimetres(), 2) + " " +
                     fixed_text(whole_of(view, object).in_grams(), 2) + " " +
                     fixed_text(advice.stands_at.in_millimetres(), 4);
  for (const PlannedBlock& block : advice.rest.blocks) {
    const bool two = block.other_counted > 0;
    text += ";" + fixed_text(block.to.in_millimetres(), 4) + " " + std::to_string(block.k) + " " +
            std::to_string(block.counted) + " " + view.specs[block.spec].name + " " +
            std::to_string(block.other_counted) + " " +
            view.specs[two ? block.other : block.spec].name;
  }
  return text;
}

// Words parted by blanks.
std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words(1);
  for (const char c : text) {
    if (c == ' ') {
      words.emplace_back();
    } else {
      words.back() += c;
    }
  }
  return words;
}

// Of text that may be anything: below 0 and beyond what is cut at a board is -1.
double number_in(const std::string& word) {
  const double number = std::strtod(word.c_str(), nullptr);
  return number >= 0.0 && number < 1e6 ? number : -1.0;
}

std::optional<PlannedBlock> block_from(const std::string& text, const CuttingView& view) {
  const std::vector<std::string> words = words_of(text);
  if (words.size() != 6) return std::nullopt;
  const double to = number_in(words[0]), k = number_in(words[1]);
  const double counted = number_in(words[2]), others = number_in(words[4]);
  PlannedBlock block;
  block.spec = spec_of(view.specs, words[3]);
  block.other = spec_of(view.specs, words[5]);
  const bool known = block.spec < view.specs.size() && block.other < view.specs.size();
  if (!known || !(to >= 0.0) || !(k >= 1.0) || k > 4.0 || counted < 0.0 || others < 0.0) return {};
  if (counted + others > k) return std::nullopt;
  block.to = Length::millimetres(to);
  block.k = static_cast<int>(k);
  block.counted = static_cast<unsigned>(counted);
  block.other_counted = static_cast<unsigned>(others);
  return block;
}

bool without_gaps(const Plan& plan) {
  return std::ranges::none_of(
      plan.blocks, [](const PlannedBlock& block) { return block.left_from < block.from; });
}

// A mark counts as cut when the face stands nearer to it than to the one before.
std::optional<ScoredMarks> scored_marks(const Ui& ui, const CuttingView& view,
                                        const CuttingObject& object) {
  const auto found = ui.draft().scored.find(key_of(ui, object));
  if (found == ui.draft().scored.end() || !object.advice || !view.input) return std::nullopt;
  const std::string& text = found->second;
  std::size_t end = std::min(text.find(';'), text.size());
  const std::vector<std::string> head = words_of(text.substr(0, end));
  if (head.size() != 3) return std::nullopt;
  const double length = (object.to - object.from).in_millimetres();
  const double grams = whole_of(view, object).in_grams();
  const bool same =
      std::abs(number_in(head[0]) - length) < 0.1 && std::abs(number_in(head[1]) - grams) < 0.1;
  if (!same) return std::nullopt;
  ScoredMarks marks{Length::millimetres(std::max(0.0, number_in(head[2]))), {}};
  Length from;
  while (end < text.size()) {
    const std::size_t next = std::min(text.find(';', end + 1), text.size());
    std::optional<PlannedBlock> block = block_from(text.substr(end + 1, next - end - 1), view);
    end = next;
    if (!block || !(block->to > from)) return std::nullopt;
    block->from = block->left_from = from;
    from = block->to;
    const Length middle = marks.face + (block->from + block->to) / 2.0;
    if (object.advice->stands_at < middle) marks.blocks.push_back(*block);
  }
  return marks.blocks.empty() ? std::nullopt : std::optional(marks);
}

}  // namespace

// The place of a scored mark is known and the face before it by weight: so is the block between them.
NextCut next_cut(const Ui& ui, const CuttingView& view, const CuttingObject& object,
                 const Guide::Advice& advice) {
  const LengthUnit ruler = ui.app.ruler_unit();
  const Length next = ruler_mark(advice.next, ruler);
  NextCut guided{advice.rest.blocks.front(),    false, next, next, advice.expected,
                 scored_marks(ui, view, object)};
  const std::optional<ScoredMarks>& marks = guided.marks;
  if (!marks) return guided;
  const PlannedBlock& block = marks->blocks.front();
  const double habit = std::exp(object.cook.habit);
  const Length thick = marks->face + block.to - advice.stands_at;
  const Length advised = advice.next * habit - advice.face_off;
  const Length asked = (thick + advice.face_off) * (1.0 / habit);
  const Length least = Length::millimetres(1.0);
  if (thick < least || advised < least || asked < least) return guided;
  const Mass all = advice.expected * static_cast<double>(advice.k) * (thick / advised);
  return {block,
          true,
          ruler_mark(thick, ruler),
          ruler_mark(asked, ruler),
          std::min(all, object.remaining) / static_cast<double>(block.k),
          marks};
}

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
    ui.app.score_marks(key_of(ui, object), marks ? "" : text_of(view, object, advice));
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
