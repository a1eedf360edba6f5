#include "core/formulas/differences.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/formulas/yield_test.h"
#include "hostile.h"

namespace tallyblock {
namespace {

PricePerMass per_kg(double value) {
  return PricePerMass::of(Money::units(value), MassUnit::kilogram);
}
double a_kg(PricePerMass price) { return price.per(MassUnit::kilogram); }

double sum_of(const CostParts& parts) {
  double sum = a_kg(parts.price) + a_kg(parts.values) + a_kg(parts.labour);
  for (const PricePerMass part : parts.shares) sum += a_kg(part);
  return sum;
}

// Invented: waste, grind, bones.
CostedPiece monday() {
  return {per_kg(20.0),
          per_kg(1.0),
          {PileShare{0.10, per_kg(0.0)}, PileShare{0.20, per_kg(8.0)}, std::nullopt}};
}
CostedPiece friday() {
  return {
      per_kg(21.0),
      per_kg(1.2),
      {PileShare{0.14, per_kg(0.0)}, PileShare{0.17, per_kg(9.0)}, PileShare{0.05, per_kg(1.0)}}};
}

// Up to `piles` piles with shares that always leave portions.
CostedPiece random_piece(test::Hostile& random, std::size_t piles) {
  CostedPiece piece{per_kg(random.between(5.0, 40.0)), per_kg(random.between(0.0, 3.0)), {}};
  for (std::size_t i = 0; i < piles; ++i) {
    if (random.pick(5) == 0) {
      piece.piles.push_back(std::nullopt);
    } else {
      piece.piles.push_back(
          PileShare{random.between(0.0, 0.8 / double(piles)), per_kg(random.between(-1.0, 12.0))});
    }
  }
  return piece;
}

// ---- the same by walking through all orders, written from the definition ------------------------

struct Plain {
  double price, labour;
  std::vector<double> share, value;
};

Plain plain(const CostedPiece& piece, const CostedPiece& other) {
  Plain out{a_kg(piece.price), a_kg(piece.labour), {}, {}};
  for (std::size_t i = 0; i < piece.piles.size(); ++i) {
    const auto& has_value = piece.piles[i] ? piece.piles[i] : other.piles[i];
    out.share.push_back(piece.piles[i] ? piece.piles[i]->share : 0.0);
    out.value.push_back(has_value ? a_kg(has_value->value) : 0.0);
  }
  return out;
}

double cost(const Plain& piece) {
  double paid = piece.price + piece.labour, portions = 1.0;
  for (std::size_t i = 0; i < piece.share.size(); ++i) {
    paid -= piece.share[i] * piece.value[i];
    portions -= piece.share[i];
  }
  return paid / portions;
}

// Causes: price, labour, values, then each pile.
std::vector<double> by_all_orders(const CostedPiece& first, const CostedPiece& second) {
  const Plain from = plain(first, second), to = plain(second, first);
  std::vector<std::size_t> order(3 + from.share.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::vector<double> parts(order.size(), 0.0);
  double orders = 0.0;
  do {
    Plain now = from;
    for (const std::size_t cause : order) {
      const double before = cost(now);
      if (cause == 0) now.price = to.price;
      if (cause == 1) now.labour = to.labour;
      if (cause == 2) now.value = to.value;
      if (cause >= 3) now.share[cause - 3] = to.share[cause - 3];
      parts[cause] += cost(now) - before;
    }
    orders += 1.0;
  } while (std::next_permutation(order.begin(), order.end()));
  for (double& part : parts) part /= orders;
  return parts;
}

TEST(CostOfPortions, IsTheYieldTestsCostPerPrimaryWithLabour) {
  test::Hostile random(41);
  for (int i = 0; i < 3000; ++i) {
    const CostedPiece piece = random_piece(random, 4);
    const Mass whole = Mass::grams(random.between(500.0, 20000.0));
    YieldTestInput input{whole, whole * (piece.price + piece.labour), whole, {}};
    for (const auto& pile : piece.piles) {
      if (!pile) continue;
      input.others.push_back({whole * pile->share, pile->value, true});
      input.primary -= whole * pile->share;
    }
    const double expected = a_kg(*yield_test(input).cost_per_primary);
    ASSERT_NEAR(a_kg(*cost_of_portions(piece)), expected, 1e-9 * std::fabs(expected) + 1e-9);
  }
}

TEST(CostOfPortions, IsAbsentWithoutPortions) {
  CostedPiece piece = monday();
  piece.piles[0]->share = 0.8;
  EXPECT_FALSE(cost_of_portions(piece));
  piece.piles[0]->share = 0.9;
  EXPECT_FALSE(cost_of_portions(piece));
  piece.piles[0]->share = 0.7;
  EXPECT_NEAR(a_kg(*cost_of_portions(piece)), (20.0 - 1.6 + 1.0) / 0.1, 1e-9);
}

TEST(WhatChanged, TwoCausesGetTheMeanOfBothOrders) {
  const CostedPiece a{per_kg(10.0), {}, {PileShare{0.2, {}}}};
  const CostedPiece b{per_kg(12.0), {}, {PileShare{0.4, {}}}};
  // Price first: 2 / 0.8, then share; share first: then price 2 / 0.6.
  const CostDifference d = what_changed(a, b);
  EXPECT_NEAR(a_kg(*d.difference), 12.0 / 0.6 - 10.0 / 0.8, 1e-12);
  EXPECT_NEAR(a_kg(d.parts->price), (2.0 / 0.8 + 2.0 / 0.6) / 2.0, 1e-12);
  EXPECT_NEAR(a_kg(d.parts->shares[0]),
              ((12.0 / 0.6 - 12.0 / 0.8) + (10.0 / 0.6 - 10.0 / 0.8)) / 2.0, 1e-12);
  EXPECT_EQ(d.parts->values, PricePerMass());
  EXPECT_EQ(d.parts->labour, PricePerMass());
  EXPECT_EQ(d.why, NotParted::parted);
  EXPECT_NEAR(d.least_portions, 0.6, 1e-12);
}

TEST(WhatChanged, IsTheMeanOverAllOrders) {
  test::Hostile random(42);
  for (int i = 0; i < 60; ++i) {
    const std::size_t piles = random.pick(5);  // up to 7 causes, 5,040 orders
    const CostedPiece a = random_piece(random, piles), b = random_piece(random, piles);
    const auto expected = by_all_orders(a, b);
    const CostParts parts = *what_changed(a, b).parts;
    ASSERT_NEAR(a_kg(parts.price), expected[0], 1e-9);
    ASSERT_NEAR(a_kg(parts.labour), expected[1], 1e-9);
    ASSERT_NEAR(a_kg(parts.values), expected[2], 1e-9);
    ASSERT_EQ(parts.shares.size(), piles);
    for (std::size_t k = 0; k < piles; ++k) {
      ASSERT_NEAR(a_kg(parts.shares[k]), expected[3 + k], 1e-9);
    }
  }
}

TEST(WhatChanged, PartsAddUpToTheDifference) {
  test::Hostile random(43);
  for (int i = 0; i < 300; ++i) {
    const std::size_t piles = random.pick(10);  // up to 12 causes
    const CostedPiece a = random_piece(random, piles), b = random_piece(random, piles);
    const CostDifference d = what_changed(a, b);
    const double larger = std::fmax(std::fabs(a_kg(*d.first)), std::fabs(a_kg(*d.second)));
    ASSERT_NEAR(a_kg(*d.difference), a_kg(*d.second) - a_kg(*d.first), 1e-12);
    ASSERT_NEAR(sum_of(*d.parts), a_kg(*d.difference), 1e-9 * larger);
  }
}

TEST(WhatChanged, NoCauseIsFavouredByItsPlace) {
  test::Hostile random(44);
  for (int i = 0; i < 200; ++i) {
    CostedPiece a = random_piece(random, 5), b = random_piece(random, 5);
    const CostParts there = *what_changed(a, b).parts, back = *what_changed(b, a).parts;
    ASSERT_NEAR(a_kg(there.price), -a_kg(back.price), 1e-9);
    ASSERT_NEAR(a_kg(there.values), -a_kg(back.values), 1e-9);
    std::reverse(a.piles.begin(), a.piles.end());
    std::reverse(b.piles.begin(), b.piles.end());
    const CostParts turned = *what_changed(a, b).parts;
    ASSERT_NEAR(a_kg(turned.labour), a_kg(there.labour), 1e-9);
    for (std::size_t k = 0; k < 5; ++k) {
      ASSERT_NEAR(a_kg(turned.shares[k]), a_kg(there.shares[4 - k]), 1e-9);
      ASSERT_NEAR(a_kg(back.shares[k]), -a_kg(there.shares[k]), 1e-9);
    }
  }
  // Two piles that changed alike at one value share alike.
  const PileShare before{0.1, per_kg(2.0)}, after{0.2, per_kg(2.0)};
  const CostParts twins =
      *what_changed({per_kg(9.0), {}, {before, before}}, {per_kg(11.0), {}, {after, after}}).parts;
  EXPECT_NEAR(a_kg(twins.shares[0]), a_kg(twins.shares[1]), 1e-12);
}

TEST(WhatChanged, AnAbsentPileIsAShareOfNothingAndNoChangeOfValue) {
  const CostDifference d = what_changed(monday(), friday());
  CostedPiece filled = monday();
  filled.piles[2] = PileShare{0.0, per_kg(1.0)};
  const CostDifference same = what_changed(filled, friday());
  EXPECT_EQ(d.parts->values, same.parts->values);
  EXPECT_EQ(d.parts->shares[2], same.parts->shares[2]);
  EXPECT_GT(a_kg(d.parts->shares[2]), 0.0);
  // Only grind changed its value: what it was worth more is all of that part.
  CostedPiece dearer = monday();
  dearer.piles[1]->value = per_kg(9.0);
  const CostDifference value = what_changed(monday(), dearer);
  EXPECT_NEAR(a_kg(value.parts->values), -0.2 / 0.7, 1e-12);
  // A list that ends earlier has no such pile either.
  CostedPiece shorter = monday();
  shorter.piles.pop_back();
  EXPECT_EQ(what_changed(shorter, friday()).parts->shares[2], d.parts->shares[2]);
}

TEST(WhatChanged, WhatDidNotChangeHasNoPart) {
  CostedPiece other = monday();
  EXPECT_EQ(sum_of(*what_changed(monday(), other).parts), 0.0);
  other.piles[0]->share = 0.15;
  const CostDifference d = what_changed(monday(), other);
  EXPECT_NEAR(a_kg(d.parts->shares[0]), a_kg(*d.difference), 1e-12);
  EXPECT_EQ(d.parts->shares[1], PricePerMass());
  EXPECT_EQ(d.parts->price, PricePerMass());
}

TEST(WhatChanged, SaysWhyThereAreNoParts) {
  CostedPiece none = monday();
  none.piles[0]->share = 0.8;
  EXPECT_EQ(what_changed(none, friday()).why, NotParted::first_has_no_portions);
  EXPECT_EQ(what_changed(friday(), none).why, NotParted::second_has_no_portions);
  EXPECT_FALSE(what_changed(friday(), none).difference);
  EXPECT_TRUE(what_changed(friday(), none).first);

  // Each leaves a fifth, the larger of both shares leave nothing.
  const CostedPiece a{per_kg(10.0), {}, {PileShare{0.1, {}}, PileShare{0.7, {}}}};
  const CostedPiece b{per_kg(10.0), {}, {PileShare{0.7, {}}, PileShare{0.1, {}}}};
  const CostDifference apart = what_changed(a, b);
  EXPECT_EQ(apart.why, NotParted::a_mixture_has_none);
  EXPECT_FALSE(apart.parts);
  EXPECT_TRUE(apart.difference);
  EXPECT_NEAR(apart.least_portions, -0.4, 1e-12);
}

TEST(WhatChanged, AMixtureThatLeavesNextToNothingIsRefusedLikeOneThatLeavesNothing) {
  // The larger of both shares leave `left`.
  const auto why = [](double left) {
    const CostedPiece a{per_kg(10.0), {}, {PileShare{0.2, {}}, PileShare{0.5, {}}}};
    const CostedPiece b{per_kg(10.0), {}, {PileShare{0.5 - left, {}}, PileShare{0.1, {}}}};
    return what_changed(a, b).why;
  };
  EXPECT_EQ(why(0.5e-6), NotParted::a_mixture_has_none);
  EXPECT_EQ(why(2e-6), NotParted::parted);
  // A piece by itself still has its cost.
  const CostedPiece scant{per_kg(10.0), {}, {PileShare{1.0 - 0.5e-6, {}}}};
  EXPECT_TRUE(cost_of_portions(scant));
  EXPECT_EQ(what_changed(scant, monday()).why, NotParted::a_mixture_has_none);
}

TEST(WhatChanged, CountsOnlyCausesThatChangedToTheirLimit) {
  const auto piece = [](double price, std::size_t changed, double share) {
    CostedPiece out{per_kg(price), {}, {}};
    for (std::size_t i = 0; i < 30; ++i) {
      out.piles.push_back(PileShare{i < changed ? share : 0.01, per_kg(3.0)});
    }
    return out;
  };
  const CostDifference twelve = what_changed(piece(10.0, 11, 0.01), piece(11.0, 11, 0.02));
  ASSERT_TRUE(twelve.parts);
  EXPECT_NEAR(sum_of(*twelve.parts), a_kg(*twelve.difference), 1e-9 * a_kg(*twelve.second));
  const CostDifference more = what_changed(piece(10.0, 12, 0.01), piece(11.0, 12, 0.02));
  EXPECT_EQ(more.why, NotParted::too_many_causes);
  EXPECT_FALSE(more.parts);
  EXPECT_TRUE(more.difference);
}

TEST(WhatChanged, HostileNumbersNeverGiveANonNumber) {
  test::Hostile random(45);
  using test::finite;
  const auto hostile = [&] {
    CostedPiece piece{random.price(), random.price(), {}};
    for (std::size_t i = random.pick(6); i > 0; --i) {
      piece.piles.push_back(
          PileShare{random.coin() ? random.number() : random.between(-0.1, 0.3), random.price()});
    }
    return piece;
  };
  int parted = 0;
  for (int i = 0; i < 20000; ++i) {
    const CostDifference d = what_changed(hostile(), hostile());
    ASSERT_TRUE(finite(d.first) && finite(d.second) && finite(d.difference));
    ASSERT_TRUE(finite(d.least_portions));
    ASSERT_EQ(d.parts.has_value(), d.why == NotParted::parted);
    if (!d.parts) continue;
    ++parted;
    ASSERT_TRUE(finite(d.parts->price) && finite(d.parts->values) && finite(d.parts->labour));
    for (const PricePerMass part : d.parts->shares) ASSERT_TRUE(finite(part));
  }
  EXPECT_GT(parted, 500);
}

}  // namespace
}  // namespace tallyblock
