// What a portion of a block is expected to be worth: the objective of plan.h for one portion, in closed form.
// Internal to the planner. Masses g, money in currency units, nothing rounded.
#pragma once
#include <vector>

#include "core/cutting/plan.h"

namespace tallyblock {

class PortionWorth {
 public:
  // `asked_for`: how many values more a portion is worth that was asked for by number.
  PortionWorth(const std::vector<PortionSpec>& specs, PricePerMass remainder_value,
               double asked_for);

  // Of a portion that counts for `spec` and is planned to weigh `each`, within its tolerance; sd of its weight.
  double of(std::size_t spec, double each, double sd) const;
  // The chance that it is within the tolerance.
  double within(std::size_t spec, double each, double sd) const;
  // Of a portion that counts for nothing, or of remainder.
  double surplus(double grams) const { return rest_ * grams; }

 private:
  // The worth of a portion that weighs x is constant + slope x; both change at the limits of the kinds.
  struct Outcome {
    double constant = 0.0, slope = 0.0;
  };
  struct Step {
    double at = 0.0;
    Outcome change;
  };
  struct Kind {
    double low = 0.0, high = 0.0;
    double worth = 0.0;  // in tolerance
    Outcome lightest;    // below all limits
    std::vector<Step> steps;
  };
  Outcome outcome(const std::vector<PortionSpec>& specs, std::size_t meant, double grams) const;

  double rest_ = 0.0;
  std::vector<Kind> kinds_;
};

}  // namespace tallyblock
