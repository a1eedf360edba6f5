// Money of a session: cost, credit, labour, make or buy, targets, price update, currencies.
#include <gtest/gtest.h>

#include <cmath>

#include "core/report/inside/report_json.h"
#include "core/report/report.h"
#include "session_builder.h"

namespace tallyblock {
namespace {

using testing::doubts_of;
using testing::pile_of;
using testing::SessionBuilder;

// 10 kg at 10: 6 kg portions, 2 kg grind at 5, 1.9 kg waste, 0.1 kg lost. V = 10, N = 90, u = 15/kg.
SessionBuilder ten_kilos() {
  SessionBuilder s;
  s.whole("10 kg").price("10", "kg");
  s.pile("portions", Role::primary);
  s.pile("grind", Role::usable_trim, "5", "kg");
  s.pile("waste", Role::unusable_trim);
  s.read("portions", "6 kg");
  s.read("grind", "2 kg");
  s.read("waste", "1.9 kg");
  return s;
}
double per_kg(const std::optional<PricePerMass>& price) {
  return price ? price->per(MassUnit::kilogram) : std::nan("");
}

TEST(SessionMoney, TheYieldTestFollowsFromTheEntries) {
  const Figures f = ten_kilos().figures();
  EXPECT_DOUBLE_EQ(f.yield->net_cost->in_units(), 90.0);
  EXPECT_NEAR(per_kg(f.yield->cost_per_primary), 15.0, 1e-12);
  EXPECT_NEAR(*f.yield->cost_factor, 1.5, 1e-12);
  EXPECT_NEAR(per_kg(f.yield->cost_per_primary_no_credit), 100.0 / 6.0, 1e-12);
  EXPECT_TRUE(f.needs.empty());
  EXPECT_DOUBLE_EQ(pile_of(f, "waste")->worth->in_units(), 0.0);
}

TEST(SessionMoney, ATotalIsTheInvoiceWhateverTheWeight) {
  SessionBuilder s;
  s.whole("10 kg").total_of("piece", "123.45");
  EXPECT_DOUBLE_EQ(s.figures().cost->in_units(), 123.45);
}

TEST(SessionMoney, AValueForAWholePileIsSpreadOverItsWeight) {
  SessionBuilder s = ten_kilos();
  s.total_of("pile:waste", "-3.80");
  const Figures f = s.figures();
  EXPECT_NEAR(pile_of(f, "waste")->worth->in_units(), -3.80, 1e-12);
  EXPECT_NEAR(f.yield->net_cost->in_units(), 93.80, 1e-12);
}

TEST(SessionMoney, DisposalCostsAndCreditsStandInTheCostLines) {
  SessionBuilder s = ten_kilos();
  s.price_of("pile:waste", "-0.333", "kg");
  const Figures f = s.figures();
  const auto lines = cost_lines(f);
  ASSERT_EQ(lines.size(), 3u);
  EXPECT_EQ(lines[0].shown + lines[1].shown + lines[2].shown, 10000);
}

TEST(SessionMoney, ATieInTheTotalIsShownRoundedUpAndTheLinesAddUpToIt) {
  SessionBuilder s = ten_kilos();
  s.total_of("piece", "100.125");
  const Figures f = s.figures();
  std::int64_t shown = 0;
  for (const CostLine& line : cost_lines(f)) shown += line.shown;
  EXPECT_EQ(shown, 10013);
}

TEST(SessionMoney, ANegativeNetCostIsToldRoundedAwayFromZero) {
  SessionBuilder s = ten_kilos();
  s.total_of("piece", "0").total_of("pile:waste", "0.125");
  const auto doubts = doubts_of(s.figures(), Code::doubt_net_cost_negative);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_EQ(testing::said(doubts.front()), std::vector<std::string>{"-10.13"});
}

TEST(SessionMoney, TimedAndTypedMinutesAreShownApart) {
  SessionBuilder s = ten_kilos();
  const EntryId timed = s.add(body::Labour{std::nullopt, 22 * 60000});
  const EntryId typed = s.labour("40");
  Figures f = s.figures();
  EXPECT_DOUBLE_EQ(f.minutes_timed, 22.0);
  EXPECT_DOUBLE_EQ(f.minutes_typed, 40.0);
  EXPECT_DOUBLE_EQ(f.minutes, 62.0);
  s.add(body::Labour{TypedNumber{"45", 45.0}, std::nullopt}, {timed, typed});
  f = s.figures();
  EXPECT_DOUBLE_EQ(f.minutes_timed, 0.0);
  EXPECT_DOUBLE_EQ(f.minutes, 45.0);
  const std::string report = report_json(f);
  EXPECT_NE(report.find(R"("minutes":45,"minutes_timed":0,"minutes_typed":45,)"),
            std::string::npos);
}

TEST(SessionMoney, NeedsAreToldInTheOrderOfEntering) {
  SessionBuilder s;
  EXPECT_EQ(s.figures().needs,
            (std::vector<Code>{Code::need_whole_weight, Code::need_price, Code::need_primary}));
  s.price("10", "kg");
  EXPECT_EQ(s.figures().needs, (std::vector<Code>{Code::need_whole_weight, Code::need_primary}));
  s.whole("5 kg");
  const Figures f = s.figures();
  EXPECT_EQ(f.needs, std::vector<Code>{Code::need_primary});
  EXPECT_FALSE(f.yield->cost_per_primary);
}

// The purchase was not weighed in; the invoice says what it cost.
SessionBuilder paid_in_all() {
  SessionBuilder s;
  s.total_of("piece", "100");
  s.pile("portions", Role::primary);
  s.pile("grind", Role::usable_trim, "5", "kg");
  s.read("portions", "6 kg");
  s.read("grind", "2 kg");
  return s;
}

TEST(SessionMoney, AnInvoiceTotalNeedsNoWeightForTheCostOfThePrimaryPart) {
  SessionBuilder s = paid_in_all();
  s.target("portions", "200 g");
  const Figures f = s.figures();
  ASSERT_TRUE(f.yield);
  EXPECT_DOUBLE_EQ(f.yield->by_product_value->in_units(), 10.0);
  EXPECT_DOUBLE_EQ(f.yield->net_cost->in_units(), 90.0);
  EXPECT_NEAR(per_kg(f.yield->cost_per_primary), 15.0, 1e-12);
  EXPECT_NEAR(f.targets.at(0).cost->in_units(), 3.0, 1e-12);
  EXPECT_TRUE(f.needs.empty());
  EXPECT_EQ(f.yield->needs, std::vector<Code>{Code::need_whole_weight});
  EXPECT_FALSE(f.yield->cost_factor || f.yield->price || f.targets.at(0).factor);
  ASSERT_EQ(cost_lines(f).size(), 2u);
}

TEST(SessionMoney, AnInvoiceTotalWithoutPrimaryWeightAsksForThatOnly) {
  SessionBuilder s;
  s.total_of("piece", "100");
  EXPECT_EQ(s.figures().needs, std::vector<Code>{Code::need_primary});
}

TEST(SessionMoney, TheByProductValueNeedsNoPriceAndNoWeightOfThePiece) {
  SessionBuilder s;
  s.price("10", "kg");
  s.pile("grind", Role::usable_trim, "5", "kg");
  s.read("grind", "2 kg");
  const Figures f = s.figures();
  ASSERT_TRUE(f.yield);
  EXPECT_DOUBLE_EQ(f.yield->by_product_value->in_units(), 10.0);
  EXPECT_FALSE(f.yield->net_cost);
  EXPECT_EQ(f.needs, (std::vector<Code>{Code::need_whole_weight, Code::need_primary}));
}

TEST(SessionMoney, ReadyCutToTheSameTrimNeedsTheQuoteAndItsYieldOnly) {
  SessionBuilder s;
  s.ready_cut("19", "kg", "95 %");
  const Figures f = s.figures();
  EXPECT_NEAR(per_kg(f.ready_cut_same_trim), 20.0, 1e-12);
  EXPECT_FALSE(f.make_or_buy);
  EXPECT_NE(report_json(f).find("\"ready_cut_same_trim_per_g\":0.02"), std::string::npos);
}

TEST(SessionMoney, OnlyTheBreakEvenPurchasePriceNeedsTheWeightOfThePiece) {
  SessionBuilder s = paid_in_all();
  s.setting("wage", "30");
  s.labour("30");
  s.ready_cut("19", "kg", "95 %");
  const Figures f = s.figures();
  ASSERT_TRUE(f.make_or_buy && f.make_or_buy->saving);
  EXPECT_NEAR(f.make_or_buy->saving->in_units(), 15.0, 1e-12);  // 120 + 10 - 100 - 15
  EXPECT_FALSE(f.make_or_buy->break_even_ap_price);
  EXPECT_EQ(f.make_or_buy->needs, std::vector<Code>{Code::need_whole_weight});
}

TEST(SessionMoney, APriceOfNothingGivesNoFactor) {
  SessionBuilder s;
  s.whole("5 kg").price("0", "kg");
  s.pile("portions", Role::primary);
  s.read("portions", "4 kg");
  const Figures f = s.figures();
  EXPECT_FALSE(f.yield->cost_factor);
  EXPECT_EQ(f.needs, std::vector<Code>{Code::need_price_not_zero});
}

TEST(SessionMoney, CreditAboveTheCostIsShownAsSuchAndDoubted) {
  SessionBuilder s = ten_kilos();
  s.price_of("pile:waste", "60", "kg");
  const Figures f = s.figures();
  EXPECT_NEAR(f.yield->net_cost->in_units(), -24.0, 1e-12);
  const auto doubts = doubts_of(f, Code::doubt_net_cost_negative);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_EQ(testing::said(doubts[0]), std::vector<std::string>{"-24.00"});
}

TEST(SessionMoney, TwoCurrenciesAreNeverAdded) {
  SessionBuilder s = ten_kilos();
  s.setting("currency", "EUR");
  s.price_of("pile:waste", "4", "kg", "USD");
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(f.yield->by_product_value->in_units(), 10.0);
  const auto doubts = doubts_of(f, Code::doubt_currency_mixed);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_EQ(testing::said(doubts[0]), (std::vector<std::string>{"pile:waste", "USD", "EUR"}));
}

TEST(SessionMoney, LabourIsKnownOnceMinutesAndWageAre) {
  SessionBuilder s = ten_kilos();
  s.labour("20");
  EXPECT_FALSE(s.figures().labour_known);
  s.setting("wage", "30");
  body::Labour timed;
  timed.measured_ms = 600000;
  s.add(std::move(timed));
  const Figures f = s.figures();
  EXPECT_TRUE(f.labour_known);
  EXPECT_DOUBLE_EQ(f.minutes, 30.0);
  EXPECT_DOUBLE_EQ(f.labour->in_units(), 15.0);
  EXPECT_NEAR(*f.yield->cost_factor, 1.5, 1e-12);  // F excludes labour
}

TEST(SessionMoney, MakeOrBuyTakesTheMiscutsToTheBestUsableTrim) {
  SessionBuilder s = ten_kilos();
  s.pile("stew", Role::usable_trim, "7", "kg");
  s.setting("wage", "30");
  s.labour("30");
  s.ready_cut("19", "kg", "95 %");
  const Figures f = s.figures();
  EXPECT_EQ(f.miscut_pile, "stew");
  ASSERT_TRUE(f.make_or_buy && f.make_or_buy->saving);
  EXPECT_NEAR(per_kg(f.make_or_buy->break_even_ready_cut), 17.5, 1e-12);  // (100 + 15 - 10) / 6
  EXPECT_NEAR(per_kg(f.make_or_buy->ready_cut_same_trim), 20.0, 1e-12);
  EXPECT_NEAR(f.make_or_buy->saving->in_units(), 15.0, 1e-12);  // 120 + 10 - 100 - 15
  // (100 + 15 - 10 - 7 x 6) / (20 - 7) kg
  EXPECT_NEAR(f.make_or_buy->primary_at_break_even->in_grams(), 63000.0 / 13.0, 1e-9);
}

TEST(SessionMoney, WithoutAValuedUsableTrimMiscutsAreWorthNothing) {
  SessionBuilder s;
  s.whole("10 kg").price("10", "kg");
  s.pile("portions", Role::primary);
  s.read("portions", "9 kg");
  const Figures f = s.figures();
  EXPECT_EQ(f.miscut_pile, "");
  EXPECT_EQ(f.miscut_value, PricePerMass());
}

TEST(SessionMoney, ATargetIsJudgedBySinglePiecesAndCostedThreeWays) {
  SessionBuilder s = ten_kilos();
  s.target("portions", "200 g", "4 g");
  s.setting("wage", "30");
  s.labour("12");
  s.read("portions", "206 g");
  s.read("portions", "198 g");
  s.read("portions", "596 g", "", 3);
  const Figures f = s.figures();
  const TargetFigures& t = f.targets.at(0);
  EXPECT_EQ(t.portions->grams.n, 3u);  // the 6 kg reading is one piece, too
  EXPECT_EQ(t.not_single, 3u);
  EXPECT_EQ(t.portions->within, 1u);
  const double primary = 7.0;  // 6 + 0.206 + 0.198 + 0.596 kg
  EXPECT_NEAR(t.cost->in_units(), 0.2 * 90.0 / primary, 1e-12);
  EXPECT_NEAR(t.cost_with_labour->in_units(), 0.2 * 96.0 / primary, 1e-12);
  EXPECT_NEAR(t.cost_no_credit->in_units(), 0.2 * 100.0 / primary, 1e-12);
  EXPECT_NEAR(*t.factor, 0.2 * 90.0 / primary / 10.0, 1e-12);
  EXPECT_EQ(t.whole_portions, 35);
}

TEST(SessionMoney, WithoutAToleranceOfItsOwnATargetHasTheImpsBand) {
  SessionBuilder s = ten_kilos();
  s.target("portions", "8 oz");
  // USDA AMS IMPS Series 100, November 2014, s.3.5.1: 6.0 to 12.0 oz, 1/2 oz.
  EXPECT_NEAR(s.figures().targets.at(0).tolerance.in(MassUnit::ounce), 0.5, 1e-12);
}

TEST(SessionMoney, ANewPriceMovesByProductValuesOrLeavesThem) {
  const Figures f = ten_kilos().figures();
  const auto update = price_update(f, PricePerMass::of(Money::units(12.0), MassUnit::kilogram));
  ASSERT_TRUE(update);
  EXPECT_NEAR(update->values_move.per(MassUnit::kilogram), 18.0, 1e-12);
  EXPECT_NEAR(update->values_held.per(MassUnit::kilogram), 110.0 / 6.0, 1e-12);
  EXPECT_FALSE(price_update(Figures{}, PricePerMass()));
}

TEST(SessionMoney, TheGuessBeforeWeighingStandsBesideTheScale) {
  SessionBuilder s = ten_kilos();
  s.add(body::EyeCall{Role::primary, {"65 %", 0.65}});
  const Figures f = s.figures();
  ASSERT_EQ(f.eye_calls.size(), 1u);
  EXPECT_DOUBLE_EQ(f.eye_calls[0].called, 0.65);
  EXPECT_NEAR(*f.eye_calls[0].weighed, 0.6, 1e-12);
}

TEST(Report, NumbersAreTheShortestTextThatReadsBackEqual) {
  EXPECT_EQ(shortest(0.1), "0.1");
  EXPECT_EQ(shortest(-0.0), "0");
  EXPECT_EQ(shortest(1.0 / 3.0), "0.3333333333333333");
  EXPECT_EQ(shortest(0.1 + 0.2), "0.30000000000000004");
  EXPECT_EQ(shortest(453.59237), "453.59237");
  EXPECT_EQ(shortest(5000.0), "5000");
  EXPECT_EQ(shortest(std::nan("")), "null");
}

TEST(Report, AnEmptySessionHasEveryKeyAndNoFigure) {
  const std::string report = report_json(figures_of(EntrySet{}));
  EXPECT_NE(report.find("\"invoice_g\":null"), std::string::npos);
  EXPECT_NE(report.find("\"cost_per_primary_g\":null"), std::string::npos);
  EXPECT_NE(report.find("\"needs\":[\"need.whole-weight\",\"need.price\",\"need.primary\"]"),
            std::string::npos);
}

TEST(Report, TextOfAnyKindIsEscaped) {
  SessionBuilder s;
  s.named("12\" \\ \n ham");
  EXPECT_NE(report_json(s.figures()).find(R"("piece":"12\" \\ \u000a ham")"), std::string::npos);
}

}  // namespace
}  // namespace tallyblock
