// The oracle for two kinds of portions: cutting one block after another from what is left, each weight
// N(aim, (scatter aim)^2), for the most expected portions of those still wanted; what is left over is worth
// nothing. Solved backwards on a grid of 10 g and all counts, normal weights as 15 points of equal chance.
// Masses in grams. Ours, written for the bench alone.
#pragma once
#include <vector>

#include "core/cutting/plan.h"

namespace tallyblock::bench {

class RowOfKinds {
 public:
  // Two kinds with `wanted`; `most`: the greatest weight of a piece.
  RowOfKinds(const std::vector<PortionSpec>& specs, double scatter, double most);
  // The weight to aim at; `left` itself where that is best not cut; 0 where no portion comes of it.
  double aim(double left, const std::vector<unsigned>& wanted) const;

 private:
  struct Choice {
    double aim = 0.0, worth = 0.0;
  };
  Choice best(double left, unsigned first, unsigned second) const;
  double worth(double left, unsigned first, unsigned second) const;
  double of_block(double grams, double left, unsigned first, unsigned second) const;

  std::vector<PortionSpec> specs_;
  double scatter_ = 0.0;
  unsigned first_ = 0, second_ = 0;
  std::vector<double> aims_;
  std::vector<std::vector<double>> worth_;  // by counts wanted; of 0, 10, 20, ... grams
};

}  // namespace tallyblock::bench
