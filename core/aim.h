// Where to aim, given the scatter and what a miss costs either way: expected money.
//
// One block. Blocks weigh N(aim, s^2). Under the lower limit it is a short: it goes to a lesser pile and
// loses `short_cost`. Over the upper limit it is trimmed to its target: that costs `trim_cost`, and what
// is trimmed off loses `over_cost` a gram. Between, weight above the target is given away, at `over_cost`
// a gram. So the expected cost of an aim a is
//   short_cost P(w < lower) + trim_cost P(w > upper) + over_cost E[(w - target)+],
// closed in the normal distribution and its density (the loss function of inventory theory); its least
// value is searched over [target, upper]: never less than the declared weight is aimed at, nor more than a portion may weigh.
//
// A row of blocks. What is left, R grams, gives portions one after the other, each of weight
// N(a, (r a)^2), r the log scatter; the last one is what is left and needs no cut. V(R) = max over a of
// E[worth(w) + V(R - w)], worth 1 in tolerance, `kTrimmedWorth` (plan.h) above it, `rest_worth` times w / target
// below it (as if at the limit) and for what is left at the end, and a fiftieth less towards either limit, so that of aims as
// good as each other the one nearer to the target is taken. Solved backwards on a grid of at most kGrid steps; the aim is
// within the tolerance.
// Masses in grams inside. Nothing is rounded.
#pragma once
#include <vector>

#include "plan.h"

namespace tallyblock {

struct Aim {
  Mass aim;
  Money expected_cost;  // per block
  double share_short = 0.0;
  double share_within = 0.0;  // of both limits
};

struct AimCosts {
  Money each_short;        // of a block under the lower limit
  Money each_trimmed;      // of a block over the upper limit, beside what is trimmed off
  PricePerMass each_over;  // of weight above the target
};

// `tolerance` either side of the target. Without scatter: the target, at no cost.
Aim where_to_aim(Mass target, Mass tolerance, Mass scatter, const AimCosts& costs);

class RowOfBlocks {
 public:
  // Of one block, all its long pieces together: target, tolerance and log scatter of its weight;
  // `rest_worth`: of a target's weight of remainder, as a share of a block; `most`: the greatest R.
  RowOfBlocks(Mass target, Mass tolerance, double log_scatter, double rest_worth, Mass most);

  // The weight to aim at with `left` on the board: `left` itself where that is best not cut at all, zero
  // where no portion comes of it.
  Mass aim(Mass left) const;
  // Expected worth of `left`, in portions.
  double worth(Mass left) const;

 private:
  struct Choice {
    double aim = 0.0, worth = 0.0;
  };
  double as_it_is(double grams) const;
  double worth_of_cut(double aim) const;
  double at(double grams) const;
  Choice best(double left) const;

  double target_ = 0.0, tolerance_ = 0.0, scatter_ = 0.0, rest_worth_ = 0.0, step_ = 1.0;
  std::vector<Choice> aims_;   // those tried, and what such a block is worth
  std::vector<double> worth_;  // of 0, step, 2 step, ... grams
};

}  // namespace tallyblock
