// A published butcher test card, entered reading by reading in pounds and ounces.
//
// Source: Exercise 6.3, butcher test card, lamb loin; an exercise of Dittmer & Keefe, "Principles of
// Food, Beverage, and Labor Cost Controls" (secondary copy, no date). Card: 12 lb 0 oz at $6.65/lb;
// fat 3-0 at 0, kidneys 1-0 at $6.10/lb, flanks 1-8 at $4.60/lb, loss in cutting 0-8, usable meat
// 6-0, portions of 5 oz. Each printed figure is a plain two-decimal rounding of the exact value.
#include <gtest/gtest.h>

#include "tests/core/session_builder.h"

namespace tallyblock {
namespace {

using testing::doubts_of;
using testing::pile_of;
using testing::SessionBuilder;

Figures lamb_loin() {
  SessionBuilder s;
  s.division("1/2 oz");
  s.setting("currency", "USD");
  s.setting("unit", "lb-oz");
  s.setting("price-unit", "lb");
  s.whole("12 lb").price("6.65", "lb");
  s.pile("usable meat", Role::primary);
  s.pile("kidneys", Role::secondary, "6.10", "lb");
  s.pile("flanks", Role::usable_trim, "4.60", "lb");
  s.pile("fat", Role::unusable_trim, "0", "lb");
  s.target("usable meat", "5 oz");
  s.read("fat", "3 lb 0 oz");
  s.increment("kidneys", "8 oz");
  s.increment("kidneys", "0 lb 8 oz");
  s.read("flanks", "1 lb 8 oz");
  const EntryId first = s.increment("usable meat", "2 lb 9 1/2 oz");
  s.tub_now("usable meat", "6 lb 0 oz", {first});
  EXPECT_TRUE(s.refused().empty());
  return s.figures();
}

double percent_of(const Figures& f, const std::string& pile) {
  return 100.0 * pile_of(f, pile)->share_of_ap;
}

TEST(LambLoinCard, WeightsAndPercentagesAreThoseOfTheCard) {
  const Figures f = lamb_loin();
  ASSERT_TRUE(f.yield && f.loss);
  EXPECT_NEAR(percent_of(f, "fat"), 25.0, 1e-9);
  EXPECT_NEAR(percent_of(f, "kidneys"), 8.333333, 5e-7);
  EXPECT_NEAR(percent_of(f, "flanks"), 12.5, 1e-9);
  EXPECT_NEAR(percent_of(f, "usable meat"), 50.0, 1e-9);
  EXPECT_NEAR(f.loss->value().in(MassUnit::ounce), 8.0, 1e-9);
  EXPECT_NEAR(100.0 * (f.loss->value() / f.incoming.as_purchased->value()), 4.166667, 5e-7);
  EXPECT_EQ(doubts_of(f, Code::doubt_loss_high).size(), 1u);  // 4.2 % is above 2 %
}

TEST(LambLoinCard, CostsAndFactorsAreThoseOfTheCard) {
  const Figures f = lamb_loin();
  ASSERT_TRUE(f.yield && f.yield->cost_factor);
  EXPECT_NEAR(f.cost->in_units(), 79.80, 1e-9);
  EXPECT_NEAR(pile_of(f, "kidneys")->worth->in_units(), 6.10, 1e-9);
  EXPECT_NEAR(pile_of(f, "flanks")->worth->in_units(), 6.90, 1e-9);
  EXPECT_NEAR(f.yield->net_cost->in_units(), 66.80, 1e-9);
  EXPECT_NEAR(f.yield->cost_per_primary->per(MassUnit::pound), 11.133333, 5e-7);
  EXPECT_NEAR(f.yield->cost_per_primary->per(MassUnit::ounce), 0.695833, 5e-7);
  EXPECT_NEAR(*f.yield->cost_factor, 1.674185, 5e-7);
  ASSERT_EQ(f.targets.size(), 1u);
  EXPECT_NEAR(f.targets[0].cost->in_units(), 3.479167, 5e-7);
  EXPECT_NEAR(*f.targets[0].factor, 0.523183, 5e-7);
  EXPECT_EQ(f.targets[0].whole_portions, 19);  // 96 oz / 5 oz, rounded down
}

}  // namespace
}  // namespace tallyblock
