#include "typed_scan.h"

#include <cmath>

namespace tallyblock::scan {
namespace {

constexpr std::size_t kMaxBytes = 64;
constexpr std::size_t kShownBytes = 40;
constexpr std::size_t kMaxDigits = 15;
constexpr std::size_t kMaxDecimals = 22;
constexpr unsigned kMaxDenominator = 1000;

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_mark(char c) { return c == '.' || c == ','; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

// Bytes of the space at the front of `text`; 0 if there is none.
std::size_t space_at(std::string_view text) {
  if (text.empty()) return 0;
  const char c = text.front();
  if (c == ' ' || c == '\t' || c == '\n' || c == '\r') return 1;
  if (text.starts_with("\u00a0")) return 2;                                // no-break space
  if (text.starts_with("\u202f") || text.starts_with("\u2009")) return 3;  // narrow, thin
  return 0;
}

std::string_view trimmed(std::string_view text) {
  while (const std::size_t n = space_at(text)) text.remove_prefix(n);
  for (bool again = true; again && !text.empty();) {
    again = false;
    for (std::size_t n = 1; n <= 3 && n <= text.size(); ++n) {
      if (space_at(text.substr(text.size() - n)) == n) {
        text.remove_suffix(n);
        again = true;
        break;
      }
    }
  }
  return text;
}

// The start of `text`, not cut inside a UTF-8 character.
std::string shown(std::string_view text) {
  if (text.size() <= kShownBytes) return std::string(text);
  std::size_t n = kShownBytes;
  while (n > 0 && (static_cast<unsigned char>(text[n]) & 0xc0u) == 0x80u) --n;
  return std::string(text.substr(0, n));
}

std::size_t significant(std::string_view digits) {
  const std::size_t first = digits.find_first_not_of('0');
  return first == std::string_view::npos ? 0 : digits.size() - first;
}

Wide number_of(std::string_view digits) {
  Wide n = 0;
  for (const char c : digits) n = n * 10u + static_cast<unsigned>(c - '0');
  return n;
}

}  // namespace

double nearest(Wide num, Wide den) {
  if (num == 0) return 0.0;
  constexpr Wide one = 1;
  Wide quotient = num / den;
  Wide rest = num % den;
  int exponent = 0;
  for (; quotient < (one << 54); --exponent) {  // two bits more than a double holds
    quotient <<= 1;
    rest <<= 1;
    if (rest >= den) {
      rest -= den;
      quotient |= 1u;
    }
  }
  bool more = rest != 0;  // what lies below the last bit of the quotient
  for (; quotient >= (one << 55); ++exponent) {
    more = more || (quotient & 1u) != 0;
    quotient >>= 1;
  }
  const unsigned below = static_cast<unsigned>(quotient & 3u);
  quotient >>= 2;
  exponent += 2;
  const bool odd = (quotient & 1u) != 0;
  if (below == 3 || (below == 2 && (more || odd))) ++quotient;
  return std::ldexp(static_cast<double>(static_cast<unsigned long long>(quotient)), exponent);
}

Typed::Typed(std::string_view text, std::string_view field) : text_(trimmed(text)), field_(field) {}

std::optional<Code> Typed::unreadable() const {
  if (text_.empty()) return Code::typed_empty;
  if (text_.size() > kMaxBytes) return Code::typed_too_long;
  return std::nullopt;
}

Problem Typed::fails(Code code) const { return {code, field_, {Arg::typed(shown(text_))}}; }

Problem Typed::fails(Code code, Arg more) const {
  Problem problem = fails(code);
  problem.args.push_back(std::move(more));
  return problem;
}

void Reader::skip_spaces() {
  while (const std::size_t n = space_at(rest_)) rest_.remove_prefix(n);
}

bool Reader::at_end() {
  skip_spaces();
  return rest_.empty();
}

bool Reader::next_is_digit() {
  skip_spaces();
  return !rest_.empty() && is_digit(rest_.front());
}

bool Reader::take(char mark) {
  if (rest_.empty() || rest_.front() != mark) return false;
  rest_.remove_prefix(1);
  return true;
}

bool Reader::take_minus() {
  skip_spaces();
  if (take('-')) return true;
  constexpr std::string_view minus = "\u2212";
  if (!rest_.starts_with(minus)) return false;
  rest_.remove_prefix(minus.size());
  return true;
}

std::string Reader::word() {
  skip_spaces();
  constexpr std::string_view degree = "\u00b0";
  if (rest_.starts_with(degree)) {
    rest_.remove_prefix(degree.size());
    skip_spaces();
  }
  if (take('%')) return "%";
  std::string out;
  for (; !rest_.empty() && is_letter(rest_.front()); rest_.remove_prefix(1)) {
    out += lower(rest_.front());
  }
  return out;
}

std::string_view Reader::digits() {
  std::size_t n = 0;
  while (n < rest_.size() && is_digit(rest_[n])) ++n;
  const std::string_view found = rest_.substr(0, n);
  rest_.remove_prefix(n);
  return found;
}

std::optional<Code> Reader::amount(Amount& out, bool fractions) {
  skip_spaces();
  const std::string_view first = digits();
  if (significant(first) > kMaxDigits) return Code::typed_too_many_digits;
  if (!rest_.empty() && is_mark(rest_.front())) return decimals(first, out);
  if (first.empty()) return Code::typed_not_a_number;
  out = {number_of(first), 1, true};
  if (!fractions) return std::nullopt;
  if (take('/')) return fraction(first, out);

  // "8 1/2": a whole number, then a fraction below one.
  const std::string_view after_whole = rest_;
  skip_spaces();
  const std::string_view numerator = digits();
  if (rest_.size() == after_whole.size() || numerator.empty() || !take('/')) {
    rest_ = after_whole;
    return std::nullopt;
  }
  Amount part;
  if (const auto problem = fraction(numerator, part)) return problem;
  out = {out.num * part.den + part.num, part.den, false};
  return std::nullopt;
}

std::optional<Code> Reader::decimals(std::string_view whole, Amount& out) {
  rest_.remove_prefix(1);
  const std::string_view after = digits();
  if (!rest_.empty() && is_mark(rest_.front())) return Code::typed_two_marks;
  if (after.empty()) return Code::typed_not_a_number;
  const std::string all = std::string(whole) + std::string(after);
  if (significant(all) > kMaxDigits || after.size() > kMaxDecimals) {
    return Code::typed_too_many_digits;
  }
  out = {number_of(all), 1, false};
  for (std::size_t i = 0; i < after.size(); ++i) out.den *= 10u;
  return std::nullopt;
}

std::optional<Code> Reader::fraction(std::string_view numerator, Amount& out) {
  const std::string_view denominator = digits();
  if (!rest_.empty() && (is_mark(rest_.front()) || rest_.front() == '/')) {
    return Code::typed_not_a_number;
  }
  if (denominator.empty()) return Code::typed_not_a_number;
  if (significant(numerator) > kMaxDigits || significant(denominator) > kMaxDigits) {
    return Code::typed_too_many_digits;
  }
  out = {number_of(numerator), number_of(denominator), false};
  // "81/2" is a slip for "8 1/2", not forty and a half.
  if (out.den > kMaxDenominator || out.num >= out.den) return Code::typed_not_a_number;
  return std::nullopt;
}

std::optional<Code> sign_problem(bool negative, const Amount& amount, Sign sign) {
  const bool zero = amount.num == 0;
  const bool below = negative && !zero;
  switch (sign) {
    case Sign::positive_only:
      if (zero) return Code::typed_zero;
      return below ? std::optional(Code::typed_negative) : std::nullopt;
    case Sign::zero_or_more: return below ? std::optional(Code::typed_negative) : std::nullopt;
    case Sign::negative_only:
      if (zero) return Code::typed_zero;
      return below ? std::nullopt : std::optional(Code::typed_must_be_negative);
    case Sign::any: break;
  }
  return std::nullopt;
}

}  // namespace tallyblock::scan
