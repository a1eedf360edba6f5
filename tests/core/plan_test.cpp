#include "core/plan.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace tallyblock {
namespace {

Length mm(double v) { return Length::millimetres(v); }

PlanInput piece(double length, double width, double depth, double grams) {
  return PlanInput{*Shape::from({{mm(0), mm(width), mm(depth)}, {mm(length), mm(width), mm(depth)}},
                                Mass::grams(grams))};
}

PortionSpec portions(double target, double tolerance, std::optional<unsigned> wanted = {},
                     double value = 1.0) {
  return {"", Mass::grams(target), Mass::grams(tolerance), wanted, Money::units(value)};
}

PlanInput random_piece(std::mt19937& random) {
  std::uniform_real_distribution<double> side(40.0, 160.0), depth(30.0, 80.0);
  std::uniform_int_distribution<int> length(50, 400);
  std::vector<Station> stations{{mm(0), mm(side(random)), mm(depth(random))}};
  const double end = length(random);
  stations.push_back({mm(end / 2), mm(side(random)), mm(depth(random))});
  stations.push_back({mm(end), mm(side(random)), mm(depth(random))});
  PlanInput input{*Shape::from(stations, Mass::grams(end * 8))};
  input.specs.push_back(portions(end * 8 / 9.5, end * 8 / 100));
  input.limits.least_min = mm(10);
  input.trim_front = mm(3);
  input.trim_back = mm(4);
  input.remainder_value = PricePerMass::of(Money::units(4), MassUnit::kilogram);
  return input;
}

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

// Every way of cutting a short bar on the grid, tried in full.
struct Best {
  std::int64_t demanded = 0;
  int gaps = 0;  // where they count
  double deviation = 0.0;
  bool better_than(const Best& other) const {
    if (demanded != other.demanded) return demanded > other.demanded;
    if (gaps != other.gaps) return gaps < other.gaps;
    return deviation < other.deviation - 1e-9;
  }
};
// left: the millimetre before `at` was left over.
Best by_hand(const PlanInput& input, int at, int end, bool left = false) {
  if (at >= end) return {};
  Best best = by_hand(input, at + 1, end, true);
  const PortionSpec& spec = input.specs[0];
  for (int to = at + 1; to <= end; ++to) {
    const double weight = (input.shape.mass_to(mm(to)) - input.shape.mass_to(mm(at))).in_grams();
    const double off = std::abs(weight - spec.target.in_grams());
    if (off > spec.tolerance.in_grams() + 1e-9) continue;
    Best rest = by_hand(input, to, end);
    rest.demanded += 1;
    rest.deviation += off;
    if (input.few_gaps && left) ++rest.gaps;
    if (rest.better_than(best)) best = rest;
  }
  return best;
}

TEST(Plan, EqualsExhaustiveSearchOnShortPieces) {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> side(40.0, 120.0);
  int gaps = 0;
  for (int round = 0; round < 80; ++round) {
    const int length = 14 + round % 8;
    PlanInput input{
        *Shape::from({{mm(0), mm(side(random)), mm(40)}, {mm(length), mm(side(random)), mm(30)}},
                     Mass::grams(length * 5.0))};
    input.specs.push_back(portions(length * 5.0 / 4.3, 4));
    input.k_only = 1;
    input.few_gaps = round % 2 == 1;
    const Best best = by_hand(input, 0, length);
    const auto found = plan(input);
    if (best.demanded == 0) {
      EXPECT_FALSE(found.ok());
      continue;
    }
    ASSERT_TRUE(found.ok());
    EXPECT_EQ(found->demanded, best.demanded);
    EXPECT_NEAR(found->deviation.in_grams(), best.deviation, 1e-4);
    if (input.few_gaps) {
      EXPECT_EQ(found->gaps, static_cast<unsigned>(best.gaps));
    } else {
      gaps += static_cast<int>(found->gaps);
    }
    EXPECT_EQ(found->changes_of_k, 0U);
  }
  EXPECT_GT(gaps, 0);  // they are there for the weight alone where they do not count
}

TEST(Plan, LeavesOverAtTheFarEndWhatItCan) {
  PlanInput input{
      *Shape::from({{mm(0), mm(90), mm(60)}, {mm(400), mm(70), mm(50)}}, Mass::grams(2000))};
  input.specs.push_back(portions(180, 9, 6U));
  input.k_only = 1;
  input.few_gaps = true;
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

// The first face is too low for a block: what lies before the first one is left over, once.
TEST(Plan, LeavesOverWhatTheLimitsRefuseAtTheFirstFace) {
  PlanInput input{
      *Shape::from({{mm(0), mm(80), mm(10)}, {mm(100), mm(80), mm(60)}, {mm(400), mm(80), mm(60)}},
                   Mass::grams(2000))};
  input.specs.push_back(portions(180, 9));
  input.k_only = 1;
  input.limits.least_min = mm(20);
  input.few_gaps = true;
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
  EXPECT_NEAR(a->deviation.in_grams(), b->deviation.in_grams(), 1e-4);
}

// The same piece read from its other end: the best plan is as good.
TEST(Plan, IsAsGoodFromEitherEnd) {
  std::mt19937 random(9);
  for (int round = 0; round < 20; ++round) {
    const PlanInput there = random_piece(random);
    std::vector<Station> turned;
    const auto& stations = there.shape.stations();
    for (auto s = stations.rbegin(); s != stations.rend(); ++s) {
      turned.push_back({stations.back().at - s->at, s->width, s->depth, s->fill});
    }
    PlanInput back = there;
    back.shape = *Shape::from(turned, there.shape.mass());
    std::swap(back.trim_front, back.trim_back);
    const auto a = plan(there);
    const auto b = plan(back);
    ASSERT_EQ(a.ok(), b.ok());
    if (!a.ok()) continue;
    EXPECT_EQ(a->demanded, b->demanded);
    EXPECT_NEAR(a->value.in_units(), b->value.in_units(), 1e-4);
    EXPECT_EQ(a->changes_of_k, b->changes_of_k);
    EXPECT_NEAR(a->deviation.in_grams(), b->deviation.in_grams(), 1e-3);
  }
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
  thin.limits.thickness_max = mm(std::stod(plan(thin).problem().args[1]));
  EXPECT_TRUE(plan(thin).ok());
  PlanInput thick = input;
  thick.limits.thickness_min = mm(200);
  ASSERT_EQ(refusal(thick), Code::plan_thickness_min);
  thick.limits.thickness_min = mm(std::stod(plan(thick).problem().args[1]));
  EXPECT_TRUE(plan(thick).ok());
  PlanInput least = input;
  least.limits.least_min = mm(60);
  ASSERT_EQ(refusal(least), Code::plan_least_dimension);
  least.limits.least_min = mm(std::stod(plan(least).problem().args[1]));
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
  const double eased = 1.0 + std::stod(plan(input).problem().args[0]) / 100.0;
  input.limits.thickness_min = *input.limits.thickness_min / eased;
  input.limits.thickness_max = *input.limits.thickness_max * eased;
  input.limits.least_min = *input.limits.least_min / eased;
  EXPECT_TRUE(plan(input).ok());
}

TEST(Plan, ATargetTooHeavyOrAToleranceTooFineNamesOneThatWorks) {
  PlanInput input = piece(400, 80, 50, 2000);
  input.specs.push_back(portions(3000, 100));
  ASSERT_EQ(refusal(input), Code::plan_target_too_heavy);
  input.specs[0].target = Mass::grams(std::stod(plan(input).problem().args[1]));
  EXPECT_TRUE(plan(input).ok());
  input.specs[0] = portions(101.3, 0.001);
  ASSERT_EQ(refusal(input), Code::plan_tolerance_too_fine);
  input.specs[0].tolerance = Mass::grams(std::stod(plan(input).problem().args[1]));
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
