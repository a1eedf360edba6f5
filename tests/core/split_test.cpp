#include "core/cutting/split.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace tallyblock {
namespace {

// Exact, from the area of a segment of a circle: in thirds the middle piece of an ellipse is 26.5 % of
// its width, the outer ones 36.7 %.
TEST(Split, AnEllipseInThirdsIsNarrowInTheMiddle) {
  const auto cuts = split_fractions(std::numbers::pi / 4, 3);
  ASSERT_EQ(cuts.size(), 2U);
  EXPECT_NEAR(cuts[0], 0.3675, 5e-4);
  EXPECT_NEAR(cuts[1] - cuts[0], 0.2649, 5e-4);
}

TEST(Split, ARectangleSplitsEvenly) {
  const auto cuts = split_fractions(1.0, 4);
  EXPECT_DOUBLE_EQ(cuts[0], 0.25);
  EXPECT_DOUBLE_EQ(cuts[2], 0.75);
}

// Area of the superellipse of a fill, by brute integration, is shared evenly by the cuts.
TEST(Split, LongPiecesOfAnyFaceWeighTheSame) {
  for (const double fill : {0.55, 0.7, 0.8, 0.9, 0.97}) {
    double low = 1.0, high = 200.0;
    const auto strip = [](double u, double n) {
      return std::pow(1.0 - std::pow(std::abs(u), n), 1.0 / n);
    };
    const auto area = [&](double from, double to, double n) {
      double sum = 0.0;
      const int steps = 40000;
      for (int i = 0; i < steps; ++i) sum += strip(from + (to - from) * (i + 0.5) / steps, n);
      return sum * (to - from) / steps;
    };
    for (int i = 0; i < 30; ++i) {
      const double n = (low + high) / 2;
      (area(-1, 1, n) / 2 < fill ? low : high) = n;
    }
    for (int k = 2; k <= 4; ++k) {
      const auto cuts = split_fractions(fill, k);
      const double whole = area(-1, 1, low);
      EXPECT_NEAR(area(-1, 2 * cuts[0] - 1, low) / whole, 1.0 / k, 2e-4) << fill << " " << k;
    }
  }
}

TEST(Split, OnePieceIsNotSplitAndTheCutsLieEvenlyAboutTheMiddle) {
  for (const double fill : {0.5, 0.7, std::numbers::pi / 4, 0.95, 1.0}) {
    EXPECT_TRUE(split_fractions(fill, 1).empty());
    for (int k = 2; k <= 8; ++k) {
      const auto cuts = split_fractions(fill, k);
      ASSERT_EQ(cuts.size(), static_cast<std::size_t>(k - 1));
      double before = 0.0;
      for (std::size_t i = 0; i < cuts.size(); ++i) {
        EXPECT_GT(cuts[i], before);
        EXPECT_NEAR(cuts[i] + cuts[cuts.size() - 1 - i], 1.0, 1e-12);
        before = cuts[i];
      }
      EXPECT_LT(before, 1.0);
    }
  }
}

// Middle piece of an ellipse in thirds 26.5 %, of a rectangle in quarters 25 %.
TEST(Split, TheNarrowestPieceIsTheOneInTheMiddle) {
  EXPECT_NEAR(narrowest_fraction(std::numbers::pi / 4, 3), 0.2649, 5e-4);
  EXPECT_NEAR(narrowest_fraction(std::numbers::pi / 4, 2), 0.5, 1e-12);
  EXPECT_NEAR(narrowest_fraction(1.0, 4), 0.25, 1e-12);
  EXPECT_EQ(narrowest_fraction(0.8, 1), 1.0);
}

// Area over box: ellipse pi / 4; n = 1 is a rhombus, half of it.
TEST(Split, TheExponentIsThatOfTheFaceWithThatFill) {
  EXPECT_NEAR(superellipse_exponent(std::numbers::pi / 4), 2.0, 1e-9);
  EXPECT_NEAR(superellipse_exponent(0.5), 1.0, 1e-9);
  EXPECT_NEAR(superellipse_exponent(0.2), 1.0, 1e-9);
  EXPECT_EQ(superellipse_exponent(1.0), 0.0);
  EXPECT_GT(superellipse_exponent(0.95), superellipse_exponent(0.9));
}

}  // namespace
}  // namespace tallyblock
