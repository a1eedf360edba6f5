// USDA AMS, Institutional Meat Purchase Specifications (IMPS), Fresh Beef Series 100, effective
// November 2014, section 3.5.1: portion weight tolerance by specified weight (read in a document that
// quotes it). Printed: under 6.0 oz (170 g) 1/4 oz (7 g); 6.0 to 12.0 oz (170-340 g) 1/2 oz (14 g);
// 12.01 to 24.0 oz (341-680 g) 3/4 oz (21 g); 24.01 oz (681 g) and over 1 oz (28 g).
#include <gtest/gtest.h>

#include "core/formulas/portions.h"

namespace tallyblock {
namespace {

struct Row {
  const char* specified;
  double tolerance;  // ounces or grams, as specified
};

void expect_rows(std::initializer_list<Row> rows, MassUnit unit) {
  for (const Row& row : rows) {
    const auto typed = parse_mass(row.specified, "target");
    ASSERT_TRUE(typed.ok()) << row.specified;
    EXPECT_DOUBLE_EQ(imps_portion_tolerance(typed->mass, typed->style).in(unit), row.tolerance)
        << row.specified;
  }
}

TEST(Imps, OunceBandsAtAndAroundEachEdge) {
  expect_rows({{"0.5 oz", 0.25},
               {"4 oz", 0.25},
               {"5.99 oz", 0.25},
               {"5 15/16 oz", 0.25},
               {"6 oz", 0.5},
               {"6.01 oz", 0.5},
               {"8 oz", 0.5},
               {"11.99 oz", 0.5},
               {"12 oz", 0.5},
               {"12.01 oz", 0.75},
               {"12.02 oz", 0.75},
               {"16 oz", 0.75},
               {"23.99 oz", 0.75},
               {"24 oz", 0.75},
               {"24.01 oz", 1.0},
               {"24.02 oz", 1.0},
               {"40 oz", 1.0}},
              MassUnit::ounce);
}

TEST(Imps, WhatThePrintedBandsLeaveOpenGoesToTheUpperBand) {
  // 12.00-12.01 and 24.00-24.01 oz are not printed. The rule here: "not over 12 oz" ends the band.
  expect_rows({{"12.005 oz", 0.75}, {"12.0001 oz", 0.75}, {"24.005 oz", 1.0}}, MassUnit::ounce);
  expect_rows({{"340.5 g", 21.0}, {"680.5 g", 28.0}}, MassUnit::gram);
}

TEST(Imps, PoundsAreSpecifiedInOunces) {
  expect_rows({{"0.375 lb", 0.5},  // 6 oz
               {"0.3749 lb", 0.25},
               {"0.75 lb", 0.5},  // 12 oz
               {"3/4 lb", 0.5},
               {"0.7501 lb", 0.75},
               {"1 lb", 0.75},
               {"1.5 lb", 0.75},  // 24 oz
               {"1 lb 8 oz", 0.75},
               {"1 lb 8.01 oz", 1.0},
               {"0 lb 6 oz", 0.5},
               {"0 lb 5.99 oz", 0.25}},
              MassUnit::ounce);
}

TEST(Imps, GramBandsAtAndAroundEachEdge) {
  expect_rows({{"1 g", 7.0},
               {"169 g", 7.0},
               {"169.9 g", 7.0},
               {"170 g", 14.0},
               {"171 g", 14.0},
               {"225 g", 14.0},
               {"339 g", 14.0},
               {"340 g", 14.0},
               {"341 g", 21.0},
               {"500 g", 21.0},
               {"679 g", 21.0},
               {"680 g", 21.0},
               {"681 g", 28.0},
               {"0.170 kg", 14.0},
               {"0.340 kg", 14.0},
               {"0.341 kg", 21.0},
               {"0,680 kg", 21.0},
               {"0.681 kg", 28.0},
               {"1 kg", 28.0}},
              MassUnit::gram);
}

TEST(Imps, TheUnitSpecifiedDecidesNotTheConvertedWeight) {
  // 12 oz is 340.19 g: over 340 g, but specified in ounces, so +/- 1/2 oz.
  const Mass twelve = parse_mass("12 oz", "target")->mass;
  EXPECT_DOUBLE_EQ(imps_portion_tolerance(twelve, WeightStyle::ounces).in_grams(), 14.1747615625);
  EXPECT_DOUBLE_EQ(imps_portion_tolerance(twelve, WeightStyle::grams).in_grams(), 21.0);
  // 170 g is 5.997 oz: under 6 oz, but specified in grams.
  EXPECT_EQ(imps_portion_tolerance(Mass::grams(170.0), WeightStyle::grams).in_grams(), 14.0);
  EXPECT_DOUBLE_EQ(imps_portion_tolerance(Mass::grams(170.0), WeightStyle::ounces).in_grams(),
                   7.08738078125);
}

}  // namespace
}  // namespace tallyblock
