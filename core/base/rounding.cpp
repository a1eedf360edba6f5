#include "rounding.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "decimal.h"
#include "finite.h"
#include "sorted.h"

namespace tallyblock {
namespace {

constexpr double kAllUnits = 9e15;  // below 2^53: every whole number up to here is a double

double power_of_ten(int decimals) {
  static constexpr double powers[] = {1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9};
  return powers[std::clamp(decimals, 0, 9)];
}

enum class Tie { to_even, away_from_zero };

// `scaled` to a whole number.
double nearest(double scaled, Tie tie) {
  const double below = std::floor(scaled);
  const double part = scaled - below;
  const double dust =
      std::max(1e-9, 4.0 * std::numeric_limits<double>::epsilon() * std::fabs(scaled));
  if (std::fabs(part - 0.5) > dust) return part < 0.5 ? below : below + 1.0;
  const bool down = tie == Tie::to_even ? std::fmod(below, 2.0) == 0.0 : scaled < 0.0;
  return down ? below : below + 1.0;
}

double rounded(double value, int decimals, Tie tie) {
  if (!std::isfinite(value)) return 0.0;
  const double power = power_of_ten(decimals);
  const double scaled = value * power;
  // Beyond this a double holds no more than one digit after the place, if any.
  if (std::fabs(scaled) >= 1e14) {
    if (!(std::fabs(scaled) < kAllUnits)) return value;
    return (tie == Tie::to_even ? std::nearbyint(scaled) : std::round(scaled)) / power;
  }
  return nearest(scaled, tie) / power;
}

// Sum with the lost low parts carried along (Neumaier).
double sum_of(const std::vector<double>& values) {
  double sum = 0.0, lost = 0.0;
  for (const double value : values) {
    const double next = sum + value;
    lost += std::fabs(sum) >= std::fabs(value) ? (sum - next) + value : (value - next) + sum;
    sum = next;
  }
  return sum + lost;
}

}  // namespace

double round_half_even(double value, int decimals) {
  return rounded(value, decimals, Tie::to_even);
}

double round_half_up(double value, int decimals) {
  return rounded(value, decimals, Tie::away_from_zero);
}

std::string fixed_text(double value, int decimals) {
  if (!std::isfinite(value)) return "?";
  const double even = round_half_even(value, decimals);
  std::string out = fixed_digits(even, std::clamp(decimals, 0, 9));
  if (out.find_first_not_of("-0.") == std::string::npos && out.front() == '-') out.erase(0, 1);
  return out;
}

double round_up_to(double value, double step) {
  const double steps = value / step;
  if (!(step > 0.0) || !std::isfinite(steps) || std::fabs(steps) >= kAllUnits) {
    return finite_or(value);
  }
  return finite_or(std::ceil(whole_if_close(steps)) * step, value);
}

std::vector<std::int64_t> shares_that_add_up(const std::vector<double>& parts, int decimals,
                                             std::optional<std::int64_t> total) {
  const std::size_t n = parts.size();
  std::vector<std::int64_t> shares(n, 0), remainders(n, 0);
  std::vector<double> scaled(n, 0.0);
  double size = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    scaled[i] = parts[i] * power_of_ten(decimals);
    size += std::fabs(scaled[i]);
  }
  if (!(size < kAllUnits)) return shares;
  std::int64_t missing =
      total.value_or(static_cast<std::int64_t>(nearest(sum_of(scaled), Tie::away_from_zero)));
  for (std::size_t i = 0; i < n; ++i) {
    const double below = std::floor(scaled[i]);
    shares[i] = static_cast<std::int64_t>(below);
    remainders[i] = std::llround((scaled[i] - below) * 1e9);
    missing -= shares[i];
  }
  std::vector<std::size_t> order(n);
  std::iota(order.begin(), order.end(), std::size_t{0});
  heap_sort(order, [&](std::size_t a, std::size_t b) {
    return remainders[a] != remainders[b] ? remainders[a] > remainders[b] : a < b;
  });
  for (std::size_t i = 0; i < n && missing > 0; ++i, --missing) ++shares[order[i]];
  return shares;
}

}  // namespace tallyblock
