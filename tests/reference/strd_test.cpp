// Certified mean and sample standard deviation (n - 1) of the NIST Statistical Reference Datasets
// (StRD), univariate summary statistics: 9 significant digits. Capability: NIST/SEMATECH e-Handbook of
// Statistical Methods, 6.1.6. Student quantiles: the published table of upper-tail critical values (read
// in a secondary copy, recomputed), 3 decimals.
//
// The set PiDigits is not here: its data was not at hand, and it cannot be built from pi. The first
// 5,000 digits of pi (3 included) have mean 4.5358 and s 2.86768, not the certified 4.5348 and 2.86734.
#include "strd.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/formulas/portions.h"
#include "core/formulas/prediction.h"

namespace tallyblock::test {
namespace {

void expect_certified(const std::vector<double>& values, double mean, double s,
                      double digits = 9.0) {
  const Spread spread = spread_of(values);
  const double within = std::pow(10.0, -digits);
  EXPECT_NEAR(spread.mean, mean, std::fabs(mean) * within);
  ASSERT_TRUE(spread.s);
  EXPECT_NEAR(*spread.s, s, s * within);
}

// First value x.2, then 500 pairs of x.1 and x.3, all times `scale`.
std::vector<double> num_acc(double x, double scale = 1.0) {
  std::vector<double> values{x * scale + 0.2 * scale};
  for (int i = 0; i < 500; ++i) {
    values.push_back(x * scale + 0.1 * scale);
    values.push_back(x * scale + 0.3 * scale);
  }
  return values;
}

TEST(Strd, Lew) { expect_certified(kLew, -177.435, 277.332168044316); }
TEST(Strd, Mavro) { expect_certified(kMavro, 2.001856, 0.000429123454003053); }
TEST(Strd, NumAcc1) { expect_certified({10000001.0, 10000003.0, 10000002.0}, 10000002.0, 1.0); }
TEST(Strd, NumAcc2) { expect_certified(num_acc(1.0), 1.2, 0.1); }
TEST(Strd, NumAcc3) { expect_certified(num_acc(1000000.0), 1000000.2, 0.1); }

TEST(Strd, NumAcc4CountedInTenths) {
  // In tenths every value is a whole number, which a double holds.
  expect_certified(num_acc(10000000.0, 10.0), 100000002.0, 1.0);
}

TEST(Strd, NumAcc4AsDoublesKeepsEveryDigitThatDoublesHave) {
  // No double is 10000000.1; the nearest is off by 3.7e-10 and that of x.3 by 7.5e-10, so the set as
  // doubles has s = 0.10000000055879..., 8 digits of the certified 0.1. Against that s: 12 digits.
  const std::vector<double> values = num_acc(10000000.0);
  expect_certified(values, 10000000.2, 0.1, 8.0);
  const long double half = (static_cast<long double>(10000000.3) - 10000000.1) / 2.0L;
  EXPECT_NEAR(*spread_of(values).s, static_cast<double>(half), 1e-13);
}

// NIST/SEMATECH e-Handbook, 6.1.6: USL 20, LSL 8, mean 16, s 2 give Cp 1.0, Cpk 0.6667.
TEST(Capability, MatchesTheHandbookExample) {
  std::vector<Mass> portions{Mass::grams(16.0)};
  for (int i = 0; i < 12; ++i) {
    portions.push_back(Mass::grams(14.0));
    portions.push_back(Mass::grams(18.0));
  }
  const PortionFigures p = portions_against(portions, Mass::grams(14.0), Mass::grams(6.0));
  ASSERT_EQ(p.grams.n, 25u);
  EXPECT_DOUBLE_EQ(p.grams.mean, 16.0);
  EXPECT_DOUBLE_EQ(*p.grams.s, 2.0);
  EXPECT_DOUBLE_EQ(*p.cp, 1.0);
  EXPECT_NEAR(*p.cpk, 0.6667, 0.00005);
  EXPECT_DOUBLE_EQ(*p.cpk, 2.0 / 3.0);
}

// NIST/SEMATECH e-Handbook, 6.3.2.2: the ten readings have s = 2.0339 (recomputed; one public data set
// prints 1.8674 for them, which is wrong).
TEST(Spread, OfTheIndividualsChartExample) {
  const Spread s = spread_of({49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1});
  EXPECT_NEAR(s.mean, 50.81, 1e-12);
  EXPECT_NEAR(*s.s, 2.03385239, 1e-8);
  EXPECT_GT(std::fabs(*s.s - 1.8674), 0.1);
}

TEST(StudentT, MatchesThePublishedTable) {
  const double tails[] = {0.10, 0.05, 0.025, 0.01, 0.005};
  struct Row {
    std::size_t degrees;
    double t[5];
  };
  const Row rows[] = {
      {1, {3.078, 6.314, 12.706, 31.821, 63.657}}, {2, {1.886, 2.920, 4.303, 6.965, 9.925}},
      {3, {1.638, 2.353, 3.182, 4.541, 5.841}},    {4, {1.533, 2.132, 2.776, 3.747, 4.604}},
      {5, {1.476, 2.015, 2.571, 3.365, 4.032}},    {9, {1.383, 1.833, 2.262, 2.821, 3.250}},
      {10, {1.372, 1.812, 2.228, 2.764, 3.169}},   {19, {1.328, 1.729, 2.093, 2.539, 2.861}},
      {30, {1.310, 1.697, 2.042, 2.457, 2.750}},   {60, {1.296, 1.671, 2.000, 2.390, 2.660}},
      {100, {1.290, 1.660, 1.984, 2.364, 2.626}},  {100000, {1.282, 1.645, 1.960, 2.326, 2.576}}};
  for (const Row& row : rows) {
    for (std::size_t i = 0; i < 5; ++i) {
      EXPECT_NEAR(*student_t(1.0 - tails[i], row.degrees), row.t[i], 0.00051) << row.degrees;
    }
  }
}

}  // namespace
}  // namespace tallyblock::test
