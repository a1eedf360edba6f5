#include "core/cutting/plan.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "plan_make.h"

namespace tallyblock {
namespace {

TEST(Plan, AnEvenBarGivesAsManyBlocksAsItsWeightHolds) {
  PlanInput input = piece(400, 80, 50, 2000);  // 5 g a millimetre
  input.specs.push_back(portions(200, 5));
  input.k_only = 1;
  const auto found = plan(input);
  ASSERT_TRUE(found.ok());
  EXPECT_EQ(found->portions[0], 10U);
  EXPECT_NEAR(found->blocks[0].to.in_millimetres(), 40.0, 1e-9);
  EXPECT_NEAR(found->remainder.in_grams(), 0.0, 1e-6);
  EXPECT_NEAR(found->deviation.in_grams(), 0.0, 1e-6);
}

// 480 mm, 105 x 72 to 88 x 64, 12 of 160 g wanted: what is left over stays in one piece.
TEST(Plan, LeavesOverInOnePieceWhatNobodyAskedFor) {
  for (const double trim : {0.0, 0.01, 4.0}) {
    PlanInput input{
        *Shape::from({{mm(0), mm(105), mm(72)}, {mm(480), mm(88), mm(64)}}, Mass::grams(2938))};
    input.specs.push_back(portions(160, 7, 12U, 160 * 0.02));
    input.k_only = 1;
    input.remainder_value = PricePerMass::of(Money::units(trim), MassUnit::kilogram);
    const auto found = plan(input);
    ASSERT_TRUE(found.ok());
    EXPECT_EQ(found->portions[0], 12U);
    EXPECT_EQ(found->gaps, 0U);
    EXPECT_GT(found->remainder, Mass::grams(1000));
    EXPECT_GT(found->expected[0], 8.0);
    for (const PlannedBlock& block : found->blocks) {
      EXPECT_LT(std::abs((block.each - input.specs[0].target).in_grams()), 5.5);
    }
  }
}

// As many as possible is worth nothing where they fall short: none is planned at the edge for one more.
TEST(Plan, PlansNoPortionAtTheEdgeOfItsToleranceForTheCountAlone) {
  std::mt19937 random(21);
  std::uniform_real_distribution<double> target(140.0, 240.0);
  for (int round = 0; round < 40; ++round) {
    PlanInput input = piece(480, 95, 65, 2938);
    const double grams = target(random);
    input.specs.push_back(portions(grams, grams * 0.044, {}, grams * 0.02));
    input.remainder_value = PricePerMass::of(Money::units(4), MassUnit::kilogram);
    input.k_only = 1;
    const auto found = plan(input);
    ASSERT_TRUE(found.ok());
    int edge = 0;
    for (const PlannedBlock& block : found->blocks) {
      if (block.each < input.specs[0].target - input.specs[0].tolerance * 0.8) ++edge;
    }
    EXPECT_LE(edge * 3, static_cast<int>(found->blocks.size())) << grams;
    EXPECT_EQ(found->gaps, 0U);
  }
}

TEST(Plan, LeavesOverAtTheFarEndWhatItCan) {
  PlanInput input{
      *Shape::from({{mm(0), mm(90), mm(60)}, {mm(400), mm(70), mm(50)}}, Mass::grams(2000))};
  input.specs.push_back(portions(180, 9, 6U));
  input.k_only = 1;
  const auto found = plan(input);
  ASSERT_TRUE(found.ok());
  EXPECT_EQ(found->portions[0], 6U);
  EXPECT_EQ(found->gaps, 0U);
  Length face;
  for (const PlannedBlock& block : found->blocks) {
    EXPECT_EQ(block.from, face);
    face = block.to;
  }
}

// What is planned is worth what its parts are worth, and the best number of long pieces is the best.
TEST(Plan, TheBestNumberOfLongPiecesIsWorthMost) {
  std::mt19937 random(22);
  int split = 0;
  for (int round = 0; round < 40; ++round) {
    PlanInput input = random_piece(random);
    input.remainder_value = PricePerMass::of(Money::units(1), MassUnit::kilogram);
    const auto plans = plans_by_split(input);
    if (!plans) continue;
    const SplitPlans::One& best = plans->all[plans->best];
    for (const SplitPlans::One& one : plans->all) EXPECT_LE(one.plan.worth, best.plan.worth);
    EXPECT_EQ(best.plan.worth, plan(input)->worth);  // that may change along the piece
    split += best.k > 1 ? 1 : 0;
    PlanInput alone = input;
    for (const SplitPlans::One& one : plans->all) {
      if (one.k == 0) continue;
      alone.k_only = one.k;
      EXPECT_EQ(one.plan.worth, plan(alone)->worth);
    }
  }
  EXPECT_GT(split, 0);
}

// A knife misses a sheet of 15 mm by more of its weight: the small portion is worth more as a block of a
// narrow long piece.
TEST(Plan, SplitsForSmallPortionsWhatWouldBeThinSheets) {
  PlanInput input = piece(400, 160, 65, 4400);  // 11 g a millimetre
  input.specs.push_back(portions(170, 8, {}, 3.4));
  const auto thin = plans_by_split(input);
  EXPECT_GT(thin->all[thin->best].k, 1);
  input.specs[0] = portions(400, 18, {}, 8.0);
  const auto thick = plans_by_split(input);
  EXPECT_EQ(thick->all[thick->best].k, 1);
  input.limits.least_min = mm(25);
  input.specs[0] = portions(170, 8, {}, 3.4);
  EXPECT_NE(plans_by_split(input)->all.front().k, 1);
}

// Blocks must be 40 to 60 mm thick: 225 g is a slice of 45 mm, 90 g a quarter of one as thick or thicker.
TEST(Plan, ChangesTheNumberOfLongPiecesWhereThatIsWorthMore) {
  PlanInput input = piece(400, 80, 80, 2000);
  input.limits.thickness_min = mm(40);
  input.limits.thickness_max = mm(60);
  input.specs = {portions(225, 12, {}, 2.25), portions(68, 4, 8U, 0.68)};
  const auto plans = plans_by_split(input);
  ASSERT_TRUE(plans.ok());
  const SplitPlans::One& best = plans->all[plans->best];
  EXPECT_EQ(best.k, 0);
  EXPECT_EQ(best.plan.changes_of_k, 1U);
  EXPECT_EQ(best.plan.portions[1], 8U);
  EXPECT_GE(best.plan.portions[0], 5U);
}

// One slice of two long pieces, one portion for each of two kinds.
TEST(Plan, ASliceMayServeTwoKinds) {
  PlanInput input = piece(42, 80, 50, 210);
  input.specs = {portions(100, 6, 1U, 1.0), portions(106, 6, 1U, 1.06)};
  input.limits.thickness_min = mm(30);
  const auto found = plan(input);
  ASSERT_TRUE(found.ok());
  ASSERT_EQ(found->blocks.size(), 1U);
  EXPECT_EQ(found->blocks[0].counted, 1U);
  EXPECT_EQ(found->blocks[0].other_counted, 1U);
  EXPECT_EQ(found->portions, (std::vector<unsigned>{1, 1}));
  input.specs[1].wanted.reset();  // the second kind takes what the first leaves
  EXPECT_EQ(plan(input)->portions, (std::vector<unsigned>{1, 1}));
}

// The first face is too low for a block: what lies before the first one is left over, once.
TEST(Plan, LeavesOverWhatTheLimitsRefuseAtTheFirstFace) {
  PlanInput input{
      *Shape::from({{mm(0), mm(80), mm(10)}, {mm(100), mm(80), mm(60)}, {mm(400), mm(80), mm(60)}},
                   Mass::grams(2000))};
  input.specs.push_back(portions(180, 9));
  input.k_only = 1;
  input.limits.least_min = mm(20);
  const auto found = plan(input);
  ASSERT_TRUE(found.ok());
  EXPECT_EQ(found->gaps, 1U);
  EXPECT_GE(found->blocks.front().from, mm(19));
}

TEST(Plan, MassIsConservedMarksAreOrderedAndBlocksKeepTheLimits) {
  std::mt19937 random(6);
  for (int round = 0; round < 100; ++round) {
    PlanInput input = random_piece(random);
    if (round % 3 == 0) input.saw = mm(2);
    const auto found = plan(input);
    if (!found) continue;
    double cut = 0.0;
    Length last = input.trim_front;
    for (const PlannedBlock& block : found->blocks) {
      EXPECT_GE(block.from, last);
      EXPECT_GT(block.to, block.from);
      EXPECT_LE(std::abs((block.each - input.specs[0].target).in_grams()),
                input.specs[0].tolerance.in_grams() + 1e-6);
      EXPECT_GE(block.to - block.from, *input.limits.least_min);
      EXPECT_GE(input.shape.width(block.from) / static_cast<double>(block.k),
                *input.limits.least_min);
      cut += block.each.in_grams() * block.k;
      last = block.to;
    }
    EXPECT_LE(last, input.shape.length() - input.trim_back);
    const double all = cut + (found->remainder + found->trim + found->saw_loss).in_grams();
    EXPECT_NEAR(all, input.shape.mass().in_grams(), 1e-6);
  }
}

TEST(Plan, WantedPortionsAreNotExceeded) {
  PlanInput input = piece(400, 80, 50, 2000);
  input.specs.push_back(portions(200, 5, 3U));
  const auto found = plan(input);
  ASSERT_TRUE(found.ok());
  EXPECT_EQ(found->portions[0], 3U);
  EXPECT_NEAR(found->remainder.in_grams(), 1400.0, 1e-6);
}

TEST(Plan, FewestChangesOfTheSplitAreMadeForTheSamePortions) {
  PlanInput input = piece(400, 80, 50, 2000);
  input.specs.push_back(portions(100, 2));
  const auto found = plan(input);
  ASSERT_TRUE(found.ok());
  EXPECT_EQ(found->portions[0], 20U);
  EXPECT_EQ(found->changes_of_k, 0U);
}

TEST(Plan, TheSameInOuncesAndInches) {
  std::mt19937 random(8);
  const PlanInput grams = random_piece(random);
  PlanInput ounces = grams;
  ounces.specs[0].target = Mass::of(grams.specs[0].target.in(MassUnit::ounce), MassUnit::ounce);
  const auto a = plan(grams);
  const auto b = plan(ounces);
  ASSERT_TRUE(a.ok() && b.ok());
  EXPECT_EQ(a->demanded, b->demanded);
  EXPECT_NEAR(a->worth.in_units(), b->worth.in_units(), 1e-5);
}

// With counts in order the same small problem gives no more than the exact search, and the bound holds.
TEST(Plan, TheBoundOfAnOrderedPlanIsNeverBelowTheExactPlan) {
  std::mt19937 random(10);
  for (int round = 0; round < 30; ++round) {
    PlanInput input = random_piece(random);
    input.specs[0].wanted = 4U;
    PortionSpec other = input.specs[0];
    other.target = other.target * 1.4;
    other.wanted = 3U;
    input.specs.push_back(other);
    const auto exact = plan(input);
    if (!exact.ok()) continue;
    ASSERT_TRUE(exact->exact);
    input.work_limit = 0;
    const auto ordered = plan(input);
    ASSERT_TRUE(ordered.ok());
    EXPECT_FALSE(ordered->exact);
    EXPECT_LE(ordered->demanded, exact->demanded);
    EXPECT_GE(ordered->demanded + ordered->gap_portions, exact->demanded);
  }
}

TEST(Plan, ManyBoundedSpecsGiveAPlanWithAProvenBound) {
  PlanInput input = piece(600, 150, 60, 5600);
  input.limits.least_min = mm(20);
  for (const double target : {90.0, 120.0, 180.0, 260.0}) {
    input.specs.push_back(portions(target, target / 15, 8U, target / 40));
  }
  const auto found = plan(input);
  ASSERT_TRUE(found.ok());
  EXPECT_FALSE(found->exact);
  EXPECT_LE(found->demanded, 32U);
  EXPECT_LE(found->gap_portions, 3U);
}

TEST(Plan, NearbyTargetsNameTheirPortionsAndWhatIsLeft) {
  PlanInput input = piece(400, 80, 50, 2000);
  input.specs.push_back(portions(190, 4));
  input.k_only = 1;
  const auto changes = nearby_targets(input, Mass::grams(1));
  ASSERT_EQ(changes.size(), 4U);
  EXPECT_EQ(changes[0].portions, 11U);  // 11 x 180 g
  EXPECT_NEAR(changes[0].target.in_grams(), 180.0, 1e-9);
  EXPECT_NEAR(changes[0].remainder.in_grams(), 20.0, 1e-6);
  EXPECT_EQ(changes[1].portions, 10U);  // as asked
  EXPECT_NEAR(changes[1].target.in_grams(), 190.0, 1e-9);
  EXPECT_NEAR(changes[1].remainder.in_grams(), 100.0, 1e-6);
  EXPECT_EQ(changes[2].portions, 10U);  // nothing left
  EXPECT_NEAR(changes[2].target.in_grams(), 200.0, 1e-9);
  EXPECT_NEAR(changes[2].remainder.in_grams(), 0.0, 1e-6);
  EXPECT_EQ(changes[3].portions, 9U);  // the end of the range, 10 % up
  EXPECT_NEAR(changes[3].target.in_grams(), 209.0, 1e-9);
}

}  // namespace
}  // namespace tallyblock
