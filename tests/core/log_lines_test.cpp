#include "core/log/log_lines.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "hostile.h"
#include "log_make.h"
#include "random_session.h"

namespace tallyblock::testing {
namespace {

std::vector<LogPiece> row_of(std::size_t n) {
  std::vector<LogPiece> pieces;
  test::Hostile random(static_cast<unsigned>(n) + 60);
  for (std::size_t i = 0; i < n; ++i) {
    pieces.push_back(nth_piece(
        i, {random.between(0.6, 0.75), random.between(0.08, 0.12), random.between(0.0, 0.02)}));
  }
  return pieces;
}
LogLine only_line(std::vector<LogPiece> pieces) {
  std::vector<LogLine> lines = log_lines(std::move(pieces));
  EXPECT_EQ(lines.size(), 1U);
  return lines.empty() ? LogLine() : lines.front();
}
LogSeries series(const LogLine& line, LogFigure figure) {
  return series_of(line, latest_group(line), figure);
}
std::vector<std::string> ids(const LogLine& line) {
  std::vector<std::string> out;
  for (const LogPiece& piece : line.members) out.push_back(piece.session);
  return out;
}
std::vector<double> entered(const LogSeries& series) {
  std::vector<double> out;
  for (const std::size_t place : series.entered) out.push_back(series.points[place].value);
  return out;
}

TEST(LogLines, EachNHasItsStageAndNothingElse) {
  for (std::size_t n = 1; n <= 20; ++n) {
    const LogLine line = only_line(row_of(n));
    EXPECT_EQ(line.members.size(), n);
    const LogSeries usable = series(line, LogFigure::usable);
    ASSERT_TRUE(usable.chart);
    EXPECT_EQ(usable.points.size(), n);
    EXPECT_EQ(usable.chart->n, n);
    EXPECT_EQ(usable.chart->stage, log_stage(n));
    EXPECT_EQ(usable.median.has_value(), n >= 3);
    EXPECT_EQ(usable.chart->difference.has_value(), n == 2);
    EXPECT_EQ(usable.chart->few.has_value(), n >= 3 && n <= 5);
    EXPECT_EQ(usable.chart->limits.has_value(), n >= 6);
    EXPECT_EQ(usable.chart->last_four.has_value(), n >= 8);
    if (usable.chart->limits) {
      EXPECT_EQ(usable.chart->limits->from, std::min<std::size_t>(n, 12));
    }
    if (n < 12) {
      EXPECT_TRUE(usable.chart->signals.empty());
    }
  }
  EXPECT_TRUE(log_lines({}).empty());
}

TEST(LogLines, TheOrderOfInputAndCopiesDoNotMatter) {
  RandomSession dice(3, {});
  std::vector<LogPiece> pieces = row_of(9);
  pieces[4].line = pieces[7].line = "others";
  pieces[2].specification = "Chain on";
  pieces[5].start = true;
  const std::vector<LogLine> expected = log_lines(pieces);
  for (int round = 0; round < 20; ++round) {
    std::vector<LogPiece> again = pieces;
    again.insert(again.end(), pieces.begin(), pieces.begin() + round % 9);
    dice.shuffle(again);
    const std::vector<LogLine> lines = log_lines(again);
    ASSERT_EQ(lines.size(), expected.size());
    for (std::size_t i = 0; i < lines.size(); ++i) {
      EXPECT_EQ(lines[i].key, expected[i].key);
      EXPECT_EQ(lines[i].members, expected[i].members);
      EXPECT_EQ(lines[i].ticks, expected[i].ticks);
      EXPECT_EQ(lines[i].from, expected[i].from);
    }
  }
}

TEST(LogLines, MembersStandByTimeThenById) {
  std::vector<LogPiece> pieces = row_of(4);
  pieces[0].first.utc_ms = pieces[3].first.utc_ms;  // the smaller id first
  pieces[2].first = {};                             // no time is known
  const LogLine line = only_line(pieces);
  EXPECT_EQ(ids(line), (std::vector<std::string>{pieces[2].session, pieces[1].session,
                                                 pieces[0].session, pieces[3].session}));
}

TEST(LogLines, TheLineWithTheLatestPieceComesFirst) {
  const std::vector<LogLine> lines = log_lines(
      {nth_piece(5, {}, "a"), nth_piece(1, {}, "b"), nth_piece(9, {}, "b"), nth_piece(5, {}, "c")});
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines[0].key + lines[1].key + lines[2].key, "bac");
}

TEST(LogLines, IsNamedAsItsLatestPieceThatHasAName) {
  std::vector<LogPiece> pieces = row_of(3);
  pieces[1].name = "Short loin";
  pieces[2].name = "";
  EXPECT_EQ(only_line(pieces).name, "Short loin");
}

TEST(LogLines, AreComparedUnderOneSpecificationWhateverLiesBetween) {
  std::vector<LogPiece> pieces = row_of(5);
  pieces[1].specification = pieces[2].specification = "Chain on";
  const LogLine line = only_line(pieces);
  ASSERT_EQ(line.groups.size(), 2U);
  EXPECT_EQ(line.groups[0].specification, "");
  EXPECT_EQ(line.groups[0].members, (std::vector<std::size_t>{0, 3, 4}));
  EXPECT_EQ(line.groups[1].members, (std::vector<std::size_t>{1, 2}));
  EXPECT_EQ(&latest_group(line), &line.groups[0]);
  EXPECT_EQ(line.ticks, (std::vector<LogTick>{{LogTickKind::specification, 1},
                                              {LogTickKind::specification, 3}}));
  EXPECT_EQ(series(line, LogFigure::waste).chart->n, 3U);
}

TEST(LogLines, ATargetThatChangedIsATick) {
  std::vector<LogPiece> pieces = row_of(4);
  const auto aimed = [](double grams) { return LogPortions{4, 4, Mass::grams(grams), {}, {}}; };
  pieces[0].portions = pieces[2].portions = aimed(150.0);
  pieces[3].portions = aimed(160.0);
  EXPECT_EQ(only_line(pieces).ticks, (std::vector<LogTick>{{LogTickKind::target, 3}}));
}

TEST(LogLines, WhatLiesBeforeTheLastStartEntersNothing) {
  std::vector<LogPiece> pieces = row_of(9);
  pieces[2].start = pieces[6].start = true;
  pieces[6].mark = LogMark::hollow;  // starts all the same
  const LogLine line = only_line(pieces);
  EXPECT_EQ(line.from, 6U);
  EXPECT_EQ(line.ticks, (std::vector<LogTick>{{LogTickKind::start, 2}, {LogTickKind::start, 6}}));
  const LogSeries usable = series(line, LogFigure::usable);
  EXPECT_EQ(usable.points.size(), 9U) << "all are drawn";
  EXPECT_EQ(usable.entered, (std::vector<std::size_t>{7, 8}));
  EXPECT_EQ(comparable(line, latest_group(line)), usable.entered);
  EXPECT_EQ(usable.chart->stage, LogStage::two);
}

TEST(LogLines, WhatIsHollowOrOpenIsDrawnAndEntersNothing) {
  std::vector<LogPiece> pieces = row_of(5);
  pieces[1].mark = LogMark::hollow;
  pieces[2].mark = LogMark::half;
  pieces[3].open = true;
  const LogLine line = only_line(pieces);
  for (const LogFigure figure : kLogFigures) {
    const LogSeries one = series(line, figure);
    EXPECT_EQ(one.figure, figure);
    if (one.points.empty()) continue;  // no portions, no call
    EXPECT_EQ(one.points.size(), 5U) << name_of(figure);
    EXPECT_EQ(one.entered, (std::vector<std::size_t>{0, 2, 4})) << name_of(figure);
    EXPECT_NEAR(*one.median, spread_of(entered(one)).median, 0.0);
  }
}

TEST(LogLines, AShareIsAnIntervalOfWhichTheLowEndEnters) {
  const LogLine line =
      only_line({nth_piece(0, {0.7, 0.1, 0.02}), nth_piece(1, {0.7, 0.1, -0.001})});
  const LogSeries usable = series(line, LogFigure::usable);
  EXPECT_NEAR(usable.points[0].low, 0.88, 1e-12);
  EXPECT_NEAR(usable.points[0].high, 0.90, 1e-12);
  EXPECT_EQ(usable.points[0].value, usable.points[0].low);
  EXPECT_NEAR(usable.points[1].low, 0.901, 1e-12);
  EXPECT_EQ(usable.points[1].high, usable.points[1].low) << "missing below 0 counts as 0";
  EXPECT_NEAR(series(line, LogFigure::waste).points[0].high, 0.12, 1e-12);
  EXPECT_NEAR(series(line, LogFigure::prime).points[0].low, 0.70, 1e-12);
  const LogSeries missing = series(line, LogFigure::missing);
  EXPECT_NEAR(missing.points[0].value, 0.02, 1e-12);
  EXPECT_NEAR(missing.points[1].value, -0.001, 1e-12);
}

TEST(LogLines, ACostIsAnIntervalOfWhichTheHighEndWasWeighed) {
  const LogLine line = only_line({nth_piece(0, {0.7, 0.1, 0.02})});
  const LogPoint cost = series(line, LogFigure::cost).points[0];
  // 100.00 less 900 g of grind at 6.00; 3,500 g of portions, 100 g missing.
  EXPECT_NEAR(cost.high, (100.0 - 5.4) / 3500.0, 1e-12);
  EXPECT_NEAR(cost.low, (100.0 - 5.4) / 3600.0, 1e-12);
  EXPECT_EQ(cost.value, cost.high);
}

TEST(LogLines, CostsAreComparedInTheCurrencyOfTheLatest) {
  std::vector<LogPiece> pieces = row_of(4);
  pieces[1].currency = "USD";
  pieces[3].cost_per_portions.reset();
  pieces[3].currency = "CHF";
  const LogLine line = only_line(pieces);
  const LogSeries cost = series(line, LogFigure::cost);
  EXPECT_EQ(cost.only, "EUR") << "the last has no cost";
  ASSERT_EQ(cost.points.size(), 2U);
  EXPECT_EQ(cost.points[1].member, 2U);
  EXPECT_EQ(series(line, LogFigure::usable).chart->n, 4U) << "weights have no currency";
}

TEST(LogLines, MinutesStandBesideTheSameCooksOnly) {
  std::vector<LogPiece> pieces = row_of(5);
  pieces[1].cook = "Another";
  pieces[2].cook = "";
  const LogSeries minutes = series(only_line(pieces), LogFigure::minutes);
  EXPECT_EQ(minutes.only, "Invented cook");
  ASSERT_EQ(minutes.points.size(), 3U);
  EXPECT_EQ(minutes.points[1].member, 3U);
  pieces[4].cook = "";
  EXPECT_EQ(series(only_line(pieces), LogFigure::minutes).points.size(), 2U);
}

TEST(LogLines, ScatterAndCallStandAsTheyWereMade) {
  std::vector<LogPiece> pieces = row_of(3);
  pieces[0].portions = LogPortions{1, 1, Mass::grams(150.0), Mass::grams(150.0), {}};
  pieces[1].portions = LogPortions{8, 7, Mass::grams(150.0), Mass::grams(151.0), Mass::grams(3.5)};
  pieces[2].eye_call = LogEyeCall{{0.7, 0.0, 0.2, 0.1}, 0.04, -0.02};
  const LogLine line = only_line(pieces);
  const LogSeries portions = series(line, LogFigure::portions);
  ASSERT_EQ(portions.points.size(), 1U) << "one portion has no scatter";
  EXPECT_EQ(portions.points[0].value, 3.5);
  EXPECT_EQ(series(line, LogFigure::eye_call).points[0].value, 0.04);
}

// Twelve of mean 0.7 and moving range 0.01 throughout: limits 0.7 -/+ 0.0266 (NIST/SEMATECH e-Handbook 6.3.2.2 with the
// textbooks' 2.66); own derivation.
TEST(LogLines, SignalsCountWhatEntered) {
  std::vector<LogPiece> pieces;
  for (std::size_t i = 0; i < 13; ++i) {
    pieces.push_back(nth_piece(i, {i % 2 == 0 ? 0.695 : 0.705, 0.1, 0.0}));
  }
  pieces[12] = nth_piece(12, {0.67, 0.1, 0.0});
  LogPiece hollow = nth_piece(20, {0.2, 0.1, 0.0});
  hollow.mark = LogMark::hollow;
  hollow.first.utc_ms = pieces[3].first.utc_ms + 1;
  pieces.push_back(hollow);
  const LogLine line = only_line(pieces);
  const LogSeries prime = series(line, LogFigure::prime);
  EXPECT_NEAR(prime.chart->limits->lower, 0.6734, 1e-9);
  EXPECT_NEAR(prime.chart->limits->upper, 0.7266, 1e-9);
  ASSERT_EQ(prime.chart->signals.size(), 1U);
  EXPECT_EQ(prime.chart->signals[0].first, 12U);
  EXPECT_EQ(prime.entered[12], 13U) << "one hollow point lies before it";
}

TEST(LogLines, AtOnePriceCostsDifferByTheCuttingAlone) {
  const LogPiece last = nth_piece(1);
  const LogPrices prices = *prices_of(last);
  EXPECT_NEAR(prices.price.per(MassUnit::kilogram), 20.0, 1e-12);
  ASSERT_EQ(prices.values.size(), 1U);
  EXPECT_NEAR(cost_at(last, prices)->per(MassUnit::gram),
              last.cost_per_portions->per(MassUnit::gram), 1e-12)
      << "its own prices give its own cost";
  LogPiece dear = nth_piece(0);
  dear.cost = Money::units(140.0);
  dear.currency = "USD";
  dear.cost_per_portions = Money::units(134.0) / dear.primary;
  const LogLine line = only_line({dear, last});
  const LogSeries same = series_of(line, latest_group(line), LogFigure::cost, &prices);
  ASSERT_EQ(same.points.size(), 2U) << "whatever was paid";
  EXPECT_NEAR(same.points[0].value, same.points[1].value, 1e-12);
  EXPECT_EQ(same.only, "");
  LogPiece without = last;
  without.bought.reset();
  EXPECT_FALSE(cost_at(without, prices) || prices_of(without));
}

// Packaging is paid for too: C / B.
TEST(LogLines, TheCostOfASessionIsItsCostAtItsOwnPrices) {
  const LogPiece piece = piece_of(loin());
  EXPECT_NEAR(cost_at(piece, *prices_of(piece))->per(MassUnit::gram),
              piece.cost_per_portions->per(MassUnit::gram), 1e-12);
}

TEST(LogLines, FiguresHaveNamesOfTheirOwn) {
  std::vector<std::string_view> names;
  for (const LogFigure figure : kLogFigures) names.push_back(name_of(figure));
  EXPECT_TRUE(std::ranges::all_of(names, [](auto name) { return is_key(name); }));
  std::ranges::sort(names);
  EXPECT_EQ(std::ranges::adjacent_find(names), names.end());
}

TEST(LogLines, HostileNumbersNeverGiveANonNumber) {
  test::Hostile random(61);
  std::size_t points = 0;
  for (int i = 0; i < 2000; ++i) {
    std::vector<LogPiece> pieces = row_of(1 + random.pick(14));
    for (LogPiece& piece : pieces) {
      if (random.coin()) piece.board = random.mass();
      if (random.coin()) piece.missing = random.mass();
      if (random.coin()) piece.primary = piece.prime = random.mass();
      if (random.coin()) piece.bought = random.mass();
      if (random.coin()) piece.cost = random.money();
      if (random.coin()) piece.cost_per_portions = random.price();
      if (random.coin()) piece.minutes = random.number();
    }
    const LogLine line = only_line(pieces);
    const auto prices = prices_of(line.members.back());
    for (const LogFigure figure : kLogFigures) {
      const LogSeries one =
          series_of(line, latest_group(line), figure, prices ? &*prices : nullptr);
      ASSERT_TRUE(test::finite(one.median));
      points += one.points.size();
      for (const LogPoint& point : one.points) {
        ASSERT_TRUE(test::finite(point.low) && test::finite(point.value));
        ASSERT_TRUE(test::finite(point.high) && point.low <= point.high);
      }
    }
  }
  EXPECT_GT(points, 20000U);
}

}  // namespace
}  // namespace tallyblock::testing
