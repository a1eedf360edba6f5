// The pen of explain*.cpp: numbers of a sum in one style, and a line from its parts.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "explain.h"
#include "web/words/words.h"

namespace tallyblock::explain {

// What every sum about money is made of; absent until the net cost of some primary weight is known.
struct Costs {
  Money paid, credit;
  // An invoice total needs no weight of the whole piece; then these are absent.
  std::optional<PricePerMass> price;
  std::optional<Mass> whole;
};
std::optional<Costs> costs_of(const Figures& figures);
// What the cost of the primary part lacks; never empty.
std::vector<Code> missing_costs(const Figures& figures);

class Writer {
 public:
  Writer(const Figures& figures, const show::Style& style) : f(figures), s(style) {}

  // A number of a sum; a negative one stands in brackets.
  std::string n(double value) const {
    const std::string text = show::exact(value, s);
    return value < 0.0 && text.starts_with('-') ? "(" + text + ")" : text;
  }
  std::string w(Mass mass) const { return n(show::in_unit(mass, s)); }  // in the weight unit
  std::string k(Mass mass) const { return n(mass.in(s.price_unit)); }   // in the price unit
  std::string c(Money money) const { return n(money.in_units()); }
  std::string p(PricePerMass price) const { return n(price.per(s.price_unit)); }
  std::string per() const { return say("show.per-unit", {show::price_unit_name(s)}); }

  std::string weight_shown(Mass mass) const {
    return show::number(show::in_unit(mass, s), s.weight_decimals, s) + " " + show::unit_name(s);
  }

  // The label is figure.<key>, the sentence explain.<key> with {0} the sum and {1} the figure.
  Line line(std::string_view key, std::string value, std::string unit, const std::string& sum,
            const std::string& subject = {}, const std::string& name = {}) const {
    Line out = blank(key, {}, subject, name);
    const std::string figure = unit.empty() ? value : value + " " + unit;
    out.sentence = say("explain." + std::string(key), {sum, figure, name});
    out.value = std::move(value);
    out.unit = std::move(unit);
    return out;
  }
  Line money(std::string_view key, Money value, const std::string& sum,
             const std::string& subject = {}, const std::string& name = {}) const {
    return line(key, show::money(value, s), {}, sum, subject, name);
  }
  Line price(std::string_view key, PricePerMass value, const std::string& sum) const {
    return line(key, show::money_figures(value.per(s.price_unit), s), per(), sum);
  }
  // The unit is in its name.
  Line per_weight(std::string_view key, PricePerMass value, const std::string& sum) const {
    Line out = line(key, show::money_figures(value.per(s.price_unit), s), per(), sum, {},
                    show::price_unit_name(s));
    out.unit.clear();
    return out;
  }
  // In pounds and ounces the sum is in ounces, the figure shown as on the scale.
  Line mass(std::string_view key, Mass value, const std::string& sum,
            const std::string& subject = {}, const std::string& name = {}) const {
    Line out = line(key, weight_shown(value), {}, sum, subject, name);
    out.value = show::mass(value, s);
    return out;
  }
  Line share(std::string_view key, double ratio, const std::string& sum,
             const std::string& subject = {}, const std::string& name = {}) const {
    return line(key, show::percent(ratio, s), {}, sum, subject, name);
  }
  Line blank(std::string_view key, std::vector<Code> needs, const std::string& subject = {},
             const std::string& name = {}) const {
    Line out;
    out.id = subject.empty() ? std::string(key) : std::string(key) + ":" + subject;
    out.label = say("figure." + std::string(key), {name});
    out.needs = std::move(needs);
    return out;
  }

  const Figures& f;
  const show::Style& s;
};

}  // namespace tallyblock::explain
