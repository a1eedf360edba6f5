// Against the C library, which is not loaded in the browser.
#include "core/base/decimal.h"

#include <gtest/gtest.h>

#include <bit>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <limits>
#include <random>
#include <string>
#include <vector>

namespace tallyblock {
namespace {

std::string printed(const char* format, int precision, double value) {
  std::string text(2000, '\0');
  const int length = std::snprintf(text.data(), text.size(), format, precision, value);
  text.resize(static_cast<std::size_t>(length));
  return text;
}

void expect_as_the_library(double value) {
  for (const int decimals : {0, 1, 2, 3, 9, 20}) {
    ASSERT_EQ(fixed_digits(value, decimals), printed("%.*f", decimals, value));
  }
  for (const int digits : {1, 2, 9, 17, 25}) {
    ASSERT_EQ(general_digits(value, digits), printed("%.*g", digits, value));
  }
}

void expect_read_as_the_library(const std::string& text) {
  char* end = nullptr;
  const double expected = std::strtod(text.c_str(), &end);
  const ReadDecimal read = read_decimal(text);
  ASSERT_EQ(std::bit_cast<std::uint64_t>(read.value), std::bit_cast<std::uint64_t>(expected))
      << text;
  ASSERT_EQ(read.used, static_cast<std::size_t>(end - text.c_str())) << text;
}

std::vector<double> edges() {
  using Limits = std::numeric_limits<double>;
  std::vector<double> all = {0.0,
                             -0.0,
                             0.5,
                             1.5,
                             2.5,
                             -0.125,
                             0.375,
                             9.5,
                             99.5,
                             999999999.5,
                             9.9995,
                             1e22,
                             1e23,
                             123456789.5,
                             0.00001,
                             0.0001,
                             9.9999999995,
                             1e15 + 0.5,
                             0x1p53,
                             0x1p53 + 2,
                             0x1p-1022,
                             Limits::max(),
                             Limits::min(),
                             Limits::denorm_min(),
                             Limits::epsilon(),
                             -1.0 / 3.0};
  const std::size_t before = all.size();
  for (std::size_t i = 0; i < before; ++i) {
    all.push_back(std::nextafter(all[i], 0.0));
    if (all[i] != Limits::max()) all.push_back(std::nextafter(all[i], Limits::max()));
  }
  return all;
}

TEST(Decimal, WritesTheEdgesAsTheLibraryDoes) {
  for (const double value : edges()) expect_as_the_library(value);
}

TEST(Decimal, WritesAnyDoubleAsTheLibraryDoes) {
  std::mt19937_64 random(1);
  for (int i = 0; i < 20'000; ++i) {
    const double any = std::bit_cast<double>(random());
    if (std::isfinite(any)) expect_as_the_library(any);
    // what a board has: up to some tons, in steps of a hundredth, halves among them
    expect_as_the_library(static_cast<double>(random() % 100'000'000) / 200.0);
  }
}

TEST(Decimal, ReadsWhatIsWrittenBack) {
  std::mt19937_64 random(2);
  for (int i = 0; i < 20'000; ++i) {
    const double any = std::bit_cast<double>(random());
    if (std::isfinite(any)) expect_read_as_the_library(printed("%.*g", 1 + i % 20, any));
  }
  for (const double value : edges()) {
    expect_read_as_the_library(printed("%.*g", 17, value));
    expect_read_as_the_library(printed("%.*f", 3, value));
  }
}

// Halfway between two doubles the even one is nearest; a digit far behind decides.
TEST(Decimal, ReadsHalvesAsTheLibraryDoes) {
  std::mt19937_64 random(3);
  for (int i = 0; i < 3'000; ++i) {
    const double low = std::bit_cast<double>(random() & ~(1ull << 63));
    if (!std::isfinite(low) || low > 1e300) continue;
    const long double half = (static_cast<long double>(low) + std::nextafter(low, HUGE_VAL)) / 2;
    std::string text(3000, '\0');
    text.resize(
        static_cast<std::size_t>(std::snprintf(text.data(), text.size(), "%.1200Lf", half)));
    expect_read_as_the_library(text);
    expect_read_as_the_library(text + "0000000000001");
    text.back() = '1';
    expect_read_as_the_library(text);
  }
}

TEST(Decimal, ReadsManyDigits) {
  const std::string nines(2000, '9'), zeros(2000, '0');
  for (const std::string& text :
       std::vector<std::string>{nines, "0." + zeros + "1", "1" + zeros + "e-2000", nines + "e-1990",
                                "0." + zeros + nines + "e2001", "0." + zeros + "1e-99999999999",
                                std::string("1e99999999999"), zeros + "12.5",
                                std::string("0e99999"), std::string("-1e-99999"), "." + nines,
                                std::string("179769313486231580793728971405303415079934132710037826"
                                            "936173778980444968292764750946649017"
                                            "977587207096330286"
                                            "416692887910946555547851940402630657488671505820681908"
                                            "902000708383676273854845817711531764"
                                            "47573027006985557"
                                            "136695962284291481986083493647529271907416844436551070"
                                            "4342711559699508093042880")}) {
    expect_read_as_the_library(text);
  }
}

TEST(Decimal, TakesOnlyWhatIsANumber) {
  for (const char* text : {"", "-", ".", "e5", "+.e1", "12x", "12e", "12e+", "12.e2", ".5", "5.",
                           "1.2.3", "-0", "+7", "1e5", "1E-5", "00012", "1,5", "abc"}) {
    expect_read_as_the_library(text);
  }
  for (const char* text : {" 1", "\t1", "inf", "nan", "infinity", "\n"}) {
    EXPECT_EQ(read_decimal(text).used, 0u) << text;
  }
  EXPECT_EQ(read_decimal("0x10").used, 1u);
}

}  // namespace
}  // namespace tallyblock
