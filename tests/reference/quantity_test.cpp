// Published examples of yields, quantities, labour and menu prices, source beside each.
#include "core/formulas/quantities.h"

#include <cmath>

#include "core/base/rounding.h"
#include "core/formulas/make_or_buy.h"
#include "worked.h"

namespace tallyblock::test {
namespace {

double floor_to(double value, int decimals) {
  const double power = std::pow(10.0, decimals);
  return std::floor(value * power) / power;
}

// Ten legs of veal to cutlets (exercise of Dittmer & Keefe, Principles of Food, Beverage, and Labor
// Cost Controls, ch. 6; read in a secondary copy, no date). No answers are printed: all recomputed.
TEST(Quantity, BT08TenVealLegsWithTheInverseQuestions) {
  const YieldTestInput legs{lb(247, 8),
                            usd(814.28),
                            lb(80.0),                            // cutlets: what is left
                            {{lb(41, 8), per_lb(0.10), true},    // fat
                             {lb(56, 8), per_lb(0.38), true},    // bones
                             {lb(19, 12), per_lb(1.49), true},   // shanks
                             {lb(47, 4), per_lb(1.89), true}}};  // trimmings
  Mass cutlets = legs.as_purchased - lb(2, 8);                   // loss in cutting
  for (const ByProduct& other : legs.others) cutlets -= other.weight;
  const YieldTest y = yield_test(legs);
  const auto value = [&](std::size_t i) {
    return (legs.others[i].weight * legs.others[i].value).in_units();
  };
  const auto portion_at = [&](double ounces, double price) {
    return portion_cost(oz(ounces), updated_values_move(*y.cost_factor, per_lb(price))).in_units();
  };
  const auto size_for = [&](double cost, double price) {
    return portion_for_cost(usd(cost), *y.cost_factor, per_lb(price)).in(MassUnit::ounce);
  };
  const Mass buy = to_buy(235.0, oz(5.0), y.primary_ratio);
  const Mass leg = legs.as_purchased / 10.0;
  expect_exact({
      {"dealer price", a_lb(*y.price), 3.29002},
      {"cutlets lb", cutlets.in(MassUnit::pound), 80.0},
      {"cutlets % of AP", y.primary_ratio * 100.0, 32.323232},
      {"fat value", value(0), 4.15},
      {"bones value", value(1), 21.47},
      {"shanks value", value(2), 29.4275},
      {"trimmings value", value(3), 89.3025},
      {"value of other parts", y.by_product_value->in_units(), 144.35},
      {"value of cutlets", y.net_cost->in_units(), 669.93},
      {"cost per usable lb", a_lb(*y.cost_per_primary), 8.374125},
      {"portion cost, 5 oz", portion_cost(oz(5.0), *y.cost_per_primary).in_units(), 2.616914},
      {"cost factor per lb", *y.cost_factor, 2.545311},
      {"cost factor per portion", portion_factor(oz(5.0), *y.cost_factor).in(MassUnit::pound),
       0.79541},
      {"5 oz at 3.19", portion_at(5.0, 3.19), 2.537357},
      {"5 oz at 3.89", portion_at(5.0, 3.89), 3.094144},
      {"9 oz at 4.25", portion_at(9.0, 4.25), 6.084884},
      {"portion oz for 2.65 at 3.69", size_for(2.65, 3.69), 4.514385},
      {"portion oz for 2.65 at 3.03", size_for(2.65, 3.03), 5.497717},
      {"AP lb for 235 x 5 oz", buy.in(MassUnit::pound), 227.197266},
      {"legs for 235 x 5 oz", buy / leg, 9.179688},
  });
  EXPECT_EQ(packs_to_buy(235.0, oz(5.0), y.primary_ratio, leg), 10);
}

// BC Cook Articulation Committee, Basic Kitchen and Food Service Management, BCcampus (page dated
// 2019, modified 2024), "Yield Testing".
TEST(Quantity, AE01ThreeProductsOfTheOpenTextbook) {
  struct Product {
    const char* name;
    double as_purchased, edible;  // g, or mL
    double yield, factor;         // exact
    double printed_yield, printed_factor;
  };
  const Product products[] = {
      {"tenderloin", 2500.0, 1750.0, 70.0, 1.428571, 70.0, 1.42},
      {"salmon", 7750.0, 5000.0, 64.516129, 1.55, 64.51, 1.55},
      {"canned tuna", 750.0, 400.0, 53.333333, 1.875, 53.33, 1.875},
  };
  for (const Product& p : products) {
    SCOPED_TRACE(p.name);
    const YieldTest y =
        yield_test({Mass::grams(p.as_purchased), usd(1.0), Mass::grams(p.edible), {}});
    const double yield = y.primary_ratio * 100.0, factor = *y.factor_nothing_saved;
    expect_exact({{"yield %", yield, p.yield}, {"factor", factor, p.factor}});
    expect_printed(
        {{"yield %", yield, p.printed_yield, 0.01}, {"factor", factor, p.printed_factor, 0.01}});
  }
  // Source error: 64.51 and 1.42 are cut off, not rounded. Rounded they are 64.52 and 1.43.
  EXPECT_EQ(fixed_text(5000.0 / 7750.0 * 100.0, 2), "64.52");
  EXPECT_EQ(floor_to(5000.0 / 7750.0 * 100.0, 2), 64.51);
  EXPECT_EQ(fixed_text(2500.0 / 1750.0, 2), "1.43");
  EXPECT_EQ(floor_to(2500.0 / 1750.0, 2), 1.42);
  // Quoted copies drain 300 mL and still get 400 mL: drained of 300 mL the yield would be 60 %.
  const YieldTest tuna = yield_test({Mass::grams(750.0), usd(1.0), Mass::grams(450.0), {}});
  EXPECT_DOUBLE_EQ(tuna.primary_ratio, 0.6);
}

// Garry Wall, Trade Calculations, Objective 4: yield and cost of edible product (2007). Only the 88.5 %
// is printed as text; the rest is recomputed.
TEST(Quantity, AE02StriploinByWeightsNotByARoundedYield) {
  const Mass bought = Mass::of(5.2, MassUnit::kilogram), edible = Mass::of(4.6, MassUnit::kilogram);
  const PricePerMass price = PricePerMass::of(usd(11.95), MassUnit::kilogram);
  const YieldTest y = yield_test({bought, bought * price, edible, {}});
  const Mass portion = Mass::grams(170.0);
  const auto kg = [](Mass mass) { return mass.in(MassUnit::kilogram); };
  const double yield = y.primary_ratio * 100.0;
  expect_printed({{"yield %", yield, 88.5, 0.05}});
  expect_exact({
      {"yield %", yield, 88.461538},
      {"EP price", y.cost_per_primary->per(MassUnit::kilogram), 13.508696},
      {"EP price via 88.5 %", 11.95 / 0.885, 13.502825},
      {"EP kg for 85 x 170 g", kg(85.0 * portion), 14.45},
      {"AP kg", kg(to_buy(85.0, portion, y.primary_ratio)), 16.334783},
      {"AP kg via 88.5 %", kg(to_buy(85.0, portion, 0.885)), 16.327684},
  });
}

// USDA Food and Nutrition Service, Food Buying Guide for Child Nutrition Programs, worked purchase
// formula, ground beef (training slides quoting the Guide, no date).
TEST(Quantity, AE06FoodBuyingGuideGroundBeef) {
  // 11.8 servings of 1 oz from a pound: a yield of 11.8 oz in 16.
  const double yield = 11.8 / 16.0;
  const Mass hundred = to_buy(100.0, oz(1.0), yield);
  const Mass needed = to_buy(230.0, oz(2.0), yield);
  expect_exact({
      {"lb for 100 x 1 oz", hundred.in(MassUnit::pound), 8.474576},
      {"lb from servings per lb", needed.in(MassUnit::pound), 38.983051},
      {"1-oz servings per lb from 0.74", 0.74 * lb(1.0) / oz(1.0), 11.84},
  });
  // The Guide rounds its column up: 8.5 lb a hundred, hence 39.1 lb.
  const Mass column = Mass::of(round_up_to(hundred.in(MassUnit::pound), 0.1), MassUnit::pound);
  expect_printed({
      {"lb for 100 x 1 oz, rounded up", column.in(MassUnit::pound), 8.5, 1e-9},
      {"quantity to buy lb", (column * (230.0 / 100.0) * (2.0 / 1.0)).in(MassUnit::pound), 39.1,
       1e-9},
      {"quantity to buy lb, unrounded", needed.in(MassUnit::pound), 39.1, 0.12},
      {"1-oz servings per lb", floor_to(0.74 * 16.0, 1), 11.8, 1e-9},
  });
  EXPECT_EQ(portions_from(lb(1.0), 0.74, oz(1.0)), 11);
}

// "How much should I buy?" (lecture slides on yield tests and order sizes, no date).
TEST(Quantity, AE10OrdersAreRoundedUp) {
  const Mass edible = 600.0 * oz(4.0);
  const Mass exact = to_buy(600.0, oz(4.0), 0.70);
  const long ounces = packs_to_buy(600.0, oz(4.0), 0.70, oz(1.0));
  const double pounds = oz(static_cast<double>(ounces)).in(MassUnit::pound);
  expect_exact({
      {"EP oz", edible.in(MassUnit::ounce), 2400.0},
      {"AP oz", exact.in(MassUnit::ounce), 3428.571429},
      {"AP lb of the ounces rounded up", pounds, 214.3125},
      {"order lb", round_up_to(pounds, 1.0), 215.0},
  });
  EXPECT_EQ(ounces, 3429);
  EXPECT_EQ(packs_to_buy(600.0, oz(4.0), 0.70, lb(1.0)), 215);
  EXPECT_EQ(packs_to_buy(600.0, oz(4.0), 0.70, lb(50.0)), 5);
  expect_printed({{"AP lb", pounds, 214.31, 0.005}});
  // 1 L at 9.10, 95 % servable, 50 mL a serving: 19 servings at 0.4789 (grams stand for mL here).
  const long servings = portions_from(Mass::grams(1000.0), 0.95, Mass::grams(50.0));
  EXPECT_EQ(servings, 19);
  expect_exact({{"cost per serving", 9.10 / static_cast<double>(servings), 0.478947}});
  expect_printed({{"cost per serving", 9.10 / static_cast<double>(servings), 0.4789, 0.00005}});
}

// Steak FAQs: portion cost of a rib-eye; labour cost of cutting your own (a food-service training page,
// no date). It charges labour per AP pound, before dividing by the yield.
TEST(Quantity, LB02RibeyeWithLabourInBothConventions) {
  const Money an_hour = usd(40.0);
  const Money labour = labour_cost(60.0 * 10.0 / 40.0, an_hour);  // 10 lb at 40 lb an hour
  const PricePerMass labour_per_ap = labour / lb(10.0);
  const YieldTest y =
      yield_test({lb(10.0), lb(10.0) * per_lb(4.50), lb(6.0), {{lb(4.0), {}, true}}});
  const PricePerMass before = cost_with_labour_before_yield(per_lb(4.50), labour_per_ap, 0.6);
  const auto portion = [&](double ounces) { return portion_cost(oz(ounces), before).in_units(); };
  expect_exact({
      {"yield %", y.primary_ratio * 100.0, 60.0},
      {"labour per lb", a_lb(labour_per_ap), 1.0},
      {"finished cost per lb", a_lb(before), 9.166667},
      {"6 oz", portion(6.0), 3.4375},
      {"8 oz", portion(8.0), 4.583333},
      {"14 oz", portion(14.0), 8.020833},
      {"if labour is added after yield", a_lb(*y.cost_per_primary_no_credit + per_lb(1.0)), 8.5},
  });
  expect_printed({
      {"finished cost per lb (cut off, not rounded)", a_lb(before), 9.16, 0.01},
      {"6 oz", portion(6.0), 3.44, 0.01},
      {"8 oz", portion(8.0), 4.58, 0.01},
      {"14 oz", portion(14.0), 8.02, 0.01},
  });
  EXPECT_EQ(fixed_text(a_lb(before), 2), "9.17");  // not the 9.16 printed
  // Charged to the session after yield, the same 10.00 of labour gives the same finished pound.
  MakeOrBuyInput input;
  input.as_purchased = lb(10.0);
  input.cost = *y.cost;
  input.primary = lb(6.0);
  input.labour = labour;
  EXPECT_NEAR(a_lb(make_or_buy(input).break_even_ready_cut), 9.166667, 0.6e-6);
}

// Foodservice Management, 2025 supplement, Tables 17.6 and 17.7: selling price by food-cost percentage
// and by factor (publisher not shown on the page read).
TEST(Quantity, MP01MenuPriceOfLasagna) {
  const Money serving = usd(36.0 / 24.0);
  const Money price = menu_price(serving, Money(), 0.0, 0.35);
  const auto factor = [](double share) {
    return menu_price(usd(1.0), Money(), 0.0, share).in_units();
  };
  expect_exact({
      {"cost per serving", serving.in_units(), 1.5},
      {"price at 35 %", price.in_units(), 4.285714},
      {"factor 40 %", factor(0.40), 2.5},
      {"factor 35 %", factor(0.35), 2.857143},
      {"factor 30 %", factor(0.30), 3.333333},
      {"panini at factor 3", menu_price(usd(2.30), Money(), 0.0, 1.0 / 3.0).in_units(), 6.9},
  });
  expect_printed({
      {"price at 35 %", price.in_units(), 4.29, 0.005},
      {"factor 40 %", factor(0.40), 2.5, 0.05},
      {"factor 35 %", factor(0.35), 2.9, 0.05},
      {"factor 30 %", factor(0.30), 3.3, 0.05},
  });
  // The rounded factor 2.9 would give 4.35: not reproduced.
  EXPECT_GT(std::fabs(price.in_units() - 1.50 * 2.9), 0.05);
}

}  // namespace
}  // namespace tallyblock::test
