#include "quantities.h"

#include <algorithm>
#include <cmath>

#include "core/base/finite.h"
#include "core/base/rounding.h"

namespace tallyblock {
namespace {

// A count no kitchen reaches; keeps every count inside a long of 32 bits.
constexpr double kMostCounted = 1e9;

long count_of(double whole) { return static_cast<long>(std::clamp(whole, 0.0, kMostCounted)); }

}  // namespace

long portions_from(Mass weight, double yield, Mass portion) {
  const auto portions = ratio_of((weight * yield).in_grams(), portion.in_grams());
  return count_of(std::floor(whole_if_close(portions.value_or(0.0))));
}

Mass to_buy(double portions, Mass portion, double yield) {
  return Mass::grams(ratio_of((portions * portion).in_grams(), yield).value_or(0.0));
}

long packs_to_buy(double portions, Mass portion, double yield, Mass pack) {
  const auto packs = ratio_of(to_buy(portions, portion, yield).in_grams(), pack.in_grams());
  return count_of(round_up_to(packs.value_or(0.0), 1.0));
}

Mass portion_for_cost(Money cost, double cost_factor, PricePerMass price) {
  const double per_gram = (cost_factor * price).per(MassUnit::gram);
  return Mass::grams(ratio_of(cost.in_units(), per_gram).value_or(0.0));
}

Money menu_price(Money portion_cost, Money accompaniments, double surcharge,
                 double food_cost_fraction) {
  const Money dish = (portion_cost + accompaniments) * (1.0 + surcharge);
  return Money::units(ratio_of(dish.in_units(), food_cost_fraction).value_or(0.0));
}

}  // namespace tallyblock
