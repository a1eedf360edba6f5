// Errors and doubts as values from one closed set.
//
// A Problem says what is wrong, where (a field or a place in a file), and with which values; the
// sentence a person reads is looked up by key in the catalogue (web/words) and the values are written
// in it as its reader writes them (web/figures/sentence.h), so the core holds no prose.
// Keys are frozen once released. A test asserts that every code has a sentence.
#pragma once
#include <cstddef>
#include <string_view>
#include <utility>
#include <variant>

#include "arg.h"

namespace tallyblock {

// One line per code: name, catalogue key. Append only.
#define TALLYBLOCK_CODES(X)                                   \
  /* typed text */                                            \
  X(typed_empty, "typed.empty")                               \
  X(typed_negative, "typed.negative")                         \
  X(typed_not_a_number, "typed.not-a-number")                 \
  X(typed_unknown_unit, "typed.unknown-unit")                 \
  X(typed_two_marks, "typed.two-marks")                       \
  X(typed_ounces_over, "typed.ounces-over")                   \
  X(typed_too_heavy, "typed.too-heavy")                       \
  X(typed_too_large, "typed.too-large")                       \
  X(typed_too_long, "typed.too-long")                         \
  X(typed_zero, "typed.zero")                                 \
  X(typed_too_many_digits, "typed.too-many-digits")           \
  X(typed_must_be_negative, "typed.must-be-negative")         \
  /* files */                                                 \
  X(file_too_big, "file.too-big")                             \
  X(file_empty, "file.empty")                                 \
  X(file_not_text, "file.not-text")                           \
  X(file_not_json, "file.not-json")                           \
  X(file_too_deep, "file.too-deep")                           \
  X(file_not_ours, "file.not-ours")                           \
  X(file_newer_major, "file.newer-major")                     \
  X(file_field_missing, "file.field-missing")                 \
  X(file_field_type, "file.field-type")                       \
  X(file_field_value, "file.field-value")                     \
  X(file_changed, "file.changed")                             \
  X(file_duplicate_id, "file.duplicate-id")                   \
  X(file_too_many, "file.too-many")                           \
  /* doubts about a session: shown beside the figures */      \
  X(doubt_conflicting_copies, "doubt.conflicting-copies")     \
  X(doubt_several_candidates, "doubt.several-candidates")     \
  X(doubt_missing_entries, "doubt.missing-entries")           \
  X(doubt_unknown_kind, "doubt.unknown-kind")                 \
  X(doubt_unreadable_entry, "doubt.unreadable-entry")         \
  X(doubt_unknown_reference, "doubt.unknown-reference")       \
  X(doubt_loss_negative, "doubt.loss-negative")               \
  X(doubt_loss_high, "doubt.loss-high")                       \
  X(doubt_explain_repeated, "doubt.explain-repeated")         \
  X(doubt_explain_tare, "doubt.explain-tare")                 \
  X(doubt_explain_tare_twice, "doubt.explain-tare-twice")     \
  X(doubt_explain_unit, "doubt.explain-unit")                 \
  X(doubt_explain_sign, "doubt.explain-sign")                 \
  X(doubt_tub_below_readings, "doubt.tub-below-readings")     \
  X(doubt_tub_circular, "doubt.tub-circular")                 \
  X(doubt_taken_more_than_pile, "doubt.taken-more-than-pile") \
  X(doubt_incoming_order, "doubt.incoming-order")             \
  X(doubt_two_by_difference, "doubt.two-by-difference")       \
  X(doubt_net_cost_negative, "doubt.net-cost-negative")       \
  X(doubt_tare_over_reading, "doubt.tare-over-reading")       \
  X(doubt_step_circular, "doubt.step-circular")               \
  X(doubt_currency_mixed, "doubt.currency-mixed")             \
  /* what a figure still needs */                             \
  X(need_whole_weight, "need.whole-weight")                   \
  X(need_price, "need.price")                                 \
  X(need_primary, "need.primary")                             \
  X(need_target, "need.target")                               \
  X(need_ready_cut_price, "need.ready-cut-price")             \
  X(need_wage, "need.wage")                                   \
  X(need_minutes, "need.minutes")                             \
  X(need_usable, "need.usable")                               \
  X(need_readings, "need.readings")                           \
  X(need_price_not_zero, "need.price-not-zero")               \
  X(need_prices_apart, "need.prices-apart")                   \
  X(need_25_portions, "need.25-portions")                     \
  /* where to put the knife */                                \
  X(plan_few_stations, "plan.few-stations")                   \
  X(plan_first_station, "plan.first-station")                 \
  X(plan_station_zero, "plan.station-zero")                   \
  X(plan_station_fill, "plan.station-fill")                   \
  X(plan_stations_cross, "plan.stations-cross")               \
  X(plan_too_long, "plan.too-long")                           \
  X(plan_no_weight, "plan.no-weight")                         \
  X(plan_no_target, "plan.no-target")                         \
  X(plan_split_range, "plan.split-range")                     \
  X(plan_limits_cross, "plan.limits-cross")                   \
  X(plan_least_over_thickness, "plan.least-over-thickness")   \
  X(plan_trim_takes_all, "plan.trim-takes-all")               \
  X(plan_saw_range, "plan.saw-range")                         \
  X(plan_target_too_heavy, "plan.target-too-heavy")           \
  X(plan_thickness_max, "plan.thickness-max")                 \
  X(plan_thickness_min, "plan.thickness-min")                 \
  X(plan_least_dimension, "plan.least-dimension")             \
  X(plan_limits_together, "plan.limits-together")             \
  X(plan_tolerance_too_fine, "plan.tolerance-too-fine")       \
  X(plan_value_range, "plan.value-range")                     \
  X(plan_too_many, "plan.too-many")                           \
  X(typed_under_tub, "typed.under-tub")                       \
  X(typed_not_whole, "typed.not-whole")                       \
  X(doubt_tubs_apart, "doubt.tubs-apart")                     \
  X(doubt_difference_readings, "doubt.difference-readings")   \
  X(need_ready_cut_pieces, "need.ready-cut-pieces")           \
  X(need_piece_weight, "need.piece-weight")

enum class Code {
#define TALLYBLOCK_CODE_NAME(name, key) name,
  TALLYBLOCK_CODES(TALLYBLOCK_CODE_NAME)
#undef TALLYBLOCK_CODE_NAME
};

inline constexpr std::string_view kCodeKeys[] = {
#define TALLYBLOCK_CODE_KEY(name, key) key,
    TALLYBLOCK_CODES(TALLYBLOCK_CODE_KEY)
#undef TALLYBLOCK_CODE_KEY
};

// The frozen catalogue key of a code, e.g. "typed.empty".
constexpr std::string_view key_of(Code code) { return kCodeKeys[static_cast<std::size_t>(code)]; }

// `args` fill {0}, {1}, ... of the sentence, `where` its {where}.
struct Problem {
  Code code{};
  Place where;
  Args args;
  friend bool operator==(const Problem&, const Problem&) = default;
};

// A value or the Problem that stands in its place. Nothing in the core throws.
template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : held_(std::move(value)) {}            // NOLINT(google-explicit-constructor)
  Result(Problem problem) : held_(std::move(problem)) {}  // NOLINT(google-explicit-constructor)
  bool ok() const { return std::holds_alternative<T>(held_); }
  explicit operator bool() const { return ok(); }
  // Precondition: ok().
  const T& value() const { return *std::get_if<T>(&held_); }
  T& value() { return *std::get_if<T>(&held_); }
  const T& operator*() const { return value(); }
  const T* operator->() const { return std::get_if<T>(&held_); }
  // Precondition: !ok().
  const Problem& problem() const { return *std::get_if<Problem>(&held_); }

 private:
  std::variant<T, Problem> held_;
};

}  // namespace tallyblock
