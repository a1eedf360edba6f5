// How the next number is weighed: habit, unit, tub; how many at once.
#include <algorithm>
#include <array>

#include "web/words/words.h"
#include "weigh_parts.h"

namespace tallyblock {
namespace {

constexpr std::array kHabits = {Habit::piece, Habit::increment, Habit::tub_now, Habit::taken_off};

void tub_choice(Ui& ui) {
  std::vector<std::string> names = {say("weigh.no-tub")};
  std::vector<std::string> keys = {""};
  int chosen = 0;
  for (const TubFigures& tub : ui.figures().tubs) {
    if (tub.key == ui.draft().tub) chosen = static_cast<int>(names.size());
    names.push_back(say("weigh.tub", {tub.name, show::typed(tub.tare.text, ui.style)}));
    keys.push_back(tub.key);
  }
  const std::vector<std::string_view> options(names.begin(), names.end());
  const int now = ui.kit.choice("weigh/tub", say("weigh.tub-label"), options, chosen);
  if (now >= 0) ask::set_tub(ui.app, keys[static_cast<std::size_t>(now)]);
}

// A bin nobody weighs: its pile is what is left of the whole.
void rest_choice(Ui& ui) {
  const PileFigures* pile = pile_named(ui.figures(), ui.draft().pile);
  if (pile == nullptr) return;
  if (ui.kit.button("weigh/rest", say("weigh.rest", {explain::pile_name(*pile)}),
                    {.detail = say("weigh.rest-means"), .pressed = pile->by_difference})) {
    ask::set_by_difference(ui.app, pile->key, !pile->by_difference);
  }
}

void unit_choice(Ui& ui) {
  const auto& units = mass_units(ui.draft().unit);
  int chosen = -1;
  for (std::size_t i = 0; i < units.size(); ++i) {
    if (units[i] == ui.draft().unit) chosen = static_cast<int>(i);
  }
  const int now = ui.kit.choice("weigh/unit", say("weigh.unit"), units, chosen);
  if (now >= 0) ask::set_unit(ui.app, std::string(units[static_cast<std::size_t>(now)]));
}

void count_steps(Ui& ui) {
  auto row = ui.kit.row();
  const unsigned count = ui.draft().count;
  if (ui.kit.button("weigh/fewer", say("weigh.fewer"), {.enabled = count > 1})) {
    ask::set_count(ui.app, count - 1);
  }
  if (ui.kit.button("weigh/more", say("weigh.more"), {.enabled = count < 999})) {
    ask::set_count(ui.app, count + 1);
  }
}

}  // namespace

// How the next reading is weighed, in a word or two.
std::string how_words(const Ui& ui) {
  const Draft& draft = ui.draft();
  const std::string tub = tub_name(ui, draft.tub);
  const bool singly = draft.habit == name_of(Habit::piece);
  if (singly) return tub.empty() ? say("weigh.without-tub") : tub;
  const std::string words = say("habit-short." + draft.habit);
  return tub.empty() ? words : words + ", " + tub;
}

void count_panel(Ui& ui) {
  constexpr unsigned kTiles = 12;
  const unsigned asked = ui.app.keypad().asked.count;
  const bool corrects = ui.draft().field.kind == FieldKind::anew && ui.draft().digits.empty();
  const ReadingLine* line = corrects ? reading_of(ui.figures(), ui.draft().field.subject) : nullptr;
  const unsigned now = line == nullptr ? 0 : line->count;  // so many it was of
  std::string weight = ui.draft().digits;
  if (const std::string unit = digits_unit(ui); !unit.empty()) weight += ' ' + unit;
  ui.kit.heading(say("weigh.how-many"), 2, "weigh/how-many");
  ui.kit.paragraph(
      asked > 1 ? say(form_of("weigh.how-many-asked", asked), {weight, std::to_string(asked)})
      : line != nullptr ? say("weigh.last", {show::mass(line->net, ui.style),
                                             explain::pile_name(ui.figures(), line->pile)})
                        : say("weigh.how-many-what"),
      asked > 1 ? Tone::normal : Tone::quiet, "weigh/how-many-why");
  unsigned chosen = 0;
  {
    auto grid = ui.kit.grid(4, 64);
    for (unsigned tile = 1; tile <= std::max(kTiles, std::min(asked, kTiles + 1)); ++tile) {
      const unsigned n = tile > kTiles ? asked : tile;  // many at once have a tile of their own
      const std::string digits = std::to_string(n);
      if (ui.kit.button("weigh/on-scale/" + digits, digits,
                        {.kind = n == asked ? ButtonKind::primary : ButtonKind::plain,
                         .pressed = n == ui.draft().count})) {
        chosen = n;
      }
    }
  }
  count_steps(ui);
  const unsigned more = ui.draft().count;
  const std::string done = say(form_of("weigh.on-scale", more), {std::to_string(more)});
  if (ui.kit.button("weigh/count/close", say("weigh.how-done"), {.detail = done})) {
    ask::open_panel(ui.app, "");
    if (corrects || asked > 1) chosen = more;
  }
  if (chosen == 0) return;
  ask::open_panel(ui.app, "");
  if (asked <= 1 && chosen == now) return ask::edit(ui.app, {FieldKind::reading, ""});
  ask::set_count(ui.app, chosen);
  if (asked > 1 || corrects) ask::enter(ui.app);
}

void how_panel(Ui& ui) {
  ui.kit.heading(say("weigh.how-title"), 2);
  for (const Habit habit : kHabits) {
    const std::string name(name_of(habit));
    if (ui.kit.button(
            "weigh/habit/" + name, say("habit." + name),
            {.detail = say("habit-means." + name), .pressed = ui.draft().habit == name})) {
      ask::set_habit(ui.app, name);
    }
  }
  rest_choice(ui);
  unit_choice(ui);
  tub_choice(ui);
  if (ui.kit.button("weigh/new-tub", say("weigh.new-tub"))) {
    ask::add_tub(ui.app, "");
    ask::open_panel(ui.app, "");
  }
  if (ui.kit.button("weigh/how/close", say("weigh.how-done"), {.kind = ButtonKind::primary})) {
    ask::open_panel(ui.app, "");
  }
}

}  // namespace tallyblock
