// Cut it yourself or buy it cut: labour, break-evens, and how much may be spoiled.
//
//   L = minutes x wage / 60
//   ready-cut price p_cut is first divided by its own yield to the same trim
//   break-even ready-cut price = (C + L - V) / primary
//   saving = p_cut x primary + V - C - L
//   primary at break-even x = (C + L - V0 - v P0) / (p_cut - v); may be spoiled: P0 - x
//   with P0 = primary weighed, V0 = V, v = value of the pile that takes the miscuts
//
// Labour is per session, added after yield. The other convention, labour per AP weight before
// yield, is labour_before_yield. Source: break-even algebra on the yield test (own derivation);
// labour conventions after a food-service training page on rib-eye portion cost (see tests).
#pragma once
#include <optional>
#include <vector>

#include "core/base/problem.h"
#include "core/base/units.h"

namespace tallyblock {

// wage in currency units per hour; minutes >= 0.
Money labour_cost(double minutes, Money wage_per_hour);

// A quoted price divided by its own yield to the same trim; absent for a yield not in (0, 1].
std::optional<PricePerMass> at_same_trim(PricePerMass ready_cut, double yield);

struct MakeOrBuyInput {
  Mass as_purchased;              // W; 0: not weighed, and no break-even AP price
  Money cost;                     // C
  Money by_product_value;         // V
  Mass primary;                   // P0, > 0
  std::optional<Money> labour;    // L; absent: minutes x wage, else 0, and is said
  std::optional<double> minutes;  // for the break-even minutes
  std::optional<Money> wage_per_hour;
  std::optional<PricePerMass> ready_cut;  // as quoted
  double ready_cut_yield = 1.0;           // (0, 1]: its own yield to the same trim
  PricePerMass miscut_value;              // v
};

struct MakeOrBuy {
  Money labour;                                     // L used
  PricePerMass miscut_value;                        // v used
  PricePerMass break_even_ready_cut;                // comparable to ready_cut / yield
  PricePerMass break_even_ready_cut_as_quoted;      // the same x ready_cut_yield
  std::optional<PricePerMass> ready_cut_same_trim;  // ready_cut / yield
  std::optional<Money> saving;                      // > 0: cutting it yourself was cheaper
  std::optional<Mass> primary_at_break_even;        // x; below 0: all of it may be spoiled
  std::optional<Mass> may_be_spoiled;               // P0 - x, may be negative: already behind
  std::optional<double> spoiled_share_of_primary;   // (P0 - x) / P0
  std::optional<Mass> may_be_binned;                // the same if miscuts are worth nothing, v = 0
  std::optional<double> break_even_minutes;         // saving = 0 at this many minutes, >= 0
  std::optional<PricePerMass> break_even_ap_price;  // saving = 0 at this AP price, >= 0
  // need_primary (then nothing but labour is given); need_ready_cut_price (absent, or its yield not in
  // (0, 1]); need_minutes, need_wage (labour counts as 0, or no break-even minutes);
  // need_prices_apart (p_cut not above v: spoiling costs nothing, so x has no meaning);
  // need_whole_weight (no break-even AP price).
  std::vector<Code> needs;
};
MakeOrBuy make_or_buy(const MakeOrBuyInput& input);

// Labour charged per AP weight before yield: (price + labour per AP mass) / yield; yield in (0, 1],
// 0 gives 0.
PricePerMass cost_with_labour_before_yield(PricePerMass price, PricePerMass labour_per_ap,
                                           double yield);

}  // namespace tallyblock
