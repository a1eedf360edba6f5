// Fields that are typed with the keypad, and text boxes.
#include <algorithm>
#include <array>

#include "parts.h"
#include "web/app/acts/acts_of_names.h"
#include "web/app/desk/line_of.h"
#include "web/app/keypad/digits.h"
#include "web/figures/sentence.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

// Where weights are in pounds and ounces, each is typed with its own unit.
bool types_both(const Ui& ui) {
  return is_imperial(ui.draft().unit) && ui.style.weight == WeightStyle::pounds_ounces;
}

bool is_quick(const Ui& ui) {
  const FieldKind kind = ui.draft().field.kind;
  return kind == FieldKind::reading || kind == FieldKind::block;
}

// With a pile's readings the unit is chosen once, beside how it is weighed: its row of keys would
// push the piles out of reach.
void mass_keys(const Ui& ui, KeypadOptions& options) {
  const Draft& draft = ui.draft();
  if (!is_quick(ui) && !types_both(ui)) options.units = mass_units(draft.unit);
  if (types_both(ui) || draft.unit == "lb-oz") options.marks = {"lb", "oz"};
  options.fractions = has_ounce_keys(ui);
  options.unit = draft.unit;
}

// "width:300 mm" is the width at that place; without a place, of the first face.
std::string length_label(const std::string& subject) {
  const auto [what, place] = parts_of(subject);
  if (what != "width" && what != "depth") return say("length." + what);
  return place.empty() ? say("length." + what + "-first") : say("length." + what + "-at", {place});
}

// The place as it is shown.
Field as_shown(Field field, const show::Style& style) {
  const auto [what, place] = parts_of(field.subject);
  const bool placed = field.kind == FieldKind::length && !place.empty();
  if (placed) field.subject = what + ":" + show::typed(place, style);
  return field;
}

}  // namespace

const std::vector<std::string_view>& mass_units(std::string_view unit) {
  static const std::vector<std::string_view> metric = {"g", "kg"};
  static const std::vector<std::string_view> pounds = {"lb", "oz", "lb-oz"};
  return is_imperial(unit) ? pounds : metric;
}

bool has_ounce_keys(const Ui& ui) {
  const std::string& unit = ui.draft().unit;
  return is_imperial(unit) && (types_both(ui) || unit != "lb");
}

bool unit_is_one_key(const Ui& ui) { return bar_on_top(ui) || ui.kit.least(); }

bool has_row_of_keys(const Ui& ui) {
  const FieldRow& row = row_of(ui.draft().field.kind);
  if (row.measure != Measure::mass) return row.sign == Sign::any;
  return has_ounce_keys(ui) || (!is_quick(ui) && !types_both(ui));
}

std::string field_path(const Field& field) {
  std::string path = "field/" + std::string(name_of(field.kind));
  if (!field.subject.empty()) path += "/" + field.subject;
  return path;
}

std::string field_label(const Field& field, const std::string& name) {
  if (field.kind == FieldKind::length) return length_label(field.subject);
  if (field.kind == FieldKind::long_piece) {
    return say("cut.long-piece", {field.subject.substr(field.subject.find('-') + 1)});
  }
  const std::string label = say("field." + std::string(name_of(field.kind)));
  return name.empty() ? label : say("field.of", {label, name});
}

std::string digits_unit(const Ui& ui) {
  const Draft& draft = ui.draft();
  switch (row_of(draft.field.kind).measure) {
    case Measure::none: return {};
    case Measure::mass: {
      const bool said = draft.digits.find_first_of("lo") != std::string::npos;  // "lb", "oz"
      return said || draft.unit == "lb-oz" ? std::string() : draft.unit;
    }
    case Measure::per_mass:
      if (draft.field.kind == FieldKind::ready_cut && ui.figures().piece_price)
        return show::currency_name(ui.style);
      return say("show.per", {show::currency_name(ui.style), show::price_unit_name(ui.style)});
    case Measure::total: return show::currency_name(ui.style);
    case Measure::per_hour:
      return say("show.per", {show::currency_name(ui.style), say("show.hour")});
    case Measure::percent: return "%";
    case Measure::minutes: return say("show.min");
    case Measure::length: return ui.app.desk().ruler();
    case Measure::count: return {};
    case Measure::temperature: return "°" + field_unit(ui.app);
  }
  return {};
}

void field(Ui& ui, const Field& field, std::string_view value, const std::string& name) {
  const bool open = ui.draft().field == field;
  if (open) ui.present = value;
  ButtonOptions options;
  const std::string shown = value.empty() ? say("field.enter") : std::string(value);
  options.detail = shown;
  options.expanded = open;
  if (ui.kit.button(field_path(field), field_label(as_shown(field, ui.style), name), options)) {
    // With digits typed, as Enter on a keyboard does: they count.
    if (open && !ui.draft().digits.empty()) return ask::enter(ui.app);
    ask::edit(ui.app, open ? Field{} : field);
    ui.kit.scroll_to(field_path(field));  // the keypad takes room
  }
}

void target_fields(Ui& ui, const PileFigures& pile) {
  const TargetFigures* target = target_of(ui.figures(), pile.key);
  const std::string name = explain::pile_name(pile);
  field(ui, {FieldKind::target, pile.key},
        target == nullptr ? std::string() : show::mass(target->target, ui.style), name);
  if (target == nullptr) return;
  const std::string tolerance = show::mass(target->tolerance, ui.style);
  field(ui, {FieldKind::tolerance, pile.key},
        target->own_tolerance ? tolerance : say("result.usual-tolerance", {tolerance}), name);
  if (target->own_tolerance &&
      ui.kit.button("usual-tolerance/" + pile.key, say("result.usual-again"), {.detail = name})) {
    ask::usual_tolerance(ui.app, pile.key);
  }
}

const body::Price* price_entered(const Ui& ui, const std::string& of) {
  const body::Price* found = nullptr;
  const LiveView live(ui.app.session()->set);
  for (const Entry* entry : live.entries()) {
    const auto* price = std::get_if<body::Price>(&entry->body);
    if (price != nullptr && price->of == of) found = price;
  }
  return found;
}

void text_field(Ui& ui, const std::string& id, std::string_view label_key,
                std::string_view hint_key, bool multiline) {
  TextBoxOptions options;
  const std::string hint = hint_key.empty() ? std::string() : say(hint_key);
  options.hint = hint;
  options.multiline = multiline;
  options.max_length = multiline ? 2000 : 80;
  const auto change = ui.kit.text_box("text/" + id, say(label_key), text_of(ui.app, id), options);
  if (text_of(ui.app, id).size() > most_bytes(id)) {
    ui.kit.status("text/" + id + "/long", say("text.too-long"), Tone::bad);
  }
  if (!change) return;
  ask::text_changed(ui.app, id, change->text);
  if (change->done) ask::text_done(ui.app, id);
}

bool keypad_here(Ui& ui, const std::string& path, const KeyWords& words) {
  const Draft& draft = ui.draft();
  KeypadOptions options;
  options.decimal = ui.style.mark;
  options.enter_label = words.enter;
  options.enter_detail = words.enter_detail;
  options.side_label = words.side;
  options.side_name = words.side_name;
  options.side_open = words.side_open;
  options.enter_enabled = words.enter_enabled;
  options.turn = words.turn;
  options.grow_by = words.grow_by;
  const PileFigures* pile =
      draft.field.kind == FieldKind::reading ? pile_named(ui.figures(), draft.pile) : nullptr;
  if (pile != nullptr) {
    options.enter_look = look_of(pile->role);
    options.enter_variant = place_in_role(ui.figures(), *pile);
  }
  const std::string back = say("key.back"), space = say("key.space");
  const std::string back_name = say("key.back-name"), decimal = say("key.decimal-name");
  const std::string slash = say("key.slash-name");
  options.back_label = back;
  options.space_label = space;
  options.space_name = space;
  options.back_name = back_name;
  options.decimal_name = decimal;
  options.slash_name = slash;
  if (row_of(draft.field.kind).measure == Measure::mass) mass_keys(ui, options);
  if (row_of(draft.field.kind).measure == Measure::length)
    options.fractions = ui.app.desk().ruler() == "in";
  const FieldRow& row = row_of(draft.field.kind);
  const bool worth = row.measure != Measure::temperature;
  options.minus = row.sign == Sign::any;
  const std::string minus_label = say(worth ? "key.minus-costs" : "key.minus-cold");
  options.minus_label = minus_label;
  // Where every row counts, the unit is one key that changes to the next one.
  const bool unit_key = words.side.empty() && options.units.size() > 1 && unit_is_one_key(ui);
  const std::string unit_name = say("key.unit-name", {draft.unit});
  const std::vector<std::string_view>& units = mass_units(draft.unit);
  if (unit_key) {
    options.units = {};
    options.side_label = draft.unit;
    options.side_name = unit_name;
  }
  const std::string key(ui.kit.keypad(path, options));
  if (key == "side" && unit_key) {
    const auto now = std::ranges::find(units, std::string_view(draft.unit));
    const auto place = static_cast<std::size_t>(now - units.begin());
    ask::set_unit(ui.app, std::string(units[(place + 1) % units.size()]));
    return false;
  }
  if (key == "side") return true;
  if (key == "enter") {
    ask::enter(ui.app);
  } else if (key.starts_with("unit:")) {
    ask::set_unit(ui.app, key.substr(5));
  } else if (!key.empty()) {
    ask::key(ui.app, key);
  }
  return false;
}

std::string field_problem_words(const Ui& ui) {
  const auto& problem = ui.app.keypad().problem;
  if (!problem) return {};
  return show::problem(*problem, ui.style);
}

const ReadingLine* reading_of(const Figures& figures, const std::string& id) {
  const std::optional<EntryId> entry = entry_id_from(id);
  return entry ? line_of(figures, *entry) : nullptr;
}

std::string field_title(const Ui& ui, const Field& field) {
  if (ui.app.session() == nullptr || field.subject.empty()) return field_label(field);
  const Figures& f = ui.figures();
  switch (row_of(field.kind).subject) {
    case Subject::reading: {
      const ReadingLine* line = reading_of(f, field.subject);
      if (line == nullptr) return field_label(field);
      return say("weigh.instead-of", {show::typed(line->typed, ui.style)});
    }
    case Subject::tub: {
      const TubFigures* tub = tub_named(f, field.subject);
      return field_label(field, tub == nullptr ? std::string() : tub->name);
    }
    case Subject::pile: return field_label(field, explain::pile_name(f, field.subject));
    default: return field_label(as_shown(field, ui.style));
  }
}

// Before the first digit: what stands there now.
std::string present_words(const Ui& ui) {
  if (ui.present.empty() || !ui.draft().digits.empty()) return {};
  return say("field.now", {ui.present});
}

// Minutes are there already: one tap says what becomes of them. The digits may still change.
void ask_minutes(Ui& ui) {
  const Draft& draft = ui.draft();
  if (draft.field.kind != FieldKind::minutes || draft.panel != "minutes") return;
  const auto typed = parse_minutes(draft.digits, "minutes");
  if (!typed) return;
  const double before = ui.figures().minutes + static_cast<double>(ui.app.timer_ms()) / 60'000.0;
  ui.kit.paragraph(say("minutes.ask", {show::minutes(before, ui.style)}), Tone::normal,
                   "minutes/ask");
  auto row = ui.kit.row({1, 1});
  const std::string instead = say("minutes.in-all", {show::minutes(typed->value, ui.style)});
  const std::string more = say("minutes.in-all", {show::minutes(before + typed->value, ui.style)});
  const bool is_instead =
      ui.kit.button("minutes/instead", say("minutes.instead"), {.detail = instead});
  if (!ui.kit.button("minutes/more", say("minutes.more"), {.detail = more}) && !is_instead) return;
  ask::keep_minutes(ui.app, is_instead);
  if (draft.screen == Screen::result) ask::open_panel(ui.app, "chapter:work");
}

void keypad_sheet(Ui& ui) {
  const Draft& draft = ui.draft();
  if (draft.field.kind == FieldKind::none || draft.field.kind == FieldKind::reading) return;
  auto sheet = ui.kit.panel(Ground::raised);
  const std::string label = field_title(ui, draft.field);
  DisplayOptions display;
  const std::string unit = digits_unit(ui), now = present_words(ui);
  const std::string problem = field_problem_words(ui);
  display.unit = now.empty() ? std::string_view(unit) : std::string_view();
  display.hint = now;
  display.problem = problem;
  ui.kit.keypad_display("sheet/display", label, show::typed(draft.digits, ui.style), display);
  ask_minutes(ui);
  const std::string keep = say("field.keep");
  const std::string close = say("field.close");
  if (keypad_here(ui, "sheet/keypad", {.enter = keep, .side = close, .side_name = close}) ||
      ui.kit.key_pressed("Escape")) {
    ask::edit(ui.app, {});
  }
}

void over_keypad(Ui& ui, void (*body)(Ui&)) {
  const FieldKind field = ui.draft().field.kind;
  const bool open = field != FieldKind::none && field != FieldKind::reading;
  if (open && ui.kit.wide() && ui.kit.low()) {
    auto sides = ui.kit.row({1, 1}, {.hand_side_last = true});
    body(ui);
    auto side = ui.kit.scroll("sheet/side");
    keypad_sheet(ui);
    return;
  }
  body(ui);
  notice(ui);
  keypad_sheet(ui);
}

}  // namespace tallyblock
