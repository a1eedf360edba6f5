// Typed numbers other than weights: see typed.h.
#include "core/typed/inside/typed_scan.h"
#include "typed.h"

namespace tallyblock {
namespace {

using scan::Amount;
using scan::Reader;
using scan::Typed;

constexpr unsigned kMinutesPerHour = 60;
constexpr unsigned kMostMinutes = 10'000;
constexpr double kLongestMillimetres = 10'000.0;
constexpr double kColdest = -100.0;
constexpr double kHottest = 200.0;

Code code_for_rest(Reader& reader) {
  return reader.next_is_digit() ? Code::typed_not_a_number : Code::typed_unknown_unit;
}

// "1:05", "1 h 5 min", "12.5 min", "12.5"; gives minutes.
std::optional<Code> read_minutes(Reader& reader, Amount& minutes) {
  if (const auto code = reader.amount(minutes, false)) return code;
  if (reader.take(':')) {
    const std::string_view after = reader.digits();
    if (!minutes.whole || after.size() != 2 || after[0] > '5') return Code::typed_not_a_number;
    const int rest = (after[0] - '0') * 10 + (after[1] - '0');
    minutes.num = minutes.num * kMinutesPerHour + static_cast<unsigned>(rest);
    return reader.at_end() ? std::nullopt : std::optional(code_for_rest(reader));
  }
  if (reader.at_end()) return std::nullopt;
  if (reader.next_is_digit()) return Code::typed_not_a_number;
  const std::string unit = reader.word();
  if (unit == "min") return reader.at_end() ? std::nullopt : std::optional(code_for_rest(reader));
  if (unit != "h") return Code::typed_unknown_unit;
  minutes.num *= kMinutesPerHour;
  if (reader.at_end()) return std::nullopt;
  if (!minutes.whole) return Code::typed_not_a_number;
  Amount rest;
  if (const auto code = reader.amount(rest, false)) return code;
  if (reader.word() != "min" || !reader.at_end()) return Code::typed_unknown_unit;
  if (rest.num >= kMinutesPerHour * rest.den) return Code::typed_not_a_number;
  minutes = {minutes.num * rest.den + rest.num, rest.den, rest.whole};
  return std::nullopt;
}

}  // namespace

Result<TypedNumber> parse_number(std::string_view text, std::string_view field, Sign sign,
                                 double max) {
  const Typed typed(text, field);
  if (const auto code = typed.unreadable()) return typed.fails(*code);
  Reader reader(typed.text());
  const bool negative = reader.take_minus();
  Amount amount;
  if (const auto code = reader.amount(amount, false)) return typed.fails(*code);
  if (!reader.at_end()) return typed.fails(Code::typed_not_a_number);
  if (const auto code = scan::sign_problem(negative, amount, sign)) return typed.fails(*code);
  const double size = scan::nearest(amount.num, amount.den);
  if (size > max) return typed.fails(Code::typed_too_large, Arg::number(max));
  return TypedNumber{typed.text(), negative && size > 0.0 ? -size : size};
}

Result<TypedNumber> parse_percent(std::string_view text, std::string_view field) {
  const Typed typed(text, field);
  if (const auto code = typed.unreadable()) return typed.fails(*code);
  Reader reader(typed.text());
  const bool negative = reader.take_minus();
  Amount amount;
  if (const auto code = reader.amount(amount, false)) return typed.fails(*code);
  if (!reader.at_end() && (reader.next_is_digit() || reader.word() != "%" || !reader.at_end())) {
    return typed.fails(code_for_rest(reader));
  }
  if (const auto code = scan::sign_problem(negative, amount, Sign::zero_or_more)) {
    return typed.fails(*code);
  }
  if (amount.num > 100u * amount.den) return typed.fails(Code::typed_too_large, Arg::share(1.0, 0));
  return TypedNumber{typed.text(), scan::nearest(amount.num, 100u * amount.den)};
}

Result<TypedNumber> parse_minutes(std::string_view text, std::string_view field) {
  const Typed typed(text, field);
  if (const auto code = typed.unreadable()) return typed.fails(*code);
  Reader reader(typed.text());
  const bool negative = reader.take_minus();
  Amount minutes;
  if (const auto code = read_minutes(reader, minutes)) return typed.fails(*code);
  if (const auto code = scan::sign_problem(negative, minutes, Sign::zero_or_more)) {
    return typed.fails(*code);
  }
  if (minutes.num > kMostMinutes * minutes.den) {
    return typed.fails(Code::typed_too_large, Arg::minutes(kMostMinutes));
  }
  return TypedNumber{typed.text(), scan::nearest(minutes.num, minutes.den)};
}

Result<TypedLength> parse_length(std::string_view text, std::string_view field) {
  const Typed typed(text, field);
  if (const auto code = typed.unreadable()) return typed.fails(*code);
  Reader reader(typed.text());
  const bool negative = reader.take_minus();
  Amount amount;
  if (const auto code = reader.amount(amount, true)) return typed.fails(*code);
  if (reader.next_is_digit()) return typed.fails(Code::typed_not_a_number);
  const std::string unit = reader.word();
  const bool known = unit == "mm" || unit == "cm" || unit == "in";
  if (!known || !reader.at_end()) return typed.fails(Code::typed_unknown_unit);
  if (const auto code = scan::sign_problem(negative, amount, Sign::positive_only)) {
    return typed.fails(*code);
  }
  const unsigned tenths_of_mm = unit == "mm" ? 10 : unit == "cm" ? 100 : 254;
  const double mm = scan::nearest(amount.num * tenths_of_mm, amount.den * 10u);
  if (mm > kLongestMillimetres)
    return typed.fails(Code::typed_too_large, Length::millimetres(kLongestMillimetres));
  return TypedLength{typed.text(), Length::millimetres(mm)};
}

Result<TypedNumber> parse_temperature(std::string_view text, std::string_view field) {
  const Typed typed(text, field);
  if (const auto code = typed.unreadable()) return typed.fails(*code);
  Reader reader(typed.text());
  bool negative = reader.take_minus();
  Amount amount;
  if (const auto code = reader.amount(amount, false)) return typed.fails(*code);
  if (reader.next_is_digit()) return typed.fails(Code::typed_not_a_number);
  const std::string unit = reader.word();
  if ((unit != "c" && unit != "f") || !reader.at_end()) {
    return typed.fails(Code::typed_unknown_unit);
  }
  if (unit == "f") {  // C = (F - 32) x 5 / 9
    const scan::Wide freezing = 32u * amount.den;
    if (negative) {
      amount.num += freezing;
    } else if (amount.num < freezing) {
      amount.num = freezing - amount.num;
      negative = true;
    } else {
      amount.num -= freezing;
    }
    amount.num *= 5u;
    amount.den *= 9u;
  }
  const double size = scan::nearest(amount.num, amount.den);
  const double celsius = negative && size > 0.0 ? -size : size;
  if (celsius > kHottest) return typed.fails(Code::typed_too_large, Arg::celsius(kHottest));
  if (celsius < kColdest) return typed.fails(Code::typed_too_large, Arg::celsius(kColdest));
  return TypedNumber{typed.text(), celsius};
}

}  // namespace tallyblock
