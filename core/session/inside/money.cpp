#include "money.h"

#include <algorithm>
#include <cmath>

#include "core/base/finite.h"
#include "core/base/rounding.h"

namespace tallyblock {
namespace {

MassUnit unit_of(const std::string& name) {
  if (name == "kg") return MassUnit::kilogram;
  if (name == "oz") return MassUnit::ounce;
  if (name == "lb") return MassUnit::pound;
  return MassUnit::gram;
}

// The deciding price of something, if its currency is the session's; "" counts as that.
const body::Price* price_of(const Facts& facts, Figures& figures, const std::string& of) {
  const Entry* entry = facts.winner("price:" + of);
  const auto* price = entry == nullptr ? nullptr : std::get_if<body::Price>(&entry->body);
  if (price == nullptr) return nullptr;
  if (price->currency.empty() || price->currency == figures.settings.currency) return price;
  figures.doubts.push_back(
      {Code::doubt_currency_mixed,
       "fact price:" + of,
       {entry->id},
       {Arg::fact(of), Arg::code(price->currency), Arg::code(figures.settings.currency)},
       {}});
  return nullptr;
}

PricePerMass per_mass(const body::Price& price) {
  return PricePerMass::of(Money::units(price.amount.value), unit_of(price.unit));
}

void find_cost(const Facts& facts, Figures& figures) {
  const body::Price* price = price_of(facts, figures, "piece");
  if (price == nullptr) return;
  figures.price_known = true;
  if (price->basis == PriceBasis::total) {
    figures.cost = Money::units(price->amount.value);
  } else if (figures.incoming.as_purchased && figures.incoming.as_purchased->value() > Mass()) {
    figures.cost = figures.incoming.as_purchased->value() * per_mass(*price);
  }
}

void value_piles(const Facts& facts, PileTable& table, Figures& figures) {
  for (PileFigures& pile : table.piles) {
    const body::Price* price = price_of(facts, figures, "pile:" + pile.key);
    const Mass kept = pile.kept.value();
    if (price == nullptr) {
      if (pile.role == Role::unusable_trim && pile.weight_known) pile.worth = Money();
      continue;
    }
    if (price->basis == PriceBasis::per_mass) {
      pile.value = per_mass(*price);
    } else if (kept > Mass()) {
      const auto each = ratio_of(price->amount.value, kept.in_grams());
      if (each) pile.value = PricePerMass::of(Money::units(*each), MassUnit::gram);
    }
    if (pile.value && pile.weight_known) pile.worth = kept * *pile.value;
  }
}

void test_yield(const PileTable& table, Figures& figures) {
  const auto& whole = figures.incoming.as_purchased;
  const bool weighed = whole && whole->value() > Mass();
  const bool valued = std::ranges::any_of(
      table.piles, [](const PileFigures& pile) { return pile.counted && pile.value; });
  if (!weighed && !figures.price_known && !valued) return;
  YieldTestInput input;
  if (weighed) input.as_purchased = whole->value();
  input.cost = figures.cost;
  input.primary = figures.primary.value();
  for (const PileFigures& pile : table.piles) {
    if (!pile.counted || pile.role == Role::primary) continue;
    input.others.push_back(
        {pile.kept.value(), pile.value.value_or(PricePerMass()), pile.role != Role::unusable_trim});
  }
  figures.yield = yield_test(input);
  if (figures.yield->net_cost && *figures.yield->net_cost < Money())
    figures.doubts.push_back(
        {Code::doubt_net_cost_negative, "session", {}, {*figures.yield->net_cost}, {}});
  if (weighed) figures.primary_uncertainty = ratio_uncertainty(figures.primary, *whole);
}

void add_labour(const Facts& facts, Figures& figures) {
  for (const Entry* entry : facts.counted()) {
    const auto* labour = std::get_if<body::Labour>(&entry->body);
    if (labour == nullptr) continue;
    figures.minutes_known = true;
    if (labour->minutes) figures.minutes_typed += labour->minutes->value;
    if (labour->measured_ms)
      figures.minutes_timed += static_cast<double>(*labour->measured_ms) / 60000.0;
  }
  figures.minutes = figures.minutes_timed + figures.minutes_typed;
  figures.labour_known = figures.minutes_known && figures.settings.wage_per_hour.has_value();
  if (figures.labour_known)
    figures.labour = labour_cost(figures.minutes, *figures.settings.wage_per_hour);
}

void find_miscut_pile(const PileTable& table, Figures& figures) {
  for (const PileFigures& pile : table.piles) {
    if (!pile.counted || pile.role != Role::usable_trim || !pile.value) continue;
    if (!figures.miscut_pile.empty() && !(*pile.value > figures.miscut_value)) continue;
    figures.miscut_pile = pile.key;
    figures.miscut_value = *pile.value;
  }
}

// The target of the portions, if all piles of them that have one agree.
std::optional<TypedMass> one_target(const Facts& facts, const PileTable& table) {
  std::optional<TypedMass> one;
  for (const PileFigures& pile : table.piles) {
    const auto* target = facts.find<body::Target>("target:" + pile.key);
    if (!pile.counted || pile.role != Role::primary || target == nullptr) continue;
    if (one && one->mass != target->weight.mass) return std::nullopt;
    one = target->weight;
  }
  return one;
}

// What `price`, a total, comes to per weight.
void price_of_pieces(const Facts& facts, const PileTable& table, const body::Price& price,
                     Figures& figures) {
  if (!price.pieces) {
    figures.ready_cut_need = Code::need_ready_cut_pieces;
    return;
  }
  PiecePrice pieces{Money::units(price.amount.value), *price.pieces, price.piece_weight, false};
  if (!pieces.each) {
    pieces.each = one_target(facts, table);
    pieces.each_from_target = pieces.each.has_value();
  }
  if (pieces.each) {
    const Mass all = static_cast<double>(pieces.pieces) * pieces.each->mass;
    if (const auto per_gram = ratio_of(price.amount.value, all.in_grams()))
      figures.ready_cut = PricePerMass::of(Money::units(*per_gram), MassUnit::gram);
  } else {
    figures.ready_cut_need = Code::need_piece_weight;
  }
  figures.piece_price = std::move(pieces);
}

void find_ready_cut(const Facts& facts, const PileTable& table, Figures& figures) {
  const body::Price* price = price_of(facts, figures, "ready-cut");
  if (price == nullptr) return;
  if (price->basis == PriceBasis::per_mass) {
    figures.ready_cut = per_mass(*price);
  } else {
    price_of_pieces(facts, table, *price, figures);
  }
  if (price->quoted_yield && price->quoted_yield->value > 0.0)
    figures.ready_cut_yield = price->quoted_yield->value;
  if (figures.ready_cut)
    figures.ready_cut_same_trim = at_same_trim(*figures.ready_cut, figures.ready_cut_yield);
}

void compare_with_buying(const Facts& facts, const PileTable& table, Figures& figures) {
  find_miscut_pile(table, figures);
  find_ready_cut(facts, table, figures);
  if (!figures.yield || !figures.cost || !figures.yield->by_product_value) return;
  if (!(figures.primary.value() > Mass())) return;
  MakeOrBuyInput input;
  if (figures.incoming.as_purchased) input.as_purchased = figures.incoming.as_purchased->value();
  input.cost = *figures.cost;
  input.by_product_value = *figures.yield->by_product_value;
  input.primary = figures.primary.value();
  input.labour = figures.labour;
  if (figures.minutes_known) input.minutes = figures.minutes;
  input.wage_per_hour = figures.settings.wage_per_hour;
  input.ready_cut = figures.ready_cut;
  input.ready_cut_yield = figures.ready_cut_yield;
  input.miscut_value = figures.miscut_value;
  figures.make_or_buy = make_or_buy(input);
  for (Code& need : figures.make_or_buy->needs)
    if (need == Code::need_ready_cut_price) need = figures.ready_cut_need.value_or(need);
}

void find_shares(PileTable& table, const Figures& figures) {
  const auto& whole = figures.incoming.as_purchased;
  if (!whole || !(whole->value() > Mass())) return;
  for (PileFigures& pile : table.piles) {
    pile.share_of_ap = finite_or(pile.kept.value() / whole->value());
    pile.share_uncertainty = ratio_uncertainty(pile.kept, *whole);
  }
}

// Where piles by difference leave a weight unknown, the weight that went on from them is counted where
// it went: on the board = roles + loss + change of weight holds all the same.
Measured counted_elsewhere(const PileTable& table, const StepFigures& step) {
  std::vector<Measured> parts;
  if (!step.unweighed) parts.push_back(step.outputs);
  for (const PileFigures& pile : table.piles) {
    if (pile.step != step.key || pile.weight_known) continue;
    parts.push_back(pile.taken_further);
    parts.push_back(pile.from_apart);
  }
  return sum_of(std::move(parts));
}

void total_losses(const PileTable& table, Figures& figures) {
  std::vector<Measured> losses, changes, elsewhere;
  bool all = true;
  for (const StepFigures& step : figures.steps) {
    if (!step.counted) continue;
    if (step.process == Process::breakdown) {
      all &= step.loss.has_value();
      if (step.loss) losses.push_back(*step.loss);
    } else {
      if (step.unweighed) changes.push_back(*step.unweighed);
      elsewhere.push_back(counted_elsewhere(table, step));
    }
  }
  figures.change_of_weight = sum_of(std::move(changes));
  if (!all || !figures.incoming.on_the_board) return;
  figures.loss = sum_of(std::move(losses));
  figures.change_of_weight -= sum_of(std::move(elsewhere));
}

}  // namespace

void total_weights(const PileTable& table, Figures& figures) {
  std::map<Role, std::vector<Measured>> kept;
  for (const PileFigures& pile : table.piles)
    if (pile.counted) kept[pile.role].push_back(pile.kept);
  figures.primary = sum_of(kept[Role::primary]);
  figures.secondary = sum_of(kept[Role::secondary]);
  figures.usable_trim = sum_of(kept[Role::usable_trim]);
  figures.unusable_trim = sum_of(kept[Role::unusable_trim]);
  total_losses(table, figures);
}

void count_money(const Facts& facts, PileTable& table, Figures& figures) {
  find_cost(facts, figures);
  value_piles(facts, table, figures);
  find_shares(table, figures);
  test_yield(table, figures);
  add_labour(facts, figures);
  compare_with_buying(facts, table, figures);
}

std::vector<CostLine> cost_lines(const Figures& figures, int decimals) {
  if (!figures.yield || !figures.yield->net_cost) return {};
  std::vector<CostLine> lines{{"", *figures.yield->net_cost, 0}};
  for (const PileFigures& pile : figures.piles)
    if (pile.counted && pile.role != Role::primary && pile.worth && pile.value)
      lines.push_back({pile.key, *pile.worth, 0});
  std::vector<double> parts;
  parts.reserve(lines.size());
  for (const CostLine& line : lines) parts.push_back(line.exact.in_units());
  const auto shown = shares_that_add_up(parts, decimals);
  for (std::size_t i = 0; i < lines.size() && i < shown.size(); ++i) lines[i].shown = shown[i];
  return lines;
}

std::optional<PriceUpdate> price_update(const Figures& figures, PricePerMass new_price) {
  if (!figures.yield || !figures.yield->cost_factor || !figures.yield->by_product_value ||
      !figures.incoming.as_purchased)
    return std::nullopt;
  PriceUpdate update;
  update.new_price = new_price;
  update.values_move = updated_values_move(*figures.yield->cost_factor, new_price);
  update.values_held =
      updated_values_held(figures.incoming.as_purchased->value(), new_price,
                          *figures.yield->by_product_value, figures.primary.value());
  return update;
}

}  // namespace tallyblock
