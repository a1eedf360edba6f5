#include "decimal.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <ranges>
#include <vector>

namespace tallyblock {
namespace {

constexpr std::uint32_t kNineZeros = 1'000'000'000;

std::uint32_t power(std::uint32_t base, int exponent) {
  std::uint32_t out = 1;
  for (; exponent > 0; --exponent) out *= base;
  return out;
}

// A whole number of any size, its lowest limb first; limbs to the base 2^32 or 10^9.
template <std::uint64_t Base>
struct Big {
  std::vector<std::uint32_t> limbs;

  void times(std::uint32_t factor, std::uint32_t plus = 0) {
    std::uint64_t carry = plus;
    for (std::uint32_t& limb : limbs) {
      carry += std::uint64_t{limb} * factor;
      limb = static_cast<std::uint32_t>(carry % Base);
      carry /= Base;
    }
    if (carry != 0) limbs.push_back(static_cast<std::uint32_t>(carry));
  }
  void times_power(std::uint32_t base, int step, int exponent) {
    for (; exponent > 0; exponent -= step) times(power(base, std::min(step, exponent)));
  }
  // What is left over.
  std::uint32_t divide(std::uint32_t by) {
    std::uint64_t rest = 0;
    for (std::uint32_t& limb : std::views::reverse(limbs)) {
      rest = rest * Base + limb;
      limb = static_cast<std::uint32_t>(rest / by);
      rest %= by;
    }
    while (!limbs.empty() && limbs.back() == 0) limbs.pop_back();
    return static_cast<std::uint32_t>(rest);
  }
};

// The value is `digits`, without zeros before them, times 10^exponent.
struct Decimal {
  std::string digits;
  int exponent = 0;

  int size() const { return static_cast<int>(digits.size()); }

  // Leaves the first `kept` digits, which may be none or fewer.
  void round(int kept) {
    if (kept >= size()) return;
    exponent += size() - kept;
    if (kept < 0) return digits.clear();
    const auto cut = static_cast<std::size_t>(kept);
    const char next = digits[cut];
    const bool more = digits.find_first_not_of('0', cut + 1) != std::string::npos;
    const bool odd = kept > 0 && (digits[cut - 1] - '0') % 2 != 0;
    digits.resize(cut);
    if (next < '5' || (next == '5' && !more && !odd)) return;
    std::size_t at = cut;
    while (at > 0 && digits[at - 1] == '9') digits[--at] = '0';
    if (at > 0) {
      ++digits[at - 1];
    } else {
      digits.insert(digits.begin(), '1');
    }
  }
};

Decimal expansion(double value) {
  int twos = 0;
  const double part = std::frexp(std::fabs(value), &twos);
  twos -= 53;
  Big<kNineZeros> big;
  for (auto left = static_cast<std::uint64_t>(std::ldexp(part, 53)); left != 0;
       left /= kNineZeros) {
    big.limbs.push_back(static_cast<std::uint32_t>(left % kNineZeros));
  }
  big.times_power(2, 29, twos);
  big.times_power(5, 12, -twos);  // 2^-n is 5^n / 10^n
  Decimal out{{}, std::min(twos, 0)};
  for (const std::uint32_t limb : std::views::reverse(big.limbs)) {
    for (std::uint32_t unit = kNineZeros / 10; unit != 0; unit /= 10) {
      out.digits += static_cast<char>('0' + limb / unit % 10);
    }
  }
  out.digits.erase(0, std::min(out.digits.find_first_not_of('0'), out.digits.size()));
  if (out.digits.empty()) out.exponent = 0;
  return out;
}

// The digits with so many of them behind the point.
std::string pointed(Decimal number, int decimals) {
  std::string& digits = number.digits;
  const std::ptrdiff_t zeros = std::ptrdiff_t{number.exponent} + decimals;
  if (!digits.empty()) digits.append(static_cast<std::size_t>(zeros), '0');
  const auto behind = static_cast<std::size_t>(decimals);
  if (digits.size() <= behind) digits.insert(0, behind + 1 - digits.size(), '0');
  if (behind > 0) digits.insert(digits.size() - behind, 1, '.');
  return digits;
}

std::string signed_as(double value, const std::string& digits) {
  return std::signbit(value) ? "-" + digits : digits;
}

// The double nearest to `whole` times 2^exponent; `more`: it is a little larger.
double nearest(const Big<1ull << 32>& whole, int exponent, bool more) {
  if (whole.limbs.empty()) return 0.0;
  const int limbs = static_cast<int>(whole.limbs.size());
  const int bits = 32 * limbs - std::countl_zero(whole.limbs.back());
  if (exponent + bits > 1024) return HUGE_VAL;
  const int kept = std::min(53, exponent + bits + 1074);  // fewer below the smallest normal double
  const int dropped = bits - kept;
  const auto bit = [&](int at) {
    return at >= 0 && (whole.limbs[static_cast<std::size_t>(at / 32)] >> (at % 32) & 1u) != 0;
  };
  std::uint64_t out = 0;
  for (int at = bits - 1; at >= dropped; --at) out = out * 2 + (bit(at) ? 1 : 0);
  if (kept >= 0 && bit(dropped - 1)) {
    for (int at = dropped - 2; at >= 0 && !more; --at) more = bit(at);
    if (more || out % 2 != 0) ++out;
  }
  return std::ldexp(static_cast<double>(out), exponent + dropped);
}

}  // namespace

std::string fixed_digits(double value, int decimals) {
  Decimal number = expansion(value);
  number.round(number.size() + number.exponent + decimals);
  return signed_as(value, pointed(number, decimals));
}

std::string general_digits(double value, int digits) {
  Decimal number = expansion(value);
  number.round(digits);
  while (number.digits.ends_with('0')) {
    number.digits.pop_back();
    ++number.exponent;
  }
  const int top = number.digits.empty() ? 0 : number.size() + number.exponent - 1;
  if (top >= -4 && top < digits)
    return signed_as(value, pointed(number, std::max(0, -number.exponent)));
  std::string out = pointed({number.digits, 1 - number.size()}, number.size() - 1);
  out += top < 0 ? "e-" : "e+";
  if (std::abs(top) < 10) out += '0';
  return signed_as(value, out + std::to_string(std::abs(top)));
}

ReadDecimal read_decimal(std::string_view text) {
  constexpr int kMostDigits =
      800;  // no double has more to its half; what follows is more or nothing
  constexpr int kFar = 100'000;
  std::size_t at = 0;
  const auto is = [&](char c) { return at < text.size() && text[at] == c; };
  const auto digit = [&] { return at < text.size() && text[at] >= '0' && text[at] <= '9'; };
  const bool minus = is('-');
  if (minus || is('+')) ++at;

  Big<1ull << 32> whole;
  int count = 0, exponent = 0;
  bool any = false, behind = false, more = false;
  for (;; ++at) {
    if (is('.') && !behind) {
      behind = true;
      continue;
    }
    if (!digit()) break;
    any = true;
    const auto value = static_cast<std::uint32_t>(text[at] - '0');
    if (count < kMostDigits) {
      if (count > 0 || value != 0) ++count;
      whole.times(10, value);
      if (behind) exponent = std::max(exponent - 1, -kFar);
    } else {
      more = more || value != 0;
      if (!behind) exponent = std::min(exponent + 1, kFar);
    }
  }
  if (!any) return {};
  ReadDecimal out{0.0, at};
  if (is('e') || is('E')) {
    ++at;
    const bool down = is('-');
    if (down || is('+')) ++at;
    int tens = 0;
    for (; digit(); ++at) {
      tens = std::min(tens * 10 + (text[at] - '0'), 2 * kFar);
      out.used = at + 1;
    }
    exponent += down ? -tens : tens;
  }
  if (count > 0 && count + exponent > 310) {
    out.value = HUGE_VAL;
  } else if (count + exponent > -330) {
    int twos = 0;
    whole.times_power(10, 9, exponent);
    if (exponent < 0) {
      const int zeros = -exponent / 9 + 4;  // so that what is left has more than 64 bits
      whole.limbs.insert(whole.limbs.begin(), static_cast<std::size_t>(zeros), 0);
      twos = -32 * zeros;
      for (int left = -exponent; left > 0; left -= 9) {
        if (whole.divide(power(10, std::min(left, 9))) != 0) more = true;
      }
    }
    out.value = nearest(whole, twos, more);
  }
  if (minus) out.value = -out.value;
  return out;
}

}  // namespace tallyblock
