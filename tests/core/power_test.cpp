#include "core/base/power.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace tallyblock {
namespace {

TEST(PowerOfTen, IsTheNearestDouble) {
  static_assert(power_of_ten(0) == 1.0 && power_of_ten(3) == 1000.0 && power_of_ten(-2) == 0.01);
  EXPECT_EQ(power_of_ten(9), 1e9);
  EXPECT_EQ(power_of_ten(22), 1e22);
  EXPECT_EQ(power_of_ten(-3), 1e-3);
  EXPECT_EQ(power_of_ten(-9), 1e-9);
  EXPECT_EQ(power_of_ten(-22), 1e-22);
}

TEST(PowerOfTen, GoesNoFurtherThanItIsExact) {
  EXPECT_EQ(power_of_ten(23), 1e22);
  EXPECT_EQ(power_of_ten(std::numeric_limits<int>::max()), 1e22);
  EXPECT_EQ(power_of_ten(std::numeric_limits<int>::min()), 1e-22);
}

TEST(PowerOf, IsWhatTheStandardLibrarySays) {
  for (const double base : {1e-300, 1e-9, 0.02, 0.5, 1.0, 1.7, 40.0, 1e12}) {
    for (const double exponent : {0.1, 0.5, 1.0, 2.0 / 2.3, 2.0, 2.5, 7.0}) {
      const double right = std::pow(base, exponent);
      if (right == 0.0) {  // too small for a double
        EXPECT_EQ(power_of(base, exponent), 0.0);
        continue;
      }
      const double units = std::abs(std::log(right)) + 2.0;
      EXPECT_NEAR(power_of(base, exponent), right,
                  units * std::numeric_limits<double>::epsilon() * right)
          << base << " to the power of " << exponent;
    }
  }
}

TEST(PowerOf, NothingStaysNothing) {
  EXPECT_EQ(power_of(0.0, 0.5), 0.0);
  EXPECT_EQ(power_of(0.0, 3.0), 0.0);
}

}  // namespace
}  // namespace tallyblock
