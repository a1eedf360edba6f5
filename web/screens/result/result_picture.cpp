// The result as a picture to be shared: it explains itself, and nothing in it can be opened.
#include "result_parts.h"
#include "web/kit/style.h"
#include "web/screens/breakdown_drawn.h"
#include "web/screens/screen_list.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

std::string people_of(const Figures& figures) {
  std::string names;
  for (const PersonLine& person : figures.people) {
    names = names.empty() ? person.name : say("result.and", {names, person.name});
  }
  return names;
}

}  // namespace

void picture_of_piece(Ui& ui, bool with_people) {
  if (ui.app.session() == nullptr) return;
  const Figures& f = ui.figures();
  const Wanted what = wanted(ui);
  ui.kit.space();
  ui.kit.heading(title_of(f), 1, "picture/title");
  const std::string people = with_people ? people_of(f) : std::string();
  if (!people.empty()) {
    ui.kit.paragraph(say("result.cut-by", {people}), Tone::quiet, "picture/people");
  }
  if (!lacks_the_answer(what)) {
    answer(ui);
    unvalued(ui, false);
    missing_counts(ui);
  } else if (what == Wanted::left) {
    ui.kit.heading(say("result.left", {whole_missed(ui)}), 2, "picture/left");
  } else if (what == Wanted::too_much) {
    ui.kit.heading(say("result.over", {whole_missed(ui)}), 2, "picture/over");
  }
  pictures(ui, what, PieceSize::full);
  lines_alone(ui, what);
  ui.kit.paragraph(say("picture.foot"), Tone::quiet, "picture/foot");
  ui.kit.space();
}

}  // namespace tallyblock
