// Certified least squares line of the NIST Statistical Reference Datasets (StRD), linear regression,
// Norris: J. Norris, Calibration of Ozone Monitors, 36 measured pairs, certified by the National
// Institute of Standards and Technology to 15 digits. Compared to 9 significant digits.
// Percentiles: NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.2.
#include <gtest/gtest.h>

#include <cmath>

#include "core/formulas/prediction.h"
#include "core/formulas/statistics.h"

namespace tallyblock::test {
namespace {

const std::vector<PointXY> kNorris = {
    {0.2, 0.1},     {337.4, 338.8}, {118.2, 118.1}, {884.6, 888.0}, {10.1, 9.2},    {226.5, 228.1},
    {666.3, 668.5}, {996.3, 998.5}, {448.6, 449.1}, {777.0, 778.9}, {558.2, 559.2}, {0.4, 0.3},
    {0.6, 0.1},     {775.5, 778.1}, {666.9, 668.8}, {338.0, 339.3}, {447.5, 448.9}, {11.6, 10.8},
    {556.0, 557.7}, {228.1, 228.3}, {995.8, 998.0}, {887.6, 888.8}, {120.2, 119.6}, {0.3, 0.3},
    {0.3, 0.6},     {556.8, 557.6}, {339.1, 339.3}, {887.2, 888.0}, {999.0, 998.5}, {779.0, 778.9},
    {11.1, 10.2},   {118.3, 117.6}, {229.2, 228.9}, {669.1, 668.4}, {448.9, 449.2}, {0.5, 0.2}};

void expect_digits(double computed, double certified) {
  EXPECT_NEAR(computed, certified, std::fabs(certified) * 1e-9);
}

TEST(StrdLine, Norris) {
  const auto line = *fit_line(kNorris);
  ASSERT_EQ(line.n, 36u);
  expect_digits(line.intercept, -0.262323073774029);
  expect_digits(line.intercept_error, 0.232818234301152);
  expect_digits(line.slope, 1.00211681802045);
  expect_digits(line.slope_error, 0.429796848199937E-03);
  expect_digits(line.residual_s, 0.884796396144373);
  const double half = *student_t(0.975, 34) * 0.429796848199937E-03;
  expect_digits(line.slope_between.low, 1.00211681802045 - half);
  expect_digits(line.slope_between.high, 1.00211681802045 + half);
}

// A large common part of x, as of years or grams, moves the intercept only.
TEST(StrdLine, NorrisFarFromZero) {
  std::vector<PointXY> far = kNorris;
  for (PointXY& p : far) p.x += 1e6;
  const auto line = *fit_line(far);
  expect_digits(line.slope, 1.00211681802045);
  expect_digits(line.residual_s, 0.884796396144373);
}

// Twelve gauge readings and their 90th percentile 95.1981, from memory. The same page names a second
// definition, 1 + p (n - 1), which gives 95.1957: not ours.
TEST(Quantile, MatchesTheHandbookExample) {
  const std::vector<double> readings{95.1772, 95.1567, 95.1937, 95.1959, 95.1442, 95.0610,
                                     95.1591, 95.1195, 95.1065, 95.0925, 95.1990, 95.1682};
  EXPECT_NEAR(*quantile(readings, 0.9), 95.1981, 0.00005);
  EXPECT_NEAR(*quantile(readings, 0.9), 95.19807, 1e-9);
}

}  // namespace
}  // namespace tallyblock::test
