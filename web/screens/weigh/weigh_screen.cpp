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

// Turns in which the parts of the board take the height that is left, and by how much at most.
constexpr int kKeysTurn = 1, kTilesTurn = 2, kDisplayTurn = 3, kBlockTurn = 4;
constexpr float kKeysBy = 8, kTilesBy = 26, kDisplayBy = 20, kBlockBy = 400;

void timer(Ui& ui) {
  const bool running = ui.draft().timer_started_ms != 0;
  const std::string time = show::clock(ui.app.timer_ms());
  const std::string name =
      say(running ? "weigh.timer-pause-name" : "weigh.timer-start-name", {time});
  if (ui.kit.button("weigh/timer", say(running ? "weigh.timer-pause" : "weigh.timer-start", {time}),
                    {.kind = ButtonKind::quiet, .pressed = running, .name = name})) {
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
  const std::string what = say(over                                ? "weigh.too-much"
                               : all_is_weighed(ui.figures()) ? "weigh.missing"
                                                                   : "weigh.to-go");
  options.unit = what;
  ui.kit.figure("weigh/to-go", "", show::mass(over ? -*left : *left, ui.style), options);
}

void title_and_left(Ui& ui) {
  auto column = ui.kit.column();
  if (!ui.figures().piece.empty()) ui.kit.heading(title_of(ui.figures()), 3, "weigh/title");
  still_to_weigh(ui);
}

void head(Ui& ui) {
  if (bar_on_top(ui)) {
    auto row = ui.kit.row({1, 0});
    title_and_left(ui);
    timer(ui);
    return;
  }
  auto bar = ui.kit.top_bar();
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

void picture(Ui& ui, PieceSize size) {
  const Breakdown breakdown = breakdown_of(ui.figures(), ui.style);
  if (!breakdown.whole && breakdown.rows.empty()) return;
  Piece piece = weight_piece(breakdown, title_of(ui.figures()), say("weigh.not-weighed-yet"),
                             ui.draft().pile);
  auto room = ui.kit.column();
  if (size == PieceSize::small) ui.kit.may_grow(kBlockTurn, kBlockBy);
  piece_picture(ui.kit, "weigh/picture", piece, {.size = size, .titled = false});
}

// While the whole piece is weighed in, the piles would only be in the way: so they would where another
// figure is typed on a small phone.
bool for_a_pile(const Ui& ui) { return ui.draft().field.kind == FieldKind::reading; }

// Rows of targets above the digits: two piles in each, and what ounces need besides.
std::size_t rows_above_digits(const Ui& ui) {
  return (ui.figures().piles.size() + 1) / 2 + (has_ounce_keys(ui) ? 1 : 0);
}

// Everything has a place of its own; else what is above the digits scrolls.
bool all_in_place(const Ui& ui) {
  return for_a_pile(ui) && !ui.figures().piece.empty() && !ui.kit.least() &&
         rows_above_digits(ui) <= (ui.kit.low() ? 3 : 4);
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

void panel_of(Ui& ui, const std::string& panel) {
  if (panel == "how") return how_panel(ui);
  if (panel == "count") return count_panel(ui);
  if (panel == "last") return last_panel(ui);
  if (panel == "readings") return readings_panel(ui);
  if (panel == "pile") return new_pile_panel(ui);
}

bool has_panel(const Ui& ui) { return !ui.panel().empty() && ui.panel() != "move"; }

void board(Ui& ui) {
  const std::string& panel = ui.panel();
  if (has_panel(ui)) return panel_of(ui, panel);
  name_and_whole(ui);
  balance_warning(ui);
  if (panel == "move") move_words(ui);
  if (!has_reading(ui)) first_line(ui);
  if (weighing_in(ui)) return set_choice(ui);
  picture(ui, compact(ui) ? PieceSize::slim : PieceSize::full);
  if (!compact(ui) || for_a_pile(ui)) pile_tiles(ui);
}

void keys(Ui& ui) {
  const Draft& draft = ui.draft();
  const bool reading = draft.field.kind == FieldKind::reading;
  const bool pile_wanted = wants_pile(ui);
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
  words.turn = kKeysTurn;
  words.grow_by = kKeysBy;
  if (keypad_here(ui, "weigh/keypad", words)) ask::open_panel(ui.app, open ? "" : "how");
}

void digits(Ui& ui) {
  auto room = ui.kit.column();
  ui.kit.may_grow(kDisplayTurn, kDisplayBy);
  display_row(ui);
}

void hand(Ui& ui) {
  error_notice(ui);
  digits(ui);
  keys(ui);
}

// Each in its place; nothing above the keys moves between two readings.
void in_place(Ui& ui) {
  balance_warning(ui);
  if (ui.panel() == "move") move_words(ui);
  if (!has_reading(ui)) first_line(ui);
  const bool crowded = ui.kit.low() && rows_above_digits(ui) > 2;
  if (!crowded && ui.panel() != "move" && (has_reading(ui) || !ui.kit.low()))
    picture(ui, PieceSize::small);
  {
    auto tiles = pile_grid(ui);
    ui.kit.may_grow(kTilesTurn, kTilesBy);
    tiles_of(ui);
  }
  hand(ui);
}

}  // namespace

void weigh_screen(Ui& ui) {
  if (ui.draft().field.kind == FieldKind::none) {
    const bool whole_known = ui.figures().incoming.as_purchased.has_value();
    ask::edit(ui.app, {whole_known ? FieldKind::reading : FieldKind::drained, ""});
  }
  head(ui);
  warnings(ui);
  if (!compact(ui)) {
    auto sides = ui.kit.row({1, 1}, {.hand_side_last = true});
    {
      auto left = ui.kit.scroll("weigh/body");
      board(ui);
    }
    auto right = ui.kit.scroll("weigh/hand");
    hand(ui);
    if (ui.kit.broad() && ui.panel() != "readings") reading_list(ui);
    return;
  }
  // A panel has the whole of a phone's screen.
  if (!has_panel(ui) && all_in_place(ui)) return in_place(ui);
  {
    auto body = ui.kit.scroll(has_panel(ui) ? "weigh/panel/" + ui.panel() : "weigh/body");
    board(ui);
  }
  if (!has_panel(ui)) hand(ui);
}

}  // namespace tallyblock
