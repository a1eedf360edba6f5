// The fields of the keypad, each said once: a row of the table in fields.cpp.
#pragma once
#include <string>
#include <string_view>

#include "core/typed/typed.h"

namespace tallyblock {

class App;

enum class FieldKind {
  none,
  reading,  // draft.pile says of which pile
  drained,  // the whole piece on the board
  invoice,
  received,
  packaging,
  purge,
  price_per_mass,   // of the piece, per session price unit
  price_total,      // invoice total
  ready_cut,        // ready-cut price per price unit
  ready_cut_yield,  // percent
  pile_value,       // per price unit; may be negative
  wage,
  minutes,
  target,
  tolerance,
  eye_call,  // percent of AP that will be primary
  remainder,
  checkpoint,
  tub_tare,
  step_weight,  // subject: pile that is broken down further
  transfer,     // subject: from pile; draft.pile: to pile
  new_price,    // what-if on the result screen, not an entry
  receiving_temperature,
  loss_limit,
  division,  // session settings
  default_wage,
  default_loss_limit,
  default_division,  // settings for new sessions
  // where to put the knife
  length,  // subject: "piece", "at", "width:<place>", "depth:<place>", "face-width", "face-depth",
           // or a limit: thickness-min, thickness-max, least, trim-front, trim-back, saw
  wanted,  // how many portions, none: as many as possible
  long_piece,        // weight; subject: its key, "<of>-<number>"
  block,             // weight of what was just cut off
  anew,              // this weight takes the place of the subject's
  ready_cut_pieces,  // how many pieces the ready-cut price buys; none: it is one by weight
  ready_cut_piece,   // weight of one of them
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
  FieldKind kind;
  std::string_view name;  // frozen: kept in the store; its label is the word "field.<name>"
  Measure measure;
  Sign sign;  // of the figure; any: the keypad has a key for the sign
  Subject subject;
  KeptIn kept;
  bool (App::*enter)();  // what becomes of the digits; false: they stay
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
