// What the keys make of the digits.
#include "web/app/keypad/digits.h"

#include <gtest/gtest.h>

#include "core/typed/typed.h"

namespace tallyblock {
namespace {

std::string typed(std::initializer_list<const char*> keys, KeyRules rules) {
  std::string digits;
  for (const char* key : keys) digits = pressed(digits, key, rules);
  return digits;
}
constexpr KeyRules kPlain = {};
constexpr KeyRules kWeight = {false, true, false};
constexpr KeyRules kPounds = {true, true, false};
constexpr KeyRules kSigned = {false, false, true};

TEST(Digits, TakeOneDecimalMark) {
  EXPECT_EQ(typed({"1", ".", "5", ".", "2"}, kPlain), "1.52");
  EXPECT_EQ(typed({"1", ",", "5", ".", "2"}, kPlain), "1,52");
  EXPECT_EQ(typed({".", "5"}, kPlain), "0.5");
}

TEST(Digits, ComposePoundsAndOunces) {
  EXPECT_EQ(typed({"5", "lb", "8", "space", "1", "/", "2", "oz"}, kPounds), "5 lb 8 1/2 oz");
  EXPECT_EQ(typed({"5", "lb", "8", ".", "5"}, kPounds), "5 lb 8.5");
  EXPECT_EQ(typed({"1", "/", "2", "oz"}, kPounds), "1/2 oz");
}

TEST(Digits, IgnoreAPressThatMakesNoFigure) {
  EXPECT_EQ(typed({"lb", "oz", "/", "space"}, kPounds), "");
  EXPECT_EQ(typed({"5", "lb", "lb", "8", "oz", "7", "oz", "lb"}, kPounds), "5 lb 8 oz");
  EXPECT_EQ(typed({"1", "/", "2", "/", ".", "3"}, kWeight), "1/23");
  EXPECT_EQ(typed({"8", "space", "space", "1", "/", "2"}, kWeight), "8 1/2");
  EXPECT_EQ(typed({"8", "/", "lb"}, kWeight), "8/");
  EXPECT_EQ(typed({"4", "/", "space", "lb", "minus", "x"}, kPlain), "4");
}

TEST(Digits, GoBackByWhatAKeyWrote) {
  EXPECT_EQ(typed({"5", "lb", "back"}, kPounds), "5");
  EXPECT_EQ(typed({"5", "lb", "8", "oz", "back"}, kPounds), "5 lb 8");
  EXPECT_EQ(typed({"5", "lb", "8", "back", "9"}, kPounds), "5 lb 9");
  EXPECT_EQ(typed({"1", "2", "back"}, kPlain), "1");
  EXPECT_EQ(typed({"back"}, kPlain), "");
  EXPECT_EQ(typed({"1", "2", "clear"}, kPlain), "");
}

TEST(Digits, TurnTheSignOnlyWhereItMayBeNegative) {
  EXPECT_EQ(typed({"3", "minus"}, kSigned), "-3");
  EXPECT_EQ(typed({"minus", "3", "minus"}, kSigned), "3");
  EXPECT_EQ(typed({"3", "minus"}, kWeight), "3");
}

TEST(Digits, StopAtTheLongestFigure) {
  std::string digits;
  for (int n = 0; n < 100; ++n) digits = pressed(digits, "7", kPlain);
  EXPECT_EQ(digits.size(), kMostDigits);
}

TEST(Digits, EveryWeightTheyComposeReadsAsMeant) {
  const auto grams = [](const char* digits, const char* unit) {
    const auto mass = parse_mass(weight_text(digits, unit), "weight");
    return mass ? mass->mass.in_grams() : -1.0;
  };
  EXPECT_EQ(grams("450", "g"), 450.0);
  EXPECT_EQ(grams("0,450", "kg"), 450.0);
  EXPECT_DOUBLE_EQ(grams("12.35", "lb"), 12.35 * kGramsPerPound);
  EXPECT_DOUBLE_EQ(grams("8 1/2", "oz"), 8.5 * kGramsPerOunce);
  EXPECT_DOUBLE_EQ(grams("5 lb 8 1/2", "lb-oz"), 88.5 * kGramsPerOunce);
  EXPECT_DOUBLE_EQ(grams("5 lb 8 1/2 oz", "lb-oz"), 88.5 * kGramsPerOunce);
  EXPECT_DOUBLE_EQ(grams("5 lb ", "lb-oz"), 5.0 * kGramsPerPound);
  EXPECT_DOUBLE_EQ(grams("5 lb 8", "kg"), 88.0 * kGramsPerOunce)
      << "digits that name pounds keep them";
}

TEST(Digits, ABareNumberInPoundsAndOuncesIsNotGuessed) {
  const auto mass = parse_mass(weight_text("5", "lb-oz"), "weight");
  ASSERT_FALSE(mass.ok());
  EXPECT_EQ(mass.problem().code, Code::typed_unknown_unit);
}

}  // namespace
}  // namespace tallyblock
