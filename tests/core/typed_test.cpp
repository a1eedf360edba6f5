#include "core/typed/typed.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <random>

namespace tallyblock {
namespace {

struct Accepted {
  const char* text;
  double grams;  // exact decimal value, rounded once by the compiler
  WeightStyle style;
};

TEST(TypedMass, EveryFormOfWritingAWeightIsAcceptedExactly) {
  const Accepted cases[] = {
      {"450 g", 450.0, WeightStyle::grams},
      {"0,450 kg", 450.0, WeightStyle::kilograms},
      {"0.450 kg", 450.0, WeightStyle::kilograms},
      {"12.35 lb", 5601.8657695, WeightStyle::pounds},
      {"12,35 lb", 5601.8657695, WeightStyle::pounds},
      {"5 lb 8 oz", 2494.758035, WeightStyle::pounds_ounces},
      {"5 lb 8 1/2 oz", 2508.9327965625, WeightStyle::pounds_ounces},
      {"5 lb 8.5 oz", 2508.9327965625, WeightStyle::pounds_ounces},
      {"5 lb 8,5 oz", 2508.9327965625, WeightStyle::pounds_ounces},
      {"8 1/2 oz", 240.9709465625, WeightStyle::ounces},
      {"1/2 oz", 14.1747615625, WeightStyle::ounces},
      {"1/16 oz", 1.7718451953125, WeightStyle::ounces},
      {"5 1/2 lb", 2494.758035, WeightStyle::pounds},
      {".5 lb", 226.796185, WeightStyle::pounds},
      {"0 lb 8 oz", 226.796185, WeightStyle::pounds_ounces},
      {"5 lb 0 oz", 2267.96185, WeightStyle::pounds_ounces},
      {"0 lb 15.99 oz", 453.30887476875, WeightStyle::pounds_ounces},
      {"0450 g", 450.0, WeightStyle::grams},
      {"1000 kg", 1000000.0, WeightStyle::kilograms},
      {"1000000 g", 1000000.0, WeightStyle::grams},
      {"123456.789012345 g", 123456.789012345, WeightStyle::grams},
      {"0.1 g", 0.1, WeightStyle::grams},
      {"0.1 kg", 100.0, WeightStyle::kilograms},
      {"1.005 kg", 1005.0, WeightStyle::kilograms},
  };
  for (const Accepted& c : cases) {
    const auto typed = parse_mass(c.text, "weight");
    ASSERT_TRUE(typed.ok()) << c.text << ": " << key_of(typed.problem().code);
    EXPECT_EQ(typed->mass.in_grams(), c.grams) << c.text;
    EXPECT_EQ(typed->style, c.style) << c.text;
    EXPECT_EQ(typed->text, c.text);
  }
}

TEST(TypedMass, SpacesAndCaseDoNotMatterAndTheTextIsKeptTrimmed) {
  for (const char* text :
       {"450g", " 450 g", "450  g ", "450\tG", "450\u00a0g", "450\u202fg\u00a0"}) {
    const auto typed = parse_mass(text, "weight");
    ASSERT_TRUE(typed.ok()) << text;
    EXPECT_EQ(typed->mass, Mass::grams(450.0));
  }
  EXPECT_EQ(parse_mass(" 450  g ", "weight")->text, "450  g");
  EXPECT_EQ(parse_mass("450 g\u00a0", "weight")->text, "450 g");
  for (const char* text : {"5lb8oz", "5 LB 8 OZ", " 5lb  8 oz", "5 lbs 8oz"}) {
    const auto typed = parse_mass(text, "weight");
    ASSERT_TRUE(typed.ok()) << text;
    EXPECT_EQ(typed->mass.in_grams(), 2494.758035) << text;
  }
}

struct Refused {
  const char* text;
  Code code;
};

TEST(TypedMass, EveryOtherFormIsRefusedWithItsReason) {
  const Refused cases[] = {
      {"", Code::typed_empty},
      {"   ", Code::typed_empty},
      {"\u00a0\t", Code::typed_empty},
      {"-5 g", Code::typed_negative},
      {"\u2212"
       "5 g",
       Code::typed_negative},
      {"-5 lb 3 oz", Code::typed_negative},
      {"0 g", Code::typed_zero},
      {"-0 g", Code::typed_zero},
      {"0.000 kg", Code::typed_zero},
      {"abc", Code::typed_not_a_number},
      {"g", Code::typed_not_a_number},
      {"kg 5", Code::typed_not_a_number},
      {"nan g", Code::typed_not_a_number},
      {"inf g", Code::typed_not_a_number},
      {"+5 g", Code::typed_not_a_number},
      {"--5 g", Code::typed_not_a_number},
      {"5. g", Code::typed_not_a_number},
      {". g", Code::typed_not_a_number},
      {", kg", Code::typed_not_a_number},
      {"1 000 g", Code::typed_not_a_number},
      {"1/0 oz", Code::typed_not_a_number},
      {"81/2 oz", Code::typed_not_a_number},
      {"8 3/2 oz", Code::typed_not_a_number},
      {"2/2 oz", Code::typed_not_a_number},
      {"1/2/3 oz", Code::typed_not_a_number},
      {"1/ oz", Code::typed_not_a_number},
      {"/2 oz", Code::typed_not_a_number},
      {"1/2.5 oz", Code::typed_not_a_number},
      {"1/2000 oz", Code::typed_not_a_number},
      {"8.5 1/2 oz", Code::typed_not_a_number},
      {"5.5 lb 8 oz", Code::typed_not_a_number},
      {"5 1/2 lb 8 oz", Code::typed_not_a_number},
      {"٤٥٠ g", Code::typed_not_a_number},
      {"12", Code::typed_unknown_unit},
      {"12.5", Code::typed_unknown_unit},
      {"12 stone", Code::typed_unknown_unit},
      {"12 mm", Code::typed_unknown_unit},
      {"12 %", Code::typed_unknown_unit},
      {"12 €", Code::typed_unknown_unit},
      {"1e5 g", Code::typed_unknown_unit},
      {"0x10 g", Code::typed_unknown_unit},
      {"12 g g", Code::typed_unknown_unit},
      {"12 kg 5 g", Code::typed_unknown_unit},
      {"8 oz 5 lb", Code::typed_unknown_unit},
      {"5 lb 8", Code::typed_unknown_unit},
      {"5 lb 8 g", Code::typed_unknown_unit},
      {"5 lb 8 oz 3", Code::typed_unknown_unit},
      {"5 lb -8 oz", Code::typed_unknown_unit},
      {"1.2.3 kg", Code::typed_two_marks},
      {"1,2,3 kg", Code::typed_two_marks},
      {"1,234.5 g", Code::typed_two_marks},
      {"1..2 kg", Code::typed_two_marks},
      {"5 lb 8.5.1 oz", Code::typed_two_marks},
      {"5 lb 16 oz", Code::typed_ounces_over},
      {"5 lb 16.01 oz", Code::typed_ounces_over},
      {"5 lb 200 oz", Code::typed_ounces_over},
      {"1000.0001 kg", Code::typed_too_heavy},
      {"1000001 g", Code::typed_too_heavy},
      {"2205 lb", Code::typed_too_heavy},
      {"2204 lb 15 oz", Code::typed_too_heavy},
      {"99999 lb 1 oz", Code::typed_too_heavy},
      {"999999999999999 kg", Code::typed_too_heavy},
      {"1234567890123456 g", Code::typed_too_many_digits},
      {"0.1234567890123456 g", Code::typed_too_many_digits},
      {"1.000000000000000 kg", Code::typed_too_many_digits},
      {"0.00000000000000000000001 kg", Code::typed_too_many_digits},
      {"1234567890123456/2 oz", Code::typed_too_many_digits},
  };
  for (const Refused& c : cases) {
    const auto typed = parse_mass(c.text, "weight");
    ASSERT_FALSE(typed.ok()) << c.text << " gave " << typed->mass.in_grams();
    EXPECT_EQ(typed.problem().code, c.code) << c.text << ": " << key_of(typed.problem().code);
    EXPECT_EQ(typed.problem().where, "weight");
  }
}

TEST(TypedMass, ThousandKilogramsInPoundsIsTheLastAccepted) {
  EXPECT_TRUE(parse_mass("2204.62262184877 lb", "weight").ok());   // just below 1,000 kg
  EXPECT_FALSE(parse_mass("2204.62262184878 lb", "weight").ok());  // just above
  EXPECT_TRUE(parse_mass("2204 lb 9 oz", "weight").ok());
}

TEST(TypedMass, OverlongTextIsRefusedAndQuotedShortInTheProblem) {
  const std::string digits(80, '1');
  const auto typed = parse_mass(digits + " g", "weight");
  ASSERT_FALSE(typed.ok());
  EXPECT_EQ(typed.problem().code, Code::typed_too_long);
  EXPECT_EQ(typed.problem().args, Args{Arg::typed(digits.substr(0, 40))});
  // 39 bytes, then a character of two bytes: it is left out whole, not halved.
  const auto umlaut = parse_mass(std::string(39, 'a') + "\u00e4\u00e4", "weight");
  EXPECT_EQ(umlaut.problem().args[0], Arg::typed(std::string(39, 'a')));
}

TEST(TypedMass, TakenOffMustBeNegativeAndAnySignIsFree) {
  EXPECT_EQ(parse_mass("-215 g", "weight", Sign::negative_only)->mass, Mass::grams(-215.0));
  EXPECT_EQ(parse_mass("- 215 g", "weight", Sign::negative_only)->mass, Mass::grams(-215.0));
  EXPECT_EQ(parse_mass("-1 lb 8 oz", "weight", Sign::negative_only)->mass.in_grams(), -680.388555);
  EXPECT_EQ(parse_mass("215 g", "weight", Sign::negative_only).problem().code,
            Code::typed_must_be_negative);
  EXPECT_EQ(parse_mass("0 g", "weight", Sign::negative_only).problem().code, Code::typed_zero);
  EXPECT_EQ(parse_mass("-1001 kg", "weight", Sign::negative_only).problem().code,
            Code::typed_too_heavy);
  EXPECT_EQ(parse_mass("0 g", "weight", Sign::zero_or_more)->mass, Mass());
  EXPECT_FALSE(std::signbit(parse_mass("-0 g", "weight", Sign::any)->mass.in_grams()));
  EXPECT_EQ(parse_mass("-3 g", "weight", Sign::any)->mass, Mass::grams(-3.0));
  EXPECT_EQ(parse_mass("-3 g", "weight", Sign::zero_or_more).problem().code, Code::typed_negative);
}

TEST(TypedMass, GramsAndPoundsAreTheNearestDoubleOfTheExactDecimal) {
  // The compiler converts decimal text correctly rounded, and so must parse_mass: checked against
  // strtod on the product written out in whole numbers.
  std::mt19937 random(1959);
  std::uniform_int_distribution<long long> hundredths(1, 220000);
  for (int i = 0; i < 20000; ++i) {
    const long long n = hundredths(random);
    const std::string digits = std::to_string(n);
    const std::string typed = std::to_string(n / 100) + "." + std::to_string(n % 100 / 10) +
                              std::to_string(n % 10) + " lb";
    const std::string exact = std::to_string(n * 45359237LL) + "e-7";
    EXPECT_EQ(parse_mass(typed, "weight")->mass.in_grams(), std::strtod(exact.c_str(), nullptr))
        << typed;
  }
}

TEST(TypedMass, RandomBytesAreReadOrRefusedAndNeverGiveANonFiniteWeight) {
  std::mt19937 random(7);
  const std::string alphabet = "0123456789.,/- lbozkg%\t\u00a0\u2212";
  for (int i = 0; i < 200000; ++i) {
    std::string text;
    for (std::size_t n = random() % 14; n > 0; --n) text += alphabet[random() % alphabet.size()];
    const auto typed = parse_mass(text, "weight", Sign::any);
    if (!typed.ok()) continue;
    ASSERT_TRUE(std::isfinite(typed->mass.in_grams())) << text;
    ASSERT_LE(std::fabs(typed->mass.in_grams()), 1e6) << text;
    const auto again = parse_mass(typed->text, "weight", Sign::any);
    ASSERT_TRUE(again.ok() && again->mass == typed->mass && again->text == typed->text) << text;
  }
}

TEST(MassText, ShowsEveryStyleRoundedHalfToEven) {
  const Mass pound = Mass::of(1.0, MassUnit::pound);
  EXPECT_EQ(mass_text(pound, WeightStyle::pounds, 2), "1.00 lb");
  EXPECT_EQ(mass_text(pound, WeightStyle::grams, 0), "454 g");
  EXPECT_EQ(mass_text(pound, WeightStyle::kilograms, 3), "0.454 kg");
  EXPECT_EQ(mass_text(pound, WeightStyle::ounces, 1), "16.0 oz");
  EXPECT_EQ(mass_text(Mass::grams(0.5), WeightStyle::grams, 0), "0 g");
  EXPECT_EQ(mass_text(Mass::grams(1.5), WeightStyle::grams, 0), "2 g");
  EXPECT_EQ(mass_text(Mass::grams(2.5), WeightStyle::grams, 0), "2 g");
  EXPECT_EQ(mass_text(Mass::grams(-0.2), WeightStyle::grams, 0), "0 g");
  EXPECT_EQ(mass_text(parse_mass("5 lb 8.5 oz", "")->mass, WeightStyle::pounds_ounces, 1),
            "5 lb 8.5 oz");
}

TEST(MassText, CarriesSixteenOuncesIntoThePound) {
  const auto text = [](double ounces, int decimals) {
    return mass_text(Mass::of(ounces, MassUnit::ounce), WeightStyle::pounds_ounces, decimals);
  };
  EXPECT_EQ(text(95.96, 1), "6 lb 0.0 oz");
  EXPECT_EQ(text(95.94, 1), "5 lb 15.9 oz");
  EXPECT_EQ(text(-88.5, 1), "-5 lb 8.5 oz");
  EXPECT_EQ(text(15.96, 1), "1 lb 0.0 oz");
}

TEST(MassText, LeavesOutPoundsOfWhichThereAreNone) {
  const auto text = [](double ounces, int decimals) {
    return mass_text(Mass::of(ounces, MassUnit::ounce), WeightStyle::pounds_ounces, decimals);
  };
  EXPECT_EQ(text(5.95, 2), "5.95 oz");
  EXPECT_EQ(text(-0.6, 1), "-0.6 oz");
  EXPECT_EQ(text(0.0, 0), "0 oz");
  EXPECT_EQ(text(-0.01, 1), "0.0 oz");
}

TEST(MassText, ReadsBackAsTheRoundedWeight) {
  std::mt19937 random(811);
  const WeightStyle styles[] = {WeightStyle::grams, WeightStyle::kilograms, WeightStyle::ounces,
                                WeightStyle::pounds, WeightStyle::pounds_ounces};
  const double unit[] = {1.0, 1000.0, kGramsPerOunce, kGramsPerPound, kGramsPerOunce};
  for (int i = 0; i < 20000; ++i) {
    const std::size_t which = random() % 5;
    const int decimals = static_cast<int>(random() % 4);
    const Mass mass = Mass::grams(std::uniform_real_distribution(-900000.0, 900000.0)(random));
    const std::string text = mass_text(mass, styles[which], decimals);
    const auto back = parse_mass(text, "weight", Sign::any);
    ASSERT_TRUE(back.ok()) << text;
    EXPECT_NEAR(back->mass.in_grams(), mass.in_grams(),
                0.5000001 * unit[which] * std::pow(10.0, -decimals))
        << text;
  }
}

}  // namespace
}  // namespace tallyblock
