// What one portion costs, where the weight and the money went, and a few lines that open in their place.
#include "result_parts.h"
#include "web/screens/beginning.h"
#include "web/screens/screen_list.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

void front(Ui& ui, Wanted what) {
  if (!lacks_the_answer(what)) {
    answer(ui);
    missing_counts(ui);
    unvalued(ui);
  }
  card(ui, what);
  pictures(ui, what);
}

void below(Ui& ui, Wanted what) {
  chapters(ui, what);
  auto row = ui.kit.grid(2, 144);
  if (ui.kit.button("result/share", say("result.share-picture"))) {
    ask::share_picture(ui.app, false, false);
  }
  if (ui.kit.button("result/again", say("result.same-again"))) {
    begin_again(ui, ui.app.session()->id);
  }
}

void body_of_result(Ui& ui) {
  auto body = ui.kit.scroll("result/body");
  const Wanted what = wanted(ui);
  const bool typing = ui.draft().field.kind != FieldKind::none;
  if (ui.kit.broad() || (ui.kit.wide() && !typing)) {
    auto sides = ui.kit.row({1, 1});
    {
      auto column = ui.kit.column();
      front(ui, what);
    }
    auto column = ui.kit.column();
    return below(ui, what);
  }
  front(ui, what);
  below(ui, what);
}

}  // namespace

void result_screen(Ui& ui) {
  top(ui, title_of(ui.figures()), "result/title");
  warnings(ui);
  over_keypad(ui, body_of_result);
}

}  // namespace tallyblock
