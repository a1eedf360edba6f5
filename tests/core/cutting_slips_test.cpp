// Weights of blocks that cannot be, that are said to be right, and blocks that are trimmed.
#include <gtest/gtest.h>

#include "core/cutting/advice_text.h"
#include "core/cutting/cutting.h"
#include "make.h"
#include "session_builder.h"

namespace tallyblock {
namespace {

using testing::length;
using testing::mass;
using testing::SessionBuilder;

// 400 mm, the same all along.
void measure_even(SessionBuilder& s) {
  for (const char* at : {"0 mm", "400 mm"}) {
    body::Station station;
    if (std::string(at) != "0 mm") station.at = length(at);
    station.width = length("80 mm");
    station.depth = length("60 mm");
    s.add(station);
  }
}

// An even bar of 400 mm that weighs `whole`, portions of a tenth of it.
SessionBuilder bar(const std::string& whole, const std::string& target,
                   const std::string& tolerance) {
  SessionBuilder s;
  s.whole(whole);
  s.pile("portions", Role::primary);
  s.pile("trim", Role::usable_trim);
  s.target("portions", target, tolerance);
  s.checkpoint("cleaned", whole);
  measure_even(s);
  body::PlanLimits limits;
  limits.k_only = 1;
  s.add(limits);
  return s;
}

EntryId cut(SessionBuilder& s) {
  return s.add(body::Cut{"main", length("40 mm"), mass("200 g"), "k=1; pile=portions"});
}

EntryId weighed(SessionBuilder& s, const EntryId& of, const std::string& text,
                const std::string& pile = "portions", bool sure = false) {
  body::Reading reading;
  reading.pile = pile;
  reading.habit = Habit::piece;
  reading.weight = mass(text);
  reading.division = mass("1 g");
  reading.cut = of;
  reading.sure = sure;
  return s.add(reading);
}

CuttingObject piece_of(const SessionBuilder& s) {
  EXPECT_TRUE(s.refused().empty());
  const std::vector<CuttingView> views = cutting_of(s.set(), s.figures());
  return views.empty() || views[0].objects.empty() ? CuttingObject{} : views[0].objects[0];
}

TEST(CuttingSlips, ASlipCountsForThePileAndNotForTheGuide) {
  SessionBuilder s = bar("2000 g", "200 g", "10 g");
  weighed(s, cut(s), "200 g");
  weighed(s, cut(s), "300 g");
  const CuttingObject piece = piece_of(s);
  EXPECT_NEAR(piece.remaining.in_grams(), 1600.0, 6.0);
  EXPECT_NEAR(piece.advice->next.in_millimetres(), 40.0, 0.5);
  EXPECT_EQ(piece.cook.cuts, 1U);
  EXPECT_EQ(s.figures().piles.front().weighed.value(), Mass::grams(500));
}

TEST(CuttingSlips, SaidToBeRightItCounts) {
  SessionBuilder s = bar("2000 g", "200 g", "10 g");
  weighed(s, cut(s), "200 g");
  weighed(s, cut(s), "300 g", "portions", true);
  EXPECT_EQ(piece_of(s).remaining, Mass::grams(1500));
  EXPECT_EQ(piece_of(s).cook.cuts, 2U);
}

TEST(CuttingSlips, CorrectedLaterItLeavesNoTrace) {
  SessionBuilder s = bar("2000 g", "200 g", "10 g");
  const EntryId of = cut(s);
  const EntryId wrong = weighed(s, of, "2000 g");
  s.add(body::Void{wrong});
  weighed(s, of, "201 g");
  SessionBuilder right = bar("2000 g", "200 g", "10 g");
  weighed(right, cut(right), "201 g");
  EXPECT_EQ(piece_of(s).cook.habit, piece_of(right).cook.habit);
  EXPECT_EQ(piece_of(s).advice->next, piece_of(right).advice->next);
}

// 7.1 oz typed as 17.1: known by the digits as they were typed, not by their grams.
TEST(CuttingSlips, AreKnownInTheUnitThatWasTyped) {
  SessionBuilder s = bar("70 oz", "7 oz", "0.4 oz");
  weighed(s, cut(s), "7.1 oz");
  weighed(s, cut(s), "17.1 oz");
  EXPECT_EQ(piece_of(s).cook.cuts, 1U);
}

TEST(CuttingSlips, ABlockTrimmedToItsTargetStillTeachesWhatTheCutGave) {
  SessionBuilder trimmed = bar("2000 g", "200 g", "10 g");
  SessionBuilder kept = bar("2000 g", "200 g", "10 g");
  for (int i = 0; i < 4; ++i) {
    const EntryId of = cut(trimmed);
    weighed(trimmed, of, "200 g");
    weighed(trimmed, of, "16 g", "trim");
    weighed(kept, cut(kept), "216 g");
  }
  const CuttingObject now = piece_of(trimmed);
  EXPECT_NEAR(now.cook.habit, piece_of(kept).cook.habit, 1e-9);
  EXPECT_GT(now.cook.habit, 0.02);
  EXPECT_EQ(now.cuts.front().portions.size(), 1U);
  EXPECT_EQ(now.cuts.front().verdicts.front().fate, Fate::keep);
  EXPECT_EQ(now.remaining, Mass::grams(2000 - 4 * 216));
}

// 4000 g measured whole; 20 mm of either end are lost, 400 g in all, and weighed when they are cut off:
// the plan has taken them off already.
TEST(CuttingSlips, EndsWeighedAfterItWasSaidThatTheyAreLostAreNotTakenOffTwice) {
  SessionBuilder s;
  s.whole("4000 g");
  s.pile("portions", Role::primary);
  s.pile("trim", Role::usable_trim);
  s.target("portions", "200 g", "10 g");
  measure_even(s);
  s.read("trim", "100 g");  // cleaned away before: no part of the piece
  body::PlanLimits limits;
  limits.k_only = 1;
  limits.trim_front = limits.trim_back = length("20 mm");
  s.add(limits);
  const CuttingObject before = piece_of(s);
  EXPECT_EQ(before.weight, Mass::grams(3900));
  s.read("trim", "195 g");
  s.read("trim", "195 g");
  const CuttingObject after = piece_of(s);
  EXPECT_NEAR(after.weight->in_grams(), 3900.0, 1e-6);
  EXPECT_EQ(after.plan->demanded, before.plan->demanded);
  // far more than the ends weigh was trimmed away
  s.read("trim", "1000 g");
  EXPECT_LT(piece_of(s).weight->in_grams(), 3200.0);
}

// A short portion that was put into the lesser pile is still the portion, however short.
TEST(CuttingSlips, AShortInALesserPileIsNoTrim) {
  for (const char* grams : {"180 g", "137 g", "70 g"}) {
    SessionBuilder s = bar("2000 g", "200 g", "10 g");
    weighed(s, cut(s), grams, "trim", true);
    const CuttingObject piece = piece_of(s);
    EXPECT_EQ(piece.cuts.front().portions.size(), 1U);
    EXPECT_EQ(piece.remaining, Mass::grams(2000) - mass(grams).mass);
  }
}

TEST(CuttingSlips, ATrimOfMoreThanHalfAPortionIsOneAllTheSame) {
  SessionBuilder s = bar("2000 g", "200 g", "10 g");
  const EntryId of = cut(s);
  weighed(s, of, "120 g", "trim");
  weighed(s, of, "200 g", "portions", true);
  const CuttingObject piece = piece_of(s);
  EXPECT_EQ(piece.cuts.front().portions, std::vector<Mass>{Mass::grams(200)});
  EXPECT_EQ(piece.cuts.front().trimmed, Mass::grams(120));
  EXPECT_EQ(piece.remaining, Mass::grams(1680));
}

TEST(CuttingSlips, WhatIsNotOnePlainNumberIsNoSlipOfTheKeys) {
  SessionBuilder s = bar("70 oz", "7 oz", "0.4 oz");
  weighed(s, cut(s), "1 lb 1.1 oz");
  EXPECT_FALSE(piece_of(s).cuts.front().doubtful);
  EXPECT_EQ(piece_of(s).cook.cuts, 1U);
}

}  // namespace
}  // namespace tallyblock
