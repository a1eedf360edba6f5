// What can be said of several pieces of one line: quantiles, outliers, a slope, a difference of means.
//
// n, mean, s (n - 1, two-pass), median and extremes are `Spread` of portions.h; Student's t is in
// prediction.h. Any unit, the same for all values of a call; nothing is rounded. What cannot be said
// is absent, never infinite. Intervals are two-sided and assume independent values from normal
// spreads; quantiles, the chance of the next and the outliers assume no shape.
// Does not: correct for looking again after every piece; weighted values; several levels (who, which
// piece).
#pragma once
#include <cstddef>
#include <optional>
#include <vector>

#include "portions.h"

namespace tallyblock {

struct Between {
  double low = 0.0;
  double high = 0.0;
};

// Quantile by position share x (n + 1) in the sorted values, linear between neighbours: definition 6
// of R. J. Hyndman and Y. Fan, Sample Quantiles in Statistical Packages, The American Statistician
// 50 (1996), and NIST/SEMATECH e-Handbook 7.2.6.2. The next value lies below the k-th smallest of n
// with chance k / (n + 1), so this is the definition that says what to expect next. Absent where it
// would lie beyond the smallest or largest (share outside [1 / (n + 1), n / (n + 1)]), with no value,
// or with one that is not finite.
std::optional<double> quantile(std::vector<double> values, double share);

// The chance that the next value lies between the smallest and the largest of n so far, ends
// included, if nothing changes: (n - 1) / (n + 1), true for exchangeable values of any distribution
// without ties (with ties it is at least that). Absent below 2.
std::optional<double> chance_next_between(std::size_t n);

// 0.6745 (x - median) / MAD for each value, in their order, where MAD is the median of the absolute
// deviations from the median. B. Iglewicz and D. C. Hoaglin, How to Detect and Handle Outliers, ASQC
// 1993; NIST/SEMATECH e-Handbook 1.3.5.17. Absent with fewer than 3 values, with one that is not
// finite, or where more than half of them are alike: there is no yardstick then. A MAD of no more than
// 1e-9 of the largest deviation counts as 0: what differs by less was computed, not weighed.
std::optional<std::vector<double>> modified_z_scores(const std::vector<double>& values);
inline constexpr double kOutlyingZ = 3.5;  // by its size, the limit of the same sources

// Least squares y = intercept + slope x, straight from the sums about the means.
struct PointXY {
  double x = 0.0;
  double y = 0.0;
};
struct FittedLine {
  std::size_t n = 0;
  double intercept = 0.0;
  double slope = 0.0;
  double residual_s = 0.0;       // of n - 2
  double intercept_error = 0.0;  // standard deviations of the estimates
  double slope_error = 0.0;
  Between slope_between;  // slope -/+ t(n - 2) x slope_error
};
// Absent with fewer than 3 points, all x alike, confidence outside (0, 1), or a value not finite.
std::optional<FittedLine> fit_line(const std::vector<PointXY>& points, double confidence = 0.95);

// Second mean less the first, without assuming equal spreads. B. L. Welch, The generalization of
// "Student's" problem when several different population variances are involved, Biometrika 34 (1947);
// degrees by Satterthwaite's formula (NIST/SEMATECH e-Handbook 1.3.5.3), rounded down to whole ones
// for t, as JCGM 100 G.4.1 allows (from memory). An approximation: from a handful of pieces its 95 %
// may be 94.
struct MeanDifference {
  double difference = 0.0;
  double error = 0.0;    // standard deviation of the difference
  double degrees = 0.0;  // before rounding down
  Between between;
};
// Absent unless both have n >= 2 and at least one of them scatters; confidence in (0, 1).
std::optional<MeanDifference> difference_of_means(const Spread& first, const Spread& second,
                                                  double confidence = 0.95);

}  // namespace tallyblock
