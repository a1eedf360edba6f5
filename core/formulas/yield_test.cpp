#include "yield_test.h"

#include "core/base/finite.h"

namespace tallyblock {
namespace {

std::optional<Money> money(double units) {
  return std::isfinite(units) ? std::optional(Money::units(units)) : std::nullopt;
}

// Price of a gram when `cost` buys `mass`.
std::optional<PricePerMass> price_of(Money cost, Mass mass) {
  const auto per_gram = ratio_of(cost.in_units(), mass.in_grams());
  if (!per_gram) return std::nullopt;
  return PricePerMass::of(Money::units(*per_gram), MassUnit::gram);
}

void need(YieldTest& out, bool missing, Code code) {
  if (missing) out.needs.push_back(code);
}

void fill_weights(const YieldTestInput& input, YieldTest& out) {
  Mass usable = input.primary;
  for (const ByProduct& other : input.others) {
    if (other.usable) usable += other.weight;
  }
  out.usable = Mass::grams(finite_or(usable.in_grams()));
  if (!(input.as_purchased > Mass())) return;
  const Mass w = input.as_purchased;
  out.primary_ratio = finite_or(input.primary / w);
  out.usable_ratio = finite_or(out.usable / w);
  if (input.primary > Mass()) out.factor_nothing_saved = ratio_of(w / input.primary, 1.0);
  if (out.usable > Mass()) out.factor_all_usable = ratio_of(w / out.usable, 1.0);
}

void fill_money(const YieldTestInput& input, Money cost, YieldTest& out) {
  out.cost = money(cost.in_units());
  if (input.as_purchased > Mass()) out.price = price_of(cost, input.as_purchased);
  if (out.usable > Mass()) out.cost_per_usable = price_of(cost, out.usable);
  if (input.primary > Mass()) {
    out.cost_per_primary_no_credit = price_of(cost, input.primary);
  }
  if (!out.by_product_value || !out.cost) return;
  out.net_cost = money((*out.cost - *out.by_product_value).in_units());
  if (!out.net_cost || !(input.primary > Mass())) return;
  out.cost_per_primary = price_of(*out.net_cost, input.primary);
  if (out.cost_per_primary && out.price && *out.price > PricePerMass()) {
    out.cost_factor = ratio_of(*out.cost_per_primary / *out.price, 1.0);
  }
}

}  // namespace

YieldTest yield_test(const YieldTestInput& input) {
  YieldTest out;
  Money by_products;
  for (const ByProduct& other : input.others) by_products += other.weight * other.value;
  out.by_product_value = money(by_products.in_units());
  const bool weighed = input.as_purchased > Mass();
  fill_weights(input, out);
  if (input.cost) fill_money(input, *input.cost, out);
  need(out, !weighed, Code::need_whole_weight);
  need(out, !input.cost, Code::need_price);
  need(out, !(input.primary > Mass()), Code::need_primary);
  need(out, (weighed || input.cost) && !(out.usable > Mass()), Code::need_usable);
  need(out, input.cost && !(*input.cost > Money()), Code::need_price_not_zero);
  return out;
}

Money portion_cost(Mass portion, PricePerMass cost_per_primary) {
  return Money::units(finite_or((portion * cost_per_primary).in_units()));
}

Mass portion_factor(Mass portion, double cost_factor) {
  return Mass::grams(finite_or((portion * cost_factor).in_grams()));
}

PricePerMass updated_values_move(double cost_factor, PricePerMass new_price) {
  const double per_gram = (cost_factor * new_price).per(MassUnit::gram);
  return PricePerMass::of(Money::units(finite_or(per_gram)), MassUnit::gram);
}

PricePerMass updated_values_held(Mass as_purchased, PricePerMass new_price, Money by_product_value,
                                 Mass primary) {
  const Money net = as_purchased * new_price - by_product_value;
  return price_of(net, primary).value_or(PricePerMass());
}

}  // namespace tallyblock
