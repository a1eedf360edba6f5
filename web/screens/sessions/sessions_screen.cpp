// The first screen: what this is, a new piece, and the pieces kept so far.
#include <algorithm>

#include "web/screens/screen_list.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

void caution(Ui& ui) {
  if (ui.app.shelf().settings.caution_seen) return;
  auto panel = ui.kit.panel(Ground::warn);
  ui.kit.heading(say("sessions.caution"), 2);
  ui.kit.paragraph(say("caution.local-codes"));
  ui.kit.paragraph(say("caution.knife"));
  ui.kit.paragraph(say("caution.hands"));
  ui.kit.paragraph(say("caution.phone"));
  if (ui.kit.button("sessions/caution-seen", say("sessions.caution-seen"))) {
    ask::caution_read(ui.app);
  }
}

void protection(Ui& ui) {
  if (ui.app.shelf().cards.empty() || ui.app.page().is_protected.value_or(false)) return;
  ui.kit.paragraph(say("sessions.not-protected"), Tone::quiet, "sessions/not-protected");
}

// In the unit and the currency of the piece.
show::Style style_of(const SessionCard& card, const show::Style& reader) {
  show::Style style = show::style_from(card.unit, card.price_unit, card.currency, card.division);
  style.mark = reader.mark;
  return style;
}

std::string detail_of(const SessionCard& card, const show::Style& reader) {
  const show::Style style = style_of(card, reader);
  std::string words = show::date(card.started_ms, card.offset_minutes, reader);
  if (card.sample) words = say("sessions.invented") + ", " + words;
  if (card.whole_grams) words += ", " + show::mass(Mass::grams(*card.whole_grams), style);
  if (card.unweighed_grams) {
    words +=
        ", " + say("sessions.unweighed", {show::mass(Mass::grams(*card.unweighed_grams), style)});
  } else if (card.primary_ratio) {
    words += ", " + say("sessions.yield", {show::percent(*card.primary_ratio, style)});
  }
  return words;
}

std::string cost_of(const SessionCard& card, const show::Style& reader) {
  // Portions weighed so far would carry what the whole piece cost.
  if (!card.cost_per_primary_gram || card.unweighed_grams) return {};
  return show::price(PricePerMass::of(Money::units(*card.cost_per_primary_gram), MassUnit::gram),
                     style_of(card, reader));
}

void list(Ui& ui) {
  ui.kit.heading(say("sessions.list"), 2);
  if (ui.app.shelf().cards.empty()) {
    ui.kit.paragraph(say("sessions.none"), Tone::quiet);
    return;
  }
  const std::vector<SessionCard>& cards = ui.app.shelf().cards;
  constexpr std::size_t long_list = 30;  // what stands below it is far away
  if (cards.size() > long_list && ui.kit.button("sessions/to-more", say("sessions.to-more"))) {
    ui.kit.scroll_to("sessions/backup");
  }
  const std::string again = say("sessions.same-again");
  std::string opened, again_of;  // acts change the list: after it is drawn
  for (auto rows = ui.kit.rows("sessions/rows", cards.size()); rows.next();) {
    const SessionCard& card = cards[rows.at()];
    const std::string title = card.title.empty() ? say("sessions.untitled") : card.title;
    const std::string cost = cost_of(card, ui.style);
    std::string detail = detail_of(card, ui.style);
    if (!cost.empty()) detail += ", " + cost;
    ListRowOptions options;
    options.detail = detail;
    options.action = again;
    options.opens = true;
    const RowTap tap = ui.kit.list_row("sessions/" + card.id, title, options);
    if (tap == RowTap::row) opened = card.id;
    if (tap == RowTap::action) again_of = card.id;
  }
  if (!opened.empty()) ask::open(ui.app, opened);
  if (!again_of.empty()) ask::same_again(ui.app, again_of);
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

void acts(Ui& ui) {
  ui.kit.heading(say("sessions.more"), 2);
  const bool has_sample = std::ranges::any_of(ui.app.shelf().cards,
                                              [](const SessionCard& card) { return card.sample; });
  auto grid = ui.kit.grid(3, 144);
  if (has_sample) {
    if (ui.kit.button("sessions/sample", say("sessions.remove-sample"),
                      {.detail = say("sessions.remove-sample-detail")})) {
      ask::remove_sample(ui.app);
    }
  } else if (ui.kit.button("sessions/sample", say("sessions.load-sample"),
                           {.detail = say("sessions.load-sample-detail")})) {
    ask::load_sample(ui.app);
  }
  if (ui.kit.button("sessions/import", say("sessions.import"))) ask::import_file(ui.app);
  if (!ui.app.shelf().cards.empty() && ui.kit.button("sessions/backup", say("sessions.backup"))) {
    ask::export_backup(ui.app);
  }
  if (!ui.app.page().is_protected.value_or(false) && !ui.app.shelf().cards.empty() &&
      ui.kit.button("sessions/protect", say("sessions.protect"))) {
    ask::protect(ui.app);
  }
  if (ui.kit.button("go.bin", say("go.bin"))) ask::go(ui.app, Screen::bin);
  if (ui.kit.button("go.settings", say("go.settings"))) ask::go(ui.app, Screen::settings);
  if (ui.kit.button("go.about", say("go.about"))) ask::go(ui.app, Screen::about);
}

}  // namespace

void sessions_screen(Ui& ui) {
  warnings(ui);
  {
    auto body = ui.kit.scroll("sessions/body");
    auto measure = ui.kit.measure();
    ui.kit.heading(say("sessions.title"), 1, "sessions/title");
    ui.kit.paragraph(say("sessions.what"), Tone::normal, "sessions/what");
    caution(ui);
    if (ui.kit.button("sessions/new", say("sessions.new"),
                      {.kind = ButtonKind::primary, .detail = say("sessions.new-detail")})) {
      ask::new_session(ui.app);
    }
    // What was asked for needs a part of the program that is on its way.
    if (ui.app.waits_for_part()) {
      const bool failed = ui.app.part_failed();
      ui.kit.status("sessions/part", say(failed ? "waiting.part-failed" : "waiting.part"),
                    failed ? Tone::bad : Tone::normal);
    }
    protection(ui);
    import_progress(ui);
    refused_files(ui);
    list(ui);
    acts(ui);
  }
  notice(ui);
}

}  // namespace tallyblock
