#include "core/cutting/cutting.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/report/report.h"
#include "make.h"
#include "session_builder.h"

namespace tallyblock {
namespace {

using testing::length;
using testing::mass;
using testing::SessionBuilder;

body::Station station(const std::string& at, const std::string& width, const std::string& depth) {
  body::Station made;
  if (!at.empty()) made.at = length(at);
  made.width = length(width);
  made.depth = length(depth);
  return made;
}

// An even bar of 2 kg, 400 mm: 5 g a millimetre, portions of 200 g.
SessionBuilder bar() {
  SessionBuilder s;
  s.whole("2500 g");
  s.pile("portions", Role::primary);
  s.pile("trim", Role::usable_trim);
  s.target("portions", "200 g", "10 g");
  s.checkpoint("cleaned", "2000 g");
  s.add(station("", "80 mm", "60 mm"));
  s.add(station("400 mm", "80 mm", "60 mm"));
  body::PlanLimits limits;
  limits.k_only = 1;
  s.add(limits);
  return s;
}

CuttingObject piece_of(const SessionBuilder& s) {
  EXPECT_TRUE(s.refused().empty());
  const std::vector<CuttingView> views = cutting_of(s.set(), s.figures());
  EXPECT_EQ(views.size(), 1U);
  return views.empty() || views[0].objects.empty() ? CuttingObject{} : views[0].objects[0];
}

EntryId cut_of(SessionBuilder& s, const std::string& mark, const std::string& plan) {
  return s.add(body::Cut{"main", length(mark), mass("200 g"), plan});
}
EntryId weighed(SessionBuilder& s, const EntryId& cut, const std::string& text,
                const std::string& pile = "portions") {
  body::Reading reading;
  reading.pile = pile;
  reading.habit = Habit::piece;
  reading.weight = mass(text);
  reading.division = mass("1 g");
  reading.cut = cut;
  return s.add(reading);
}

TEST(Cutting, StationsWeightAndTargetsOfASessionMakeThePlan) {
  const CuttingObject piece = piece_of(bar());
  ASSERT_TRUE(piece.plan);
  EXPECT_EQ(piece.plan->demanded, 10U);
  EXPECT_EQ(piece.weight, Mass::grams(2000));
  ASSERT_TRUE(piece.advice);
  EXPECT_NEAR(piece.advice->next.in_millimetres(), 40.0, 0.01);
}

TEST(Cutting, ASessionWithoutStationsHasNoView) {
  SessionBuilder s;
  s.whole("2500 g");
  EXPECT_TRUE(cutting_of(s.set(), s.figures()).empty());
}

TEST(Cutting, WithoutACleanedWeightItIsWhatCameInLessWhatWasSetAside) {
  SessionBuilder s;
  s.whole("2500 g");
  s.pile("portions", Role::primary);
  s.pile("trim", Role::usable_trim);
  s.target("portions", "200 g", "10 g");
  s.read("trim", "600 g");
  s.add(station("", "80 mm", "60 mm"));
  s.add(station("400 mm", "80 mm", "60 mm"));
  EXPECT_EQ(piece_of(s).weight, Mass::grams(1900));
}

TEST(Cutting, WithNoWeightAtAllThePlanIsAnEstimate) {
  SessionBuilder s;
  s.pile("portions", Role::primary);
  s.target("portions", "200 g", "10 g");
  s.add(station("", "80 mm", "60 mm"));
  s.add(station("400 mm", "80 mm", "60 mm"));
  const CuttingObject piece = piece_of(s);
  EXPECT_FALSE(piece.weight);
  EXPECT_NEAR(piece.remaining.in_grams(), 400 * 80 * 60 * 1.06e-3, 1e-6);
}

TEST(Cutting, ACorrectedStationAndALaterOneAtTheSamePlaceCount) {
  SessionBuilder s = bar();
  const EntryId wrong = s.add(station("200 mm", "8 mm", "60 mm"));
  s.add(station("200 mm", "82 mm", "60 mm"), {wrong});
  s.add(station("20 cm", "84 mm", "60 mm"));
  const auto views = cutting_of(s.set(), s.figures());
  ASSERT_EQ(views.size(), 1U);
  ASSERT_EQ(views[0].stations.size(), 3U);
  EXPECT_NEAR(views[0].stations[1].width.in_millimetres(), 84.0, 1e-9);
}

TEST(Cutting, EachWeighedCutMovesTheNextMarkAndTeachesTheHabit) {
  SessionBuilder s = bar();
  for (int i = 0; i < 4; ++i) weighed(s, cut_of(s, "40 mm", "k=1; pile=portions"), "212 g");
  const CuttingObject piece = piece_of(s);
  ASSERT_EQ(piece.cuts.size(), 4U);
  EXPECT_GT(piece.cook.habit, 0.01);
  EXPECT_EQ(piece.cook.cuts, 4U);
  EXPECT_NEAR(piece.remaining.in_grams(), 2000 - 4 * 212, 1e-6);
  ASSERT_TRUE(piece.advice);
  EXPECT_LT(piece.advice->next.in_millimetres(), 40.0);
  ASSERT_EQ(piece.cuts[0].verdicts.size(), 1U);
  EXPECT_EQ(piece.cuts[0].verdicts[0].fate, Fate::trim);
  EXPECT_NEAR(piece.cuts[0].verdicts[0].trim.in_grams(), 12.0, 1e-9);
}

TEST(Cutting, AVoidedWeightLeavesTheCutWhichThenCountsAsItWasAsked) {
  SessionBuilder s = bar();
  const EntryId weight = weighed(s, cut_of(s, "40 mm", "k=1; pile=portions"), "260 g");
  s.voids(weight);
  const CuttingObject piece = piece_of(s);
  ASSERT_EQ(piece.cuts.size(), 1U);
  EXPECT_TRUE(piece.cuts[0].portions.empty());
  EXPECT_EQ(piece.cook.cuts, 0U);
  EXPECT_NEAR(piece.remaining.in_grams(), 1800.0, 0.5);
}

TEST(Cutting, AVoidedCutLeavesItsWeighingAsOneByEye) {
  SessionBuilder s = bar();
  const EntryId cut = cut_of(s, "40 mm", "k=1; pile=portions");
  weighed(s, cut, "205 g");
  s.voids(cut);
  const CuttingObject piece = piece_of(s);
  ASSERT_EQ(piece.cuts.size(), 1U);
  EXPECT_FALSE(piece.cuts[0].asked);
  EXPECT_EQ(piece.cook.cuts, 0U);
  EXPECT_NEAR(piece.remaining.in_grams(), 1795.0, 1e-6);
}

TEST(Cutting, ACutIsClosedWhileAnyoneSaysSo) {
  SessionBuilder s = bar();
  const EntryId cut = cut_of(s, "80 mm", "k=2; pile=portions");
  weighed(s, cut, "201 g");
  EXPECT_FALSE(piece_of(s).cuts[0].closed);
  const std::size_t doubts = s.figures().doubts.size();
  const EntryId first = s.add(body::CutClosed{cut});
  const EntryId second = s.add(body::CutClosed{cut});
  EXPECT_TRUE(piece_of(s).cuts[0].closed);
  EXPECT_EQ(s.figures().doubts.size(), doubts);
  s.add(body::Void{first});
  EXPECT_TRUE(piece_of(s).cuts[0].closed);
  s.add(body::Void{second});
  EXPECT_FALSE(piece_of(s).cuts[0].closed);
}

TEST(Cutting, AClosedCutStaysItselfWhenAnotherPhoneWeighsOneMoreOfIt) {
  SessionBuilder here = bar();
  const EntryId cut = cut_of(here, "80 mm", "k=2; pile=portions");
  weighed(here, cut, "201 g");
  SessionBuilder there = here;
  here.add(body::CutClosed{cut});
  const EntryId next = weighed(there, cut, "198 g");
  Entry more = *there.set().find(next);
  more.id.writer = "zther00000";
  more = sealed(more);
  for (const bool other_first : {false, true}) {
    EntrySet both, other;
    other.insert(more);
    both.merge(other_first ? other : here.set());
    both.merge(other_first ? here.set() : other);
    const Figures figures = figures_of(both);
    const std::vector<CuttingView> views = cutting_of(both, figures);
    ASSERT_EQ(views.size(), 1U);
    const CutLine& line = views[0].objects[0].cuts.at(0);
    EXPECT_TRUE(line.closed);
    EXPECT_EQ(line.portions.size(), 2U);
    EXPECT_NE(report_json(figures, views).find("\"closed\":true"), std::string::npos);
  }
}

// What lay beside the portion is gone from the piece too: the next mark is the same.
TEST(Cutting, AClosedCutTookAsMuchOfThePieceAsAnOpenOne) {
  SessionBuilder s = bar();
  const EntryId cut = cut_of(s, "80 mm", "k=2; pile=portions");
  weighed(s, cut, "201 g");
  const CuttingObject open = piece_of(s);
  s.add(body::CutClosed{cut});
  const CuttingObject closed = piece_of(s);
  ASSERT_TRUE(closed.cuts[0].closed);
  EXPECT_EQ(closed.remaining, open.remaining);
  EXPECT_NEAR(closed.remaining.in_grams(), 2000 - 402, 1e-9);
  ASSERT_TRUE(open.advice && closed.advice);
  EXPECT_EQ(closed.advice->next, open.advice->next);
}

TEST(Cutting, ClosingACutThatIsNotThereIsADoubtAndOneTakenOutIsNone) {
  SessionBuilder s = bar();
  const EntryId cut = cut_of(s, "80 mm", "k=2; pile=portions");
  const std::size_t doubts = s.figures().doubts.size();
  s.add(body::CutClosed{cut});
  s.add(body::Void{cut});
  EXPECT_EQ(s.figures().doubts.size(), doubts);
  s.add(body::CutClosed{{"nxxbdy0000", 7}});
  EXPECT_EQ(s.figures().doubts.size(), doubts + 1);
}

TEST(Cutting, AReweighedRemainderReplacesTheWeightBySubtraction) {
  SessionBuilder s = bar();
  weighed(s, cut_of(s, "40 mm", ""), "200 g");
  s.remainder("1780 g");
  EXPECT_NEAR(piece_of(s).remaining.in_grams(), 1780.0, 1e-9);
}

TEST(Cutting, TheHabitOfEarlierSessionsIsASettingOfThisOne) {
  SessionBuilder s = bar();
  s.add(body::Setting{"cook", cook_setting({0.05, 0.01, 0.02, 20.0})});
  const CuttingObject piece = piece_of(s);
  EXPECT_NEAR(piece.cook.habit, 0.05, 1e-9);
  ASSERT_TRUE(piece.advice);
  EXPECT_NEAR(piece.advice->next.in_millimetres(), 40.0 * std::exp(-0.05), 0.01);
}

TEST(Cutting, ALongPieceHasMarksOfItsOwn) {
  SessionBuilder s = bar();
  s.add(body::LongPiece{"main", "left", 2, {}, {}, mass("980 g"), mass("1 g")});
  s.add(body::LongPiece{"main", "right", 2, {}, {}, mass("1020 g"), mass("1 g")});
  weighed(s, cut_of(s, "80 mm", "k=1; pile=portions; long-piece=left"), "196 g");
  const auto views = cutting_of(s.set(), s.figures());
  ASSERT_EQ(views.size(), 1U);
  ASSERT_EQ(views[0].objects.size(), 3U);
  const CuttingObject& left = views[0].objects[1];
  const CuttingObject& right = views[0].objects[2];
  EXPECT_EQ(left.cuts.size(), 1U);
  EXPECT_TRUE(right.cuts.empty());
  EXPECT_NEAR(left.remaining.in_grams(), 784.0, 1e-6);
  ASSERT_TRUE(right.advice);
  EXPECT_NEAR(right.advice->next.in_millimetres(), 400.0 / 1020 * 200, 1.0);
}

TEST(Cutting, WantedPortionsCutFromOneLongPieceAreNoLongerWantedOfTheOther) {
  SessionBuilder s = bar();
  s.add(body::Wanted{"portions", 3});
  s.add(body::LongPiece{"main", "left", 2, {}, {}, mass("1000 g"), mass("1 g")});
  s.add(body::LongPiece{"main", "right", 2, {}, {}, mass("1000 g"), mass("1 g")});
  for (int i = 0; i < 2; ++i) {
    weighed(s, cut_of(s, "80 mm", "pile=portions; long-piece=left"), "200 g");
  }
  const auto views = cutting_of(s.set(), s.figures());
  ASSERT_EQ(views[0].objects.size(), 3U);
  ASSERT_TRUE(views[0].objects[2].plan);
  EXPECT_EQ(views[0].objects[2].plan->demanded, 1U);
}

TEST(Cutting, WhatMakesNoPieceOrNoPlanIsSaid) {
  SessionBuilder s;
  s.whole("2500 g");
  s.add(station("", "80 mm", "60 mm"));
  EXPECT_EQ(piece_of(s).problem->code, Code::plan_few_stations);
  s.add(station("400 mm", "80 mm", "60 mm"));
  EXPECT_EQ(piece_of(s).problem->code, Code::plan_no_target);
}

TEST(Cutting, TheReportHoldsItInFullWhateverTheOrderOfArrival) {
  SessionBuilder s = bar();
  weighed(s, cut_of(s, "40 mm", "k=1; pile=portions"), "212 g");
  const auto report = [](const EntrySet& set) {
    const Figures figures = figures_of(set);
    return report_json(figures, cutting_of(set, figures));
  };
  EntrySet turned;
  for (auto each = s.entries().rbegin(); each != s.entries().rend(); ++each) turned.insert(*each);
  const std::string expected = report(s.set());
  EXPECT_EQ(report(turned), expected);
  EXPECT_NE(expected.find(R"("cutting":[{"step":"main")"), std::string::npos);
  EXPECT_NE(expected.find(R"("asked_mm":40)"), std::string::npos);
  EXPECT_EQ(expected.find("nan"), std::string::npos);
  EXPECT_NE(report_json(figures_of(s.set())).find(R"("cutting":[])"), std::string::npos);
}

// Slices of two portions, the first meant for one kind and the second for another.
TEST(Cutting, TheSecondPortionOfASliceForTwoKindsIsMeantForTheOther) {
  SessionBuilder s = bar();
  s.pile("small", Role::primary);
  s.target("small", "190 g", "8 g");
  const EntryId cut = cut_of(s, "40 mm", "k=2; pile=portions; counted=1; other=small");
  CutLine line = piece_of(s).cuts.at(0);
  EXPECT_EQ(line.next_spec, 0U);
  EXPECT_EQ(line.of_next, 1U);
  weighed(s, cut, "196 g");
  line = piece_of(s).cuts.at(0);
  EXPECT_EQ(line.next_spec, 1U);
  EXPECT_EQ(line.of_next, 1U);
  weighed(s, cut, "186 g", "small");
  line = piece_of(s).cuts.at(0);
  EXPECT_EQ(line.of_next, 0U);
  EXPECT_EQ(line.meant, (std::vector<std::size_t>{0, 1}));
  ASSERT_EQ(line.verdicts.size(), 2U);
  EXPECT_EQ(line.verdicts[1].fate, Fate::keep);  // 186 g is no portion of 200 +/- 10 g
}

// A portion that is set aside is judged as the kind it was cut for.
TEST(Cutting, WhatIsSetAsideOfASliceForTwoKindsIsJudgedAsTheKindItWasMeantFor) {
  SessionBuilder s = bar();
  s.pile("small", Role::primary);
  s.target("small", "150 g", "8 g");
  const EntryId cut = cut_of(s, "40 mm", "k=2; pile=portions; counted=1; other=small");
  weighed(s, cut, "196 g");
  weighed(s, cut, "130 g", "trim");
  const CutLine line = piece_of(s).cuts.at(0);
  EXPECT_EQ(line.meant, (std::vector<std::size_t>{0, 1}));
  EXPECT_EQ(line.of_next, 0U);
  EXPECT_EQ(line.trimmed, Mass());
}

// Cut and not weighed, it counts for both kinds: nothing more of them is to come.
TEST(Cutting, ASliceForTwoKindsWithoutAWeightCountsForBoth) {
  SessionBuilder s = bar();
  s.pile("small", Role::primary);
  s.target("small", "190 g", "8 g");
  s.add(body::Wanted{"portions", 1});
  s.add(body::Wanted{"small", 1});
  cut_of(s, "80 mm", "k=2; pile=portions; counted=1; other=small");
  const CuttingObject piece = piece_of(s);
  ASSERT_TRUE(piece.advice);
  EXPECT_EQ(piece.advice->left, 0U);
}

// Without a second kind all portions of a slice may be weighed together.
TEST(Cutting, AllPortionsOfASliceForOneKindAreMeantForIt) {
  SessionBuilder s = bar();
  cut_of(s, "40 mm", "k=3; pile=portions");
  const CutLine line = piece_of(s).cuts.at(0);
  EXPECT_EQ(line.next_spec, 0U);
  EXPECT_EQ(line.of_next, 3U);
}

}  // namespace
}  // namespace tallyblock
