#include "slips.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/base/power.h"
#include "core/base/sorted.h"

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

struct Meant {
  double number;
  double cost;  // how much less likely the slip is, natural logarithm
};
// The decimal mark slips oftenest; of a lost digit any of ten may have been it. Choices of ours, no source.
constexpr double kTenTimes = 0.0, kOneKey = 1.0, kLostDigit = 3.0;

std::vector<Meant> numbers_before(double typed, int decimals) {
  const bool known = typed >= 0.0 && typed < 1e9;
  if (!known) return {};
  const double unit = power_of_ten(std::clamp(decimals, 0, 3));
  const double whole = std::round(typed * unit);
  const std::string digits = digits_of(whole);
  std::vector<Meant> found;
  const auto add = [&](double number, double cost) {
    const double one = number / unit;
    if (!(number > 0.0) || number == whole) return;
    const auto there = std::ranges::find(found, one, &Meant::number);
    if (there == found.end()) {
      found.push_back({one, cost});
    } else {
      there->cost = std::min(there->cost, cost);
    }
  };
  add(whole * 10.0, kTenTimes);
  if (std::fmod(whole, 10.0) == 0.0 || decimals > 0) add(std::round(whole / 10.0), kTenTimes);
  for (std::size_t i = 0; i <= digits.size(); ++i) {  // one was lost
    for (char lost = '0'; lost <= '9'; ++lost) {
      std::string meant = digits;
      meant.insert(meant.begin() + static_cast<std::ptrdiff_t>(i), lost);
      add(number_of(meant), kLostDigit);
    }
  }
  for (std::size_t i = 0; i < digits.size(); ++i) {  // one is too many, or two changed places
    std::string meant = digits;
    meant.erase(i, 1);
    add(number_of(meant), kOneKey);
    if (i == 0) continue;
    meant = digits;
    std::swap(meant[i - 1], meant[i]);
    add(number_of(meant), kOneKey);
  }
  for (const double off : {-100.0, 100.0}) add(whole + off, kOneKey);
  return found;
}

}  // namespace

std::vector<double> before_a_slip(double typed, int decimals) {
  std::vector<double> found;
  for (const Meant& one : numbers_before(typed, decimals)) found.push_back(one.number);
  return found;
}

double surprise(double weight, double expected, double log_sd) {
  return std::abs(std::log(weight / expected)) / log_sd;
}

std::vector<double> likely_meant(double typed, int decimals, double expected, double log_sd,
                                 std::size_t most) {
  std::vector<Meant> meant;
  for (const Meant& one : numbers_before(typed, decimals)) {
    const double far = surprise(one.number, expected, log_sd);
    if (far <= kLikely) meant.push_back({one.number, one.cost + far * far / 2.0});
  }
  heap_sort(meant, [](const Meant& a, const Meant& b) {
    return a.cost < b.cost || (a.cost == b.cost && a.number < b.number);
  });
  std::vector<double> likeliest;
  for (const Meant& one : meant) {
    if (likeliest.size() < most) likeliest.push_back(one.number);
  }
  return likeliest;
}

}  // namespace tallyblock
