#include "make_or_buy.h"

#include "core/base/finite.h"

namespace tallyblock {
namespace {

constexpr double kMinutesOfAnHour = 60.0;

PricePerMass per_gram(double units) {
  return PricePerMass::of(Money::units(finite_or(units)), MassUnit::gram);
}

// Labour used: as given, else from minutes and wage; says what is missing for it.
Money labour_of(const MakeOrBuyInput& input, std::vector<Code>& needs) {
  if (input.labour) return Money::units(finite_or(input.labour->in_units()));
  if (!input.minutes) needs.push_back(Code::need_minutes);
  if (!input.wage_per_hour) needs.push_back(Code::need_wage);
  if (!input.minutes || !input.wage_per_hour) return Money();
  return labour_cost(*input.minutes, *input.wage_per_hour);
}

// How much of the primary may go to the pile of miscuts before buying it cut would have been cheaper.
void fill_spoiled(const MakeOrBuyInput& input, PricePerMass ready_cut, MakeOrBuy& out) {
  const double gap = (ready_cut - input.miscut_value).per(MassUnit::gram);
  const Money to_recover =
      input.cost + out.labour - input.by_product_value - input.miscut_value * input.primary;
  const auto grams = ratio_of(to_recover.in_units(), gap);
  if (!(gap > 0.0) || !grams) {
    out.needs.push_back(Code::need_prices_apart);
    return;
  }
  const Mass spoiled = input.primary - Mass::grams(*grams);
  const auto share = ratio_of(spoiled / input.primary, 1.0);
  if (!share) return;
  out.primary_at_break_even = Mass::grams(*grams);
  out.may_be_spoiled = spoiled;
  out.spoiled_share_of_primary = share;
}

void fill_break_even_minutes(const MakeOrBuyInput& input, Money worth, MakeOrBuy& out) {
  if (!input.wage_per_hour || !(*input.wage_per_hour > Money())) return;
  const Money left = worth - input.cost;
  const auto hours = ratio_of(left / *input.wage_per_hour, 1.0);
  if (hours && *hours >= 0.0 && std::isfinite(*hours * kMinutesOfAnHour)) {
    out.break_even_minutes = *hours * kMinutesOfAnHour;
  }
}

void fill_comparison(const MakeOrBuyInput& input, PricePerMass ready_cut, MakeOrBuy& out) {
  out.ready_cut_same_trim = ready_cut;
  const Money worth = ready_cut * input.primary + input.by_product_value;
  const Money saving = worth - input.cost - out.labour;
  if (!std::isfinite(saving.in_units())) return;
  out.saving = saving;
  fill_spoiled(input, ready_cut, out);
  if (const auto grams = ratio_of(saving.in_units(), ready_cut.per(MassUnit::gram))) {
    out.may_be_binned = Mass::grams(*grams);
  }
  fill_break_even_minutes(input, worth, out);
  const auto ap_price = ratio_of((worth - out.labour).in_units(), input.as_purchased.in_grams());
  if (input.as_purchased > Mass() && ap_price && *ap_price >= 0.0) {
    out.break_even_ap_price = per_gram(*ap_price);
  }
}

}  // namespace

std::optional<PricePerMass> at_same_trim(PricePerMass ready_cut, double yield) {
  if (!std::isfinite(yield) || yield <= 0.0 || yield > 1.0) return std::nullopt;
  const auto price = ratio_of(ready_cut.per(MassUnit::gram), yield);
  return price ? std::optional(per_gram(*price)) : std::nullopt;
}

Money labour_cost(double minutes, Money wage_per_hour) {
  return Money::units(finite_or(minutes * wage_per_hour.in_units() / kMinutesOfAnHour));
}

MakeOrBuy make_or_buy(const MakeOrBuyInput& input) {
  MakeOrBuy out;
  out.labour = labour_of(input, out.needs);
  out.miscut_value = input.miscut_value;
  if (!(input.primary > Mass()) || !std::isfinite(input.primary.in_grams())) {
    out.needs.push_back(Code::need_primary);
    return out;
  }
  const Money spent = input.cost + out.labour - input.by_product_value;
  out.break_even_ready_cut =
      per_gram(ratio_of(spent.in_units(), input.primary.in_grams()).value_or(0.0));
  const double yield = finite_or(input.ready_cut_yield, 1.0);
  out.break_even_ready_cut_as_quoted =
      per_gram(out.break_even_ready_cut.per(MassUnit::gram) * yield);
  std::optional<PricePerMass> ready_cut;
  if (input.ready_cut) ready_cut = at_same_trim(*input.ready_cut, input.ready_cut_yield);
  if (!ready_cut) {
    out.needs.push_back(Code::need_ready_cut_price);
    return out;
  }
  fill_comparison(input, *ready_cut, out);
  if (!(input.as_purchased > Mass())) out.needs.push_back(Code::need_whole_weight);
  const bool said = !input.labour && !input.wage_per_hour;  // by labour_of
  const bool no_wage = !input.wage_per_hour || !(*input.wage_per_hour > Money());
  if (no_wage && !said) out.needs.push_back(Code::need_wage);
  return out;
}

PricePerMass cost_with_labour_before_yield(PricePerMass price, PricePerMass labour_per_ap,
                                           double yield) {
  const double before_yield = (price + labour_per_ap).per(MassUnit::gram);
  return per_gram(ratio_of(before_yield, yield).value_or(0.0));
}

}  // namespace tallyblock
