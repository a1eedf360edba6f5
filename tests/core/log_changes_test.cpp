#include "core/log/log_changes.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "hostile.h"
#include "log_make.h"

namespace tallyblock::testing {
namespace {

double a_gram(PricePerMass price) { return price.per(MassUnit::gram); }

double sum_of(const CostParts& parts) {
  double sum = a_gram(parts.price) + a_gram(parts.values) + a_gram(parts.labour);
  for (const PricePerMass part : parts.shares) sum += a_gram(part);
  return sum;
}
double part_of(const LogChange& change, std::string_view cause) {
  for (std::size_t i = 0; i < change.causes.size(); ++i) {
    if (change.causes[i] == cause) return a_gram(change.difference->parts->shares[i]);
  }
  ADD_FAILURE() << cause;
  return 0.0;
}

TEST(LogChanges, TheCostsAreThoseOfTheSessions) {
  SessionBuilder dearer = loin();
  dearer.price("22", "kg");
  dearer.increment("waste", "20 g");
  const LogPiece a = piece_of(loin()), b = piece_of(dearer);
  const LogChange change = log_change(a, b);
  ASSERT_EQ(change.why, NotCompared::compared);
  const CostDifference& d = *change.difference;
  EXPECT_NEAR(a_gram(*d.first), a_gram(*a.cost_per_portions), 1e-12);
  EXPECT_NEAR(a_gram(*d.second), a_gram(*b.cost_per_portions), 1e-12);
  ASSERT_TRUE(d.parts);
  EXPECT_NEAR(sum_of(*d.parts), a_gram(*d.difference), 1e-12);
  // What went to the waste was missing before, so that portions are no fewer: all of it is the price, but
  // for what the order of the causes moves.
  EXPECT_NEAR(a_gram(*d.difference), 10.0 / 3400.0, 1e-12);
  EXPECT_NEAR(a_gram(d.parts->price), 10.0 / 3400.0, 1e-6);
  EXPECT_GT(part_of(change, "waste"), 1e-4);
  EXPECT_LT(part_of(change, kLossCause), -1e-4);
  EXPECT_EQ(part_of(change, "grind"), 0.0);
}

// Own derivation, two causes: waste 0.10 -> 0.13 instead of portions, price 20 -> 22 a kilo; each the mean of
// both orders.
TEST(LogChanges, AreTheMeanOfBothOrders) {
  LogPiece a = nth_piece(0, {0.7, 0.1, 0.0}), b = nth_piece(1, {0.67, 0.13, 0.0});
  b.cost = Money::units(110.0);
  const LogChange change = log_change(a, b);
  ASSERT_TRUE(change.difference && change.difference->parts);
  const double credit = 0.2 * 0.006;
  EXPECT_NEAR(a_gram(change.difference->parts->price), (0.002 / 0.7 + 0.002 / 0.67) / 2.0, 1e-12);
  EXPECT_NEAR(part_of(change, "waste"),
              ((0.020 - credit) + (0.022 - credit)) * (1.0 / 0.67 - 1.0 / 0.7) / 2.0, 1e-12);
}

TEST(LogChanges, LabourCountsWhereBothKnowTheirs) {
  LogPiece a = nth_piece(0), b = nth_piece(1);
  a.labour = Money::units(7.0);
  EXPECT_FALSE(log_change(a, b).with_labour);
  EXPECT_EQ(a_gram(log_change(a, b).difference->parts->labour), 0.0);
  b.labour = Money::units(14.0);
  const LogChange change = log_change(a, b);
  EXPECT_TRUE(change.with_labour);
  EXPECT_NEAR(a_gram(change.difference->parts->labour), 7.0 / 3500.0, 1e-12);
}

TEST(LogChanges, PilesAreTheSameByTheirKey) {
  LogPiece a = nth_piece(0), b = nth_piece(1);
  std::swap(b.piles[1], b.piles[2]);
  b.piles[2].name = "Mince";
  const LogChange same = log_change(a, b);
  EXPECT_EQ(a_gram(*same.difference->difference), 0.0);
  b.piles[2].key = "mince";
  const LogChange other = log_change(a, b);
  EXPECT_EQ(other.causes,
            (std::vector<std::string>{"grind", "waste", std::string(kLossCause), "mince"}));
  EXPECT_NEAR(part_of(other, "mince"), -part_of(other, "grind"), 1e-12);
}

TEST(LogChanges, SayWhyNothingIsCompared) {
  const LogPiece good = nth_piece(0);
  LogPiece dollars = good, free = good, nowhere = good;
  dollars.currency = "USD";
  free.cost.reset();
  nowhere.board.reset();
  EXPECT_EQ(log_change(good, dollars).why, NotCompared::other_currency);
  EXPECT_EQ(log_change(free, good).why, NotCompared::first_no_price);
  EXPECT_EQ(log_change(good, free).why, NotCompared::second_no_price);
  EXPECT_EQ(log_change(nowhere, good).why, NotCompared::first_no_board);
  EXPECT_EQ(log_change(good, nowhere).why, NotCompared::second_no_board);
  EXPECT_FALSE(log_change(good, nowhere).difference);
  std::set<std::string_view> names;
  for (const NotCompared why :
       {NotCompared::compared, NotCompared::other_currency, NotCompared::first_no_price,
        NotCompared::second_no_price, NotCompared::first_no_board, NotCompared::second_no_board}) {
    EXPECT_TRUE(is_key(name_of(why)));
    EXPECT_TRUE(names.insert(name_of(why)).second);
  }
}

// Brine adds weight: 3,000 g of portions are put in, 3,300 g come out.
TEST(LogChanges, WhatAFurtherStepAddedIsTheRest) {
  SessionBuilder s = loin();
  s.step("brine", Process::brine, "portions", "3000 g");
  s.pile("brined", Role::primary, "brine");
  s.increment("brined", "3300 g");
  const LogPiece piece = piece_of(s);
  EXPECT_NEAR(piece.primary.in_grams(), 3700.0, 1e-9);
  const LogChange change = log_change(piece_of(loin()), piece);
  EXPECT_NEAR(a_gram(*change.difference->second), a_gram(*piece.cost_per_portions), 1e-12);
  EXPECT_LT(part_of(change, kRestCause), 0.0);
  EXPECT_NEAR(part_of(change, kRestCause), a_gram(*change.difference->difference), 1e-12);
}

TEST(LogChanges, PartsOfRandomSessionsAddUpToTheDifference) {
  test::Hostile random(63);
  const auto any_loin = [&] {
    SessionBuilder s = loin();
    const auto grams = [&](double low, double high) {
      return std::to_string(static_cast<int>(random.between(low, high))) + " g";
    };
    for (const char* pile : {"skewers", "grind", "waste"}) s.increment(pile, grams(1.0, 90.0));
    s.increment("portions", grams(1.0, 300.0));
    s.price(std::to_string(random.between(15.0, 25.0)), "kg");
    s.price_of("pile:skewers", std::to_string(random.between(5.0, 12.0)), "kg");
    if (random.coin()) s.pile("bones", Role::usable_trim, "0.5", "kg");
    if (random.coin()) s.increment("bones", grams(50.0, 150.0));
    s.setting("wage", "20");
    if (random.coin()) s.labour("25 min");
    return piece_of(s);
  };
  int with_labour = 0;
  for (int i = 0; i < 200; ++i) {
    const LogPiece a = any_loin(), b = any_loin();
    const LogChange change = log_change(a, b);
    ASSERT_EQ(change.why, NotCompared::compared);
    const CostDifference& d = *change.difference;
    ASSERT_TRUE(d.parts) << i;
    ASSERT_EQ(d.parts->shares.size(), change.causes.size());
    const double larger = std::fmax(std::fabs(a_gram(*d.first)), std::fabs(a_gram(*d.second)));
    ASSERT_NEAR(sum_of(*d.parts), a_gram(*d.difference), 1e-9 * larger) << i;
    if (change.with_labour) {
      ++with_labour;
      continue;
    }
    ASSERT_NEAR(a_gram(*d.first), a_gram(*a.cost_per_portions), 1e-9 * larger) << i;
    ASSERT_NEAR(a_gram(*d.second), a_gram(*b.cost_per_portions), 1e-9 * larger) << i;
  }
  EXPECT_GT(with_labour, 20);
}

// Own derivation: 20.00 a kilo, grind 0.2 at 6.00; waste 13.5 % and 9.1 % as usual.
TEST(WasteAsUsual, IsTheCostHadOnlyTheWasteBeenOther) {
  const LogPiece piece = nth_piece(0, {0.665, 0.135, 0.0});
  const auto waste = waste_as_usual(piece, 0.091);
  ASSERT_TRUE(waste);
  EXPECT_NEAR(waste->was, 0.135, 1e-12);
  EXPECT_EQ(waste->usual, 0.091);
  EXPECT_NEAR(a_gram(waste->cost), (0.020 - 0.2 * 0.006) / 0.665, 1e-12);
  EXPECT_NEAR(a_gram(waste->would_be), (0.020 - 0.2 * 0.006) / 0.709, 1e-12);
  EXPECT_NEAR(a_gram(waste_as_usual(piece, 0.135)->would_be), a_gram(waste->cost), 1e-15);
}

TEST(WasteAsUsual, KeepsTheProportionsAndValuesOfSeveralPiles) {
  LogPiece piece = nth_piece(0, {0.6, 0.2, 0.0});
  piece.piles[2].share = 0.15;
  piece.piles[2].value = PricePerMass::of(Money::units(-0.2), MassUnit::kilogram);
  piece.piles.push_back({"skin", "Skin", Role::unusable_trim, 0.05, {}});
  const double disposal = 0.0002;
  EXPECT_NEAR(a_gram(waste_as_usual(piece, 0.1)->would_be),
              (0.020 - 0.2 * 0.006 + 0.075 * disposal) / 0.7, 1e-12);
}

TEST(WasteAsUsual, IsAbsentWithoutWhatItNeeds) {
  const LogPiece good = nth_piece(0);
  LogPiece free = good, nowhere = good, none = good;
  free.cost.reset();
  nowhere.board.reset();
  none.primary = Mass();
  EXPECT_FALSE(waste_as_usual(free, 0.1) || waste_as_usual(nowhere, 0.1));
  EXPECT_FALSE(waste_as_usual(none, 0.1));
  EXPECT_FALSE(waste_as_usual(good, -0.1) || waste_as_usual(good, 1.0));
  EXPECT_FALSE(waste_as_usual(good, std::nan("")));
  EXPECT_FALSE(waste_as_usual(good, 0.9)) << "nothing would be left";
  // A piece without waste: the usual waste comes out of its portions.
  const LogPiece clean = nth_piece(0, {0.8, 0.0, 0.0});
  EXPECT_NEAR(a_gram(waste_as_usual(clean, 0.1)->would_be), (0.020 - 0.0012) / 0.7, 1e-12);
}

TEST(LogChanges, HostileNumbersNeverGiveANonNumber) {
  test::Hostile random(62);
  int compared = 0;
  const auto hostile = [&] {
    LogPiece piece = nth_piece(random.pick(9));
    if (random.coin()) piece.board = random.mass();
    if (random.coin()) piece.missing = random.mass();
    if (random.coin()) piece.waste = random.mass();
    if (random.coin()) piece.cost = random.money();
    if (random.coin()) piece.labour = random.money();
    if (random.coin()) piece.piles[1].share = random.number();
    if (random.coin()) piece.piles[1].value = random.price();
    return piece;
  };
  for (int i = 0; i < 5000; ++i) {
    const LogPiece a = hostile(), b = hostile();
    const LogChange change = log_change(a, b);
    if (const auto waste = waste_as_usual(a, 0.1)) {
      ASSERT_TRUE(test::finite(waste->would_be) && test::finite(waste->was));
    }
    if (!change.difference) continue;
    ++compared;
    ASSERT_TRUE(test::finite(change.difference->difference));
    if (change.difference->parts) {
      ASSERT_TRUE(test::finite(change.difference->parts->price));
    }
  }
  EXPECT_GT(compared, 1000);
}

}  // namespace
}  // namespace tallyblock::testing
