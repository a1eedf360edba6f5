#include "core/formulas/ordering.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "core/formulas/prediction.h"
#include "core/formulas/quantities.h"
#include "hostile.h"

namespace tallyblock {
namespace {

Mass g(double value) { return Mass::grams(value); }
Mass kg(double value) { return Mass::of(value, MassUnit::kilogram); }
PricePerMass per_kg(double value) {
  return PricePerMass::of(Money::units(value), MassUnit::kilogram);
}
double a_kg(PricePerMass price) { return price.per(MassUnit::kilogram); }

TEST(OrderAtYield, RoundsUpToWholePacksAndSaysWhatIsLeft) {
  // 40 x 150 g = 6 kg; a piece of 4 kg gives 2.4 kg: three pieces, 1.2 kg over.
  const PackOrder order = *order_at_yield({40, g(150.0)}, 0.6, {kg(4.0), 1, per_kg(20.0)});
  EXPECT_EQ(order.packs, 3u);
  EXPECT_EQ(order.pieces, 3u);
  EXPECT_NEAR(order.bought.in_grams(), 12000.0, 1e-9);
  EXPECT_NEAR(order.needed.in_grams(), 6000.0, 1e-9);
  EXPECT_NEAR(order.expected.in_grams(), 7200.0, 1e-9);
  EXPECT_NEAR(order.left.in_grams(), 1200.0, 1e-9);
  EXPECT_EQ(order.portions_left, 8u);
  EXPECT_NEAR(order.cost->in_units(), 240.0, 1e-9);
  const PackOrder cases = *order_at_yield({40, g(150.0)}, 0.6, {kg(4.0), 2, {}});
  EXPECT_EQ(cases.packs, 2u);
  EXPECT_EQ(cases.pieces, 4u);
  EXPECT_FALSE(cases.cost);
}

TEST(OrderAtYield, IsAbsentForWhatCannotBeOrdered) {
  EXPECT_FALSE(order_at_yield({0, g(150.0)}, 0.6, {kg(4.0), 1, {}}));
  EXPECT_FALSE(order_at_yield({40, Mass()}, 0.6, {kg(4.0), 1, {}}));
  EXPECT_FALSE(order_at_yield({40, g(150.0)}, 0.0, {kg(4.0), 1, {}}));
  EXPECT_FALSE(order_at_yield({40, g(150.0)}, 1.1, {kg(4.0), 1, {}}));
  EXPECT_FALSE(order_at_yield({40, g(150.0)}, 0.6, {Mass(), 1, {}}));
  EXPECT_FALSE(order_at_yield({40, g(150.0)}, 0.6, {kg(4.0), 0, {}}));
  EXPECT_FALSE(order_at_yield({40, g(150.0)}, 0.6, {g(0.001), 1, {}}));  // six million pieces
}

TEST(OrderFromLog, AtEvenChancesIsTheOrderAtTheMean) {
  const Spread each = spread_of({2300.0, 2400.0, 2500.0});
  const PackOrder order = *order_from_log({40, g(150.0)}, each, {kg(4.0), 1, per_kg(20.0)}, 0.5);
  EXPECT_EQ(order.pieces, 3u);
  EXPECT_NEAR(order.left.in_grams(), 1200.0, 1e-9);
  EXPECT_NEAR(order.counted_on.in_grams(), 7200.0, 1e-6);
  EXPECT_NEAR(order.cost->in_units(), 240.0, 1e-9);
}

TEST(OrderFromLog, IsTheFewestPiecesThatAreSureToReach) {
  test::Hostile random(61);
  int found = 0, none = 0;
  for (int i = 0; i < 1500; ++i) {
    std::vector<double> grams(random.pick(9) + 3);
    for (double& value : grams) value = random.between(1000.0, 3000.0);
    const Spread each = spread_of(grams);
    const Needed needed{random.pick(300) + 1, g(random.between(60.0, 400.0))};
    const Pack pack{kg(random.between(2.0, 6.0)), random.pick(4) + 1, {}};
    const double confidence = random.between(0.5, 0.99);
    const auto order = order_from_log(needed, each, pack, confidence);
    const double wanted = double(needed.portions) * needed.portion.in_grams();
    const auto sure = [&](std::size_t packs) {
      const std::size_t m = packs * pack.pieces;
      return double(m) * *lower_prediction_bound(each, m, confidence);
    };
    if (!order) {
      ++none;
      // Even many pieces are counted on for nothing: the bound of their mean is not above 0.
      ASSERT_LT(sure(kMostPiecesOrdered / pack.pieces), wanted);
      continue;
    }
    ++found;
    std::size_t fewest = 1;  // one by one
    while (sure(fewest) < wanted) ++fewest;
    ASSERT_EQ(order->packs, fewest);
    ASSERT_NEAR(order->counted_on.in_grams(), sure(fewest), 1e-6);
    ASSERT_GE(order->left.in_grams(), -1e-6);
  }
  EXPECT_GT(found, 1000);
  EXPECT_GT(none, 0);
}

TEST(OrderFromLog, YieldsAtAPieceWeightAreTheSameSpread) {
  const std::vector<double> yields{0.58, 0.61, 0.63, 0.60};
  std::vector<double> grams = yields;
  for (double& value : grams) value *= 4200.0;
  const Spread a = scaled(spread_of(yields), 4200.0), b = spread_of(grams);
  EXPECT_NEAR(a.mean, b.mean, 1e-9);
  EXPECT_NEAR(*a.s, *b.s, 1e-9);
  EXPECT_NEAR(a.median, b.median, 1e-9);
  EXPECT_NEAR(a.smallest, b.smallest, 1e-9);
  EXPECT_NEAR(a.largest, b.largest, 1e-9);
  EXPECT_EQ(a.n, 4u);
}

TEST(OrderFromLog, NeedsThreePiecesAndPromisesNothingOfAWildLog) {
  const Pack pack{kg(4.0), 1, {}};
  EXPECT_FALSE(order_from_log({40, g(150.0)}, spread_of({2300.0, 2400.0}), pack, 0.9));
  EXPECT_FALSE(order_from_log({40, g(150.0)}, spread_of({10.0, 2400.0, 9000.0}), pack, 0.99));
  const Spread each = spread_of({2300.0, 2400.0, 2350.0});
  EXPECT_TRUE(order_from_log({40, g(150.0)}, each, pack, 0.9));
  EXPECT_FALSE(order_from_log({40, g(150.0)}, each, pack, 1.0));
  EXPECT_FALSE(order_from_log({40, g(150.0)}, each, pack, 0.4));
  EXPECT_FALSE(order_from_log({0, g(150.0)}, each, pack, 0.9));
}

// Pieces of scattered weight and yield, eight in the log: what is ordered is enough as often as said,
// or oftener, because orders are whole pieces.
TEST(OrderFromLog, IsEnoughAtLeastAsOftenAsItSays) {
  std::mt19937 random(40150);
  std::normal_distribution<double> weight(4200.0, 300.0), yield(0.62, 0.03);
  const auto piece = [&] { return weight(random) * yield(random); };
  const int runs = 10000;
  for (const double confidence : {0.8, 0.9, 0.95}) {
    int enough = 0;
    for (int i = 0; i < runs; ++i) {
      std::vector<double> log(8);
      for (double& value : log) value = piece();
      const PackOrder order =
          *order_from_log({80, g(150.0)}, spread_of(log), {kg(4.2), 1, {}}, confidence);
      double got = 0.0;
      for (std::size_t k = 0; k < order.pieces; ++k) got += piece();
      enough += got >= 12000.0 ? 1 : 0;
    }
    const double error = std::sqrt(confidence * (1.0 - confidence) / runs);
    EXPECT_GE(enough / double(runs), confidence - 3.0 * error) << confidence;
  }
}

// Invented: whole, trimmed, ready-cut.
std::vector<Offer> three() {
  return {{per_kg(18.0), 0.60, per_kg(1.5), per_kg(1.2)},
          {per_kg(24.0), 0.80, per_kg(0.5), per_kg(0.8)},
          {per_kg(33.0), 1.00, {}, {}}};
}

TEST(RankOffers, CheapestPortionFirst) {
  const auto ranked = *rank_offers(three(), g(200.0));
  ASSERT_EQ(ranked.size(), 3u);
  EXPECT_EQ(ranked[0].offer, 0u);
  EXPECT_NEAR(a_kg(ranked[0].per_portions), 17.7 / 0.6, 1e-9);
  EXPECT_NEAR(ranked[0].per_portion.in_units(), 0.2 * 17.7 / 0.6, 1e-9);
  EXPECT_EQ(ranked[1].offer, 1u);
  EXPECT_NEAR(a_kg(ranked[1].per_portions), 24.3 / 0.8, 1e-9);
  EXPECT_EQ(ranked[2].offer, 2u);
  // The whole piece leads until it costs 24.3 / 0.8 x 0.6 + 0.3, or yields 17.7 / 30.375.
  EXPECT_NEAR(a_kg(*ranked[0].flips_at_price), 24.3 / 0.8 * 0.6 + 0.3, 1e-9);
  EXPECT_NEAR(*ranked[0].flips_at_yield, 17.7 / (24.3 / 0.8), 1e-12);
  EXPECT_NEAR(a_kg(*ranked[2].flips_at_price), 17.7 / 0.6, 1e-9);
  EXPECT_FALSE(ranked[2].flips_at_yield);  // would have to yield more than it weighs
}

TEST(RankOffers, EqualOnesKeepTheirPlaces) {
  const Offer same{per_kg(20.0), 0.5, {}, {}};
  const auto ranked = *rank_offers({same, same, {per_kg(10.0), 0.5, {}, {}}, same}, g(100.0));
  EXPECT_EQ(ranked[0].offer, 2u);
  EXPECT_EQ(ranked[1].offer, 0u);
  EXPECT_EQ(ranked[2].offer, 1u);
  EXPECT_EQ(ranked[3].offer, 3u);
}

TEST(RankOffers, IsAbsentForWhatCannotBeCompared) {
  EXPECT_FALSE(rank_offers({}, g(100.0)));
  EXPECT_FALSE(rank_offers(std::vector<Offer>(5, three()[0]), g(100.0)));
  EXPECT_FALSE(rank_offers({{per_kg(20.0), 0.0, {}, {}}}, g(100.0)));
  EXPECT_FALSE(rank_offers({{per_kg(20.0), 1.01, {}, {}}}, g(100.0)));
  const auto alone = *rank_offers({three()[0]}, g(100.0));
  EXPECT_FALSE(alone[0].flips_at_price || alone[0].flips_at_yield);
}

// Who leads when the offer in question is changed a little to either side of where it says it flips?
TEST(RankOffers, TheOrderFlipsWhereItSays) {
  test::Hostile random(62);
  int prices = 0, yields = 0;
  for (int i = 0; i < 3000; ++i) {
    std::vector<Offer> offers(random.pick(3) + 2);
    for (Offer& o : offers) {
      o = {per_kg(random.between(5.0, 40.0)), random.between(0.4, 1.0),
           per_kg(random.between(0.0, 2.0)), per_kg(random.between(0.0, 2.0))};
    }
    const auto ranked = *rank_offers(offers, g(200.0));
    ASSERT_TRUE(std::is_sorted(ranked.begin(), ranked.end(), [](const auto& a, const auto& b) {
      return a.per_portion < b.per_portion;
    }));
    const auto leads = [&](std::size_t place, const Offer& changed) {
      std::vector<Offer> other = offers;
      other[place] = changed;
      return (*rank_offers(other, g(200.0)))[0].offer == place;
    };
    for (const RankedOffer& r : ranked) {
      Offer changed = offers[r.offer];
      if (r.flips_at_price) {
        ++prices;
        changed.price = *r.flips_at_price * (1.0 - 1e-6);
        ASSERT_TRUE(leads(r.offer, changed));
        changed.price = *r.flips_at_price * (1.0 + 1e-6);
        ASSERT_FALSE(leads(r.offer, changed));
      }
      if (r.flips_at_yield && *r.flips_at_yield < 0.999) {
        ++yields;
        changed = offers[r.offer];
        changed.yield = *r.flips_at_yield * (1.0 + 1e-6);
        ASSERT_TRUE(leads(r.offer, changed));
        changed.yield = *r.flips_at_yield * (1.0 - 1e-6);
        ASSERT_FALSE(leads(r.offer, changed));
      }
    }
  }
  EXPECT_GT(prices, 1000);
  EXPECT_GT(yields, 1000);
}

TEST(Ordering, HostileNumbersNeverGiveANonNumber) {
  test::Hostile random(63);
  using test::finite;
  int orders = 0, ranks = 0;
  const auto check = [&](const std::optional<PackOrder>& order) {
    if (!order) return true;
    ++orders;
    return finite(order->bought) && finite(order->needed) && finite(order->counted_on) &&
           finite(order->expected) && finite(order->left) && finite(order->cost) &&
           order->pieces <= kMostPiecesOrdered;
  };
  for (int i = 0; i < 10000; ++i) {
    std::vector<double> values(random.pick(6));
    for (double& value : values) value = random.coin() ? random.number() : random.between(1, 9);
    const Needed needed{random.coin() ? static_cast<std::size_t>(-1) : random.pick(500),
                        random.mass()};
    const Pack pack{random.mass(), random.coin() ? random.pick(9) : static_cast<std::size_t>(-1),
                    random.price()};
    const double share = random.coin() ? random.number() : random.between(0.0, 1.0);
    const Spread spread = scaled(spread_of(values), random.number());
    ASSERT_TRUE(finite(spread.mean) && finite(spread.s) && finite(spread.largest));
    ASSERT_TRUE(check(order_from_log(needed, spread, pack, share)));
    ASSERT_TRUE(check(order_at_yield(needed, share, pack)));
    std::vector<Offer> offers(random.pick(5));
    for (Offer& o : offers) {
      o = {random.price(), random.between(0.0, 1.0), random.price(), random.price()};
    }
    const auto ranked = rank_offers(offers, random.mass());
    if (!ranked) continue;
    ++ranks;
    for (const RankedOffer& r : *ranked) {
      ASSERT_TRUE(finite(r.per_portions) && finite(r.per_portion));
      ASSERT_TRUE(finite(r.flips_at_price) && finite(r.flips_at_yield));
    }
  }
  EXPECT_GT(orders, 50);
  EXPECT_GT(ranks, 200);
}

}  // namespace
}  // namespace tallyblock
