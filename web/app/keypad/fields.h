// The fields of the keypad, each said once.
#pragma once
#include <string>
#include <string_view>

#include "core/typed/typed.h"

namespace tallyblock {

// One row for each: kind, name (frozen: kept in the store; its label is the word "field.<name>"), measure, sign
// (any: the keypad has a key for it), what its subject names, where what was entered is kept, and the
// member of App that takes the digits. Append only.
// clang-format off
#define TALLYBLOCK_FIELDS(X) \
  X(none, "none", none, any, nothing, draft, commit_nothing) \
  X(reading, "reading", mass, positive_only, nothing, session, commit_reading) /* draft.pile says of which pile */ \
  X(drained, "drained", mass, positive_only, nothing, session, commit_incoming) /* the whole piece on the board */ \
  X(invoice, "invoice", mass, positive_only, nothing, session, commit_incoming) \
  X(received, "received", mass, positive_only, nothing, session, commit_incoming) \
  X(packaging, "packaging", mass, zero_or_more, nothing, session, commit_incoming) \
  X(purge, "purge", mass, zero_or_more, nothing, session, commit_incoming) \
  X(price_per_mass, "price-per-mass", per_mass, zero_or_more, nothing, session, commit_price) /* of the piece, per session price unit */ \
  X(price_total, "price-total", total, zero_or_more, nothing, session, commit_price) /* invoice total */ \
  X(ready_cut, "ready-cut", per_mass, zero_or_more, nothing, session, commit_price) /* per price unit, or for so many pieces */ \
  X(ready_cut_yield, "ready-cut-yield", percent, zero_or_more, nothing, session, commit_ready_cut_yield) \
  X(pile_value, "pile-value", per_mass, any, pile, session, commit_price) /* per price unit; may be negative */ \
  X(wage, "wage", per_hour, zero_or_more, nothing, session, commit_wage) \
  X(minutes, "minutes", minutes, zero_or_more, nothing, session, commit_minutes) \
  X(target, "target", mass, positive_only, pile, session, commit_target) \
  X(tolerance, "tolerance", mass, zero_or_more, pile, session, commit_tolerance) \
  X(eye_call, "eye-call", percent, zero_or_more, nothing, session, commit_eye_call) /* percent of AP that will be primary */ \
  X(remainder, "remainder", mass, zero_or_more, step, session, commit_remainder) \
  X(checkpoint, "checkpoint", mass, positive_only, step, session, commit_checkpoint) \
  X(tub_tare, "tub-tare", mass, zero_or_more, tub, session, commit_tub_tare) \
  X(step_weight, "step-weight", mass, positive_only, pile, session, commit_step_weight) /* subject: pile that is broken down further */ \
  X(transfer, "transfer", mass, positive_only, pile, session, commit_transfer) /* subject: from pile; draft.pile: to pile */ \
  X(new_price, "new-price", per_mass, zero_or_more, nothing, draft, commit_new_price) /* what-if on the result screen, not an entry */ \
  X(receiving_temperature, "receiving-temperature", temperature, any, nothing, session, commit_temperature) \
  X(loss_limit, "loss-limit", percent, zero_or_more, nothing, session, commit_loss_limit) \
  X(division, "division", mass, positive_only, nothing, session, commit_division) /* session settings */ \
  X(default_wage, "default-wage", per_hour, zero_or_more, nothing, settings, commit_default_wage) /* settings for new pieces */ \
  X(default_loss_limit, "default-loss-limit", percent, zero_or_more, nothing, settings, commit_default_loss_limit) \
  X(default_division, "default-division", mass, positive_only, nothing, settings, commit_default_division) \
  X(length, "length", length, zero_or_more, place, session, commit_length) /* subject: "piece", "at", "width:<place>", "depth:<place>", "face-width", "face-depth", or a limit */ \
  X(wanted, "wanted", count, zero_or_more, pile, session, commit_wanted) /* how many portions, none: as many as possible */ \
  X(long_piece, "long-piece", mass, positive_only, long_piece, session, commit_long_piece) /* subject: its key, "<of>-<number>" */ \
  X(block, "block", mass, positive_only, nothing, session, commit_block) /* what was just cut off */ \
  X(anew, "anew", mass, positive_only, reading, session, commit_anew) /* this weight takes the place of the subject's */ \
  X(ready_cut_pieces, "ready-cut-pieces", count, zero_or_more, nothing, session, commit_ready_cut_pieces) /* how many the ready-cut price buys; none: it is one by weight */ \
  X(ready_cut_piece, "ready-cut-piece", mass, positive_only, nothing, session, commit_ready_cut_piece) /* weight of one of them */
// clang-format on

enum class FieldKind {
#define TALLYBLOCK_FIELD(kind, name, measure, sign, subject, kept, commit) kind,
  TALLYBLOCK_FIELDS(TALLYBLOCK_FIELD)
#undef TALLYBLOCK_FIELD
};

// What its figure is counted in: decides the unit shown and the keys offered.
enum class Measure {
  none,
  mass,
  per_mass,
  total,
  per_hour,
  percent,
  minutes,
  temperature,
  length,
  count
};
// What the subject of a field names: a key, a place of the piece, or an entry's id.
enum class Subject { nothing, pile, tub, step, place, long_piece, reading };
// Where what was entered is kept.
enum class KeptIn { draft, settings, session };

struct FieldRow {
  std::string_view name;
  Measure measure;
  Sign sign;
  Subject subject;
  KeptIn kept;
};
const FieldRow& row_of(FieldKind kind);
// Of that name, none where there is none.
FieldKind field_from(std::string_view name);
inline std::string_view name_of(FieldKind kind) { return row_of(kind).name; }

struct Field {
  FieldKind kind = FieldKind::none;
  std::string subject;
  friend bool operator==(const Field&, const Field&) = default;
};

}  // namespace tallyblock
