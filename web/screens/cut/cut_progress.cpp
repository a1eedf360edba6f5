// What is off and what is still to come, on the piece.
#include <algorithm>

#include "core/cutting/ruler.h"
#include "cut_parts.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

CutState state_of(const CuttingView& view, const CutLine& cut) {
  if (cut.portions.empty()) return CutState::unweighed;
  for (std::size_t i = 0; i < std::min(cut.verdicts.size(), cut.portions.size()); ++i) {
    if (cut.verdicts[i].fate == Fate::keep) continue;
    return cut.portions[i] < view.specs[cut.meant[i]].target ? CutState::short_ : CutState::over;
  }
  return CutState::cut;
}

}  // namespace

// What is left, by the re-plan, on the piece; the blocks that are off stand before it.
void guide_drawing(Ui& ui, const CuttingView& view, const PlanInput& input,
                   const CuttingObject& object, const Guide::Advice& advice) {
  CutDrawing drawing = piece_drawing(ui);
  const Length length = input.shape.length();
  drawing.trim_front = object.long_piece.empty() ? in_mm(input.trim_front) : 0.0F;
  drawing.trim_back = object.long_piece.empty() ? in_mm(input.trim_back) : 0.0F;
  const Length now = object.from + advice.stands_at;
  float from = in_mm(object.from) + drawing.trim_front;
  const float stands = in_mm(std::min(now, length));
  drawing.cut_to = stands;
  const CutLine* open = open_cut(object);
  const auto cuts = static_cast<float>(object.cuts.size());
  for (std::size_t i = 0; i < object.cuts.size(); ++i) {
    // Where each cut fell is not known to the millimetre: they share what is off.
    const float to = from + (stands - from) / (cuts - static_cast<float>(i));
    const CutState state =
        &object.cuts[i] == open ? CutState::unweighed : state_of(view, object.cuts[i]);
    drawing.blocks.push_back({from, to, object.cuts[i].k, std::to_string(i + 1), state});
    drawing.marks.emplace_back();
    from = to;
  }
  // Each follows the one before it, as it will be cut; what is left over lies at the far end.
  float face = stands;
  for (std::size_t i = 0; i < advice.rest.blocks.size(); ++i) {
    const PlannedBlock& block = advice.rest.blocks[i];
    if (i == 0) face += in_mm(block.from);  // refused by the limits
    const Length thick =
        i == 0 ? ruler_mark(advice.next, ui.app.desk().ruler_unit()) : block.to - block.from;
    const float to = std::min(face + in_mm(thick), in_mm(length));
    drawing.blocks.push_back({face, to, block.k, std::to_string(object.cuts.size() + i + 1),
                              i == 0 && open == nullptr ? CutState::next : CutState::planned});
    face = to;
    drawing.marks.emplace_back();
  }
  drawing.name = say(form_of("cut.drawn-plan", static_cast<double>(drawing.blocks.size())),
                     {length_shown(ui, length), std::to_string(drawing.blocks.size())});
  cut_drawing(ui.kit, "cut/piece", drawing, {.small = true});
}

}  // namespace tallyblock
