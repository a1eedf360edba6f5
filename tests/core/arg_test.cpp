#include "core/base/arg.h"

#include <gtest/gtest.h>

#include <type_traits>

namespace tallyblock {
namespace {

TEST(Arg, HoldsItsValueInTheUnitOfItsKind) {
  EXPECT_EQ(Arg(Mass::of(1, MassUnit::kilogram)).mass(), Mass::grams(1000));
  EXPECT_EQ(Arg(Length::of(1, LengthUnit::inch)).length(), Length::millimetres(25.4));
  EXPECT_EQ(Arg(Money::units(9.95)).value(), 9.95);
  EXPECT_EQ(Arg::count(3).value(), 3.0);
  EXPECT_EQ(Arg::share(0.02).value(), 0.02);
  EXPECT_EQ(Arg::minutes(90).value(), 90.0);
  EXPECT_EQ(Arg::celsius(-18).value(), -18.0);
  EXPECT_EQ(Arg::typed("1,5 kg").text(), "1,5 kg");
}

TEST(Arg, IsNoMassAndNoLengthIfItIsOfAnotherKind) {
  EXPECT_EQ(Arg(Length::millimetres(5)).mass(), Mass());
  EXPECT_EQ(Arg(Mass::grams(5)).length(), Length());
  EXPECT_EQ(Arg::number(5).mass(), Mass());
  EXPECT_EQ(Arg(Mass::grams(5)).text(), "");
}

TEST(Arg, IsEqualOnlyToTheSameValueOfTheSameKind) {
  EXPECT_EQ(Arg::name("trim"), Arg::name("trim"));
  EXPECT_NE(Arg::name("trim"), Arg::code("trim"));
  EXPECT_NE(Arg::name("12"), Arg::typed("12"));
  EXPECT_NE(Arg::count(2), Arg::number(2));
  EXPECT_NE(Arg::share(0.5, 0), Arg::share(0.5, 1));
  EXPECT_NE(Arg(Mass::grams(1)), Arg(Money::units(1)));
  EXPECT_NE(Arg(Mass::grams(1)), Arg(Mass::grams(2)));
}

TEST(Arg, IsNotMadeOfATextOrANumberWithoutSayingWhatItIs) {
  static_assert(!std::is_convertible_v<std::string, Arg>);
  static_assert(!std::is_convertible_v<const char*, Arg>);
  static_assert(!std::is_convertible_v<double, Arg>);
  static_assert(!std::is_convertible_v<int, Arg>);
}

TEST(Place, SaysLineEntryByteAndField) {
  EXPECT_EQ(text_of(Place("price-per-mass")), "price-per-mass");
  EXPECT_EQ(text_of(Place::at_byte(0)), "byte 0");
  Place place("seq");
  place.entry = 12;
  EXPECT_EQ(text_of(place), "entry 12, field seq");
  place.line = 3;
  EXPECT_EQ(text_of(place), "line 3, entry 12, field seq");
  place.entry = 0;
  EXPECT_EQ(text_of(place), "line 3, seq");
}

TEST(Place, IsEmptyOnlyWithoutAnything) {
  EXPECT_TRUE(Place().empty());
  EXPECT_FALSE(Place("file").empty());
  EXPECT_FALSE(Place::at_byte(0).empty());
  Place line;
  line.line = 1;
  EXPECT_FALSE(line.empty());
  EXPECT_NE(line, Place());
}

}  // namespace
}  // namespace tallyblock
