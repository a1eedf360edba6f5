#include "core/typed/inside/typed_scan.h"

#include <gtest/gtest.h>

#include <random>

namespace tallyblock::scan {
namespace {

constexpr Wide kOne = 1;

TEST(Nearest, TiesGoToTheEvenDouble) {
  const Wide top = kOne << 53;  // from here on, odd numbers lie halfway between two doubles
  EXPECT_EQ(nearest(top + 1, 1), 9007199254740992.0);
  EXPECT_EQ(nearest(top + 3, 1), 9007199254740996.0);
  EXPECT_EQ(nearest((top + 1) << 40, kOne << 40), 9007199254740992.0);
  EXPECT_EQ(nearest(top + 1, kOne << 60), 0.0078125);  // 2^-7
}

TEST(Nearest, ATraceAboveOrBelowTheTieDecides) {
  const Wide top = kOne << 53;
  EXPECT_EQ(nearest((top + 1) * 3u + 1u, 3), 9007199254740994.0);
  EXPECT_EQ(nearest((top + 1) * 3u - 1u, 3), 9007199254740992.0);
  EXPECT_EQ(nearest(((top + 1) << 30) + 1u, kOne << 30), 9007199254740994.0);
}

TEST(Nearest, RoundingMayCarryIntoTheNextPowerOfTwo) {
  EXPECT_EQ(nearest((kOne << 54) - 1u, 1), 18014398509481984.0);
}

TEST(Nearest, AgreesWithTheDivisionOfTwoDoubles) {
  // Whole numbers below 2^53 are doubles, and dividing two doubles rounds once.
  std::mt19937_64 random(1985);
  for (int i = 0; i < 200000; ++i) {
    const unsigned long long a = random() >> (11 + random() % 40);
    const unsigned long long b = (random() >> (11 + random() % 40)) + 1;
    ASSERT_EQ(nearest(a, b), static_cast<double>(a) / static_cast<double>(b)) << a << "/" << b;
  }
  EXPECT_EQ(nearest(0, 7), 0.0);
}

}  // namespace
}  // namespace tallyblock::scan
