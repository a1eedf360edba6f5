// Conversions: NIST SP 811 (2008), appendix B.8; exact by the international yard and pound agreement
// of 1959.
#include "core/base/units.h"

#include <gtest/gtest.h>

namespace tallyblock {
namespace {

static_assert(grams_in(MassUnit::gram) == 1.0);
static_assert(grams_in(MassUnit::kilogram) == 1000.0);
static_assert(grams_in(MassUnit::pound) == 453.59237);
static_assert(grams_in(MassUnit::ounce) == 28.349523125);
static_assert(grams_in(MassUnit::ounce) * 16.0 == grams_in(MassUnit::pound));
static_assert(millimetres_in(LengthUnit::millimetre) == 1.0);
static_assert(millimetres_in(LengthUnit::centimetre) == 10.0);
static_assert(millimetres_in(LengthUnit::inch) == 25.4);
static_assert(Mass::of(2.0, MassUnit::kilogram) == Mass::grams(2000.0));
static_assert(Length::of(2.0, LengthUnit::inch) == Length::millimetres(50.8));
static_assert(Mass::grams(1.0) < Mass::grams(2.0));
static_assert(-Mass::grams(3.0) + Mass::grams(5.0) == Mass::grams(2.0));

TEST(Units, OuncesMatchThePublishedExactGrams) {
  // Computed from the exact ounce: 1/4, 1/2, 3/4, 8, 10, 12, 14 and 16 oz.
  EXPECT_EQ(Mass::of(0.25, MassUnit::ounce).in_grams(), 7.08738078125);
  EXPECT_EQ(Mass::of(0.5, MassUnit::ounce).in_grams(), 14.1747615625);
  EXPECT_EQ(Mass::of(0.75, MassUnit::ounce).in_grams(), 21.26214234375);
  EXPECT_EQ(Mass::of(8.0, MassUnit::ounce).in_grams(), 226.796185);
  EXPECT_EQ(Mass::of(10.0, MassUnit::ounce).in_grams(), 283.49523125);
  EXPECT_DOUBLE_EQ(Mass::of(12.0, MassUnit::ounce).in_grams(), 340.1942775);
  EXPECT_DOUBLE_EQ(Mass::of(14.0, MassUnit::ounce).in_grams(), 396.89332375);
  EXPECT_EQ(Mass::of(16.0, MassUnit::ounce).in_grams(), 453.59237);
  EXPECT_EQ(Mass::of(1.0 / 16.0, MassUnit::ounce).in_grams(), 1.7718451953125);
}

TEST(Units, APriceTimesAMassIsMoneyInEveryUnit) {
  const PricePerMass price = PricePerMass::of(Money::units(18.0), MassUnit::kilogram);
  EXPECT_DOUBLE_EQ((price * Mass::grams(250.0)).in_units(), 4.5);
  EXPECT_DOUBLE_EQ((Mass::grams(250.0) * price).in_units(), 4.5);
  EXPECT_DOUBLE_EQ(price.per(MassUnit::gram), 0.018);
  EXPECT_DOUBLE_EQ(price.per(MassUnit::pound), 8.16466266);
  EXPECT_DOUBLE_EQ((Money::units(9.0) / Mass::grams(500.0)).per(MassUnit::kilogram), 18.0);
}

TEST(Units, SumsAndScalesStayWithinTheirKind) {
  Mass mass = Mass::grams(100.0);
  mass += Mass::grams(50.0);
  mass -= Mass::grams(30.0);
  EXPECT_EQ(mass, Mass::grams(120.0));
  EXPECT_EQ(2.0 * mass, mass * 2.0);
  EXPECT_EQ(mass / 2.0, Mass::grams(60.0));
  EXPECT_EQ(mass / Mass::grams(60.0), 2.0);
  EXPECT_EQ(Money::units(3.0) - Money::units(5.0), Money::units(-2.0));
}

}  // namespace
}  // namespace tallyblock
