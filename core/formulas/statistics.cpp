#include "statistics.h"

#include <algorithm>
#include <cmath>

#include "core/base/finite.h"
#include "core/base/sorted.h"
#include "prediction.h"

namespace tallyblock {
namespace {

constexpr std::size_t kFewestForOutliers = 3;
constexpr std::size_t kFewestForLine = 3;
constexpr double kAlike = 1e-9;             // of the largest deviation
constexpr double kNormalQuartile = 0.6745;  // as the source rounds it

bool all_finite(const std::vector<double>& values) {
  return std::all_of(values.begin(), values.end(), [](double v) { return std::isfinite(v); });
}

std::optional<Between> around(double middle, double error, double degrees, double confidence) {
  const double whole = std::floor(whole_if_close(std::fmin(degrees, 1e6)));
  const auto t =
      student_t((1.0 + confidence) / 2.0, static_cast<std::size_t>(std::fmax(1.0, whole)));
  if (!t || !(confidence > 0.0)) return std::nullopt;
  const Between out{middle - *t * error, middle + *t * error};
  return std::isfinite(out.low) && std::isfinite(out.high) ? std::optional(out) : std::nullopt;
}

// Sums of products of deviations from the means.
struct SumsOfSquares {
  double xx = 0.0;
  double xy = 0.0;
};

SumsOfSquares sums_about(const std::vector<PointXY>& points, double mean_x, double mean_y) {
  SumsOfSquares out;
  double left_x = 0.0, left_y = 0.0;  // zero but for rounding of the means
  for (const PointXY& p : points) {
    const double dx = p.x - mean_x, dy = p.y - mean_y;
    out.xx += dx * dx;
    out.xy += dx * dy;
    left_x += dx;
    left_y += dy;
  }
  const double n = static_cast<double>(points.size());
  out.xx -= left_x * left_x / n;
  out.xy -= left_x * left_y / n;
  return out;
}

}  // namespace

std::optional<double> quantile(std::vector<double> values, double share) {
  if (values.empty() || !all_finite(values)) return std::nullopt;
  const double n = static_cast<double>(values.size());
  const double position = whole_if_close(share * (n + 1.0));
  const bool within = position >= 1.0 && position <= n;
  if (!within) return std::nullopt;
  heap_sort(values);
  const auto below = static_cast<std::size_t>(position);
  const double low = values[below - 1];
  const double part = position - std::floor(position);
  if (part == 0.0) return low;
  const double found = low + part * (values[below] - low);
  return std::isfinite(found) ? std::optional(found) : std::nullopt;
}

std::optional<double> chance_next_between(std::size_t n) {
  if (n < 2) return std::nullopt;
  const double count = static_cast<double>(n);
  return (count - 1.0) / (count + 1.0);
}

std::optional<std::vector<double>> modified_z_scores(const std::vector<double>& values) {
  if (values.size() < kFewestForOutliers || !all_finite(values)) return std::nullopt;
  const double median = spread_of(values).median;
  std::vector<double> off = values;
  for (double& value : off) value = std::fabs(value - median);
  if (!all_finite(off)) return std::nullopt;
  const double mad = spread_of(off).median;
  const double largest = *std::max_element(off.begin(), off.end());
  if (!(mad > kAlike * largest)) return std::nullopt;
  std::vector<double> out = values;
  for (double& value : out) value = kNormalQuartile * ((value - median) / mad);
  return all_finite(out) ? std::optional(std::move(out)) : std::nullopt;
}

std::optional<FittedLine> fit_line(const std::vector<PointXY>& points, double confidence) {
  if (points.size() < kFewestForLine) return std::nullopt;
  std::vector<double> xs, ys;
  xs.reserve(points.size());
  ys.reserve(points.size());
  for (const PointXY& p : points) {
    xs.push_back(p.x);
    ys.push_back(p.y);
  }
  if (!all_finite(xs) || !all_finite(ys)) return std::nullopt;
  const double mean_x = spread_of(xs).mean, mean_y = spread_of(ys).mean;
  const SumsOfSquares sums = sums_about(points, mean_x, mean_y);
  const auto slope = ratio_of(sums.xy, sums.xx);
  if (!(sums.xx > 0.0) || !slope) return std::nullopt;
  // What the line leaves, from the points themselves: yy - slope xy would cancel.
  double left = 0.0, squares = 0.0;
  for (const PointXY& p : points) {
    const double off = (p.y - mean_y) - *slope * (p.x - mean_x);
    left += off;
    squares += off * off;
  }
  const double n = static_cast<double>(points.size());
  FittedLine out;
  out.n = points.size();
  out.slope = *slope;
  out.intercept = mean_y - *slope * mean_x;
  out.residual_s = std::sqrt(std::fmax(0.0, squares - left * left / n) / (n - 2.0));
  out.slope_error = out.residual_s / std::sqrt(sums.xx);
  out.intercept_error = out.residual_s * std::sqrt(1.0 / n + mean_x / sums.xx * mean_x);
  const auto between = around(*slope, out.slope_error, n - 2.0, confidence);
  if (!between || !all_finite({out.intercept, out.residual_s, out.intercept_error})) {
    return std::nullopt;
  }
  out.slope_between = *between;
  return out;
}

std::optional<MeanDifference> difference_of_means(const Spread& first, const Spread& second,
                                                  double confidence) {
  if (first.n < 2 || second.n < 2 || !first.s || !second.s) return std::nullopt;
  const double n1 = static_cast<double>(first.n), n2 = static_cast<double>(second.n);
  const double error = std::hypot(*first.s / std::sqrt(n1), *second.s / std::sqrt(n2));
  if (!(error > 0.0) || !std::isfinite(error)) return std::nullopt;
  // Shares of the variance of the difference, so that no fourth power overflows.
  const double part1 = std::pow(*first.s / error, 2.0) / n1;
  const double part2 = std::pow(*second.s / error, 2.0) / n2;
  MeanDifference out;
  out.difference = second.mean - first.mean;
  out.error = error;
  out.degrees = 1.0 / (part1 * part1 / (n1 - 1.0) + part2 * part2 / (n2 - 1.0));
  if (!std::isfinite(out.degrees)) return std::nullopt;
  const auto between = around(out.difference, error, out.degrees, confidence);
  if (!between) return std::nullopt;
  out.between = *between;
  return out;
}

}  // namespace tallyblock
