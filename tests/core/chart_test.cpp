#include "core/formulas/chart.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "hostile.h"

namespace tallyblock {
namespace {

// Twelve of mean 10 and moving range 1 throughout: limits 10 +/- 2.66.
std::vector<double> twelve() {
  std::vector<double> values;
  for (int i = 0; i < 6; ++i) values.insert(values.end(), {9.5, 10.5});
  return values;
}

std::vector<double> then(std::vector<double> values, std::initializer_list<double> more) {
  values.insert(values.end(), more);
  return values;
}

TEST(Chart, EachNHasItsStageAndNothingElse) {
  struct Row {
    std::size_t n;
    LogStage stage;
    bool difference, few, limits, last_four;
  };
  std::vector<Row> rows{{0, LogStage::nothing, false, false, false, false},
                        {1, LogStage::one, false, false, false, false},
                        {2, LogStage::two, true, false, false, false}};
  for (std::size_t n = 3; n <= 5; ++n)
    rows.push_back({n, LogStage::few, false, true, false, false});
  for (std::size_t n = 6; n <= 7; ++n) {
    rows.push_back({n, LogStage::provisional, false, false, true, false});
  }
  for (std::size_t n = 8; n <= 11; ++n) {
    rows.push_back({n, LogStage::provisional, false, false, true, true});
  }
  for (std::size_t n = 12; n <= 25; ++n) {
    rows.push_back({n, LogStage::settled, false, false, true, true});
  }
  std::mt19937 random(12);
  std::uniform_real_distribution<double> yield(0.5, 0.7);
  std::vector<double> values;
  for (const Row& row : rows) {
    ASSERT_EQ(values.size(), row.n);
    const LogChart chart = *log_chart(values);
    EXPECT_EQ(chart.n, row.n);
    EXPECT_EQ(chart.stage, row.stage) << row.n;
    EXPECT_EQ(chart.stage, log_stage(row.n));
    EXPECT_EQ(chart.difference.has_value(), row.difference) << row.n;
    EXPECT_EQ(chart.few.has_value(), row.few) << row.n;
    EXPECT_EQ(chart.limits.has_value(), row.limits) << row.n;
    EXPECT_EQ(chart.last_four.has_value(), row.last_four) << row.n;
    if (chart.limits) {
      EXPECT_EQ(chart.limits->from, std::min<std::size_t>(row.n, 12));
    }
    values.push_back(yield(random));
  }
}

// NIST/SEMATECH e-Handbook 6.3.2.2, flow rates in their order: mean 50.81, mean moving range 1.8778,
// limits 55.8041 and 45.8159 with 3 / 1.128. With 2.66, as here, 55.8049 and 45.8151 (recomputed).
TEST(Chart, MatchesTheHandbookExampleButForTheRoundingOfItsConstant) {
  const LogChart chart = *log_chart({49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1});
  ASSERT_EQ(chart.stage, LogStage::provisional);
  const ChartLimits& l = *chart.limits;
  EXPECT_NEAR(l.centre, 50.81, 1e-12);
  EXPECT_NEAR(l.mean_moving_range, 1.8778, 0.00005);
  EXPECT_NEAR(l.upper, 55.8049, 0.00005);
  EXPECT_NEAR(l.lower, 45.8151, 0.00005);
  EXPECT_NEAR(l.centre + 3.0 / 1.128 * l.mean_moving_range, 55.8041, 0.00005);
  EXPECT_NEAR(l.centre - 3.0 / 1.128 * l.mean_moving_range, 45.8159, 0.00005);
  EXPECT_TRUE(chart.signals.empty());
}

TEST(Chart, TwoHaveADifferenceAndAFewTheirMiddle) {
  EXPECT_DOUBLE_EQ(*log_chart({0.5, 0.75})->difference, 0.25);
  const FewSeen few = *log_chart({0.6, 0.5, 0.7, 0.62})->few;
  EXPECT_DOUBLE_EQ(few.median, 0.61);
  EXPECT_EQ(few.smallest, 0.5);
  EXPECT_EQ(few.largest, 0.7);
  EXPECT_DOUBLE_EQ(few.chance_next_between, 0.6);
}

TEST(Chart, TheFirstTwelveFixTheLimitsForGood) {
  const ChartLimits fixed = *log_chart(twelve())->limits;
  EXPECT_DOUBLE_EQ(fixed.centre, 10.0);
  EXPECT_DOUBLE_EQ(fixed.upper, 12.66);
  EXPECT_DOUBLE_EQ(fixed.lower, 7.34);
  const ChartLimits later = *log_chart(then(twelve(), {20.0, 3.0, 11.0}))->limits;
  EXPECT_EQ(later.centre, fixed.centre);
  EXPECT_EQ(later.upper, fixed.upper);
  EXPECT_EQ(later.from, 12u);
  // Before there are twelve, each value moves them.
  std::vector<double> ten = twelve();
  ten.resize(10);
  EXPECT_NE(log_chart(then(ten, {12.0}))->limits->upper, log_chart(ten)->limits->upper);
}

TEST(Chart, OneBeyondALimitIsASignalAndOneOnItIsNot) {
  EXPECT_TRUE(log_chart(then(twelve(), {12.66, 7.34}))->signals.empty());
  const auto signals = log_chart(then(twelve(), {12.661, 10.0, 7.339}))->signals;
  ASSERT_EQ(signals.size(), 2u);
  EXPECT_EQ(signals[0].kind, ChartSignalKind::beyond_limit);
  EXPECT_EQ(signals[0].first, 12u);
  EXPECT_EQ(signals[0].last, 12u);
  EXPECT_TRUE(signals[0].above);
  EXPECT_EQ(signals[1].first, 14u);
  EXPECT_FALSE(signals[1].above);
}

TEST(Chart, NothingIsASignalBeforeTwelve) {
  std::vector<double> values = twelve();
  values.resize(10);
  values.push_back(300.0);  // beyond even the limits that it widens itself
  EXPECT_TRUE(log_chart(values)->signals.empty());
  const std::vector<double> steady{1, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9};
  EXPECT_TRUE(log_chart(steady)->signals.empty());
  EXPECT_FALSE(log_chart(then(steady, {9}))->signals.empty());  // the twelfth: eleven on one side
}

TEST(Chart, EightOnOneSideAreOneSignalAsLongAsTheyLast) {
  // The last of the twelve is above too.
  EXPECT_TRUE(log_chart(then(twelve(), {10.1, 10.1, 10.1, 10.1, 10.1, 10.1}))->signals.empty());
  auto signals = log_chart(then(twelve(), {10.1, 10.1, 10.1, 10.1, 10.1, 10.1, 10.1}))->signals;
  ASSERT_EQ(signals.size(), 1u);
  EXPECT_EQ(signals[0].kind, ChartSignalKind::eight_on_one_side);
  EXPECT_EQ(signals[0].first, 11u);
  EXPECT_EQ(signals[0].last, 18u);
  EXPECT_TRUE(signals[0].above);
  signals = log_chart(then(twelve(), {9.9, 9.9, 9.9, 9.9, 9.9, 9.9, 9.9, 9.9, 9.9, 10.2}))->signals;
  ASSERT_EQ(signals.size(), 1u);
  EXPECT_EQ(signals[0].first, 12u);
  EXPECT_EQ(signals[0].last, 20u);
  EXPECT_FALSE(signals[0].above);
  // One at the centre, or a hair of computing beside it, ends the run.
  for (const double at : {10.0, 10.0 + 1e-13}) {
    EXPECT_TRUE(
        log_chart(then(twelve(), {10.1, 10.1, 10.1, 10.1, at, 10.1, 10.1, 10.1}))->signals.empty());
  }
}

TEST(Chart, AllAlikeHaveNoLimitsAndNoSignals) {
  std::vector<double> alike(12, 0.61);
  LogChart chart = *log_chart(then(alike, {0.7}));
  EXPECT_EQ(chart.stage, LogStage::settled);
  EXPECT_FALSE(chart.limits);
  EXPECT_TRUE(chart.signals.empty());
  alike[5] = 0.61 + 1e-16;  // alike but for computing
  EXPECT_FALSE(log_chart(alike)->limits);
}

TEST(Chart, LastFourAgainstFirstFour) {
  const auto answer = [](const std::vector<double>& values) {
    return log_chart(values)->last_four->answer;
  };
  EXPECT_EQ(answer({1, 2, 3, 4, 5, 6, 7, 8}), LastFour::all_above);
  EXPECT_EQ(answer({5, 6, 7, 8, 1, 2, 3, 4}), LastFour::all_below);
  EXPECT_EQ(answer({1, 2, 3, 5, 4, 6, 7, 8}), LastFour::no_clear_change);
  EXPECT_EQ(answer({1, 2, 3, 4, 4, 6, 7, 8}), LastFour::no_clear_change);
  EXPECT_EQ(answer({1, 2, 3, 4, 0, 99, 5, 6, 7, 8}), LastFour::all_above);  // what lies between
}

// Of all orders of eight: C(8, 4) = 70 ways to choose which four come last, one of them all above.
TEST(Chart, ByLuckIsItsShareOfAllOrders) {
  std::vector<double> order{1, 2, 3, 4, 5, 6, 7, 8};
  int all = 0, above = 0, below = 0;
  double by_luck = 0.0;
  do {
    const LastAgainstFirst seen = *log_chart(order)->last_four;
    ++all;
    above += seen.answer == LastFour::all_above ? 1 : 0;
    below += seen.answer == LastFour::all_below ? 1 : 0;
    by_luck = seen.by_luck;
  } while (std::next_permutation(order.begin(), order.end()));
  EXPECT_EQ(all, 40320);
  EXPECT_DOUBLE_EQ(above / double(all), by_luck);
  EXPECT_DOUBLE_EQ(below / double(all), by_luck);
}

// Long charts of one normal spread: the mean moving range over 1.128 is its s, so that the limits lie
// 3 s out. Mean of 20,000 charts of 12, within three standard errors of it.
TEST(Chart, LimitsLieThreeSOut) {
  std::mt19937 random(1924);
  std::normal_distribution<double> yield(0.0, 1.0);
  const int runs = 20000;
  double sum = 0.0, squares = 0.0;
  for (int i = 0; i < runs; ++i) {
    std::vector<double> values(12);
    for (double& value : values) value = yield(random);
    const ChartLimits limits = *log_chart(values)->limits;
    const double half = (limits.upper - limits.lower) / 2.0;
    sum += half;
    squares += half * half;
  }
  const double mean = sum / runs;
  const double error = std::sqrt((squares / runs - mean * mean) / runs);
  EXPECT_NEAR(mean, 2.66 * 2.0 / std::sqrt(std::acos(-1.0)), 3.0 * error);
}

TEST(Chart, TurnedOverItSaysTheOpposite) {
  test::Hostile random(31);
  for (int i = 0; i < 2000; ++i) {
    std::vector<double> values(random.pick(30));
    for (double& value : values) value = random.between(-1.0, 1.0);
    if (random.coin() && values.size() > 13) values[13] += random.coin() ? 9.0 : -9.0;
    std::vector<double> over = values;
    for (double& value : over) value = -value;
    const LogChart a = *log_chart(values), b = *log_chart(over);
    ASSERT_EQ(a.signals.size(), b.signals.size());
    for (std::size_t k = 0; k < a.signals.size(); ++k) {
      ASSERT_EQ(a.signals[k].first, b.signals[k].first);
      ASSERT_NE(a.signals[k].above, b.signals[k].above);
    }
    if (a.limits) {
      ASSERT_NEAR(a.limits->upper, -b.limits->lower, 1e-12);
    }
  }
}

TEST(Chart, HostileNumbersNeverGiveANonNumber) {
  EXPECT_FALSE(log_chart({1.0, std::nan("")}));
  EXPECT_FALSE(log_chart({1.0, 1e308}));
  test::Hostile random(32);
  using test::finite;
  int drawn = 0;
  for (int i = 0; i < 20000; ++i) {
    std::vector<double> values(random.pick(20));
    for (double& value : values) value = random.number();
    if (random.coin()) {
      for (double& value : values) value = value > 1e299 ? 1e299 : value < -1e299 ? -1e299 : value;
    }
    const auto chart = log_chart(values);
    if (!chart) continue;
    ++drawn;
    ASSERT_TRUE(finite(chart->difference));
    if (chart->few) {
      ASSERT_TRUE(finite(chart->few->median));
    }
    if (chart->limits) {
      ASSERT_TRUE(finite(chart->limits->centre) && finite(chart->limits->mean_moving_range));
      ASSERT_TRUE(finite(chart->limits->lower) && finite(chart->limits->upper));
    }
  }
  EXPECT_GT(drawn, 1000);
}

}  // namespace
}  // namespace tallyblock
