#include "core/formulas/make_or_buy.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "hostile.h"

namespace tallyblock {
namespace {

Mass kg(double value) { return Mass::of(value, MassUnit::kilogram); }
PricePerMass per_kg(double value) {
  return PricePerMass::of(Money::units(value), MassUnit::kilogram);
}
bool needs(const MakeOrBuy& answer, Code code) {
  return std::find(answer.needs.begin(), answer.needs.end(), code) != answer.needs.end();
}

// An invented piece: 10 kg for 200, 6 kg primary, 16 of by-products, half an hour at 24 an hour,
// ready-cut at 36, miscuts go to a pile worth 8.
MakeOrBuyInput piece() {
  MakeOrBuyInput input;
  input.as_purchased = kg(10.0);
  input.cost = Money::units(200.0);
  input.by_product_value = Money::units(16.0);
  input.primary = kg(6.0);
  input.labour = Money::units(12.0);
  input.minutes = 30.0;
  input.wage_per_hour = Money::units(24.0);
  input.ready_cut = per_kg(36.0);
  input.miscut_value = per_kg(8.0);
  return input;
}

TEST(MakeOrBuy, LabourIsMinutesTimesWageOverSixty) {
  EXPECT_DOUBLE_EQ(labour_cost(30.0, Money::units(24.0)).in_units(), 12.0);
  EXPECT_DOUBLE_EQ(labour_cost(0.0, Money::units(24.0)).in_units(), 0.0);
}

TEST(MakeOrBuy, AnswersEveryQuestionOfAWholePiece) {
  const MakeOrBuy answer = make_or_buy(piece());
  EXPECT_DOUBLE_EQ(answer.labour.in_units(), 12.0);
  EXPECT_DOUBLE_EQ(answer.break_even_ready_cut.per(MassUnit::kilogram), 196.0 / 6.0);
  EXPECT_DOUBLE_EQ(answer.ready_cut_same_trim->per(MassUnit::kilogram), 36.0);
  EXPECT_NEAR(answer.saving->in_units(), 36.0 * 6.0 + 16.0 - 200.0 - 12.0, 1e-12);
  // x = (200 + 12 - 16 - 8 x 6) / (36 - 8) kg
  EXPECT_NEAR(answer.primary_at_break_even->in(MassUnit::kilogram), 148.0 / 28.0, 1e-12);
  EXPECT_NEAR(answer.may_be_spoiled->in(MassUnit::kilogram), 6.0 - 148.0 / 28.0, 1e-12);
  EXPECT_NEAR(*answer.spoiled_share_of_primary, (6.0 - 148.0 / 28.0) / 6.0, 1e-12);
  // All of the saving is used up by portions thrown away: (216 + 16 - 200 - 12) / 36 kg.
  EXPECT_NEAR(answer.may_be_binned->in(MassUnit::kilogram), 20.0 / 36.0, 1e-12);
  EXPECT_NEAR(*answer.break_even_minutes, (216.0 + 16.0 - 200.0) / 24.0 * 60.0, 1e-9);
  EXPECT_NEAR(answer.break_even_ap_price->per(MassUnit::kilogram), (216.0 + 16.0 - 12.0) / 10.0,
              1e-12);
  EXPECT_TRUE(answer.needs.empty());
}

TEST(MakeOrBuy, EveryBreakEvenBringsTheSavingToZero) {
  test::Hostile random(8);
  for (int i = 0; i < 5000; ++i) {
    MakeOrBuyInput input = piece();
    input.cost = Money::units(random.between(10.0, 500.0));
    input.primary = kg(random.between(1.0, 9.0));
    input.ready_cut = per_kg(random.between(10.0, 90.0));
    input.ready_cut_yield = random.between(0.5, 1.0);
    input.minutes = random.between(0.0, 120.0);
    input.labour = labour_cost(*input.minutes, *input.wage_per_hour);
    const MakeOrBuy answer = make_or_buy(input);

    MakeOrBuyInput at = input;
    at.ready_cut = answer.break_even_ready_cut_as_quoted;
    EXPECT_NEAR(make_or_buy(at).saving->in_units(), 0.0, 1e-9);

    at = input;  // spoil as much as may be spoiled: it goes to the pile of miscuts
    at.primary = *answer.primary_at_break_even;
    at.by_product_value += *answer.may_be_spoiled * input.miscut_value;
    if (at.primary > Mass()) {
      EXPECT_NEAR(make_or_buy(at).saving->in_units(), 0.0, 1e-9);
    }

    if (answer.break_even_minutes) {
      at = input;
      at.labour = labour_cost(*answer.break_even_minutes, *input.wage_per_hour);
      EXPECT_NEAR(make_or_buy(at).saving->in_units(), 0.0, 1e-9);
    }
    if (answer.break_even_ap_price) {
      at = input;
      at.cost = *answer.break_even_ap_price * input.as_purchased;
      EXPECT_NEAR(make_or_buy(at).saving->in_units(), 0.0, 1e-9);
    }
  }
}

TEST(MakeOrBuy, ReadyCutIsDividedByItsOwnYieldToTheSameTrim) {
  MakeOrBuyInput input = piece();
  input.ready_cut_yield = 0.9;
  const MakeOrBuy answer = make_or_buy(input);
  EXPECT_DOUBLE_EQ(answer.ready_cut_same_trim->per(MassUnit::kilogram), 40.0);
  EXPECT_DOUBLE_EQ(answer.break_even_ready_cut_as_quoted.per(MassUnit::kilogram),
                   answer.break_even_ready_cut.per(MassUnit::kilogram) * 0.9);
}

TEST(MakeOrBuy, AlreadyBehindMeansLessThanNothingMayBeSpoiled) {
  MakeOrBuyInput input = piece();
  input.ready_cut = per_kg(25.0);
  const MakeOrBuy answer = make_or_buy(input);
  EXPECT_LT(answer.saving->in_units(), 0.0);
  EXPECT_LT(answer.may_be_spoiled->in_grams(), 0.0);
  EXPECT_FALSE(answer.break_even_minutes);  // no number of minutes makes up for it
}

TEST(MakeOrBuy, MiscutsWorthAsMuchAsReadyCutLeaveNoBreakEven) {
  for (const double value : {36.0, 40.0}) {
    MakeOrBuyInput input = piece();
    input.miscut_value = per_kg(value);
    const MakeOrBuy answer = make_or_buy(input);
    EXPECT_FALSE(answer.may_be_spoiled || answer.primary_at_break_even);
    EXPECT_TRUE(needs(answer, Code::need_prices_apart));
    EXPECT_TRUE(answer.saving);
  }
}

TEST(MakeOrBuy, SaysWhatIsMissing) {
  MakeOrBuyInput input = piece();
  input.ready_cut.reset();
  EXPECT_TRUE(needs(make_or_buy(input), Code::need_ready_cut_price));
  EXPECT_FALSE(make_or_buy(input).saving);
  EXPECT_DOUBLE_EQ(make_or_buy(input).break_even_ready_cut.per(MassUnit::kilogram), 196.0 / 6.0);

  input = piece();
  input.ready_cut_yield = 0.0;
  EXPECT_TRUE(needs(make_or_buy(input), Code::need_ready_cut_price));

  input = piece();
  input.primary = Mass();
  EXPECT_TRUE(needs(make_or_buy(input), Code::need_primary));

  input = piece();
  input.labour.reset();
  EXPECT_DOUBLE_EQ(make_or_buy(input).labour.in_units(), 12.0);  // from minutes and wage
  input.minutes.reset();
  EXPECT_TRUE(needs(make_or_buy(input), Code::need_minutes));
  EXPECT_EQ(make_or_buy(input).labour, Money());
  input.wage_per_hour.reset();
  const MakeOrBuy answer = make_or_buy(input);
  EXPECT_EQ(answer.needs, (std::vector{Code::need_minutes, Code::need_wage}));
  EXPECT_FALSE(answer.break_even_minutes);
}

TEST(MakeOrBuy, LabourBeforeYieldIsDividedByTheYieldToo) {
  EXPECT_DOUBLE_EQ(
      cost_with_labour_before_yield(per_kg(10.0), per_kg(2.0), 0.6).per(MassUnit::kilogram), 20.0);
  EXPECT_EQ(cost_with_labour_before_yield(per_kg(10.0), per_kg(2.0), 0.0), PricePerMass());
}

TEST(MakeOrBuy, HostileNumbersNeverGiveANonNumber) {
  test::Hostile random(9);
  using test::finite;
  for (int i = 0; i < 50000; ++i) {
    MakeOrBuyInput input{random.mass(),   random.money(),  random.money(), random.mass(),
                         random.money(),  random.number(), random.money(), random.price(),
                         random.number(), random.price()};
    if (random.coin()) input.ready_cut_yield = 0.8;
    if (random.coin()) input.labour.reset();
    const MakeOrBuy answer = make_or_buy(input);
    ASSERT_TRUE(finite(answer.labour) && finite(answer.break_even_ready_cut) &&
                finite(answer.break_even_ready_cut_as_quoted));
    ASSERT_TRUE(finite(answer.ready_cut_same_trim) && finite(answer.saving) &&
                finite(answer.primary_at_break_even) && finite(answer.may_be_spoiled) &&
                finite(answer.may_be_binned));
    ASSERT_TRUE(finite(answer.spoiled_share_of_primary) && finite(answer.break_even_minutes) &&
                finite(answer.break_even_ap_price));
    ASSERT_TRUE(finite(labour_cost(random.number(), random.money())));
    ASSERT_TRUE(
        finite(cost_with_labour_before_yield(random.price(), random.price(), random.number())));
  }
}

}  // namespace
}  // namespace tallyblock
