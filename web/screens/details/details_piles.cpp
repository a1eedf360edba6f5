#include <array>
#include <string_view>

#include "details_parts.h"
#include "web/app/desk/left.h"
#include "web/screens/choices.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr std::array<std::string_view, 4> kRoles = {"primary", "secondary", "usable-trim",
                                                    "unusable-trim"};

Role role_of(std::string_view name) {
  for (const Role role : {Role::primary, Role::secondary, Role::usable_trim, Role::unusable_trim}) {
    if (name_of(role) == name) return role;
  }
  return Role::primary;
}

void numbers_of(Ui& ui, const PileFigures& pile) {
  const std::string name = explain::pile_name(pile);
  auto grid = ui.kit.grid(2, 144);
  if (pile.role != Role::primary) {
    field(ui, {FieldKind::pile_value, pile.key},
          pile.value ? show::price(*pile.value, ui.style) : std::string(), name);
  }
  if (ui.kit.button(
          "details/by-difference/" + pile.key, say("details.by-difference"),
          {.detail = say("details.by-difference-detail"), .pressed = pile.by_difference})) {
    ask::set_by_difference(ui.app, pile.key, !pile.by_difference);
  }
}

void break_down(Ui& ui, const PileFigures& pile) {
  const std::array processes = {Process::breakdown, Process::cooking, Process::grinding,
                                Process::brine};
  if (nothing_left(ui.figures(), pile, Process::other)) {
    ui.kit.paragraph(say("notice.nothing-left", {pile.name}), Tone::quiet,
                     "details/nothing-left/" + pile.key);
    return;
  }
  ui.kit.paragraph(say("details.break-down-what"), Tone::quiet);
  auto grid = ui.kit.grid(2, 144);
  for (const Process process : processes) {
    if (nothing_left(ui.figures(), pile, process)) continue;
    const std::string key(name_of(process));
    if (ui.kit.button("details/break-down/" + pile.key + "/" + key, say("process." + key))) {
      ask::break_down(ui.app, pile.key, say("process." + key), process);
    }
  }
}

// What was made of the pile further on, with its way out.
void steps_of(Ui& ui, const PileFigures& pile) {
  const StepFigures* newest = nullptr;
  for (const StepFigures& step : ui.figures().steps) {
    if (step.from_pile == pile.key) newest = &step;
  }
  for (const StepFigures& step : ui.figures().steps) {
    if (step.from_pile != pile.key) continue;
    const std::string name =
        step.name.empty() ? say("process." + std::string(name_of(step.process))) : step.name;
    if (step.input) {
      const std::string in = show::mass(step.input->value(), ui.style);
      const std::string out = show::mass(step.outputs.value(), ui.style);
      const bool read = step.outputs.value() > Mass() && step.input->value() > Mass();
      const double lost = read ? 1.0 - step.outputs.value() / step.input->value() : 0.0;
      const bool cooked = step.process == Process::cooking;
      const bool too_much = read && lost < -1e-6 && step.process != Process::brine;
      ui.kit.paragraph(too_much ? say("details.step-too-much", {name, in, out})
                       : !read  ? say("details.step-begun", {name, in})
                                : say(cooked ? "details.step-cooked" : "details.step-done",
                                     {name, in, out, show::percent(lost, ui.style)}),
                       too_much ? Tone::bad : Tone::normal, "details/step/" + step.key);
    }
    // Typed, it is said of the newest step of the pile.
    if (&step == newest) {
      const bool said = step.taken && step.taken->value() > Mass();
      field(ui, {FieldKind::step_weight, pile.key},
            said ? show::mass(step.taken->value(), ui.style) : std::string(), name);
    }
    if (ui.kit.button("details/step-out/" + step.key, say("details.step-out", {name}),
                      {.detail = say("details.step-out-detail")})) {
      return ask::take_out_step(ui.app, step.key);
    }
  }
}

void edit_pile(Ui& ui, const PileFigures& pile) {
  auto panel = ui.kit.panel(Ground::sunk);
  text_field(ui, "pile:" + pile.key, "details.pile-name");
  text_field(ui, "pile-use:" + pile.key, "details.pile-use", "details.pile-use-hint");
  const std::string picked = setting_choice(ui, "details/role/" + pile.key, "role", kRoles,
                                            name_of(pile.role), "details.role-label");
  if (!picked.empty()) ask::set_pile_role(ui.app, pile.key, role_of(picked));
  numbers_of(ui, pile);
  steps_of(ui, pile);
  break_down(ui, pile);
}

}  // namespace

bool unfolded(Ui& ui, const std::string& path, const std::string& panel, const std::string& title,
              ListRowOptions options) {
  const bool open = ui.panel() == panel;
  options.opens = options.folds = true;
  options.chosen = open;
  if (ui.kit.list_row(path, title, options) == RowTap::row) {
    ask::open_panel(ui.app, open ? "" : panel);
    ui.kit.scroll_to(path);  // what stood open above has closed
  }
  return open;
}

void piles_part(Ui& ui) {
  const Figures& f = ui.figures();
  ui.kit.heading(say("details.piles"), 2);
  ui.kit.paragraph(say("details.piles-what"), Tone::quiet);
  for (const PileFigures& pile : f.piles) {
    const std::string name = explain::pile_name(pile);
    std::string detail = say("role." + std::string(name_of(pile.role)));
    if (detail == name) detail.clear();
    const std::string value = show::mass(pile.weighed.value(), ui.style);
    ListRowOptions options;
    options.detail = detail;
    options.value = value;
    options.look = look_of(pile.role);
    options.variant = place_in_role(f, pile);
    if (unfolded(ui, "details/pile/" + pile.key, "pile:" + pile.key, name, options)) {
      edit_pile(ui, pile);
    }
  }
  ui.kit.heading(say("details.add-pile"), 3);
  add_pile_buttons(ui, "details/add-pile");
}

void tubs_part(Ui& ui) {
  ui.kit.heading(say("details.tubs"), 2);
  ui.kit.paragraph(say("details.tubs-what"), Tone::quiet);
  for (const TubFigures& tub : ui.figures().tubs) {
    auto row = ui.kit.row({3, 2}, {.stack_below = 320});
    text_field(ui, "tub:" + tub.key, "details.tub-name");
    const Field tare{FieldKind::tub_tare, tub.key};
    field(ui, tare, show::typed(tub.tare.text, ui.style), tub.name);
  }
  if (ui.kit.button("details/add-tub", say("details.add-tub"))) ask::add_tub(ui.app, "");
}

}  // namespace tallyblock
