// The board: picture, piles, keypad, what was just weighed.
#include "web/screens/breakdown_drawn.h"
#include "web/screens/screen_list.h"
#include "web/words/words.h"
#include "weigh_parts.h"

namespace tallyblock {
namespace {

void bar(Ui& ui) {
  auto row = ui.kit.top_bar();
  if (ui.kit.button("go.sessions", say("go.sessions"), {.kind = ButtonKind::quiet})) {
    ask::go(ui.app, Screen::sessions);
  }
  if (ui.kit.button("go.details", say("go.details"), {.kind = ButtonKind::quiet})) {
    ask::go(ui.app, Screen::details);
  }
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
  if (ui.kit.button("go.result", say("go.result"), {.kind = ButtonKind::quiet})) {
    ask::go(ui.app, Screen::result);
  }
}

// The doubt that matters while weighing: the balance cannot be right.
void balance_warning(Ui& ui) {
  for (const Doubt& doubt : ui.figures().doubts) {
    if (doubt.code != Code::doubt_loss_negative) continue;
    ui.kit.status("weigh/balance", doubt_words(ui.figures(), ui.style, doubt), Tone::bad);
    return;
  }
}

void picture(Ui& ui, bool is_slim) {
  const Breakdown breakdown = breakdown_of(ui.figures(), ui.style);
  if (!breakdown.whole && breakdown.rows.empty()) return;
  Piece piece = weight_piece(breakdown, title_of(ui.figures()), say("weigh.not-weighed-yet"));
  const PieceSize size = is_slim          ? PieceSize::slim
                         : ui.kit.broad() ? PieceSize::full
                                          : PieceSize::small;
  piece_picture(ui.kit, "weigh/picture", piece, {.size = size, .titled = false});
}

std::string head_words(const Ui& ui) {
  const auto& whole = ui.figures().incoming.as_purchased;
  std::string title = title_of(ui.figures());
  // That it is invented needs the room on a small phone.
  if (!whole || (small_phone(ui) && ui.app.session()->sample)) return title;
  return say("weigh.title-whole", {title, show::mass(whole->value(), ui.style)});
}

// While the whole piece is weighed in, the piles would only be in the way: so they would where another
// figure is typed on a small phone.
bool for_a_pile(const Ui& ui) { return ui.draft().field.kind == FieldKind::reading; }

// Rows of targets above the digits: two piles in each, and what ounces need besides.
std::size_t rows_above_digits(const Ui& ui) {
  return (ui.figures().piles.size() + 1) / 2 + (has_ounce_keys(ui) ? 1 : 0);
}

// On a phone held upright the piles stand above the keypad, always in reach.
bool piles_by_hand(const Ui& ui) {
  const bool shown = ui.panel().empty() || ui.panel() == "move";
  return compact(ui) && shown && for_a_pile(ui) && rows_above_digits(ui) <= 3;
}

// On a small phone the eye call has the picture's place until something is sorted; more than two rows
// above the digits leave room for the shape alone.
void picture_here(Ui& ui) {
  const bool small = small_phone(ui);
  const bool crowded = piles_by_hand(ui) && rows_above_digits(ui) > 2;
  if (small && (!has_reading(ui) || (crowded && ui.kit.least()))) return;
  picture(ui, small && crowded);
}

void head(Ui& ui) {
  const Figures& f = ui.figures();
  const bool naming = f.piece.empty() || ui.draft().text_field == "piece";
  if (naming) {
    text_field(ui, "piece", "weigh.what", "weigh.what-hint");
  } else {
    auto row = ui.kit.row({3, 0, 0});
    ui.kit.heading(head_words(ui), 2, "weigh/title");
    ui.kit.status("weigh/save", save_words(ui.app),
                  save_state(ui.app) == SaveState::failed ? Tone::bad : Tone::quiet);
    // On a small phone what is rarer waits behind one target.
    if (compact(ui) && !weighing_in(ui) &&
        ui.kit.button("weigh/more-acts", say("weigh.more-acts"))) {
      ask::open_panel(ui.app, "more");
    }
  }
  if (!f.incoming.as_purchased && ui.draft().field.kind != FieldKind::drained) {
    if (ui.kit.button("weigh/whole", say("weigh.whole"), {.detail = say("weigh.whole-detail")})) {
      ask::edit(ui.app, {FieldKind::drained, ""});
    }
  }
}

void board(Ui& ui) {
  const std::string& panel = ui.panel();
  if (panel == "how") return how_panel(ui);
  if (panel == "count") return count_panel(ui);
  if (panel == "more") return more_panel(ui);
  if (panel == "readings") return readings_panel(ui);
  if (panel == "pile") return new_pile_panel(ui);
  if (panel == "move") {
    move_words(ui);
  } else {
    head(ui);
    balance_warning(ui);
    if (!has_reading(ui)) first_line(ui);
    picture_here(ui);
  }
  if (!piles_by_hand(ui) && (!compact(ui) || for_a_pile(ui))) pile_tiles(ui);
  if (panel.empty() && !compact(ui) && !weighing_in(ui)) more_acts(ui);
}

// Panels with much to choose have the whole of a phone's screen.
bool panel_alone(const Ui& ui) {
  return compact(ui) && !ui.panel().empty() && ui.panel() != "move";
}

void keys(Ui& ui) {
  const Draft& draft = ui.draft();
  const bool reading = draft.field.kind == FieldKind::reading;
  const std::string enter = say(reading                                  ? "weigh.enter"
                                : draft.field.kind == FieldKind::drained ? "weigh.enter-whole"
                                                                         : "field.keep");
  const std::string pile =
      reading && !draft.pile.empty() ? explain::pile_name(ui.figures(), draft.pile) : std::string();
  const std::string how = reading ? how_words(ui) : std::string();
  const std::string how_name = say("weigh.how-name", {how});
  const bool open = ui.panel() == "how";
  if (keypad_here(ui, "weigh/keypad",
                  {.enter = enter,
                   .enter_detail = pile,
                   .side = how,
                   .side_name = how_name,
                   .side_open = open})) {
    ask::open_panel(ui.app, open ? "" : "how");
  }
}

void hand(Ui& ui) {
  if (panel_alone(ui) || ui.panel() == "count") return;
  if (piles_by_hand(ui)) pile_tiles(ui);
  display_or_last(ui);
  keys(ui);
  if (ui.kit.broad() && ui.panel() != "readings") reading_list(ui);
}

}  // namespace

void weigh_screen(Ui& ui) {
  if (ui.draft().field.kind == FieldKind::none) {
    const bool whole_known = ui.figures().incoming.as_purchased.has_value();
    ask::edit(ui.app, {whole_known ? FieldKind::reading : FieldKind::drained, ""});
  }
  bar(ui);
  warnings(ui);
  if (ui.kit.wide() || ui.kit.broad()) {
    auto sides = ui.kit.row({1, 1}, {.hand_side_last = true});
    {
      auto left = ui.kit.scroll("weigh/body");
      board(ui);
    }
    auto right = ui.kit.scroll("weigh/hand");
    hand(ui);
    return;
  }
  {
    auto body = ui.kit.scroll(panel_alone(ui) ? "weigh/panel/" + ui.panel() : "weigh/body");
    board(ui);
  }
  hand(ui);
}

}  // namespace tallyblock
