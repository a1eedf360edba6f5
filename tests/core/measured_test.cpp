// Uncertainty of readings: JCGM 100:2008 (GUM), F.2.2.1 (resolution), 5.2.2 (correlated inputs).
#include "core/base/measured.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "hostile.h"

namespace tallyblock {
namespace {

const double kRoot12 = std::sqrt(12.0);
const double kRoot6 = std::sqrt(6.0);

Measured read(const std::string& id, double grams, double division = 1.0) {
  return Measured::reading(id, Mass::grams(grams), Mass::grams(division));
}
double u(const Measured& m) { return m.uncertainty().in_grams(); }

TEST(Measured, OneReadingHasTheDivisionOverRootTwelve) {
  EXPECT_DOUBLE_EQ(u(read("a", 340.0, 1.0)), 1.0 / kRoot12);
  // 0.1, 0.5, 1, 2, 5, 10 and 20 g give these to 4 decimals (computed from the rule of F.2.2.1).
  const double table[][2] = {{0.1, 0.0289}, {0.5, 0.1443},  {1.0, 0.2887}, {2.0, 0.5774},
                             {5.0, 1.4434}, {10.0, 2.8868}, {20.0, 5.7735}};
  for (const auto& [d, expected] : table) EXPECT_NEAR(u(read("a", 340.0, d)), expected, 0.00005);
  EXPECT_EQ(u(Measured::exact(Mass::grams(5.0))), 0.0);
  EXPECT_EQ(u(read("a", 340.0, 0.0)), 0.0);
}

TEST(Measured, NetOfItsOwnTareHasTheDivisionOverRootSix) {
  const Measured net = read("gross", 540.0) - read("tare", 200.0);
  EXPECT_EQ(net.value(), Mass::grams(340.0));
  EXPECT_DOUBLE_EQ(u(net), 1.0 / kRoot6);
  EXPECT_NEAR(u(read("g", 1.0, 5.0) - read("t", 1.0, 5.0)), 2.0412, 0.00005);
}

TEST(Measured, ATareSharedByManyReadingsAddsUpWithItself) {
  const Measured tare = read("tub", 200.0, 2.0);
  for (int n = 1; n <= 30; ++n) {
    Measured sum;
    for (int i = 0; i < n; ++i) sum += read("r" + std::to_string(i), 500.0, 2.0) - tare;
    EXPECT_DOUBLE_EQ(sum.value().in_grams(), 300.0 * n);
    EXPECT_NEAR(u(sum), 2.0 / kRoot12 * std::sqrt(n + double(n) * n), 1e-12) << n;
  }
}

TEST(Measured, DifferencesOfAGrowingTubTelescope) {
  Measured sum;
  for (int i = 1; i <= 50; ++i) {
    sum += read("t" + std::to_string(i), 100.0 * i) -
           read("t" + std::to_string(i - 1), 100.0 * (i - 1));
  }
  EXPECT_EQ(sum.value(), Mass::grams(5000.0));
  EXPECT_DOUBLE_EQ(u(sum), 1.0 / kRoot6);  // only the first and the last reading are left
}

TEST(Measured, IndependentReadingsAddInQuadratureInAnyOrder) {
  std::mt19937 random(3);
  std::vector<int> order(200);
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = static_cast<int>(i);
  std::shuffle(order.begin(), order.end(), random);
  Measured shuffled, straight;
  for (const int i : order) shuffled += read("id" + std::to_string(i), i, 1.0 + i % 5);
  for (int i = 0; i < 200; ++i) straight += read("id" + std::to_string(i), i, 1.0 + i % 5);
  double squares = 0.0;
  for (int i = 0; i < 200; ++i) squares += (1.0 + i % 5) * (1.0 + i % 5) / 12.0;
  EXPECT_NEAR(u(shuffled), std::sqrt(squares), 1e-11);
  EXPECT_EQ(u(shuffled), u(straight));
}

TEST(Measured, AReadingTakenFromItselfLeavesNothing) {
  Measured a = read("a", 340.0);
  a -= a;
  EXPECT_EQ(a.value(), Mass());
  EXPECT_EQ(u(a), 0.0);
  Measured twice = read("a", 340.0);
  twice += twice;
  EXPECT_DOUBLE_EQ(u(twice), 2.0 / kRoot12);
}

TEST(Measured, ScalingScalesBoth) {
  const Measured half = read("a", 340.0).scaled(0.5);
  EXPECT_EQ(half.value(), Mass::grams(170.0));
  EXPECT_DOUBLE_EQ(u(half), 0.5 / kRoot12);
  EXPECT_DOUBLE_EQ(u(read("a", 340.0).scaled(-1.0)), 1.0 / kRoot12);
  EXPECT_EQ(u(read("a", 340.0).scaled(0.0)), 0.0);
}

TEST(RatioUncertainty, OfIndependentReadingsAddsRelativeSquares) {
  const double r = 600.0 / 1000.0;
  const double expected =
      r * std::sqrt(std::pow(1.0 / kRoot12 / 600.0, 2) + std::pow(2.0 / kRoot12 / 1000.0, 2));
  EXPECT_NEAR(ratio_uncertainty(read("a", 600.0, 1.0), read("b", 1000.0, 2.0)), expected, 1e-15);
}

TEST(RatioUncertainty, OfAReadingOnBothSidesIsCorrelated) {
  const Measured a = read("a", 600.0), b = read("b", 400.0);
  EXPECT_EQ(ratio_uncertainty(a, a), 0.0);
  // a / (a + b): d = (b da - a db) / (a + b)^2
  const double expected = std::hypot(400.0, 600.0) / 1e6 / kRoot12;
  EXPECT_NEAR(ratio_uncertainty(a, a + b), expected, 1e-18);
  EXPECT_LT(expected, ratio_uncertainty(a, read("c", 1000.0)) * 1.0 + expected);
  EXPECT_EQ(ratio_uncertainty(a, Measured()), 0.0);
}

TEST(RatioUncertainty, AgreesWithSimulatedReadings) {
  // primary = gross - tare, whole = primary + waste, tare shared: simulate the scale's rounding.
  std::mt19937 random(12);
  std::uniform_real_distribution<double> jitter(-0.5, 0.5);
  const double division = 20.0;
  double sum = 0.0, squares = 0.0;
  const int runs = 200000;
  for (int i = 0; i < runs; ++i) {
    const double tare = 200.0 + division * jitter(random);
    const double primary = 1200.0 + division * jitter(random) - tare;
    const double waste = 700.0 + division * jitter(random) - tare;
    const double ratio = primary / (primary + waste);
    sum += ratio;
    squares += ratio * ratio;
  }
  const double sd = std::sqrt(squares / runs - sum / runs * (sum / runs));
  const Measured tare = read("tare", 200.0, division);
  const Measured primary = read("p", 1200.0, division) - tare;
  const Measured waste = read("w", 700.0, division) - tare;
  EXPECT_NEAR(ratio_uncertainty(primary, primary + waste), sd, 0.01 * sd);
}

TEST(Measured, HostileNumbersNeverGiveANonNumber) {
  test::Hostile random(2);
  for (int i = 0; i < 50000; ++i) {
    const auto any = [&] {
      return Measured::reading(std::string(1, static_cast<char>('a' + random.pick(3))),
                               random.mass(), random.mass());
    };
    Measured a = any(), b = any();
    a += b;
    b -= any().scaled(random.number());
    for (const Measured& m : {a, b, a + b, a - b, a.scaled(random.number())}) {
      ASSERT_TRUE(test::finite(m.value()) && test::finite(m.uncertainty()));
    }
    ASSERT_TRUE(test::finite(ratio_uncertainty(a, b)));
  }
}

}  // namespace
}  // namespace tallyblock
