// Cooking loss: what is served of what was raw, stage by stage, and what it costs as served.
//
//   kept = out / in of each stage (cooking, carving, brine: above 1 is a gain)
//   served = raw x kept of all stages          loss of a stage = in - out, negative for a gain
//   cost per weight served = (cost of raw x raw + what stages add - what they give back) / served
//
// Percentages stand on both bases: the weight that was raw, and the weight as purchased for it (raw /
// trim yield). Money in both conventions: the raw piece at its cost net of by-product credit
// (cost_per_primary of yield_test.h), or at the whole invoice (cost_per_primary_no_credit); what a stage gives
// back is taken off in both. Source:
// Dittmer & Keefe, "Principles of Food, Beverage, and Labor Cost Controls", 9th ed., cooking loss
// test; cooking yield = cooked / raw: USDA Table of Cooking Yields for Meat and Poultry, Release 2.
// Nothing is rounded. Does not: change any figure of the raw piece; say when food is done or safe.
#pragma once
#include <optional>
#include <vector>

#include "core/base/units.h"

namespace tallyblock {

// What a stage keeps: after / before; absent unless both are above 0.
std::optional<double> kept_of(Mass before, Mass after);
// The same where what went off (bones, carving waste) was weighed; waste >= 0 and below `before`.
std::optional<double> kept_less(Mass before, Mass waste);
// The same of a loss typed as a share of what goes in; below 1, negative for a gain.
std::optional<double> kept_at_loss(double loss);

struct CookingStage {
  double kept = 1.0;  // above 0
  Money added;        // brine, marinade, for all of what goes in
  Money credit;       // drippings, stock
};

struct CookingInput {
  Mass raw;                               // what goes into the first stage
  std::optional<double> trim_yield;       // raw / as purchased, (0, 1]
  std::optional<PricePerMass> net;        // cost of raw, by-products credited
  std::optional<PricePerMass> no_credit;  // cost of raw, the whole invoice
  std::vector<CookingStage> stages;
};

struct CookedStage {
  Mass before, after;
  Mass loss;                                   // before - after
  double loss_of_raw = 0.0;                    // loss / raw
  std::optional<double> loss_of_as_purchased;  // loss / (raw / trim yield)
};
struct Cooking {
  std::vector<CookedStage> stages;
  Mass served;
  double served_of_raw = 1.0;
  std::optional<double> served_of_as_purchased;  // the edible portion of what was bought
  Money added, credit;                           // of all stages
  std::optional<PricePerMass> per_served_net, per_served_no_credit;
};
// Absent unless raw and every stage's kept are above 0, the trim yield in (0, 1] where there is one,
// and every figure is finite.
std::optional<Cooking> cooking(const CookingInput& input);

// What has to be raw for `served`, the stages undone; absent where a stage keeps nothing, or below 0.
std::optional<Mass> raw_needed(Mass served, const std::vector<CookingStage>& stages);

// The other convention of a portion's cost: whole portions carry all of it. Absent without one.
std::optional<Money> whole_portion_cost(Money cost, Mass served, Mass portion);

}  // namespace tallyblock
