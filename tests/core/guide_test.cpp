#include "core/guide.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "core/aim.h"

namespace tallyblock {
namespace {

Length mm(double v) { return Length::millimetres(v); }

PlanInput bar(double length, double grams, double target, double tolerance) {
  PlanInput input{
      *Shape::from({{mm(0), mm(80), mm(60)}, {mm(length), mm(80), mm(60)}}, Mass::grams(grams))};
  input.specs.push_back({"", Mass::grams(target), Mass::grams(tolerance), {}, Money::units(1)});
  input.k_max = 1;
  return input;
}

Guide begin(PlanInput input) { return std::move(Guide::start(std::move(input)).value()); }

TEST(Guide, TheFirstMarkOfAnEvenBarIsTheTargetsThickness) {
  const Guide guide = begin(bar(400, 2000, 200, 10));
  const auto advice = guide.advice();
  EXPECT_FALSE(advice.done);
  EXPECT_NEAR(advice.next.in_millimetres(), 40.0, 0.01);
  EXPECT_EQ(advice.left, 10U);
}

TEST(Guide, AHabitOfCuttingHeavyIsLearnedAndTakenOff) {
  Guide guide = begin(bar(400, 2000, 200, 10));
  double last = 0.0;
  for (int i = 0; i < 5; ++i) {
    const auto advice = guide.advice();
    const double weight = advice.next.in_millimetres() * 5.0 * 1.05;  // always 5 % heavy
    last = weight;
    guide.block({advice.next, 1, Mass::grams(std::round(weight)), 0});
  }
  EXPECT_GT(guide.habit(), 0.02);
  EXPECT_NEAR(last, 200.0, 6.0);
}

// A shape taken as certain: then the place follows from the weight alone, 5 g to the millimetre.
TEST(Guide, KnowsThePlaceFromTheWeightThatIsLeft) {
  ShapePrior certain;
  certain.area_sd = 1e-4;
  Guide guide = std::move(Guide::start(bar(400, 2000, 200, 10), {}, certain).value());
  guide.block({mm(40), 1, Mass::grams(250), 0});
  EXPECT_NEAR(guide.advice().stands_at.in_millimetres(), 50.0, 0.05);
  guide.reweighed(Mass::grams(1700));
  EXPECT_NEAR(guide.advice().stands_at.in_millimetres(), 60.0, 0.05);
}

// With a shape that may be wrong, a heavy block is partly a thick cut and partly a large face.
TEST(Guide, AHeavyBlockIsSharedBetweenAThickCutAndALargeFace) {
  Guide guide = begin(bar(400, 2000, 200, 10));
  guide.block({mm(40), 1, Mass::grams(250), 0});
  const double place = guide.advice().stands_at.in_millimetres();
  EXPECT_GT(place, 40.0);
  EXPECT_LT(place, 50.0);
}

TEST(Guide, ACutWithoutAWeightIsTakenOffAsItWasAsked) {
  Guide guide = begin(bar(400, 2000, 200, 10));
  guide.unweighed(mm(40), 1, 0);
  EXPECT_NEAR(guide.remaining().in_grams(), 1800.0, 0.5);
  EXPECT_EQ(guide.weighed_cuts(), 0U);
  EXPECT_DOUBLE_EQ(guide.habit(), 0.0);
  EXPECT_EQ(guide.advice().left, 9U);
}

TEST(Guide, AHabitKnownFromEarlierSessionsIsTakenOffTheFirstMark) {
  const CookPrior carried = carried_prior({{0.06, 0.01, 0.02, 40}, {0.05, 0.01, 0.03, 30}});
  EXPECT_GT(carried.habit, 0.03);
  EXPECT_LT(carried.habit, 0.06);
  EXPECT_LT(carried.habit_sd, CookPrior{}.habit_sd);
  const Guide guide = std::move(Guide::start(bar(400, 2000, 200, 10), carried).value());
  EXPECT_NEAR(guide.advice().next.in_millimetres(), 40.0 * std::exp(-carried.habit), 0.01);
}

TEST(Guide, RecordsWithoutCutsOrWithoutMeaningCarryNothing) {
  const CookPrior none = carried_prior({{0.3, 0.01, 0.02, 0},
                                        {std::nan(""), 0.01, 0.02, 9},
                                        {0.1, 0.0, 0.02, 9},
                                        {0.1, 0.01, -1.0, 9}});
  EXPECT_EQ(none.habit, 0.0);
  EXPECT_EQ(none.habit_sd, CookPrior{}.habit_sd);
  EXPECT_EQ(none.scatter, CookPrior{}.scatter);
}

TEST(Guide, ABlockOutOfToleranceIsToldWhatToDo) {
  PlanInput input = bar(400, 2000, 200, 10);
  input.specs.push_back({"", Mass::grams(150), Mass::grams(8), 2U, Money::units(1)});
  Guide guide = begin(std::move(input));
  EXPECT_EQ(guide.verdict(0, Mass::grams(210)).fate, Fate::keep);
  const Verdict heavy = guide.verdict(0, Mass::grams(225));
  EXPECT_EQ(heavy.fate, Fate::trim);
  EXPECT_NEAR(heavy.trim.in_grams(), 25.0, 1e-9);
  EXPECT_NEAR(heavy.trim_thickness.in_millimetres(), 5.0, 0.05);
  EXPECT_EQ(guide.verdict(0, Mass::grams(180)).fate, Fate::lesser_pile);
  const Verdict other = guide.verdict(0, Mass::grams(152));
  EXPECT_EQ(other.fate, Fate::other_spec);
  EXPECT_EQ(other.spec, 1U);
  guide.block({mm(30), 1, Mass::grams(150), 1});
  guide.block({mm(30), 1, Mass::grams(150), 1});
  EXPECT_EQ(guide.verdict(0, Mass::grams(152)).fate, Fate::lesser_pile);  // no more of these wanted
}

TEST(Guide, ASmallerFaceThanExpectedAsksForAThickerBlock) {
  PlanInput input{
      *Shape::from({{mm(0), mm(80), mm(60)}, {mm(400), mm(80), mm(60)}}, Mass::grams(2000))};
  input.specs.push_back({"", Mass::grams(200), Mass::grams(10), {}, Money::units(1)});
  input.k_max = 1;
  Guide guide = begin(std::move(input));
  guide.block({mm(40), 1, Mass::grams(200), 0});
  guide.block({mm(40), 1, Mass::grams(200), 0});
  const double before = guide.advice().next.in_millimetres();
  guide.face({mm(74), mm(60)});
  EXPECT_GT(guide.advice().next.in_millimetres(), before);
}

TEST(Guide, SaysItIsDoneWhenNoPortionIsLeftInThePiece) {
  Guide guide = begin(bar(100, 500, 200, 10));
  guide.block({mm(40), 1, Mass::grams(200), 0});
  guide.block({mm(40), 1, Mass::grams(200), 0});
  EXPECT_TRUE(guide.advice().done);
}

TEST(Guide, ScatterIsDrawnTowardsWhatTheCutsShow) {
  Guide steady = begin(bar(600, 6000, 300, 20));
  Guide wild = begin(bar(600, 6000, 300, 20));
  for (int i = 0; i < 10; ++i) {
    steady.block({mm(30), 1, Mass::grams(300), 0});
    wild.block({mm(30), 1, Mass::grams(i % 2 == 0 ? 330 : 270), 0});
  }
  EXPECT_LT(steady.scatter(), wild.scatter());
}

TEST(Guide, NonsenseWeightsChangeNothing) {
  Guide guide = begin(bar(400, 2000, 200, 10));
  guide.block({mm(40), 1, Mass::grams(0), 0});
  guide.block({mm(0), 1, Mass::grams(100), 0});
  guide.reweighed(Mass::grams(-5));
  EXPECT_EQ(guide.remaining(), Mass::grams(2000));
}

// Expected cost by Simpson's rule over the normal density, stretch by stretch so that the jump at the
// lower limit falls between two of them.
double cost_by_integration(double aim, double target, double lower, double s, double each_short,
                           double over) {
  const auto stretch = [&](double from, double to, auto cost) {
    const int steps = 2000;
    const double h = (to - from) / steps;
    double sum = 0.0;
    for (int i = 0; i <= steps; ++i) {
      const double w = from + i * h;
      const double z = (w - aim) / s;
      const double density = std::exp(-0.5 * z * z) / (s * std::sqrt(2 * std::numbers::pi));
      sum += density * cost(w) * (i == 0 || i == steps ? 1 : i % 2 == 1 ? 4 : 2);
    }
    return sum * h / 3.0;
  };
  const double far = 10.0 * s + std::abs(aim - target) + std::abs(aim - lower);
  return stretch(lower - far, lower, [&](double) { return each_short; }) +
         stretch(target, target + far, [&](double w) { return over * (w - target); });
}

TEST(Aim, EqualsNumericalIntegrationOfTheExpectedCost) {
  for (const double s : {2.0, 5.0, 9.0}) {
    for (const double each_short : {0.2, 1.0, 4.0}) {
      const Aim found =
          where_to_aim(Mass::grams(180), Mass::grams(170), Mass::grams(s), Money::units(each_short),
                       PricePerMass::of(Money::units(0.02), MassUnit::gram));
      double best = 1e9;
      for (double aim = 150; aim < 220; aim += 0.1) {
        best = std::min(best, cost_by_integration(aim, 180, 170, s, each_short, 0.02));
      }
      const double there = cost_by_integration(found.aim.in_grams(), 180, 170, s, each_short, 0.02);
      EXPECT_LE(there, best + 1e-7);  // no aim on a grid of 0.1 g costs less
      EXPECT_NEAR(found.expected_cost.in_units(), there, 1e-7);
    }
  }
}

TEST(Aim, DearShortsPushTheAimUp) {
  const auto over = PricePerMass::of(Money::units(0.02), MassUnit::gram);
  const auto aim = [&](double cost) {
    return where_to_aim(Mass::grams(180), Mass::grams(170), Mass::grams(6), Money::units(cost),
                        over)
        .aim;
  };
  EXPECT_LT(aim(0.3), aim(3.0));
}

}  // namespace
}  // namespace tallyblock
