// Published butcher's yield tests, source beside each.
#include <cmath>

#include "tests/core/session_builder.h"
#include "worked.h"

namespace tallyblock::test {
namespace {

// P. R. Dittmer, J. D. Keefe III, Principles of Food, Beverage, and Labor Cost Controls, 9th ed.,
// John Wiley & Sons 2009, section on calculating standard portion costs, beef tenderloin card.
TEST(ButcherTest, BT01TenderloinOfDittmerAndKeefe) {
  const Mass whole = lb(9.0);  // 54.99 / 6.11
  const YieldTest y = yield_test({whole, usd(54.99), lb(4.25), {{lb(1.0), per_lb(1.87), true}}});
  const Money portion = portion_cost(oz(6.0), *y.cost_per_primary);
  const Mass per_portion = portion_factor(oz(6.0), *y.cost_factor);
  const PricePerMass updated = updated_values_move(*y.cost_factor, per_lb(6.37));
  const Money new_portion = portion_cost(oz(6.0), updated);
  EXPECT_NEAR(a_lb(*y.price), 6.11, 1e-12);
  expect_exact({
      {"total cost", y.cost->in_units(), 54.99},
      {"value of other parts", y.by_product_value->in_units(), 1.87},
      {"value of usable meat", y.net_cost->in_units(), 53.12},
      {"cost per usable lb", a_lb(*y.cost_per_primary), 12.498824},
      {"cost per usable oz", an_oz(*y.cost_per_primary), 0.781176},
      {"portion cost, 6 oz", portion.in_units(), 4.687059},
      {"cost factor per lb", *y.cost_factor, 2.045634},
      {"cost factor per portion", per_portion.in(MassUnit::pound), 0.767113},
      {"usable lb at 6.37", a_lb(updated), 13.030688},
      {"portion at 6.37", new_portion.in_units(), 4.886508},
      {"rise in usable lb cost", a_lb(updated - *y.cost_per_primary), 0.531865},
      {"rise in portion cost", (new_portion - portion).in_units(), 0.199449},
      {"usable part of AP", y.primary_ratio * 100.0, 47.222222},
  });
  // The source rounds every step to 4 decimals and multiplies the rounded factors.
  expect_printed({
      {"cost per usable lb", a_lb(*y.cost_per_primary), 12.4988, 0.0002},
      {"cost per usable oz", an_oz(*y.cost_per_primary), 0.7812, 0.0002},
      {"portion cost, 6 oz", portion.in_units(), 4.6871, 0.0002},
      {"cost factor per lb", *y.cost_factor, 2.0456, 0.0002},
      {"cost factor per portion", per_portion.in(MassUnit::pound), 0.7671, 0.0002},
      {"usable lb at 6.37", a_lb(updated), 13.0305, 0.0002},
      {"portion at 6.37", new_portion.in_units(), 4.8864, 0.0002},
      {"rise in usable lb cost", a_lb(updated - *y.cost_per_primary), 0.53, 0.005},
      {"rise in portion cost", (new_portion - portion).in_units(), 0.20, 0.005},
  });
}

// The same card as a session that was never weighed in: the invoice total is all the cost needs.
TEST(ButcherTest, BT01TenderloinOfWhichOnlyTheInvoiceTotalIsKnown) {
  testing::SessionBuilder s;
  s.setting("price-unit", "lb");
  s.total_of("piece", "54.99");
  s.pile("portions", Role::primary);
  s.pile("trim", Role::usable_trim, "1.87", "lb");
  s.read("portions", "4.25 lb");
  s.read("trim", "1 lb");
  s.target("portions", "6 oz");
  ASSERT_TRUE(s.refused().empty());
  const Figures f = s.figures();
  ASSERT_TRUE(f.yield && f.yield->cost_per_primary && f.targets.size() == 1 && f.targets[0].cost);
  EXPECT_TRUE(f.needs.empty());
  EXPECT_FALSE(f.yield->cost_factor);
  expect_exact({
      {"value of other parts", f.yield->by_product_value->in_units(), 1.87},
      {"value of usable meat", f.yield->net_cost->in_units(), 53.12},
      {"cost per usable lb", a_lb(*f.yield->cost_per_primary), 12.498824},
      {"portion cost, 6 oz", f.targets[0].cost->in_units(), 4.687059},
  });
}

// Exercise 6.3, butcher test card, lamb loin (an exercise of Dittmer & Keefe, the same book; read in a
// secondary copy, no date). Every printed figure is a plain rounding to 2 decimals.
TEST(ButcherTest, BT02LambLoin) {
  const YieldTestInput card{lb(12.0),
                            lb(12.0) * per_lb(6.65),
                            lb(6.0),
                            {{lb(3.0), per_lb(0.0), false},     // fat
                             {lb(1.0), per_lb(6.10), true},     // kidneys
                             {lb(1, 8), per_lb(4.60), true}}};  // flanks
  const YieldTest y = yield_test(card);
  Mass loss = card.as_purchased - card.primary;
  for (const ByProduct& other : card.others) loss -= other.weight;
  const auto percent = [&](Mass part) { return part / card.as_purchased * 100.0; };
  const auto value = [&](std::size_t i) {
    return (card.others[i].weight * card.others[i].value).in_units();
  };
  const Money portion = portion_cost(oz(5.0), *y.cost_per_primary);
  const Mass per_portion = portion_factor(oz(5.0), *y.cost_factor);
  expect_exact({
      {"total cost", y.cost->in_units(), 79.8},
      {"fat %", percent(card.others[0].weight), 25.0},
      {"kidneys %", percent(card.others[1].weight), 8.333333},
      {"flanks %", percent(card.others[2].weight), 12.5},
      {"loss in cutting %", percent(loss), 4.166667},
      {"usable %", y.primary_ratio * 100.0, 50.0},
      {"kidneys value", value(1), 6.1},
      {"flanks value", value(2), 6.9},
      {"value of usable meat", y.net_cost->in_units(), 66.8},
      {"cost per usable lb", a_lb(*y.cost_per_primary), 11.133333},
      {"cost per usable oz", an_oz(*y.cost_per_primary), 0.695833},
      {"portion cost, 5 oz", portion.in_units(), 3.479167},
      {"cost factor per lb", *y.cost_factor, 1.674185},
      {"cost factor per portion", per_portion.in(MassUnit::pound), 0.523183},
  });
  expect_printed({
      {"kidneys %", percent(card.others[1].weight), 8.33, 0.005},
      {"loss in cutting %", percent(loss), 4.17, 0.005},
      {"cost per usable lb", a_lb(*y.cost_per_primary), 11.13, 0.005},
      {"cost per usable oz", an_oz(*y.cost_per_primary), 0.70, 0.005},
      {"portion cost, 5 oz", portion.in_units(), 3.48, 0.005},
      {"cost factor per lb", *y.cost_factor, 1.67, 0.005},
      {"cost factor per portion", per_portion.in(MassUnit::pound), 0.52, 0.005},
  });
  EXPECT_NEAR(loss.in(MassUnit::ounce), 8.0, 1e-9);
}

// Wayne Gisslen, Professional Cooking, raw yield test, leg of veal to scaloppine, Table 5.6 in the copy
// read (edition not shown there; form dated 2002). The copy's text stops at the 12 lb of trim: figures
// below that are recomputed, not printed.
TEST(ButcherTest, BT04VealLegOfGisslen) {
  const YieldTestInput leg{lb(30.0),
                           lb(30.0) * per_lb(5.00),
                           lb(18.0),
                           {{lb(2, 8), per_lb(0.12), true},     // fat
                            {lb(3, 5), per_lb(0.38), true},     // bone
                            {lb(2, 2), per_lb(4.89), true},     // ground veal
                            {lb(3.0), per_lb(5.29), true},      // stew meat
                            {lb(0, 14), per_lb(0.0), false}}};  // unusable trim
  const Mass cutting_loss = lb(0, 3);
  const YieldTest y = yield_test(leg);
  Mass trim = cutting_loss;
  for (const ByProduct& other : leg.others) trim += other.weight;
  const auto value = [&](std::size_t i) {
    return (leg.others[i].weight * leg.others[i].value).in_units();
  };
  const double nothing_saved = a_lb(*y.cost_per_primary_no_credit);
  expect_exact({
      {"cost/lb if nothing is saved", nothing_saved, 8.333333},
      {"fat value", value(0), 0.3},
      {"bone value", value(1), 1.25875},
      {"ground veal value", value(2), 10.39125},
      {"stew meat value", value(3), 15.87},
      {"total trim weight lb", trim.in(MassUnit::pound), 12.0},
      {"total trim value", y.by_product_value->in_units(), 27.82},
      {"net cost", y.net_cost->in_units(), 122.18},
      {"cost per usable lb", a_lb(*y.cost_per_primary), 6.787778},
      {"cost factor per lb", *y.cost_factor, 1.357556},
      {"yield %", y.primary_ratio * 100.0, 60.0},
      {"weights close", (leg.as_purchased - leg.primary - trim).in(MassUnit::pound), 0.0},
      {"portion cost, 5.5 oz", portion_cost(oz(5.5), *y.cost_per_primary).in_units(), 2.333299},
  });
  expect_printed({
      {"cost/lb if nothing is saved", nothing_saved, 8.33, 0.005},
      {"bone value", value(1), 1.26, 0.005},
      {"ground veal value", value(2), 10.39, 0.005},
  });
}

// "The Butcher's Yield Test", beef rib #103 trimmed to #109 (culinary class notes, a blog, no date).
// The source is wrong: it prints 36.40 - 8.00 = 22.40.
TEST(ButcherTest, BT05TheMisprinted2240IsNotReproduced) {
  const YieldTestInput rib{lb(28.0),
                           lb(28.0) * per_lb(1.30),
                           lb(16.0),
                           {{lb(3.0), per_lb(0.10), true},    // fat
                            {lb(4.0), per_lb(0.30), true},    // bones
                            {lb(5.0), per_lb(1.30), true}}};  // usable trim
  const YieldTest y = yield_test(rib);
  expect_exact({
      {"as-purchased cost", y.cost->in_units(), 36.4},
      {"total trim value", y.by_product_value->in_units(), 8.0},
      {"new fabricated cost", y.net_cost->in_units(), 28.4},
      {"new fabricated price per lb", a_lb(*y.cost_per_primary), 1.775},
      {"cost factor", *y.cost_factor, 1.365385},
  });
  const double wrong_cost = 22.40, wrong_price = 1.40, wrong_factor = 1.0769;
  EXPECT_GT(std::fabs(y.net_cost->in_units() - wrong_cost), 1.0);
  EXPECT_GT(std::fabs(a_lb(*y.cost_per_primary) - wrong_price), 0.1);
  EXPECT_GT(std::fabs(*y.cost_factor - wrong_factor), 0.1);
  // It also prints a division sign in "28 lb / $1.30": that would be 21.54, not the 36.40 beside it.
  EXPECT_GT(std::fabs(y.cost->in_units() - 28.0 / 1.30), 1.0);
}

}  // namespace
}  // namespace tallyblock::test
