// Where the weight and the money went, and what it means.
#include <algorithm>

#include "result_parts.h"
#include "web/screens/breakdown_drawn.h"
#include "web/screens/screen_list.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

std::string bought(const Ui& ui) {
  const Figures& f = ui.figures();
  if (!f.incoming.as_purchased) return say("result.bought-unknown");
  const std::string whole = show::mass(f.incoming.as_purchased->value(), ui.style);
  if (!f.yield || !f.yield->price) return say("result.bought-no-price", {whole});
  return say("result.bought", {whole, show::price(*f.yield->price, ui.style)});
}

void pictures(Ui& ui) {
  const Breakdown breakdown = breakdown_of(ui.figures(), ui.style);
  // What is missing beyond the usual is not lost yet: the work goes on.
  const bool much = std::ranges::any_of(
      ui.figures().doubts, [](const Doubt& doubt) { return doubt.code == Code::doubt_loss_high; });
  const bool sorted = std::ranges::any_of(
      ui.figures().piles, [](const PileFigures& pile) { return !pile.lines.empty(); });
  const std::string rest = say(sorted && !much ? "result.loss" : "weigh.not-weighed-yet");
  if (breakdown.rows.empty()) return;
  ui.kit.heading(say("result.where-it-went"), 2);
  if (breakdown.cost && breakdown.whole) {
    weight_and_money(ui.kit, "result/pictures", weight_piece(breakdown, say("result.weight"), rest),
                     money_piece(breakdown, say("result.money")));
  } else {
    piece_picture(ui.kit, "result/picture", weight_piece(breakdown, say("result.weight"), rest));
  }
  breakdown_table(ui, breakdown, rest);
}

// Usable piles nobody has valued: the portions would carry what these are worth.
void unvalued(Ui& ui) {
  std::vector<const PileFigures*> piles;
  for (const PileFigures& pile : ui.figures().piles) {
    const bool usable = pile.role == Role::secondary || pile.role == Role::usable_trim;
    if (usable && pile.counted && !pile.value && pile.kept.value() > Mass()) piles.push_back(&pile);
  }
  if (piles.empty()) return;
  ui.kit.paragraph(say("result.no-value"), Tone::quiet, "result/no-value");
  auto grid = ui.kit.grid(2, 144);
  for (const PileFigures* pile : piles) {
    field(ui, {FieldKind::pile_value, pile->key}, {}, explain::pile_name(*pile));
  }
}

void missing(Ui& ui) {
  unvalued(ui);
  const Figures& f = ui.figures();
  std::vector<Code> codes = f.needs;
  if (f.targets.empty()) codes.push_back(Code::need_target);
  if (codes.empty()) return;
  ui.kit.heading(say("result.still-needed"), 2);
  auto grid = ui.kit.grid(2, 240);
  needs(ui, "result/needs", codes);
}

void eye_calls(Ui& ui) {
  for (const EyeCallFigures& call : ui.figures().eye_calls) {
    if (!call.weighed) continue;
    ui.kit.paragraph(say("result.eye-call", {show::percent(call.called, ui.style),
                                             show::percent(*call.weighed, ui.style)}));
  }
}

void left(Ui& ui) {
  pictures(ui);
  doubts(ui, "result/doubt");
  ui.kit.heading(say("result.yield"), 2);
  const explain::Lines yields = explain::yields(ui.figures(), ui.style);
  figure_lines(ui, yields);
  if (yields.empty()) {
    ui.kit.paragraph(say("result.beyond-whole"), Tone::bad, "result/beyond-whole");
  }
  eye_calls(ui);
}

void right(Ui& ui) {
  costs_part(ui);
  make_or_buy_part(ui);
  portions_part(ui);
  factors_part(ui);
  new_price_part(ui);
}

void body_of_result(Ui& ui) {
  auto body = ui.kit.scroll("result/body");
  ui.kit.paragraph(bought(ui), Tone::quiet, "result/bought");
  // What is not weighed yet would be carried by what is: said before the figures.
  if (const auto missed = not_all_weighed(ui.figures())) {
    ui.kit.paragraph(say("result.not-all", {show::mass(*missed, ui.style)}), Tone::warn,
                     "result/not-all");
  }
  figure_lines(ui, explain::headline(ui.figures(), ui.style), FigureSize::key);
  missing(ui);
  if (ui.kit.broad()) {
    auto sides = ui.kit.row({1, 1});
    {
      auto column = ui.kit.column();
      left(ui);
    }
    auto column = ui.kit.column();
    right(ui);
  } else {
    left(ui);
    right(ui);
  }
}

}  // namespace

void result_screen(Ui& ui) {
  top(ui, title_of(ui.figures()), "result/title");
  warnings(ui);
  over_keypad(ui, body_of_result);
}

}  // namespace tallyblock
