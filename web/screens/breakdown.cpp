#include "breakdown.h"

#include <cmath>

#include "core/rounding.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr double kNothing = 1e-6;  // grams: less than any scale shows

void add_row(Breakdown& out, const std::string& name, Look look, std::uint8_t variant, Mass weight,
             bool is_rest = false) {
  BreakdownRow row;
  row.name = name;
  row.look = look;
  row.variant = variant;
  row.weight = weight;
  row.is_rest = is_rest;
  out.rows.push_back(std::move(row));
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
    add_row(out, explain::pile_name(pile), look_of(pile.role), variant_of(figures, pile),
            pile.kept.value());
    out.rows.back().pile = pile.key;
    if (!net) continue;
    out.rows.back().money = pile.role == Role::primary
                                ? *net * (pile.kept.value() / figures.primary.value())
                                : pile.worth.value_or(Money());
  }
}

void add_lines_of_delivery(Breakdown& out, const Figures& figures) {
  const IncomingFigures& in = figures.incoming;
  const auto line = [&](const std::optional<Measured>& part, std::string_view key,
                        std::uint8_t variant) {
    if (part && std::abs(part->value().in_grams()) >= kNothing) {
      add_row(out, say(key), Look::loss, variant, part->value());
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
    shares.push_back(row.look == Look::primary ? row.money.in_units() : 0.0);
  }
  const double unit = std::pow(10.0, -decimals);
  const auto cents = shares_that_add_up(shares, decimals, std::llround(shown->net / unit));
  for (std::size_t i = 0; i < shares.size(); ++i) {
    BreakdownRow& row = out.rows[i];
    const auto credit = shown->piles.find(row.pile);
    const bool credited = row.look != Look::primary && credit != shown->piles.end();
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

Slab slab_of(const BreakdownRow& row, bool money) {
  Slab slab;
  slab.name = row.name;
  slab.amount = money ? row.money_shown : row.weight_shown;
  slab.share = money ? std::string() : row.share_shown;
  slab.value = money ? row.money.in_units() : row.weight.in_grams();
  slab.look = row.look;
  slab.variant = row.variant;
  return slab;
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
      add_row(out, {}, rest > Mass() ? Look::loss : Look::unweighed, 0, rest, true);
    }
  }
  if (out.cost) out.cost_shown = show::money(*out.cost, style);
  write_columns(out, figures, style);
  return out;
}

Piece weight_piece(const Breakdown& breakdown, const std::string& title,
                   const std::string& rest_name) {
  Piece piece;
  piece.title = title;
  piece.whole = breakdown.whole_shown;
  piece.value = breakdown.whole ? breakdown.whole->in_grams() : 0.0;
  for (const BreakdownRow& row : breakdown.rows) {
    if (!row.is_rest) {
      piece.slabs.push_back(slab_of(row, false));
    } else if (row.weight > Mass()) {
      piece.rest_name = rest_name;
      piece.rest_amount = row.weight_shown;
      piece.rest_share = row.share_shown;
    }
  }
  return piece;
}

Piece money_piece(const Breakdown& breakdown, const std::string& title) {
  Piece piece;
  piece.title = title;
  piece.whole = breakdown.cost_shown;
  piece.value = breakdown.cost ? breakdown.cost->in_units() : 0.0;
  for (const BreakdownRow& row : breakdown.rows) {
    if (!row.is_rest) piece.slabs.push_back(slab_of(row, true));
  }
  return piece;
}

void breakdown_table(Ui& ui, const Breakdown& breakdown, const std::string& rest_name) {
  const std::string part = say("result.part"), weight = say("result.weight");
  const std::string share = say("result.share"), money = say("result.money");
  const std::vector<TableColumn> columns = {
      {part, false}, {weight, true}, {share, true}, {money, true}};
  std::vector<TableRow> rows;
  for (const BreakdownRow& row : breakdown.rows) {
    TableRow line;
    const std::string rest = row.weight < Mass() ? say("result.too-much") : rest_name;
    line.cells = {row.is_rest ? rest : row.name, row.weight_shown, row.share_shown,
                  row.money_shown};
    line.look = row.look;
    line.variant = row.variant;
    line.quiet = row.is_rest;
    rows.push_back(std::move(line));
  }
  TableRow total;
  total.cells = {say("result.whole"), breakdown.whole_shown,
                 breakdown.whole ? show::percent(1.0, ui.style) : std::string(),
                 breakdown.cost_shown};
  total.total = true;
  rows.push_back(std::move(total));
  ui.kit.table("result/table", say("result.table"), columns, rows);
  if (!breakdown.adds_up) ui.kit.paragraph(say("result.rounded"), Tone::quiet, "result/rounded");
}

}  // namespace tallyblock
