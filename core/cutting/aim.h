// Where to aim, given the scatter: expected money.
//
// One block. Blocks weigh x ~ N(aim, s^2), each is worth what the plan says (plan.h: in tolerance its value; else
// the better of the lesser pile and, above its upper limit, trimmed), and the weight it takes could have been
// portions: it is charged at the value of a portion over its target. So the aim maximises
//   E[worth(x)] - value aim / target
// over [target, upper limit]: never less than the declared weight is aimed at, nor more than a portion may weigh.
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
  Money worth;  // expected of a block, before what its weight is charged
  double share_short = 0.0;
  double share_within = 0.0;  // of both limits
};

// Of `steps` + 1 weights from `low` to `high` the one of most gain; of some alike the least.
template <class Gain>
double weight_of_most(double low, double high, int steps, Gain gain) {
  double best = low, most = -1e300;
  for (int i = 0; i <= steps; ++i) {
    const double weight = low + (high - low) * i / steps;
    const double one = gain(weight);
    if (one > most) {
      most = one;
      best = weight;
    }
  }
  return best;
}

// `scatter`: standard deviation of a block's weight; without one: the target.
Aim where_to_aim(const PortionSpec& spec, PricePerMass remainder_value, Mass scatter);

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
