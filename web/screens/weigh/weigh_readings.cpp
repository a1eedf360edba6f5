// How a reading is weighed, and the readings made.
#include <algorithm>
#include <array>

#include "core/base/sorted.h"
#include "web/words/words.h"
#include "weigh_parts.h"

namespace tallyblock {
namespace {

constexpr std::array kHabits = {Habit::piece, Habit::increment, Habit::tub_now, Habit::taken_off};
constexpr std::array<unsigned, 8> kCounts = {1, 2, 3, 4, 5, 6, 8, 10};

bool is_newer(const ReadingLine* a, const ReadingLine* b) {
  return a->seq != b->seq ? a->seq > b->seq : b->id < a->id;
}

std::vector<const ReadingLine*> newest_first(const Figures& figures) {
  std::vector<const ReadingLine*> lines;
  for (const PileFigures& pile : figures.piles) {
    for (const ReadingLine& line : pile.lines) lines.push_back(&line);
  }
  heap_sort(lines, is_newer);
  return lines;
}

const ReadingLine* newest_that_counts(const Figures& figures) {
  const ReadingLine* newest = nullptr;
  for (const PileFigures& pile : figures.piles) {
    for (const ReadingLine& line : pile.lines) {
      if (!line.is_void && (newest == nullptr || is_newer(&line, newest))) newest = &line;
    }
  }
  return newest;
}

std::string kept_words(const Ui& ui, const ReadingLine& line) {
  if (is_kept(ui.app, line.id)) return say("save.kept");
  return say(save_state(ui.app) == SaveState::failed ? "save.failed" : "save.saving");
}

// How far a portion is from its target, when that is outside its tolerance.
std::string off_target(const Ui& ui, const ReadingLine& line) {
  const bool single =
      line.count == 1 && (line.habit == Habit::piece || line.habit == Habit::taken_off);
  const TargetFigures* target = target_of(ui.figures(), line.pile);
  if (target == nullptr || !single || line.is_void) return {};
  const Mass over = line.net - target->target, most = target->tolerance + Mass::grams(1e-9);
  if (over > most) return ", " + say("cut.off-over", {show::mass(over, ui.style)});
  if (-over > most) return ", " + say("cut.off-under", {show::mass(-over, ui.style)});
  return {};
}

std::string tub_name(const Ui& ui, const std::string& key) {
  const TubFigures* tub = tub_named(ui.figures(), key);
  return tub == nullptr ? std::string() : tub->name;
}

// The pile, how many at once, and the tub whose empty weight was taken off.
std::string weighed_into(const Ui& ui, const ReadingLine& line) {
  std::string words = explain::pile_name(ui.figures(), line.pile);
  if (line.count > 1)
    words += ", " + say(form_of("weigh.at-once", line.count), {std::to_string(line.count)});
  const Entry* entry = ui.app.session()->set.find(line.id);
  const auto* reading = entry == nullptr ? nullptr : std::get_if<body::Reading>(&entry->body);
  const std::string tub = reading == nullptr ? std::string() : tub_name(ui, reading->tub);
  if (!tub.empty()) words += ", " + say("weigh.less-tub", {tub});
  return words;
}

std::string detail_of(const Ui& ui, const ReadingLine& line) {
  std::string words = weighed_into(ui, line);
  if (line.habit != Habit::piece) {
    words += ", " + say("habit." + std::string(name_of(line.habit)));
  }
  words += off_target(ui, line);
  const Entry* entry = ui.app.session()->set.find(line.id);
  if (entry != nullptr && entry->by) {
    const std::string who = person_name(ui.figures(), *entry->by);
    if (!who.empty()) words += ", " + who;
  }
  if (line.is_void) return words + ", " + say("weigh.taken-out");
  if (line.covered) words += ", " + say("weigh.in-tub");
  return words + ", " + kept_words(ui, line);
}

void start_move(Ui& ui, const ReadingLine& line) {
  ask::select(ui.app, to_text(line.id));
  ask::open_panel(ui.app, "move");
}

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

void tub_choice(Ui& ui) {
  std::vector<std::string> names = {say("weigh.no-tub")};
  std::vector<std::string> keys = {""};
  int chosen = 0;
  for (const TubFigures& tub : ui.figures().tubs) {
    if (tub.key == ui.draft().tub) chosen = static_cast<int>(names.size());
    names.push_back(say("weigh.tub", {tub.name, show::typed(tub.tare.text, ui.style)}));
    keys.push_back(tub.key);
  }
  const std::vector<std::string_view> options(names.begin(), names.end());
  const int now = ui.kit.choice("weigh/tub", say("weigh.tub-label"), options, chosen);
  if (now >= 0) ask::set_tub(ui.app, keys[static_cast<std::size_t>(now)]);
}

// A bin nobody weighs: its pile is what is left of the whole.
void rest_choice(Ui& ui) {
  const PileFigures* pile = pile_named(ui.figures(), ui.draft().pile);
  if (pile == nullptr) return;
  if (ui.kit.button("weigh/rest", say("weigh.rest", {explain::pile_name(*pile)}),
                    {.detail = say("weigh.rest-means"), .pressed = pile->by_difference})) {
    ask::set_by_difference(ui.app, pile->key, !pile->by_difference);
  }
}

void unit_choice(Ui& ui) {
  const auto& units = mass_units(ui.draft().unit);
  int chosen = -1;
  for (std::size_t i = 0; i < units.size(); ++i) {
    if (units[i] == ui.draft().unit) chosen = static_cast<int>(i);
  }
  const int now = ui.kit.choice("weigh/unit", say("weigh.unit"), units, chosen);
  if (now >= 0) ask::set_unit(ui.app, std::string(units[static_cast<std::size_t>(now)]));
}

void count_steps(Ui& ui) {
  auto row = ui.kit.row();
  const unsigned count = ui.draft().count;
  if (ui.kit.button("weigh/fewer", say("weigh.fewer"), {.enabled = count > 1})) {
    ask::set_count(ui.app, count - 1);
  }
  if (ui.kit.button("weigh/more", say("weigh.more"), {.enabled = count < 999})) {
    ask::set_count(ui.app, count + 1);
  }
}

void count_choice(Ui& ui) {
  std::vector<std::string> names;
  int chosen = -1;
  for (const unsigned count : kCounts) {
    if (count == ui.draft().count) chosen = static_cast<int>(names.size());
    names.push_back(std::to_string(count));
  }
  const std::vector<std::string_view> options(names.begin(), names.end());
  const std::string label = say("weigh.count", {std::to_string(ui.draft().count)});
  const int now = ui.kit.choice("weigh/count", label, options, chosen);
  if (now >= 0) ask::set_count(ui.app, kCounts[static_cast<std::size_t>(now)]);
  count_steps(ui);
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

void display_row(Ui& ui) {
  const Draft& draft = ui.draft();
  const bool reading = draft.field.kind == FieldKind::reading;
  const bool counted = reading || draft.field.kind == FieldKind::anew;
  DisplayOptions options;
  ui.present = held_now(ui, draft.field);
  const std::string unit = digits_unit(ui), present = present_words(ui);
  std::string problem = field_problem_words(ui);
  const auto& notice = ui.app.notice();
  if (problem.empty() && notice && notice->key == "notice.choose-pile") problem = say(notice->key);
  options.unit = present.empty() ? std::string_view(unit) : std::string_view();
  options.hint = present;
  options.problem = problem;
  const std::string pile =
      draft.pile.empty() ? say("weigh.no-pile") : explain::pile_name(ui.figures(), draft.pile);
  const std::string label = reading ? say("weigh.into", {pile}) : field_title(ui, draft.field);
  auto row = reading   ? ui.kit.row({3, 1}, {.stack_below = 300})
             : counted ? ui.kit.row({2, 1, 1})
                       : ui.kit.row({2, 1});
  ui.kit.keypad_display("weigh/display", label, show::typed(draft.digits, ui.style), options);
  if (counted) count_button(ui);
  if (reading) return;
  if (ui.kit.button("weigh/piles", say("weigh.to-piles")))
    ask::edit(ui.app, {FieldKind::reading, ""});
}

// The newest reading that counts, with its way back.
void last_line(Ui& ui) {
  const ReadingLine* newest = newest_that_counts(ui.figures());
  if (newest == nullptr) return;
  const ReadingLine& line = *newest;
  // On a small phone one line of words is one less for the piles: that all is kept is said above too.
  std::string detail = weighed_into(ui, line) + off_target(ui, line);
  if (!small_phone(ui) || !is_kept(ui.app, line.id)) detail += ", " + kept_words(ui, line);
  const std::string out = say("weigh.take-out");
  const std::string other = say("weigh.other-pile");
  ListRowOptions options;
  options.detail = detail;
  options.action = out;
  options.action2 = other;
  options.opens = true;
  switch (ui.kit.list_row("weigh/last", show::mass(line.net, ui.style), options)) {
    case RowTap::row: ask::open_panel(ui.app, ui.panel() == "readings" ? "" : "readings"); break;
    case RowTap::action: ask::void_entry(ui.app, line.id); break;
    case RowTap::action2: start_move(ui, line); break;
    case RowTap::none: break;
  }
}

}  // namespace

// How the next reading is weighed, in two or three words.
std::string how_words(const Ui& ui) {
  const Draft& draft = ui.draft();
  std::string words = say("habit." + draft.habit);
  if (draft.count > 1)
    words = say(form_of("weigh.at-once", draft.count), {std::to_string(draft.count)});
  const std::string tub = tub_name(ui, draft.tub);
  if (!tub.empty()) return words + ", " + tub;
  if (draft.count == 1 && draft.habit == name_of(Habit::piece)) {
    words += ", " + say("weigh.without-tub");
  }
  return words;
}

void count_panel(Ui& ui) {
  constexpr unsigned kTiles = 12;
  const unsigned asked = ui.app.keypad().asked.count;
  const bool corrects = ui.draft().field.kind == FieldKind::anew && ui.draft().digits.empty();
  const std::string weight = ui.draft().digits + " " + digits_unit(ui);
  ui.kit.heading(say("weigh.how-many"), 2, "weigh/how-many");
  ui.kit.paragraph(
      asked > 1 ? say(form_of("weigh.how-many-asked", asked), {weight, std::to_string(asked)})
                : say("weigh.how-many-what"),
      asked > 1 ? Tone::normal : Tone::quiet, "weigh/how-many-why");
  unsigned chosen = 0;
  {
    auto grid = ui.kit.grid(4, 64);
    for (unsigned tile = 1; tile <= std::max(kTiles, std::min(asked, kTiles + 1)); ++tile) {
      const unsigned n = tile > kTiles ? asked : tile;  // many at once have a tile of their own
      const std::string digits = std::to_string(n);
      if (ui.kit.button("weigh/on-scale/" + digits, digits,
                        {.kind = n == asked ? ButtonKind::primary : ButtonKind::plain,
                         .pressed = n == ui.draft().count})) {
        chosen = n;
      }
    }
  }
  count_steps(ui);
  const unsigned more = ui.draft().count;
  const std::string done = say(form_of("weigh.on-scale", more), {std::to_string(more)});
  if (ui.kit.button("weigh/count/close", say("weigh.how-done"), {.detail = done})) {
    ask::open_panel(ui.app, "");
    if (corrects) chosen = more;
  }
  if (chosen == 0) return;
  ask::set_count(ui.app, chosen);
  ask::open_panel(ui.app, "");
  if (asked > 1 || corrects) ask::enter(ui.app);
}

void how_panel(Ui& ui) {
  ui.kit.heading(say("weigh.how-title"), 2);
  for (const Habit habit : kHabits) {
    const std::string name(name_of(habit));
    if (ui.kit.button(
            "weigh/habit/" + name, say("habit." + name),
            {.detail = say("habit-means." + name), .pressed = ui.draft().habit == name})) {
      ask::set_habit(ui.app, name);
    }
  }
  rest_choice(ui);
  unit_choice(ui);
  count_choice(ui);
  tub_choice(ui);
  if (ui.kit.button("weigh/new-tub", say("weigh.new-tub"))) {
    ask::add_tub(ui.app, "");
    ask::open_panel(ui.app, "");
  }
  if (ui.kit.button("weigh/how/close", say("weigh.how-done"), {.kind = ButtonKind::primary})) {
    ask::open_panel(ui.app, "");
  }
}

bool has_reading(const Ui& ui) {
  for (const PileFigures& pile : ui.figures().piles) {
    for (const ReadingLine& line : pile.lines) {
      if (!line.is_void) return true;
    }
  }
  return false;
}

void first_line(Ui& ui) {
  const auto& said = ui.app.notice();
  // A small phone has room for it here while there is no picture yet; later in place of the last line.
  const bool room = !compact(ui) || weighing_in(ui);
  if (said && !is_about_weighing(said->key) && room) notice(ui);
  if (ui.figures().incoming.as_purchased) eye_call_line(ui);
}

void display_or_last(Ui& ui) {
  const Draft& draft = ui.draft();
  const auto& said = ui.app.notice();
  const bool unsaid = !ui.app.keypad().problem && !(said && said->key == "notice.choose-pile");
  const bool idle = draft.field.kind == FieldKind::reading && draft.digits.empty() && unsaid;
  const bool other = said && !is_about_weighing(said->key);
  if (idle && other && (has_reading(ui) || compact(ui))) return notice(ui);
  if (idle && has_reading(ui)) return last_line(ui);
  if (said && said->is_error && has_reading(ui)) notice(ui);
  display_row(ui);
}

void readings_panel(Ui& ui) {
  ui.kit.heading(say("weigh.readings"), 2);
  if (ui.kit.button("weigh/readings/close", say("weigh.readings-close")))
    ask::open_panel(ui.app, "");
  reading_list(ui);
}

void reading_list(Ui& ui) {
  const Figures& f = ui.figures();
  const auto lines = newest_first(f);
  ui.kit.paragraph(say(has_reading(ui) ? "weigh.readings-what" : "weigh.readings-none"),
                   Tone::quiet);
  const std::string out = say("weigh.take-out"), back = say("weigh.put-back");
  const std::string other = say("weigh.other-pile"), anew = say("weigh.anew");
  for (auto rows = ui.kit.rows("weigh/reading-rows", lines.size()); rows.next();) {
    const ReadingLine* line = lines[rows.at()];
    const std::string detail = detail_of(ui, *line);
    ListRowOptions options;
    options.detail = detail;
    options.struck = line->is_void;
    options.opens = !line->is_void;
    options.act = anew;
    options.action = line->is_void ? back : out;
    if (!line->is_void) options.action2 = other;
    const PileFigures* pile = pile_named(f, line->pile);
    if (pile != nullptr) {
      options.look = look_of(pile->role);
      options.variant = place_in_role(f, *pile);
    }
    switch (ui.kit.list_row("weigh/reading/" + to_text(line->id), show::mass(line->net, ui.style),
                            options)) {
      case RowTap::action:
        if (line->is_void) {
          ask::restore_entry(ui.app, line->id);
        } else {
          ask::void_entry(ui.app, line->id);
        }
        break;
      case RowTap::action2: start_move(ui, *line); break;
      case RowTap::row:
        ask::open_panel(ui.app, "");
        ask::edit(ui.app, {FieldKind::anew, to_text(line->id)});
        break;
      case RowTap::none: break;
    }
  }
}

}  // namespace tallyblock
