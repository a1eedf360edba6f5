// Powers without std::pow, whose tables alone are as large as a screen is on its way to a phone.
#pragma once
#include <cmath>

namespace tallyblock {

// 10 to the power of -22 to 22, clamped: the nearest double, as far as it goes up exactly.
constexpr double power_of_ten(int exponent) {
  const int most =
      exponent < 0 ? (exponent < -22 ? 22 : -exponent) : (exponent > 22 ? 22 : exponent);
  double power = 1.0;
  for (int i = 0; i < most; ++i) power *= 10.0;
  return exponent < 0 ? 1.0 / power : power;
}

// A base of at least 0 to a power above 0, by logarithm: within |ln result| + 2 units in the last place.
inline double power_of(double base, double exponent) { return std::exp(exponent * std::log(base)); }

}  // namespace tallyblock
