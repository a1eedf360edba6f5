// How much to buy, how many portions, what size for a fixed cost, what to charge.
//
// Sources: Dittmer & Keefe (quantity to buy, portion size for a fixed cost); USDA Food Buying Guide
// (units per 100 servings); selling price by food-cost percentage. Preconditions are stated per
// function; where they do not hold the answer is 0, never infinite. Counts stop at 1,000,000,000.
// Rounding is named where it happens. Does not: order in several sizes of pack at once.
#pragma once
#include "core/base/units.h"

namespace tallyblock {

// Whole portions from weight x yield, rounded down; a count within 1e-9 of a whole counts as whole.
// portion > 0.
long portions_from(Mass weight, double yield, Mass portion);

// Exact AP mass for `portions`; yield in (0, 1].
Mass to_buy(double portions, Mass portion, double yield);

// to_buy rounded UP to whole packs (pieces, cases, divisions) of `pack` > 0: number of packs.
long packs_to_buy(double portions, Mass portion, double yield, Mass pack);

// Portion size that costs `cost` at an AP price: cost / (F x price); F x price > 0.
Mass portion_for_cost(Money cost, double cost_factor, PricePerMass price);

// (portion cost + accompaniments) x (1 + surcharge) / food-cost fraction; fraction in (0, 1].
Money menu_price(Money portion_cost, Money accompaniments, double surcharge,
                 double food_cost_fraction);

}  // namespace tallyblock
