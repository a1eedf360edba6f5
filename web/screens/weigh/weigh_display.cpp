// The number being typed, the number just weighed, and what can be done about it.
#include <algorithm>

#include "web/words/words.h"
#include "weigh_parts.h"

namespace tallyblock {
namespace {

void eye_call_line(Ui& ui) {
  for (const EyeCallFigures& call : ui.figures().eye_calls) {
    if (call.role == Role::primary) {
      field(ui, {FieldKind::eye_call, ""}, show::percent(call.called, ui.style));
      return;
    }
  }
  const Field eye{FieldKind::eye_call, ""};
  if (ui.draft().field == eye) {
    if (ui.kit.button("weigh/back", say("weigh.no-eye-call"))) {
      ask::edit(ui.app, {FieldKind::reading, ""});
    }
  } else if (ui.kit.button("weigh/eye-call", say("weigh.eye-call"))) {
    ask::edit(ui.app, eye);
  }
}

// Beside the number: how many pieces it is of.
void count_button(Ui& ui) {
  const unsigned count = ui.draft().count;
  const std::string words = say(form_of("weigh.on-scale", count), {std::to_string(count)});
  const std::string name = say("weigh.on-scale-name", {words});
  if (ui.kit.button("weigh/on-scale", words, {.pressed = count > 1, .name = name})) {
    ask::open_panel(ui.app, "count");
  }
}

// What a field of the board holds now, as shown; empty: nothing yet, or it is a reading.
std::string held_now(const Ui& ui, const Field& field) {
  const Figures& f = ui.figures();
  const StepFigures& step = f.steps.front();
  const auto shown = [&](const std::optional<Measured>& weight) {
    return weight ? show::mass(weight->value(), ui.style) : std::string();
  };
  switch (field.kind) {
    case FieldKind::drained: return shown(f.incoming.drained);
    case FieldKind::remainder: return shown(step.on_board);
    case FieldKind::checkpoint: {
      const auto cleaned = step.checkpoints.find("cleaned");
      if (cleaned == step.checkpoints.end()) return {};
      return show::mass(cleaned->second.value(), ui.style);
    }
    default: return ui.present;
  }
}

void correct_button(Ui& ui) {
  if (ui.kit.button("weigh/correct", say("weigh.correct"))) ask::open_panel(ui.app, "last");
}

// Exactly as it was typed, unless a tub was taken off it.
std::string shown_of(const Ui& ui, const ReadingLine& line) {
  const auto typed = parse_mass(line.typed, "reading", Sign::any);
  const bool as_typed = typed && typed->mass == line.net;
  return as_typed ? show::typed(line.typed, ui.style) : show::mass(line.net, ui.style);
}

// The newest reading that counts, until the next digit.
void just_weighed(Ui& ui, const ReadingLine& line) {
  const std::string pile = explain::pile_name(ui.figures(), line.pile);
  std::string note;
  if (line.count > 1)
    note = say(form_of("weigh.at-once", line.count), {std::to_string(line.count)});
  if (const std::string off = off_target(ui, line); !off.empty()) note = off;
  if (line.net < Mass()) note = say("weigh.less-than-before");
  DisplayOptions options;
  const std::string said = say("weigh.said", {shown_of(ui, line), pile, kept_words(ui, line)});
  options.done = options.opens = true;
  options.note = note;
  options.said = said;
  auto row = ui.kit.row({1, 0}, {.stack_below = 220});
  if (!ui.kit.least()) ui.kit.may_grow_to(kDisplayTurn, style::grow_display_to);
  if (ui.kit.keypad_display("weigh/display", pile, shown_of(ui, line), options))
    ask::open_panel(ui.app, "last");
  correct_button(ui);
}

void typed_digits(Ui& ui) {
  const Draft& draft = ui.draft();
  const bool reading = draft.field.kind == FieldKind::reading;
  const bool counted = reading || draft.field.kind == FieldKind::anew;
  DisplayOptions options;
  ui.present = held_now(ui, draft.field);
  const std::string unit = digits_unit(ui), present = present_words(ui);
  const std::string problem = field_problem_words(ui);
  options.unit = present.empty() ? std::string_view(unit) : std::string_view();
  options.hint = present;
  options.problem = problem;
  const std::string label = !reading ? field_title(ui, draft.field)
                            : draft.pile.empty()
                                ? say("weigh.tap-pile")
                                : say("weigh.into", {explain::pile_name(ui.figures(), draft.pile)});
  auto row = reading   ? ui.kit.row({1, 0}, {.stack_below = 220})
             : counted ? ui.kit.row({1, 0, 0})
                       : ui.kit.row({1, 0});
  if (!weighing_in(ui) && !ui.kit.least()) ui.kit.may_grow_to(kDisplayTurn, style::grow_display_to);
  ui.kit.keypad_display("weigh/display", label, show::typed(draft.digits, ui.style), options);
  if (counted) count_button(ui);
  if (reading || !unit_is_one_key(ui)) return;
  if (ui.kit.button("weigh/piles", say("weigh.to-piles")))
    ask::edit(ui.app, {FieldKind::reading, ""});
}

bool is_idle(const Ui& ui) {
  return ui.draft().field.kind == FieldKind::reading && ui.draft().digits.empty() &&
         !ui.app.keypad().problem;
}

// What was said of something else than weights stands in the number's place while that is idle.
bool says_other(const Ui& ui) {
  const auto& said = ui.app.notice();
  return said && !is_about_weighing(said->key) && is_idle(ui) && (has_reading(ui) || compact(ui));
}

void type_anew(Ui& ui, const ReadingLine& line) {
  ask::open_panel(ui.app, "");
  ask::edit(ui.app, {FieldKind::anew, to_text(line.id)});
}

// How many it was of: the usual ones at one touch.
void counts_at_once(Ui& ui, const ReadingLine& line) {
  constexpr unsigned kAtOnce = 12;
  ui.kit.heading(say("weigh.how-many"), 2);
  auto grid = ui.kit.grid(6, 48);
  for (unsigned n = 1; n <= kAtOnce; ++n) {
    const std::string digits = std::to_string(n);
    const std::string name = say(form_of("weigh.on-scale", n), {digits});
    if (!ui.kit.button("weigh/last/count/" + digits, digits,
                       {.pressed = n == line.count, .name = name}))
      continue;
    if (n == line.count) return ask::open_panel(ui.app, "");
    type_anew(ui, line);
    ask::set_count(ui.app, n);
    ask::enter(ui.app);
  }
}

}  // namespace

// Asked often in a frame: the first that counts is enough.
bool has_reading(const Ui& ui) {
  return std::ranges::any_of(ui.figures().piles, [](const PileFigures& pile) {
    return !std::ranges::all_of(pile.lines, &ReadingLine::is_void);
  });
}

void first_line(Ui& ui) {
  const auto& said = ui.app.notice();
  // A small phone has room for it here while there is no picture yet; later in place of the last line.
  const bool room = !compact(ui) || weighing_in(ui);
  if (said && !is_about_weighing(said->key) && room) notice(ui);
  if (ui.figures().incoming.as_purchased) eye_call_line(ui);
}

void error_notice(Ui& ui) {
  const auto& said = ui.app.notice();
  if (said && said->is_error && has_reading(ui) && !says_other(ui)) notice(ui);
}

void display_row(Ui& ui) {
  if (says_other(ui)) return notice(ui);
  const ReadingLine* newest = newest_that_counts(ui.figures());
  if (is_idle(ui) && newest != nullptr) return just_weighed(ui, *newest);
  typed_digits(ui);
}

void last_panel(Ui& ui) {
  const ReadingLine* newest = newest_that_counts(ui.figures());
  if (newest == nullptr) return ask::open_panel(ui.app, "");
  const ReadingLine& line = *newest;
  ui.kit.heading(
      say("weigh.last", {shown_of(ui, line), explain::pile_name(ui.figures(), line.pile)}), 1,
      "weigh/last");
  std::string what = weighed_into(ui, line);
  if (const std::string off = off_target(ui, line); !off.empty()) what += ", " + off;
  ui.kit.paragraph(what + ", " + kept_words(ui, line), Tone::quiet, "weigh/last/what");
  {
    auto grid = ui.kit.grid(2, 132);
    if (ui.kit.button("weigh/last/out", say("weigh.take-out"), {.size = ButtonSize::large_words})) {
      ask::void_entry(ui.app, line.id);
      ask::open_panel(ui.app, "");
    }
    if (ui.kit.button("weigh/last/anew", say("weigh.anew"), {.size = ButtonSize::large_words}))
      type_anew(ui, line);
    if (ui.kit.button("weigh/last/count", say("weigh.how-many-short"),
                      {.size = ButtonSize::large_words})) {
      type_anew(ui, line);
      ask::open_panel(ui.app, "count");
    }
    if (ui.kit.button("weigh/last/readings", say("weigh.readings"),
                      {.size = ButtonSize::large_words}))
      ask::open_panel(ui.app, "readings");
  }
  if (not_all_weighed(ui.figures()) && ui.kit.button("weigh/last/all", say("weigh.all-weighed"),
                                                     {.detail = say("weigh.all-weighed-means")})) {
    ask::set_session_setting(ui.app, std::string(kAllWeighed), "yes");
    ask::open_panel(ui.app, "");
  }
  ui.kit.heading(say("weigh.on-other-pile"), 2);
  {
    auto grid = pile_grid(ui);
    other_piles(ui, line);
    if (ui.kit.button("weigh/last/new-pile", say("weigh.new-pile")))
      ask::open_panel(ui.app, "pile");
  }
  counts_at_once(ui, line);
  if (ui.kit.button("weigh/last/close", say("weigh.readings-close"))) ask::open_panel(ui.app, "");
}

}  // namespace tallyblock
