// The pieces: the one in work, then all others, a card each; and the way to a new one.
#include <algorithm>
#include <vector>

#include "sessions_parts.h"
#include "web/kit/piece_card.h"
#include "web/screens/beginning.h"
#include "web/screens/screen_list.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

using Cards = std::vector<const SessionCard*>;

// Nothing was done with the others yet.
Cards listed(const Ui& ui) {
  Cards cards;
  for (const SessionCard& card : ui.app.shelf().cards) {
    if (!left_empty(card, ui.draft())) cards.push_back(&card);
  }
  return cards;
}

std::string title_on(const SessionCard& card) {
  return card.title.empty() ? say("sessions.untitled") : card.title;
}

// In the unit and the currency of the piece.
show::Style style_of(const SessionCard& card, const show::Style& reader) {
  show::Style style = show::style_from(card.unit, card.price_unit, card.currency, card.division);
  style.mark = reader.mark;
  return style;
}

void join(std::string& words, const std::string& more) {
  if (!words.empty() && !more.empty()) words += ", ";
  words += more;
}

std::string detail_of(const SessionCard& card, const show::Style& reader) {
  std::string words;
  if (card.sample) words = say("sessions.invented");
  join(words, show::date(card.started_ms, card.offset_minutes, reader));
  if (card.whole_grams) {
    join(words, show::mass(Mass::grams(*card.whole_grams), style_of(card, reader)));
  }
  return words;
}

// Who cut it, and whether it was cut well.
std::string note_of(const SessionCard& card, bool with_people) {
  std::string people = with_people ? card.people : std::string();
  if (!card.quality) return people;
  const std::string quality =
      say(*card.quality ? "sessions.quality-passed" : "sessions.quality-failed");
  return people.empty() ? quality : say("sessions.note", {people, quality});
}

// What went where, of the whole; what is not known stays empty.
Piece block_of(const SessionCard& card) {
  Piece piece;
  piece.value = 1;
  const double primary = card.primary_ratio.value_or(0.0);
  const auto put = [&](double share, Look look) {
    Slab slab;
    slab.value = share;
    slab.look = look;
    piece.slabs.push_back(slab);
  };
  put(primary, Look::primary);
  const double secondary = card.secondary_ratio.value_or(0.0);
  put(secondary, Look::secondary);
  put(card.usable_ratio.value_or(primary) - primary - secondary, Look::usable_trim);
  put(card.waste_ratio.value_or(0.0), Look::unusable_trim);
  return piece;
}

constexpr double kShareSeen = 0.0005;  // less is no share of a picture

struct CardFigure {
  std::string value, of;
};

// Portions weighed so far would carry what the whole piece cost: nothing is said of them before all is weighed.
CardFigure figure_of(const SessionCard& card, const show::Style& reader) {
  const show::Style style = style_of(card, reader);
  if (card.unweighed_grams) {
    return {show::mass(Mass::grams(*card.unweighed_grams), style), say("sessions.to-go")};
  }
  // More on the piles than there was: no cost can be right.
  if (card.loss_ratio.value_or(0.0) < -kShareSeen) {
    return {say("show.not-known"), say("sessions.too-much")};
  }
  const auto portion =
      card.portion_cost_with_labour ? card.portion_cost_with_labour : card.portion_cost;
  if (portion && card.target_grams) {
    const std::string target = show::mass(Mass::grams(*card.target_grams), style);
    const bool usual =
        card.target_pile == "portions" && card.target_name == say("sessions.portions");
    return {show::money(Money::units(*portion), style),
            usual ? say("sessions.portion", {target})
                  : say("sessions.one-of", {target, card.target_name})};
  }
  if (card.cost_per_primary_gram) {
    const PricePerMass price =
        PricePerMass::of(Money::units(*card.cost_per_primary_gram), MassUnit::gram);
    return {show::money_figures(price.per(style.price_unit), style),
            say("sessions.per", {show::price_unit_name(style)})};
  }
  if (card.primary_ratio) {
    return {show::percent(*card.primary_ratio, style), say("sessions.yield")};
  }
  return {};
}

const SessionCard* in_work_of(const Cards& cards) {
  for (const SessionCard* card : cards) {
    if (card->unweighed_grams) return card;
  }
  return nullptr;
}

void in_work(Ui& ui, const SessionCard& card) {
  auto panel = ui.kit.panel();
  const std::string title = title_on(card), detail = detail_of(card, ui.style);
  const bool low = bar_on_top(ui);  // its name and the way on have the height there is
  if (!low) ui.kit.paragraph(say("sessions.in-work"), Tone::quiet, "sessions/in-work");
  ui.kit.heading(title, 3, "sessions/in-work/title");
  ui.kit.paragraph(detail, Tone::quiet, "sessions/in-work/detail");
  const std::string left =
      show::mass(Mass::grams(card.unweighed_grams.value_or(0.0)), style_of(card, ui.style));
  const std::string go_on = say("sessions.go-on", {left});
  const std::string name = say("sessions.go-on-name", {title, go_on});
  if (!low) {
    piece_strip(ui.kit, "sessions/in-work/picture", block_of(card),
                say("sessions.picture", {left}));
  }
  if (ui.kit.button("sessions/go-on", go_on, {.kind = ButtonKind::primary, .name = name})) {
    ask::open(ui.app, card.id);
  }
}

bool one_card(Ui& ui, const SessionCard& card, bool with_people) {
  const std::string title = title_on(card), detail = detail_of(card, ui.style);
  const std::string note = note_of(card, with_people);
  const CardFigure figure = figure_of(card, ui.style);
  PieceCardOptions options;
  options.detail = detail;
  options.note = note;
  if (card.quality == false) options.tone = Tone::warn;
  options.figure = figure.value;
  options.of = figure.of;
  return piece_card(ui.kit, "sessions/" + card.id, title, block_of(card), options);
}

void list(Ui& ui, const Cards& cards) {
  for (auto rows = ui.kit.rows("sessions/rows", cards.size()); rows.next();) {
    const SessionCard& card = *cards[rows.at()];
    if (one_card(ui, card, true)) ask::open(ui.app, card.id);
  }
}

void protection(Ui& ui) {
  if (ui.app.page().is_protected.value_or(false)) return;
  ui.kit.paragraph(say("sessions.not-protected"), Tone::quiet, "sessions/not-protected");
}

// Many files take a while: how far it has come, and a way to stop.
void import_progress(Ui& ui) {
  const Porter& in = ui.app.porter();
  const bool many = in.picked > 1 || in.waiting.size() > 1;
  if (!in.going_on() || !many) return;
  const std::size_t left = in.waiting.size() + in.picked - in.read;
  auto panel = ui.kit.panel();
  ui.kit.status(
      "sessions/importing",
      say("sessions.importing", {std::to_string(in.totals.sessions.size()), std::to_string(left)}),
      Tone::normal);
  if (ui.kit.button("sessions/stop-import", say("sessions.stop-import"))) ask::stop_import(ui.app);
}

// Of several that were refused the notice names the last one.
void refused_files(Ui& ui) {
  const std::vector<std::string>& refused = ui.app.porter().refused;
  if (refused.size() < 2) return;
  auto panel = ui.kit.panel();
  ui.kit.heading(say("sessions.refused", {std::to_string(refused.size())}), 2, "sessions/refused");
  for (auto rows = ui.kit.rows("sessions/refused-rows", refused.size()); rows.next();) {
    ui.kit.paragraph(refused[rows.at()], Tone::normal,
                     "sessions/refused/" + std::to_string(rows.at()));
  }
  if (ui.kit.button("sessions/refused-read", say("sessions.refused-read"))) {
    ask::forget_refused(ui.app);
  }
}

void new_piece(Ui& ui) {
  if (ui.kit.button("sessions/new", say("sessions.new"),
                    {.kind = ButtonKind::primary, .size = ButtonSize::large})) {
    begin_new(ui);
  }
}

// Where the bar stands above it, its place says it already.
void heading(Ui& ui) {
  if (!bar_on_top(ui)) ui.kit.heading(say("sessions.list"), 1, "sessions/title");
}

// Two columns: what is in work and the way to a new piece under one hand, all others beside it.
void abreast(Ui& ui, const Cards& cards, const SessionCard* work) {
  auto sides = ui.kit.row({1, 1}, {.hand_side_last = true});
  {
    auto others = ui.kit.scroll("sessions/body");
    heading(ui);
    list(ui, cards);
    protection(ui);
  }
  auto hand = ui.kit.scroll("sessions/hand");
  state_of_list(ui);
  if (work != nullptr) in_work(ui, *work);
  new_piece(ui);
}

}  // namespace

void state_of_list(Ui& ui) {
  // What was asked for needs a part of the program that is on its way.
  if (ui.app.waits_for_part()) {
    const bool failed = ui.app.part_failed();
    ui.kit.status("sessions/part", say(failed ? "waiting.part-failed" : "waiting.part"),
                  failed ? Tone::bad : Tone::normal);
  }
  import_progress(ui);
  refused_files(ui);
}

void picture_of_list(Ui& ui, bool with_people) {
  constexpr std::size_t most = 12;
  const Cards cards = listed(ui);
  ui.kit.space();
  ui.kit.heading(say("sessions.list"), 1, "picture/title");
  for (std::size_t i = 0; i < std::min(most, cards.size()); ++i) {
    one_card(ui, *cards[i], with_people);
  }
  if (cards.size() > most) {
    ui.kit.paragraph(say("picture.more", {std::to_string(cards.size() - most)}), Tone::quiet,
                     "picture/more");
  }
  ui.kit.paragraph(say("picture.foot"), Tone::quiet, "picture/foot");
  ui.kit.space();
}

void sessions_screen(Ui& ui) {
  warnings(ui);
  if (caution_sheet(ui)) return notice(ui);
  Cards cards = listed(ui);
  if (cards.empty()) {
    first_run(ui);
    return notice(ui);
  }
  const SessionCard* work = in_work_of(cards);
  std::erase(cards, work);
  if (ui.kit.wide() || ui.kit.broad()) {
    abreast(ui, cards, work);
    return notice(ui);
  }
  const bool least = ui.kit.least();  // the list has the height there is
  {
    auto body = ui.kit.scroll("sessions/body");
    heading(ui);
    if (least) new_piece(ui);
    state_of_list(ui);
    if (work != nullptr) in_work(ui, *work);
    list(ui, cards);
    protection(ui);
  }
  notice(ui);
  if (!least) new_piece(ui);
}

}  // namespace tallyblock
