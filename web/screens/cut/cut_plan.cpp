// The plan: where to split and where to cut, and what other choices would give.
#include <algorithm>
#include <cmath>
#include <optional>

#include "cut_parts.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

// Of what the measures give at the density of lean meat; beyond, one of them or the weight is a slip. A face that
// is no rectangle may give less.
constexpr double kLeastDense = 0.6, kMostDense = 1.25;

const CuttingObject& whole(const CuttingView& view) { return view.objects.front(); }

const PortionSpec* first_spec(const CuttingView& view) {
  return view.specs.empty() ? nullptr : &view.specs.front();
}

void wanted_fields(Ui& ui, const CuttingView* view) {
  constexpr int most = 4;  // kinds that a plan can hold (cutting.h)
  ui.kit.heading(say("cut.portions-wanted"), 2);
  auto grid = ui.kit.grid(2, 144);
  int kinds = 0;
  bool all_asked = true;
  for (const PileFigures& pile : ui.figures().piles) {
    if (pile.role != Role::primary || pile.step != "main") continue;
    target_fields(ui, pile);
    ++kinds;
    if (target_of(ui.figures(), pile.key) == nullptr) {
      all_asked = false;
      continue;
    }
    std::string wanted = say("cut.as-many");
    if (view != nullptr) {
      for (const PortionSpec& spec : view->specs) {
        if (spec.name == pile.key && spec.wanted) wanted = std::to_string(*spec.wanted);
      }
    }
    field(ui, {FieldKind::wanted, pile.key}, wanted, explain::pile_name(pile));
  }
  const std::size_t planned = view == nullptr ? 0 : view->specs.size();
  if (kinds == 0 || std::max(kinds, static_cast<int>(planned)) >= most || !all_asked) return;
  if (ui.kit.button("cut/add-kind", say("cut.add-kind"))) {
    const std::string number = std::to_string(kinds + 1);
    ask::add_pile(ui.app, Role::primary, say("cut.kind-name", {say("pile.portions"), number}), "",
                  true);
  }
}

void limit_fields(Ui& ui, const PlanInput& input) {
  ui.kit.heading(say("cut.limits"), 2);
  ui.kit.paragraph(say("cut.limits-what"), Tone::quiet);
  auto grid = ui.kit.grid(2, 144);
  const auto limit = [&](const char* name, const std::optional<Length>& now) {
    field(ui, {FieldKind::length, name}, now ? length_shown(ui, *now) : say("cut.no-limit"));
  };
  const auto lost = [&](const char* name, Length now) {
    field(ui, {FieldKind::length, name}, length_shown(ui, now));
  };
  limit("least", input.limits.least_min);
  limit("thickness-min", input.limits.thickness_min);
  limit("thickness-max", input.limits.thickness_max);
  lost("trim-front", input.trim_front);
  lost("trim-back", input.trim_back);
  lost("saw", input.saw);
}

const SplitOption* split_into(const CuttingView& view, int k) {
  for (const SplitOption& option : view.splits) {
    if (option.k == k) return &option;
  }
  return nullptr;
}

std::string split_name(int k) {
  if (k == 0) return say("cut.split-changing");
  return k == 1 ? say("cut.unsplit-all") : say("cut.split-in", {std::to_string(k)});
}

std::string likely(const SplitOption& option) {
  return std::to_string(std::lround(option.expected));  // to the nearest portion
}

// Of those with thicker blocks than the best has, the one that is worth most.
const SplitOption* thicker(const CuttingView& view, const SplitOption& best) {
  const SplitOption* found = nullptr;
  for (const SplitOption& option : view.splits) {
    if (option.k == 0 || option.thickness <= best.thickness * 1.2) continue;
    if (found == nullptr || option.worth > found->worth) found = &option;
  }
  return found;
}

// What each number of long pieces gives; thick blocks or many is the cook's choice.
void split_sentences(Ui& ui, const CuttingView& view, const PlanInput& input) {
  if (view.splits.empty()) return;
  ui.kit.heading(say("cut.splits"), 2);
  const SplitOption* best = &view.splits.front();
  for (int k = 1; k <= 5; ++k) {
    const SplitOption* option = split_into(view, k % 5);  // changing comes last
    const std::string name = split_name(k % 5);
    const std::string path = "cut/split/" + std::to_string(k % 5);
    if (option == nullptr) {
      if (k < 5) ui.kit.paragraph(say("cut.split-none", {name}), Tone::quiet, path);
      continue;
    }
    if (option->best) best = option;
    std::string words = say(form_of("cut.split-gives", option->portions),
                            {name, std::to_string(option->portions), likely(*option),
                             length_shown(ui, option->thickness)});
    if (option->best) words = say("cut.best", {words});
    ui.kit.paragraph(words, option->best ? Tone::good : Tone::quiet, path);
  }
  for (const SplitOption& option : view.splits) {
    if (option.k == 0 || option.portions <= best->portions) continue;
    ui.kit.paragraph(say(form_of("cut.many", option.portions - best->portions),
                         {split_name(option.k), std::to_string(option.portions - best->portions),
                          length_shown(ui, option.thickness)}),
                     Tone::normal, "cut/many/" + std::to_string(option.k));
  }
  if (const SplitOption* thick = thicker(view, *best)) {
    const long fewer = std::lround(best->expected) - std::lround(thick->expected);
    const std::string in = std::to_string(thick->k), now = length_shown(ui, best->thickness);
    const std::string then = length_shown(ui, thick->thickness);
    ui.kit.paragraph(fewer > 0 ? say(form_of("cut.thick-or-many", static_cast<double>(fewer)),
                                     {in, then, now, std::to_string(fewer)})
                               : say("cut.thick-as-many", {in, then, now}),
                     Tone::normal, "cut/thick-or-many");
  }
  std::vector<std::string> names = {say("cut.as-advised"), "1", "2", "3", "4"};
  const std::vector<std::string_view> options(names.begin(), names.end());
  const int now = input.k_yields ? 0 : input.k_only.value_or(0);
  const int picked = ui.kit.choice("cut/long-pieces", say("cut.long-pieces"), options, now);
  if (picked >= 0) ask::set_long_pieces(ui.app, static_cast<unsigned>(picked));
}

void plan_figures(Ui& ui, const CuttingView& view, const PlanInput& input, const Plan& plan) {
  for (std::size_t s = 0; s < view.specs.size(); ++s) {
    const PortionSpec& spec = view.specs[s];
    Mass least = spec.target + spec.tolerance, most;
    for (const PlannedBlock& block : plan.blocks) {
      const bool serves = block.spec == s || (block.other_counted > 0 && block.other == s);
      if (!serves) continue;
      least = std::min(least, block.each);
      most = std::max(most, block.each);
    }
    const std::string name = explain::pile_name(ui.figures(), spec.name);
    const std::string path = "cut/portions/" + spec.name;
    ui.kit.figure(path, say("cut.portions", {name, show::mass(spec.target, ui.style)}),
                  std::to_string(plan.portions[s]), {.size = FigureSize::key});
    if (plan.portions[s] == 0) continue;
    const std::string from = show::mass(least, ui.style), to = show::mass(most, ui.style);
    std::string weigh =
        from == to ? say("cut.each-weighs", {from}) : say("cut.from-to", {from, to});
    weigh += ' ' + say("cut.likely", {std::to_string(std::lround(plan.expected[s]))});
    const bool most_there_are = view.specs.size() == 1 && plan.exact && !spec.wanted;
    if (most < spec.target && most_there_are) weigh += ' ' + say("cut.all-below");
    ui.kit.paragraph(weigh, Tone::normal, path + "/each");
  }
  const Mass lost = plan.trim + plan.saw_loss;
  const std::string left = show::mass(std::max(plan.remainder, Mass()), ui.style);
  ui.kit.paragraph(lost > Mass::grams(0.5)
                       ? say("cut.left-and-lost", {left, show::mass(lost, ui.style)})
                       : say("cut.left-over", {left}),
                   Tone::normal, "cut/left");
  if (!plan.exact && plan.gap_portions > 0) {
    ui.kit.paragraph(
        say(form_of("cut.gap", plan.gap_portions), {std::to_string(plan.gap_portions)}),
        Tone::quiet, "cut/gap");
  }
  if (input.shape.estimated()) {
    ui.kit.paragraph(say("cut.estimated", {show::mass(input.shape.mass(), ui.style)}), Tone::warn,
                     "cut/estimated");
    field(ui, {FieldKind::checkpoint, "main"}, {});
  } else {
    const Result<Shape> by_measures = Shape::from(input.shape.stations(), std::nullopt);
    const double ratio = by_measures ? input.shape.mass() / by_measures->mass() : 1.0;
    if (ratio > kMostDense || ratio < kLeastDense) {
      ui.kit.paragraph(say("cut.unlike", {show::mass(by_measures->mass(), ui.style),
                                          show::mass(input.shape.mass(), ui.style)}),
                       Tone::warn, "cut/unlike");
    }
    ui.kit.paragraph(say("cut.weight-from", {show::mass(input.shape.mass(), ui.style)}),
                     Tone::quiet, "cut/weight");
  }
}

void plan_drawing(Ui& ui, const PlanInput& input, const Plan& plan) {
  CutDrawing drawing = piece_drawing(ui);
  drawing.stations.erase(
      std::remove_if(drawing.stations.begin(), drawing.stations.end(),
                     [](const CutStation& station) { return station.width == 0.0F; }),
      drawing.stations.end());
  drawing.trim_front = in_mm(input.trim_front);
  drawing.trim_back = in_mm(input.trim_back);
  for (const PlannedSection& section : plan.sections) {
    CutSectionShape shape{in_mm(section.from), in_mm(section.to), {}};
    for (const double at : section.split_at) shape.split_at.push_back(static_cast<float>(at));
    drawing.sections.push_back(std::move(shape));
  }
  for (std::size_t i = 0; i < plan.blocks.size(); ++i) {
    const PlannedBlock& block = plan.blocks[i];
    if (block.left_from < block.from) {  // what is left over lies between two marks
      drawing.blocks.push_back(
          {in_mm(block.left_from), in_mm(block.from), 1, "", CutState::taken_out});
      drawing.marks.push_back(length_bare(ui, block.from));
    }
    drawing.blocks.push_back(
        {in_mm(block.from), in_mm(block.to), block.k, std::to_string(i + 1), CutState::planned});
    // The unit is said once, at the last mark.
    const bool last = i + 1 == plan.blocks.size();
    drawing.marks.push_back(last ? length_shown(ui, block.to) : length_bare(ui, block.to));
  }
  drawing.name = say(
      form_of("cut.drawn-plan", static_cast<double>(plan.blocks.size())),
      {length_shown(ui, Length::millimetres(drawing.length)), std::to_string(plan.blocks.size())});
  ui.kit.paragraph(say("cut.marks-from"), Tone::quiet, "cut/marks-from");
  cut_drawing(ui.kit, "cut/piece", drawing);
  for (std::size_t i = 0; i < plan.sections.size(); ++i) {
    PlannedSection section = plan.sections[i];
    if (plan.sections.size() == 1) {
      if (section.k < 2) continue;
      section.from = Length();  // the whole piece is split
      section.to = input.shape.length();
    }
    const std::string path = "cut/face/" + std::to_string(i);
    const CutFaceShape face = face_drawing(ui, input.shape, section);
    if (plan.sections.size() > 1) {
      ui.kit.paragraph(say(section.k == 1 ? "cut.unsplit" : form_of("cut.changes", section.k),
                           {length_shown(ui, section.from), length_shown(ui, section.to),
                            std::to_string(section.k)}),
                       Tone::strong, path + "/where");
    }
    cut_face(ui.kit, path, face, true);
    if (section.k > 1) ui.kit.paragraph(face.name, Tone::normal, path + "/split");
  }
}

// With several targets the search behind it takes a moment, so it is asked for.
void nearby(Ui& ui, const CuttingView& view) {
  const std::uint64_t now = ui.app.desk().revision();
  if (ui.cut.nearby != now) {
    if (view.specs.size() > 1 && !ui.kit.button("cut/nearby", say("cut.nearby-ask"))) return;
    ui.cut.nearby = now;
  }
  const bool ounces =
      ui.style.weight != WeightStyle::grams && ui.style.weight != WeightStyle::kilograms;
  const Mass step = ounces ? Mass::of(0.1, MassUnit::ounce) : Mass::grams(1.0);
  ui.kit.heading(say("cut.nearby"), 2);
  int n = 0;
  for (const TargetChange& change : ui.app.desk().nearby(step)) {
    const std::string target = show::mass(change.target, ui.style);
    const std::string count = std::to_string(change.portions);
    const std::string left = show::mass(std::max(change.remainder, Mass()), ui.style);
    const bool nothing = change.remainder < Mass::grams(1.0);
    const PortionSpec* spec = first_spec(view);
    const bool meant = spec != nullptr && spec->target == change.target;
    ui.kit.paragraph(nothing
                         ? say(form_of("cut.nearby-none", change.portions), {target, count})
                         : say(form_of("cut.nearby-same", change.portions), {target, count, left}),
                     meant ? Tone::strong : Tone::normal, "cut/nearby/" + std::to_string(n++));
  }
}

}  // namespace

void marks_table(Ui& ui, const PlanInput& input, const Plan& plan, std::size_t done,
                 std::string_view from, bool whole) {
  const std::string mark = say("cut.mark"), thick = say("cut.thick"), each = say("cut.each");
  std::vector<TableColumn> columns = {{mark}, {from, true}};
  if (whole) columns.insert(columns.end(), {{thick, true}, {each, true}});
  std::vector<TableRow> rows;
  const auto add = [&](std::string name, Length near, Length far, std::string weight) {
    TableRow row;
    row.cells = {std::move(name), length_shown(ui, far), length_shown(ui, far - near),
                 std::move(weight)};
    row.cells.resize(columns.size());
    rows.push_back(std::move(row));
  };
  for (std::size_t i = 0; i < plan.blocks.size(); ++i) {
    const PlannedBlock& block = plan.blocks[i];
    if (block.left_from < block.from) {
      const Mass mass = input.shape.mass_to(block.from) - input.shape.mass_to(block.left_from);
      add(say("cut.left"), block.left_from, block.from, show::mass(mass, ui.style));
    }
    std::string weight = show::mass(block.each, ui.style);
    if (block.k > 1) weight = say("cut.portions-of", {std::to_string(block.k), weight});
    add(std::to_string(done + i + 1), block.from, block.to, std::move(weight));
  }
  ui.kit.table("cut/marks", say("cut.marks"), columns, rows);
}

void plan_part(Ui& ui, const CuttingNow& cutting) {
  const CuttingView* view = cutting.main();
  ui.kit.heading(say("cut.plan"), 1, "cut/title");
  if (view == nullptr || !view->input || view->objects.empty() || !cutting.open_end.empty()) {
    ui.kit.paragraph(say("cut.no-step"), Tone::normal, "cut/no-step");
    if (ui.kit.button("cut/to-measure", say("cut.measure"), {.kind = ButtonKind::primary})) {
      open_part(ui, "measure");
    }
    return wanted_fields(ui, view);
  }
  const PlanInput& input = *view->input;
  const CuttingObject& object = whole(*view);
  if (object.plan) {
    if (view->objects.size() > 1) {
      ui.kit.paragraph(say("cut.own-marks"), Tone::normal, "cut/own-marks");
    }
    plan_figures(ui, *view, input, *object.plan);
    plan_drawing(ui, input, *object.plan);
    if (ui.kit.button("cut/start", say(object.cuts.empty() ? "cut.start" : "cut.go-on"),
                      {.kind = ButtonKind::primary})) {
      open_part(ui, "guide");
    }
  } else {
    cut_drawing(ui.kit, "cut/piece", piece_drawing(ui));
    if (object.problem) {
      ui.kit.paragraph(plan_words(ui, *object.problem), Tone::warn, "cut/problem");
    }
  }
  split_sentences(ui, *view, input);
  wanted_fields(ui, view);
  if (object.plan) {
    nearby(ui, *view);
    ui.kit.heading(say("cut.marks"), 2);
    marks_table(ui, input, *object.plan, 0, say("cut.at"), true);
  }
  limit_fields(ui, input);
}

}  // namespace tallyblock
