// Parts of the screen "where to cut": measuring, plan, guide.
#pragma once
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/cutting/cutting.h"
#include "web/app/acts/guided.h"
#include "web/kit/cut_drawing.h"
#include "web/screens/parts.h"

namespace tallyblock {

// A problem of the core, its lengths and weights as this session shows them.
std::string plan_words(const Ui& ui, const Problem& problem);
std::string length_shown(const Ui& ui, Length length);
std::string length_bare(const Ui& ui, Length length);  // where the ruler is said once: "120"
// Where the section is split, from the edge, at its first and its last face.
std::string split_words(const Ui& ui, const Shape& shape, const PlannedSection& section);
float in_mm(Length length);
// The piece from above with the stations measured so far; handles are chosen by the caller.
CutDrawing piece_drawing(const Ui& ui);
CutFaceShape face_drawing(const Ui& ui, const Shape& shape, const PlannedSection& section);

void guide_drawing(Ui& ui, const CuttingView& view, const PlanInput& input,
                   const CuttingObject& object, const Guide::Advice& advice);
void what_to_do(Ui& ui, const CuttingView& view, const CutLine& cut);  // with a block that is off
void last_block(Ui& ui, const CuttingView& view, const CuttingObject& object);

// Each cut of the plan by its number, after those `done`, and its mark; `whole`: with thickness and weight.
// What is left over before a block has a mark too. `from`: words
// for the face that marks are measured from.
void marks_table(Ui& ui, const PlanInput& input, const Plan& plan, std::size_t done,
                 std::string_view from, bool whole);
// The plan splits it all along, and not all long pieces are weighed yet.
bool splitting(const Ui& ui, const CuttingView& view);
// Where to split it, and its long pieces' weights.
void split_panel(Ui& ui, const CuttingView& view, const Shape& shape);
std::string number_of(const std::string& long_piece);  // "2-1" is the first of two
void habit_words(Ui& ui, const CookRecord& cook);
// The advice as it is drawn and counted: with what is scored in place of the plan.
Guide::Advice with_scored(const NextCut& next, Guide::Advice advice);
// Asks for one more measure before the first cut, where that makes the next block likelier.
void ask_for_measure(Ui& ui, const CuttingObject& object, const Guide::Advice& advice);
// With a strong habit all marks may be scored first. `first`: they are measured from the first face.
void score_part(Ui& ui, const CuttingView& view, const PlanInput& input,
                const CuttingObject& object, const Guide::Advice& advice,
                const std::optional<ScoredMarks>& marks, bool first);
// "measure", "plan" or "guide", from its top.
void open_part(Ui& ui, std::string_view part);
void measure_part(Ui& ui, const CuttingNow& cutting);
void plan_part(Ui& ui, const CuttingNow& cutting);
// The guide has the keypad always open for the block.
void guide_screen(Ui& ui, const CuttingNow& cutting);

}  // namespace tallyblock
