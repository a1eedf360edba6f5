// Taking a session out of this device, and deleting it.
#include "web/screens/beginning.h"
#include "web/screens/screen_list.h"
#include "web/words/words.h"

namespace tallyblock {

namespace {

void as_picture(Ui& ui) {
  ui.kit.heading(say("share.picture"), 2);
  auto grid = ui.kit.grid(2, 144);
  if (ui.kit.button("share/picture", say("share.picture-bare"))) {
    ask::share_picture(ui.app, false, false);
  }
  if (!ui.figures().people.empty() &&
      ui.kit.button("share/picture-people", say("share.picture-people"))) {
    ask::share_picture(ui.app, false, true);
  }
}

}  // namespace

void share_screen(Ui& ui) {
  top(ui, say("share.title", {title_of(ui.figures())}), "share/title");
  warnings(ui);
  const std::string id = ui.app.session()->id;
  {
    auto body = ui.kit.scroll("share/body");
    auto measure = ui.kit.measure();
    ui.kit.paragraph(say("share.what"));
    if (ui.kit.button("share/with-names", say("share.with-names"),
                      {.detail = say("share.with-names-detail")})) {
      ask::export_session(ui.app, id, true);
    }
    if (ui.kit.button("share/without-names", say("share.without-names"),
                      {.detail = say("share.without-names-detail")})) {
      ask::export_session(ui.app, id, false);
    }
    as_picture(ui);
    ui.kit.heading(say("share.all"), 2);
    ui.kit.paragraph(say("share.all-what"), Tone::quiet);
    auto grid = ui.kit.grid(2, 144);
    if (ui.kit.button("share/backup", say("more.backup"))) ask::export_backup(ui.app);
    if (ui.kit.button("share/import", say("more.import"))) ask::import_file(ui.app);
    if (!ui.app.page().is_protected.value_or(false)) {
      if (ui.kit.button("share/protect", say("more.protect"))) ask::protect(ui.app);
    }
    if (ui.kit.button("share/again", say("share.same-again"))) begin_again(ui, id);
    if (ui.kit.button("share/delete", say("share.delete"),
                      {.detail = say("share.delete-detail")})) {
      ask::put_in_bin(ui.app, id);
    }
  }
  notice(ui);
}

}  // namespace tallyblock
