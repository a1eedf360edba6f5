// Piles as targets, and the acts beside them.
#include "web/words/words.h"
#include "weigh_parts.h"

namespace tallyblock {
namespace {

void tapped(Ui& ui, const PileFigures& pile) {
  if (ui.panel() == "move") {
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

std::string note_of(const PileFigures& pile) {
  if (pile.by_difference) return say("weigh.by-difference");
  return pile.pieces > 1 ? say(form_of("weigh.pieces", pile.pieces), {std::to_string(pile.pieces)})
                         : std::string();
}

// What of it a small tile has room for.
std::string word_of(const PileFigures& pile) {
  if (pile.by_difference) return say("weigh.is-rest");
  return pile.pieces > 1
             ? say(form_of("weigh.in-pieces", pile.pieces), {std::to_string(pile.pieces)})
             : std::string();
}

}  // namespace

void pile_tiles(Ui& ui) {
  const Figures& f = ui.figures();
  const bool moving = ui.panel() == "move";
  const ReadingLine* moved = moving ? reading_of(f, ui.draft().selected) : nullptr;
  auto grid = ui.kit.grid(ui.kit.broad() ? 3 : 2, 132);
  for (const PileFigures& pile : f.piles) {
    TileOptions options;
    options.look = look_of(pile.role);
    options.variant = place_in_role(f, pile);
    const std::string weight = show::mass(pile.weighed.value(), ui.style);
    const std::string share =
        pile.counted && f.incoming.as_purchased && f.incoming.as_purchased->value() > Mass()
            ? show::percent(pile.share_of_ap, ui.style)
            : std::string();
    const std::string note = note_of(pile), word = word_of(pile);
    options.weight = weight;
    options.share = share;
    options.note = note;
    options.word = word;
    options.compact = compact(ui);
    options.chosen = !moving && ui.draft().pile == pile.key;
    options.enabled = moved == nullptr || moved->pile != pile.key;
    if (ui.kit.tile("weigh/pile/" + pile.key, explain::pile_name(pile), options)) tapped(ui, pile);
  }
}

void more_acts(Ui& ui) {
  auto grid = ui.kit.grid(2, 132);
  if (ui.kit.button("weigh/new-pile", say("weigh.new-pile"))) ask::open_panel(ui.app, "pile");
  if (ui.kit.button("weigh/readings", say("weigh.readings"))) ask::open_panel(ui.app, "readings");
  const bool explained = ui.panel() == "more";
  const std::string where = explained ? say("cut.what") : std::string();
  if (ui.kit.button("weigh/cut", say("go.cut"), {.detail = where})) ask::go(ui.app, Screen::cut);
  const auto weigh = [&](const std::string& path, const std::string& key, const Field& field) {
    const std::string means = explained ? say(key + "-means") : std::string();
    if (!ui.kit.button(path, say(key), {.detail = means})) return;
    ask::open_panel(ui.app, "");
    ask::edit(ui.app, field);
  };
  weigh("weigh/remainder", "weigh.remainder", {FieldKind::remainder, "main"});
  weigh("weigh/checkpoint", "weigh.checkpoint", {FieldKind::checkpoint, "main"});
}

void more_panel(Ui& ui) {
  ui.kit.heading(say("weigh.more-title"), 2);
  more_acts(ui);
  if (ui.kit.button("weigh/more/close", say("weigh.readings-close"))) ask::open_panel(ui.app, "");
}

void new_pile_panel(Ui& ui) {
  ui.kit.heading(say("weigh.new-pile"), 2);
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
