#include "keypad.h"

#include <algorithm>
#include <utility>

#include "digits.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr std::int64_t kMinuteMs = 60'000;
constexpr std::int64_t kLongestUnseenMs = std::int64_t{12} * 60 * kMinuteMs;
constexpr unsigned kMostCounted = 999;
constexpr std::size_t kMostAside = 40;
constexpr char kUnitMark = '|';

bool is_unit(std::string_view unit) { return unit == "g" || unit == "kg" || is_imperial(unit); }

// A whole piece weighed in kilograms says nothing of its portions: each kind of weight has its own unit.
const char* unit_kind(FieldKind kind) {
  switch (kind) {
    case FieldKind::reading:
    case FieldKind::anew:
    case FieldKind::block:
    case FieldKind::transfer: return "cut";
    case FieldKind::target:
    case FieldKind::tolerance:
    case FieldKind::ready_cut_piece:
    case FieldKind::tub_tare: return "portion";
    case FieldKind::division:
    case FieldKind::default_division: return "division";
    default: return "whole";
  }
}

// How many pieces lay on the scale in the reading that is typed anew; else one.
unsigned count_of(const OpenSession* open, const Field& field) {
  const auto id = entry_id_from(field.subject);
  if (open == nullptr || field.kind != FieldKind::anew || !id) return 1;
  const auto* reading = body_at<body::Reading>(*open, *id);
  return reading == nullptr ? 1 : reading->count;
}

bool weighed_in_tub(const OpenSession& open, const std::string& pile, const std::string& tub) {
  return !tub.empty() && std::ranges::any_of(open.set.in_order(), [&](const Entry* entry) {
    const auto* reading = std::get_if<body::Reading>(&entry->body);
    return reading != nullptr && reading->pile == pile && reading->tub == tub;
  });
}

}  // namespace

bool needs_session(Screen screen) {
  return screen == Screen::weigh || screen == Screen::result || screen == Screen::details ||
         screen == Screen::share || screen == Screen::cut;
}

// ---- the timer

bool Stopwatch::doubtful(const Draft& draft, Host& host) const {
  if (draft.timer_started_ms == 0) return false;
  const std::int64_t by_clock = host.utc_ms() - draft.timer_started_ms;
  const std::int64_t unseen = by_clock - (host.monotonic_ms() - seen_ms);
  return unseen < -kMinuteMs || unseen > kLongestUnseenMs;
}

std::int64_t Stopwatch::ms(const Draft& draft, Host& host) const {
  if (draft.timer_started_ms == 0) return draft.timer_gathered_ms;
  const std::int64_t since = doubtful(draft, host) ? host.monotonic_ms() - seen_ms
                                                   : host.utc_ms() - draft.timer_started_ms;
  return draft.timer_gathered_ms + std::max<std::int64_t>(since, 0);
}

// ---- what is typed into

bool Keypad::is_weight() const { return row_of(draft.field.kind).measure == Measure::mass; }

std::string Keypad::unit(const Desk& desk, const AppSettings& settings) const {
  const FieldRow& row = row_of(draft.field.kind);
  const OpenSession* open = desk.session();
  const bool of_app = row.kept == KeptIn::settings || open == nullptr;
  const std::string& currency = of_app ? settings.currency : open->figures.settings.currency;
  const std::string& price_unit = of_app ? settings.price_unit : open->figures.settings.price_unit;
  switch (row.measure) {
    case Measure::none:
    case Measure::count: return "";
    case Measure::mass: return draft.unit;
    case Measure::per_mass:
      if (draft.field.kind == FieldKind::ready_cut && open != nullptr && open->figures.piece_price)
        return currency;
      return say("show.per", {currency, price_unit});
    case Measure::total: return currency;
    case Measure::per_hour: return say("show.per", {currency, say("show.hour")});
    case Measure::minutes: return "min";
    case Measure::length: return desk.ruler();
    case Measure::percent: return "%";
    case Measure::temperature:
      return is_imperial(open != nullptr ? open->figures.settings.unit : settings.unit) ? "F" : "C";
  }
  return "";
}

EntryId Keypad::person() const { return entry_id_from(draft.person).value_or(EntryId{}); }

std::string Keypad::place() const {
  return needs_session(draft.screen) ? draft.session : std::string();
}

// ---- going about

void Keypad::leave_unit() {
  if (is_weight()) draft.units[unit_kind(draft.field.kind)] = draft.unit;
}

void Keypad::come_to_unit(const OpenSession* open) {
  if (!is_weight() || open == nullptr) return;
  const auto chosen = draft.units.find(unit_kind(draft.field.kind));
  const bool known = chosen != draft.units.end() && is_unit(chosen->second);
  draft.unit = known ? chosen->second : open->figures.settings.unit;
}

void Keypad::put_aside() {
  leave_unit();
  if (draft.field.kind != FieldKind::none && !draft.digits.empty()) {
    if (draft.aside.size() >= kMostAside) draft.aside.erase(draft.aside.begin());
    std::string& aside = draft.aside[aside_key(draft.field)];
    aside = draft.digits;
    if (is_weight()) aside += kUnitMark + draft.unit;
  }
  draft.digits.clear();
}

void Keypad::take_up() {
  draft.digits.clear();
  const auto found = draft.aside.find(aside_key(draft.field));
  if (found == draft.aside.end()) return;
  const std::size_t mark = found->second.find(kUnitMark);
  draft.digits = found->second.substr(0, mark);
  if (mark != std::string::npos && is_unit(found->second.substr(mark + 1))) {
    draft.unit = found->second.substr(mark + 1);
  }
  draft.aside.erase(found);
}

void Keypad::go(Screen screen, const OpenSession* open) {
  if (draft.screen == Screen::weigh) draft.held = draft.field;
  put_aside();
  draft.screen = screen;
  draft.field = {};
  draft.panel.clear();
  draft.selected.clear();
  draft.scroll = 0.0F;
  draft.count = 1;
  forget_asked();
  problem.reset();
  if (screen == Screen::weigh) go_to_default_field(open);
}

// The field that was left, else weighing in while the whole piece was not weighed, else a reading.
void Keypad::go_to_default_field(const OpenSession* open) {
  const bool weighed_in = open != nullptr && open->figures.incoming.on_the_board;
  draft.field = draft.held.kind != FieldKind::none
                    ? std::exchange(draft.held, Field{})
                    : Field{weighed_in ? FieldKind::reading : FieldKind::drained, ""};
  come_to_unit(open);
  take_up();
}

bool Keypad::edit(const Field& field, const OpenSession* open, const AppSettings& settings) {
  if (field == draft.field) return false;
  put_aside();
  const bool anew = draft.field.kind == FieldKind::anew;
  draft.field = field;
  come_to_unit(open);
  if (draft.panel == "minutes") draft.panel.clear();
  take_up();
  forget_asked();
  problem.reset();
  if (anew || field.kind == FieldKind::anew) draft.count = count_of(open, field);
  const bool of_new_pieces = field.kind == FieldKind::default_division;
  if (of_new_pieces && is_imperial(draft.unit) != is_imperial(settings.unit)) {
    draft.unit = settings.unit;
  }
  return true;
}

// Back to weighing on the weighing screen, elsewhere the keypad closes.
void Keypad::after_field(const OpenSession* open) {
  leave_unit();
  draft.digits.clear();
  draft.count = 1;
  forget_asked();
  problem.reset();
  if (draft.screen != Screen::weigh) {
    draft.field = {};
    return;
  }
  if (draft.field.kind != FieldKind::reading) {
    draft.held = {};
    go_to_default_field(open);
  }
}

// What lies in a piece stays with it, whichever other is opened meanwhile.
void Keypad::keep_what_lasts(Draft fresh) {
  fresh.sliced = draft.sliced;
  fresh.scored = std::move(draft.scored);
  draft = std::move(fresh);
  problem.reset();
}

void Keypad::begin(const OpenSession& session) {
  Draft fresh;
  fresh.session = session.id;
  fresh.unit = session.figures.settings.unit;
  // Nothing was weighed into a pile yet: the first weight is a portion's.
  const auto& piles = session.figures.piles;
  const auto portions = std::ranges::find(piles, Role::primary, &PileFigures::role);
  const bool begun =
      std::ranges::any_of(piles, [](const PileFigures& pile) { return !pile.lines.empty(); });
  if (!begun && portions != piles.end()) fresh.pile = portions->key;
  for (const Entry* entry : session.set.in_order()) {
    if (entry->by) fresh.person = to_text(*entry->by);
  }
  keep_what_lasts(std::move(fresh));
  go(Screen::weigh, &session);
}

void Keypad::leave() { keep_what_lasts({}); }

// With a tub that is taken out go its choice and the digits for it, also those put aside.
void Keypad::leave_gone_tub(const OpenSession& open) {
  const auto gone = [&](const std::string& key) { return tub_named(open.figures, key) == nullptr; };
  if (gone(draft.tub)) draft.tub.clear();
  if (draft.held.kind == FieldKind::tub_tare && gone(draft.held.subject)) {
    draft.aside.erase(aside_key(draft.held));
    draft.held = {};
  }
  if (draft.field.kind != FieldKind::tub_tare || !gone(draft.field.subject)) return;
  draft.digits.clear();
  draft.field = {};
  problem.reset();
  if (draft.screen == Screen::weigh) go_to_default_field(&open);
}

void Keypad::take_off() {
  draft.digits.clear();
  problem.reset();
}

// ---- typing

bool Keypad::key(const std::string& key, const Desk& desk) {
  if (draft.field.kind == FieldKind::none) return false;
  const bool weight = is_weight();
  KeyRules rules;
  rules.pounds = weight && is_imperial(draft.unit);
  rules.fractions = weight || (draft.field.kind == FieldKind::length && desk.ruler() == "in");
  rules.negative = row_of(draft.field.kind).sign == Sign::any;
  // After a weight was asked about, digits are those of another one.
  const bool anew = asked.weight && key.size() == 1 && (key == "." || (key >= "0" && key <= "9"));
  std::string digits = pressed(anew ? std::string() : draft.digits, key, rules);
  if (digits == draft.digits && !problem) return false;
  draft.digits = std::move(digits);
  problem.reset();
  asked.weight.reset();
  asked.weight_sure = false;
  return true;
}

bool Keypad::set_unit(const std::string& unit) {
  if (!is_unit(unit) || unit == draft.unit) return false;
  draft.unit = unit;
  asked.weight.reset();
  problem.reset();
  return true;
}

bool Keypad::set_habit(const std::string& habit) {
  if (!habit_from(habit) || habit == draft.habit) return false;
  draft.habit = habit;
  problem.reset();
  return true;
}

void Keypad::set_count(unsigned count) {
  draft.count = std::clamp(count, 1u, kMostCounted);
  asked.count = 0;
  asked.weight.reset();
  asked.count_said = true;
}

// A tub belongs to what lies in it: another pile, chosen before its digits, starts without. With
// digits typed the tub that stands beside them counts.
void Keypad::fill_next(const std::string& pile, const OpenSession& open) {
  const bool before_digits = draft.digits.empty() && pile != draft.pile;
  if (before_digits && weighed_in_tub(open, draft.pile, draft.tub)) draft.tub.clear();
  draft.pile = pile;
}

void Keypad::clear_text() {
  draft.text.clear();
  draft.text_field.clear();
}

}  // namespace tallyblock
