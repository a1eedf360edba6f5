// Pieces and portions for the tests of the planner.
#pragma once
#include <optional>
#include <random>
#include <utility>
#include <vector>

#include "core/cutting/plan.h"

namespace tallyblock {

inline Length mm(double v) { return Length::millimetres(v); }

inline PlanInput piece(double length, double width, double depth, double grams) {
  return PlanInput{*Shape::from({{mm(0), mm(width), mm(depth)}, {mm(length), mm(width), mm(depth)}},
                                Mass::grams(grams))};
}

inline PortionSpec portions(double target, double tolerance, std::optional<unsigned> wanted = {},
                            double value = 1.0) {
  return {"", Mass::grams(target), Mass::grams(tolerance), wanted, Money::units(value)};
}

inline PlanInput random_piece(std::mt19937& random) {
  std::uniform_real_distribution<double> side(40.0, 160.0), depth(30.0, 80.0);
  std::uniform_int_distribution<int> length(50, 400);
  std::vector<Station> stations{{mm(0), mm(side(random)), mm(depth(random))}};
  const double end = length(random);
  stations.push_back({mm(end / 2), mm(side(random)), mm(depth(random))});
  stations.push_back({mm(end), mm(side(random)), mm(depth(random))});
  PlanInput input{*Shape::from(stations, Mass::grams(end * 8))};
  input.specs.push_back(portions(end * 8 / 9.5, end * 8 / 100));
  input.limits.least_min = mm(10);
  input.trim_front = mm(3);
  input.trim_back = mm(4);
  input.remainder_value = PricePerMass::of(Money::units(4), MassUnit::kilogram);
  return input;
}

}  // namespace tallyblock
