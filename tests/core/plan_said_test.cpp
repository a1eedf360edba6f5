// What is said of a plan, and what is said where there is none.
#include "core/cutting/plan.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "plan_make.h"

namespace tallyblock {
namespace {

// What is said of a plan is what its blocks say, also where leaving all would be worth more.
TEST(Plan, SaysOfItsPortionsWhatIsExpectedOfThemAtThisKnife) {
  PlanInput input{*Shape::from({{mm(0), mm(90), mm(60), 0.9}, {mm(400), mm(81), mm(54), 0.9}},
                               Mass::grams(2500))};
  input.specs.push_back(portions(150, 0.5, {}, 3.0));
  input.remainder_value = PricePerMass::of(Money::units(10), MassUnit::kilogram);
  for (int k = 1; k <= 4; ++k) {
    input.k_only = k;
    const auto found = plan(input);
    ASSERT_TRUE(found.ok());
    double expected = 0.0;
    for (const PlannedBlock& block : found->blocks) {
      const double thick = k * 150.0 * 400.0 / 2500.0;
      const double sd =
          block.each.in_grams() * std::hypot(1.0 / thick, k > 1 ? k * input.scatter.split : 0.0);
      expected += block.counted *
                  (std::erf((150.5 - block.each.in_grams()) / sd / std::sqrt(2.0)) -
                   std::erf((149.5 - block.each.in_grams()) / sd / std::sqrt(2.0))) /
                  2.0;
    }
    EXPECT_NEAR(found->expected[0], expected, 1e-9) << k;
    EXPECT_LT(found->expected[0], 0.3 * found->demanded) << k;
  }
}

// Each stretch left over before a block is said once, also where the ruler rounds saw and ends up.
TEST(Plan, SaysWhereTheStretchBeginsThatIsLeftOverBeforeABlock) {
  std::mt19937 random(23);
  for (int round = 0; round < 60; ++round) {
    PlanInput input = random_piece(random);
    if (round % 2 == 0) input.grid = Length::of(1.0 / 16.0, LengthUnit::inch);
    if (round % 3 == 0) input.saw = mm(2);
    input.costs.gap = 0.0;
    const auto found = plan(input);
    if (!found) continue;
    unsigned gaps = 0;
    Length last;
    for (const PlannedBlock& block : found->blocks) {
      EXPECT_LE(block.left_from, block.from);
      EXPECT_GE(block.left_from, last);
      if (block.left_from < block.from) ++gaps;
      last = block.to;
    }
    EXPECT_EQ(gaps, found->gaps);
  }
}

// Marks 1/16 in apart miss a target of 5 oz by more than its tolerance is wide: the best two marks for one portion
// are no reason to cut into slices that give one more each (figures of ours).
TEST(Plan, CutsNoMoreSlicesThanTheWantedPortionsNeed) {
  const auto inches = [](double n) { return Length::of(n, LengthUnit::inch); };
  PlanInput input{
      *Shape::from({{inches(0), inches(5), inches(3)}, {inches(11), inches(4), inches(2.5)}},
                   Mass::of(82, MassUnit::ounce))};
  PortionSpec spec = portions(100, 1, 6U, 1.40);
  spec.target = Mass::of(5, MassUnit::ounce);
  spec.tolerance = Mass::of(0.2, MassUnit::ounce);
  input.specs = {spec};
  input.grid = inches(1.0 / 16.0);
  input.remainder_value = PricePerMass::of(Money::units(1.12), MassUnit::pound);
  const auto found = plan(input);
  ASSERT_TRUE(found.ok());
  ASSERT_EQ(found->blocks.size(), 3U);
  for (const PlannedBlock& block : found->blocks) EXPECT_EQ(block.counted, 2U);
}

TEST(Plan, IsEmptyWhereNoneIsWanted) {
  PlanInput input = piece(400, 80, 50, 2000);
  input.specs.push_back(portions(200, 5, 0U));
  const auto found = plan(input);
  ASSERT_TRUE(found.ok());
  EXPECT_TRUE(found->blocks.empty());
  EXPECT_NEAR(found->remainder.in_grams(), 2000.0, 1e-6);
}

// Counts that nobody can search through are cut in order, or refused, at once.
TEST(Plan, SearchesNoMoreThanThereIsTimeFor) {
  PlanInput input = piece(3000, 120, 70, 30000);
  for (const double target : {120.0, 150.0, 170.0, 190.0}) {
    input.specs.push_back(portions(target, target / 20, 1000U, target / 50));
  }
  const auto found = plan(input);
  if (found.ok()) {
    EXPECT_FALSE(found->exact);
  } else {
    EXPECT_EQ(found.problem().code, Code::plan_too_many);
  }
  input.grid = mm(25);
  input.trim_front = mm(1);
  input.trim_back = mm(2995);
  EXPECT_FALSE(plan(input).ok());
}

Code refusal(const PlanInput& input) {
  const auto found = plan(input);
  EXPECT_FALSE(found.ok());
  return found.ok() ? Code::typed_empty : found.problem().code;
}

TEST(Plan, SaysWhichLimitStandsInTheWayAndTheNearestChangeThatWorks) {
  PlanInput input = piece(400, 80, 50, 2000);
  input.specs.push_back(portions(100, 3));
  PlanInput thin = input;
  thin.limits.thickness_max = mm(15);
  ASSERT_EQ(refusal(thin), Code::plan_thickness_max);
  thin.limits.thickness_max = plan(thin).problem().args[1].length();
  EXPECT_TRUE(plan(thin).ok());
  PlanInput thick = input;
  thick.limits.thickness_min = mm(200);
  ASSERT_EQ(refusal(thick), Code::plan_thickness_min);
  thick.limits.thickness_min = plan(thick).problem().args[1].length();
  EXPECT_TRUE(plan(thick).ok());
  PlanInput least = input;
  least.limits.least_min = mm(60);
  ASSERT_EQ(refusal(least), Code::plan_least_dimension);
  least.limits.least_min = plan(least).problem().args[1].length();
  EXPECT_TRUE(plan(least).ok());
}

TEST(Plan, LimitsThatOnlyTogetherLeaveNothingAreEasedTogether) {
  PlanInput input = piece(400, 80, 50, 2000);  // 100 g: 20, 40, 60 or 80 mm for k = 1 to 4
  input.specs.push_back(portions(100, 3));
  input.limits.thickness_max = mm(38);
  input.limits.thickness_min = mm(23);
  input.limits.least_min = mm(42);
  EXPECT_EQ(refusal(input), Code::plan_least_over_thickness);
  input.limits.least_min = mm(22);
  const Code code = refusal(input);
  EXPECT_TRUE(code == Code::plan_thickness_max || code == Code::plan_thickness_min);
  input.limits.thickness_min = mm(45);
  input.limits.thickness_max = mm(55);
  input.limits.least_min = mm(41);
  ASSERT_EQ(refusal(input), Code::plan_limits_together);
  const double eased = 1.0 + plan(input).problem().args[0].value() / 100.0;
  input.limits.thickness_min = *input.limits.thickness_min / eased;
  input.limits.thickness_max = *input.limits.thickness_max * eased;
  input.limits.least_min = *input.limits.least_min / eased;
  EXPECT_TRUE(plan(input).ok());
}

TEST(Plan, ATargetTooHeavyOrAToleranceTooFineNamesOneThatWorks) {
  PlanInput input = piece(400, 80, 50, 2000);
  input.specs.push_back(portions(3000, 100));
  ASSERT_EQ(refusal(input), Code::plan_target_too_heavy);
  input.specs[0].target = plan(input).problem().args[1].mass();
  EXPECT_TRUE(plan(input).ok());
  input.specs[0] = portions(101.3, 0.001);
  ASSERT_EQ(refusal(input), Code::plan_tolerance_too_fine);
  input.specs[0].tolerance = plan(input).problem().args[1].mass();
  EXPECT_TRUE(plan(input).ok());
}

TEST(Plan, MorePortionsWantedThanThePieceHoldsChangesNothing) {
  PlanInput input = piece(400, 80, 50, 2000);
  input.specs.push_back(portions(200, 5));
  const auto free = plan(input);
  input.specs[0].wanted = 1000U;
  const auto wanted = plan(input);
  ASSERT_TRUE(free.ok() && wanted.ok());
  EXPECT_EQ(free->demanded, wanted->demanded);
  EXPECT_NEAR(free->deviation.in_grams(), wanted->deviation.in_grams(), 1e-6);
}

TEST(Plan, RefusesMoreWaysToCutThanThereIsMemoryFor) {
  PlanInput input = piece(3000, 200, 100, 60000);
  input.specs.push_back(portions(30000, 29999));
  EXPECT_EQ(refusal(input), Code::plan_too_many);
}

TEST(Plan, RefusesWhatContradictsItselfInWords) {
  PlanInput input = piece(400, 80, 50, 2000);
  EXPECT_EQ(refusal(input), Code::plan_no_target);
  input.specs.push_back(portions(3000, 100));
  EXPECT_EQ(refusal(input), Code::plan_target_too_heavy);
  input.specs[0] = portions(100, 3);
  input.limits.thickness_min = mm(40);
  input.limits.thickness_max = mm(20);
  EXPECT_EQ(refusal(input), Code::plan_limits_cross);
  input.limits = {};
  input.trim_front = mm(300);
  input.trim_back = mm(200);
  EXPECT_EQ(refusal(input), Code::plan_trim_takes_all);
  input.trim_front = input.trim_back = Length();
  input.specs[0] = portions(101.3, 0.001);
  EXPECT_EQ(refusal(input), Code::plan_tolerance_too_fine);
}

}  // namespace
}  // namespace tallyblock
