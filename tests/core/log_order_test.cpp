#include "core/log/log_order.h"

#include <gtest/gtest.h>

#include "core/formulas/prediction.h"
#include "log_make.h"

namespace tallyblock::testing {
namespace {

LogOrderAsked forty_of_150() { return {{40, Mass::grams(150.0)}, 0.9, 1, {}}; }

std::vector<LogPiece> kitchen(std::size_t n) {
  std::vector<LogPiece> pieces;
  for (std::size_t i = 0; i < n; ++i) {
    pieces.push_back(nth_piece(i, {0.68 + 0.01 * static_cast<double>(i % 4), 0.1, 0.01}));
  }
  return pieces;
}
LogOrder order_of(std::vector<LogPiece> pieces, const LogOrderAsked& asked = forty_of_150()) {
  const std::vector<LogLine> lines = log_lines(std::move(pieces));
  return log_order(lines.front(), latest_group(lines.front()), asked);
}

TEST(LogOrder, FromFewerThanThreeOnlyTheSmallestIsKnown) {
  for (std::size_t n = 1; n <= 20; ++n) {
    const LogOrder order = order_of(kitchen(n));
    EXPECT_EQ(order.n, n);
    EXPECT_EQ(order.order.has_value(), n >= 3) << n;
    EXPECT_NEAR(order.smallest->in_grams(), 3400.0, 1e-9);
    EXPECT_NEAR(order.usual_piece->in_grams(), 5000.0, 1e-9);
    EXPECT_EQ(order.grams_each->n, n);
  }
  std::vector<LogPiece> hollow = kitchen(2);
  for (LogPiece& piece : hollow) piece.mark = LogMark::hollow;
  const LogOrder none = order_of(hollow);
  EXPECT_EQ(none.n, 0U);
  EXPECT_FALSE(none.smallest || none.usual_piece || none.grams_each || none.order);
  EXPECT_TRUE(none.price) << "what was paid is known all the same";
}

// The fewest pieces whose lower bound (prediction.h) reaches 6,000 g; searched one by one.
TEST(LogOrder, IsTheFewestPiecesThatAreSureToBeEnough) {
  for (const double confidence : {0.5, 0.8, 0.9, 0.95, 0.99}) {
    LogOrderAsked asked = forty_of_150();
    asked.confidence = confidence;
    const LogOrder order = order_of(kitchen(6), asked);
    std::size_t pieces = 1;
    while (static_cast<double>(pieces) *
               *lower_prediction_bound(*order.grams_each, pieces, confidence) <
           6000.0) {
      ++pieces;
    }
    ASSERT_TRUE(order.order);
    EXPECT_EQ(order.order->pieces, pieces) << confidence;
    EXPECT_NEAR(order.order->cost->in_units(), static_cast<double>(pieces) * 100.0, 1e-9);
  }
}

TEST(LogOrder, PiecesOfAnotherWeightGiveInProportion) {
  LogOrderAsked asked = forty_of_150();
  asked.piece = Mass::grams(2500.0);
  const LogOrder half = order_of(kitchen(6), asked), whole = order_of(kitchen(6));
  EXPECT_NEAR(half.grams_each->mean, whole.grams_each->mean / 2.0, 1e-9);
  EXPECT_NEAR(*half.grams_each->s, *whole.grams_each->s / 2.0, 1e-9);
  EXPECT_NEAR(half.order->bought.in_grams(), 2500.0 * static_cast<double>(half.order->pieces),
              1e-9);
  EXPECT_NEAR(half.usual_piece->in_grams(), 5000.0, 1e-9);
}

TEST(LogOrder, SeveralPiecesOfOneSessionCountByThePiece) {
  std::vector<LogPiece> pieces = kitchen(3);
  for (LogPiece& piece : pieces) piece.pieces = 2;
  LogOrderAsked asked = forty_of_150();
  asked.case_of = 4;
  const LogOrder order = order_of(pieces, asked);
  EXPECT_NEAR(order.usual_piece->in_grams(), 2500.0, 1e-9);
  EXPECT_NEAR(order.grams_each->smallest, 1700.0, 1e-9);
  EXPECT_EQ(order.order->pieces, 4 * order.order->packs);
}

TEST(LogOrder, ThePriceIsTheLastOnePaid) {
  std::vector<LogPiece> pieces = kitchen(4);
  pieces[2].cost = Money::units(110.0);
  pieces[2].currency = "USD";
  pieces[2].open = true;  // paid all the same
  pieces[3].cost.reset();
  const LogOrder order = order_of(pieces);
  EXPECT_NEAR(order.price->per(MassUnit::kilogram), 22.0, 1e-9);
  EXPECT_EQ(order.currency, "USD");
  EXPECT_EQ(order.n, 3U);
}

TEST(LogOrder, WhatGaveNoPortionsIsLeftOut) {
  std::vector<LogPiece> pieces = kitchen(4);
  pieces[0].primary = Mass();
  pieces[1].bought.reset();
  EXPECT_EQ(order_of(pieces).n, 2U);
}

}  // namespace
}  // namespace tallyblock::testing
