// Where to aim, given the scatter and what a miss costs either way.
//
// Blocks weigh N(aim, s^2). A block under the lower limit is a short: it goes to a lesser pile and
// loses `short_cost`. Weight above target is given away (or trimmed) at `over_cost` per gram. The aim
// minimises the expected cost per block: short_cost x P(w < lower) + over_cost x E[(w - target)+].
// Derivative zero: short_cost x phi((lower - aim)/s)/s = over_cost x P(w > target) (newsvendor
// condition with a fixed shortage cost). Solved by bracketed root search; global minimum over
// [lower - 4 s, target + 6 s].
#pragma once
#include "units.h"

namespace tallyblock {

struct Aim {
  Mass aim;
  Money expected_cost;  // per block
  double share_short = 0.0;
};
Aim where_to_aim(Mass target, Mass lower_limit, Mass scatter, Money short_cost,
                 PricePerMass over_cost);

}  // namespace tallyblock
