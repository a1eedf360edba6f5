#include "core/formulas/quantities.h"

#include <gtest/gtest.h>

#include "hostile.h"

namespace tallyblock {
namespace {

Mass kg(double value) { return Mass::of(value, MassUnit::kilogram); }
Mass g(double value) { return Mass::grams(value); }
PricePerMass per_kg(double value) {
  return PricePerMass::of(Money::units(value), MassUnit::kilogram);
}

TEST(Quantities, PortionsAreWholeAndRoundedDown) {
  EXPECT_EQ(portions_from(kg(10.0), 0.6, g(200.0)), 30);
  EXPECT_EQ(portions_from(kg(10.0), 0.5999, g(200.0)), 29);
  EXPECT_EQ(portions_from(g(199.0), 1.0, g(200.0)), 0);
  // 3 x 0.1 kg is a whisker above 0.3 kg in binary, and 0.7 / 0.1 a whisker below 7.
  EXPECT_EQ(portions_from(kg(0.7), 1.0, kg(0.1)), 7);
  EXPECT_EQ(portions_from(kg(0.3), 1.0, kg(0.1)), 3);
  EXPECT_EQ(portions_from(Mass::of(12.0, MassUnit::pound), 1.0, Mass::of(12.0, MassUnit::ounce)),
            16);
}

TEST(Quantities, ToBuyIsRoundedUpToWholePacks) {
  EXPECT_DOUBLE_EQ(to_buy(85.0, g(170.0), 0.85).in_grams(), 17000.0);
  EXPECT_EQ(packs_to_buy(85.0, g(170.0), 0.85, kg(17.0)), 1);
  EXPECT_EQ(packs_to_buy(85.0, g(170.0), 0.85, kg(16.9)), 2);
  EXPECT_EQ(packs_to_buy(30.0, g(200.0), 0.6, kg(0.1)), 100);
  EXPECT_EQ(packs_to_buy(0.0, g(200.0), 0.6, kg(1.0)), 0);
}

TEST(Quantities, WhatIsBoughtYieldsThePortionsAndOnePackLessDoesNot) {
  test::Hostile random(10);
  for (int i = 0; i < 20000; ++i) {
    const auto portions = static_cast<long>(random.pick(400) + 1);
    const Mass portion = g(random.between(50.0, 600.0));
    const double yield = random.between(0.2, 1.0);
    const Mass pack = g(random.between(100.0, 20000.0));
    const long packs = packs_to_buy(static_cast<double>(portions), portion, yield, pack);
    ASSERT_GE(portions_from(static_cast<double>(packs) * pack, yield, portion), portions);
    ASSERT_LT(portions_from(static_cast<double>(packs - 1) * pack, yield, portion), portions);
  }
}

TEST(Quantities, PortionForACostCostsThatMuch) {
  const Mass portion = portion_for_cost(Money::units(4.0), 1.6, per_kg(20.0));
  EXPECT_DOUBLE_EQ(portion.in_grams(), 125.0);
}

TEST(Quantities, MenuPriceCoversAccompanimentsAndSurcharge) {
  EXPECT_DOUBLE_EQ(menu_price(Money::units(6.0), Money::units(1.5), 0.1, 0.3).in_units(), 27.5);
  EXPECT_DOUBLE_EQ(menu_price(Money::units(6.0), Money(), 0.0, 1.0).in_units(), 6.0);
}

TEST(Quantities, ImpossibleQuestionsGiveZero) {
  EXPECT_EQ(portions_from(kg(1.0), 0.5, Mass()), 0);
  EXPECT_EQ(portions_from(kg(-1.0), 0.5, g(100.0)), 0);
  EXPECT_EQ(to_buy(10.0, g(100.0), 0.0), Mass());
  EXPECT_EQ(packs_to_buy(10.0, g(100.0), 0.5, Mass()), 0);
  EXPECT_EQ(portion_for_cost(Money::units(1.0), 0.0, per_kg(1.0)), Mass());
  EXPECT_EQ(menu_price(Money::units(1.0), Money(), 0.0, 0.0), Money());
  EXPECT_EQ(portions_from(Mass::grams(1e300), 1.0, g(1e-300)), 0);
  EXPECT_EQ(portions_from(Mass::grams(1e300), 1.0, g(1.0)), 1000000000);
}

TEST(Quantities, HostileNumbersNeverGiveANonNumber) {
  test::Hostile random(11);
  using test::finite;
  for (int i = 0; i < 50000; ++i) {
    const double a = random.number(), b = random.number();
    const long portions = portions_from(random.mass(), a, random.mass());
    ASSERT_TRUE(portions >= 0 && portions <= 1000000000);
    const long packs = packs_to_buy(a, random.mass(), b, random.mass());
    ASSERT_TRUE(packs >= 0 && packs <= 1000000000);
    ASSERT_TRUE(finite(to_buy(a, random.mass(), b)));
    ASSERT_TRUE(finite(portion_for_cost(random.money(), a, random.price())));
    ASSERT_TRUE(finite(menu_price(random.money(), random.money(), a, b)));
  }
}

}  // namespace
}  // namespace tallyblock
