// What stands on the front of the result: the one answer or the card in its place, and the two pictures.
#include <algorithm>

#include "result_parts.h"
#include "web/screens/breakdown_drawn.h"
#include "web/screens/price_fields.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

bool is_beyond(const Figures& f) {
  const bool doubted =
      std::ranges::find(f.doubts, Code::doubt_loss_negative, &Doubt::code) != f.doubts.end();
  const auto& whole = f.incoming.as_purchased;
  if (doubted || !whole || whole->value() <= Mass()) return doubted;
  const Mass usable = f.primary.value() + f.secondary.value() + f.usable_trim.value();
  return usable > whole->value() + Mass::grams(1e-6);
}

Wanted wanted_by(Code code) {
  switch (code) {
    case Code::need_whole_weight: return Wanted::whole;
    case Code::need_price: return Wanted::price;
    case Code::need_primary:
    case Code::need_usable:
    case Code::need_readings: return Wanted::portions;
    default: return Wanted::other;
  }
}

bool costs_known(const Figures& f) {
  return f.yield && f.yield->cost_per_primary && f.primary.value() > Mass();
}

void go_weighing(Ui& ui, std::string_view label, bool goes_on) {
  if (!ui.kit.button("result/go-on", label, {.kind = ButtonKind::primary})) return;
  // Who is cutting to marks goes on there.
  const CuttingView* cutting = ui.app.desk().cutting().main();
  const bool marks = goes_on && cutting != nullptr &&
                     std::ranges::any_of(cutting->objects, [](const CuttingObject& object) {
                       return !object.cuts.empty() && object.advice && !object.advice->done;
                     });
  ask::go(ui.app, marks ? Screen::cut : Screen::weigh);
  if (marks) ask::open_panel(ui.app, "guide");
}

void too_much_card(Ui& ui) {
  const Figures& f = ui.figures();
  auto panel = ui.kit.panel(Ground::bad);
  ui.kit.heading(say("result.over", {whole_missed(ui)}), 1, "result/card");
  ui.kit.paragraph(say("result.beyond-whole"), Tone::bad, "result/beyond-whole");
  std::size_t at = 0;
  for (const Doubt& doubt : f.doubts) {
    if (is_slip(doubt.code))
      ui.kit.paragraph(doubt_words(f, ui.style, doubt), Tone::bad,
                       "result/slip/" + std::to_string(++at));
  }
  if (ui.kit.button("result/readings", say("result.see-weights"), {.kind = ButtonKind::primary})) {
    ask::go(ui.app, Screen::weigh);
    ask::open_panel(ui.app, "readings");
  }
}

void left_card(Ui& ui) {
  const Figures& f = ui.figures();
  auto panel = ui.kit.panel(Ground::raised);
  ui.kit.heading(say("result.left", {whole_missed(ui)}), 1, "result/card");
  const bool begun = f.steps.front().outputs.value() > Mass();
  const auto& whole = f.incoming.as_purchased;
  if (whole && whole->value() > Mass() && f.primary.value() > Mass()) {
    const std::string share = show::percent(f.primary.value() / whole->value(), ui.style);
    ui.kit.paragraph(say("result.so-far", {share, portions_name(f)}), Tone::normal,
                     "result/so-far");
  }
  go_weighing(ui, say("result.go-on"), true);
  if (!begun) return;
  if (ui.kit.button("result/all-weighed", say("result.all-weighed"),
                    {.detail = say("result.all-weighed-then", {whole_missed(ui)})})) {
    ask::set_session_setting(ui.app, std::string(kAllWeighed), "yes");
  }
}

void asking_card(Ui& ui, Wanted what) {
  auto panel = ui.kit.panel(Ground::raised);
  switch (what) {
    case Wanted::whole:
      ui.kit.heading(say("result.ask-whole"), 1, "result/card");
      return field(ui, {FieldKind::drained, ""}, {});
    case Wanted::price:
      ui.kit.heading(say("result.ask-price"), 1, "result/card");
      return price_fields(ui);
    case Wanted::target: {
      const std::string pile = first_primary(ui.figures());
      ui.kit.heading(say("result.ask-target"), 1, "result/card");
      return field(ui, {FieldKind::target, pile}, {}, explain::pile_name(ui.figures(), pile));
    }
    case Wanted::portions:
      ui.kit.heading(say("result.ask-portions"), 1, "result/card");
      return go_weighing(ui, say("go.weigh"), false);
    default: return needs(ui, "result/needs", {ui.figures().needs.front()});
  }
}

// What is told of one slab of the pictures: the open panel.
constexpr std::string_view kSlab = "slab:";

std::string touched(const Ui& ui) {
  return ui.panel().starts_with(kSlab) ? ui.panel().substr(kSlab.size()) : std::string();
}

void slab_line(Ui& ui, const BreakdownRow& row, const std::string& rest) {
  std::string told = row.weight_shown;
  for (const std::string& more : {row.share_shown, row.money_shown}) {
    if (!more.empty()) told = say("result.and", {told, more});
  }
  ui.kit.figure("result/slab", row.is_rest ? rest : row.name, told);
  const PileFigures* pile = row.pile.empty() ? nullptr : pile_named(ui.figures(), row.pile);
  if (pile != nullptr && is_usable_besides(*pile)) {
    field(ui, {FieldKind::pile_value, pile->key}, price_or_empty(pile->value, ui.style));
  }
}

}  // namespace

const TargetFigures* answered_target(const Figures& figures) {
  const auto target = std::ranges::find_if(
      figures.targets, [](const TargetFigures& one) { return one.cost.has_value(); });
  return target == figures.targets.end() ? nullptr : &*target;
}

std::string portions_name(const Figures& figures) {
  const auto count = std::ranges::count(figures.piles, Role::primary, &PileFigures::role);
  return count == 1 ? explain::pile_name(figures, first_primary(figures)) : say("pile.portions");
}

std::string whole_missed(const Ui& ui) {
  const Figures& f = ui.figures();
  const auto left = left_to_weigh(f);
  if (left && *left != Mass()) return show::mass(*left < Mass() ? -*left : *left, ui.style);
  const Mass usable = f.primary.value() + f.secondary.value() + f.usable_trim.value();
  return f.incoming.as_purchased ? show::mass(usable - f.incoming.as_purchased->value(), ui.style)
                                 : std::string();
}

Wanted wanted(const Ui& ui) {
  const Figures& f = ui.figures();
  if (is_beyond(f)) return Wanted::too_much;
  if (not_all_weighed(f)) return Wanted::left;
  if (!costs_known(f)) return f.needs.empty() ? Wanted::portions : wanted_by(f.needs.front());
  return f.targets.empty() && !first_primary(f).empty() ? Wanted::target : Wanted::nothing;
}

bool lacks_the_answer(Wanted what) { return what != Wanted::nothing && what != Wanted::target; }

void card(Ui& ui, Wanted what) {
  if (what == Wanted::nothing) return;
  if (what == Wanted::too_much) return too_much_card(ui);
  if (what == Wanted::left) return left_card(ui);
  asking_card(ui, what);
}

void answer(Ui& ui) {
  const Figures& f = ui.figures();
  const TargetFigures* target = answered_target(f);
  if (target == nullptr) {
    const auto price = f.yield ? f.yield->cost_per_primary : std::nullopt;
    if (!price) return;  // it lacks the answer
    const std::string label =
        say("result.per-weight", {portions_name(f), show::price_unit_name(ui.style)});
    return ui.kit.figure("result/answer", label,
                         show::money_figures(price->per(ui.style.price_unit), ui.style),
                         {.size = FigureSize::huge});
  }
  const auto shown = show::portion_shown(*target, ui.style);
  if (!shown) return;
  const std::string name = explain::pile_name(f, target->pile);
  const std::string weight = show::mass(target->target, ui.style);
  const bool plain = name == say("pile.portions");
  ui.kit.figure(
      "result/answer",
      plain ? say("result.portion-costs", {weight}) : say("result.one-costs", {name, weight}),
      shown->total, {.size = FigureSize::huge});
  ui.kit.paragraph(shown->work.empty() ? say("result.without-work")
                                       : say("result.goods-and-work", {shown->goods, shown->work}),
                   shown->work.empty() ? Tone::quiet : Tone::normal, "result/answer-parts");
}

void missing_counts(Ui& ui) {
  const Figures& f = ui.figures();
  if (!f.loss || std::ranges::find(f.doubts, Code::doubt_loss_high, &Doubt::code) == f.doubts.end())
    return;
  ui.kit.paragraph(say("result.missing-counts", {show::mass(f.loss->value(), ui.style)}),
                   Tone::warn, "result/missing-counts");
}

// What nobody has valued makes the portions dearer than they may be; on the screen it is valued from there.
void unvalued(Ui& ui, bool on_screen) {
  std::string names, first;
  for (const PileFigures& pile : ui.figures().piles) {
    if (!is_usable_besides(pile) || pile.value) continue;
    if (names.empty()) first = pile.key;
    const std::string name = explain::pile_name(pile);
    names = names.empty() ? name : say("result.and", {names, name});
  }
  if (names.empty()) return;
  const std::string words = say("result.unvalued", {names});
  if (!on_screen) return ui.kit.paragraph(words, Tone::quiet, "result/unvalued");
  if (ui.kit.button("result/unvalued", words)) ask::edit(ui.app, {FieldKind::pile_value, first});
}

void pictures(Ui& ui, Wanted what, PieceSize size) {
  const Breakdown breakdown = breakdown_of(ui.figures(), ui.style);
  if (breakdown.rows.empty() || !breakdown.whole) return;
  const std::string rest = say(what == Wanted::left ? "weigh.not-weighed-yet" : "result.loss");
  const bool on_screen = size == PieceSize::small;
  const std::string lit = on_screen ? touched(ui) : std::string();
  const Piece weight = weight_piece(breakdown, say("result.weight-bought"), rest, lit);
  const bool both = breakdown.cost && !lacks_the_answer(what);
  const auto slab = both ? weight_and_money(ui.kit, "result/pictures", weight,
                                            money_piece(breakdown, say("result.paid"), lit), size)
                         : touched_piece(ui.kit, "result/picture", weight);
  if (slab && *slab < breakdown.rows.size()) {
    const std::string key = slab_key(breakdown.rows[*slab]);
    ask::open_panel(ui.app, key == lit ? "" : std::string(kSlab) + key);
  }
  const auto row = std::ranges::find(breakdown.rows, lit, slab_key);
  if (!lit.empty() && row != breakdown.rows.end()) slab_line(ui, *row, rest);
}

}  // namespace tallyblock
