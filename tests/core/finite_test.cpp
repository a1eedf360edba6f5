#include "core/base/finite.h"

#include <gtest/gtest.h>

#include <limits>

#include "hostile.h"

namespace tallyblock {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
constexpr double kGreatest = std::numeric_limits<double>::max();
constexpr double kLeast = std::numeric_limits<double>::denorm_min();

TEST(Finite, AFiniteValueStaysHoweverLargeOrSmall) {
  for (const double value : {0.0, -1.5, kGreatest, -kGreatest, kLeast}) {
    EXPECT_EQ(finite_or(value, 7.0), value);
  }
}

TEST(Finite, WhatIsInfiniteOrNotANumberGivesTheFallback) {
  for (const double value : {kInfinity, -kInfinity, kNan}) {
    EXPECT_EQ(finite_or(value), 0.0);
    EXPECT_EQ(finite_or(value, 7.0), 7.0);
  }
}

TEST(Ratio, IsTheQuotientWhereThatIsAFiniteNumber) {
  EXPECT_EQ(ratio_of(1.0, 4.0), 0.25);
  EXPECT_EQ(ratio_of(-1.0, 4.0), -0.25);
  EXPECT_EQ(ratio_of(0.0, -3.0), 0.0);
  EXPECT_EQ(ratio_of(5.0, kInfinity), 0.0);
}

TEST(Ratio, ThereIsNoneOfNothingNorBeyondADouble) {
  EXPECT_FALSE(ratio_of(1.0, 0.0));
  EXPECT_FALSE(ratio_of(1.0, -0.0));
  EXPECT_FALSE(ratio_of(0.0, 0.0));
  EXPECT_FALSE(ratio_of(kGreatest, 0.5));
  EXPECT_FALSE(ratio_of(1.0, kLeast));
  EXPECT_FALSE(ratio_of(kInfinity, 2.0));
  EXPECT_FALSE(ratio_of(kInfinity, kInfinity));
  EXPECT_FALSE(ratio_of(kNan, 1.0));
  EXPECT_FALSE(ratio_of(1.0, kNan));
}

TEST(Ratio, OfAnyTwoFiguresIsFiniteOrAbsent) {
  test::Hostile hostile(1);
  int there = 0;
  for (int i = 0; i < 5000; ++i) {
    const double top = hostile.number(), bottom = hostile.number();
    const auto ratio = ratio_of(top, bottom);
    EXPECT_TRUE(test::finite(ratio)) << top << " / " << bottom;
    if (ratio) ++there;
  }
  EXPECT_GT(there, 2500) << "else it proves little";
}

TEST(WholeIfClose, TakesOffTheDustOfADivision) {
  EXPECT_EQ(whole_if_close(3.0000000001), 3.0);
  EXPECT_EQ(whole_if_close(-2.9999999999), -3.0);
  EXPECT_EQ(whole_if_close(1e-10), 0.0);
  EXPECT_EQ(whole_if_close(0.3 / 0.1), 3.0);  // 2.9999999999999996 as a double
  EXPECT_EQ(whole_if_close(4.0), 4.0);
}

TEST(WholeIfClose, TheRoomIsABillionthOfTheValueAndAtLeastABillionth) {
  EXPECT_EQ(whole_if_close(0.9e-9), 0.0);
  EXPECT_EQ(whole_if_close(1.1e-9), 1.1e-9);
  EXPECT_EQ(whole_if_close(5.0000000045), 5.0);
  EXPECT_EQ(whole_if_close(5.0000000055), 5.0000000055);
  EXPECT_EQ(whole_if_close(2.5), 2.5);
  EXPECT_EQ(whole_if_close(2.9999), 2.9999);
}

TEST(WholeIfClose, WhatIsNoNumberStaysAsItIs) {
  EXPECT_EQ(whole_if_close(kInfinity), kInfinity);
  EXPECT_EQ(whole_if_close(-kInfinity), -kInfinity);
  EXPECT_TRUE(std::isnan(whole_if_close(kNan)));
  EXPECT_EQ(whole_if_close(kGreatest), kGreatest);
}

}  // namespace
}  // namespace tallyblock
