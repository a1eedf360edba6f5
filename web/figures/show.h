// Figures as text: the one place where a quantity is rounded and given its unit.
//
// One session is shown in one weight unit, the one it is entered in, so that columns align and the
// figure on the screen is the figure on the scale. Decimals follow the scale's division. Percentages
// have one decimal, factors two, money the decimals of its currency. Amounts of money are rounded half
// up, away from zero, as a till does; everything else half to even (core/base/rounding.h): once, here. A figure that is not finite is shown as a word, never as "nan" or
// "inf"; nothing is shown as "-0.00".
#pragma once
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/session/session.h"

namespace tallyblock::show {

struct Style {
  WeightStyle weight = WeightStyle::grams;
  int weight_decimals = 0;  // of the (smaller) unit shown
  MassUnit price_unit = MassUnit::kilogram;
  std::string currency = "EUR";  // ISO code as entered
  char mark = '.';               // decimal mark: '.' or ',', the reader's
  bool month_first = false;      // "Nov 25, 2026"
  bool twelve_hours = false;     // "9:13 am"
};

// Unit, currency and digits are the session's; mark, dates and hours are the reader's and filled in by
// who shows (screens.cpp).
Style style_of(const Settings& settings);
// Grams have a tenth where a weight on a pile was read with one: 12.5 there is never 12.
Style style_of(const Figures& figures);
// From texts, e.g. of a sessions list: unit "g", price unit "kg", division typed ("1 g").
Style style_from(std::string_view unit, std::string_view price_unit, std::string_view currency,
                 std::string_view division);

// A figure as somebody typed it ("12,5 kg", "8 1/2 oz"; core/typed/typed.h) with the reader's decimal mark.
std::string typed(std::string_view text, char mark);
inline std::string typed(std::string_view text, const Style& style) {
  return typed(text, style.mark);
}

// Fixed decimals with the style's decimal mark.
std::string number(double value, int decimals, const Style& style);
// As many decimals as the value needs, at most 7 significant digits: for sentences that show a sum.
std::string exact(double value, const Style& style);

std::string mass(Mass mass, const Style& style);  // "3420 g", "7 lb 8.5 oz"
std::string unit_name(const Style& style);        // "g"; "oz" where pounds and ounces
// The value in the unit of unit_name, for sums.
double in_unit(Mass mass, const Style& style);
std::string money(Money money, const Style& style);           // "18.80 €", "$18.80"
std::string money_figures(double units, const Style& style);  // with the currency, from a number
std::string price(PricePerMass price, const Style& style);    // "18.80 € per kg"
// Digits as typed, with the sign of the currency where that stands.
std::string typed_money(std::string_view digits, const Style& style);
std::string currency_name(const Style& style);            // "€", "CHF"
std::string price_unit_name(const Style& style);          // "kg", "lb"
std::string percent(double ratio, const Style& style);    // 0.615 -> "61.5 %"
std::string factor(double value, const Style& style);     // "1.43"
std::string minutes(double minutes, const Style& style);  // "38 min", "23.3 min", "1 h 5 min"
std::string clock(std::int64_t ms);                       // running timer: "0:12" h:min
// "25 Nov 2026, 09:13" or "Nov 25, 2026, 9:13 am"; 0: not certain
std::string date(std::int64_t utc_ms, int offset_minutes, const Style& style);
int money_decimals(std::string_view currency);  // 2; 0 for JPY and the like

// The cost lines as they are shown wherever they are shown: they add up to the cost.
struct CostShown {
  double net = 0.0, credit = 0.0;       // of the portions; of the other piles together
  std::map<std::string, double> piles;  // by key, those that are credited
};
// What one portion costs, as shown everywhere; where the cents do not add up the larger part takes one.
struct PortionShown {
  std::string total, goods, work;  // without labour only the total
};
// Absent while its cost is not known.
std::optional<PortionShown> portion_shown(const TargetFigures& target, const Style& style);
// Absent while the net cost is not known.
std::optional<CostShown> cost_shown(const Figures& figures, const Style& style);
// Every part rounded by itself, in whole units of the last decimal, gives the rounded total.
bool adds_up(const std::vector<double>& parts, double total, int decimals);

}  // namespace tallyblock::show
