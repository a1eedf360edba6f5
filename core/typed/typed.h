// What a person typed, kept as typed, with its value.
//
// Accepted weights: "12.35 lb", "5 lb 8 oz", "5 lb 8 1/2 oz", "0,450 kg", "450 g", "8 1/2 oz",
// "1/2 oz", ".5 lb", with ASCII digits, one decimal mark (point or comma), any spaces or none, units
// in either case ("lbs" too), "-" in front. Refused with the field and the reason: empty, negative
// where not "taken off", not a number (also "5." and "81/2"), unknown or missing unit, two decimal
// marks, 16 oz or more beside pounds, a fraction of a pound beside ounces, more than 15 significant
// digits or 22 decimals, over 64 bytes, a piece above 1,000 kg. No grouping of thousands.
//
// Values are the exact decimal or fraction times the exact factor of the unit, converted once to
// double (correctly rounded, ties to even): "12.35 lb" is 12.35 x 453.59237 g with one rounding.
//
// Problem::args: {0} the text as typed (its first 40 bytes); typed_too_large also {1} the limit, a number,
// share, length, minutes or degrees Celsius.
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "core/base/problem.h"
#include "core/base/units.h"

namespace tallyblock {

// How the unit was written: "5 lb 8 oz" is its own style.
enum class WeightStyle { grams, kilograms, ounces, pounds, pounds_ounces };

struct TypedMass {
  std::string text;  // as typed, trimmed
  Mass mass;         // may be negative only if allowed when parsed
  WeightStyle style = WeightStyle::grams;
  friend bool operator==(const TypedMass& a, const TypedMass& b) { return a.text == b.text; }
};

struct TypedNumber {
  std::string text;
  double value = 0.0;
  friend bool operator==(const TypedNumber& a, const TypedNumber& b) { return a.text == b.text; }
};

struct TypedLength {
  std::string text;
  Length length;
  friend bool operator==(const TypedLength& a, const TypedLength& b) { return a.text == b.text; }
};

enum class Sign { positive_only, zero_or_more, negative_only, any };

// `field` is carried into Problem::where. A zero weight is refused under positive_only.
Result<TypedMass> parse_mass(std::string_view text, std::string_view field,
                             Sign sign = Sign::positive_only);

// A plain decimal number, "12.50" or "12,50"; at most `max` in size (Code::typed_too_large).
Result<TypedNumber> parse_number(std::string_view text, std::string_view field,
                                 Sign sign = Sign::zero_or_more, double max = 1e9);

// "62", "62 %" -> 0.62 (a plain ratio); 0 to 100.
Result<TypedNumber> parse_percent(std::string_view text, std::string_view field);

// "12" or "12.5" or "12.5 min" or "1:05" (hours:minutes) or "1.5 h" or "1 h 5 min" -> minutes; 0 to
// 10,000.
Result<TypedNumber> parse_minutes(std::string_view text, std::string_view field);

// "118 mm", "11.8 cm", "4 5/8 in", "4.625 in"; above 0, at most 10 m.
Result<TypedLength> parse_length(std::string_view text, std::string_view field);

// "3.5 C", "38 F", "-18 °C" -> degrees Celsius (C = (F - 32) / 1.8, NIST SP 811 B.8); -100 to 200 C.
Result<TypedNumber> parse_temperature(std::string_view text, std::string_view field);

// A mass as the canonical text of a style with as many decimals as given, e.g. (453.59237 g, pounds,
// 2) -> "1.00 lb". Rounds half to even at that place (rounding.h). pounds_ounces gives "5 lb 8.5 oz"
// and carries 16 oz into the pound.
std::string mass_text(Mass mass, WeightStyle style, int decimals);

}  // namespace tallyblock
