// The butcher's yield test: what a unit of the primary part really cost.
//
//   C = W x price      V = sum of weight x value of every other usable or unusable output
//   N = C - V          u = N / primary        F = u / p, p = C / W
//
// W is the as-purchased (AP) weight, the one the invoice charges for. Where C is the invoice total, V,
// N and the costs per weight of what came out need no W; the ratios, the factors and p do. Source: Dittmer & Keefe,
// "Principles of Food, Beverage, and Labor Cost Controls", 9th ed., butcher test card; Gisslen,
// "Professional Cooking", raw yield test. Credit by value of by-products (production method).
// Figures that cannot be known are absent, with a Code saying why. Nothing is rounded.
// Does not: joint costs of several main products; cooking.
#pragma once
#include <optional>
#include <vector>

#include "core/base/problem.h"
#include "core/base/units.h"

namespace tallyblock {

struct ByProduct {
  Mass weight;
  PricePerMass value;  // negative: a disposal cost
  bool usable = true;  // false: unusable trim
};

struct YieldTestInput {
  Mass as_purchased;              // W; 0: not weighed
  std::optional<Money> cost;      // C, invoice total
  Mass primary;                   // 0: none yet
  std::vector<ByProduct> others;  // every other output
};

struct YieldTest {
  // ratios to W; 0 while it is not known
  double primary_ratio = 0.0;
  double usable_ratio = 0.0;
  Mass usable;  // primary + usable others
  // the three factors
  std::optional<double> factor_nothing_saved;  // W / primary
  std::optional<double> factor_all_usable;     // W / usable
  std::optional<double> cost_factor;           // F; absent when the price is 0
  // money
  std::optional<Money> cost;                     // C
  std::optional<PricePerMass> price;             // p = C / W
  std::optional<Money> by_product_value;         // V
  std::optional<Money> net_cost;                 // N, may be negative (doubt_net_cost_negative)
  std::optional<PricePerMass> cost_per_primary;  // u
  std::optional<PricePerMass> cost_per_primary_no_credit;  // C / primary
  std::optional<PricePerMass> cost_per_usable;             // C / usable, all usable counted alike
  // What is missing for the absent figures: need_whole_weight (W not above 0: no ratio, factor or
  // price per weight), need_price, need_primary (not above 0), need_usable, need_price_not_zero (no
  // factor F).
  std::vector<Code> needs;
};
YieldTest yield_test(const YieldTestInput& input);

// These four give 0 where the product is not finite; figures within the limits of typed.h never are.
// Portion cost = portion weight x u; portion factor = portion cost / p.
Money portion_cost(Mass portion, PricePerMass cost_per_primary);
// Mass-dimensioned ("cost factor per portion" in lb when p is per lb): portion cost / p.
Mass portion_factor(Mass portion, double cost_factor);

// Price update, textbook way: F x new price (by-product values move with the price).
PricePerMass updated_values_move(double cost_factor, PricePerMass new_price);
// Price update with by-product values held: (W p' - V) / primary; 0 if primary is 0.
PricePerMass updated_values_held(Mass as_purchased, PricePerMass new_price, Money by_product_value,
                                 Mass primary);

}  // namespace tallyblock
