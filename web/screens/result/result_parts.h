// Parts of the result screen; only its own files use them.
#pragma once
#include "web/kit/piece_picture.h"
#include "web/screens/parts.h"

namespace tallyblock {

// What stands in the place of the figure, or asks below it: the first thing that is missing or wrong.
enum class Wanted : std::uint8_t {
  nothing,
  too_much,  // more lies on the piles than the piece weighed
  left,      // not all is weighed
  whole,
  portions,
  price,
  other,   // said in words
  target,  // the cost by weight is known
};
Wanted wanted(const Ui& ui);
bool lacks_the_answer(Wanted what);                            // there is no cost to show
const TargetFigures* answered_target(const Figures& figures);  // what the one answer is of
std::string portions_name(const Figures& figures);  // of their pile, if there is one alone

void card(Ui& ui, Wanted what);
void answer(Ui& ui);
void unvalued(Ui& ui, bool on_screen = true);
void missing_counts(Ui& ui);                      // that much is missing, and stands in the cost
bool is_usable_besides(const PileFigures& pile);  // to be valued, beside the portions
void pictures(Ui& ui, Wanted what, PieceSize size = PieceSize::small);
void chapters(Ui& ui, Wanted what);
void lines_alone(Ui& ui, Wanted what);  // what is known of them, for a picture

// What a chapter holds.
void doubts_part(Ui& ui);
void costs_part(Ui& ui);        // price, from what was paid to the cost of the portions
void make_or_buy_part(Ui& ui);  // cut it yourself or buy it cut
void work_part(Ui& ui);         // what the cutting itself costs
void portions_part(Ui& ui);     // portions against their target
void loss_part(Ui& ui);         // yields and the loss in cutting
void quality_part(Ui& ui);
void rest_part(Ui& ui);  // table, factors, another price, what belongs nowhere else

void target_fields_left(Ui& ui);  // of portions that have none
bool has_loss(const Ui& ui, Wanted what);
bool is_told_elsewhere(const Ui& ui, Code doubt);  // by the card or by the line of the loss
bool is_slip(Code doubt);                          // the likely reason why a balance does not close
std::string whole_missed(const Ui& ui);            // "933 g", what is too much or left
// A unit of the portions with the work in it, once their cost and the labour are known.
std::optional<PricePerMass> with_work(const Figures& f);
void known_figures(Ui& ui,
                   explain::Lines lines);  // those that lack something are asked for elsewhere

}  // namespace tallyblock
