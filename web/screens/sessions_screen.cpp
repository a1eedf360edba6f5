// The first screen: what this is, a new piece, and the pieces kept so far.
#include <algorithm>

#include "screen_list.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

void caution(Ui& ui) {
  if (ui.app.settings().caution_seen) return;
  auto panel = ui.kit.panel(Ground::warn);
  ui.kit.heading(say("sessions.caution"), 2);
  ui.kit.paragraph(say("caution.local-codes"));
  ui.kit.paragraph(say("caution.knife"));
  ui.kit.paragraph(say("caution.hands"));
  ui.kit.paragraph(say("caution.phone"));
  if (ui.kit.button("sessions/caution-seen", say("sessions.caution-seen"))) {
    ui.app.set_setting("caution-seen", "yes");
  }
}

void protection(Ui& ui) {
  if (ui.app.cards().empty() || ui.app.is_protected().value_or(false)) return;
  ui.kit.paragraph(say("sessions.not-protected"), Tone::quiet, "sessions/not-protected");
}

show::Style style_of(const SessionCard& card) {
  return show::style_from(card.unit, card.price_unit, card.currency, card.division,
                          card.decimal_mark);
}

std::string detail_of(const SessionCard& card, const show::Style& dates) {
  const show::Style style = style_of(card);
  std::string words = show::date(card.started_ms, card.offset_minutes, dates);
  if (card.sample) words = say("sessions.invented") + ", " + words;
  if (card.whole_grams) words += ", " + show::mass(Mass::grams(*card.whole_grams), style);
  if (card.primary_ratio) {
    words += ", " + say("sessions.yield", {show::percent(*card.primary_ratio, style)});
  }
  return words;
}

std::string cost_of(const SessionCard& card) {
  if (!card.cost_per_primary_gram) return {};
  return show::price(PricePerMass::of(Money::units(*card.cost_per_primary_gram), MassUnit::gram),
                     style_of(card));
}

void list(Ui& ui) {
  ui.kit.heading(say("sessions.list"), 2);
  if (ui.app.cards().empty()) {
    ui.kit.paragraph(say("sessions.none"), Tone::quiet);
    return;
  }
  // A copy: an act may change the list while it is drawn.
  const std::vector<SessionCard> cards = ui.app.cards();
  const std::string again = say("sessions.same-again");
  for (const SessionCard& card : cards) {
    const std::string title = card.title.empty() ? say("sessions.untitled") : card.title;
    const std::string cost = cost_of(card);
    std::string detail = detail_of(card, ui.style);
    if (!cost.empty()) detail += ", " + cost;
    ListRowOptions options;
    options.detail = detail;
    options.action = again;
    options.opens = true;
    switch (ui.kit.list_row("sessions/" + card.id, title, options)) {
      case RowTap::row: ui.app.open(card.id); break;
      case RowTap::action: ui.app.same_again(card.id); break;
      case RowTap::action2:
      case RowTap::none: break;
    }
  }
}

void acts(Ui& ui) {
  ui.kit.heading(say("sessions.more"), 2);
  const bool has_sample =
      std::ranges::any_of(ui.app.cards(), [](const SessionCard& card) { return card.sample; });
  auto grid = ui.kit.grid(3, 144);
  if (has_sample) {
    if (ui.kit.button("sessions/sample", say("sessions.remove-sample"),
                      {.detail = say("sessions.remove-sample-detail")})) {
      ui.app.remove_sample();
    }
  } else if (ui.kit.button("sessions/sample", say("sessions.load-sample"),
                           {.detail = say("sessions.load-sample-detail")})) {
    ui.app.load_sample();
  }
  if (ui.kit.button("sessions/import", say("sessions.import"))) ui.app.import_file();
  if (!ui.app.cards().empty() && ui.kit.button("sessions/backup", say("sessions.backup"))) {
    ui.app.export_backup();
  }
  if (!ui.app.is_protected().value_or(false) && !ui.app.cards().empty() &&
      ui.kit.button("sessions/protect", say("sessions.protect"))) {
    ui.app.protect();
  }
  if (ui.kit.button("go.bin", say("go.bin"))) ui.app.go(Screen::bin);
  if (ui.kit.button("go.settings", say("go.settings"))) ui.app.go(Screen::settings);
  if (ui.kit.button("go.about", say("go.about"))) ui.app.go(Screen::about);
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
      ui.app.new_session();
    }
    // What was asked for needs the second part of the program.
    if (ui.app.waits_for_part()) {
      ui.kit.status("sessions/part", say("waiting.part"), Tone::normal);
    }
    protection(ui);
    list(ui);
    acts(ui);
  }
  notice(ui);
}

}  // namespace tallyblock
