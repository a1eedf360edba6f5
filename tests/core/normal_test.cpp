#include "core/base/normal.h"

#include <gtest/gtest.h>

#include <limits>

namespace tallyblock {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

// Standard normal table, from memory; 1.959964 is the point of 97.5 %.
TEST(Normal, TheChanceToBeBelowIsThatOfTheTable) {
  EXPECT_DOUBLE_EQ(normal_below(0.0), 0.5);
  EXPECT_NEAR(normal_below(1.0), 0.841345, 5e-7);
  EXPECT_NEAR(normal_below(1.959964), 0.975, 1e-8);
  EXPECT_NEAR(normal_below(-1.644854), 0.05, 1e-7);
  EXPECT_NEAR(normal_below(2.326348), 0.99, 1e-8);
  EXPECT_NEAR(normal_below(3.0), 0.998650, 5e-7);
}

// Far below, 1 - (the rest) would have lost all digits. Values of the tail from memory.
TEST(Normal, TheFarTailKeepsItsDigits) {
  EXPECT_NEAR(normal_below(-6.0) / 9.8659e-10, 1.0, 1e-4);
  EXPECT_NEAR(normal_below(-8.0) / 6.221e-16, 1.0, 1e-4);
}

TEST(Normal, TheDensityIsThatOfTheTable) {
  EXPECT_NEAR(normal_density(0.0), 0.39894228, 5e-9);
  EXPECT_NEAR(normal_density(1.0), 0.24197072, 5e-9);
  EXPECT_NEAR(normal_density(-2.0), 0.05399097, 5e-9);
}

TEST(Normal, BothSidesAreAlike) {
  for (double z = 0.0; z < 10.0; z += 0.125) {
    EXPECT_NEAR(normal_below(z) + normal_below(-z), 1.0, 1e-15) << z;
    EXPECT_EQ(normal_density(z), normal_density(-z)) << z;
  }
}

TEST(Normal, TheChanceGrowsByTheDensity) {
  constexpr double h = 1e-4;
  for (double z = -5.0; z <= 5.0; z += 0.25) {
    const double slope = (normal_below(z + h) - normal_below(z - h)) / (2 * h);
    EXPECT_NEAR(slope, normal_density(z), 1e-8) << z;
  }
}

TEST(Normal, BeyondEightAndAHalfItIsExactlyNothingOrAll) {
  for (const double z : {8.6, 40.0, 1e300, kInfinity}) {
    EXPECT_EQ(normal_below(z), 1.0) << z;
    EXPECT_EQ(normal_below(-z), 0.0) << z;
    EXPECT_EQ(normal_density(z), 0.0) << z;
    EXPECT_EQ(normal_density(-z), 0.0) << z;
  }
  EXPECT_GT(normal_below(-8.5), 0.0);
  EXPECT_GT(normal_density(8.5), 0.0);
}

}  // namespace
}  // namespace tallyblock
