// Sentences about portions, a new price, and cutting it yourself.
#include "core/base/sorted.h"
#include "explain.h"
#include "explain_writer.h"

namespace tallyblock::explain {
namespace {

std::string net(const Writer& w, const Costs& costs) {
  return "(" + w.c(costs.paid) + " − " + w.c(costs.credit) + ")";
}

std::string sum_of(const Writer& w, const std::vector<Mass>& masses) {
  std::string text;
  for (const Mass mass : masses) text += (text.empty() ? "" : " + ") + w.w(mass);
  return text.empty() ? "0" : text;
}

// One decimal more than the scale shows: halves and spreads lie between its steps.
std::string finer(const Writer& w, Mass mass) {
  return show::number(show::in_unit(mass, w.s), w.s.weight_decimals + 1, w.s) + " " +
         show::unit_name(w.s);
}

std::string count_of(std::size_t n) { return std::to_string(n); }

void add_spread(const Writer& w, const TargetFigures& t, const PortionFigures& p,
                std::vector<Mass> pieces, Lines& lines) {
  const std::string n = count_of(p.grams.n);
  const Mass mean = Mass::grams(p.grams.mean);
  lines.push_back(w.mass("portions-mean", mean, "(" + sum_of(w, pieces) + ") ÷ " + n, t.pile));
  if (p.grams.n < kFewSingles) return;
  if (p.grams.s) {
    std::string squares;
    for (const Mass piece : pieces) {
      const std::string off = "(" + w.w(piece) + " − " + w.w(mean) + ")";
      if (!squares.empty()) squares += " + ";
      squares += off;
      squares += " × ";
      squares += off;
    }
    lines.push_back(w.line("portions-s", finer(w, Mass::grams(*p.grams.s)), {},
                           "√((" + squares + ") ÷ (" + n + " − 1))", t.pile));
  }
  heap_sort(pieces);
  const std::size_t half = pieces.size() / 2;
  const std::string middle =
      pieces.size() % 2 == 1 ? w.w(pieces[half])
                             : "(" + w.w(pieces[half - 1]) + " + " + w.w(pieces[half]) + ") ÷ 2";
  lines.push_back(
      w.line("portions-median", finer(w, Mass::grams(p.grams.median)), {}, middle, t.pile));
  lines.push_back(w.mass("portions-range", pieces.back() - pieces.front(),
                         w.w(pieces.back()) + " − " + w.w(pieces.front()), t.pile));
}

void add_against(const Writer& w, const TargetFigures& t, const PortionFigures& p,
                 const std::vector<Mass>& pieces, Lines& lines) {
  lines.push_back(w.mass("portions-bias", p.bias,
                         w.w(Mass::grams(p.grams.mean)) + " − " + w.w(t.target), t.pile));
  lines.push_back(w.share("portions-within", p.share_within,
                          count_of(p.within) + " ÷ " + count_of(p.grams.n) + " × 100", t.pile));
  std::string over;
  for (const Mass piece : pieces) {
    if (piece > t.target) {
      over += (over.empty() ? "(" : " + (") + w.w(piece) + " − " + w.w(t.target) + ")";
    }
  }
  lines.push_back(w.mass("portions-over", p.over_target, over.empty() ? "0" : over, t.pile));
  const auto costs = costs_of(w.f);
  if (t.over_target_cost && costs) {
    lines.push_back(w.money(
        "portions-over-cost", *t.over_target_cost,
        w.k(p.over_target) + " × " + net(w, *costs) + " ÷ " + w.k(w.f.primary.value()), t.pile));
  }
}

// A price for pieces by weight, and either to the same trim: the quote and its yield are all they need.
void add_quoted(const Writer& w, Lines& lines) {
  const auto &quoted = w.f.ready_cut, &same_trim = w.f.ready_cut_same_trim;
  if (w.f.piece_price && w.f.piece_price->each && quoted) {
    const PiecePrice& price = *w.f.piece_price;
    lines.push_back(w.price(
        "ready-cut-by-weight", *quoted,
        w.c(price.amount) + " ÷ (" + count_of(price.pieces) + " × " + w.k(price.each->mass) + ")"));
  }
  if (!quoted || !same_trim || same_trim->per(w.s.price_unit) == 0.0) return;
  lines.push_back(
      w.price("ready-cut-same-trim", *same_trim, w.p(*quoted) + " ÷ " + w.n(*quoted / *same_trim)));
}

void add_bought(const Writer& w, const MakeOrBuy& m, PricePerMass ready_cut, const Costs& costs,
                const std::string& with_labour, Lines& lines) {
  const Figures& f = w.f;
  const std::string primary = w.k(f.primary.value());
  const std::string credit = w.c(costs.credit);
  const std::string paid = w.c(costs.paid);
  const std::string same_trim = w.p(ready_cut);
  if (m.saving && is_work_known(f)) {
    lines.push_back(w.money(
        "saving", *m.saving,
        same_trim + " × " + primary + " + " + credit + " − " + paid + " − " + w.c(m.labour)));
  }
  if (m.may_be_spoiled && m.primary_at_break_even && is_work_known(f)) {
    const std::string v = w.p(m.miscut_value);
    // Weights and prices by the price unit; the last factor turns that into the unit shown.
    const double unit = show::in_unit(Mass::of(1.0, w.s.price_unit), w.s);
    const auto shown = [&](const std::string& sum) {
      return unit == 1.0 ? sum : "(" + sum + ") × " + w.n(unit);
    };
    const std::string least =
        "(" + with_labour + " − " + v + " × " + primary + ") ÷ (" + same_trim + " − " + v + ")";
    const bool short_of = *m.may_be_spoiled < Mass();
    const std::string sum = short_of ? least + " − " + primary : primary + " − " + least;
    const std::string as =
        f.miscut_pile.empty() ? say("explain.worth-nothing") : pile_name(f, f.miscut_pile);
    lines.push_back(w.mass(short_of ? "more-needed" : "may-be-spoiled",
                           short_of ? -*m.may_be_spoiled : *m.may_be_spoiled, shown(sum), {}, as));
    if (m.may_be_binned && *m.may_be_binned > Mass() && !f.miscut_pile.empty()) {
      const std::string all = primary + " − (" + with_labour + ") ÷ " + same_trim;
      lines.push_back(w.mass("may-be-binned", *m.may_be_binned, shown(all)));
    }
  }
}

}  // namespace

Lines portion_costs(const Figures& f, const TargetFigures& t, const show::Style& style) {
  const Writer w(f, style);
  const auto costs = costs_of(f);
  if (!costs) return {};
  Lines lines;
  const std::string primary = w.k(f.primary.value());
  const std::string portion = w.k(t.target);
  if (t.cost_no_credit) {
    lines.push_back(w.money("portion-no-credit", *t.cost_no_credit,
                            portion + " × " + w.c(costs->paid) + " ÷ " + primary, t.pile));
  }
  if (t.factor && costs->price && costs->price->per(w.s.price_unit) != 0.0) {
    lines.push_back(w.line(
        "portion-factor", show::number(*t.factor, 4, w.s), {},
        portion + " × " + net(w, *costs) + " ÷ " + primary + " ÷ " + w.p(*costs->price), t.pile));
  }
  return lines;
}

Lines price_update(const Figures& f, PricePerMass new_price, const show::Style& style) {
  const Writer w(f, style);
  const auto update = tallyblock::price_update(f, new_price);
  const auto costs = costs_of(f);
  if (!update || !costs || !costs->whole) {
    return {w.blank("update-move", f.yield ? f.yield->needs : missing_costs(f))};
  }
  Lines lines;
  const std::string primary = w.k(f.primary.value());
  const std::string whole = w.k(*costs->whole);
  std::string moved = net(w, *costs);
  moved += " ÷ " + primary + " ÷ (" + w.c(costs->paid) + " ÷ " + whole + ") × " + w.p(new_price);
  lines.push_back(w.price("update-move", update->values_move, moved));
  lines.push_back(w.price(
      "update-held", update->values_held,
      "(" + whole + " × " + w.p(new_price) + " − " + w.c(costs->credit) + ") ÷ " + primary));
  for (const TargetFigures& t : f.targets) {
    lines.push_back(w.money("update-portion", t.target * update->values_move,
                            w.k(t.target) + " × " + moved, t.pile, pile_name(f, t.pile)));
  }
  return lines;
}

Lines make_or_buy(const Figures& f, const show::Style& style) {
  const Writer w(f, style);
  const auto costs = costs_of(f);
  Lines lines;
  add_quoted(w, lines);
  if (!f.make_or_buy || !costs) {
    lines.push_back(w.blank("break-even-ready-cut", missing_costs(f)));
    return lines;
  }
  const MakeOrBuy& m = *f.make_or_buy;
  const std::string credit = w.c(costs->credit);
  const std::string paid = w.c(costs->paid);
  const std::string with_labour = paid + " + " + w.c(m.labour) + " − " + credit;
  const std::string primary = w.k(f.primary.value());
  const auto& same_trim = m.ready_cut_same_trim;
  if (same_trim) add_bought(w, m, *same_trim, *costs, with_labour, lines);
  lines.push_back(w.price("break-even-ready-cut", m.break_even_ready_cut,
                          "(" + with_labour + ") ÷ " + primary));
  if (!same_trim) return lines;
  if (f.ready_cut && *f.ready_cut != *same_trim) {
    lines.push_back(
        w.price("break-even-as-quoted", m.break_even_ready_cut_as_quoted,
                "(" + with_labour + ") ÷ " + primary + " × " + w.n(*f.ready_cut / *same_trim)));
  }
  const std::string bought = w.p(*same_trim) + " × " + primary + " + " + credit;
  if (m.break_even_minutes && f.settings.wage_per_hour) {
    lines.push_back(w.line(
        "break-even-minutes", say("show.minutes", {show::number(*m.break_even_minutes, 1, w.s)}),
        {}, "(" + bought + " − " + paid + ") × 60 ÷ " + w.c(*f.settings.wage_per_hour)));
  }
  if (m.break_even_ap_price && costs->whole) {
    lines.push_back(w.price("break-even-ap-price", *m.break_even_ap_price,
                            "(" + bought + " − " + w.c(m.labour) + ") ÷ " + w.k(*costs->whole)));
  } else if (!costs->whole) {
    lines.push_back(w.blank("break-even-ap-price", {Code::need_whole_weight}));
  }
  return lines;
}

Lines portions(const Figures& f, const TargetFigures& t, const show::Style& style) {
  const Writer w(f, style);
  const std::vector<Mass>& pieces = t.singles;
  if (!t.portions || pieces.empty()) {
    return {w.blank("portions-mean", {Code::need_readings}, t.pile)};
  }
  Lines lines;
  add_spread(w, t, *t.portions, pieces, lines);
  add_against(w, t, *t.portions, pieces, lines);
  return lines;
}

}  // namespace tallyblock::explain
