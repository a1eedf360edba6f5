// Numbers no kitchen has, to show that no figure becomes infinite or "not a number".
#pragma once
#include <array>
#include <cmath>
#include <limits>
#include <random>

#include "core/base/units.h"

namespace tallyblock::test {

// Half of the time an edge, else anything from 1e-12 to 1e12 of either sign. Fixed seed: same run
// every time.
class Hostile {
 public:
  explicit Hostile(unsigned seed) : engine_(seed) {}
  double number() {
    static constexpr std::array edges = {
        0.0,   -0.0,  1.0,  -1.0,      1e-308, 5e-324, 1e308,   -1e308,
        1e15,  0.5,   1e-9, 453.59237, 2.675,  1e300,  -1e-300, std::numeric_limits<double>::max(),
        100.0, 9.1e15};
    if (coin()) return edges[pick(edges.size())];
    const double size = std::pow(10.0, std::uniform_real_distribution(-12.0, 12.0)(engine_));
    return coin() ? size : -size;
  }
  // An ordinary figure between `low` and `high`.
  double between(double low, double high) {
    return std::uniform_real_distribution(low, high)(engine_);
  }
  std::size_t pick(std::size_t n) {
    return std::uniform_int_distribution<std::size_t>(0, n - 1)(engine_);
  }
  bool coin() { return pick(2) == 0; }
  Mass mass() { return Mass::grams(number()); }
  Money money() { return Money::units(number()); }
  PricePerMass price() { return PricePerMass::of(money(), MassUnit::gram); }

 private:
  std::mt19937 engine_;
};

inline bool finite(double value) { return std::isfinite(value); }
inline bool finite(Mass value) { return std::isfinite(value.in_grams()); }
inline bool finite(Money value) { return std::isfinite(value.in_units()); }
inline bool finite(PricePerMass value) { return std::isfinite(value.per(MassUnit::gram)); }
// An absent figure is fine.
template <class Optional>
bool finite(const Optional& value) {
  return !value || finite(*value);
}

}  // namespace tallyblock::test
