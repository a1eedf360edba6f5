#include "core/formulas/prediction.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "hostile.h"

namespace tallyblock {
namespace {

TEST(Prediction, StudentTHasItsClosedFormsForOneAndTwoDegrees) {
  for (const double p : {0.5001, 0.6, 0.75, 0.9, 0.95, 0.99, 0.999}) {
    const double angle = std::acos(-1.0) * (p - 0.5);
    EXPECT_NEAR(*student_t(p, 1), std::tan(angle), 1e-9 * std::tan(angle));
    const double a = 2.0 * p - 1.0;
    const double two = a * std::sqrt(2.0 / (1.0 - a * a));
    EXPECT_NEAR(*student_t(p, 2), two, 1e-9 * two);
    EXPECT_EQ(*student_t(1.0 - p, 7), -*student_t(1.0 - (1.0 - p), 7));
  }
  EXPECT_NEAR(*student_t(0.5, 9), 0.0, 1e-15);
  EXPECT_FALSE(student_t(1.0, 5) || student_t(0.0, 5) || student_t(0.9, 0));
}

TEST(Prediction, BoundIsTheMeanLessTTimesTheWidenedSpread) {
  const Spread yields = spread_of({0.60, 0.62, 0.64});
  // s = 0.02, t(2) at 95 % = 2.919985580 (closed form above)
  const double expected = 0.62 - *student_t(0.95, 2) * 0.02 * std::sqrt(1.0 / 4.0 + 1.0 / 3.0);
  EXPECT_NEAR(*lower_prediction_bound(yields, 4, 0.95), expected, 1e-12);
  EXPECT_GT(*lower_prediction_bound(yields, 40, 0.95), *lower_prediction_bound(yields, 4, 0.95));
  EXPECT_NEAR(*lower_prediction_bound(yields, 4, 0.5), 0.62, 1e-12);
}

TEST(Prediction, FewerThanThreePiecesGiveNoBound) {
  EXPECT_FALSE(lower_prediction_bound(spread_of({0.6, 0.62}), 1, 0.9));
  EXPECT_FALSE(lower_prediction_bound(spread_of({0.6, 0.62, 0.61}), 0, 0.9));
  EXPECT_FALSE(lower_prediction_bound(spread_of({0.6, 0.62, 0.61}), 1, 1.0));
  EXPECT_FALSE(lower_prediction_bound(spread_of({0.6, 0.62, 0.61}), 1, 0.4));
}

TEST(Prediction, HoldsAsOftenAsItSays) {
  std::mt19937 random(1908);
  std::normal_distribution<double> yield(0.62, 0.03);
  const int runs = 40000;
  int held = 0;
  for (int i = 0; i < runs; ++i) {
    std::vector<double> log(6);
    for (double& value : log) value = yield(random);
    const double next = (yield(random) + yield(random)) / 2.0;
    held += next >= *lower_prediction_bound(spread_of(log), 2, 0.9) ? 1 : 0;
  }
  EXPECT_NEAR(held / double(runs), 0.9, 0.008);  // about five standard errors
}

TEST(Prediction, HostileNumbersNeverGiveANonNumber) {
  test::Hostile random(15);
  for (int i = 0; i < 3000; ++i) {
    std::vector<double> values(random.pick(8));
    for (double& value : values) value = random.number();
    const double confidence = random.coin() ? random.number() : random.between(0.0, 1.0);
    ASSERT_TRUE(test::finite(student_t(confidence, random.pick(50))));
    ASSERT_TRUE(
        test::finite(lower_prediction_bound(spread_of(values), random.pick(9), confidence)));
  }
  EXPECT_TRUE(test::finite(student_t(0.95, static_cast<std::size_t>(-1))));
}

}  // namespace
}  // namespace tallyblock
