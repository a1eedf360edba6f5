#include "core/cutting/guide.h"

#include <gtest/gtest.h>

#include <cmath>

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

// A block whose weight was asked about and is right.
CutBlock right(Length asked, double grams) { return {asked, 1, Mass::grams(grams), 0, {}, true}; }

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
  certain.area_sd = certain.bulge_sd = 1e-4;
  Guide guide = std::move(Guide::start(bar(400, 2000, 200, 10), {}, certain).value());
  guide.block(right(mm(40), 250));
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
  guide.unweighed(mm(40), {1});
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

TEST(Guide, ABlockOutOfToleranceIsToldWhatToDo) {
  PlanInput input = bar(400, 2000, 200, 10);
  input.specs.push_back({"", Mass::grams(150), Mass::grams(8), 2U, Money::units(1)});
  Guide guide = begin(std::move(input));
  EXPECT_EQ(guide.verdict(0, Mass::grams(210)).fate, Fate::keep);
  const Verdict heavy = guide.verdict(0, Mass::grams(225));
  EXPECT_EQ(heavy.fate, Fate::trim);
  EXPECT_NEAR(heavy.trim.in_grams(), 25.0, 1e-9);
  EXPECT_NEAR(heavy.trim_thickness.in_millimetres(), 5.0, 0.05);
  // Half of a slice has half of the face.
  EXPECT_NEAR(guide.verdict(0, Mass::grams(225), 2).trim_thickness.in_millimetres(), 10.0, 0.1);
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

// Two faces that differ much: what lies between is not known, until one place there is measured.
TEST(Guide, OneMoreMeasureMakesTheNextBlockLikelierOnlyWhereThePieceMayTaperAnyhow) {
  const auto advised = [](std::vector<Station> stations, bool evenly) {
    PlanInput input{*Shape::from(std::move(stations), Mass::grams(2000))};
    input.specs.push_back({"", Mass::grams(160), Mass::grams(7), {}, Money::units(3.2)});
    input.k_max = 1;
    ShapePrior prior;
    prior.evenly = evenly;
    return Guide::begin(std::move(input), {}, prior, Mass::grams(1)).advice();
  };
  const Station first{mm(0), mm(105), mm(72), 0.8}, last{mm(480), mm(52), mm(40), 0.8};
  const Guide::Advice two = advised({first, last}, false);
  EXPECT_GT(two.within_if_measured - two.within, 0.08);
  EXPECT_NEAR(two.measure_at.in_millimetres(), 240.0, 1e-9);
  const Guide::Advice three = advised({first, {mm(240), mm(95), mm(66), 0.8}, last}, false);
  EXPECT_NEAR(three.within, two.within_if_measured, 0.1);
  EXPECT_LT(three.within_if_measured - three.within, 0.08);
  const Guide::Advice even = advised({first, last}, true);
  EXPECT_LT(even.within_if_measured - even.within, 0.08);
  const Guide::Advice same = advised({first, {mm(480), mm(102), mm(71), 0.8}}, false);
  EXPECT_LT(same.within_if_measured - same.within, 0.08);
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

// ---- weights that cannot be

// Four cuts that are right, then one slip: what comes next is as if nothing had been typed wrong.
void expect_no_trace(double typed) {
  Guide slipped = begin(bar(600, 3000, 200, 10));
  Guide told = begin(bar(600, 3000, 200, 10));
  for (int i = 0; i < 4; ++i) {
    const Length asked = slipped.advice().next;
    slipped.block({asked, 1, Mass::grams(200), 0});
    told.block({asked, 1, Mass::grams(200), 0});
  }
  const Length asked = slipped.advice().next;
  const CutBlock wrong{asked, 1, Mass::grams(typed), 0};
  EXPECT_TRUE(slipped.looks_like_a_slip({wrong.weight}, asked, 1)) << typed;
  slipped.block(wrong);
  told.block({asked, 1, Mass::grams(200), 0});
  EXPECT_NEAR(slipped.advice().next.in_millimetres(), told.advice().next.in_millimetres(), 1.0)
      << typed;
  EXPECT_NEAR(slipped.remaining().in_grams(), told.remaining().in_grams(), 5.0) << typed;
  EXPECT_NEAR(slipped.habit(), told.habit(), 0.01) << typed;
}

TEST(Guide, ASlipOfTheKeysMovesNeitherTheNextMarkNorTheHabit) {
  for (const double typed : {2000.0, 20.0, 300.0, 100.0, 2009.0, 1200.0}) expect_no_trace(typed);
}

TEST(Guide, AWeightThatIsSaidToBeRightCountsAsWeighed) {
  Guide guide = begin(bar(600, 3000, 200, 10));
  guide.block(right(guide.advice().next, 300));
  EXPECT_EQ(guide.remaining(), Mass::grams(2700));
  EXPECT_EQ(guide.weighed_cuts(), 1U);
}

TEST(Guide, ACutGoneWrongThatIsNoSlipIsTakenOffAsItWeighs) {
  Guide guide = begin(bar(600, 3000, 200, 10));
  guide.block({guide.advice().next, 1, Mass::grams(137), 0});
  EXPECT_EQ(guide.remaining(), Mass::grams(2863));
}

TEST(Guide, MoreThanIsLeftIsNotBelieved) {
  Guide guide = begin(bar(100, 500, 200, 10));
  guide.block({mm(40), 1, Mass::grams(200), 0});
  EXPECT_FALSE(guide.believes({Mass::grams(320)}, mm(40), 1));
  EXPECT_TRUE(guide.believes({Mass::grams(205)}, mm(40), 1));
}

// By the books nothing is left, yet something is weighed, and then what really lies there.
TEST(Guide, CutsBeyondTheBooksLeaveNumbersAndAReweighedRemainderIsCut) {
  Guide guide = begin(bar(400, 2000, 200, 10));
  for (int i = 0; i < 14; ++i) {
    guide.block(right(mm(40), 230));
    EXPECT_TRUE(std::isfinite(guide.habit()) && std::isfinite(guide.scatter()));
  }
  guide.reweighed(Mass::grams(600));
  const auto advice = guide.advice();
  ASSERT_FALSE(advice.done);
  EXPECT_TRUE(std::isfinite(advice.next.in_millimetres()));
  EXPECT_LE(advice.next.in_millimetres(), 400.0);
}

TEST(Guide, TheHabitHasBoundsAndTheMarkIsNeverBeyondThePiece) {
  Guide guide = begin(bar(400, 2000, 200, 10));
  for (int i = 0; i < 8; ++i) {
    guide.block(right(mm(40), 60));
    const auto advice = guide.advice();
    EXPECT_LE(std::abs(guide.habit()), 0.36);
    EXPECT_LE(advice.next.in_millimetres(), 400.0);
  }
  CookPrior absurd;
  absurd.habit = -6.0;
  const Guide beyond = std::move(Guide::start(bar(400, 2000, 200, 10), absurd).value());
  EXPECT_LE(beyond.advice().next.in_millimetres(), 60.0);
}

}  // namespace
}  // namespace tallyblock
