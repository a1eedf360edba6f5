#include "core/formulas/statistics.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>

#include "core/formulas/prediction.h"
#include "hostile.h"

namespace tallyblock {
namespace {

constexpr int kRuns = 40000;

// Three standard errors of a share counted in kRuns.
double three_errors(double share) { return 3.0 * std::sqrt(share * (1.0 - share) / kRuns); }

TEST(Quantile, IsTheValueAtShareTimesNPlusOne) {
  const std::vector<double> values{5.0, 1.0, 3.0};  // positions 1, 2, 3 at 0.25, 0.5, 0.75
  EXPECT_EQ(quantile(values, 0.25), 1.0);
  EXPECT_EQ(quantile(values, 0.5), 3.0);
  EXPECT_EQ(quantile(values, 0.75), 5.0);
  EXPECT_DOUBLE_EQ(*quantile(values, 0.375), 2.0);
  EXPECT_EQ(quantile({7.0}, 0.5), 7.0);
}

TEST(Quantile, IsAbsentBeyondWhatWasSeen) {
  EXPECT_FALSE(quantile({1.0, 2.0, 3.0}, 0.24) || quantile({1.0, 2.0, 3.0}, 0.76));
  EXPECT_FALSE(quantile({}, 0.5) || quantile({7.0}, 0.6) || quantile({1.0, 2.0}, std::nan("")));
  EXPECT_FALSE(quantile({1.0, std::numeric_limits<double>::infinity(), 2.0}, 0.5));
}

TEST(Quantile, OfAHalfIsTheMedian) {
  test::Hostile random(21);
  for (int i = 0; i < 3000; ++i) {
    std::vector<double> values(random.pick(12) + 1);
    for (double& value : values) value = random.between(-5.0, 5.0);
    EXPECT_NEAR(*quantile(values, 0.5), spread_of(values).median, 1e-12);
    std::shuffle(values.begin(), values.end(), std::mt19937(7));
    EXPECT_NEAR(*quantile(values, 0.5), spread_of(values).median, 1e-12);
  }
}

// The reason for this definition: whatever the shape, the next value is below it with its share.
TEST(Quantile, TheNextIsBelowItAsOftenAsItSays) {
  std::mt19937 random(1996);
  std::exponential_distribution<double> skewed(1.0);
  int below = 0;
  for (int i = 0; i < kRuns; ++i) {
    std::vector<double> log(4);
    for (double& value : log) value = skewed(random);
    below += skewed(random) < *quantile(log, 0.8) ? 1 : 0;  // the fourth of four: 4 / 5
  }
  EXPECT_NEAR(below / double(kRuns), 0.8, three_errors(0.8));
}

TEST(ChanceOfTheNext, IsWhatExchangeableValuesShow) {
  EXPECT_FALSE(chance_next_between(0) || chance_next_between(1));
  EXPECT_DOUBLE_EQ(*chance_next_between(3), 0.5);
  EXPECT_DOUBLE_EQ(*chance_next_between(5), 2.0 / 3.0);
  std::mt19937 random(42);
  std::lognormal_distribution<double> skewed(0.0, 1.0);
  for (std::size_t n = 2; n <= 5; ++n) {
    int held = 0;
    for (int i = 0; i < kRuns; ++i) {
      std::vector<double> log(n);
      for (double& value : log) value = skewed(random);
      const Spread seen = spread_of(log);
      const double next = skewed(random);
      held += next >= seen.smallest && next <= seen.largest ? 1 : 0;
    }
    EXPECT_NEAR(held / double(kRuns), *chance_next_between(n),
                three_errors(*chance_next_between(n)))
        << n;
  }
}

TEST(ModifiedZ, FindsTwoOutliersThatHideEachOther) {
  // Median 2.45, MAD 0.15 by hand. Two far values widen s so much that no ordinary z passes 2.
  const std::vector<double> values{2.1, 2.6, 2.4, 2.5, 2.3, 2.1, 2.3, 2.6, 8.2, 8.3};
  const auto z = *modified_z_scores(values);
  EXPECT_NEAR(z[8], 0.6745 * 5.75 / 0.15, 1e-9);
  EXPECT_NEAR(z[9], 0.6745 * 5.85 / 0.15, 1e-9);
  EXPECT_NEAR(z[0], -0.6745 * 0.35 / 0.15, 1e-9);
  const Spread s = spread_of(values);
  for (std::size_t i = 0; i < values.size(); ++i) {
    EXPECT_EQ(std::fabs(z[i]) > kOutlyingZ, i >= 8) << i;
    EXPECT_LT(std::fabs(values[i] - s.mean) / *s.s, 2.0);
  }
}

TEST(ModifiedZ, DoesNotDependOnUnitOrOrigin) {
  test::Hostile random(22);
  for (int i = 0; i < 2000; ++i) {
    std::vector<double> values(random.pick(9) + 3);
    for (double& value : values) value = random.between(0.0, 1.0);
    std::vector<double> other = values;
    for (double& value : other) value = -3.0 * value + 20.0;
    const auto a = *modified_z_scores(values), b = *modified_z_scores(other);
    for (std::size_t k = 0; k < a.size(); ++k) {
      ASSERT_NEAR(a[k], -b[k], 1e-9 * (1.0 + std::fabs(a[k])));
    }
  }
}

// A normal spread has its quartiles 0.6745 s from the middle: so many z are then ordinary z.
TEST(ModifiedZ, OfManyNormalValuesIsTheOrdinaryZ) {
  std::mt19937 random(6745);
  std::normal_distribution<double> yield(0.62, 0.03);
  std::vector<double> values(20001);
  for (double& value : values) value = yield(random);
  const auto z = *modified_z_scores(values);
  const double s = *spread_of(z).s;
  EXPECT_NEAR(s, 1.0, 0.03);  // the MAD of so many has a relative error of about 0.8 %
}

TEST(ModifiedZ, IsAbsentWithoutAYardstick) {
  EXPECT_FALSE(modified_z_scores({1.0, 2.0}));
  EXPECT_FALSE(modified_z_scores({3.0, 3.0, 3.0, 9.0}));
  EXPECT_FALSE(modified_z_scores({1.0, 2.0, std::nan("")}));
  // Alike but for the dust of computing: 0.1 + 0.2 is not 0.3.
  EXPECT_FALSE(modified_z_scores({0.3, 0.1 + 0.2, 0.3, 0.1 + 0.2, 0.9}));
  EXPECT_FALSE(modified_z_scores({0.0, 1e-9, -1e-9, 0.0, 1.0}));
  EXPECT_TRUE(modified_z_scores({0.0, 3e-9, -3e-9, 2e-9, 1.0}));
}

TEST(FitLine, HasNoScatterOnAnExactLine) {
  const auto line = *fit_line({{0.0, 1.0}, {1.0, 3.0}, {2.0, 5.0}, {4.0, 9.0}});
  EXPECT_NEAR(line.slope, 2.0, 1e-14);
  EXPECT_NEAR(line.intercept, 1.0, 1e-14);
  EXPECT_NEAR(line.residual_s, 0.0, 1e-14);
  EXPECT_NEAR(line.slope_between.high - line.slope_between.low, 0.0, 1e-12);
}

// The defining property, found by trying: no other line has a smaller sum of squares.
TEST(FitLine, LeavesTheSmallestSquares) {
  test::Hostile random(23);
  for (int i = 0; i < 2000; ++i) {
    std::vector<PointXY> points(random.pick(15) + 3);
    for (PointXY& p : points) p = {random.between(-9.0, 9.0), random.between(0.0, 1.0)};
    const auto line = *fit_line(points);
    const auto squares = [&](double a, double b) {
      return std::accumulate(points.begin(), points.end(), 0.0, [&](double sum, const PointXY& p) {
        return sum + std::pow(p.y - a - b * p.x, 2.0);
      });
    };
    const double least = squares(line.intercept, line.slope);
    ASSERT_NEAR(least, line.residual_s * line.residual_s * double(points.size() - 2), 1e-12);
    for (const double step : {-1e-3, 1e-3}) {
      ASSERT_GT(squares(line.intercept + step, line.slope), least);
      ASSERT_GT(squares(line.intercept, line.slope + step), least);
      ASSERT_GT(squares(line.intercept + step, line.slope - step), least);
    }
  }
}

TEST(FitLine, SlopeIsInItsIntervalAsOftenAsItSays) {
  std::mt19937 random(1809);
  std::normal_distribution<double> noise(0.0, 0.03);
  for (const double confidence : {0.8, 0.95}) {
    int held = 0;
    for (int i = 0; i < kRuns; ++i) {
      std::vector<PointXY> points(5);
      for (std::size_t k = 0; k < points.size(); ++k) {
        points[k] = {double(k + 1), 0.6 + 0.002 * double(k + 1) + noise(random)};
      }
      const auto line = *fit_line(points, confidence);
      held += line.slope_between.low <= 0.002 && 0.002 <= line.slope_between.high ? 1 : 0;
    }
    EXPECT_NEAR(held / double(kRuns), confidence, three_errors(confidence));
  }
}

TEST(FitLine, IsAbsentWhereNothingCanBeSaid) {
  EXPECT_FALSE(fit_line({{0.0, 1.0}, {1.0, 2.0}}));
  EXPECT_FALSE(fit_line({{2.0, 1.0}, {2.0, 2.0}, {2.0, 3.0}}));
  EXPECT_FALSE(fit_line({{0.0, 1.0}, {1.0, 2.0}, {2.0, std::nan("")}}));
  const std::vector<PointXY> good{{0.0, 1.0}, {1.0, 2.0}, {2.0, 4.0}};
  EXPECT_TRUE(fit_line(good, 0.9));
  EXPECT_FALSE(fit_line(good, 1.0) || fit_line(good, 0.0) || fit_line(good, -0.5));
}

Spread summary(std::size_t n, double mean, double s) {
  Spread out;
  out.n = n;
  out.mean = mean;
  out.s = s;
  return out;
}

// NIST/SEMATECH e-Handbook 1.3.5.3, miles per gallon of American and Japanese cars (AUTO83B.DAT),
// summary figures from memory; the handbook tests with equal variances. t 12.94627 and 136.875
// degrees without that assumption are from memory of the same data and follow from the summary.
TEST(DifferenceOfMeans, MatchesTheHandbooksCars) {
  const auto d =
      *difference_of_means(summary(249, 20.14458, 6.414700), summary(79, 30.48101, 6.107710));
  EXPECT_NEAR(d.difference, 10.33643, 1e-9);
  EXPECT_NEAR(d.difference / d.error, 12.94627, 0.00002);
  EXPECT_NEAR(d.degrees, 136.875, 0.002);
  EXPECT_NEAR((d.between.high - d.between.low) / 2.0, *student_t(0.975, 136) * d.error, 1e-12);
}

TEST(DifferenceOfMeans, EqualSpreadsAndCountsHaveAllDegrees) {
  const auto d = *difference_of_means(summary(6, 1.0, 0.5), summary(6, 2.0, 0.5));
  EXPECT_NEAR(d.degrees, 10.0, 1e-12);
  EXPECT_NEAR(d.between.low, 1.0 - *student_t(0.975, 10) * 0.5 * std::sqrt(2.0 / 6.0), 1e-12);
  // Where only one scatters, only its degrees are left.
  EXPECT_NEAR(difference_of_means(summary(6, 1.0, 0.0), summary(4, 2.0, 0.5))->degrees, 3.0, 1e-12);
}

TEST(DifferenceOfMeans, TurnsItsSignWithTheOrder) {
  const Spread a = spread_of({0.61, 0.58, 0.66}), b = spread_of({0.64, 0.69, 0.63, 0.71});
  const auto there = *difference_of_means(a, b), back = *difference_of_means(b, a);
  EXPECT_DOUBLE_EQ(there.between.low, -back.between.high);
  EXPECT_DOUBLE_EQ(there.degrees, back.degrees);
}

// Welch's interval is an approximation: here it holds within one point of what it says, from 4 and 9
// pieces of unlike spreads (where the small log scatters more it holds 94.4 times in a hundred).
TEST(DifferenceOfMeans, HoldsWithinAPointOfWhatItSays) {
  std::mt19937 random(1947);
  for (const double wider : {0.5, 1.0, 3.0}) {
    std::normal_distribution<double> one(0.60, 0.03), two(0.65, 0.03 * wider);
    int held = 0;
    for (int i = 0; i < kRuns; ++i) {
      std::vector<double> a(4), b(9);
      for (double& value : a) value = one(random);
      for (double& value : b) value = two(random);
      const auto d = *difference_of_means(spread_of(a), spread_of(b));
      held += d.between.low <= 0.05 && 0.05 <= d.between.high ? 1 : 0;
    }
    EXPECT_NEAR(held / double(kRuns), 0.95, 0.01) << wider;
  }
}

TEST(DifferenceOfMeans, IsAbsentWithoutScatterToJudgeBy) {
  EXPECT_FALSE(difference_of_means(spread_of({1.0}), spread_of({1.0, 2.0})));
  EXPECT_FALSE(difference_of_means(spread_of({1.0, 1.0}), spread_of({2.0, 2.0})));
  EXPECT_FALSE(difference_of_means(spread_of({1.0, 1.5}), spread_of({2.0, 2.5}), 1.0));
}

TEST(Statistics, HostileNumbersNeverGiveANonNumber) {
  test::Hostile random(24);
  using test::finite;
  for (int i = 0; i < 5000; ++i) {
    std::vector<double> a(random.pick(8)), b(random.pick(8));
    std::vector<PointXY> points(random.pick(8));
    for (double& value : a) value = random.number();
    for (double& value : b) value = random.number();
    for (PointXY& p : points) p = {random.number(), random.number()};
    const double share = random.coin() ? random.number() : random.between(0.0, 1.0);
    ASSERT_TRUE(finite(quantile(a, share)));
    for (const double z : modified_z_scores(a).value_or(std::vector<double>())) {
      ASSERT_TRUE(finite(z));
    }
    if (const auto line = fit_line(points, share)) {
      ASSERT_TRUE(finite(line->slope) && finite(line->intercept) && finite(line->residual_s));
      ASSERT_TRUE(finite(line->slope_error) && finite(line->intercept_error));
      ASSERT_TRUE(finite(line->slope_between.low) && finite(line->slope_between.high));
    }
    if (const auto d = difference_of_means(spread_of(a), spread_of(b), share)) {
      ASSERT_TRUE(finite(d->difference) && finite(d->error) && finite(d->degrees));
      ASSERT_TRUE(finite(d->between.low) && finite(d->between.high));
    }
  }
}

}  // namespace
}  // namespace tallyblock
