#include "ordering.h"

#include <algorithm>
#include <cmath>

#include "core/base/finite.h"
#include "core/base/sorted.h"
#include "prediction.h"
#include "quantities.h"

namespace tallyblock {
namespace {

constexpr double kEnough = 1.0 - 1e-9;

bool is_yield(double value) { return value > 0.0 && value <= 1.0; }

Mass needed_weight(const Needed& needed) {
  return static_cast<double>(needed.portions) * needed.portion;
}

bool possible(const Needed& needed, const Pack& pack) {
  const double grams = needed_weight(needed).in_grams(), piece = pack.piece.in_grams();
  return grams > 0.0 && std::isfinite(grams) && piece > 0.0 && std::isfinite(piece) &&
         pack.pieces > 0 && pack.pieces <= kMostPiecesOrdered;
}

// Weight of portions that `pieces` are counted on for; 0 where there is no bound.
double counted_on(const Spread& grams_each, std::size_t pieces, double confidence) {
  const auto bound = lower_prediction_bound(grams_each, pieces, confidence);
  return bound ? static_cast<double>(pieces) * *bound : 0.0;
}

std::optional<PackOrder> order_of(const Needed& needed, const Pack& pack, std::size_t packs,
                                  Mass sure, Mass expected_each) {
  PackOrder out;
  out.packs = packs;
  out.pieces = packs * pack.pieces;
  const double pieces = static_cast<double>(out.pieces);
  out.bought = pieces * pack.piece;
  out.needed = needed_weight(needed);
  out.counted_on = sure;
  out.expected = pieces * expected_each;
  out.left = out.expected - out.needed;
  out.portions_left =
      static_cast<std::size_t>(std::max(0L, portions_from(out.left, 1.0, needed.portion)));
  if (pack.price) out.cost = out.bought * *pack.price;
  const bool finite = std::isfinite(out.bought.in_grams()) && std::isfinite(out.left.in_grams()) &&
                      std::isfinite(out.cost.value_or(Money()).in_units());
  return finite ? std::optional(out) : std::nullopt;
}

std::optional<double> cost_of(const Offer& offer) {
  if (!is_yield(offer.yield)) return std::nullopt;
  return ratio_of((offer.price - offer.credit + offer.labour).per(MassUnit::gram), offer.yield);
}

// Where `offer` costs `rival` per gram of portions.
void fill_flips(const Offer& offer, double rival, RankedOffer& out) {
  const double price = rival * offer.yield + (offer.credit - offer.labour).per(MassUnit::gram);
  if (price >= 0.0 && std::isfinite(price)) {
    out.flips_at_price = PricePerMass::of(Money::units(price), MassUnit::gram);
  }
  const auto yield =
      ratio_of((offer.price - offer.credit + offer.labour).per(MassUnit::gram), rival);
  if (yield && is_yield(*yield)) out.flips_at_yield = yield;
}

}  // namespace

Spread scaled(const Spread& spread, double factor) {
  Spread out = spread;
  for (double* value : {&out.mean, &out.median, &out.smallest, &out.largest}) {
    *value = finite_or(*value * factor);
  }
  if (out.s && !std::isfinite(*out.s * factor)) {
    out.s.reset();
  } else if (out.s) {
    *out.s *= factor;
  }
  return out;
}

std::optional<PackOrder> order_from_log(const Needed& needed, const Spread& grams_each,
                                        const Pack& pack, double confidence) {
  if (!possible(needed, pack)) return std::nullopt;
  const double enough = needed_weight(needed).in_grams() * kEnough;
  const auto reaches = [&](std::size_t packs) {
    return counted_on(grams_each, packs * pack.pieces, confidence) >= enough;
  };
  const std::size_t most = kMostPiecesOrdered / pack.pieces;
  std::size_t low = 0, high = 1;
  while (!reaches(high)) {
    if (high == most) return std::nullopt;
    low = high;
    high = std::min(2 * high, most);
  }
  while (high - low > 1) {
    const std::size_t middle = low + (high - low) / 2;
    (reaches(middle) ? high : low) = middle;
  }
  const Mass sure = Mass::grams(counted_on(grams_each, high * pack.pieces, confidence));
  return order_of(needed, pack, high, sure, Mass::grams(grams_each.mean));
}

std::optional<PackOrder> order_at_yield(const Needed& needed, double yield, const Pack& pack) {
  if (!possible(needed, pack) || !is_yield(yield)) return std::nullopt;
  const Mass whole = static_cast<double>(pack.pieces) * pack.piece;
  const long packs =
      packs_to_buy(static_cast<double>(needed.portions), needed.portion, yield, whole);
  if (packs <= 0) return std::nullopt;
  const auto count = static_cast<std::size_t>(packs);
  if (count > kMostPiecesOrdered / pack.pieces) return std::nullopt;
  const Mass each = pack.piece * yield;
  return order_of(needed, pack, count, static_cast<double>(count * pack.pieces) * each, each);
}

std::optional<std::vector<RankedOffer>> rank_offers(const std::vector<Offer>& offers,
                                                    Mass portion) {
  if (offers.empty() || offers.size() > kMostOffers) return std::nullopt;
  std::vector<RankedOffer> out;
  for (std::size_t i = 0; i < offers.size(); ++i) {
    const auto cost = cost_of(offers[i]);
    if (!cost) return std::nullopt;
    RankedOffer ranked;
    ranked.offer = i;
    ranked.per_portions = PricePerMass::of(Money::units(*cost), MassUnit::gram);
    ranked.per_portion = portion * ranked.per_portions;
    if (!std::isfinite(ranked.per_portion.in_units())) return std::nullopt;
    out.push_back(ranked);
  }
  heap_sort(out, [](const RankedOffer& a, const RankedOffer& b) {
    return a.per_portions != b.per_portions ? a.per_portions < b.per_portions : a.offer < b.offer;
  });
  if (out.size() < 2) return out;
  for (std::size_t i = 0; i < out.size(); ++i) {
    const double rival = out[i == 0 ? 1 : 0].per_portions.per(MassUnit::gram);
    fill_flips(offers[out[i].offer], rival, out[i]);
  }
  return out;
}

}  // namespace tallyblock
