// Piles as targets, and the acts beside them.
#include <algorithm>

#include "web/app/shelf/defaults.h"
#include "web/words/words.h"
#include "weigh_parts.h"

namespace tallyblock {
namespace {

void tapped(Ui& ui, const PileFigures& pile) {
  if (is_moving(ui)) {
    const auto entry = entry_id_from(ui.draft().selected);
    if (entry) ask::move_reading(ui.app, *entry, pile.key);
    ask::select(ui.app, "");
    ask::open_panel(ui.app, "");
    return;
  }
  if (ui.draft().field.kind != FieldKind::reading) {
    ask::edit(ui.app, {FieldKind::reading, ""});
    // Digits that were half typed before are looked at first.
    if (!ui.draft().digits.empty()) return;
  }
  ask::choose_pile(ui.app, pile.key);
}

// Digits of a reading stand.
bool is_weighed(const Draft& draft) {
  return draft.field.kind == FieldKind::reading && !draft.digits.empty();
}

std::string note_of(const PileFigures& pile) {
  if (pile.by_difference) return say("weigh.by-difference");
  return pile.pieces > 1 ? say(form_of("weigh.pieces", pile.pieces), {std::to_string(pile.pieces)})
                         : std::string();
}

// All of its piles are there by their names.
bool is_set(const Figures& f, const PileSet& set) {
  return std::ranges::all_of(set.piles, [&](const DefaultPile& pile) {
    const PileFigures* there = pile_named(f, std::string(pile.key));
    return there != nullptr && there->name == set_name(set, pile);
  });
}

// What of it a small tile has room for.
std::string word_of(const PileFigures& pile) {
  if (pile.by_difference) return say("weigh.is-rest");
  return pile.pieces > 1
             ? say(form_of("weigh.in-pieces", pile.pieces), {std::to_string(pile.pieces)})
             : std::string();
}

TileOptions looks_of(const Ui& ui, const PileFigures& pile) {
  TileOptions options;
  options.look = look_of(pile.role);
  options.variant = place_in_role(ui.figures(), pile);
  options.compact = !ui.kit.broad();
  return options;
}

}  // namespace

bool wants_pile(const Ui& ui) { return is_weighed(ui.draft()) && ui.draft().pile.empty(); }

Kit::Box pile_grid(Ui& ui) { return ui.kit.grid(ui.kit.broad() ? 3 : 2, 132); }

void other_piles(Ui& ui, const ReadingLine& line) {
  for (const PileFigures& pile : ui.figures().piles) {
    if (pile.key == line.pile) continue;
    const std::string path = "weigh/last/to/" + pile.key;
    if (!ui.kit.tile(path, explain::pile_name(pile), looks_of(ui, pile))) continue;
    ask::move_reading(ui.app, line.id, pile.key);
    ask::open_panel(ui.app, "");
  }
}

void tiles_of(Ui& ui) {
  const Figures& f = ui.figures();
  const bool moving = is_moving(ui);
  const ReadingLine* moved = moving ? reading_of(f, ui.draft().selected) : nullptr;
  const bool wanted = wants_pile(ui);
  // While digits stand a pile takes them: who does not see them is told.
  const bool takes = !moving && is_weighed(ui.draft());
  const std::string act =
      takes ? say("weigh.takes", {show::typed(ui.draft().digits, ui.style), digits_unit(ui)})
            : std::string();
  for (const PileFigures& pile : f.piles) {
    TileOptions options = looks_of(ui, pile);
    const std::string weight = show::mass(pile.weighed.value(), ui.style);
    const std::string share =
        pile.counted && f.incoming.as_purchased && f.incoming.as_purchased->value() > Mass()
            ? show::percent(pile.share_of_ap, ui.style)
            : std::string();
    const std::string note = note_of(pile), word = word_of(pile);
    options.weight = weight;
    options.act = act;
    options.share = share;
    options.note = note;
    options.word = word;
    options.chosen = !moving && ui.draft().pile == pile.key;
    options.enabled = moved == nullptr || moved->pile != pile.key;
    options.wanted = wanted || (moving && options.enabled);
    if (ui.kit.tile("weigh/pile/" + pile.key, explain::pile_name(pile), options)) tapped(ui, pile);
  }
  if (offers_new_pile(ui) && ui.kit.button("weigh/new-pile", say("weigh.new-pile")))
    ask::open_panel(ui.app, "pile");
}

bool offers_new_pile(const Ui& ui) {
  const bool room = ui.figures().piles.size() % 2 == 1 || !ui.kit.low() || ui.kit.broad();
  return room && !is_moving(ui);
}

void pile_tiles(Ui& ui) {
  auto grid = pile_grid(ui);
  tiles_of(ui);
}

void set_choice(Ui& ui) {
  ui.kit.paragraph(say("weigh.sets"), Tone::quiet);
  auto grid = ui.kit.grid(ui.kit.broad() ? 3 : 2, 132);
  for (const PileSet& set : kPileSets) {
    const std::string key(set.key);
    if (ui.kit.button("weigh/set/" + key, say("set." + key),
                      {.pressed = is_set(ui.figures(), set)}))
      ask::use_set(ui.app, key);
  }
}

void new_pile_panel(Ui& ui) {
  ui.kit.heading(say("weigh.new-pile"), 1, "weigh/new-pile-title");
  text_field(ui, "new-pile", "weigh.new-pile-name");
  const bool named = ui.draft().text_field == "new-pile" && !ui.draft().text.empty();
  if (named && ui.kit.button("weigh/new-pile/add", say("weigh.add-pile"),
                             {.kind = ButtonKind::primary, .detail = ui.draft().text})) {
    ask::text_done(ui.app, "new-pile");
  }
  ui.kit.paragraph(say("weigh.new-pile-hint"), Tone::quiet);
  add_pile_buttons(ui, "weigh/new-pile");
  if (ui.kit.button("weigh/new-pile/close", say("field.close"))) ask::open_panel(ui.app, "");
}

void move_words(Ui& ui) {
  const ReadingLine* line = reading_of(ui.figures(), ui.draft().selected);
  if (line == nullptr) return ask::open_panel(ui.app, "");
  ui.kit.heading(say("weigh.move", {show::mass(line->net, ui.style)}), 2, "weigh/move");
  ui.kit.paragraph(say("weigh.move-from", {explain::pile_name(ui.figures(), line->pile)}),
                   Tone::quiet);
  if (ui.kit.button("weigh/move/cancel", say("weigh.move-cancel"))) {
    ask::select(ui.app, "");
    ask::open_panel(ui.app, "");
  }
}

}  // namespace tallyblock
