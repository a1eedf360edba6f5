#include "chart.h"

#include <algorithm>
#include <cmath>
#include <span>

#include "portions.h"
#include "statistics.h"

namespace tallyblock {
namespace {

constexpr std::size_t kFew = 3;
constexpr std::size_t kProvisional = 6;
constexpr std::size_t kSettled = 12;
constexpr std::size_t kFour = 4;
constexpr std::size_t kRun = 8;
constexpr double kLimitsPerRange = 2.66;
constexpr double kGuard = 1e-9;  // of the half-width

double mean_moving_range(std::span<const double> values) {
  double sum = 0.0;
  for (std::size_t i = 1; i < values.size(); ++i) sum += std::fabs(values[i] - values[i - 1]);
  return sum / static_cast<double>(values.size() - 1);
}

// From six values on.
std::optional<ChartLimits> limits_of(const std::vector<double>& values) {
  ChartLimits out;
  out.from = std::min(values.size(), kSettled);
  const std::vector<double> base(values.begin(),
                                 values.begin() + static_cast<std::ptrdiff_t>(out.from));
  out.centre = spread_of(base).mean;
  out.mean_moving_range = mean_moving_range(base);
  const double half = kLimitsPerRange * out.mean_moving_range;
  out.lower = out.centre - half;
  out.upper = out.centre + half;
  return out.mean_moving_range > kGuard * std::fabs(out.centre) ? std::optional(out) : std::nullopt;
}

// -1 below, 0 at, 1 above the centre.
int side_of(double value, const ChartLimits& limits, double distance) {
  const double guard = kGuard * (limits.upper - limits.centre);
  const double off = value - limits.centre;
  if (off > distance + guard) return 1;
  return off < -distance - guard ? -1 : 0;
}

std::vector<ChartSignal> signals_of(const std::vector<double>& values, const ChartLimits& limits) {
  std::vector<ChartSignal> out;
  const double half = limits.upper - limits.centre;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const int side = side_of(values[i], limits, half);
    if (side != 0) out.push_back({ChartSignalKind::beyond_limit, i, i, side > 0});
  }
  for (std::size_t first = 0; first < values.size();) {
    const int side = side_of(values[first], limits, 0.0);
    std::size_t end = first + 1;
    while (end < values.size() && side_of(values[end], limits, 0.0) == side) ++end;
    if (side != 0 && end - first >= kRun) {
      out.push_back({ChartSignalKind::eight_on_one_side, first, end - 1, side > 0});
    }
    first = end;
  }
  return out;
}

LastAgainstFirst last_against_first(std::span<const double> values) {
  const auto [first_low, first_high] =
      std::minmax_element(values.begin(), values.begin() + std::ptrdiff_t{kFour});
  const auto [last_low, last_high] =
      std::minmax_element(values.end() - std::ptrdiff_t{kFour}, values.end());
  LastAgainstFirst out;
  if (*last_low > *first_high) out.answer = LastFour::all_above;
  if (*last_high < *first_low) out.answer = LastFour::all_below;
  return out;
}

bool possible(const std::vector<double>& values) {
  // Leaves room for the sum of twelve moving ranges.
  return std::all_of(values.begin(), values.end(), [](double v) { return std::fabs(v) < 1e300; });
}

}  // namespace

LogStage log_stage(std::size_t n) {
  if (n >= kSettled) return LogStage::settled;
  if (n >= kProvisional) return LogStage::provisional;
  if (n >= kFew) return LogStage::few;
  if (n == 2) return LogStage::two;
  return n == 1 ? LogStage::one : LogStage::nothing;
}

std::optional<LogChart> log_chart(const std::vector<double>& values) {
  if (!possible(values)) return std::nullopt;
  LogChart out;
  out.n = values.size();
  out.stage = log_stage(out.n);
  if (out.stage == LogStage::two) out.difference = values[1] - values[0];
  if (out.stage == LogStage::few) {
    const Spread seen = spread_of(values);
    out.few =
        FewSeen{seen.median, seen.smallest, seen.largest, chance_next_between(out.n).value_or(0.0)};
  }
  if (out.n >= kProvisional) out.limits = limits_of(values);
  if (out.n >= 2 * kFour) out.last_four = last_against_first(values);
  if (out.stage == LogStage::settled && out.limits) out.signals = signals_of(values, *out.limits);
  return out;
}

}  // namespace tallyblock
