// How many whole pieces or cases to order for so many portions, and which form to buy.
//
// Ordering from a log: each comparable piece gave so much weight of portions; that spread holds the
// spread of yields and of piece weights at once, however the two go together. m pieces are counted on
// for m x the lower prediction bound of their mean (prediction.h); the order is the fewest cases whose
// pieces reach what is needed. m x bound is convex in m and starts at 0, so that once it is enough it
// stays enough. Ordering from a yield entered: packs_to_buy of quantities.h, put into the same answer.
// Counts are rounded UP (within 1e-9 of enough counts as enough); nothing else is rounded.
// Portions are raw: for served ones ask raw_needed of cooking.h first. Sources: Dittmer & Keefe
// (quantity to buy); the bound as in prediction.h; the prices at which an order flips: own derivation.
// Does not: take off what each piece leaves short of a whole portion, where the log does not show it;
// mix forms in one order.
#pragma once
#include <cstddef>
#include <optional>
#include <vector>

#include "core/base/units.h"
#include "portions.h"

namespace tallyblock {

struct Needed {
  std::size_t portions = 0;
  Mass portion;  // raw
};

// What is sold: cases of so many pieces (1: the piece itself) of a usual weight, at a last price.
struct Pack {
  Mass piece;
  std::size_t pieces = 1;
  std::optional<PricePerMass> price;
};

struct PackOrder {
  std::size_t packs = 0;
  std::size_t pieces = 0;
  Mass bought;                    // pieces x usual weight
  Mass needed;                    // weight of all portions
  Mass counted_on;                // weight of portions that the order is sure of at its confidence
  Mass expected;                  // at the mean
  Mass left;                      // expected - needed
  std::size_t portions_left = 0;  // whole ones in that
  std::optional<Money> cost;      // bought x price
};

inline constexpr std::size_t kMostPiecesOrdered = 1'000'000;

// `grams_each`: spread_of the weight of portions, in grams, that each comparable piece gave. To order
// pieces of another weight give the spread of the yields times that weight: scaled(yields, grams).
// Absent with fewer than 3 pieces, confidence outside [0.5, 1), nothing needed, a pack of nothing, or
// where no order up to 1,000,000 pieces is sure to be enough: the log scatters too much to promise.
std::optional<PackOrder> order_from_log(const Needed& needed, const Spread& grams_each,
                                        const Pack& pack, double confidence);
Spread scaled(const Spread& spread, double factor);  // factor > 0

// From a yield entered, in (0, 1]: counted on as it is.
std::optional<PackOrder> order_at_yield(const Needed& needed, double yield, const Pack& pack);

// One form to buy. Cost per weight of portions = (price - credit + labour) / yield.
struct Offer {
  PricePerMass price;
  double yield = 1.0;   // weight of portions / weight bought, (0, 1]
  PricePerMass credit;  // value of by-products, per weight bought
  PricePerMass labour;  // per weight bought
};
struct RankedOffer {
  std::size_t offer = 0;  // its place in the list
  PricePerMass per_portions;
  Money per_portion;
  // Where it costs as much as its rival (of the first the second, of the others the first), all else
  // held: its price, 0 or above, and its yield, in (0, 1]. Absent where there is none, or no rival.
  std::optional<PricePerMass> flips_at_price;
  std::optional<double> flips_at_yield;
};
inline constexpr std::size_t kMostOffers = 4;
// Cheapest portion first; of equal ones the earlier. Absent with no offer, more than kMostOffers, one
// of a yield outside (0, 1], or a cost that is not finite.
std::optional<std::vector<RankedOffer>> rank_offers(const std::vector<Offer>& offers, Mass portion);

}  // namespace tallyblock
