// Portion weight tolerance by specified weight.
//
// Source: USDA AMS, Institutional Meat Purchase Specifications (IMPS), Fresh Beef Series 100,
// effective November 2014, section 3.5.1 (read in a document that quotes it). The gram column is as
// printed; it is rounded, so 1/4 oz (7.087 g) is 7 g. Older editions had other bands.
// `up_to` belongs to the band, except that the first band is "under 6.0 oz (170 g)".
#pragma once

namespace tallyblock::data {

struct ToleranceBand {
  double up_to;  // upper end of the band
  bool includes_end;
  double tolerance;  // half-width, in the unit of the column
};

inline constexpr double kNoEnd = 1e300;

// All in ounces.
inline constexpr ToleranceBand kImpsPortionOunces[] = {
    {6.0, false, 0.25}, {12.0, true, 0.5}, {24.0, true, 0.75}, {kNoEnd, true, 1.0}};

// All in grams.
inline constexpr ToleranceBand kImpsPortionGrams[] = {
    {170.0, false, 7.0}, {340.0, true, 14.0}, {680.0, true, 21.0}, {kNoEnd, true, 28.0}};

}  // namespace tallyblock::data
