#include "core/base/rounding.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numeric>

#include "hostile.h"

namespace tallyblock {
namespace {

// Ties to even: ASTM E29 and NIST SP 811 (2008), B.7.1 (rule from memory).
TEST(RoundHalfEven, TiesGoToTheEvenDigit) {
  EXPECT_EQ(round_half_even(0.5, 0), 0.0);
  EXPECT_EQ(round_half_even(1.5, 0), 2.0);
  EXPECT_EQ(round_half_even(2.5, 0), 2.0);
  EXPECT_EQ(round_half_even(-0.5, 0), 0.0);
  EXPECT_EQ(round_half_even(-1.5, 0), -2.0);
  EXPECT_EQ(round_half_even(-2.5, 0), -2.0);
  EXPECT_EQ(round_half_even(0.125, 2), 0.12);
  EXPECT_EQ(round_half_even(0.375, 2), 0.38);
}

TEST(RoundHalfEven, ATieThatDoublesCannotHoldIsStillATie) {
  EXPECT_EQ(round_half_even(2.675, 2), 2.68);  // the double lies below the tie
  EXPECT_EQ(round_half_even(2.665, 2), 2.66);  // and here above it
  EXPECT_EQ(round_half_even(1.005, 2), 1.0);
  EXPECT_EQ(round_half_even(1.015, 2), 1.02);
  EXPECT_EQ(round_half_even(0.1 + 0.2 + 0.005, 2), 0.3);
  EXPECT_EQ(round_half_even(1234567.675, 2), 1234567.68);
  EXPECT_EQ(round_half_even(1234567.665, 2), 1234567.66);
}

TEST(RoundHalfEven, WhatIsNoTieGoesToTheNearer) {
  EXPECT_EQ(round_half_even(2.6749, 2), 2.67);
  EXPECT_EQ(round_half_even(2.6751, 2), 2.68);
  EXPECT_EQ(round_half_even(2.50000001, 0), 3.0);
  EXPECT_EQ(round_half_even(2.49999999, 0), 2.0);
  EXPECT_EQ(round_half_even(1e300, 2), 1e300);
  EXPECT_EQ(round_half_even(5e-324, 9), 0.0);
  EXPECT_EQ(round_half_even(-1e300, 9), -1e300);
}

TEST(RoundHalfEven, EveryCentAndTieUpToAThousandIsRight) {
  for (int tenths = 0; tenths <= 1000000; ++tenths) {
    const int below = tenths / 10, rest = tenths % 10;
    const bool up = rest > 5 || (rest == 5 && below % 2 == 1);
    ASSERT_EQ(round_half_even(tenths / 1000.0, 2), (below + (up ? 1 : 0)) / 100.0) << tenths;
  }
}

TEST(RoundHalfUp, TiesGoAwayFromZeroAsATillDoes) {
  EXPECT_EQ(round_half_up(0.5, 0), 1.0);
  EXPECT_EQ(round_half_up(2.5, 0), 3.0);
  EXPECT_EQ(round_half_up(-0.5, 0), -1.0);
  EXPECT_EQ(round_half_up(-2.5, 0), -3.0);
  EXPECT_EQ(round_half_up(0.125, 2), 0.13);
  EXPECT_EQ(round_half_up(1.005, 2), 1.01);  // the double lies below the tie
  EXPECT_EQ(round_half_up(2.665, 2), 2.67);
  EXPECT_EQ(round_half_up(-1.005, 2), -1.01);
  EXPECT_EQ(round_half_up(-1.0049, 2), -1.0);
  EXPECT_EQ(round_half_up(1e300, 2), 1e300);
  EXPECT_EQ(round_half_up(std::nan(""), 2), 0.0);
}

TEST(RoundHalfUp, EveryCentAndTieUpToAThousandIsRight) {
  for (int tenths = 0; tenths <= 1000000; ++tenths) {
    const double cents = tenths / 10 + (tenths % 10 >= 5 ? 1 : 0);
    ASSERT_EQ(round_half_up(tenths / 1000.0, 2), cents / 100.0) << tenths;
    ASSERT_EQ(round_half_up(-tenths / 1000.0, 2), -cents / 100.0) << tenths;
  }
}

TEST(FixedText, ShowsAllDecimalsAndNoGrouping) {
  EXPECT_EQ(fixed_text(-1234.5, 2), "-1234.50");
  EXPECT_EQ(fixed_text(0.0, 2), "0.00");
  EXPECT_EQ(fixed_text(2.675, 2), "2.68");
  EXPECT_EQ(fixed_text(1e6, 0), "1000000");
  EXPECT_EQ(fixed_text(0.1, 9), "0.100000000");
  EXPECT_EQ(fixed_text(1.5, -3), "2");
  EXPECT_EQ(fixed_text(1.5, 30), "1.500000000");
}

TEST(FixedText, NeverShowsMinusZeroNorANonNumber) {
  EXPECT_EQ(fixed_text(-0.0, 2), "0.00");
  EXPECT_EQ(fixed_text(-0.004, 2), "0.00");
  EXPECT_EQ(fixed_text(-0.5, 0), "0");
  EXPECT_EQ(fixed_text(-1e-300, 9), "0.000000000");
  EXPECT_EQ(fixed_text(std::numeric_limits<double>::infinity(), 2), "?");
  EXPECT_EQ(fixed_text(-std::numeric_limits<double>::infinity(), 0), "?");
  EXPECT_EQ(fixed_text(std::numeric_limits<double>::quiet_NaN(), 2), "?");
  EXPECT_EQ(fixed_text(-1.7e308, 9).size(), 320u);
}

TEST(RoundUpTo, GoesToTheNextWholePack) {
  EXPECT_EQ(round_up_to(214.3125, 1.0), 215.0);
  EXPECT_EQ(round_up_to(214.3125, 50.0), 250.0);
  EXPECT_EQ(round_up_to(250.0, 50.0), 250.0);
  EXPECT_EQ(round_up_to(250.000001, 50.0), 300.0);
  EXPECT_EQ(round_up_to(0.0, 5.0), 0.0);
  EXPECT_DOUBLE_EQ(round_up_to(0.1 * 3.0, 0.1), 0.3);  // not 0.4 for the dust in 0.1 x 3
  EXPECT_EQ(round_up_to(7.0, 0.0), 7.0);
  EXPECT_EQ(round_up_to(7.0, -1.0), 7.0);
}

std::int64_t sum(const std::vector<std::int64_t>& values) {
  return std::accumulate(values.begin(), values.end(), std::int64_t{0});
}

TEST(SharesThatAddUp, GiveTheLargestRemaindersTheSpareCents) {
  using Cents = std::vector<std::int64_t>;
  EXPECT_EQ(shares_that_add_up({1.0 / 3, 1.0 / 3, 1.0 / 3}, 2), (Cents{34, 33, 33}));
  EXPECT_EQ(shares_that_add_up({0.334, 0.333, 0.333}, 2), (Cents{34, 33, 33}));
  EXPECT_EQ(shares_that_add_up({0.333, 0.333, 0.334}, 2), (Cents{33, 33, 34}));
  EXPECT_EQ(shares_that_add_up({0.5, 0.5}, 0), (Cents{1, 0}));
  EXPECT_EQ(shares_that_add_up({-0.505, 0.255, 0.25}, 2), (Cents{-50, 25, 25}));
  EXPECT_EQ(shares_that_add_up({10.0, 2.345}, 2), (Cents{1000, 235}));  // 12.345 is shown as 12.35
  EXPECT_EQ(shares_that_add_up({-10.0, -2.345}, 2), (Cents{-1000, -235}));
  EXPECT_EQ(shares_that_add_up({5.004, 5.003}, 2, 1000), (Cents{500, 500}));
  EXPECT_EQ(shares_that_add_up({5.003, 5.004, 0.0}, 2, 1001), (Cents{500, 501, 0}));
  EXPECT_EQ(shares_that_add_up({0.29, 0.71}, 2), (Cents{29, 71}));
  EXPECT_EQ(shares_that_add_up({}, 2), Cents{});
  EXPECT_EQ(shares_that_add_up({1.0, 1e308}, 2), (Cents{0, 0}));
  EXPECT_EQ(shares_that_add_up({1.0, std::nan("")}, 2), (Cents{0, 0}));
}

TEST(SharesThatAddUp, AddUpToTheRoundedTotalEachWithinOneUnit) {
  test::Hostile random(4711);
  for (int run = 0; run < 20000; ++run) {
    const int decimals = static_cast<int>(random.pick(4));
    const double unit = std::pow(10.0, -decimals);
    std::vector<double> parts(random.pick(30) + 1);
    const bool cents_only = random.coin();
    for (double& part : parts) {
      part = random.between(-50.0, 500.0);
      if (cents_only) part = std::round(part * 1000.0) / 1000.0;
    }
    double total = 0.0;
    for (const double part : parts) total += part;
    const auto shares = shares_that_add_up(parts, decimals);
    ASSERT_EQ(shares.size(), parts.size());
    ASSERT_EQ(sum(shares), std::llround(round_half_up(total, decimals) / unit));
    for (std::size_t i = 0; i < parts.size(); ++i) {
      ASSERT_LE(std::fabs(static_cast<double>(shares[i]) * unit - parts[i]), unit * (1.0 + 1e-9));
    }
  }
}

TEST(SharesThatAddUp, KeepWholeCentsAsTheyAre) {
  test::Hostile random(42);
  for (int run = 0; run < 5000; ++run) {
    std::vector<double> parts(random.pick(20) + 1);
    std::vector<std::int64_t> cents(parts.size());
    for (std::size_t i = 0; i < parts.size(); ++i) {
      cents[i] = static_cast<std::int64_t>(random.pick(200000)) - 50000;
      parts[i] = static_cast<double>(cents[i]) / 100.0;
    }
    ASSERT_EQ(shares_that_add_up(parts, 2), cents);
  }
}

TEST(Rounding, HostileNumbersNeverGiveANonNumber) {
  test::Hostile random(1);
  for (int i = 0; i < 50000; ++i) {
    const double a = random.number(), b = random.number();
    const int decimals = static_cast<int>(random.pick(14)) - 2;
    ASSERT_TRUE(test::finite(round_half_even(a, decimals))) << a;
    ASSERT_TRUE(test::finite(round_half_up(a, decimals))) << a;
    ASSERT_TRUE(test::finite(round_up_to(a, b))) << a << " " << b;
    ASSERT_EQ(fixed_text(a, decimals).find_first_not_of("-0123456789."), std::string::npos) << a;
    const auto shares = shares_that_add_up({a, b, random.number()}, decimals);
    ASSERT_EQ(shares.size(), 3u);
  }
}

}  // namespace
}  // namespace tallyblock
