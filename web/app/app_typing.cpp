// App's keypad: the digits, their unit, the field they go into.
#include <algorithm>
#include <utility>

#include "app.h"
#include "digits.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

bool is_unit(std::string_view unit) { return unit == "g" || unit == "kg" || is_imperial(unit); }

constexpr unsigned kMostCounted = 999;
constexpr std::size_t kMostAside = 40;
constexpr char kUnitMark = '|';

// How many pieces lay on the scale in the reading that is typed anew; else one.
unsigned count_of(const OpenSession* open, const Field& field) {
  const auto id = entry_id_from(field.subject);
  if (open == nullptr || field.kind != FieldKind::anew || !id) return 1;
  const Entry* entry = open->set.find(*id);
  const auto* reading = entry == nullptr ? nullptr : std::get_if<body::Reading>(&entry->body);
  return reading == nullptr ? 1 : reading->count;
}

}  // namespace

bool App::field_is_weight() const { return row_of(draft_.field.kind).measure == Measure::mass; }

std::string App::field_unit() const {
  const FieldRow& row = row_of(draft_.field.kind);
  const bool of_app = row.kept == KeptIn::settings || !open_;
  std::string currency = of_app ? settings_.currency : open_->figures.settings.currency;
  const std::string price_unit = of_app ? settings_.price_unit : open_->figures.settings.price_unit;
  switch (row.measure) {
    case Measure::none:
    case Measure::count: return "";
    case Measure::mass: return draft_.unit;
    case Measure::per_mass:
      if (draft_.field.kind == FieldKind::ready_cut && open_ && open_->figures.piece_price)
        return currency;
      return say("show.per", {currency, price_unit});
    case Measure::total: return currency;
    case Measure::per_hour: return say("show.per", {currency, say("show.hour")});
    case Measure::minutes: return "min";
    case Measure::length: return ruler();
    case Measure::percent: return "%";
    case Measure::temperature:
      return is_imperial(open_ ? open_->figures.settings.unit : settings_.unit) ? "F" : "C";
  }
  return "";
}

void App::put_aside() {
  if (draft_.field.kind != FieldKind::none && !draft_.digits.empty()) {
    if (draft_.aside.size() >= kMostAside) draft_.aside.erase(draft_.aside.begin());
    std::string& aside = draft_.aside[aside_key(draft_.field)];
    aside = draft_.digits;
    if (field_is_weight()) aside += kUnitMark + draft_.unit;
  }
  draft_.digits.clear();
}

void App::take_up() {
  draft_.digits.clear();
  const auto found = draft_.aside.find(aside_key(draft_.field));
  if (found == draft_.aside.end()) return;
  const std::size_t mark = found->second.find(kUnitMark);
  draft_.digits = found->second.substr(0, mark);
  if (mark != std::string::npos && is_unit(found->second.substr(mark + 1))) {
    draft_.unit = found->second.substr(mark + 1);
  }
  draft_.aside.erase(found);
}

void App::edit(const Field& field) {
  if (field == draft_.field) return;
  put_aside();
  const bool anew = draft_.field.kind == FieldKind::anew;
  draft_.field = field;
  if (draft_.panel == "minutes") draft_.panel.clear();
  take_up();
  forget_asked();
  field_problem_.reset();
  if (anew || field.kind == FieldKind::anew) draft_.count = count_of(open_.get(), field);
  const bool of_new_pieces = field.kind == FieldKind::default_division;
  if (of_new_pieces && is_imperial(draft_.unit) != is_imperial(settings_.unit)) {
    draft_.unit = settings_.unit;
  }
  changed_draft();
}

void App::key(const std::string& key) {
  if (draft_.field.kind == FieldKind::none) return;
  const bool weight = field_is_weight();
  KeyRules rules;
  rules.pounds = weight && is_imperial(draft_.unit);
  rules.fractions = weight || (draft_.field.kind == FieldKind::length && ruler() == "in");
  rules.negative = row_of(draft_.field.kind).sign == Sign::any;
  // After a weight was asked about, digits are those of another one.
  const bool anew = asked_weight_ && key.size() == 1 && (key == "." || (key >= "0" && key <= "9"));
  std::string digits = pressed(anew ? std::string() : draft_.digits, key, rules);
  if (digits == draft_.digits && !field_problem_) return;
  draft_.digits = std::move(digits);
  field_problem_.reset();
  asked_weight_.reset();
  weight_sure_ = false;
  changed_draft();
}

// What was asked of the digits is no longer.
void App::forget_asked() {
  asked_count_ = 0;
  asked_weight_.reset();
  count_said_ = weight_sure_ = false;
}

void App::enter() {
  if (draft_.field.kind == FieldKind::none) return;
  commit_field();
  changed();
}

void App::set_unit(const std::string& unit) {
  if (!is_unit(unit) || unit == draft_.unit) return;
  draft_.unit = unit;
  asked_weight_.reset();
  field_problem_.reset();
  changed_draft();
}

void App::set_habit(const std::string& habit) {
  if (!habit_from(habit) || habit == draft_.habit) return;
  draft_.habit = habit;
  field_problem_.reset();
  changed_draft();
}

void App::set_count(unsigned count) {
  draft_.count = std::clamp(count, 1u, kMostCounted);
  asked_count_ = 0;
  asked_weight_.reset();
  count_said_ = true;
  changed_draft();
}

void App::set_tub(const std::string& tub) {
  draft_.tub = tub;
  changed_draft();
}

bool App::weighed_in_tub(const std::string& pile, const std::string& tub) const {
  return !tub.empty() && std::ranges::any_of(open_->set.in_order(), [&](const Entry* entry) {
    const auto* reading = std::get_if<body::Reading>(&entry->body);
    return reading != nullptr && reading->pile == pile && reading->tub == tub;
  });
}

// A tub belongs to what lies in it: another pile, chosen before its digits, starts without. With
// digits typed the tub that stands beside them counts.
void App::fill_next(const std::string& pile) {
  const bool before_digits = draft_.digits.empty() && pile != draft_.pile;
  if (before_digits && weighed_in_tub(draft_.pile, draft_.tub)) draft_.tub.clear();
  draft_.pile = pile;
}

void App::choose_pile(const std::string& pile) {
  if (!open_) return;
  if (draft_.field.kind == FieldKind::none && draft_.screen == Screen::weigh) {
    draft_.field = {FieldKind::reading, ""};
  }
  fill_next(pile);
  field_problem_.reset();
  if (draft_.field.kind == FieldKind::reading && !draft_.digits.empty()) {
    if (!commit_field()) changed_draft();
    return;
  }
  changed_draft();
}

// The digits stay; why they were not taken is shown beside them.
bool App::refuse(Problem problem) {
  field_problem_ = std::move(problem);
  changed();
  return false;
}

// After digits were taken: back to weighing on the weighing screen, elsewhere the keypad closes.
void App::after_field() {
  draft_.digits.clear();
  draft_.count = 1;
  forget_asked();
  field_problem_.reset();
  if (draft_.screen != Screen::weigh) {
    draft_.field = {};
    return;
  }
  if (draft_.field.kind != FieldKind::reading) {
    draft_.held = {};
    go_to_default_field();
  }
}

}  // namespace tallyblock
