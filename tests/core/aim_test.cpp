#include "core/cutting/aim.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

namespace tallyblock {
namespace {

// 180 +/- 7 g, each worth `value`, remainder `rest` a gram: the rule of plan.h in words, by Simpson's rule over
// the normal density, stretch by stretch so that the jumps at the limits cost nothing.
double worth_by_integration(double aim, double s, double value, double rest) {
  constexpr double target = 180, lower = 173, upper = 187;
  const auto stretch = [&](double from, double to, auto worth) {
    const int steps = 2000;
    const double h = (to - from) / steps;
    double sum = 0.0;
    for (int i = 0; i <= steps; ++i) {
      const double w = from + i * h;
      const double z = (w - aim) / s;
      const double density = std::exp(-0.5 * z * z) / (s * std::sqrt(2 * std::numbers::pi));
      sum += density * worth(w) * (i == 0 || i == steps ? 1 : i % 2 == 1 ? 4 : 2);
    }
    return sum * h / 3.0;
  };
  const double far = 10.0 * s + std::abs(aim - target) + 20.0;
  return stretch(lower - far, lower, [&](double w) { return rest * w; }) +
         stretch(lower, upper, [&](double) { return value; }) +
         stretch(upper, upper + far, [&](double w) {
           return std::max(rest * w, kTrimmedWorth * value + rest * (w - target));
         });
}

Aim aim_of(double s, double value, double rest) {
  return where_to_aim({"", Mass::grams(180), Mass::grams(7), {}, Money::units(value)},
                      PricePerMass::of(Money::units(rest), MassUnit::gram), Mass::grams(s));
}

TEST(Aim, MaximisesTheNumericallyIntegratedWorthLessTheWeightItTakes) {
  for (const double s : {2.0, 5.0, 9.0, 20.0}) {
    for (const double rest : {0.0, 0.005, 0.012}) {
      const Aim found = aim_of(s, 3.6, rest);
      const auto gain = [&](double aim) {
        return worth_by_integration(aim, s, 3.6, rest) - 3.6 * aim / 180.0;
      };
      double best = -1e9;
      for (double aim = 180; aim <= 187; aim += 0.1) best = std::max(best, gain(aim));
      EXPECT_GE(gain(found.aim.in_grams()), best - 1e-6);  // no aim on a grid of 0.1 g gives more
      EXPECT_NEAR(found.worth.in_units(), worth_by_integration(found.aim.in_grams(), s, 3.6, rest),
                  1e-6);
    }
  }
}

TEST(Aim, AWorthlessRemainderPushesTheAimUp) {
  EXPECT_LT(aim_of(9.0, 3.6, 0.018).aim, aim_of(9.0, 3.6, 0.0).aim);
}

// 180 +/- 7 g, s = 6 g: the chance to hit both limits is P(|z| <= 7/6) = 75.7 % at 180 g (standard normal
// table); an aim that knows no upper limit lost a fifth.
TEST(Aim, KnowsTheUpperLimitAndIsNeverBelowTheDeclaredWeight) {
  const Aim both = aim_of(6.0, 3.6, 0.0);
  EXPECT_GE(both.aim, Mass::grams(180));
  EXPECT_LE(both.aim, Mass::grams(183));
  EXPECT_GT(both.share_within, 0.69);
  EXPECT_GE(aim_of(0.5, 3.6, 0.0).aim, Mass::grams(180));
  EXPECT_EQ(aim_of(0.0, 3.6, 0.0).aim, Mass::grams(180));
}

TEST(Aim, OfWeightsThatGainAlikeTheLeastIsTaken) {
  const auto most = [](auto gain) { return weight_of_most(100.0, 110.0, 10, gain); };
  EXPECT_EQ(most([](double) { return 1.0; }), 100.0);
  EXPECT_EQ(most([](double w) { return w >= 104.0 && w <= 107.0 ? 2.0 : -5.0; }), 104.0);
  EXPECT_EQ(most([](double w) { return w; }), 110.0) << "both ends are tried";
}

// ---- a row of blocks

// By simulation: what comes of `left` when blocks of normal weight are cut one after another.
TEST(RowOfBlocks, ItsWorthIsThatOfASimulatedRowCutByItsAims) {
  const Mass target = Mass::grams(100), tolerance = Mass::grams(5);
  const RowOfBlocks row(target, tolerance, 0.03, 0.0, Mass::grams(1000));
  for (const double all : {210.0, 390.0, 620.0, 955.0}) {
    std::uint64_t seed = 12345;
    const auto uniform = [&] {
      seed = seed * 6364136223846793005ULL + 1442695040888963407ULL;
      return (static_cast<double>(seed >> 11) + 0.5) * 0x1p-53;
    };
    constexpr int kRows = 4000;
    double worth = 0.0;
    for (int i = 0; i < kRows; ++i) {
      for (double left = all; left >= 95.0;) {
        const double aim = row.aim(Mass::grams(left)).in_grams();
        if (!(aim > 0.0)) break;
        const double normal =
            std::sqrt(-2.0 * std::log(uniform())) * std::cos(2 * std::numbers::pi * uniform());
        const double weight = aim >= left ? left : std::min(left, aim * (1.0 + 0.03 * normal));
        worth += weight < 95.0 ? 0.0 : weight <= 105.0 ? 1.0 : kTrimmedWorth;
        left -= weight;
      }
    }
    EXPECT_NEAR(row.worth(Mass::grams(all)), worth / kRows, 0.12) << all;
  }
}

TEST(RowOfBlocks, OneBlockThatIsAPortionAsItIsIsNotCut) {
  const RowOfBlocks row(Mass::grams(100), Mass::grams(5), 0.03, 0.2, Mass::grams(500));
  EXPECT_EQ(row.aim(Mass::grams(103)), Mass::grams(103));
  EXPECT_EQ(row.aim(Mass::grams(94)), Mass());
}

// 970 g: ten at 97 g would be half short; nine at 100 g leave 70 g.
TEST(RowOfBlocks, DoesNotSpreadAShortageThatHalfThePortionsWouldFallShortBy) {
  const RowOfBlocks row(Mass::grams(100), Mass::grams(4), 0.03, 0.1, Mass::grams(1000));
  EXPECT_GE(row.aim(Mass::grams(965)), Mass::grams(99));
}

}  // namespace
}  // namespace tallyblock
