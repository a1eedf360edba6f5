#include "typed.h"

#include <cmath>

#include "core/base/rounding.h"
#include "core/typed/inside/typed_scan.h"

namespace tallyblock {
namespace {

using scan::Amount;
using scan::Reader;
using scan::Typed;
using scan::Wide;

constexpr double kHeaviestGrams = 1'000'000.0;
constexpr unsigned kOuncesPerPound = 16;

// Grams in one unit as a fraction of whole numbers; the same values as grams_in.
struct Factor {
  Wide num, den;
};
Factor exact_grams_in(WeightStyle style) {
  switch (style) {
    case WeightStyle::grams: return {1, 1};
    case WeightStyle::kilograms: return {1000, 1};
    case WeightStyle::ounces:
    case WeightStyle::pounds_ounces: return {28'349'523'125u, 1'000'000'000u};
    case WeightStyle::pounds: return {45'359'237u, 100'000u};
  }
  return {1, 1};
}

std::optional<WeightStyle> style_of(std::string_view unit) {
  if (unit == "g") return WeightStyle::grams;
  if (unit == "kg") return WeightStyle::kilograms;
  if (unit == "oz") return WeightStyle::ounces;
  if (unit == "lb" || unit == "lbs") return WeightStyle::pounds;
  return std::nullopt;
}

struct Weight {
  Amount amount;
  WeightStyle style = WeightStyle::grams;
};

// The ounces after "5 lb": `weight` becomes all ounces.
std::optional<Code> add_ounces(Reader& reader, Weight& weight) {
  Amount ounces;
  if (const auto problem = reader.amount(ounces, true)) return problem;
  if (reader.word() != "oz" || !reader.at_end()) return Code::typed_unknown_unit;
  if (!weight.amount.whole) return Code::typed_not_a_number;
  if (ounces.num >= kOuncesPerPound * ounces.den) return Code::typed_ounces_over;
  if (weight.amount.num > 10'000u) return Code::typed_too_heavy;
  weight.amount.num = weight.amount.num * kOuncesPerPound * ounces.den + ounces.num;
  weight.amount.den = ounces.den;
  weight.style = WeightStyle::pounds_ounces;
  return std::nullopt;
}

std::optional<Code> read_weight(Reader& reader, Weight& weight) {
  if (const auto problem = reader.amount(weight.amount, true)) return problem;
  if (reader.next_is_digit()) return Code::typed_not_a_number;
  const auto style = style_of(reader.word());
  if (!style) return Code::typed_unknown_unit;
  weight.style = *style;
  if (reader.at_end()) return std::nullopt;
  if (*style == WeightStyle::pounds && reader.next_is_digit()) return add_ounces(reader, weight);
  return Code::typed_unknown_unit;
}

}  // namespace

Result<TypedMass> parse_mass(std::string_view text, std::string_view field, Sign sign) {
  const Typed typed(text, field);
  if (const auto code = typed.unreadable()) return typed.fails(*code);
  Reader reader(typed.text());
  const bool negative = reader.take_minus();
  Weight weight;
  if (const auto code = read_weight(reader, weight)) return typed.fails(*code);
  if (const auto code = scan::sign_problem(negative, weight.amount, sign)) {
    return typed.fails(*code);
  }
  const Factor factor = exact_grams_in(weight.style);
  const double grams =
      scan::nearest(weight.amount.num * factor.num, weight.amount.den * factor.den);
  if (grams > kHeaviestGrams) return typed.fails(Code::typed_too_heavy);
  const bool below_zero = negative && grams > 0.0;
  return TypedMass{typed.text(), Mass::grams(below_zero ? -grams : grams), weight.style};
}

std::string mass_text(Mass mass, WeightStyle style, int decimals) {
  switch (style) {
    case WeightStyle::grams: return fixed_text(mass.in_grams(), decimals) + " g";
    case WeightStyle::kilograms: return fixed_text(mass.in(MassUnit::kilogram), decimals) + " kg";
    case WeightStyle::ounces: return fixed_text(mass.in(MassUnit::ounce), decimals) + " oz";
    case WeightStyle::pounds: return fixed_text(mass.in(MassUnit::pound), decimals) + " lb";
    case WeightStyle::pounds_ounces: break;
  }
  const double ounces = round_half_even(mass.in(MassUnit::ounce), decimals);
  if (!std::isfinite(mass.in_grams())) return fixed_text(mass.in_grams(), decimals) + " oz";
  const double pounds = std::floor(std::fabs(ounces) / kOuncesPerPound);
  const double rest = std::fabs(ounces) - pounds * kOuncesPerPound;
  const std::string some = pounds > 0.0 ? fixed_text(pounds, 0) + " lb " : std::string();
  return (ounces < 0.0 ? "-" : "") + some + fixed_text(rest, decimals) + " oz";
}

}  // namespace tallyblock
