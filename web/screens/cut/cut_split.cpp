// Before the first cut of a piece that is to be split: where, and the weights of the long pieces.
#include <algorithm>

#include "cut_parts.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

// The piece as a whole is cut, or was meant to be: slices first.
bool slices_first(const Ui& ui, const CuttingView& view) {
  return !view.objects.front().cuts.empty() ||
         (view.objects.size() == 1 &&
          (ui.draft().field.kind == FieldKind::block || ui.draft().sliced == ui.app.session()->id));
}

// What takes a weight out stands after all of them, so that no field gives way to it.
void long_piece_fields(Ui& ui, const CuttingView& view, int of) {
  std::vector<std::string> weighed;
  auto grid = ui.kit.grid(2, 144);
  for (int i = 1; i <= of; ++i) {
    const std::string key = std::to_string(of) + "-" + std::to_string(i);
    std::string weight;
    for (const CuttingObject& piece : view.objects) {
      if (piece.long_piece == key && piece.weight) weight = show::mass(*piece.weight, ui.style);
    }
    field(ui, {FieldKind::long_piece, key}, weight);
    if (!weight.empty()) weighed.push_back(key);
  }
  for (const std::string& key : weighed) {
    if (ui.kit.button("cut/take-out/" + key, say("cut.take-out-long", {number_of(key)}))) {
      ask::take_out_long_piece(ui.app, key);
    }
  }
}

}  // namespace

bool splitting(const Ui& ui, const CuttingView& view) {
  if (slices_first(ui, view)) return false;
  const CuttingObject& piece = view.objects.front();
  if (view.objects.size() == 1) {
    return piece.plan && piece.plan->sections.size() == 1 && piece.plan->sections.front().k > 1;
  }
  for (const CuttingObject& object : view.objects) {
    if (!object.cuts.empty()) return false;
  }
  return static_cast<int>(view.objects.size()) - 1 < view.objects[1].of;
}

std::string number_of(const std::string& long_piece) {
  return long_piece.substr(long_piece.find('-') + 1);
}

void split_panel(Ui& ui, const CuttingView& view, const Shape& shape) {
  const CuttingObject& object = view.objects.front();
  if (!object.plan || object.plan->sections.empty()) return;
  PlannedSection section = object.plan->sections.front();
  const int of = view.objects.size() > 1 ? view.objects[1].of : section.k;
  section.k = of;
  section.split_at = split_fractions(shape.fill(Length()), of);
  section.from = Length();
  section.to = shape.length();
  const CutFaceShape face = face_drawing(ui, shape, section);
  ui.kit.heading(say("cut.split-first", {std::to_string(of)}), 1, "cut/title");
  cut_face(ui.kit, "cut/face", face);
  ui.kit.paragraph(say("cut.split-where", {face.name}), Tone::normal, "cut/split-where");
  long_piece_fields(ui, view, of);
  if (view.objects.size() > 1) return;
  if (ui.kit.button("cut/slice-first", say("cut.slice-first"),
                    {.detail = say(form_of("cut.slice-first-means", of), {std::to_string(of)})})) {
    ask::cut_long_piece(ui.app, "");
  }
}

}  // namespace tallyblock
