#include "show.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>

#include "core/base/power.h"
#include "core/base/rounding.h"
#include "web/words/words.h"

namespace tallyblock::show {
namespace {

constexpr int kMostDecimals = 3;
constexpr int kSignificant = 7;

MassUnit unit_of(WeightStyle style) {
  switch (style) {
    case WeightStyle::grams: return MassUnit::gram;
    case WeightStyle::kilograms: return MassUnit::kilogram;
    case WeightStyle::ounces: return MassUnit::ounce;
    case WeightStyle::pounds: return MassUnit::pound;
    case WeightStyle::pounds_ounces: return MassUnit::ounce;
  }
  return MassUnit::gram;
}

// The fewest decimals in which a step of the scale can be written in the unit.
int decimals_for(Mass division, MassUnit unit) {
  double step = division.in(unit);
  if (!(step > 0.0)) return 0;
  for (int d = 0; d < kMostDecimals; ++d) {
    const double scaled = step * power_of_ten(d);
    if (std::abs(scaled - std::round(scaled)) < 1e-9) return d;
  }
  return std::clamp(static_cast<int>(std::ceil(-std::log10(step))), 0, kMostDecimals);
}

std::string with_mark(std::string text, const Style& style) {
  if (style.mark != '.') std::ranges::replace(text, '.', style.mark);
  return text;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_mark(char c) { return c == '.' || c == ','; }

struct Symbol {
  std::string_view code, text;
  bool before;
};
constexpr std::array kSymbols = {Symbol{"EUR", "€", false}, Symbol{"USD", "$", true},
                                 Symbol{"GBP", "£", true}};
constexpr std::array<std::string_view, 8> kWholeCurrencies = {"JPY", "KRW", "VND", "CLP",
                                                              "ISK", "XOF", "XAF", "UGX"};

std::string with_currency(const std::string& figures, const Style& style) {
  for (const Symbol& symbol : kSymbols) {
    if (symbol.code != style.currency) continue;
    if (!symbol.before) return figures + " " + std::string(symbol.text);
    if (figures.starts_with('-')) return "-" + std::string(symbol.text) + figures.substr(1);
    return std::string(symbol.text) + figures;
  }
  return style.currency.empty() ? figures : figures + " " + style.currency;
}

std::string two_digits(long value) { return (value < 10 ? "0" : "") + std::to_string(value); }

}  // namespace

Style style_from(std::string_view unit, std::string_view price_unit, std::string_view currency,
                 std::string_view division) {
  Style style;
  style.weight = style_named(unit);
  style.price_unit = price_unit == "lb" ? MassUnit::pound : MassUnit::kilogram;
  style.currency = std::string(currency);
  const auto typed = parse_mass(division, "division");
  const Mass step = typed ? typed->mass : Mass::grams(1.0);
  style.weight_decimals = decimals_for(step, unit_of(style.weight));
  return style;
}

Style style_of(const Settings& settings) {
  return style_from(settings.unit, settings.price_unit, settings.currency, settings.division.text);
}

Style style_of(const Figures& figures) {
  Style style = style_of(figures.settings);
  if (style.weight != WeightStyle::grams || style.weight_decimals > 0) return style;
  const auto is_finer = [](Mass mass) {
    const double grams = mass.in_grams();
    return std::abs(grams - std::round(grams)) > 0.01;
  };
  const auto read_finer = [&](const ReadingLine& line) {
    return !line.is_void && !line.outvoted && line.style == WeightStyle::grams &&
           is_finer(line.net);
  };
  for (const PileFigures& pile : figures.piles) {
    if (std::ranges::any_of(pile.lines, read_finer)) style.weight_decimals = 1;
  }
  return style;
}

std::string typed(std::string_view text, char mark) {
  std::string out(text);
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool in_number =
        (i > 0 && is_digit(text[i - 1])) || (i + 1 < text.size() && is_digit(text[i + 1]));
    if (is_mark(text[i]) && in_number) out[i] = mark;
  }
  return out;
}

std::string number(double value, int decimals, const Style& style) {
  if (!std::isfinite(value)) return say("show.not-known");
  return with_mark(fixed_text(value, decimals), style);
}

std::string exact(double value, const Style& style) {
  if (!std::isfinite(value)) return say("show.not-known");
  int whole_digits = 1;
  for (double v = std::abs(value); v >= 10.0; v /= 10.0) ++whole_digits;
  int decimals = std::clamp(kSignificant - whole_digits, 0, 9);
  // Small values keep seven significant digits too.
  for (double v = std::abs(value); v > 0.0 && v < 0.1 && decimals < 9; v *= 10.0) ++decimals;
  std::string text = fixed_text(value, decimals);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.ends_with('.')) text.pop_back();
  }
  return with_mark(text, style);
}

std::string mass(Mass mass, const Style& style) {
  if (!std::isfinite(mass.in_grams())) return say("show.not-known");
  return with_mark(mass_text(mass, style.weight, style.weight_decimals), style);
}

std::string unit_name(const Style& style) {
  switch (style.weight) {
    case WeightStyle::grams: return "g";
    case WeightStyle::kilograms: return "kg";
    case WeightStyle::pounds: return "lb";
    case WeightStyle::ounces:
    case WeightStyle::pounds_ounces: return "oz";
  }
  return "g";
}

double in_unit(Mass mass, const Style& style) { return mass.in(unit_of(style.weight)); }

std::string money_figures(double units, const Style& style) {
  if (!std::isfinite(units)) return say("show.not-known");
  return with_currency(number(round_half_up(units, money_decimals(style.currency)),
                              money_decimals(style.currency), style),
                       style);
}

std::string money(Money money, const Style& style) {
  return money_figures(money.in_units(), style);
}

// As on a price tag: 13.9 is 13.90; a whole amount stays as it is, and so does one of finer parts.
std::string typed_money(std::string_view digits, const Style& style) {
  std::string shown(digits);
  const std::size_t mark = shown.find_first_of(".,");
  if (mark != std::string::npos && mark + 2 == shown.size() && money_decimals(style.currency) == 2)
    shown += '0';
  return with_currency(shown, style);
}

std::string currency_name(const Style& style) {
  for (const Symbol& symbol : kSymbols) {
    if (symbol.code == style.currency) return std::string(symbol.text);
  }
  return style.currency;
}

std::string price_unit_name(const Style& style) {
  return style.price_unit == MassUnit::pound ? "lb" : "kg";
}

std::string price(PricePerMass price, const Style& style) {
  return say("show.per",
             {money_figures(price.per(style.price_unit), style), price_unit_name(style)});
}

std::string percent(double ratio, const Style& style) {
  return number(ratio * 100.0, 1, style) + " %";
}

std::string factor(double value, const Style& style) { return number(value, 2, style); }

std::string minutes(double minutes, const Style& style) {
  const double known = std::isfinite(minutes) ? minutes : 0.0;
  const double whole = round_half_even(known, 0);
  constexpr double seen = 0.05;  // of a minute: what was timed is no whole number of them
  if (known < 60.0 && std::abs(known - whole) >= seen) {
    return say("show.minutes", {number(known, 1, style)});
  }
  const long all = static_cast<long>(std::clamp(whole, 0.0, 1e7));
  if (all < 60) return say("show.minutes", {std::to_string(all)});
  return say("show.hours-minutes", {std::to_string(all / 60), std::to_string(all % 60)});
}

std::string clock(std::int64_t ms) {
  const long all = static_cast<long>(std::max<std::int64_t>(ms, 0) / 60000);
  return std::to_string(all / 60) + ":" + two_digits(all % 60);
}

std::string date(std::int64_t utc_ms, int offset_minutes, const Style& style) {
  if (utc_ms == 0) return say("show.no-date");
  using namespace std::chrono;
  const sys_time<milliseconds> local{milliseconds(utc_ms + std::int64_t{offset_minutes} * 60000)};
  const auto day = floor<days>(local);
  const year_month_day ymd{day};
  const long minute = static_cast<long>(duration_cast<std::chrono::minutes>(local - day).count());
  const long hour = minute / 60;
  const std::string minutes_shown = ":" + two_digits(minute % 60);
  const std::string time = style.twelve_hours
                               ? say(hour < 12 ? "show.am" : "show.pm",
                                     {std::to_string((hour + 11) % 12 + 1) + minutes_shown})
                               : two_digits(hour) + minutes_shown;
  const unsigned month = static_cast<unsigned>(ymd.month());
  return say(
      style.month_first ? "show.date-month-first" : "show.date",
      {std::to_string(static_cast<unsigned>(ymd.day())), say("show.month-" + std::to_string(month)),
       std::to_string(static_cast<int>(ymd.year())), time});
}

int money_decimals(std::string_view currency) {
  return std::ranges::find(kWholeCurrencies, currency) != kWholeCurrencies.end() ? 0 : 2;
}

std::optional<CostShown> cost_shown(const Figures& figures, const Style& style) {
  const int decimals = money_decimals(style.currency);
  const std::vector<CostLine> lines = cost_lines(figures, decimals);
  if (lines.empty()) return std::nullopt;
  CostShown out;
  for (const CostLine& line : lines) {
    const double amount = static_cast<double>(line.shown) / power_of_ten(decimals);
    if (line.pile.empty()) {
      out.net = amount;
    } else {
      out.piles[line.pile] = amount;
      out.credit += amount;
    }
  }
  return out;
}

std::optional<PortionShown> portion_shown(const TargetFigures& target, const Style& style) {
  if (!target.cost) return std::nullopt;
  PortionShown out;
  out.total = money(target.cost_with_labour.value_or(*target.cost), style);
  if (!target.cost_with_labour) return out;
  const int decimals = money_decimals(style.currency);
  // As a till rounds; where the two do not add up to the whole the larger one takes the cent.
  const double whole = round_half_up(target.cost_with_labour->in_units(), decimals);
  const double labour = target.cost_with_labour->in_units() - target.cost->in_units();
  double goods = round_half_up(target.cost->in_units(), decimals);
  double work = round_half_up(labour, decimals);
  (goods >= work ? goods : work) = whole - (goods >= work ? work : goods);
  out.goods = money(Money::units(goods), style);
  out.work = money_figures(work, style);
  return out;
}

bool adds_up(const std::vector<double>& parts, double total, int decimals) {
  const double power = power_of_ten(decimals);
  double missing = std::round(round_half_even(total, decimals) * power);
  for (const double part : parts) missing -= std::round(round_half_even(part, decimals) * power);
  return missing == 0.0;
}

}  // namespace tallyblock::show
