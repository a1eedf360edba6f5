// Every figure of the result, with one sentence from whose own numbers it can be recomputed.
//
// A sentence says the formula in words and ends in the sum itself: after its last colon stands an
// arithmetic expression (numbers, + − × ÷ √ and brackets), then "=", then the figure as shown. The
// order is that of the formula. Weights in a sentence about money are in the price unit, others in
// the session's unit (ounces where that is pounds and ounces). Numbers in sums have 7 significant
// digits; the figure is rounded once, by show.h. Formulas: core/formulas/yield_test.h, make_or_buy.h,
// portions.h and quantities.h, where their sources are named.
#pragma once
#include <string>
#include <vector>

#include "core/session/session.h"
#include "show.h"

namespace tallyblock::explain {

struct Line {
  std::string id;  // "net-cost", "portion-cost:portions"; stable, used in element paths
  std::string label;
  std::string value;             // as shown; empty: not known yet
  std::string unit;              // set behind the value, e.g. "per kg"
  std::string sentence;          // empty if not known
  std::vector<Code> needs = {};  // what is missing when the value is empty
  bool known() const { return !value.empty(); }
};
using Lines = std::vector<Line>;

// Of fewer portions weighed one by one there is no spread and no advice.
inline constexpr std::size_t kFewSingles = 3;

// The figures that matter most: portion cost of every pile with a target, without and with labour;
// cost per usable weight.
Lines headline(const Figures& figures, const show::Style& style);
// None where more lies on the piles than the piece weighed. Shares of the as-purchased weight, and the loss in cutting.
Lines yields(const Figures& figures, const show::Style& style);
// From what was paid to the cost per primary weight.
Lines costs(const Figures& figures, const show::Style& style);
// W / primary, W / usable, F.
Lines factors(const Figures& figures, const show::Style& style);
// Portion cost without credit, portion factor; for one target.
Lines portion_costs(const Figures& figures, const TargetFigures& target, const show::Style& style);
// Cost per primary weight at a new price, both ways, and the portion costs that follow.
Lines price_update(const Figures& figures, PricePerMass new_price, const show::Style& style);
Lines make_or_buy(const Figures& figures, const show::Style& style);
// Spread, tolerance and over-target weight of one pile's portions.
Lines portions(const Figures& figures, const TargetFigures& target, const show::Style& style);

// Whether it is known what the work cost: minutes and a wage, or no minutes. Until then nothing is said of cutting
// it oneself or buying it cut: an hour costs something.
bool is_work_known(const Figures& figures);

// The name as entered, or the stand-in of its role.
std::string pile_name(const PileFigures& pile);
std::string pile_name(const Figures& figures, const std::string& key);

}  // namespace tallyblock::explain
