#include "breakdown.h"

#include <cmath>

#include "core/base/power.h"
#include "core/base/rounding.h"
#include "explain.h"
#include "names.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr double kNothing = 1e-6;  // grams: less than any scale shows

BreakdownRow& add_row(Breakdown& out, const std::string& name, Mass weight) {
  BreakdownRow row;
  row.name = name;
  row.weight = weight;
  return out.rows.emplace_back(std::move(row));
}

void add_piles(Breakdown& out, const Figures& figures) {
  std::optional<Money> net;
  const auto& yield = figures.yield;
  if (yield && yield->net_cost && yield->cost && figures.primary.value() > Mass()) {
    net = yield->net_cost;
    out.cost = yield->cost;
  }
  for (const PileFigures& pile : figures.piles) {
    if (!pile.counted) continue;  // cooked: its raw weight is in its place
    if (std::abs(pile.kept.value().in_grams()) < kNothing) continue;
    BreakdownRow& row = add_row(out, explain::pile_name(pile), pile.kept.value());
    row.role = pile.role;
    row.place = place_in_role(figures, pile);
    row.pile = pile.key;
    if (!net) continue;
    row.money = pile.role == Role::primary ? *net * (pile.kept.value() / figures.primary.value())
                                           : pile.worth.value_or(Money());
  }
}

void add_lines_of_delivery(Breakdown& out, const Figures& figures) {
  const IncomingFigures& in = figures.incoming;
  const auto line = [&](const std::optional<Measured>& part, std::string_view key,
                        std::uint8_t place) {
    if (part && std::abs(part->value().in_grams()) >= kNothing) {
      add_row(out, say(key), part->value()).place = place;
    }
  };
  line(in.packaging, "result.packaging", 1);
  line(in.purge, "result.purge", 2);
  line(in.short_delivery, "result.short-delivery", 3);
}

// Piles of portions share what core's cost lines show for all of them, by weight.
void write_money(Breakdown& out, const Figures& figures, const show::Style& style) {
  const auto shown = show::cost_shown(figures, style);
  if (!shown) return;
  const int decimals = show::money_decimals(style.currency);
  std::vector<double> shares;
  shares.reserve(out.rows.size());
  for (const BreakdownRow& row : out.rows) {
    shares.push_back(row.role == Role::primary ? row.money.in_units() : 0.0);
  }
  const double unit = power_of_ten(-decimals);
  const auto cents = shares_that_add_up(shares, decimals, std::llround(shown->net / unit));
  for (std::size_t i = 0; i < shares.size(); ++i) {
    BreakdownRow& row = out.rows[i];
    const auto credit = shown->piles.find(row.pile);
    const bool credited = row.role != Role::primary && credit != shown->piles.end();
    row.money_shown = show::money_figures(
        credited ? credit->second : static_cast<double>(cents[i]) * unit, style);
  }
}

void write_columns(Breakdown& out, const Figures& figures, const show::Style& style) {
  std::vector<double> weights, percents;
  for (BreakdownRow& row : out.rows) {
    row.weight_shown = show::mass(row.weight, style);
    weights.push_back(show::in_unit(row.weight, style));
    if (!out.whole) continue;
    row.share_shown = show::percent(row.weight / *out.whole, style);
    percents.push_back(row.weight / *out.whole * 100.0);
  }
  if (out.whole) {
    out.adds_up = show::adds_up(percents, 100.0, 1) &&
                  show::adds_up(weights, show::in_unit(*out.whole, style), style.weight_decimals);
  }
  if (out.cost) write_money(out, figures, style);
}

}  // namespace

Breakdown breakdown_of(const Figures& figures, const show::Style& style) {
  Breakdown out;
  add_piles(out, figures);
  const auto& whole = figures.incoming.as_purchased;
  if (whole && whole->value() > Mass()) {
    out.whole = whole->value();
    out.whole_shown = show::mass(*out.whole, style);
    add_lines_of_delivery(out, figures);
    Mass rest = *out.whole;
    for (const BreakdownRow& row : out.rows) rest -= row.weight;
    if (std::abs(rest.in_grams()) >= kNothing) {
      add_row(out, {}, rest).is_rest = true;
    }
  }
  if (out.cost) out.cost_shown = show::money(*out.cost, style);
  write_columns(out, figures, style);
  return out;
}

}  // namespace tallyblock
