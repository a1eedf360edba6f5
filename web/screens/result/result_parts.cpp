#include "result_parts.h"

#include <algorithm>

#include "core/cutting/aim.h"
#include "web/app/acts/acts_of_readings.h"
#include "web/kit/spread.h"
#include "web/screens/price_fields.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

// One sentence: was it worth it?
void verdict(Ui& ui) {
  const Figures& f = ui.figures();
  if (!f.make_or_buy || !f.make_or_buy->saving) return;
  if (not_all_weighed(f)) {
    ui.kit.paragraph(say("result.verdict-later"), Tone::warn, "result/verdict-later");
    return;
  }
  if (!f.minutes_known) {
    ui.kit.paragraph(say("result.no-minutes"), Tone::warn, "result/no-minutes");
    return;
  }
  const Money saving = *f.make_or_buy->saving;
  const bool ahead = saving > Money();
  ui.kit.paragraph(say(ahead ? "result.ahead" : "result.behind",
                       {show::money(ahead ? saving : -saving, ui.style)}),
                   ahead ? Tone::good : Tone::warn, "result/verdict");
  const auto& may_be_spoiled = f.make_or_buy->may_be_spoiled;
  if (may_be_spoiled && *may_be_spoiled < Mass()) {
    ui.kit.paragraph(say("result.none-spoiled"), Tone::quiet, "result/none-spoiled");
  }
  if (!f.labour) ui.kit.paragraph(say("result.no-labour"), Tone::quiet, "result/no-labour");
}

std::vector<const PileFigures*> primary_piles(const Figures& f) {
  std::vector<const PileFigures*> piles;
  for (const PileFigures& pile : f.piles) {
    if (pile.role == Role::primary) piles.push_back(&pile);
  }
  return piles;
}

void spread_of(Ui& ui, const TargetFigures& target, const std::string& name) {
  if (target.singles.empty()) return;
  SpreadDrawing spread;
  spread.target = static_cast<float>(target.target.in_grams());
  spread.tolerance = static_cast<float>(target.tolerance.in_grams());
  Mass least = target.singles.front(), most = least;
  for (const Mass single : target.singles) {
    spread.values.push_back(static_cast<float>(single.in_grams()));
    least = std::min(least, single);
    most = std::max(most, single);
  }
  spread.low_label = show::mass(target.target - target.tolerance, ui.style);
  spread.target_label = show::mass(target.target, ui.style);
  spread.high_label = show::mass(target.target + target.tolerance, ui.style);
  spread.name = say("result.spread", {name, show::mass(least, ui.style), show::mass(most, ui.style),
                                      spread.target_label, spread.low_label, spread.high_label});
  spread_strip(ui.kit, "result/spread/" + target.pile, spread);
}

// Where to aim next time: a short goes to the lesser pile, a gram too much is given away.
void aim_words(Ui& ui, const TargetFigures& target) {
  constexpr std::size_t few = 5;  // below that the scatter says little
  const Figures& f = ui.figures();
  if (!target.portions || target.portions->grams.n < few || !f.yield) return;
  const auto& s = target.portions->grams.s;
  const auto& price = f.yield->cost_per_primary;
  if (!s || *s <= 0.0 || !price || *price <= f.miscut_value) return;
  const Money value = target.target * *price;
  const Money short_cost = value - target.target * f.miscut_value;
  const Aim aim = where_to_aim({{}, target.target, target.tolerance, {}, value}, f.miscut_value,
                               Mass::grams(*s));
  if (aim.aim - target.target < Mass::grams(0.5)) return;  // the target, as ever
  ui.kit.paragraph(
      say("result.aim", {show::mass(aim.aim, ui.style), show::percent(aim.share_short, ui.style),
                         show::money(short_cost, ui.style), show::price(*price, ui.style),
                         show::money(value * kTrimmedWorth, ui.style)}),
      Tone::normal, "result/aim/" + target.pile);
}

// Where several were weighed together: the mean of all, and of how many the spread is.
void mean_of_all(Ui& ui, const TargetFigures& target) {
  const PileFigures* pile = pile_named(ui.figures(), target.pile);
  if (target.not_single == 0 || pile == nullptr) return;
  Mass sum;
  unsigned pieces = 0;
  for (const ReadingLine& line : pile->lines) {
    const bool alone = line.habit == Habit::piece || line.habit == Habit::taken_off;
    if (line.is_void || line.outvoted || line.covered || !alone) continue;
    sum += line.net;
    pieces += line.count;
  }
  if (pieces == 0) return;
  const std::string each = show::mass(sum / pieces, ui.style), all = std::to_string(pieces);
  const std::string single = std::to_string(target.singles.size());
  ui.kit.paragraph(
      target.singles.empty()
          ? say("result.mean-together", {each, all})
          : say("result.mean-of-all", {each, all, single, std::to_string(target.not_single)}),
      Tone::normal, "result/mean-of-all/" + target.pile);
}

// Weighed before there was a target, several together may count as one portion.
bool likely_together(Ui& ui, const TargetFigures& target, const PileFigures& pile) {
  const ReadingLine* heaviest = nullptr;
  std::size_t found = 0;
  for (const ReadingLine& line : pile.lines) {
    const bool alone = line.habit == Habit::piece || line.habit == Habit::taken_off;
    if (line.is_void || line.outvoted || line.covered || !alone || line.count != 1) continue;
    if (like_several(line.net, target.target) == 1) continue;
    if (heaviest == nullptr || line.net > heaviest->net) heaviest = &line;
    ++found;
  }
  if (heaviest == nullptr) return false;
  const std::string weight = show::mass(heaviest->net, ui.style);
  const std::string like = std::to_string(like_several(heaviest->net, target.target));
  ui.kit.paragraph(found == 1 ? say("result.like-several", {weight, like})
                              : say(form_of("result.like-several-more", static_cast<double>(found)),
                                    {std::to_string(found), weight, like}),
                   Tone::warn, "result/like-several/" + target.pile);
  if (ui.kit.button("result/say-how-many/" + target.pile, say("result.say-how-many"))) {
    const std::string id = to_text(heaviest->id);
    ask::go(ui.app, Screen::weigh);
    ask::edit(ui.app, {FieldKind::anew, id});
    ask::open_panel(ui.app, "count");
  }
  return true;
}

void one_target(Ui& ui, const TargetFigures& target) {
  const Figures& f = ui.figures();
  const std::string name = explain::pile_name(f, target.pile);
  const PileFigures* pile = pile_named(f, target.pile);
  if (pile != nullptr) {
    auto grid = ui.kit.grid(2, 144);
    target_fields(ui, *pile);
  }
  const bool unsure = pile != nullptr && likely_together(ui, target, *pile);
  mean_of_all(ui, target);
  if (target.portions) {
    const PortionFigures& p = *target.portions;
    ui.kit.paragraph(say(form_of("result.portions-count", static_cast<double>(p.grams.n)),
                         {std::to_string(p.grams.n), std::to_string(p.within),
                          std::to_string(p.shorts), std::to_string(p.overs)}),
                     Tone::normal, "result/portions/" + target.pile);
  }
  spread_of(ui, target, name);
  if (!unsure) aim_words(ui, target);
  if (target.portions && target.portions->grams.n < explain::kFewSingles) {
    ui.kit.paragraph(say("result.few-singles", {std::to_string(target.portions->grams.n)}),
                     Tone::quiet, "result/few-singles/" + target.pile);
  }
  figure_lines(ui, explain::portions(f, target, ui.style));
  figure_lines(ui, explain::portion_costs(f, target, ui.style));
}

}  // namespace

void costs_part(Ui& ui) {
  ui.kit.heading(say("result.costs"), 2);
  price_fields(ui);
  figure_lines(ui, explain::costs(ui.figures(), ui.style));
}

void factors_part(Ui& ui) {
  ui.kit.heading(say("result.factors"), 2);
  ui.kit.paragraph(say("result.factors-say"), Tone::quiet);
  figure_lines(ui, explain::factors(ui.figures(), ui.style));
}

void new_price_part(Ui& ui) {
  ui.kit.heading(say("result.new-price"), 2);
  const std::string& typed = ui.draft().new_price;
  const auto number = parse_number(typed, "new-price");
  if (typed.empty() || !number) {
    field(ui, {FieldKind::new_price, ""}, {});
    ui.kit.paragraph(say("result.new-price-say"), Tone::quiet);
    return;
  }
  const PricePerMass price = PricePerMass::of(Money::units(number->value), ui.style.price_unit);
  field(ui, {FieldKind::new_price, ""}, show::price(price, ui.style));
  figure_lines(ui, explain::price_update(ui.figures(), price, ui.style));
}

void make_or_buy_part(Ui& ui) {
  ui.kit.heading(say("result.make-or-buy"), 2);
  ready_cut_fields(ui);
  verdict(ui);
  const Figures& f = ui.figures();
  figure_lines(ui, explain::make_or_buy(f, ui.style));
  if (f.ready_cut_need) needs(ui, "result/ready-cut", {*f.ready_cut_need});
  if (!f.make_or_buy) return;
  for (const Code code : f.make_or_buy->needs) {
    if (code == Code::need_prices_apart) needs(ui, "result/make-or-buy", {code});
  }
}

void portions_part(Ui& ui) {
  const Figures& f = ui.figures();
  ui.kit.heading(say("result.portions"), 2);
  for (const TargetFigures& target : f.targets) one_target(ui, target);
  for (const PileFigures* pile : primary_piles(f)) {
    if (target_of(f, pile->key) == nullptr)
      field(ui, {FieldKind::target, pile->key}, {}, explain::pile_name(*pile));
  }
}

}  // namespace tallyblock
