// Steps that go on from a pile: no weight counts twice, whatever takes what.
#include <gtest/gtest.h>

#include "core/report/report.h"
#include "random_session.h"
#include "session_builder.h"

namespace tallyblock {
namespace {

using testing::doubts_of;
using testing::pile_of;
using testing::RandomOptions;
using testing::RandomSession;
using testing::SessionBuilder;
using testing::step_of;

// 5 kg: 4 kg portions, 960 g trim, 40 g lost.
SessionBuilder cut_up() {
  SessionBuilder s;
  s.whole("5 kg");
  s.pile("portions", Role::primary);
  s.pile("trim", Role::usable_trim);
  s.read("portions", "4 kg");
  s.read("trim", "960 g");
  return s;
}

double grams(const Measured& weight) { return weight.value().in_grams(); }

// On the board = roles + loss + change of weight.
void expect_nothing_counted_twice(const Figures& f, const std::string& which) {
  ASSERT_TRUE(f.incoming.on_the_board && f.loss) << which;
  const Measured kept = f.primary + f.secondary + f.usable_trim + f.unusable_trim;
  EXPECT_NEAR(grams(*f.incoming.on_the_board), grams(kept + *f.loss + f.change_of_weight), 1e-6)
      << which;
}

TEST(Steps, TwoThatEachTakeTheWholeOfAPileCountItOnce) {
  SessionBuilder s = cut_up();
  for (const char* key : {"one", "two"}) {
    s.step(key, Process::grinding, "trim");
    s.pile(key, Role::usable_trim, key);
  }
  s.read("one", "950 g");
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(grams(*step_of(f, "one")->input), 960.0);
  ASSERT_TRUE(step_of(f, "two")->input);
  EXPECT_DOUBLE_EQ(grams(*step_of(f, "two")->input), 0.0);
  EXPECT_DOUBLE_EQ(grams(pile_of(f, "trim")->kept), 0.0);
  EXPECT_DOUBLE_EQ(grams(f.usable_trim), 950.0);
  EXPECT_NEAR(grams(f.change_of_weight), 10.0, 1e-9);
  expect_nothing_counted_twice(f, "two");
}

TEST(Steps, WhatIsTakenBeyondAPileIsADoubtWithTheTrueExcess) {
  for (const unsigned takers : {2u, 3u}) {
    SessionBuilder s = cut_up();
    std::vector<EntryId> steps;
    for (unsigned i = 0; i < takers; ++i)
      steps.push_back(s.step("step-" + std::to_string(i), Process::grinding, "trim"));
    const auto doubts = doubts_of(s.figures(), Code::doubt_taken_more_than_pile);
    ASSERT_EQ(doubts.size(), 1u);
    EXPECT_DOUBLE_EQ(doubts[0].amount->in_grams(), 960.0 * (takers - 1));
    EXPECT_EQ(doubts[0].entries, steps);
    EXPECT_EQ(testing::said(doubts[0]).at(1), takers == 2 ? "960 g" : "1920 g");
  }
}

TEST(Steps, WhatIsLeftIsWhatAStepCanTakeWithoutADoubt) {
  SessionBuilder s = cut_up();
  s.step("roast", Process::cooking, "portions", "1 kg");
  s.pile("cooked", Role::primary, "roast");
  s.read("cooked", "800 g");
  s.transfer("cooked", "trim", "200 g");
  const Figures f = s.figures();
  const auto left = left_of(f, *pile_of(f, "trim"), Process::grinding);
  ASSERT_TRUE(left);
  EXPECT_NEAR(grams(*left), 960.0, 1e-9) << "what was cooked is no raw trim";
  s.step("grind", Process::grinding, "trim", "960 g");
  EXPECT_TRUE(doubts_of(s.figures(), Code::doubt_taken_more_than_pile).empty());
}

TEST(Steps, TakenBeyondThePileIsDoubtedOnceThoughItIsAlsoCooked) {
  SessionBuilder s = cut_up();
  s.step("grind", Process::grinding, "trim", "1160 g");
  s.step("test", Process::cooking, "trim");
  const auto doubts = doubts_of(s.figures(), Code::doubt_taken_more_than_pile);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_NEAR(doubts[0].amount->in_grams(), 200.0, 1e-9);
}

TEST(Steps, NothingIsLeftOfTenthsThatWereTakenToTheLast) {
  SessionBuilder s;
  s.whole("2 kg");
  s.pile("trim", Role::usable_trim);
  s.read("trim", "1204.7 g");
  s.step("one", Process::grinding, "trim", "133.3 g");
  s.step("two", Process::grinding, "trim", "291.9 g");
  s.step("rest", Process::grinding, "trim");
  const Figures f = s.figures();
  const auto left = left_of(f, *pile_of(f, "trim"), Process::grinding);
  ASSERT_TRUE(left);
  EXPECT_EQ(grams(*left), 0.0);
}

TEST(Steps, ThoseThatSaidNoWeightShareWhatTheOthersLeft) {
  SessionBuilder s = cut_up();
  s.step("said", Process::grinding, "trim", "600 g");
  s.step("rest", Process::grinding, "trim");
  EXPECT_TRUE(s.figures().doubts.empty());
  s.step("again", Process::grinding, "trim");
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(grams(*step_of(f, "rest")->input), 360.0);
  EXPECT_DOUBLE_EQ(grams(*step_of(f, "again")->input), 0.0);
  EXPECT_DOUBLE_EQ(doubts_of(f, Code::doubt_taken_more_than_pile).at(0).amount->in_grams(), 360.0);
  expect_nothing_counted_twice(f, "shared");
}

TEST(Steps, MoreSaidThanThePileWeighsLeavesTheOthersNothingAndNeverLess) {
  SessionBuilder s = cut_up();
  s.step("said", Process::grinding, "trim", "1 kg");
  s.step("rest", Process::grinding, "trim");
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(grams(*step_of(f, "rest")->input), 0.0);
  const auto doubts = doubts_of(f, Code::doubt_taken_more_than_pile);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_NEAR(doubts[0].amount->in_grams(), 40.0, 1e-9);
  expect_nothing_counted_twice(f, "said");
}

TEST(Steps, OneThatTakesTheRestOfAPileNothingIsLeftOfIsNoDoubt) {
  SessionBuilder s = cut_up();
  s.step("said", Process::grinding, "trim", "960 g");
  s.step("rest", Process::grinding, "trim");
  EXPECT_TRUE(s.figures().doubts.empty());
}

TEST(Steps, TwoCookingTestsOfOnePileCookItOnce) {
  SessionBuilder s = cut_up();
  s.step("roast", Process::cooking, "portions");
  s.step("stew", Process::cooking, "portions");
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(grams(*step_of(f, "roast")->input), 4000.0);
  EXPECT_DOUBLE_EQ(grams(*step_of(f, "stew")->input), 0.0);
  EXPECT_DOUBLE_EQ(grams(f.primary), 4000.0);
  EXPECT_DOUBLE_EQ(doubts_of(f, Code::doubt_taken_more_than_pile).at(0).amount->in_grams(), 4000.0);
}

TEST(Steps, RawWeightLaidOnACookedPileStaysInTheRawYield) {
  SessionBuilder s = cut_up();
  s.step("roast", Process::cooking, "portions", "1 kg");
  s.pile("cooked", Role::primary, "roast");
  s.read("cooked", "800 g");
  s.transfer("trim", "cooked", "100 g");
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(grams(*step_of(f, "roast")->input), 1100.0);
  EXPECT_DOUBLE_EQ(grams(pile_of(f, "trim")->kept), 960.0);
  EXPECT_DOUBLE_EQ(grams(pile_of(f, "trim")->taken_further), 0.0);
  EXPECT_DOUBLE_EQ(grams(pile_of(f, "trim")->carried), 100.0);
  expect_nothing_counted_twice(f, "laid on cooked");
}

TEST(Steps, CookedWeightLaidOnARawPileIsNotPartOfTheRawYield) {
  SessionBuilder s = cut_up();
  s.step("roast", Process::cooking, "portions", "1 kg");
  s.pile("cooked", Role::primary, "roast");
  s.read("cooked", "800 g");
  s.transfer("cooked", "trim", "100 g");
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(grams(pile_of(f, "trim")->weighed), 1060.0);
  EXPECT_DOUBLE_EQ(grams(f.usable_trim), 960.0);
  EXPECT_NEAR(grams(*f.loss), 40.0, 1e-9);
  expect_nothing_counted_twice(f, "cooked on raw");
}

TEST(Steps, WhatGoesOnFromTwoPilesByDifferenceIsNotAlsoAChangeOfWeight) {
  SessionBuilder s = cut_up();
  s.step("grind", Process::grinding, "trim");
  for (const char* key : {"coarse", "fine"}) {
    s.pile(key, Role::usable_trim, "grind");
    s.by_difference(key);
  }
  s.step("patties", Process::grinding, "fine", "300 g");
  s.pile("formed", Role::secondary, "patties");
  s.read("formed", "290 g");
  s.step("rest", Process::grinding, "coarse");  // of a pile that has no weight
  s.pile("stuffed", Role::secondary, "rest");
  s.read("stuffed", "100 g");
  const Figures f = s.figures();
  EXPECT_NEAR(grams(f.change_of_weight), 960.0 - 290.0 - 100.0, 1e-9);
  expect_nothing_counted_twice(f, "by difference");
}

TEST(Steps, WhatIsLeftOfAPileIsWhatNoOtherStepAndNoTransferHasTaken) {
  SessionBuilder s = cut_up();
  s.step("roast", Process::cooking, "trim", "200 g");
  s.step("grind", Process::grinding, "trim", "300 g");
  s.pile("ground", Role::secondary, "grind");
  s.transfer("trim", "ground", "60 g");
  const Figures f = s.figures();
  const PileFigures& trim = *pile_of(f, "trim");
  EXPECT_DOUBLE_EQ(grams(*left_of(f, trim, Process::brine)), 600.0);
  EXPECT_DOUBLE_EQ(grams(*left_of(f, trim, Process::cooking)), 400.0);
  EXPECT_DOUBLE_EQ(grams(*left_of(f, trim, Process::grinding, "grind")), 900.0);
  s.step("rest", Process::brine, "trim");
  const Figures all = s.figures();
  EXPECT_DOUBLE_EQ(grams(*left_of(all, *pile_of(all, "trim"), Process::brine)), 0.0);
  s.by_difference("trim");
  s.by_difference("portions");
  const Figures unknown = s.figures();
  EXPECT_FALSE(left_of(unknown, *pile_of(unknown, "trim"), Process::brine));
}

TEST(SessionProperties, StepsThatSaidNoWeightNeverTakeMoreThanThePile) {
  unsigned shared = 0;
  for (unsigned seed = 0; seed < 200; ++seed) {
    RandomOptions options;
    options.entries = 140;
    const RandomSession session(seed, options);
    const Figures f = figures_of(session.set());
    std::map<std::string, bool> said;
    for (const Entry& entry : session.entries())
      if (const auto* step = std::get_if<body::Step>(&entry.body))
        said[step->key] = step->weight.has_value();
    std::map<std::pair<std::string, bool>, double> taken;  // of a pile, cooking apart
    for (const StepFigures& step : f.steps) {
      if (!step.taken || said[step.key]) continue;
      EXPECT_GE(grams(*step.taken), 0.0) << "seed " << seed;
      const auto [sum, first] =
          taken.try_emplace({step.from_pile, step.process == Process::cooking}, 0.0);
      sum->second += grams(*step.taken);
      if (!first) ++shared;
      EXPECT_LE(sum->second, std::max(0.0, grams(pile_of(f, step.from_pile)->weighed)) + 1e-6)
          << "seed " << seed;
    }
  }
  EXPECT_GT(shared, 20u);
}

TEST(SessionProperties, WhatCameInIsKeptOrLostOrChangedInWeight) {
  constexpr unsigned kSessions = 600;
  unsigned checked = 0, shared = 0;
  for (unsigned seed = 0; seed < kSessions; ++seed) {
    RandomOptions options;
    options.entries = 20 + seed % 3 * 60;
    options.awkward = seed % 2 == 1;
    const Figures f = figures_of(RandomSession(seed, options).set());
    std::map<std::string, unsigned> takers;
    for (const StepFigures& step : f.steps)
      if (step.counted) shared += ++takers[step.from_pile] == 2 ? 1u : 0u;
    if (!f.loss || !f.incoming.on_the_board) continue;
    ++checked;
    expect_nothing_counted_twice(f, "seed " + std::to_string(seed));
  }
  EXPECT_GT(checked, kSessions / 4);
  EXPECT_GT(shared, kSessions / 4);
}

}  // namespace
}  // namespace tallyblock
