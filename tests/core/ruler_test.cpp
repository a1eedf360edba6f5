// What the marks of a ruler are called. An inch is 25.4 mm exactly (NIST Handbook 44, appendix C).
#include <gtest/gtest.h>

#include <limits>

#include "core/cutting/ruler.h"
#include "core/typed/typed.h"

namespace tallyblock {
namespace {

Length mm(double value) { return Length::millimetres(value); }

TEST(Ruler, ShowsWholeMillimetresTiesToEven) {
  EXPECT_EQ(ruler_text(mm(41.6), LengthUnit::millimetre), "42 mm");
  EXPECT_EQ(ruler_text(mm(42.5), LengthUnit::millimetre), "42 mm");
  EXPECT_EQ(ruler_text(mm(43.5), LengthUnit::millimetre), "44 mm");
  EXPECT_EQ(ruler_text(mm(-0.2), LengthUnit::millimetre), "0 mm");
}

TEST(Ruler, ShowsTheSameMillimetresInCentimetresWithOneDecimal) {
  EXPECT_EQ(ruler_text(mm(34), LengthUnit::centimetre), "3.4 cm");
  EXPECT_EQ(ruler_text(mm(600), LengthUnit::centimetre), "60.0 cm");
  EXPECT_EQ(ruler_text(mm(42.5), LengthUnit::centimetre), "4.2 cm");  // as 42 mm
  EXPECT_EQ(ruler_text(mm(43.5), LengthUnit::centimetre), "4.4 cm");
  EXPECT_EQ(ruler_text(mm(-0.2), LengthUnit::centimetre), "0.0 cm");
  EXPECT_EQ(ruler_step(LengthUnit::centimetre), mm(1));
}

TEST(Ruler, ShowsSixteenthsInLowestTerms) {
  EXPECT_EQ(ruler_text(mm(25.4), LengthUnit::inch), "1 in");
  EXPECT_EQ(ruler_text(mm(25.4 * 1.5), LengthUnit::inch), "1 1/2 in");
  EXPECT_EQ(ruler_text(mm(25.4 * 5 / 16), LengthUnit::inch), "5/16 in");
  EXPECT_EQ(ruler_text(mm(25.4 * 2.99), LengthUnit::inch), "3 in");
  EXPECT_EQ(ruler_text(mm(0.1), LengthUnit::inch), "0 in");
  EXPECT_EQ(ruler_text(mm(-25.4 * 1.25), LengthUnit::inch), "-1 1/4 in");
}

TEST(Ruler, EveryMarkReadsBackAsItself) {
  for (int marks = 1; marks <= 600; ++marks) {
    for (const LengthUnit ruler :
         {LengthUnit::millimetre, LengthUnit::centimetre, LengthUnit::inch}) {
      const Length length = ruler_step(ruler) * static_cast<double>(marks);
      const auto read = parse_length(ruler_text(length, ruler), "length");
      ASSERT_TRUE(read.ok()) << ruler_text(length, ruler);
      EXPECT_NEAR(read->length.in_millimetres(), length.in_millimetres(), 1e-9);
    }
  }
}

TEST(Ruler, WhatIsNoLengthIsAQuestionMark) {
  EXPECT_EQ(ruler_text(mm(std::numeric_limits<double>::infinity()), LengthUnit::inch), "?");
  EXPECT_EQ(ruler_text(mm(std::numeric_limits<double>::quiet_NaN()), LengthUnit::millimetre), "?");
  EXPECT_EQ(ruler_text(mm(std::numeric_limits<double>::quiet_NaN()), LengthUnit::centimetre), "?");
}

}  // namespace
}  // namespace tallyblock
