// The board: what is still to weigh, the block, the piles, the number just weighed, the keys.
//
// On a phone held upright everything has its place, and the height that is left goes to keys, piles and digits
// first and then to the block (Kit::may_grow). Where there is less height than they need, the piles scroll.
#include "web/screens/breakdown_drawn.h"
#include "web/screens/screen_list.h"
#include "web/words/words.h"
#include "weigh_parts.h"

namespace tallyblock {
namespace {

void timer(Ui& ui) {
  const bool running = ui.draft().timer_started_ms != 0;
  const std::string time = show::clock(ui.app.timer_ms());
  const std::string name =
      say(running ? "weigh.timer-pause-name" : "weigh.timer-start-name", {time});
  if (ui.kit.button(
          "weigh/timer", say(running ? "weigh.timer-pause" : "weigh.timer-start"),
          {.kind = ButtonKind::quiet, .detail = time, .pressed = running, .name = name})) {
    if (running) {
      ask::timer_pause(ui.app);
    } else {
      ask::timer_start(ui.app);
    }
  }
}

// The one figure that matters between two weights.
void still_to_weigh(Ui& ui) {
  const auto left = left_to_weigh(ui.figures());
  if (!left) return;
  FigureOptions options;
  const bool over = *left < Mass();
  if (over) options.tone = Tone::bad;
  // Little may be left though piles are empty yet: only who works there can say that it is lost.
  const std::string what = say(over                                ? "weigh.too-much"
                               : is_said_all_weighed(ui.figures()) ? "weigh.missing"
                               : all_is_weighed(ui.figures())      ? "weigh.left"
                                                                   : "weigh.to-go");
  const std::string name = say(over ? "weigh.on-piles" : "weigh.still");
  options.unit = what;
  options.name = name;
  ui.kit.figure("weigh/to-go", "", show::mass(over ? -*left : *left, ui.style), options);
}

void title_and_left(Ui& ui) {
  auto column = ui.kit.column();
  const Figures& f = ui.figures();
  {
    auto row = ui.kit.row({1, 0});
    // Where height is scarce a long name gives way: it stands on the result.
    if (compact(ui) && ui.kit.low()) {
      ui.kit.caption(title_of(f), "weigh/title");
    } else {
      ui.kit.heading(title_of(f), 3, "weigh/title");
    }
    ui.kit.status("weigh/save", save_words(ui.app),
                  save_state(ui.app) == SaveState::failed ? Tone::bad : Tone::quiet);
  }
  still_to_weigh(ui);
}

void head(Ui& ui) {
  if (bar_on_top(ui)) {
    auto row = ui.kit.row({1, 0});
    title_and_left(ui);
    timer(ui);
    return;
  }
  auto bar = ui.kit.top_bar(!ui.kit.least());
  way_back(ui);
  title_and_left(ui);
  timer(ui);
}

// The doubt that matters while weighing: the balance cannot be right.
void balance_warning(Ui& ui) {
  for (const Doubt& doubt : ui.figures().doubts) {
    if (doubt.code != Code::doubt_loss_negative) continue;
    ui.kit.status("weigh/balance", doubt_words(ui.figures(), ui.style, doubt), Tone::bad);
    return;
  }
}

// It takes the height that is left, and gives way whole where there is none.
void picture(Ui& ui) {
  const Breakdown breakdown = breakdown_of(ui.figures(), ui.style);
  if (!breakdown.whole && breakdown.rows.empty()) return;
  const Piece piece = weight_piece(breakdown, title_of(ui.figures()), say("weigh.not-weighed-yet"),
                                   ui.draft().pile);
  auto room = ui.kit.column();
  ui.kit.may_grow(kBlockTurn, style::grow_block);
  ui.kit.may_give_way();
  piece_picture(ui.kit, "weigh/picture", piece, {.size = PieceSize::small, .titled = false});
}

// Rows of targets above the digits: two piles in each, and keys of units or fractions.
std::size_t rows_above_digits(const Ui& ui) {
  return (ui.figures().piles.size() + 1) / 2 + (has_row_of_keys(ui) ? 1 : 0);
}

bool has_panel(const Ui& ui) { return !ui.panel().empty() && !is_moving(ui); }

// Everything has a place of its own; else what is above the digits scrolls.
bool all_in_place(const Ui& ui) {
  if (!compact(ui)) return true;
  return !weighing_in(ui) && !ui.figures().piece.empty() && ui.draft().text_field != "piece" &&
         !ui.kit.least() && rows_above_digits(ui) <= (ui.kit.low() ? 3 : 4);
}

void name_and_whole(Ui& ui) {
  const Figures& f = ui.figures();
  if (f.piece.empty() || ui.draft().text_field == "piece") {
    text_field(ui, "piece", "weigh.what", "weigh.what-hint");
  }
  if (!f.incoming.as_purchased && ui.draft().field.kind != FieldKind::drained) {
    if (ui.kit.button("weigh/whole", say("weigh.whole"), {.detail = say("weigh.whole-detail")})) {
      ask::edit(ui.app, {FieldKind::drained, ""});
    }
  }
}

// What is open over the board. False: nothing is.
bool panel(Ui& ui) {
  if (!has_panel(ui)) return false;
  const std::string& open = ui.panel();
  if (open == "how") how_panel(ui);
  if (open == "count") count_panel(ui);
  if (open == "last") last_panel(ui);
  if (open == "readings") readings_panel(ui);
  if (open == "pile") new_pile_panel(ui);
  return true;
}

// What stands above the piles.
void above(Ui& ui) {
  name_and_whole(ui);
  if (is_moving(ui)) move_words(ui);
  if (!has_reading(ui)) first_line(ui);
}

void tiles(Ui& ui) {
  auto grid = pile_grid(ui);
  ui.kit.may_grow(kTilesTurn, style::grow_tiles);
  tiles_of(ui);
}

// The board where it may scroll: the piles, or while the whole is weighed in their choice.
template <class Piles>
void board(Ui& ui, const Piles& piles) {
  if (panel(ui)) return;
  above(ui);
  balance_warning(ui);
  if (weighing_in(ui)) return set_choice(ui);
  piles();
}

void keys(Ui& ui) {
  const Draft& draft = ui.draft();
  const bool reading = draft.field.kind == FieldKind::reading;
  const bool pile_wanted = reading && draft.pile.empty();
  const std::string enter = say(pile_wanted                              ? "weigh.enter-no-pile"
                                : reading                                ? "weigh.enter"
                                : draft.field.kind == FieldKind::drained ? "weigh.enter-whole"
                                                                         : "field.keep");
  const std::string pile =
      reading && !draft.pile.empty() ? explain::pile_name(ui.figures(), draft.pile) : std::string();
  const std::string how = reading ? how_words(ui) : std::string();
  const std::string how_name = say("weigh.how-name", {how});
  const bool open = ui.panel() == "how";
  KeyWords words;
  words.enter = enter;
  words.enter_detail = pile;
  words.enter_enabled = !pile_wanted;
  words.side = how;
  words.side_name = how_name;
  words.side_open = open;
  words.turn = all_in_place(ui) ? kKeysTurn : 0;
  words.grow_by = ui.kit.broad() ? style::grow_keys_broad : style::grow_keys;
  const std::string piles = say("weigh.to-piles");
  if (!reading && !unit_is_one_key(ui)) words.side = words.side_name = piles;
  if (!keypad_here(ui, "weigh/keypad", words)) return;
  if (!reading) return ask::edit(ui.app, {FieldKind::reading, ""});
  ask::open_panel(ui.app, open ? "" : "how");
}

void hand(Ui& ui) {
  error_notice(ui);
  display_row(ui);
  keys(ui);
}

// Each in its place; nothing above the keys moves between two readings.
void in_place(Ui& ui) {
  above(ui);
  if (!is_moving(ui) && (has_reading(ui) || !ui.kit.low())) picture(ui);
  {
    // Piles are equal rows of a grid: what each may grow by is the grid's.
    auto room = ui.kit.scroll_if_short("weigh/piles-area");
    const std::size_t cells = ui.figures().piles.size() + (offers_new_pile(ui) ? 1U : 0U);
    const std::size_t rows = (cells + 1) / 2;
    ui.kit.may_grow(kTilesTurn, style::grow_tiles * static_cast<float>(rows));
    balance_warning(ui);
    tiles(ui);
  }
  hand(ui);
}

// A phone that lies has the keys alone on one side.
void lying(Ui& ui) {
  auto sides = ui.kit.row({1, 1}, {.hand_side_last = true});
  {
    auto left = ui.kit.scroll("weigh/body");
    if (!panel(ui)) {
      head(ui);
      above(ui);
      balance_warning(ui);
      if (weighing_in(ui)) set_choice(ui);
      error_notice(ui);
      display_row(ui);
      if (!weighing_in(ui)) pile_tiles(ui);
      picture(ui);
    }
  }
  auto right = ui.kit.scroll_if_short("weigh/hand");
  keys(ui);
  ui.kit.fill();
}

// The block and the piles on one side; what was weighed, the keys and all readings on the other.
void on_tablet(Ui& ui) {
  head(ui);
  warnings(ui);
  auto sides = ui.kit.row({1, 1}, {.hand_side_last = true});
  {
    auto left = ui.kit.scroll_if_short("weigh/body");
    board(ui, [&] {
      picture(ui);
      tiles(ui);
    });
  }
  auto right = ui.kit.column();
  {
    auto top = ui.kit.scroll_if_short("weigh/hand");
    hand(ui);
  }
  auto list = ui.kit.scroll("weigh/list");
  if (ui.panel() != "readings") reading_list(ui);
}

}  // namespace

void weigh_screen(Ui& ui) {
  if (ui.draft().field.kind == FieldKind::none) {
    const bool whole_known = ui.figures().incoming.as_purchased.has_value();
    ask::edit(ui.app, {whole_known ? FieldKind::reading : FieldKind::drained, ""});
  }
  if (bar_on_top(ui)) {
    warnings(ui);
    return lying(ui);
  }
  if (!compact(ui)) return on_tablet(ui);
  head(ui);
  warnings(ui);
  // A panel has the whole of a phone's screen.
  if (!has_panel(ui) && all_in_place(ui)) return in_place(ui);
  {
    auto body = ui.kit.scroll(has_panel(ui) ? "weigh/panel/" + ui.panel() : "weigh/body");
    board(ui, [&] { pile_tiles(ui); });
  }
  if (!has_panel(ui)) hand(ui);
}

}  // namespace tallyblock
