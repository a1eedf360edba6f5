// The keypad's text rules: what a key press makes of the digits, and what the digits say with a unit.
//
// A press that would make no readable figure (a second decimal mark, a slash without a number) does
// nothing. Pounds and ounces are written into the digits by the keys "lb" and "oz" ("5 lb 8 1/2 oz").
#pragma once
#include <string>
#include <string_view>

namespace tallyblock {

inline constexpr std::size_t kMostDigits = 24;

struct KeyRules {
  bool pounds = false;     // "lb" and "oz" may be written
  bool fractions = false;  // "8 1/2"
  bool negative = false;   // a minus may stand in front
};

// key: "0".."9", ".", ",", "space", "/", "lb", "oz", "minus", "back", "clear". Others change nothing.
std::string pressed(std::string digits, std::string_view key, const KeyRules& rules);

// lb, oz or lb-oz.
bool is_imperial(std::string_view unit);

// The weight as text for parse_mass. unit: g kg oz lb lb-oz. Digits that name pounds or ounces
// themselves keep them; a number after "lb" is ounces. A bare number under "lb-oz" stays bare, so
// that it is refused: 5 could be either.
std::string weight_text(std::string_view digits, std::string_view unit);

}  // namespace tallyblock
