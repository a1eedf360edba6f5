// What else a number may have been meant to be.
#include "core/typed/slips.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace tallyblock {
namespace {

bool knows(double typed, int decimals, double meant) {
  const std::vector<double> found = before_a_slip(typed, decimals);
  return std::ranges::any_of(found, [&](double one) { return std::abs(one - meant) < 1e-9; });
}

TEST(BeforeASlip, KnowsTheUsualSlips) {
  EXPECT_TRUE(knows(1840, 0, 184));  // ten times too large
  EXPECT_TRUE(knows(18, 0, 184));    // a digit lost
  EXPECT_TRUE(knows(84, 0, 184));
  EXPECT_TRUE(knows(1884, 0, 184));  // a digit twice
  EXPECT_TRUE(knows(148, 0, 184));   // two swapped
  EXPECT_TRUE(knows(284, 0, 184));   // a hundred more
  EXPECT_TRUE(knows(84, 0, 184));    // a hundred less
  EXPECT_TRUE(knows(64, 1, 6.4));    // ounces without their mark
  EXPECT_TRUE(knows(0.64, 2, 6.4));
}

TEST(BeforeASlip, KnowsNeitherTheNumberItselfNorNoughtNorWhatIsNoNumber) {
  for (const double typed : {0.0, 7.0, 184.0, 1e8}) {
    for (const double one : before_a_slip(typed, 0)) {
      EXPECT_GT(one, 0.0);
      EXPECT_NE(one, typed);
    }
  }
  EXPECT_TRUE(before_a_slip(-3.0, 0).empty());
  EXPECT_TRUE(before_a_slip(1e12, 0).empty());
}

TEST(BeforeASlip, TheLikeliestComesFirstAndTheUnlikelyNotAtAll) {
  const std::vector<double> meant = likely_meant(284, 0, 186, 0.05);
  ASSERT_FALSE(meant.empty());
  EXPECT_EQ(meant.front(), 184.0);
  EXPECT_TRUE(likely_meant(137, 0, 200, 0.05).empty());
}

// 1620 for 162: that the mark slipped is likelier than that one more key was pressed after 160.
TEST(Slips, TheCommonerSlipIsOfferedFirstOfTwoThatAreAsNear) {
  EXPECT_EQ(likely_meant(1620, 0, 160, 0.05).at(0), 162.0);
  EXPECT_EQ(likely_meant(16.2, 1, 161, 0.05).at(0), 162.0);
}

}  // namespace
}  // namespace tallyblock
