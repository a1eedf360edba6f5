// What the worked examples share. "exact" figures are compared to 1e-6 relative to 1 (they are given
// to 6 decimals); "printed" ones to the rounding the source states or shows.
#pragma once
#include <gtest/gtest.h>

#include "core/base/units.h"
#include "core/formulas/yield_test.h"

namespace tallyblock::test {

inline Mass lb(double pounds, double ounces = 0.0) {
  return Mass::of(pounds, MassUnit::pound) + Mass::of(ounces, MassUnit::ounce);
}
inline Mass oz(double ounces) { return Mass::of(ounces, MassUnit::ounce); }
inline Money usd(double dollars) { return Money::units(dollars); }
inline PricePerMass per_lb(double dollars) {
  return PricePerMass::of(usd(dollars), MassUnit::pound);
}
inline double a_lb(PricePerMass price) { return price.per(MassUnit::pound); }
inline double an_oz(PricePerMass price) { return price.per(MassUnit::ounce); }

// One published figure.
struct Figure {
  const char* name;
  double computed;  // by the core
  double exact;     // recomputed exactly from the source's inputs, to 6 decimals
};

inline void expect_exact(std::initializer_list<Figure> figures) {
  for (const Figure& f : figures) EXPECT_NEAR(f.computed, f.exact, 0.6e-6) << f.name;
}

struct Printed {
  const char* name;
  double computed;
  double printed;  // as the source prints it
  double within;   // the source's own rounding
};

inline void expect_printed(std::initializer_list<Printed> figures) {
  for (const Printed& f : figures) EXPECT_NEAR(f.computed, f.printed, f.within) << f.name;
}

}  // namespace tallyblock::test
