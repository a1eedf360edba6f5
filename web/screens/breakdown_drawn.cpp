#include "breakdown_drawn.h"

#include "web/words/words.h"

namespace tallyblock {
namespace {

// More weighed than there was: an empty outline.
Look look_of(const BreakdownRow& row) {
  if (row.role) return look_of(*row.role);
  return row.is_rest && row.weight < Mass() ? Look::unweighed : Look::loss;
}

bool is_lit(const BreakdownRow& row, std::string_view lit) {
  return !lit.empty() && slab_key(row) == lit;
}

Slab slab_of(const BreakdownRow& row, bool money) {
  Slab slab;
  slab.name = row.name;
  slab.amount = money ? row.money_shown : row.weight_shown;
  slab.share = money ? std::string() : row.share_shown;
  slab.value = money ? row.money.in_units() : row.weight.in_grams();
  slab.look = look_of(row);
  slab.variant = row.place;
  return slab;
}

}  // namespace

std::string slab_key(const BreakdownRow& row) {
  return !row.pile.empty() ? row.pile : row.is_rest ? "rest" : row.name;
}

Piece weight_piece(const Breakdown& breakdown, const std::string& title,
                   const std::string& rest_name, std::string_view lit) {
  Piece piece;
  piece.title = title;
  piece.whole = breakdown.whole_shown;
  piece.value = breakdown.whole ? breakdown.whole->in_grams() : 0.0;
  for (const BreakdownRow& row : breakdown.rows) {
    if (!row.is_rest) {
      piece.slabs.push_back(slab_of(row, false));
      piece.slabs.back().lit = is_lit(row, lit);
    } else if (row.weight > Mass()) {
      piece.rest_name = rest_name;
      piece.rest_amount = row.weight_shown;
      piece.rest_share = row.share_shown;
      piece.rest_lit = is_lit(row, lit);
    }
  }
  return piece;
}

Piece money_piece(const Breakdown& breakdown, const std::string& title, std::string_view lit) {
  Piece piece;
  piece.title = title;
  piece.whole = breakdown.cost_shown;
  piece.value = breakdown.cost ? breakdown.cost->in_units() : 0.0;
  for (const BreakdownRow& row : breakdown.rows) {
    if (row.is_rest) continue;
    piece.slabs.push_back(slab_of(row, true));
    piece.slabs.back().lit = is_lit(row, lit);
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
    line.look = look_of(row);
    line.variant = row.place;
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
