#include "core/cutting/cook.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace tallyblock {
namespace {

void expect_prior(const CookPrior& got, const CookPrior& wanted, double room = 0.0) {
  EXPECT_NEAR(got.habit, wanted.habit, room);
  EXPECT_NEAR(got.habit_sd, wanted.habit_sd, room);
  EXPECT_NEAR(got.scatter, wanted.scatter, room);
  EXPECT_NEAR(got.scatter_weight, wanted.scatter_weight, room);
}

TEST(Cook, RecordsWithoutCutsOrWithoutMeaningCarryNothing) {
  const CookPrior none = carried_prior({{0.3, 0.01, 0.02, 0},
                                        {std::nan(""), 0.01, 0.02, 9},
                                        {0.1, 0.0, 0.02, 9},
                                        {0.1, 0.01, -1.0, 9}});
  EXPECT_EQ(none.habit, 0.0);
  EXPECT_EQ(none.habit_sd, CookPrior{}.habit_sd);
  EXPECT_EQ(none.scatter, CookPrior{}.scatter);
}

TEST(Cook, ARecordThatIsInfiniteIsLeftOutAndTheOthersCount) {
  const double infinity = std::numeric_limits<double>::infinity();
  const CookRecord good{0.05, 0.02, 0.03, 12};
  expect_prior(carried_prior({{infinity, 0.02, 0.03, 9},
                              {0.05, infinity, 0.03, 9},
                              good,
                              {0.05, 0.02, infinity, 9},
                              {0.05, 0.02, 1e200, 9},
                              {0.05, 0.02, std::nan(""), 9}}),
               carried_prior({good}));
}

// By hand. Habit: 1 / (0.02^2 + 0.015^2) = 1600 of precision against 1 / 0.04^2 = 625 of the default.
// Scatter: (4 x 0.026^2 + 12 x 0.05^2) / 16.
TEST(Cook, ASessionIsWeighedByItsPrecisionAndShrunkTowardsTheDefaults) {
  const CookPrior prior = carried_prior({{0.06, 0.02, 0.05, 12}});
  EXPECT_NEAR(prior.habit, 0.06 * 1600 / 2225, 1e-12);
  EXPECT_NEAR(prior.habit_sd, std::sqrt(1.0 / 2225 + 0.000225), 1e-12);
  EXPECT_NEAR(prior.scatter, std::sqrt(0.032704 / 16), 1e-12);
  EXPECT_EQ(prior.scatter_weight, 16.0);
}

// The next session differs from all of them by kBetweenSessions, however many there were.
TEST(Cook, ManySessionsAgreeButTheNextOneMayStillDiffer) {
  const CookPrior prior = carried_prior(std::vector<CookRecord>(5000, {0.05, 0.01, 0.02, 40}));
  EXPECT_NEAR(prior.habit, 0.05, 1e-4);
  EXPECT_NEAR(prior.habit_sd, kBetweenSessions, 1e-4);
  EXPECT_NEAR(prior.scatter, 0.02, 1e-4);
  EXPECT_LE(prior.scatter_weight, 30.0);
}

// A block twice as thick as usual scatters half as much: the knife misses by the same.
TEST(Cook, AKnifeMissesByMillimetres) {
  EXPECT_NEAR(knife_of(0.026).in_millimetres(), 0.936, 1e-12);
  EXPECT_NEAR(knife_of(0.026) / (kUsualBlock * 2.0), 0.013, 1e-12);
}

TEST(Cook, TheSettingReadsBack) {
  for (const CookPrior& prior : {CookPrior{}, CookPrior{-0.0312, 0.0151, 0.0468, 30.0},
                                 CookPrior{0.4999, 0.0002, 0.4999, 1.0}}) {
    expect_prior(cook_from_setting(cook_setting(prior)), prior, 1e-12);
  }
  const CookPrior carried = carried_prior({{0.0123456, 0.0123456, 0.0456789, 7}});
  expect_prior(cook_from_setting(cook_setting(carried)), carried, 0.00005);
  expect_prior(cook_from_setting("0,05 0.01 0.02 20"), {0.05, 0.01, 0.02, 20.0}, 1e-12);
}

TEST(Cook, ACookSettingThatMakesNoSenseIsTheDefault) {
  for (const char* text : {"", "0.1", "0.1 0.01 0.02", "9 0.01 0.02 4", "0.1 0 0.02 4",
                           "0.1 0.01 0.02 4 5", "a b c d"}) {
    EXPECT_EQ(cook_from_setting(text).habit, CookPrior{}.habit) << text;
    EXPECT_EQ(cook_from_setting(text).scatter, CookPrior{}.scatter) << text;
  }
}

TEST(Cook, AnyOtherSettingGivesAllFourDefaults) {
  for (const std::string& text :
       {std::string(" 0.1 0.01 0.02 4"), std::string("0.1  0.01 0.02 4"),
        std::string("0.1 0.01 0.02 4 "), std::string("0.1;0.01;0.02;4"),
        std::string("0.1 0.01 0.02 x"), std::string("nan 0.01 0.02 4"),
        std::string("0.1 inf 0.02 4"), std::string("0.5 0.01 0.02 4"),
        std::string("-0.5 0.01 0.02 4"), std::string("0.1 0.5 0.02 4"),
        std::string("0.1 -0.01 0.02 4"), std::string("0.1 0.01 0.5 4"), std::string("0.1 0.01 0 4"),
        std::string("0.1 0.01 0.02 0.9"), std::string("0.1 0.01 0.02 1001"),
        std::string("\xFF\xFE"), std::string(100000, ' '), std::string(100000, '1')}) {
    expect_prior(cook_from_setting(text), CookPrior{});
  }
  expect_prior(cook_from_setting(cook_setting({std::nan(""), 0.01, 0.02, 4.0})), CookPrior{});
}

}  // namespace
}  // namespace tallyblock
