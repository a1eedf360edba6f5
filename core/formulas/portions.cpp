#include "portions.h"

#include <algorithm>
#include <cmath>
#include <span>

#include "core/base/finite.h"
#include "core/base/rounding.h"
#include "core/base/sorted.h"
#include "core/formulas/data/imps_portion_tolerance.h"

namespace tallyblock {
namespace {

constexpr std::size_t kFewestForCapability = 25;

// A specified weight within 1e-9 of an edge is on the edge.
double tolerance_in(std::span<const data::ToleranceBand> bands, double specified) {
  constexpr double guard = 1e-9;
  for (const data::ToleranceBand& band : bands) {
    const double end = band.includes_end ? band.up_to + guard : band.up_to - guard;
    if (band.includes_end ? specified <= end : specified < end) return band.tolerance;
  }
  return bands.back().tolerance;
}

// Sum with the lost low parts carried along (Neumaier).
template <class Of>
double sum_over(const std::vector<double>& values, Of of) {
  double sum = 0.0, lost = 0.0;
  for (const double value : values) {
    const double term = of(value);
    const double next = sum + term;
    lost += std::fabs(sum) >= std::fabs(term) ? (sum - next) + term : (term - next) + sum;
    sum = next;
  }
  return sum + lost;
}

double median_of(std::vector<double> values) {
  heap_sort(values);
  const std::size_t half = values.size() / 2;
  if (values.size() % 2 == 1) return values[half];
  return values[half - 1] + (values[half] - values[half - 1]) / 2.0;
}

void fill_capability(PortionFigures& out, double target, double tolerance) {
  if (out.grams.n < kFewestForCapability || !out.grams.s || !(*out.grams.s > 0.0)) return;
  const double nearest_limit = tolerance - std::fabs(out.grams.mean - target);
  out.cp = ratio_of(tolerance, 3.0 * *out.grams.s);
  out.cpk = ratio_of(nearest_limit, 3.0 * *out.grams.s);
}

}  // namespace

Mass imps_portion_tolerance(Mass specified, WeightStyle style) {
  switch (style) {
    case WeightStyle::grams:
    case WeightStyle::kilograms:
      return Mass::grams(tolerance_in(data::kImpsPortionGrams, specified.in_grams()));
    case WeightStyle::ounces:
    case WeightStyle::pounds:
    case WeightStyle::pounds_ounces: break;
  }
  return Mass::of(tolerance_in(data::kImpsPortionOunces, specified.in(MassUnit::ounce)),
                  MassUnit::ounce);
}

Spread spread_of(const std::vector<double>& given) {
  std::vector<double> values;
  values.reserve(given.size());
  std::copy_if(given.begin(), given.end(), std::back_inserter(values),
               [](double value) { return std::isfinite(value); });
  Spread out;
  out.n = values.size();
  if (values.empty()) return out;
  const double n = static_cast<double>(out.n);
  const auto [smallest, largest] = std::minmax_element(values.begin(), values.end());
  out.smallest = *smallest;
  out.largest = *largest;
  out.median = finite_or(median_of(values));
  // Measured from one of the values, so that a large common part costs no digits.
  const double origin = values.front();
  const double shift = sum_over(values, [&](double value) { return value - origin; }) / n;
  out.mean = finite_or(origin + shift);
  if (out.n < 2) return out;
  const auto off = [&](double value) { return (value - origin) - shift; };
  const double squares = sum_over(values, [&](double value) { return off(value) * off(value); });
  const double left = sum_over(values, off);  // zero but for rounding
  const double s = std::sqrt(std::max(0.0, squares - left * left / n) / (n - 1.0));
  if (std::isfinite(s)) out.s = s;
  return out;
}

PortionFigures portions_against(const std::vector<Mass>& portions, Mass target, Mass tolerance) {
  PortionFigures out;
  std::vector<double> grams;
  grams.reserve(portions.size());
  for (const Mass portion : portions) {
    if (!std::isfinite(portion.in_grams())) continue;
    grams.push_back(portion.in_grams());
    const double off = (portion - target).in_grams();
    if (off < -tolerance.in_grams() - kGuardGrams) {
      ++out.shorts;
    } else if (off > tolerance.in_grams() + kGuardGrams) {
      ++out.overs;
    } else {
      ++out.within;
    }
    if (off > 0.0) out.over_target += Mass::grams(finite_or(off));
  }
  out.grams = spread_of(grams);
  if (grams.empty()) return out;
  out.over_target = Mass::grams(finite_or(out.over_target.in_grams()));
  out.bias = Mass::grams(finite_or(out.grams.mean - target.in_grams()));
  out.share_within = static_cast<double>(out.within) / static_cast<double>(grams.size());
  fill_capability(out, target.in_grams(), tolerance.in_grams());
  return out;
}

}  // namespace tallyblock
