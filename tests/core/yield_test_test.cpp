// Own cases; the published worked examples are in tests/reference.
#include "core/formulas/yield_test.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "hostile.h"

namespace tallyblock {
namespace {

Mass kg(double value) { return Mass::of(value, MassUnit::kilogram); }
PricePerMass per_kg(double value) {
  return PricePerMass::of(Money::units(value), MassUnit::kilogram);
}
bool needs(const YieldTest& test, Code code) {
  return std::find(test.needs.begin(), test.needs.end(), code) != test.needs.end();
}

// An invented piece: 10 kg at 20, 6 kg portions, 2 kg trim at 8, 1 kg bones at 1, 1 kg waste that
// costs 0.5 to dispose of.
YieldTestInput piece() {
  return {
      kg(10.0),
      Money::units(200.0),
      kg(6.0),
      {{kg(2.0), per_kg(8.0), true}, {kg(1.0), per_kg(1.0), true}, {kg(1.0), per_kg(-0.5), false}}};
}

TEST(YieldTest, FollowsTheMoneyThroughAPiece) {
  const YieldTest y = yield_test(piece());
  EXPECT_DOUBLE_EQ(y.by_product_value->in_units(), 16.5);
  EXPECT_DOUBLE_EQ(y.net_cost->in_units(), 183.5);
  EXPECT_DOUBLE_EQ(y.cost_per_primary->per(MassUnit::kilogram), 183.5 / 6.0);
  EXPECT_DOUBLE_EQ(y.price->per(MassUnit::kilogram), 20.0);
  EXPECT_DOUBLE_EQ(*y.cost_factor, 183.5 / 6.0 / 20.0);
  EXPECT_DOUBLE_EQ(y.cost_per_primary_no_credit->per(MassUnit::kilogram), 200.0 / 6.0);
  EXPECT_DOUBLE_EQ(y.cost_per_usable->per(MassUnit::kilogram), 200.0 / 9.0);
  EXPECT_DOUBLE_EQ(y.primary_ratio, 0.6);
  EXPECT_DOUBLE_EQ(y.usable_ratio, 0.9);
  EXPECT_DOUBLE_EQ(*y.factor_nothing_saved, 10.0 / 6.0);
  EXPECT_DOUBLE_EQ(*y.factor_all_usable, 10.0 / 9.0);
  EXPECT_TRUE(y.needs.empty());
}

TEST(YieldTest, WithoutPrimaryThereIsNoCostPerUnit) {
  YieldTestInput input = piece();
  input.primary = Mass();
  const YieldTest y = yield_test(input);
  EXPECT_FALSE(y.cost_per_primary || y.cost_factor || y.cost_per_primary_no_credit ||
               y.factor_nothing_saved);
  EXPECT_TRUE(needs(y, Code::need_primary));
  EXPECT_DOUBLE_EQ(y.net_cost->in_units(), 183.5);
  EXPECT_TRUE(y.factor_all_usable);
}

TEST(YieldTest, PriceZeroGivesNoFactorButACost) {
  YieldTestInput input = piece();
  input.cost = Money();
  const YieldTest y = yield_test(input);
  EXPECT_FALSE(y.cost_factor);
  EXPECT_TRUE(needs(y, Code::need_price_not_zero));
  EXPECT_DOUBLE_EQ(y.net_cost->in_units(), -16.5);
  EXPECT_DOUBLE_EQ(y.cost_per_primary->per(MassUnit::kilogram), -2.75);
}

TEST(YieldTest, WithoutPriceOnlyWeightsAreKnown) {
  YieldTestInput input = piece();
  input.cost.reset();
  const YieldTest y = yield_test(input);
  EXPECT_FALSE(y.cost || y.price || y.net_cost || y.cost_per_primary || y.cost_per_usable);
  EXPECT_TRUE(needs(y, Code::need_price));
  EXPECT_DOUBLE_EQ(*y.factor_nothing_saved, 10.0 / 6.0);
  EXPECT_DOUBLE_EQ(y.by_product_value->in_units(), 16.5);
}

TEST(YieldTest, WithoutWholeWeightOnlyRatiosFactorsAndThePricePerWeightAreMissing) {
  YieldTestInput input = piece();
  input.as_purchased = Mass();
  const YieldTest y = yield_test(input);
  EXPECT_TRUE(needs(y, Code::need_whole_weight));
  EXPECT_FALSE(y.cost_factor || y.price || y.factor_all_usable);
  EXPECT_EQ(y.primary_ratio, 0.0);
  EXPECT_FALSE(y.factor_nothing_saved);
  EXPECT_DOUBLE_EQ(y.net_cost->in_units(), 183.5);
  EXPECT_DOUBLE_EQ(y.cost_per_primary->per(MassUnit::kilogram), 183.5 / 6.0);
  EXPECT_DOUBLE_EQ(y.cost_per_usable->per(MassUnit::kilogram), 200.0 / 9.0);
  EXPECT_DOUBLE_EQ(y.by_product_value->in_units(), 16.5);
}

TEST(YieldTest, CreditsAboveTheCostAreShownAsNegative) {
  YieldTestInput input = piece();
  input.others[0].value = per_kg(150.0);
  const YieldTest y = yield_test(input);
  EXPECT_LT(y.net_cost->in_units(), 0.0);
  EXPECT_LT(*y.cost_factor, 0.0);
}

TEST(YieldTest, NothingUsableSaysSo) {
  const YieldTest y = yield_test({kg(1.0), Money::units(5.0), Mass(), {{kg(1.0), {}, false}}});
  EXPECT_TRUE(needs(y, Code::need_usable));
  EXPECT_FALSE(y.factor_all_usable || y.cost_per_usable);
}

// 30 % lost does not make the meat 30 % dearer: 1 / 0.70 = 1.43 averaged over the usable. Common
// practice, no source.
TEST(YieldTest, ThirtyPercentLostIsAFactorOf143OverTheUsable) {
  const YieldTest y = yield_test({kg(10.0), Money::units(100.0), kg(7.0), {{kg(3.0), {}, false}}});
  EXPECT_NEAR(*y.factor_all_usable, 1.43, 0.005);
  EXPECT_DOUBLE_EQ(*y.factor_all_usable, 1.0 / 0.70);
  EXPECT_NE(*y.factor_all_usable, 1.30);
  EXPECT_DOUBLE_EQ(*y.cost_factor, *y.factor_nothing_saved);  // nothing was credited
}

TEST(YieldTest, PriceUpdatesAgreeAtTheOldPriceAndPartAtANewOne) {
  const YieldTestInput input = piece();
  const YieldTest y = yield_test(input);
  const auto both = [&](double price) {
    return std::pair(updated_values_move(*y.cost_factor, per_kg(price)),
                     updated_values_held(kg(10.0), per_kg(price), *y.by_product_value, kg(6.0)));
  };
  EXPECT_DOUBLE_EQ(both(20.0).first.per(MassUnit::gram), both(20.0).second.per(MassUnit::gram));
  EXPECT_DOUBLE_EQ(both(25.0).first.per(MassUnit::kilogram), 183.5 / 6.0 * 1.25);
  EXPECT_DOUBLE_EQ(both(25.0).second.per(MassUnit::kilogram), (250.0 - 16.5) / 6.0);
}

TEST(YieldTest, EveryCoinOfACostIsOnSomePile) {
  test::Hostile random(5);
  for (int i = 0; i < 5000; ++i) {
    YieldTestInput input{kg(random.between(1.0, 50.0)),
                         Money::units(random.between(1.0, 900.0)),
                         kg(random.between(0.1, 20.0)),
                         {}};
    for (std::size_t n = random.pick(8); n > 0; --n) {
      input.others.push_back(
          {kg(random.between(0.0, 5.0)), per_kg(random.between(-1.0, 20.0)), random.coin()});
    }
    const YieldTest y = yield_test(input);
    const Money primary = portion_cost(input.primary, *y.cost_per_primary);
    EXPECT_NEAR((primary + *y.by_product_value).in_units(), input.cost->in_units(), 1e-9);
    const Mass portion = kg(0.2);
    EXPECT_NEAR(portion_cost(portion, *y.cost_per_primary).in_units(),
                (portion_factor(portion, *y.cost_factor) * *y.price).in_units(), 1e-9);
  }
}

TEST(YieldTest, HostileNumbersNeverGiveANonNumber) {
  test::Hostile random(6);
  for (int i = 0; i < 50000; ++i) {
    YieldTestInput input{random.mass(), random.money(), random.mass(), {}};
    if (random.pick(8) == 0) input.cost.reset();
    for (std::size_t n = random.pick(4); n > 0; --n) {
      input.others.push_back({random.mass(), random.price(), random.coin()});
    }
    const YieldTest y = yield_test(input);
    using test::finite;
    ASSERT_TRUE(finite(y.primary_ratio) && finite(y.usable_ratio) && finite(y.usable));
    ASSERT_TRUE(finite(y.factor_nothing_saved) && finite(y.factor_all_usable) &&
                finite(y.cost_factor));
    ASSERT_TRUE(finite(y.cost) && finite(y.price) && finite(y.by_product_value) &&
                finite(y.net_cost));
    ASSERT_TRUE(finite(y.cost_per_primary) && finite(y.cost_per_primary_no_credit) &&
                finite(y.cost_per_usable));
    ASSERT_TRUE(finite(portion_cost(random.mass(), random.price())));
    ASSERT_TRUE(finite(portion_factor(random.mass(), random.number())));
    ASSERT_TRUE(finite(updated_values_move(random.number(), random.price())));
    ASSERT_TRUE(
        finite(updated_values_held(random.mass(), random.price(), random.money(), random.mass())));
  }
}

}  // namespace
}  // namespace tallyblock
