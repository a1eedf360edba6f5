// The last guard of the promise that no figure is infinite or not a number.
#pragma once
#include <cmath>
#include <optional>

namespace tallyblock {

// `value`, or `fallback` if it is infinite or not a number.
inline double finite_or(double value, double fallback = 0.0) {
  return std::isfinite(value) ? value : fallback;
}

// top / bottom, or nothing where that is no finite number.
inline std::optional<double> ratio_of(double top, double bottom) {
  const double ratio = top / bottom;
  return bottom != 0.0 && std::isfinite(ratio) ? std::optional(ratio) : std::nullopt;
}

// The nearest whole number if `value` is within 1e-9 of it (relative, at least to 1), else `value`.
// Takes off the dust of a division that should have come out whole.
inline double whole_if_close(double value) {
  const double whole = std::nearbyint(value);
  return std::fabs(value - whole) <= 1e-9 * std::fmax(1.0, std::fabs(value)) ? whole : value;
}

}  // namespace tallyblock
