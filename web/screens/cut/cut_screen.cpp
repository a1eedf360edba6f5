// Where to put the knife: three parts, the present one kept as the panel.
#include <algorithm>
#include <cmath>

#include "core/base/sorted.h"
#include "core/cutting/ruler.h"
#include "cut_parts.h"
#include "web/figures/sentence.h"
#include "web/screens/screen_list.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr std::string_view kMeasure = "measure", kPlan = "plan", kGuide = "guide";

// Where the person was, else where there is something to do.
std::string_view part_of(const Ui& ui, const CuttingNow& cutting) {
  for (const std::string_view part : {kMeasure, kPlan, kGuide}) {
    if (ui.panel() == part) return part;
  }
  const CuttingView* view = cutting.main();
  if (view == nullptr || !view->input) return kMeasure;
  for (const CuttingObject& object : view->objects) {
    if (!object.cuts.empty()) return kGuide;
  }
  return kPlan;
}

void bar(Ui& ui, std::string_view now) {
  auto row = bar_on_top(ui) ? ui.kit.row() : ui.kit.top_bar();
  if (!bar_on_top(ui)) way_back(ui);
  for (const std::string_view part : {kMeasure, kPlan, kGuide}) {
    const std::string key = "cut." + std::string(part);
    if (ui.kit.button(key, say(key), {.kind = ButtonKind::quiet, .pressed = part == now})) {
      open_part(ui, part);
    }
  }
}

void body_of_cut(Ui& ui) {
  auto body = ui.kit.scroll("cut/body");
  auto measure = ui.kit.measure();
  const CuttingNow& cutting = ui.app.desk().cutting();
  if (part_of(ui, cutting) == kMeasure) {
    measure_part(ui, cutting);
  } else {
    plan_part(ui, cutting);
  }
}

CutStation open_station(const Ui& ui, Length at, const std::string& typed) {
  const std::string place = length_shown(ui, at);
  return {in_mm(at), 0.0F,
          place,     say("show.not-yet"),
          typed,     say("cut.place-open", {typed.empty() ? say("cut.face") : place})};
}

}  // namespace

std::string length_shown(const Ui& ui, Length length) {
  return show::typed(ruler_text(length, ui.app.desk().ruler_unit()), ui.style);
}

std::string length_bare(const Ui& ui, Length length) {
  const std::string shown = length_shown(ui, length);
  return shown.substr(0, shown.find_last_of(' '));
}

std::string split_words(const Ui& ui, const Shape& shape, const PlannedSection& section) {
  const auto places = [&](Length face) {
    std::string words;
    for (const double at : section.split_at) {
      if (!words.empty()) words += ", ";
      words += length_shown(ui, shape.width(face) * at);
    }
    return words;
  };
  const std::string near = places(section.from), far = places(section.to);
  return near == far ? say("cut.split-at", {near}) : say("cut.split-ends", {near, far});
}

std::string plan_words(const Ui& ui, const Problem& problem) {
  // What works must still work as the ruler shows it: a limit that was raised is not shown lower.
  const bool up = problem.code == Code::plan_thickness_max;
  const Length step = ruler_step(ui.app.desk().ruler_unit());
  std::vector<std::string> args = show::args(problem.args, ui.style);
  for (std::size_t i = 0; i < args.size(); ++i) {
    const Arg& arg = problem.args[i];
    if (arg.kind() == Arg::Kind::length) {
      const double marks = arg.length() / step;
      const bool works = i == 1 && (up || problem.code == Code::plan_thickness_min ||
                                    problem.code == Code::plan_least_dimension);
      args[i] = length_shown(
          ui, works ? step * (up ? std::ceil(marks) : std::floor(marks)) : arg.length());
    } else if (arg.kind() == Arg::Kind::mass) {
      args[i] = show::mass(arg.mass(), ui.style);
    }
  }
  return say(key_of(problem.code), args);
}

float in_mm(Length length) { return static_cast<float>(length.in_millimetres()); }

CutDrawing piece_drawing(const Ui& ui) {
  CutDrawing drawing;
  for (const StationLine& line : ui.app.desk().cutting().stations) {
    const std::string place = length_shown(ui, line.place());
    const Length width = line.width.length, depth = line.depth.length;
    drawing.stations.push_back(
        {in_mm(line.place()), in_mm(width), place,
         say("cut.across", {length_bare(ui, width), length_bare(ui, depth)}),
         line.at ? line.at->text : "",
         say("cut.place", {line.at ? place : say("cut.face"), length_shown(ui, width),
                           length_shown(ui, depth)})});
    drawing.length = in_mm(line.place());
  }
  // What is known of the far end, or asked for just now, is drawn before it is measured.
  const auto open = [&](const std::string& typed) {
    const auto at = parse_length(typed, "at");
    if (!at) return;
    const float place = in_mm(at->length);
    for (const CutStation& station : drawing.stations) {
      if (station.at == place) return;
    }
    drawing.stations.push_back(open_station(ui, at->length, typed));
    drawing.length = std::max(drawing.length, place);
  };
  open(ui.app.desk().cutting().open_end);
  if (ui.draft().field.kind == FieldKind::length) open(parts_of(ui.draft().field.subject).of);
  const auto first = [](const CutStation& station) { return station.at == 0.0F; };
  if (drawing.length > 0.0F && std::ranges::none_of(drawing.stations, first)) {
    drawing.stations.push_back(open_station(ui, Length(), ""));
  }
  heap_sort(drawing.stations, [](const CutStation& a, const CutStation& b) { return a.at < b.at; });
  drawing.name = say("cut.drawn", {length_shown(ui, Length::millimetres(drawing.length))});
  if (ui.app.desk().ruler_unit() == LengthUnit::inch) {
    drawing.tick = 25.4F / 4;
    drawing.long_tick = 4;
  }
  return drawing;
}

CutFaceShape face_drawing(const Ui& ui, const Shape& shape, const PlannedSection& section) {
  CutFaceShape face;
  const Length width = shape.width(section.from), depth = shape.depth(section.from);
  face.width = in_mm(width);
  face.depth = in_mm(depth);
  face.exponent = static_cast<float>(superellipse_exponent(shape.fill(section.from)));
  face.width_label = length_shown(ui, width);
  face.depth_label = length_shown(ui, depth);
  for (const double at : section.split_at) face.split_at.push_back(static_cast<float>(at));
  for (int i = 1; section.k > 1 && i <= section.k; ++i)
    face.piece_labels.push_back(std::to_string(i));
  face.name = section.split_at.empty()
                  ? say("cut.place", {say("cut.face"), face.width_label, face.depth_label})
                  : split_words(ui, shape, section);
  return face;
}

void open_part(Ui& ui, std::string_view part) {
  ask::dismiss_notice(ui.app);  // it was about the part that is left
  if (part == kGuide) ask::begin_cutting(ui.app);
  ask::edit(ui.app, {});
  ask::open_panel(ui.app, std::string(part));
  ui.kit.set_scroll("cut/body", 0.0F);
}

void cut_screen(Ui& ui) {
  const CuttingNow& cutting = ui.app.desk().cutting();
  const std::string_view part = part_of(ui, cutting);
  if (ui.panel() != part)
    ask::open_panel(ui.app, std::string(part));  // it stays until another is opened
  bar(ui, part);
  warnings(ui);
  if (ui.app.session()->sample) {
    ui.kit.status("cut/invented", title_of(ui.figures()), Tone::quiet);
  }
  if (part == kGuide) return guide_screen(ui, cutting);
  over_keypad(ui, body_of_cut);
}

}  // namespace tallyblock
