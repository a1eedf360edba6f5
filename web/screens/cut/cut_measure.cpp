// Measuring: the drawing leads; a station is tapped, then digits.
#include <algorithm>
#include <array>
#include <cmath>

#include "cut_parts.h"
#include "web/screens/choices.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

struct Fill {
  std::string_view word, percent;
};
// Oval: an ellipse, pi/4 of its box. Rounded: between that and a rectangle, a choice of ours.
constexpr Fill kFills[] = {
    {"cut.fill-box", "100 %"}, {"cut.fill-round", "90 %"}, {"cut.fill-oval", "78.54 %"}};

void edit_length(Ui& ui, const std::string& subject) {
  ask::edit(ui.app, {FieldKind::length, subject});
}

int chosen_station(const Ui& ui, const CutDrawing& drawing) {
  const Field& field = ui.draft().field;
  const auto [what, place_typed] = parts_of(field.subject);
  if (field.kind != FieldKind::length || (what != "width" && what != "depth")) return -1;
  const auto at = parse_length(place_typed, "at");
  const float place = at ? in_mm(at->length) : 0.0F;
  for (std::size_t i = 0; i < drawing.stations.size(); ++i) {
    if (drawing.stations[i].at == place) return static_cast<int>(i);
  }
  return -1;
}

void other_end(Ui& ui, const std::string& end) {
  ui.kit.paragraph(say("cut.other-end", {show::typed(end, ui.style)}), Tone::strong,
                   "cut/other-end");
  auto row = ui.kit.row();
  if (ui.kit.button("cut/same", say("cut.same-all-along"), {.kind = ButtonKind::primary})) {
    ask::same_all_along(ui.app);
  }
  if (ui.kit.button("cut/tapers", say("cut.tapers"))) edit_length(ui, "width:" + end);
}

// Two faces tell nothing of what lies between. That it is even is an answer, no measure: so it is a setting
// of this session and no station, which the guide would believe.
bool asks_taper(const Ui& ui, const CuttingNow& cutting) {
  const std::vector<StationLine>& faces = cutting.stations;
  if (faces.size() != 2 || !cutting.open_end.empty()) return false;
  const auto area = [](const StationLine& face) {
    return face.width.length.in_millimetres() * face.depth.length.in_millimetres();
  };
  const auto [least, most] = std::minmax({area(faces.front()), area(faces.back())});
  return most - least > 0.1 * most && !ui.figures().settings.all.contains("taper");
}

void taper(Ui& ui) {
  ui.kit.paragraph(say("cut.taper"), Tone::strong, "cut/taper");
  auto row = ui.kit.row();
  if (ui.kit.button("cut/evenly", say("cut.evenly")))
    ask::set_session_setting(ui.app, "taper", "even");
  if (ui.kit.button("cut/there", say("cut.there"))) edit_length(ui, "at");
}

void face_shape(Ui& ui, const std::vector<StationLine>& stations) {
  std::vector<std::string> names;
  int chosen = stations.front().fill ? -1 : 0;
  for (const Fill& fill : kFills) {
    const auto value = parse_percent(fill.percent, "fill");
    const auto& now = stations.front().fill;
    if (now && value && now->value == value->value) chosen = static_cast<int>(names.size());
    names.push_back(say(fill.word));
  }
  const std::vector<std::string_view> options(names.begin(), names.end());
  const int picked = ui.kit.choice("cut/fill", say("cut.fill"), options, chosen);
  if (picked >= 0)
    ask::set_face_fill(ui.app, std::string(kFills[picked].percent), say(kFills[picked].word));
}

void ruler(Ui& ui) {
  constexpr std::array<std::string_view, 3> rulers = {"mm", "cm", "in"};
  const std::string picked =
      setting_choice(ui, "cut/ruler", "cut.ruler", rulers, ui.app.desk().ruler(), "setting.ruler");
  if (!picked.empty()) ask::set_session_setting(ui.app, "ruler", picked);
}

void take_out(Ui& ui, const std::vector<StationLine>& stations) {
  if (stations.size() < 2) return;
  auto grid = ui.kit.grid(3, 100);
  for (const StationLine& line : stations) {
    if (!line.at) continue;  // the first face stays: without it there is no piece
    const std::string place = length_shown(ui, line.place());
    if (ui.kit.button("cut/take-out/" + to_text(line.id), say("cut.take-out", {place}))) {
      ask::void_entry(ui.app, line.id);
    }
  }
}

void next_step(Ui& ui, const CuttingNow& cutting) {
  const CuttingView* view = cutting.main();
  if (view == nullptr || !view->input || !cutting.open_end.empty()) return;
  if (ui.kit.button("cut/to-plan", say("cut.to-plan"), {.kind = ButtonKind::primary})) {
    open_part(ui, "plan");
  }
}

}  // namespace

void measure_part(Ui& ui, const CuttingNow& cutting) {
  const std::vector<StationLine>& stations = cutting.stations;
  const bool typing = ui.draft().field.kind != FieldKind::none;
  const CuttingView* view = cutting.main();
  ui.kit.heading(say("cut.measure-title"), 1, "cut/title");
  CutDrawing drawing = piece_drawing(ui);
  drawing.chosen = chosen_station(ui, drawing);
  if (drawing.length > 0.0F) {
    const int tapped =
        cut_drawing(ui.kit, "cut/piece", drawing, {.handles = true, .small = typing});
    if (tapped >= 0) {
      edit_length(ui, "width:" + drawing.stations[static_cast<std::size_t>(tapped)].place);
    }
  } else {
    ui.kit.paragraph(say("cut.measure-first"), Tone::normal, "cut/measure-first");
    if (!typing) ui.kit.paragraph(say("cut.cleaned"), Tone::quiet, "cut/cleaned");
    if (!typing &&
        ui.kit.button("cut/how-long", say("cut.how-long"), {.kind = ButtonKind::primary})) {
      edit_length(ui, "piece");
    }
    return ruler(ui);
  }
  if (stations.empty() && !typing &&
      ui.kit.button("cut/first-face", say("cut.first-face"), {.kind = ButtonKind::primary})) {
    edit_length(ui, "width:");
  }
  if (!stations.empty() && !cutting.open_end.empty() && !typing) {
    other_end(ui, cutting.open_end);
  }
  if (view != nullptr && !view->objects.empty() && !view->input) {
    const auto& problem = view->objects.front().problem;
    if (problem) ui.kit.paragraph(plan_words(ui, *problem), Tone::warn, "cut/problem");
  }
  if (typing) return;  // the digits have the room
  const bool asks = asks_taper(ui, cutting);
  if (asks) taper(ui);
  if (!stations.empty()) face_shape(ui, stations);
  if (!asks) {
    next_step(ui, cutting);
    if (!stations.empty() && ui.kit.button("cut/add-place", say("cut.add-place"))) {
      edit_length(ui, "at");
    }
  }
  {
    auto grid = ui.kit.grid(2, 144);
    field(ui, {FieldKind::length, "piece"},
          drawing.length > 0.0F ? length_shown(ui, Length::millimetres(drawing.length))
                                : std::string());
    const auto& checks = ui.figures().steps.front().checkpoints;
    const auto cleaned = checks.find("cleaned");
    field(ui, {FieldKind::checkpoint, "main"},
          cleaned == checks.end() ? std::string() : show::mass(cleaned->second.value(), ui.style));
  }
  take_out(ui, stations);
  ruler(ui);
}

}  // namespace tallyblock
