#include "digits.h"

namespace tallyblock {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool ends_in_digit(std::string_view text) { return !text.empty() && is_digit(text.back()); }
bool has(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

// What was typed since the last space, slash or sign.
std::string_view last_number(std::string_view digits) {
  const std::size_t at = digits.find_last_of(" /-");
  return at == std::string_view::npos ? digits : digits.substr(at + 1);
}

std::string without_last(std::string digits) {
  constexpr std::string_view units[] = {" lb ", " lb", " oz"};
  for (const std::string_view unit : units) {
    if (std::string_view(digits).ends_with(unit)) {
      digits.resize(digits.size() - unit.size());
      return digits;
    }
  }
  if (!digits.empty()) digits.pop_back();
  return digits;
}

bool may_take_mark(std::string_view digits) {
  if (digits.ends_with(' ') && !digits.ends_with("lb ")) return false;
  const std::string_view number = last_number(digits);
  const bool denominator =
      digits.size() > number.size() && digits[digits.size() - number.size() - 1] == '/';
  return !denominator && number.find_first_of(".,") == std::string_view::npos;
}

// A fraction may begin: a whole number right here, no other fraction in this amount.
bool may_take_slash(std::string_view digits) {
  const std::string_view number = last_number(digits);
  if (!ends_in_digit(digits) || number.find_first_of(".,") != std::string_view::npos) return false;
  const std::size_t pounds = digits.rfind("lb");
  return !has(digits.substr(pounds == std::string_view::npos ? 0 : pounds), "/");
}

// A space parts a whole number from its fraction.
bool may_take_space(std::string_view digits) {
  const std::string_view number = last_number(digits);
  if (!ends_in_digit(digits) || number.find_first_of(".,") != std::string_view::npos) return false;
  const std::size_t pounds = digits.rfind("lb ");
  const std::string_view amount =
      pounds == std::string_view::npos ? digits : digits.substr(pounds + 3);
  return !has(amount, " ") && !has(amount, "/");
}

std::string with_sign_turned(std::string digits) {
  if (!digits.empty() && digits.front() == '-') return digits.substr(1);
  return '-' + digits;
}

}  // namespace

bool is_imperial(std::string_view unit) { return unit == "lb" || unit == "oz" || unit == "lb-oz"; }

std::string pressed(std::string digits, std::string_view key, const KeyRules& rules) {
  if (key == "clear") return {};
  if (key == "back") return without_last(std::move(digits));
  if (key == "minus") return rules.negative ? with_sign_turned(std::move(digits)) : digits;
  if (has(digits, "oz")) return digits;  // complete
  const bool after_pounds = digits.ends_with("lb");
  std::string more;
  if (key.size() == 1 && is_digit(key.front())) {
    more = after_pounds ? " " + std::string(key) : std::string(key);
  } else if (key == "." || key == ",") {
    if (after_pounds || !may_take_mark(digits)) return digits;
    more = ends_in_digit(digits) ? std::string(key) : "0" + std::string(key);
  } else if (key == "/") {
    if (rules.fractions && may_take_slash(digits)) more = "/";
  } else if (key == "space") {
    if (rules.fractions && may_take_space(digits)) more = " ";
  } else if (key == "lb") {
    if (rules.pounds && ends_in_digit(digits) && !has(digits, "lb")) more = " lb ";
  } else if (key == "oz") {
    if (rules.pounds && ends_in_digit(digits)) more = " oz";
  }
  if (digits.size() + more.size() > kMostDigits) return digits;
  return digits + more;
}

std::string weight_text(std::string_view digits, std::string_view unit) {
  while (!digits.empty() && digits.back() == ' ') digits.remove_suffix(1);
  std::string text(digits);
  if (text.empty() || has(text, "oz")) return text;
  if (has(text, "lb")) return ends_in_digit(text) || text.ends_with('.') ? text + " oz" : text;
  if (unit == "lb-oz") return text;
  return text + ' ' + std::string(unit);
}

}  // namespace tallyblock
