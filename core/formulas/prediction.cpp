#include "prediction.h"

#include <algorithm>
#include <cmath>

namespace tallyblock {
namespace {

constexpr std::size_t kFewestPieces = 3;
constexpr std::size_t kMostDegrees = 100'000;

// P(|T| < t) for t >= 0: for whole degrees of freedom a finite sum, Abramowitz and Stegun, Handbook of
// Mathematical Functions, 26.7.3 and 26.7.4 (from memory; the tests check the outcome).
double inside(double t, std::size_t degrees) {
  const double n = static_cast<double>(degrees);
  const double angle = std::atan(t / std::sqrt(n));
  const double c2 = std::cos(angle) * std::cos(angle);
  const bool odd = degrees % 2 == 1;
  double sum = 0.0;
  double term = odd ? std::cos(angle) : 1.0;
  for (std::size_t k = odd ? 1 : 0; k + 2 <= degrees; k += 2) {
    sum += term;
    const double i = static_cast<double>(k);
    term *= c2 * (i + 1.0) / (i + 2.0);
  }
  const double half = std::sin(angle) * sum;
  return odd ? 2.0 / std::acos(-1.0) * (angle + half) : half;
}

}  // namespace

std::optional<double> student_t(double confidence, std::size_t degrees) {
  const bool possible = confidence > 0.0 && confidence < 1.0;
  if (!possible || degrees == 0) return std::nullopt;
  degrees = std::min(degrees, kMostDegrees);
  const bool negative = confidence < 0.5;
  const double wanted = std::fabs(2.0 * confidence - 1.0);
  double low = 0.0, high = 1.0;
  while (inside(high, degrees) < wanted && high < 1e12) high *= 2.0;
  for (int i = 0; i < 200 && low < high; ++i) {
    const double middle = low + (high - low) / 2.0;
    if (middle == low || middle == high) break;
    (inside(middle, degrees) < wanted ? low : high) = middle;
  }
  return negative ? -high : high;
}

std::optional<double> lower_prediction_bound(const Spread& yields, std::size_t m,
                                             double confidence) {
  if (yields.n < kFewestPieces || !yields.s || m == 0 || !(confidence >= 0.5)) return std::nullopt;
  const auto t = student_t(confidence, yields.n - 1);
  if (!t) return std::nullopt;
  const double wider =
      std::sqrt(1.0 / static_cast<double>(m) + 1.0 / static_cast<double>(yields.n));
  const double bound = yields.mean - *t * *yields.s * wider;
  return std::isfinite(bound) ? std::optional(bound) : std::nullopt;
}

}  // namespace tallyblock
