// Portions against their target: spread, tolerance, over-target weight, shorts.
//
// Tolerance by specified weight: USDA AMS IMPS Fresh Beef Series 100, effective November 2014,
// s.3.5.1: under 6.0 oz 1/4 oz; 6.0 to 12.0 oz 1/2 oz; 12.01 to 24.0 oz 3/4 oz; 24.01 oz and over
// 1 oz. The printed bands leave 12.00-12.01 and 24.00-24.01 open: "not over 12" (24) oz is the lower
// band here. Specified in grams, the printed gram bands apply (under 170 g 7 g; to 340 g 14 g; to
// 680 g 21 g; over 28 g). The purchaser's own tolerance overrides.
// s is the sample standard deviation (n - 1), two-pass from the first value. Cp, Cpk from 25 portions up (NIST/SEMATECH
// e-Handbook 6.1.6).
#pragma once
#include <cstddef>
#include <optional>
#include <vector>

#include "core/base/units.h"
#include "core/typed/typed.h"

namespace tallyblock {

// Half-width of the IMPS band for a specified weight > 0, in the unit it was specified in: ounces for
// oz, lb and lb + oz, grams for g and kg. Within 1e-9 of an edge counts as the edge. Table:
// data/imps_portion_tolerance.h.
Mass imps_portion_tolerance(Mass specified, WeightStyle style);

struct Spread {
  std::size_t n = 0;
  double mean = 0.0;
  double median = 0.0;
  double smallest = 0.0;
  double largest = 0.0;
  std::optional<double> s;  // n >= 2
};
// n = 0 gives all zero. Values that are not finite are left out.
Spread spread_of(const std::vector<double>& given);

struct PortionFigures {
  Spread grams;               // of the single portions, in grams
  Mass bias;                  // mean - target
  std::size_t within = 0;     // |weight - target| <= tolerance (1e-9 g guard)
  std::size_t shorts = 0;     // below target - tolerance
  std::size_t overs = 0;      // above target + tolerance
  double share_within = 0.0;  // within / n
  Mass over_target;           // sum of max(0, weight - target)
  std::optional<double> cp;   // n >= 25 and s > 0
  std::optional<double> cpk;
};
PortionFigures portions_against(const std::vector<Mass>& portions, Mass target, Mass tolerance);

}  // namespace tallyblock
