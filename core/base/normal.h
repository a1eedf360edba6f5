// The standard normal distribution: the chance to be below z, and the density there. Beyond 8.5 standard
// deviations 0 or 1.
#pragma once
#include <cmath>
#include <numbers>

namespace tallyblock {

inline double normal_below(double z) {
  if (z > 8.5) return 1.0;
  return z < -8.5 ? 0.0 : 0.5 * std::erfc(-z / std::numbers::sqrt2);
}
inline double normal_density(double z) {
  if (std::abs(z) > 8.5) return 0.0;
  return std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi);
}

}  // namespace tallyblock
