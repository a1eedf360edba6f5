// Where the person is and what is half typed: saved on every change, restored after a kill.
#pragma once
#include <map>
#include <string>
#include <string_view>

#include "core/entries/entry.h"
#include "fields.h"

namespace tallyblock {

enum class Screen {
  sessions,  // list, new, import, sample
  weigh,     // the board: picture, piles, keypad
  result,    // where it went, costs, make or buy, portions
  details,   // piece, lot, specification, quality, people, notes, tubs, piles, session settings
  share,     // export with or without names, delete
  settings,  // defaults for new sessions, theme, hand
  bin,       // deleted sessions
  about,     // cautions, notices, how figures are made
  cut,       // where to put the knife: measuring, plan, guide
  log,       // what the pieces of a line show together
};

struct Draft {
  Screen screen = Screen::sessions;
  std::string session;     // open session, "" if none
  Field field;             // what the keypad is on
  std::string digits;      // half typed, as shown on the keypad display (without unit)
  std::string unit = "g";  // unit of the digits: g kg oz lb lb-oz
  // Units chosen elsewhere: of the whole, of what is cut, of portions and tubs each has its own.
  std::map<std::string, std::string> units;
  std::string pile;             // chosen pile
  std::string habit = "piece";  // name_of(Habit)
  unsigned count = 1;           // pieces on the scale at once
  std::string tub;              // tub the reading lies in, "" if zeroed
  std::string selected;         // entry id whose actions are open, or ""
  std::string panel;            // open panel of the screen ("how", "move", "chapter:costs"), or ""
  std::string text;             // half-typed name or note, belongs to text_field
  std::string text_field;       // id of the text field being edited
  std::int64_t timer_started_ms = 0;   // UTC; 0: not running
  std::int64_t timer_gathered_ms = 0;  // measured so far, not yet an entry
  std::string new_price;               // what-if price, typed
  std::string person;  // entry id of who is cutting from now on, "" if nobody was named
  Field held;          // what the keypad was on when the weighing screen was left
  // Digits typed into fields that were left, by their place (aside_key), weights with their unit.
  std::map<std::string, std::string> aside;
  std::string width;       // of a station or face, typed; until its depth follows
  std::string long_piece;  // the one being cut, "" the piece itself
  std::string sliced;      // session whose piece is sliced first, each slice split, "" none
  // Marks scored into a piece, by session and long piece; as ScoredMarks says (cut_parts.h).
  std::map<std::string, std::string> scored;
  float scroll = 0.0F;
};

// "width:300 mm" is the width at 300 mm, "pile:trim" the pile trim: what, and of which.
struct NameParts {
  std::string what, of;
};
NameParts parts_of(const std::string& name);

// Frozen names, kept in the store.
std::string_view name_of(Screen screen);

// Panels of the board on which the right pile of a weight is tapped; after the second cutting goes on.
inline constexpr std::string_view kMove = "move", kMoveFromCut = "move:cut";

// A field by its place in Draft::aside: "target/portions".
std::string aside_key(const Field& field);

std::string draft_to_json(const Draft& draft);
// Unknown or damaged text gives the default draft.
Draft draft_from_json(std::string_view text);

}  // namespace tallyblock
