// Statistical reference sets are in tests/reference; here are the rules and the edges.
#include "core/formulas/portions.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "hostile.h"

namespace tallyblock {
namespace {

Mass oz(double value) { return Mass::of(value, MassUnit::ounce); }
Mass g(double value) { return Mass::grams(value); }
std::vector<Mass> grams(std::initializer_list<double> values) {
  std::vector<Mass> out;
  for (const double value : values) out.push_back(g(value));
  return out;
}

TEST(Spread, OfNoneOneAndTwo) {
  EXPECT_EQ(spread_of({}).n, 0u);
  EXPECT_FALSE(spread_of({}).s);
  const Spread one = spread_of({7.0});
  EXPECT_EQ(one.mean, 7.0);
  EXPECT_EQ(one.median, 7.0);
  EXPECT_FALSE(one.s);
  const Spread two = spread_of({7.0, 9.0});
  EXPECT_EQ(two.mean, 8.0);
  EXPECT_EQ(two.median, 8.0);
  EXPECT_DOUBLE_EQ(*two.s, std::sqrt(2.0));
}

TEST(Spread, MedianAndRangeDoNotDependOnOrder) {
  const Spread odd = spread_of({5.0, 1.0, 4.0, 2.0, 3.0});
  EXPECT_EQ(odd.median, 3.0);
  EXPECT_EQ(odd.smallest, 1.0);
  EXPECT_EQ(odd.largest, 5.0);
  EXPECT_EQ(spread_of({4.0, 1.0, 3.0, 2.0}).median, 2.5);
  EXPECT_EQ(*spread_of({5.5, 5.5, 5.5}).s, 0.0);
}

TEST(Portions, AreCountedWithinShortAndOver) {
  const PortionFigures p =
      portions_against(grams({200.0, 207.0, 193.0, 207.1, 192.9, 230.0}), g(200.0), g(7.0));
  EXPECT_EQ(p.within, 3u);
  EXPECT_EQ(p.overs, 2u);
  EXPECT_EQ(p.shorts, 1u);
  EXPECT_DOUBLE_EQ(p.share_within, 0.5);
  EXPECT_NEAR(p.over_target.in_grams(), 7.0 + 7.1 + 30.0, 1e-9);
  EXPECT_NEAR(p.bias.in_grams(), 1230.0 / 6.0 - 200.0, 1e-9);
}

TEST(Portions, ExactlyOnTheLimitIsWithinInEveryUnit) {
  for (const double ounces : {4.0, 5.3, 8.0, 11.9, 14.1}) {
    const Mass tolerance = imps_portion_tolerance(oz(ounces), WeightStyle::ounces);
    const double half = tolerance.in(MassUnit::ounce);
    const PortionFigures p =
        portions_against({oz(ounces + half), oz(ounces - half)}, oz(ounces), tolerance);
    EXPECT_EQ(p.within, 2u) << ounces;
  }
}

TEST(Portions, EveryPortionIsCountedOnce) {
  test::Hostile random(13);
  for (int i = 0; i < 2000; ++i) {
    std::vector<Mass> portions(random.pick(40));
    for (Mass& portion : portions) portion = g(random.between(150.0, 250.0));
    const PortionFigures p = portions_against(portions, g(200.0), g(random.between(0.0, 30.0)));
    ASSERT_EQ(p.within + p.shorts + p.overs, portions.size());
    ASSERT_EQ(p.grams.n, portions.size());
  }
}

TEST(Portions, CapabilityOnlyFrom25Portions) {
  std::vector<Mass> portions;
  for (int i = 0; i < 24; ++i) portions.push_back(g(i % 2 == 0 ? 198.0 : 202.0));
  EXPECT_FALSE(portions_against(portions, g(200.0), g(14.0)).cp);
  portions.push_back(g(200.0));
  const PortionFigures p = portions_against(portions, g(200.0), g(14.0));
  ASSERT_TRUE(p.cp && p.cpk);
  EXPECT_DOUBLE_EQ(*p.cp, 28.0 / (6.0 * 2.0));
  EXPECT_DOUBLE_EQ(*p.cpk, *p.cp);                                                  // centred
  EXPECT_FALSE(portions_against(std::vector(30, g(200.0)), g(200.0), g(14.0)).cp);  // s = 0
}

TEST(Portions, NoneGiveEmptyFigures) {
  const PortionFigures p = portions_against({}, g(200.0), g(7.0));
  EXPECT_EQ(p.grams.n, 0u);
  EXPECT_EQ(p.bias, Mass());
  EXPECT_EQ(p.share_within, 0.0);
}

TEST(Portions, HostileNumbersNeverGiveANonNumber) {
  test::Hostile random(14);
  using test::finite;
  for (int i = 0; i < 20000; ++i) {
    std::vector<Mass> portions(random.pick(30));
    std::vector<double> values(portions.size());
    for (std::size_t k = 0; k < portions.size(); ++k) {
      portions[k] = random.mass();
      values[k] = random.number();
    }
    if (random.coin()) values.push_back(std::numeric_limits<double>::quiet_NaN());
    if (random.coin()) portions.push_back(g(std::numeric_limits<double>::infinity()));
    const Spread s = spread_of(values);
    ASSERT_TRUE(finite(s.mean) && finite(s.median) && finite(s.smallest) && finite(s.largest) &&
                finite(s.s));
    const PortionFigures p = portions_against(portions, random.mass(), random.mass());
    ASSERT_TRUE(finite(p.grams.mean) && finite(p.grams.s) && finite(p.bias) &&
                finite(p.share_within) && finite(p.over_target) && finite(p.cp) && finite(p.cpk));
    ASSERT_TRUE(finite(imps_portion_tolerance(
        random.mass(), random.coin() ? WeightStyle::grams : WeightStyle::pounds_ounces)));
  }
}

}  // namespace
}  // namespace tallyblock
