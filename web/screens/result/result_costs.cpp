// What the portions cost, and whether cutting it oneself was worth it.
#include <algorithm>

#include "core/base/rounding.h"
#include "result_parts.h"
#include "web/screens/price_fields.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

// In whole cents, as a till rounds: what was cut oneself is its food and its work as both are shown, what is bought
// follows from the saving.
void bought_or_cut(Ui& ui, Money saving) {
  const Figures& f = ui.figures();
  const auto costs = show::cost_shown(f, ui.style);
  if (!costs || !f.yield) return;
  const int decimals = show::money_decimals(ui.style.currency);
  const Money labour = f.labour.value_or(Money());
  const double work = round_half_up(labour.in_units(), decimals);
  const double own = costs->net + work;  // as shown above
  const double bought = own + round_half_up(saving.in_units(), decimals);
  ui.kit.paragraph(
      say("result.bought-or-cut",
          {show::mass(f.primary.value(), ui.style), show::money_figures(bought, ui.style),
           show::money_figures(own, ui.style), show::money_figures(work, ui.style)}),
      saving < Money() ? Tone::warn : Tone::good, "result/verdict");
}

// One sentence: was it worth it?
void verdict(Ui& ui) {
  const Figures& f = ui.figures();
  if (!f.make_or_buy || !f.make_or_buy->saving) return;
  if (wanted(ui) == Wanted::left || wanted(ui) == Wanted::too_much) {
    ui.kit.paragraph(say("result.verdict-later"), Tone::warn, "result/verdict-later");
    return;
  }
  if (!f.minutes_known) {
    ui.kit.paragraph(say("result.no-minutes"), Tone::warn, "result/no-minutes");
    return;
  }
  if (!explain::is_work_known(f)) {
    ui.kit.paragraph(say("result.no-wage"), Tone::warn, "result/no-wage");
    return;
  }
  const Money saving = *f.make_or_buy->saving;
  bought_or_cut(ui, saving);
  const auto& may_be_spoiled = f.make_or_buy->may_be_spoiled;
  if (may_be_spoiled && *may_be_spoiled < Mass()) {
    ui.kit.paragraph(say("result.none-spoiled"), Tone::quiet, "result/none-spoiled");
  }
}

// "Tail and Grind", or the other piles together where there are many.
std::string credited(const Figures& f, const show::CostShown& costs) {
  std::vector<std::string> names;
  for (const PileFigures& pile : f.piles) {
    const auto credit = costs.piles.find(pile.key);
    if (credit != costs.piles.end() && credit->second != 0.0)
      names.push_back(explain::pile_name(pile));
  }
  if (names.size() == 1) return names.front();
  if (names.size() == 2) return say("result.two", {names[0], names[1]});
  return say("result.other-piles");
}

// Grams are said in kilograms where a price is by the kilogram: the same digits.
std::string weight_of_price(Mass mass, const show::Style& s) {
  if (s.weight != WeightStyle::grams || s.price_unit != MassUnit::kilogram)
    return show::mass(mass, s);
  return say("result.kilograms",
             {show::number(mass.in(MassUnit::kilogram), 3 + s.weight_decimals, s)});
}

void costs_sentence(Ui& ui) {
  const Figures& f = ui.figures();
  const auto costs = show::cost_shown(f, ui.style);
  if (!costs || !f.yield || !f.yield->cost_per_primary || !f.cost) return;
  const std::string paid = show::money(*f.cost, ui.style);
  const std::string net = show::money_figures(costs->net, ui.style);
  const std::string weight = weight_of_price(f.primary.value(), ui.style);
  const std::string price = show::price(*f.yield->cost_per_primary, ui.style);
  ui.kit.paragraph(
      costs->credit == 0.0
          ? say("result.costs-say-plain", {paid, weight, portions_name(f), price})
          : say("result.costs-say", {paid, show::money_figures(costs->credit, ui.style),
                                     credited(f, *costs), net, weight, price}),
      Tone::normal, "result/costs-say");
  const auto worked = with_work(f);
  if (!worked || !f.labour) return;
  ui.kit.paragraph(
      say("result.costs-work", {show::money(*f.labour, ui.style), show::price(*worked, ui.style)}),
      Tone::normal, "result/costs-work");
}

bool has_unvalued(const Figures& f) {
  return std::ranges::any_of(
      f.piles, [](const PileFigures& pile) { return is_usable_besides(pile) && !pile.value; });
}

// What the other piles are worth is taken off; those nobody has valued count as nothing.
void value_fields(Ui& ui) {
  {
    auto grid = ui.kit.grid(2, 144);
    for (const PileFigures& pile : ui.figures().piles) {
      const bool other = pile.role != Role::primary && pile.counted;
      if (!other || (!is_usable_besides(pile) && !pile.value)) continue;
      field(ui, {FieldKind::pile_value, pile.key}, price_or_empty(pile.value, ui.style),
            explain::pile_name(pile));
    }
  }
  if (has_unvalued(ui.figures()))
    ui.kit.paragraph(say("result.no-value"), Tone::quiet, "result/no-value");
}

}  // namespace

bool is_usable_besides(const PileFigures& pile) {
  return pile.counted && pile.role != Role::primary && pile.role != Role::unusable_trim &&
         pile.kept.value() > Mass();
}

std::optional<PricePerMass> with_work(const Figures& f) {
  const auto food = f.yield ? f.yield->cost_per_primary : std::nullopt;
  if (!food || !f.labour) return std::nullopt;
  return (*food * f.primary.value() + *f.labour) / f.primary.value();
}

void known_figures(Ui& ui, explain::Lines lines) {
  std::erase_if(lines, [](const explain::Line& line) { return !line.known(); });
  if (!lines.empty()) figure_lines(ui, lines);
}

void costs_part(Ui& ui) {
  const Wanted what = wanted(ui);
  const Figures& f = ui.figures();
  const auto left = not_all_weighed(f);
  const bool too_much = what == Wanted::too_much;
  if (left) {
    ui.kit.paragraph(say("result.not-all", {show::mass(*left, ui.style)}), Tone::warn,
                     "result/not-all");
  } else if (!too_much) {
    costs_sentence(ui);
  }
  {
    auto inputs = ui.kit.panel(Ground::sunk);
    if (what != Wanted::price) price_fields(ui);
    value_fields(ui);
  }
  explain::Lines lines = explain::costs(f, ui.style);
  if (left || too_much) {  // the others would carry what is not weighed yet
    std::erase_if(lines, [](const explain::Line& line) { return line.id != "cost"; });
  } else {
    known_figures(ui, explain::headline(f, ui.style));
  }
  known_figures(ui, std::move(lines));
}

void work_part(Ui& ui) {
  auto inputs = ui.kit.panel(Ground::sunk);
  work_fields(ui);
}

void make_or_buy_part(Ui& ui) {
  const Figures& f = ui.figures();
  verdict(ui);
  if (has_unvalued(f)) ui.kit.paragraph(say("result.no-value"), Tone::quiet, "result/no-value");
  {
    auto inputs = ui.kit.panel(Ground::sunk);
    ready_cut_fields(ui);
    if (!explain::is_work_known(f)) work_fields(ui);
  }
  if (f.ready_cut_need) needs(ui, "result/ready-cut", {*f.ready_cut_need});
  if (wanted(ui) == Wanted::left || wanted(ui) == Wanted::too_much) return;
  known_figures(ui, explain::make_or_buy(f, ui.style));
  if (!f.make_or_buy) return;
  for (const Code code : f.make_or_buy->needs) {
    if (code == Code::need_prices_apart) needs(ui, "result/make-or-buy", {code});
  }
}

}  // namespace tallyblock
