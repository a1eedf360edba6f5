#include <algorithm>

#include "core/base/finite.h"
#include "core/formulas/quantities.h"
#include "core/session/inside/money.h"

namespace tallyblock {
namespace {

// Own tolerance, else the session's setting (a weight, or "imps"), else the IMPS band.
Mass tolerance_of(const body::Target& target, const Settings& settings) {
  if (target.tolerance) return target.tolerance->mass;
  const auto set = settings.all.find("tolerance");
  if (set != settings.all.end() && set->second != "imps")
    if (auto mass = parse_mass(set->second, "tolerance", Sign::zero_or_more)) return mass->mass;
  return imps_portion_tolerance(target.weight.mass, target.weight.style);
}

void gather_portions(const PileTable& table, std::size_t place, TargetFigures& to) {
  for (const std::size_t i : table.of_pile[place]) {
    const Contribution& c = table.contributions[i];
    if (!c.counts || c.reading == nullptr) continue;
    if (c.reading->habit != Habit::piece && c.reading->habit != Habit::taken_off) continue;
    if (c.reading->count == 1) {
      to.singles.push_back(c.net.value());
    } else {
      to.not_single += c.reading->count;
    }
  }
  if (!to.singles.empty()) to.portions = portions_against(to.singles, to.target, to.tolerance);
}

std::optional<Money> share_of(Money money, Mass portion, Mass primary) {
  const auto share = ratio_of(portion.in_grams(), primary.in_grams());
  if (!share || !std::isfinite((money * *share).in_units())) return std::nullopt;
  return money * *share;
}

void cost_portions(const Figures& figures, TargetFigures& to) {
  const Mass primary = figures.primary.value();
  if (!figures.yield || !figures.yield->cost_per_primary || !figures.yield->net_cost ||
      !figures.yield->cost || !(primary > Mass()))
    return;
  const YieldTest& yield = *figures.yield;
  to.cost = portion_cost(to.target, *yield.cost_per_primary);
  if (to.portions)
    to.over_target_cost = portion_cost(to.portions->over_target, *yield.cost_per_primary);
  if (figures.labour)
    to.cost_with_labour = share_of(*yield.net_cost + *figures.labour, to.target, primary);
  to.cost_no_credit = share_of(*yield.cost, to.target, primary);
  if (yield.cost_factor)
    to.factor = portion_factor(to.target, *yield.cost_factor)
                    .in(figures.settings.price_unit == "lb" ? MassUnit::pound : MassUnit::kilogram);
}

}  // namespace

void judge_targets(const Facts& facts, const PileTable& table, Figures& figures) {
  for (std::size_t place = 0; place < table.piles.size(); ++place) {
    const PileFigures& pile = table.piles[place];
    const auto* target = facts.find<body::Target>("target:" + pile.key);
    if (target == nullptr || !(target->weight.mass > Mass())) continue;
    TargetFigures to;
    to.pile = pile.key;
    to.target = target->weight.mass;
    to.style = target->weight.style;
    to.own_tolerance = target->tolerance.has_value();
    to.tolerance = tolerance_of(*target, figures.settings);
    gather_portions(table, place, to);
    // What was cooked has no cost of its own yet: the raw portions carry it.
    if (pile.counted) cost_portions(figures, to);
    if (pile.weighed.value() > Mass())
      to.whole_portions = portions_from(pile.weighed.value(), 1.0, to.target);
    figures.targets.push_back(std::move(to));
  }
}

void judge_eye_calls(const Facts& facts, Figures& figures) {
  const auto& whole = figures.incoming.as_purchased;
  for (const Role role : {Role::primary, Role::secondary, Role::usable_trim, Role::unusable_trim}) {
    const auto* call = facts.find<body::EyeCall>("eye-call:" + std::string(name_of(role)));
    if (call == nullptr) continue;
    EyeCallFigures eye{role, call->share.value, std::nullopt};
    const Measured& kept = role == Role::primary       ? figures.primary
                           : role == Role::secondary   ? figures.secondary
                           : role == Role::usable_trim ? figures.usable_trim
                                                       : figures.unusable_trim;
    if (whole) eye.weighed = ratio_of(kept.value().in_grams(), whole->value().in_grams());
    figures.eye_calls.push_back(eye);
  }
}

}  // namespace tallyblock
