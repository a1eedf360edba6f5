// Moves, corrections and tub totals together: nothing counts twice, and their order does not matter.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "core/report/report.h"
#include "session_builder.h"

namespace tallyblock {
namespace {

using testing::doubts_of;
using testing::grams_on;
using testing::pile_of;
using testing::SessionBuilder;

SessionBuilder two_piles() {
  SessionBuilder s;
  s.setting("loss-limit", "100 %");  // not what is asked here
  s.whole("5 kg");
  s.pile("portions", Role::primary);
  s.pile("trim", Role::usable_trim);
  s.pile("stew", Role::usable_trim);
  return s;
}

double sum_of_lines(const Figures& f, const std::string& pile) {
  double sum = 0.0;
  for (const ReadingLine& line : pile_of(f, pile)->lines)
    if (!line.is_void && !line.outvoted) sum += line.net.in_grams();
  return sum;
}

TEST(TubTotals, ACoveredPieceThatIsCarriedOverLaterIsNotCountedTwice) {
  SessionBuilder s = two_piles();
  const EntryId a = s.read("trim", "100 g");
  const EntryId b = s.read("trim", "300 g");
  s.tub_now("trim", "410 g", {a, b});
  s.move(a, "portions");
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(grams_on(f, "portions"), 100.0);
  EXPECT_DOUBLE_EQ(grams_on(f, "trim"), 310.0);
  EXPECT_DOUBLE_EQ(sum_of_lines(f, "trim"), 310.0);
  EXPECT_TRUE(f.doubts.empty());
  // 410, 100 and 300 g to the gram; what was moved is known by one reading alone
  EXPECT_NEAR(pile_of(f, "trim")->weighed.uncertainty().in_grams(), std::sqrt(2.0 / 12.0), 1e-12);
}

TEST(TubTotals, APieceThatWasMovedBeforeTheTubWasReadIsNotTakenOutOfItsTotal) {
  SessionBuilder s = two_piles();
  const EntryId a = s.read("trim", "100 g");
  const EntryId b = s.read("trim", "300 g");
  s.move(a, "portions");
  s.tub_now("trim", "310 g", {a, b});
  EXPECT_DOUBLE_EQ(grams_on(s.figures(), "trim"), 310.0);
}

TEST(TubTotals, OfAGrowingTubLoseAPieceFromTheLastTotalThatHeldIt) {
  SessionBuilder s = two_piles();
  const EntryId a = s.read("trim", "100 g");
  const EntryId first = s.tub_now("trim", "140 g", {a});
  const EntryId second = s.tub_now("trim", "200 g", {first});
  s.move(a, "portions");
  EXPECT_DOUBLE_EQ(grams_on(s.figures(), "trim"), 100.0);
  EXPECT_DOUBLE_EQ(sum_of_lines(s.figures(), "trim"), 100.0);
  s.tub_now("trim", "150 g", {second});  // read without it, 50 g more
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(grams_on(f, "trim"), 150.0);
  EXPECT_DOUBLE_EQ(sum_of_lines(f, "trim"), 150.0);
  EXPECT_DOUBLE_EQ(grams_on(f, "portions"), 100.0);
  EXPECT_TRUE(f.doubts.empty());
}

TEST(TubTotals, APieceCarriedOnASecondTimeLeavesTheTubItLayInThen) {
  SessionBuilder s = two_piles();
  const EntryId a = s.read("trim", "100 g");
  const EntryId moved = s.move(a, "stew");
  s.tub_now("stew", "130 g", {a});
  s.add(body::Move{a, "portions"}, {moved});
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(grams_on(f, "trim"), 0.0);
  EXPECT_DOUBLE_EQ(grams_on(f, "stew"), 30.0);
  EXPECT_DOUBLE_EQ(grams_on(f, "portions"), 100.0);
}

TEST(TubTotals, APieceCorrectedToAnotherPileIsTakenOutAsOneThatIsMoved) {
  SessionBuilder s = two_piles();
  const EntryId a = s.read("trim", "100 g");
  s.tub_now("trim", "140 g", {a});
  s.corrected(a, "portions", "100 g");
  EXPECT_DOUBLE_EQ(grams_on(s.figures(), "trim"), 40.0);
}

TEST(TubTotals, WhatWasCarriedOffCountsOnceInWhatIsMissingAtARemainderToo) {
  SessionBuilder s = two_piles();
  const EntryId a = s.read("trim", "1 kg");
  const EntryId first = s.tub_now("trim", "1400 g", {a});
  s.remainder("3590 g");
  s.tub_now("trim", "1500 g", {first});
  s.move(a, "portions");
  const Figures f = s.figures();
  EXPECT_NEAR(testing::step_of(f, "main")->missing_now->value().in_grams(), 10.0, 1e-9);
  EXPECT_DOUBLE_EQ(grams_on(f, "trim"), 500.0);
  EXPECT_DOUBLE_EQ(sum_of_lines(f, "trim"), 500.0);
}

TEST(TubTotals, ManyOneInTheOtherOverManyThatWereMovedAreAddedUpInTime) {
  SessionBuilder s = two_piles();
  std::vector<EntryId> pieces;
  for (int i = 0; i < 2000; ++i) pieces.push_back(s.read("trim", "10 g"));
  EntryId last = s.tub_now("trim", "20 kg", pieces);
  for (int i = 0; i < 2000; ++i) last = s.tub_now("trim", "20 kg", {last});
  for (const EntryId& piece : pieces) s.move(piece, "stew");
  const Figures f = s.figures();
  EXPECT_NEAR(grams_on(f, "stew"), 20000.0, 1e-6);
  EXPECT_NEAR(grams_on(f, "trim"), 0.0, 1e-6);
  EXPECT_NEAR(sum_of_lines(f, "trim"), 0.0, 1e-6);
}

TEST(TubTotals, SideBySideOverOneReadingAreADoubtWithWhatCountsTwice) {
  SessionBuilder s = two_piles();
  const EntryId a = s.read("trim", "100 g");
  const EntryId b = s.read("trim", "50 g");
  const EntryId first = s.tub_now("trim", "170 g", {a, b});
  const EntryId second = s.tub_now("trim", "180 g", {a, b});
  const auto doubts = doubts_of(s.figures(), Code::doubt_tubs_apart);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_EQ(doubts[0].entries, (std::vector<EntryId>{first, second}));
  EXPECT_EQ(testing::said(doubts[0]),
            (std::vector<std::string>{"trim", "170 g", "180 g", "150 g"}));
  EXPECT_DOUBLE_EQ(doubts[0].amount->in_grams(), 150.0);
  s.voids(first);
  EXPECT_TRUE(doubts_of(s.figures(), Code::doubt_tubs_apart).empty());
  EXPECT_DOUBLE_EQ(grams_on(s.figures(), "trim"), 180.0);
}

TEST(TubTotals, SideBySideOverACorrectedReadingAreADoubtToo) {
  SessionBuilder s = two_piles();
  const EntryId a = s.read("trim", "100 g");
  s.tub_now("trim", "170 g", {a});
  s.tub_now("trim", "180 g", {a});
  s.corrected(a, "trim", "110 g");
  EXPECT_EQ(doubts_of(s.figures(), Code::doubt_tubs_apart).size(), 1u);
}

TEST(TubTotals, OneOfWhichIncludesTheOtherOrThatAThirdIncludesAreNoDoubt) {
  SessionBuilder s = two_piles();
  const EntryId a = s.read("trim", "100 g");
  const EntryId first = s.tub_now("trim", "170 g", {a});
  const EntryId second = s.tub_now("trim", "180 g", {a, first});
  EXPECT_TRUE(s.figures().doubts.empty());
  SessionBuilder t = two_piles();
  const EntryId c = t.read("trim", "100 g");
  const EntryId one = t.tub_now("trim", "110 g", {c});
  const EntryId two = t.tub_now("trim", "120 g", {c});
  EXPECT_EQ(doubts_of(t.figures(), Code::doubt_tubs_apart).size(), 1u);
  t.tub_now("trim", "240 g", {one, two});
  EXPECT_TRUE(doubts_of(t.figures(), Code::doubt_tubs_apart).empty());
  EXPECT_EQ(second.counter, first.counter + 1);
}

TEST(ByDifference, ReadingsOfThePileAreSaidToBeLeftOut) {
  SessionBuilder s = two_piles();
  const EntryId a = s.read("trim", "400 g");
  s.read("portions", "4 kg");
  s.by_difference("trim");
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(grams_on(f, "trim"), 1000.0);
  const auto doubts = doubts_of(f, Code::doubt_difference_readings);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_EQ(doubts[0].entries, std::vector<EntryId>{a});
  EXPECT_EQ(testing::said(doubts[0]), (std::vector<std::string>{"trim", "1"}));
  EXPECT_DOUBLE_EQ(doubts[0].amount->in_grams(), 400.0);
  s.voids(a);
  EXPECT_TRUE(doubts_of(s.figures(), Code::doubt_difference_readings).empty());
}

// Acts on the same readings by several phones: whatever order they come in, the figures are the same.
class Commute : public ::testing::Test {
 protected:
  // All orders of the last `n` entries, each with the ids it has.
  template <class Check>
  static void each_order(const SessionBuilder& s, std::size_t n, Check check) {
    const std::vector<Entry>& entries = s.entries();
    std::vector<std::size_t> order(n);
    for (std::size_t i = 0; i < n; ++i) order[i] = i;
    do {
      EntrySet set;
      for (std::size_t i = 0; i < entries.size(); ++i) {
        Entry entry = entries[i];
        const std::size_t first = entries.size() - n;
        if (i >= first) entry.seq = entries[first].seq + order[i - first];
        set.insert(sealed(std::move(entry)));
      }
      check(figures_of(set));
    } while (std::next_permutation(order.begin(), order.end()));
  }
  static std::map<std::string, double> weights(const Figures& f) {
    std::map<std::string, double> out;
    for (const PileFigures& pile : f.piles) {
      out[pile.key] = pile.weighed.value().in_grams();
      out[pile.key + " u"] = pile.weighed.uncertainty().in_grams();
      out[pile.key + " lines"] = sum_of_lines(f, pile.key);
    }
    out["doubts"] = static_cast<double>(f.doubts.size());
    return out;
  }
  static void expect(const SessionBuilder& s, std::size_t n, double portions, double trim,
                     double stew) {
    std::map<std::string, double> first;
    each_order(s, n, [&](const Figures& f) {
      EXPECT_NEAR(grams_on(f, "portions"), portions, 1e-9);
      EXPECT_NEAR(grams_on(f, "trim"), trim, 1e-9);
      EXPECT_NEAR(grams_on(f, "stew"), stew, 1e-9);
      if (first.empty()) first = weights(f);
      for (const auto& [key, value] : weights(f)) EXPECT_NEAR(value, first[key], 1e-9) << key;
    });
  }
};

TEST_F(Commute, CorrectingAndMovingAReading) {
  SessionBuilder s = two_piles();
  const EntryId a = s.read("trim", "100 g");
  s.corrected(a, "trim", "110 g");
  s.move(a, "portions");
  expect(s, 2, 110.0, 0.0, 0.0);
}

TEST_F(Commute, CorrectingAndMovingWhatATubTotalCoversAndCorrectingTheTotal) {
  SessionBuilder s = two_piles();
  const EntryId a = s.read("trim", "100 g");
  const EntryId b = s.read("trim", "200 g");
  const EntryId tub = s.tub_now("trim", "330 g", {a, b});
  s.corrected(a, "trim", "110 g");
  s.move(a, "portions");
  s.move(b, "stew");
  body::Reading total = std::get<body::Reading>(s.entries()[7].body);
  ASSERT_EQ(s.entries()[7].id, tub);
  total.weight = TypedMass{"350 g", Mass::grams(350.0), WeightStyle::grams};
  s.add(total, {tub});
  expect(s, 4, 110.0, 40.0, 200.0);
}

TEST_F(Commute, CorrectingTwiceAndMovingByDifferentPhones) {
  SessionBuilder s = two_piles();
  const EntryId a = s.read("trim", "100 g");
  s.tub_now("trim", "140 g", {a});
  s.corrected(a, "trim", "110 g");
  s.move(a, "portions");
  s.read("stew", "70 g");
  s.transfer("stew", "trim", "20 g");
  expect(s, 4, 110.0, 50.0, 50.0);
}

// As the screens write it: a move names the correction, a correction names the pile it was moved to.
TEST_F(Commute, AsTheScreensWriteThemInEitherOrder) {
  SessionBuilder corrected_first = two_piles(), moved_first = two_piles();
  const EntryId a = corrected_first.read("trim", "100 g");
  corrected_first.tub_now("trim", "140 g", {a});
  corrected_first.move(corrected_first.corrected(a, "trim", "110 g"), "portions");
  const EntryId b = moved_first.read("trim", "100 g");
  moved_first.tub_now("trim", "140 g", {b});
  moved_first.move(b, "portions");
  moved_first.corrected(b, "portions", "110 g");
  for (const SessionBuilder* s : {&corrected_first, &moved_first}) {
    EXPECT_DOUBLE_EQ(grams_on(s->figures(), "portions"), 110.0);
    EXPECT_DOUBLE_EQ(grams_on(s->figures(), "trim"), 30.0);
  }
}

// Random boards: readings on three piles, tub totals of what lies there, then for every reading at most
// one correction and one move, in many orders.
TEST_F(Commute, CorrectionsAndMovesOfRandomBoards) {
  std::uint32_t state = 77;
  const auto below = [&](std::uint32_t n) {
    state = state * 1664525u + 1013904223u;
    return (state >> 8) % n;
  };
  const std::string piles[] = {"portions", "trim", "stew"};
  for (int board = 0; board < 150; ++board) {
    SessionBuilder s = two_piles();
    std::map<std::string, std::vector<EntryId>> lying;
    std::map<std::string, unsigned> grams;
    std::vector<std::pair<EntryId, std::string>> readings;
    for (unsigned i = 0; i < 3 + below(4); ++i) {
      const std::string& pile = piles[below(3)];
      const unsigned weight = 20 + below(300);
      grams[pile] += weight;
      readings.emplace_back(s.read(pile, std::to_string(weight) + " g"), pile);
      lying[pile].push_back(readings.back().first);
      if (below(3) != 0) continue;
      grams[pile] += below(40);
      lying[pile] = {s.tub_now(pile, std::to_string(grams[pile]) + " g", lying[pile])};
    }
    std::size_t acts = 0;
    for (const auto& [id, pile] : readings) {
      if (acts < 4 && below(2) == 0 && ++acts != 0)
        s.corrected(id, pile, std::to_string(20 + below(300)) + " g");
      if (acts < 4 && below(2) == 0 && ++acts != 0) s.move(id, piles[below(3)]);
    }
    std::map<std::string, double> first;
    each_order(s, acts, [&](const Figures& f) {
      if (first.empty()) first = weights(f);
      for (const auto& [key, value] : weights(f))
        ASSERT_NEAR(value, first[key], 1e-9) << key << " on board " << board;
    });
  }
}

}  // namespace
}  // namespace tallyblock
