// Balance of a step: uncertainty, doubts and what would explain them; properties on random sessions.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/report/report.h"
#include "random_session.h"
#include "session_builder.h"

namespace tallyblock {
namespace {

using testing::doubts_of;
using testing::grams_on;
using testing::pile_of;
using testing::RandomOptions;
using testing::RandomSession;
using testing::SessionBuilder;
using testing::step_of;

SessionBuilder five_kilos() {
  SessionBuilder s;
  s.whole("5 kg");
  s.pile("portions", Role::primary);
  s.pile("trim", Role::usable_trim);
  return s;
}

TEST(Balance, LossIsWhatIsMissingWithTheUncertaintyOfAllReadings) {
  SessionBuilder s = five_kilos();
  s.read("portions", "4 kg");
  s.read("trim", "960 g");
  const Figures f = s.figures();
  EXPECT_NEAR(f.loss->value().in_grams(), 40.0, 1e-9);
  // JCGM 100:2008, F.2.2.1: d / sqrt(12) each, three independent readings.
  EXPECT_NEAR(f.loss->uncertainty().in_grams(), 0.5, 1e-12);
  EXPECT_TRUE(f.doubts.empty());
}

TEST(Balance, OneTareUsedManyTimesIsSharedByItsReadings) {
  SessionBuilder s = five_kilos();
  s.tub("blue", "200 g");
  for (int i = 0; i < 4; ++i) s.read("trim", "300 g", "blue");
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(grams_on(f, "trim"), 400.0);
  // d / sqrt(12) x sqrt(n + n^2), n = 4.
  EXPECT_NEAR(pile_of(f, "trim")->weighed.uncertainty().in_grams(), std::sqrt(20.0 / 12.0), 1e-12);
}

TEST(Balance, AGrowingTubTelescopesToItsLastReadingAndTare) {
  SessionBuilder s = five_kilos();
  s.tub("blue", "200 g");
  EntryId last = s.tub_now("trim", "300 g", {}, "blue");
  for (const char* text : {"420 g", "530 g", "700 g"})
    last = s.tub_now("trim", text, {last}, "blue");
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(grams_on(f, "trim"), 500.0);
  EXPECT_NEAR(pile_of(f, "trim")->weighed.uncertainty().in_grams(), 1.0 / std::sqrt(6.0), 1e-12);
}

TEST(Balance, ALossBelowNothingWithinTwiceItsUncertaintyIsNoDoubt) {
  SessionBuilder s;
  s.division("5 g");
  s.whole("5 kg");
  s.pile("portions", Role::primary);
  s.read("portions", "5.004 kg");  // u = 5 x sqrt(2 / 12) = 2.04 g
  EXPECT_TRUE(s.figures().doubts.empty());
  s.read("portions", "5 g");
  const auto doubts = doubts_of(s.figures(), Code::doubt_loss_negative);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_NEAR(doubts[0].amount->in_grams(), 9.0, 1e-9);
  EXPECT_EQ(testing::said(doubts[0]).at(0), "main");
  EXPECT_EQ(testing::said(doubts[0]).at(1), "9.0 g");
}

TEST(Balance, AWrongBalanceStillShowsEveryOtherFigure) {
  SessionBuilder s = five_kilos();
  s.price("10", "kg");
  s.read("portions", "6 kg");
  const Figures f = s.figures();
  EXPECT_EQ(doubts_of(f, Code::doubt_loss_negative).size(), 1u);
  ASSERT_TRUE(f.yield && f.yield->cost_per_primary);
  EXPECT_NEAR(f.yield->cost_per_primary->per(MassUnit::kilogram), 50.0 / 6.0, 1e-12);
}

TEST(Balance, LossAboveTheLimitAsksToWeighAgain) {
  SessionBuilder s = five_kilos();
  s.read("portions", "4.9 kg");  // 2.0 %: at the limit
  EXPECT_TRUE(doubts_of(s.figures(), Code::doubt_loss_high).empty());
  SessionBuilder more = five_kilos();
  more.read("portions", "4.845 kg");
  const auto doubts = doubts_of(more.figures(), Code::doubt_loss_high);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_EQ(testing::said(doubts[0]),
            (std::vector<std::string>{"main", "155 g", "3.1 %", "2.0 %"}));
}

TEST(Balance, WhatStillLiesOnTheBoardIsNoLoss) {
  SessionBuilder s = five_kilos();
  s.read("portions", "1 kg");
  s.remainder("3.97 kg");
  EXPECT_TRUE(doubts_of(s.figures(), Code::doubt_loss_high).empty());
  SessionBuilder gap = five_kilos();
  gap.read("portions", "1 kg");
  gap.remainder("3.5 kg");
  EXPECT_EQ(testing::said(doubts_of(gap.figures(), Code::doubt_loss_high).at(0)).at(1), "500 g");
}

TEST(Explanations, AMissedTareIsNamedWithItsTubAndHowOften) {
  SessionBuilder s = five_kilos();
  s.tub("blue", "212 g");
  s.read("portions", "4 kg");
  s.increment("trim", "612 g");
  s.increment("trim", "752 g");  // both with the tub: 4000 + 400 + 540 = 4940
  const auto doubts = doubts_of(s.figures(), Code::doubt_explain_tare);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_EQ(testing::said(doubts[0]), (std::vector<std::string>{"blue", "2", "212 g"}));
  EXPECT_DOUBLE_EQ(doubts[0].amount->in_grams(), 424.0);
}

TEST(Explanations, OuncesWhereGramsWereMeant) {
  SessionBuilder s = five_kilos();
  s.read("portions", "4.6 kg");
  const EntryId wrong = s.read("trim", "350 oz");
  const auto doubts = doubts_of(s.figures(), Code::doubt_explain_unit);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_EQ(testing::said(doubts[0]), (std::vector<std::string>{"trim", "350 oz", "350 g"}));
  EXPECT_EQ(doubts[0].entries, std::vector<EntryId>{wrong});
}

TEST(Explanations, KilogramsWherePoundsWereMeant) {
  SessionBuilder s = five_kilos();
  s.read("portions", "4.0 kg");
  s.read("trim", "2.1 kg");  // 2.1 lb = 952.5 g
  const auto doubts = doubts_of(s.figures(), Code::doubt_explain_unit);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_EQ(testing::said(doubts[0]).at(2), "2.1 lb");
}

TEST(Explanations, TheWholeWeightInTheWrongUnit) {
  SessionBuilder s;
  s.whole("5 lb");
  s.pile("portions", Role::primary);
  s.read("portions", "2.47 kg");
  s.read("portions", "2.48 kg");
  const auto doubts = doubts_of(s.figures(), Code::doubt_explain_unit);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_EQ(testing::said(doubts[0]), (std::vector<std::string>{"invoice", "5 lb", "5 kg"}));
}

TEST(Explanations, ASlippedDecimalMark) {
  SessionBuilder s = five_kilos();
  s.read("portions", "4.5 kg");
  s.read("trim", "4.50 kg");
  const auto doubts = doubts_of(s.figures(), Code::doubt_explain_unit);
  ASSERT_GE(doubts.size(), 1u);
  EXPECT_EQ(testing::said(doubts[0]).at(2), "0.450 kg");
}

TEST(Explanations, AReadingEnteredTwice) {
  SessionBuilder s = five_kilos();
  s.read("portions", "4 kg");
  const EntryId once = s.read("trim", "960 g");
  const EntryId twice = s.read("trim", "960 g");
  const auto doubts = doubts_of(s.figures(), Code::doubt_explain_repeated);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_EQ(doubts[0].entries, (std::vector<EntryId>{once, twice}));
  EXPECT_EQ(testing::said(doubts[0]), (std::vector<std::string>{"trim", "960 g"}));
}

TEST(Explanations, AWeightTakenAwayThatWasAdded) {
  SessionBuilder s = five_kilos();
  s.read("portions", "4.15 kg");
  s.increment("trim", "900 g");
  s.increment("trim", "90 g");  // was taken out: 900 - 90
  const auto doubts = doubts_of(s.figures(), Code::doubt_explain_sign);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_EQ(testing::said(doubts[0]), (std::vector<std::string>{"trim", "90 g"}));
  EXPECT_DOUBLE_EQ(doubts[0].amount->in_grams(), 180.0);
}

TEST(Explanations, NoneIsToldThatWouldNotCloseTheBalance) {
  SessionBuilder s = five_kilos();
  s.tub("blue", "212 g");
  s.read("portions", "3.3 kg");
  s.read("trim", "2.7 kg");  // 1,000 g too much: a tare, a repeat or a unit would not do
  const Figures f = s.figures();
  EXPECT_EQ(doubts_of(f, Code::doubt_loss_negative).size(), 1u);
  EXPECT_EQ(f.doubts.size(), 1u);
}

TEST(EntryDoubts, ATareHeavierThanTheReadingIsADoubt) {
  SessionBuilder s = five_kilos();
  s.tub("blue", "212 g");
  s.read("trim", "200 g", "blue");
  EXPECT_EQ(doubts_of(s.figures(), Code::doubt_tare_over_reading).size(), 1u);
}

TEST(EntryDoubts, AReadingForAPileThatIsNotThereIsToldAndNotCounted) {
  SessionBuilder s = five_kilos();
  const EntryId lost = s.read("nowhere", "500 g");
  const Figures f = s.figures();
  const auto doubts = doubts_of(f, Code::doubt_unknown_reference);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_EQ(testing::said(doubts[0]), (std::vector<std::string>{"pile", "nowhere"}));
  EXPECT_EQ(doubts[0].entries, std::vector<EntryId>{lost});
  EXPECT_DOUBLE_EQ(step_of(f, "main")->outputs.value().in_grams(), 0.0);
}

TEST(EntryDoubts, APriceOfAPileTakenAwayOnPurposeIsNone) {
  SessionBuilder s = five_kilos();
  const EntryId pile = s.pile("fat", Role::usable_trim, "1", "kg");
  s.voids(pile);
  EXPECT_TRUE(s.figures().doubts.empty());
}

TEST(EntryDoubts, GapsInACounterAreToldUnlessEntriesWereLeftOutOnPurpose) {
  SessionBuilder s = five_kilos();
  s.skip_counter();
  s.read("trim", "100 g");
  EXPECT_EQ(doubts_of(s.figures(), Code::doubt_missing_entries).size(), 1u);
  EXPECT_TRUE(doubts_of(figures_of(s.set(), {"note"}), Code::doubt_missing_entries).empty());
}

TEST(EntryDoubts, AnUnknownKindIsToldAndChangesNoFigure) {
  SessionBuilder s = five_kilos();
  s.read("trim", "100 g");
  EntrySet set = s.set();
  const auto later = decode_entry_lenient(
      R"({"id":"cccccccccc.1","kind":"chill-curve","seq":99,"t":1760000000000,"tz":60,"x":1})");
  ASSERT_TRUE(later);
  set.insert(later.value());
  const Figures f = figures_of(set);
  const auto doubts = doubts_of(f, Code::doubt_unknown_kind);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_EQ(testing::said(doubts[0]), (std::vector<std::string>{"chill-curve", "1"}));
  EXPECT_DOUBLE_EQ(grams_on(f, "trim"), 100.0);
}

// ---- properties ----------------------------------------------------------------------------------

constexpr unsigned kSessions = 150;

RandomOptions options_for(unsigned seed) {
  RandomOptions options;
  options.entries = 20 + seed % 3 * 60;
  options.awkward = seed % 2 == 1;
  return options;
}

TEST(SessionProperties, TheBalanceOfEveryStepCloses) {
  for (unsigned seed = 0; seed < kSessions; ++seed) {
    const Figures f = figures_of(RandomSession(seed, options_for(seed)).set());
    for (const StepFigures& step : f.steps) {
      double outputs = 0.0;
      for (const PileFigures& pile : f.piles)
        if (pile.step == step.key) outputs += pile.weighed.value().in_grams();
      EXPECT_NEAR(outputs, step.outputs.value().in_grams(), 1e-6) << "seed " << seed;
      if (!step.unweighed) continue;
      EXPECT_NEAR(step.input->value().in_grams(), outputs + step.unweighed->value().in_grams(),
                  1e-6)
          << "seed " << seed;
      if (step.loss) {
        EXPECT_NEAR(step.loss->value().in_grams(), step.unweighed->value().in_grams(), 1e-6);
      }
    }
  }
}

TEST(SessionProperties, TheLinesOfAPileAndItsTransfersAddUpToItsWeight) {
  for (unsigned seed = 0; seed < kSessions; ++seed) {
    RandomOptions options = options_for(seed);
    const RandomSession session(seed, options);
    bool transfers = false;
    for (const Entry& entry : session.entries())
      transfers |= std::holds_alternative<body::Transfer>(entry.body);
    if (transfers) continue;
    const Figures f = figures_of(session.set());
    for (const PileFigures& pile : f.piles) {
      double sum = 0.0;
      for (const ReadingLine& line : pile.lines)
        if (!line.is_void && !line.outvoted) sum += line.net.in_grams();
      if (!pile.by_difference) {
        EXPECT_NEAR(sum, pile.weighed.value().in_grams(), 1e-6) << "seed " << seed;
      }
    }
  }
}

TEST(SessionProperties, ShownCentsOfTheCostLinesAddUpToTheShownCost) {
  unsigned checked = 0;
  for (unsigned seed = 0; seed < kSessions; ++seed) {
    const Figures f = figures_of(RandomSession(seed, options_for(seed)).set());
    const auto lines = cost_lines(f);
    if (lines.empty()) continue;
    ++checked;
    std::int64_t shown = 0;
    for (const CostLine& line : lines) {
      shown += line.shown;
      EXPECT_NEAR(static_cast<double>(line.shown), 100.0 * line.exact.in_units(), 1.0 + 1e-6);
    }
    EXPECT_NEAR(static_cast<double>(shown), 100.0 * f.cost->in_units(), 0.5 + 1e-6)
        << "seed " << seed;
  }
  EXPECT_GT(checked, kSessions / 2);
}

TEST(SessionProperties, TheOrderOfArrivalNeverMatters) {
  for (unsigned seed = 0; seed < kSessions; ++seed) {
    RandomSession session(seed, options_for(seed));
    const std::string expected = report_json(figures_of(session.set()));
    std::vector<Entry> entries = session.entries();
    session.shuffle(entries);
    EXPECT_EQ(report_json(figures_of(testing::set_of(entries))), expected) << "seed " << seed;
  }
}

TEST(SessionProperties, MergingEitherWayRoundGivesTheSameFigures) {
  for (unsigned seed = 0; seed < kSessions; ++seed) {
    RandomSession session(seed, options_for(seed));
    EntrySet a, b;
    for (const Entry& entry : session.entries()) {
      const unsigned side = session.below(3);
      if (side != 0) a.insert(entry);
      if (side != 1) b.insert(entry);
    }
    EntrySet ab = a, ba = b;
    ab.merge(b);
    ba.merge(a);
    EXPECT_EQ(report_json(figures_of(ab)), report_json(figures_of(ba))) << "seed " << seed;
    EXPECT_EQ(report_json(figures_of(ab)), report_json(figures_of(session.set())))
        << "seed " << seed;
  }
}

TEST(SessionProperties, VoidingAVoidRestoresIdenticalFigures) {
  for (unsigned seed = 0; seed < kSessions; ++seed) {
    RandomSession session(seed, options_for(seed));
    EntrySet set = session.set();
    Figures before = figures_of(set);
    const Entry& target = session.any(session.entries());
    if (std::holds_alternative<body::Void>(target.body)) continue;
    SessionBuilder s("zzzzzzzzzz");
    s.after(set);
    s.voids(s.voids(target.id));
    for (const Entry& entry : s.entries()) set.insert(entry);
    before.entry_count += 2;
    EXPECT_EQ(report_json(figures_of(set)), report_json(before)) << "seed " << seed;
  }
}

TEST(SessionProperties, NoFigureIsInfiniteOrNotANumber) {
  for (unsigned seed = 0; seed < kSessions; ++seed) {
    const Figures f = figures_of(RandomSession(seed, options_for(seed)).set());
    for (const PileFigures& pile : f.piles) {
      EXPECT_TRUE(std::isfinite(pile.weighed.value().in_grams()));
      EXPECT_TRUE(std::isfinite(pile.share_of_ap));
      EXPECT_TRUE(std::isfinite(pile.kept.uncertainty().in_grams()));
    }
    const std::string report = report_json(f);
    EXPECT_EQ(report.find("nan"), std::string::npos) << "seed " << seed;
    EXPECT_EQ(report.find("inf,"), std::string::npos) << "seed " << seed;
    EXPECT_EQ(report.find("inf}"), std::string::npos) << "seed " << seed;
  }
}

}  // namespace
}  // namespace tallyblock
