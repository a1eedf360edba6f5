#include "tidy.h"

namespace tallyblock {

std::string tidied(std::string_view text, bool lines) {
  std::string out;
  for (const char c : text) {
    if (c == '\r') continue;
    const auto code = static_cast<unsigned char>(c);
    const bool control = code <= ' ' || code == 0x7F;
    const char tidy = c == '\n' && lines ? '\n' : control ? ' ' : c;
    const bool starts = out.empty() || out.back() == '\n';
    if (tidy == ' ' && (starts || out.back() == ' ')) continue;
    if (tidy == '\n' && out.empty()) continue;
    if (tidy == '\n' && out.back() == ' ') out.pop_back();
    out += tidy;
  }
  const std::size_t last = out.find_last_not_of(" \n");
  out.resize(last == std::string::npos ? 0 : last + 1);
  return out;
}

void tidy_names(Figures& figures) {
  const auto tidy = [](std::string& text, bool lines = false) { text = tidied(text, lines); };
  tidy(figures.piece);
  tidy(figures.species);
  tidy(figures.cut);
  tidy(figures.specification, true);
  for (auto& [field, value] : figures.lot) tidy(value);
  for (StepFigures& step : figures.steps) tidy(step.name);
  for (TubFigures& tub : figures.tubs) tidy(tub.name);
  for (PersonLine& person : figures.people) tidy(person.name);
  for (NoteLine& note : figures.notes) tidy(note.text, true);
  for (PileFigures& pile : figures.piles) {
    tidy(pile.name);
    tidy(pile.use);
  }
  for (Doubt& doubt : figures.doubts) {
    for (Arg& arg : doubt.args) arg.set_text(tidied(arg.text()));
  }
}

}  // namespace tallyblock
