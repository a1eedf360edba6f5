#include "cooking.h"

#include <cmath>

#include "core/base/finite.h"
#include "quantities.h"

namespace tallyblock {
namespace {

bool finite_above_zero(double value) { return value > 0.0 && std::isfinite(value); }

std::optional<double> possible(std::optional<double> kept) {
  return kept && *kept > 0.0 ? kept : std::nullopt;
}

// Absent stays absent; present but not finite makes the whole answer impossible (false).
bool cost_as_served(std::optional<PricePerMass> raw_cost, const CookingInput& input,
                    const Cooking& cooked, std::optional<PricePerMass>& out) {
  if (!raw_cost) return true;
  const Money all = *raw_cost * input.raw + cooked.added - cooked.credit;
  const auto cost = ratio_of(all.in_units(), cooked.served.in_grams());
  if (!cost) return false;
  out = PricePerMass::of(Money::units(*cost), MassUnit::gram);
  return true;
}

bool finite_stage(const CookedStage& stage) {
  return finite_above_zero(stage.after.in_grams()) && std::isfinite(stage.loss_of_raw) &&
         std::isfinite(stage.loss_of_as_purchased.value_or(0.0));
}

}  // namespace

std::optional<double> kept_of(Mass before, Mass after) {
  if (!(before > Mass()) || !(after > Mass())) return std::nullopt;
  return possible(ratio_of(after.in_grams(), before.in_grams()));
}

std::optional<double> kept_less(Mass before, Mass waste) {
  return waste >= Mass() ? kept_of(before, before - waste) : std::nullopt;
}

std::optional<double> kept_at_loss(double loss) { return possible(ratio_of(1.0 - loss, 1.0)); }

std::optional<Cooking> cooking(const CookingInput& input) {
  if (!finite_above_zero(input.raw.in_grams())) return std::nullopt;
  const auto& trim = input.trim_yield;
  const bool trim_possible = !trim || (*trim > 0.0 && *trim <= 1.0);
  if (!trim_possible) return std::nullopt;
  Cooking out;
  out.served = input.raw;
  for (const CookingStage& stage : input.stages) {
    CookedStage cooked;
    cooked.before = out.served;
    cooked.after = out.served * stage.kept;
    cooked.loss = cooked.before - cooked.after;
    cooked.loss_of_raw = cooked.loss / input.raw;
    if (trim) cooked.loss_of_as_purchased = cooked.loss_of_raw * *trim;
    if (!finite_stage(cooked)) return std::nullopt;
    out.served = cooked.after;
    out.added += stage.added;
    out.credit += stage.credit;
    out.stages.push_back(cooked);
  }
  if (!std::isfinite(out.added.in_units()) || !std::isfinite(out.credit.in_units())) {
    return std::nullopt;
  }
  out.served_of_raw = out.served / input.raw;
  if (!std::isfinite(out.served_of_raw)) return std::nullopt;
  if (trim) out.served_of_as_purchased = out.served_of_raw * *trim;
  if (!cost_as_served(input.net, input, out, out.per_served_net) ||
      !cost_as_served(input.no_credit, input, out, out.per_served_no_credit)) {
    return std::nullopt;
  }
  return out;
}

std::optional<Mass> raw_needed(Mass served, const std::vector<CookingStage>& stages) {
  double kept = 1.0;
  for (const CookingStage& stage : stages) {
    if (!(stage.kept > 0.0)) return std::nullopt;
    kept *= stage.kept;
  }
  const auto raw = ratio_of(served.in_grams(), kept);
  return raw && *raw >= 0.0 ? std::optional(Mass::grams(*raw)) : std::nullopt;
}

std::optional<Money> whole_portion_cost(Money cost, Mass served, Mass portion) {
  const auto each =
      ratio_of(cost.in_units(), static_cast<double>(portions_from(served, 1.0, portion)));
  return each ? std::optional(Money::units(*each)) : std::nullopt;
}

}  // namespace tallyblock
