// The cautions, once, before the first piece. The panel names what goes on after them, so that a kill comes
// back to it: "caution:new", "caution:sample", "caution:again:<id>".
#include <array>
#include <string_view>

#include "beginning.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr std::string_view kPanel = "caution:", kNew = "new", kSample = "sample", kAgain = "again:";

void begin(Ui& ui, std::string_view what) {
  if (what == kNew) return ask::new_session(ui.app);
  if (what == kSample) return ask::load_sample(ui.app);
  if (what.starts_with(kAgain)) {
    ask::same_again(ui.app, std::string(what.substr(kAgain.size())));
  }
}

void begin_after_cautions(Ui& ui, const std::string& what) {
  if (ui.app.shelf().settings.caution_seen) return begin(ui, what);
  ask::go(ui.app, Screen::sessions);
  ask::open_panel(ui.app, std::string(kPanel) + what);
}

}  // namespace

void begin_new(Ui& ui) { begin_after_cautions(ui, std::string(kNew)); }

void begin_sample(Ui& ui) {
  if (ui.app.shelf().settings.caution_seen) ask::go(ui.app, Screen::sessions);
  begin_after_cautions(ui, std::string(kSample));
}

void begin_again(Ui& ui, const std::string& session) {
  begin_after_cautions(ui, std::string(kAgain) + session);
}

bool caution_sheet(Ui& ui) {
  const std::string panel = ui.panel();
  if (!panel.starts_with(kPanel)) return false;
  {
    auto body = ui.kit.scroll("sessions/caution");
    auto measure = ui.kit.measure();
    ui.kit.heading(say("sessions.caution"), 1, "sessions/caution/title");
    constexpr std::array<std::string_view, 4> cautions = {"caution.local-codes", "caution.knife",
                                                          "caution.hands", "caution.phone"};
    for (const std::string_view key : cautions) {
      auto one = ui.kit.panel(Ground::warn);
      ui.kit.paragraph(say(key), Tone::normal, "sessions/caution/" + std::string(key));
    }
  }
  auto measure = ui.kit.measure();
  if (ui.kit.button("sessions/caution-seen", say("sessions.caution-seen"),
                    {.kind = ButtonKind::primary, .size = ButtonSize::large})) {
    ask::caution_read(ui.app);
    begin(ui, panel.substr(kPanel.size()));
    ask::open_panel(ui.app, "");
  }
  return true;
}

}  // namespace tallyblock
