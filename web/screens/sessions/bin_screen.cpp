// Deleted sessions: back, or gone for good.
#include "web/screens/screen_list.h"
#include "web/words/words.h"

namespace tallyblock {

void bin_screen(Ui& ui) {
  top(ui, say("bin.title"), "bin/title");
  warnings(ui);
  {
    auto body = ui.kit.scroll("bin/body");
    auto measure = ui.kit.measure();
    ui.kit.paragraph(say("bin.what"));
    const std::vector<SessionCard> cards = ui.app.shelf().binned;
    if (cards.empty()) ui.kit.paragraph(say("bin.empty"), Tone::quiet);
    const std::string back = say("bin.take-back"), erase = say("bin.erase");
    for (auto rows = ui.kit.rows("bin/rows", cards.size()); rows.next();) {
      const SessionCard& card = cards[rows.at()];
      const std::string title = card.title.empty() ? say("sessions.untitled") : card.title;
      const std::string detail = show::date(card.started_ms, card.offset_minutes, ui.style);
      // Erasing stands behind a first tap on the row, so that it is never the first tap.
      const bool open = ui.panel() == "erase:" + card.id;
      ListRowOptions options;
      options.detail = detail;
      options.action = back;
      if (open) options.action2 = erase;
      options.opens = true;
      options.chosen = open;
      switch (ui.kit.list_row("bin/" + card.id, title, options)) {
        case RowTap::row: ask::open_panel(ui.app, open ? "" : "erase:" + card.id); break;
        case RowTap::action: ask::take_from_bin(ui.app, card.id); break;
        case RowTap::action2: ask::erase(ui.app, card.id); break;
        case RowTap::none: break;
      }
    }
    if (!cards.empty()) ui.kit.paragraph(say("bin.how"), Tone::quiet);
  }
  notice(ui);
}

}  // namespace tallyblock
