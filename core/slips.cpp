#include "slips.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "sorted.h"

namespace tallyblock {
namespace {

double number_of(const std::string& digits) {
  double number = 0.0;
  for (const char digit : digits) number = 10.0 * number + (digit - '0');
  return number;
}

std::string digits_of(double number) {
  std::string digits;
  for (; number >= 1.0; number = std::floor(number / 10.0)) {
    digits.insert(digits.begin(),
                  static_cast<char>('0' + static_cast<int>(std::fmod(number, 10.0))));
  }
  return digits;
}

}  // namespace

std::vector<double> before_a_slip(double typed, int decimals) {
  const bool known = typed >= 0.0 && typed < 1e9;
  if (!known) return {};
  const double unit = std::pow(10.0, std::clamp(decimals, 0, 3));
  const double whole = std::round(typed * unit);
  const std::string digits = digits_of(whole);
  std::vector<double> found;
  const auto add = [&](double number) {
    if (number > 0.0 && number != whole && std::ranges::find(found, number / unit) == found.end()) {
      found.push_back(number / unit);
    }
  };
  add(whole * 10.0);
  if (std::fmod(whole, 10.0) == 0.0 || decimals > 0) add(std::round(whole / 10.0));
  for (std::size_t i = 0; i <= digits.size(); ++i) {  // one was lost
    for (char lost = '0'; lost <= '9'; ++lost) {
      std::string meant = digits;
      meant.insert(meant.begin() + static_cast<std::ptrdiff_t>(i), lost);
      add(number_of(meant));
    }
  }
  for (std::size_t i = 0; i < digits.size(); ++i) {  // one is too many, or two changed places
    std::string meant = digits;
    meant.erase(i, 1);
    add(number_of(meant));
    if (i == 0) continue;
    meant = digits;
    std::swap(meant[i - 1], meant[i]);
    add(number_of(meant));
  }
  for (const double off : {-100.0, 100.0}) add(whole + off);
  return found;
}

double surprise(double weight, double expected, double log_sd) {
  return std::abs(std::log(weight / expected)) / log_sd;
}

std::vector<double> likely_meant(double typed, int decimals, double expected, double log_sd,
                                 std::size_t most) {
  std::vector<double> meant = before_a_slip(typed, decimals);
  std::erase_if(meant, [&](double one) { return !(surprise(one, expected, log_sd) <= kLikely); });
  heap_sort(meant, [&](double a, double b) {
    const double far_a = surprise(a, expected, log_sd), far_b = surprise(b, expected, log_sd);
    return far_a < far_b || (far_a == far_b && a < b);
  });
  if (meant.size() > most) meant.resize(most);
  return meant;
}

}  // namespace tallyblock
