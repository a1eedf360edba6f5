// What an act works on. Acts are functions: they answer what is to be entered and change nothing of the
// session; what is asked about the digits they leave on the keypad.
//
// A typed act, one for each field of the keypad (fields.h), answers a problem where the digits are not
// taken, and nothing at all where the keypad alone has changed.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <utility>

#include "web/app/desk/desk.h"
#include "web/app/keypad/keypad.h"
#include "web/app/shelf/cards.h"

namespace tallyblock {

struct Work {
  const Desk& desk;
  Keypad& keypad;
  AppSettings& settings;  // for new pieces; changed by the fields that are kept in them
  Writing to;             // numbers and stamp of what is entered; of no session if none is open
  std::int64_t timer_ms = 0;

  const OpenSession& open() const { return *desk.session(); }  // Precondition: one is open
  const Figures& figures() const { return open().figures; }
  Draft& draft() const { return keypad.draft; }
  const Field& field() const { return keypad.draft.field; }
};

// ---- what typed acts are made of

std::string label_of(FieldKind kind);
inline std::string where_typed(const Work& w) { return std::string(name_of(w.field().kind)); }
Result<TypedMass> typed_mass(const Work& w, Sign sign);
Result<TypedMass> typed_mass(const Work& w);  // of the sign its field takes
Result<TypedNumber> typed_amount(const Work& w);
Result<TypedNumber> typed_share(const Work& w);    // of percent
Made one(Work& w, Body body, Notice notice);       // a single entry
Made one_fact(Work& w, Body body, Notice notice);  // in place of whatever stands for it
// A fact out of the digits.
Made fact(Work& w, Body body, const std::string& label, const std::string& value);
Made fact(Work& w, Body body, const std::string& value);  // under the field's own name

// ---- the typed acts, by the table of fields
// NOLINTBEGIN(readability-redundant-declaration): the digits of some fields are taken alike
#define TALLYBLOCK_FIELD(kind, name, measure, sign, subject, kept, commit) Made commit(Work& w);
TALLYBLOCK_FIELDS(TALLYBLOCK_FIELD)
#undef TALLYBLOCK_FIELD
// NOLINTEND(readability-redundant-declaration)

// What becomes of the digits of the field the keypad is on.
Made taken(Work& w);

}  // namespace tallyblock
