// Taking a session out of this device, and deleting it.
#include "web/screens/screen_list.h"
#include "web/words/words.h"

namespace tallyblock {

void share_screen(Ui& ui) {
  going_about(ui, {Screen::sessions, Screen::weigh, Screen::details, Screen::result});
  warnings(ui);
  const std::string id = ui.app.session()->id;
  {
    auto body = ui.kit.scroll("share/body");
    auto measure = ui.kit.measure();
    ui.kit.heading(say("share.title", {title_of(ui.figures())}), 1, "share/title");
    ui.kit.paragraph(say("share.what"));
    if (ui.kit.button("share/with-names", say("share.with-names"),
                      {.detail = say("share.with-names-detail")})) {
      ui.app.export_session(id, true);
    }
    if (ui.kit.button("share/without-names", say("share.without-names"),
                      {.detail = say("share.without-names-detail")})) {
      ui.app.export_session(id, false);
    }
    ui.kit.heading(say("share.all"), 2);
    ui.kit.paragraph(say("share.all-what"), Tone::quiet);
    auto grid = ui.kit.grid(2, 144);
    if (ui.kit.button("share/backup", say("sessions.backup"))) ui.app.export_backup();
    if (ui.kit.button("share/import", say("sessions.import"))) ui.app.import_file();
    if (!ui.app.is_protected().value_or(false)) {
      if (ui.kit.button("share/protect", say("sessions.protect"))) ui.app.protect();
    }
    if (ui.kit.button("share/again", say("share.same-again"))) ui.app.same_again(id);
    if (ui.kit.button("share/delete", say("share.delete"),
                      {.detail = say("share.delete-detail")})) {
      ui.app.put_in_bin(id);
    }
  }
  notice(ui);
}

}  // namespace tallyblock
