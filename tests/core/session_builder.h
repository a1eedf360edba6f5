// Makes sessions tersely: each call adds one sealed entry and gives its id.
//
//   SessionBuilder s;
//   s.whole("5 kg").price("40", "kg").pile("portions", Role::primary);
//   s.read("portions", "450 g");
//   const Figures f = s.figures();
//
// Weights are typed text. A text that cannot be read becomes an empty value and is listed in
// refused(), which build-by-hand tests expect to be empty.
#pragma once
#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/entries/codec.h"
#include "core/session/session.h"

namespace tallyblock::testing {

// The values of a doubt as a report holds them.
inline std::vector<std::string> said(const Doubt& doubt, const Settings& settings = {}) {
  std::vector<std::string> texts;
  for (const Arg& arg : doubt.args) texts.push_back(text_of(arg, settings));
  return texts;
}

class SessionBuilder {
 public:
  explicit SessionBuilder(std::string writer = "aaaaaaaaaa") : writer_(std::move(writer)) {}

  // The scale's division of all that follows; "0 g" is not a division, so readings are exact then.
  SessionBuilder& division(const std::string& text) {
    division_ = weight(text, Sign::zero_or_more);
    return *this;
  }
  // All that follows states no division.
  SessionBuilder& unstated_division() {
    division_ = TypedMass{};
    return *this;
  }
  // Continues after another set: the next entry comes later in order than all of it.
  SessionBuilder& after(const EntrySet& other) {
    seq_ = std::max(seq_, other.next_seq() - 1);
    return *this;
  }
  SessionBuilder& skip_counter() {
    ++counter_;
    return *this;
  }

  EntryId add(Body body, std::vector<EntryId> replaces = {}) {
    Entry entry;
    entry.id = {writer_, ++counter_};
    entry.seq = ++seq_;
    entry.time = {1760000000000 + static_cast<std::int64_t>(seq_) * 7000, 120};
    entry.replaces = std::move(replaces);
    entry.body = std::move(body);
    entries_.push_back(sealed(std::move(entry)));
    return entries_.back().id;
  }

  EntryId named(const std::string& name) { return add(body::Piece{name, "", ""}); }
  EntryId setting(const std::string& key, const std::string& value) {
    return add(body::Setting{key, value});
  }
  EntryId incoming(Incoming which, const std::string& text, unsigned count = 1) {
    return add(body::IncomingWeight{which, weight(text), division_, count});
  }
  // The invoice weight, nothing drained: it carries the money and the balance.
  SessionBuilder& whole(const std::string& text) {
    incoming(Incoming::invoice, text);
    return *this;
  }
  SessionBuilder& price(const std::string& amount, const std::string& unit) {
    return price_of("piece", amount, unit);
  }
  SessionBuilder& price_of(const std::string& of, const std::string& amount,
                           const std::string& unit, const std::string& currency = "") {
    add(body::Price{of, PriceBasis::per_mass, number(amount), unit, currency, std::nullopt});
    return *this;
  }
  SessionBuilder& total_of(const std::string& of, const std::string& amount) {
    add(body::Price{of, PriceBasis::total, number(amount), "", "", std::nullopt});
    return *this;
  }
  EntryId ready_cut(const std::string& amount, const std::string& unit,
                    const std::string& yield = "") {
    body::Price price{"ready-cut", PriceBasis::per_mass, number(amount), unit, "", std::nullopt};
    if (!yield.empty()) price.quoted_yield = take(parse_percent(yield, "yield"));
    return add(std::move(price));
  }
  EntryId pile(const std::string& key, Role role, const std::string& step = "main") {
    return add(body::Pile{key, step, key, role, ""});
  }
  // A pile with a value per unit.
  EntryId pile(const std::string& key, Role role, const std::string& value,
               const std::string& unit) {
    const EntryId id = pile(key, role);
    price_of("pile:" + key, value, unit);
    return id;
  }
  EntryId by_difference(const std::string& pile) { return add(body::ByDifference{pile, true}); }
  EntryId step(const std::string& key, Process process, const std::string& from,
               const std::string& take_weight = "") {
    body::Step step{key, key, process, from, std::nullopt, division_};
    if (!take_weight.empty()) step.weight = weight(take_weight);
    return add(std::move(step));
  }
  EntryId tub(const std::string& key, const std::string& tare) {
    return add(body::Tub{key, key, weight(tare), division_});
  }

  EntryId read(const std::string& pile, const std::string& text, const std::string& tub = "",
               unsigned count = 1) {
    return add(reading(pile, Habit::piece, text, tub, count));
  }
  EntryId increment(const std::string& pile, const std::string& text, const std::string& tub = "") {
    return add(reading(pile, Habit::increment, text, tub, 1));
  }
  EntryId tub_now(const std::string& pile, const std::string& text, std::vector<EntryId> covers,
                  const std::string& tub = "") {
    body::Reading now = reading(pile, Habit::tub_now, text, tub, 1);
    now.covers = std::move(covers);
    return add(std::move(now));
  }
  EntryId taken_off(const std::string& pile, const std::string& negative) {
    return add(reading(pile, Habit::taken_off, negative, "", 1));
  }
  EntryId corrected(const EntryId& old, const std::string& pile, const std::string& text) {
    return add(reading(pile, Habit::piece, text, "", 1), {old});
  }
  EntryId remainder(const std::string& text, const std::string& step = "main") {
    return add(body::Remainder{step, weight(text, Sign::zero_or_more), division_});
  }
  EntryId checkpoint(const std::string& name, const std::string& text) {
    return add(body::Checkpoint{"main", name, weight(text), division_});
  }
  EntryId move(const EntryId& reading, const std::string& pile) {
    return add(body::Move{reading, pile});
  }
  EntryId transfer(const std::string& from, const std::string& to, const std::string& text) {
    return add(body::Transfer{from, to, weight(text), division_});
  }
  EntryId target(const std::string& pile, const std::string& text,
                 const std::string& tolerance = "") {
    body::Target target{pile, weight(text), std::nullopt};
    if (!tolerance.empty()) target.tolerance = weight(tolerance);
    return add(std::move(target));
  }
  EntryId labour(const std::string& minutes) {
    return add(body::Labour{take(parse_minutes(minutes, "minutes")), std::nullopt});
  }
  EntryId voids(const EntryId& target) { return add(body::Void{target}); }

  const std::vector<Entry>& entries() const { return entries_; }
  const std::vector<std::string>& refused() const { return refused_; }
  EntrySet set() const {
    EntrySet set;
    for (const Entry& entry : entries_) set.insert(entry);
    return set;
  }
  Figures figures() const { return figures_of(set()); }

 private:
  template <class Value>
  Value take(const Result<Value>& result) {
    if (result) return result.value();
    refused_.push_back(text_of(result.problem().where) + ": " +
                       std::string(key_of(result.problem().code)));
    return Value{};
  }
  TypedMass weight(const std::string& text, Sign sign = Sign::any) {
    return take(parse_mass(text, text, sign));
  }
  TypedNumber number(const std::string& text) { return take(parse_number(text, text, Sign::any)); }
  body::Reading reading(const std::string& pile, Habit habit, const std::string& text,
                        const std::string& tub, unsigned count) {
    body::Reading made;
    made.pile = pile;
    made.habit = habit;
    made.weight = weight(text);
    made.division = division_;
    made.count = count;
    made.tub = tub;
    return made;
  }

  std::string writer_;
  std::uint32_t counter_ = 0;
  std::uint64_t seq_ = 0;
  TypedMass division_{"1 g", Mass::grams(1.0), WeightStyle::grams};
  std::vector<Entry> entries_;
  std::vector<std::string> refused_;
};

inline const PileFigures* pile_of(const Figures& figures, const std::string& key) {
  for (const PileFigures& pile : figures.piles)
    if (pile.key == key) return &pile;
  return nullptr;
}
inline double grams_on(const Figures& figures, const std::string& key) {
  const PileFigures* pile = pile_of(figures, key);
  return pile == nullptr ? -1e9 : pile->weighed.value().in_grams();
}
inline const StepFigures* step_of(const Figures& figures, const std::string& key) {
  for (const StepFigures& step : figures.steps)
    if (step.key == key) return &step;
  return nullptr;
}
inline std::vector<Doubt> doubts_of(const Figures& figures, Code code) {
  std::vector<Doubt> found;
  for (const Doubt& doubt : figures.doubts)
    if (doubt.code == code) found.push_back(doubt);
  return found;
}

}  // namespace tallyblock::testing
