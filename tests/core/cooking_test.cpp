#include "core/formulas/cooking.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/formulas/yield_test.h"
#include "hostile.h"

namespace tallyblock {
namespace {

Mass g(double value) { return Mass::grams(value); }
PricePerMass per_kg(double value) {
  return PricePerMass::of(Money::units(value), MassUnit::kilogram);
}
double a_kg(PricePerMass price) { return price.per(MassUnit::kilogram); }

TEST(Kept, IsOutOverInHoweverItWasWeighed) {
  EXPECT_DOUBLE_EQ(*kept_of(g(200.0), g(150.0)), 0.75);
  EXPECT_DOUBLE_EQ(*kept_of(g(200.0), g(220.0)), 1.1);
  EXPECT_DOUBLE_EQ(*kept_less(g(200.0), g(50.0)), 0.75);
  EXPECT_DOUBLE_EQ(*kept_less(g(200.0), g(0.0)), 1.0);
  EXPECT_DOUBLE_EQ(*kept_at_loss(0.25), 0.75);
  EXPECT_DOUBLE_EQ(*kept_at_loss(-0.1), 1.1);
  EXPECT_FALSE(kept_of(g(0.0), g(1.0)) || kept_of(g(1.0), g(0.0)) || kept_of(g(-1.0), g(-1.0)));
  EXPECT_FALSE(kept_less(g(1.0), g(1.0)) || kept_less(g(1.0), g(-1.0)) || kept_at_loss(1.0));
}

// Invented: brined, roasted, carved; 20 a kilo net, 24 without credit; 80 % of what was bought.
TEST(Cooking, ChainsStagesOnBothBasesAndInBothConventions) {
  CookingInput input{g(1000.0), 0.8, per_kg(20.0), per_kg(24.0), {}};
  input.stages = {{1.1, Money::units(0.5), Money()},
                  {0.7, Money(), Money::units(0.2)},
                  {0.9, Money(), Money()}};
  const Cooking c = *cooking(input);
  ASSERT_EQ(c.stages.size(), 3u);
  EXPECT_NEAR(c.stages[0].loss.in_grams(), -100.0, 1e-9);
  EXPECT_NEAR(c.stages[1].loss.in_grams(), 330.0, 1e-9);
  EXPECT_NEAR(c.stages[1].loss_of_raw, 0.33, 1e-12);
  EXPECT_NEAR(*c.stages[1].loss_of_as_purchased, 0.264, 1e-12);
  EXPECT_NEAR(c.stages[2].before.in_grams(), 770.0, 1e-9);
  EXPECT_NEAR(c.served.in_grams(), 693.0, 1e-9);
  EXPECT_NEAR(c.served_of_raw, 0.693, 1e-12);
  EXPECT_NEAR(*c.served_of_as_purchased, 0.5544, 1e-12);
  EXPECT_NEAR(a_kg(*c.per_served_net), 20.3 / 0.693, 1e-9);
  EXPECT_NEAR(a_kg(*c.per_served_no_credit), 24.3 / 0.693, 1e-9);
}

TEST(Cooking, WithoutStagesServesWhatIsRawAtItsCost) {
  const Cooking c = *cooking({g(400.0), {}, per_kg(30.0), {}, {}});
  EXPECT_EQ(c.served, g(400.0));
  EXPECT_NEAR(a_kg(*c.per_served_net), 30.0, 1e-12);
  EXPECT_FALSE(c.per_served_no_credit || c.served_of_as_purchased);
}

TEST(Cooking, LossesAndServedAddUpToTheRawWeight) {
  test::Hostile random(51);
  for (int i = 0; i < 3000; ++i) {
    CookingInput input{g(random.between(100.0, 9000.0)),
                       random.between(0.3, 1.0),
                       per_kg(random.between(1.0, 60.0)),
                       {},
                       {}};
    for (std::size_t k = random.pick(5); k > 0; --k) {
      input.stages.push_back({random.between(0.4, 1.2), Money::units(random.between(0.0, 2.0)),
                              Money::units(random.between(0.0, 1.0))});
    }
    const Cooking c = *cooking(input);
    double sum = c.served_of_raw, of_bought = *c.served_of_as_purchased;
    for (const CookedStage& stage : c.stages) {
      sum += stage.loss_of_raw;
      of_bought += *stage.loss_of_as_purchased;
    }
    ASSERT_NEAR(sum, 1.0, 1e-12);
    ASSERT_NEAR(of_bought, *input.trim_yield, 1e-12);
    // Money goes in and comes out.
    ASSERT_NEAR((*c.per_served_net * c.served).in_units(),
                (*input.net * input.raw + c.added - c.credit).in_units(), 1e-9);
    // What is needed raw for what was served is what was raw.
    ASSERT_NEAR(raw_needed(c.served, input.stages)->in_grams(), input.raw.in_grams(), 1e-8);
  }
}

TEST(Cooking, RawNeededUndoesTheStages) {
  EXPECT_DOUBLE_EQ(raw_needed(g(150.0), {{0.75, {}, {}}})->in_grams(), 200.0);
  EXPECT_DOUBLE_EQ(raw_needed(g(150.0), {})->in_grams(), 150.0);
  EXPECT_NEAR(raw_needed(g(99.0), {{1.1, {}, {}}, {0.9, {}, {}}})->in_grams(), 100.0, 1e-12);
  EXPECT_FALSE(raw_needed(g(150.0), {{0.0, {}, {}}}) || raw_needed(g(-1.0), {}));
}

TEST(Cooking, WholePortionsCarryAllTheCost) {
  EXPECT_DOUBLE_EQ(whole_portion_cost(Money::units(10.0), g(1050.0), g(200.0))->in_units(), 2.0);
  EXPECT_FALSE(whole_portion_cost(Money::units(10.0), g(150.0), g(200.0)));
}

TEST(Cooking, IsAbsentForWhatCannotBe) {
  const CookingInput good{g(100.0), 0.5, per_kg(1.0), {}, {{0.8, {}, {}}}};
  EXPECT_TRUE(cooking(good));
  CookingInput bad = good;
  bad.raw = Mass();
  EXPECT_FALSE(cooking(bad));
  for (const double kept : {0.0, -0.5, std::nan("")}) {
    bad = good;
    bad.stages[0].kept = kept;
    EXPECT_FALSE(cooking(bad));
  }
  for (const double trim : {0.0, -0.1, 1.01, std::nan("")}) {
    bad = good;
    bad.trim_yield = trim;
    EXPECT_FALSE(cooking(bad));
  }
}

TEST(Cooking, HostileNumbersNeverGiveANonNumber) {
  test::Hostile random(52);
  using test::finite;
  int cooked = 0;
  for (int i = 0; i < 30000; ++i) {
    CookingInput input{random.mass(), {}, random.price(), random.price(), {}};
    if (random.coin()) input.trim_yield = random.between(0.0, 1.0);
    for (std::size_t k = random.pick(4); k > 0; --k) {
      input.stages.push_back({random.coin() ? random.number() : random.between(0.1, 1.5),
                              random.money(), random.money()});
    }
    ASSERT_TRUE(finite(raw_needed(random.mass(), input.stages)));
    ASSERT_TRUE(finite(kept_of(random.mass(), random.mass())));
    ASSERT_TRUE(finite(kept_less(random.mass(), random.mass())));
    ASSERT_TRUE(finite(kept_at_loss(random.number())));
    ASSERT_TRUE(finite(whole_portion_cost(random.money(), random.mass(), random.mass())));
    const auto c = cooking(input);
    if (!c) continue;
    ++cooked;
    ASSERT_TRUE(finite(c->served) && finite(c->served_of_raw) && finite(c->added));
    ASSERT_TRUE(finite(c->credit) && finite(c->per_served_net) && finite(c->per_served_no_credit));
    ASSERT_TRUE(finite(c->served_of_as_purchased));
    for (const CookedStage& stage : c->stages) {
      ASSERT_TRUE(finite(stage.loss) && finite(stage.loss_of_raw) && finite(stage.after));
      ASSERT_TRUE(finite(stage.loss_of_as_purchased));
    }
  }
  EXPECT_GT(cooked, 1000);
}

}  // namespace
}  // namespace tallyblock
