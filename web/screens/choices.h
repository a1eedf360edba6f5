// Choices of settings: of new sessions, of one session, of what is asked on the way.
#pragma once
#include <array>
#include <span>
#include <string>
#include <string_view>

#include "web/screens/parts.h"

namespace tallyblock {

inline constexpr std::array<std::string_view, 5> kUnits = {"g", "kg", "oz", "lb", "lb-oz"};
inline constexpr std::array<std::string_view, 2> kDecimalMarks = {".", ","};
inline constexpr std::array<std::string_view, 2> kPriceUnits = {"kg", "lb"};
inline constexpr std::array<std::string_view, 6> kCurrencies = {"EUR", "USD", "GBP",
                                                                "CHF", "CAD", "AUD"};

// One of `values`, named by words + "." + value, under the words of `label` (else of `words`); the value just picked, or "".
std::string setting_choice(Ui& ui, const std::string& path, std::string_view words,
                           std::span<const std::string_view> values, std::string_view now,
                           std::string_view label = {});

}  // namespace tallyblock
