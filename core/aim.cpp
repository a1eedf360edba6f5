#include "aim.h"

#include <cmath>
#include <numbers>

namespace tallyblock {
namespace {

double normal_below(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }
double normal_density(double z) {
  return std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi);
}

struct Costs {
  double target, lower, scatter, each_short, each_gram_over;
  double at(double aim) const {
    const double z = (aim - target) / scatter;
    const double over = scatter * normal_density(z) + (aim - target) * normal_below(z);
    return each_short * normal_below((lower - aim) / scatter) + each_gram_over * over;
  }
};

}  // namespace

Aim where_to_aim(Mass target, Mass lower_limit, Mass scatter, Money short_cost,
                 PricePerMass over_cost) {
  const Costs costs{target.in_grams(), lower_limit.in_grams(), scatter.in_grams(),
                    short_cost.in_units(), over_cost.per(MassUnit::gram)};
  if (!(costs.scatter > 0.0)) {
    // Without scatter any aim from the lower limit to the target is free; the target is the promise.
    return {target, Money::units(0.0), 0.0};
  }
  const double from = costs.lower - 4.0 * costs.scatter;
  const double step = (costs.target + 6.0 * costs.scatter - from) / 400.0;
  int best = 0;
  for (int i = 1; i <= 400; ++i) {
    if (costs.at(from + i * step) < costs.at(from + best * step)) best = i;
  }
  double low = from + (best - 1) * step;
  double high = from + (best + 1) * step;
  for (int i = 0; i < 100; ++i) {
    const double third = (high - low) / 3.0;
    (costs.at(low + third) < costs.at(high - third) ? high : low) =
        costs.at(low + third) < costs.at(high - third) ? high - third : low + third;
  }
  const double aim = (low + high) / 2.0;
  return {Mass::grams(aim), Money::units(costs.at(aim)),
          normal_below((costs.lower - aim) / costs.scatter)};
}

}  // namespace tallyblock
