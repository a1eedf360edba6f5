// Numbers, percentages, minutes, lengths and temperatures as typed.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <random>

#include "core/typed/typed.h"

namespace tallyblock {
namespace {

template <class T>
Code code_of(const Result<T>& result) {
  EXPECT_FALSE(result.ok());
  return result.ok() ? Code::doubt_unknown_kind : result.problem().code;
}

TEST(TypedNumber, PointAndCommaReadAlike) {
  EXPECT_EQ(parse_number("12.50", "price")->value, 12.5);
  EXPECT_EQ(parse_number("12,50", "price")->value, 12.5);
  EXPECT_EQ(parse_number(" 7 ", "price")->text, "7");
  EXPECT_EQ(parse_number("0.07", "price")->value, 0.07);
  EXPECT_EQ(parse_number("0", "price")->value, 0.0);
  EXPECT_EQ(parse_number("1000000000", "price")->value, 1e9);
}

TEST(TypedNumber, RefusalsNameTheReason) {
  EXPECT_EQ(code_of(parse_number("", "price")), Code::typed_empty);
  EXPECT_EQ(code_of(parse_number("-1", "price")), Code::typed_negative);
  EXPECT_EQ(code_of(parse_number("1 1/2", "price")), Code::typed_not_a_number);
  EXPECT_EQ(code_of(parse_number("12 EUR", "price")), Code::typed_not_a_number);
  EXPECT_EQ(code_of(parse_number("1.2.3", "price")), Code::typed_two_marks);
  EXPECT_EQ(code_of(parse_number("1,000.00", "price")), Code::typed_two_marks);
  EXPECT_EQ(code_of(parse_number("1234567890.12345678", "price")), Code::typed_too_many_digits);
  EXPECT_EQ(code_of(parse_number("0", "price", Sign::positive_only)), Code::typed_zero);
  EXPECT_EQ(parse_number("-0.30", "value", Sign::any)->value, -0.3);
  const auto large = parse_number("1000000001", "price");
  EXPECT_EQ(code_of(large), Code::typed_too_large);
  EXPECT_EQ(large.problem().where, "price");
  EXPECT_EQ(large.problem().args, (Args{Arg::typed("1000000001"), Arg::number(1e9)}));
  EXPECT_EQ(code_of(parse_number("-6", "value", Sign::any, 5.0)), Code::typed_too_large);
}

TEST(TypedNumber, IsTheNearestDoubleOfItsDecimals) {
  std::mt19937 random(754);
  for (int i = 0; i < 50000; ++i) {
    const auto digits = std::uniform_int_distribution<long long>(0, 999999999999999LL)(random);
    const std::string text = std::to_string(digits);
    const std::size_t before = random() % 9 + 1;
    if (before >= text.size()) continue;
    const std::string decimal = text.substr(0, before) + "." + text.substr(before);
    EXPECT_EQ(parse_number(decimal, "n")->value, std::strtod(decimal.c_str(), nullptr)) << decimal;
  }
}

TEST(TypedPercent, BecomesAPlainRatio) {
  EXPECT_EQ(parse_percent("62", "share")->value, 0.62);
  EXPECT_EQ(parse_percent("62 %", "share")->value, 0.62);
  EXPECT_EQ(parse_percent("62%", "share")->value, 0.62);
  EXPECT_EQ(parse_percent("2,5 %", "share")->value, 0.025);
  EXPECT_EQ(parse_percent("0", "share")->value, 0.0);
  EXPECT_EQ(parse_percent("100", "share")->value, 1.0);
  EXPECT_EQ(parse_percent("62 %", "share")->text, "62 %");
  EXPECT_EQ(code_of(parse_percent("100.01", "share")), Code::typed_too_large);
  EXPECT_EQ(code_of(parse_percent("-1 %", "share")), Code::typed_negative);
  EXPECT_EQ(code_of(parse_percent("%", "share")), Code::typed_not_a_number);
  EXPECT_EQ(code_of(parse_percent("6 2", "share")), Code::typed_not_a_number);
  EXPECT_EQ(code_of(parse_percent("62 g", "share")), Code::typed_unknown_unit);
  EXPECT_EQ(code_of(parse_percent("62 % x", "share")), Code::typed_unknown_unit);
  EXPECT_EQ(code_of(parse_percent("6.2.1", "share")), Code::typed_two_marks);
}

TEST(TypedMinutes, ReadsMinutesAndHours) {
  EXPECT_EQ(parse_minutes("12", "time")->value, 12.0);
  EXPECT_EQ(parse_minutes("12.5", "time")->value, 12.5);
  EXPECT_EQ(parse_minutes("12,5 min", "time")->value, 12.5);
  EXPECT_EQ(parse_minutes("1:05", "time")->value, 65.0);
  EXPECT_EQ(parse_minutes("0:00", "time")->value, 0.0);
  EXPECT_EQ(parse_minutes("1 h 5 min", "time")->value, 65.0);
  EXPECT_EQ(parse_minutes("1h5min", "time")->value, 65.0);
  EXPECT_EQ(parse_minutes("1 h 5.5 min", "time")->value, 65.5);
  EXPECT_EQ(parse_minutes("1.5 h", "time")->value, 90.0);
  EXPECT_EQ(parse_minutes("0", "time")->value, 0.0);
  EXPECT_EQ(parse_minutes("10000", "time")->value, 10000.0);
}

TEST(TypedMinutes, RefusalsNameTheReason) {
  EXPECT_EQ(code_of(parse_minutes("10001", "time")), Code::typed_too_large);
  EXPECT_EQ(code_of(parse_minutes("167:00", "time")), Code::typed_too_large);
  EXPECT_EQ(code_of(parse_minutes("-5", "time")), Code::typed_negative);
  EXPECT_EQ(code_of(parse_minutes("", "time")), Code::typed_empty);
  for (const char* text :
       {"1:60", "1:5", "1:005", "1.5:05", ":05", "1:", "1 h 60 min", "1.5 h 5 min", "1 2", "h"}) {
    EXPECT_EQ(code_of(parse_minutes(text, "time")), Code::typed_not_a_number) << text;
  }
  for (const char* text : {"5 s", "1 h 5", "1 h 5 s", "5 min x", "1:05 h"}) {
    EXPECT_EQ(code_of(parse_minutes(text, "time")), Code::typed_unknown_unit) << text;
  }
}

TEST(TypedLength, ReadsMillimetresCentimetresAndInches) {
  EXPECT_EQ(parse_length("118 mm", "mark")->length.in_millimetres(), 118.0);
  EXPECT_EQ(parse_length("11.8 cm", "mark")->length.in_millimetres(), 118.0);
  EXPECT_EQ(parse_length("4 5/8 in", "mark")->length.in_millimetres(), 117.475);
  EXPECT_EQ(parse_length("4.625 in", "mark")->length.in_millimetres(), 117.475);
  EXPECT_EQ(parse_length("1/16 in", "mark")->length.in_millimetres(), 1.5875);
  EXPECT_EQ(parse_length("10000 mm", "mark")->length.in_millimetres(), 10000.0);
  EXPECT_EQ(parse_length("4 5/8 in", "mark")->text, "4 5/8 in");
}

TEST(TypedLength, RefusalsNameTheReason) {
  EXPECT_EQ(code_of(parse_length("10000.1 mm", "mark")), Code::typed_too_large);
  EXPECT_EQ(code_of(parse_length("394 in", "mark")), Code::typed_too_large);
  EXPECT_EQ(code_of(parse_length("0 mm", "mark")), Code::typed_zero);
  EXPECT_EQ(code_of(parse_length("-1 mm", "mark")), Code::typed_negative);
  EXPECT_EQ(code_of(parse_length("12", "mark")), Code::typed_unknown_unit);
  EXPECT_EQ(code_of(parse_length("12 m", "mark")), Code::typed_unknown_unit);
  EXPECT_EQ(code_of(parse_length("12 g", "mark")), Code::typed_unknown_unit);
  EXPECT_EQ(code_of(parse_length("4 5 in", "mark")), Code::typed_not_a_number);
}

// C = (F - 32) / 1.8: NIST SP 811 (2008), appendix B.8.
TEST(TypedTemperature, ReadsCelsiusAndFahrenheit) {
  EXPECT_EQ(parse_temperature("3.5 C", "temperature")->value, 3.5);
  EXPECT_EQ(parse_temperature("3,5 \u00b0C", "temperature")->value, 3.5);
  EXPECT_EQ(parse_temperature("-18 c", "temperature")->value, -18.0);
  EXPECT_EQ(parse_temperature("41 F", "temperature")->value, 5.0);
  EXPECT_EQ(parse_temperature("32 F", "temperature")->value, 0.0);
  EXPECT_EQ(parse_temperature("0 F", "temperature")->value, -160.0 / 9.0);
  EXPECT_EQ(parse_temperature("-40 F", "temperature")->value, -40.0);
  EXPECT_EQ(parse_temperature("38 F", "temperature")->value, 10.0 / 3.0);
  EXPECT_EQ(parse_temperature("200 C", "temperature")->value, 200.0);
  EXPECT_EQ(parse_temperature("-100 C", "temperature")->value, -100.0);
}

TEST(TypedTemperature, RefusalsNameTheReason) {
  EXPECT_EQ(code_of(parse_temperature("200.1 C", "t")), Code::typed_too_large);
  EXPECT_EQ(code_of(parse_temperature("-100.1 C", "t")), Code::typed_too_large);
  EXPECT_EQ(code_of(parse_temperature("400 F", "t")), Code::typed_too_large);
  EXPECT_EQ(code_of(parse_temperature("3.5", "t")), Code::typed_unknown_unit);
  EXPECT_EQ(code_of(parse_temperature("3.5 K", "t")), Code::typed_unknown_unit);
  EXPECT_EQ(code_of(parse_temperature("3 5 C", "t")), Code::typed_not_a_number);
  EXPECT_EQ(code_of(parse_temperature("cold", "t")), Code::typed_not_a_number);
}

}  // namespace
}  // namespace tallyblock
