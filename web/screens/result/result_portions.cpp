// Portions against their target.
#include <algorithm>

#include "core/cutting/aim.h"
#include "result_parts.h"
#include "web/app/acts/acts_of_readings.h"
#include "web/kit/spread.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

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
  const bool unsure = pile != nullptr && likely_together(ui, target, *pile);
  mean_of_all(ui, target);
  if (target.portions) {
    const PortionFigures& p = *target.portions;
    ui.kit.paragraph(say(form_of("result.portions-count", static_cast<double>(p.grams.n)),
                         {std::to_string(p.grams.n), std::to_string(p.within),
                          std::to_string(p.shorts), std::to_string(p.overs)}),
                     Tone::normal, "result/portions/" + target.pile);
  }
  if (pile != nullptr) {
    auto inputs = ui.kit.panel(Ground::sunk);
    auto grid = ui.kit.grid(2, 144);
    target_fields(ui, *pile);
  }
  spread_of(ui, target, name);
  if (!unsure) aim_words(ui, target);
  if (target.portions && target.portions->grams.n < explain::kFewSingles) {
    ui.kit.paragraph(say("result.few-singles", {std::to_string(target.portions->grams.n)}),
                     Tone::quiet, "result/few-singles/" + target.pile);
  }
  known_figures(ui, explain::portions(f, target, ui.style));
  known_figures(ui, explain::portion_costs(f, target, ui.style));
}

}  // namespace

void portions_part(Ui& ui) {
  for (const TargetFigures& target : ui.figures().targets) {
    if (ui.figures().targets.size() > 1)
      ui.kit.heading(explain::pile_name(ui.figures(), target.pile), 2);
    one_target(ui, target);
  }
  target_fields_left(ui);
}

void target_fields_left(Ui& ui) {
  const Figures& f = ui.figures();
  const std::string asked = wanted(ui) == Wanted::target ? first_primary(f) : std::string();
  for (const PileFigures& pile : f.piles) {
    if (pile.role != Role::primary || pile.key == asked || target_of(f, pile.key) != nullptr)
      continue;
    auto inputs = ui.kit.panel(Ground::sunk);
    field(ui, {FieldKind::target, pile.key}, {}, explain::pile_name(pile));
  }
}

}  // namespace tallyblock
