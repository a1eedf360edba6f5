// The keypad: the draft, the digits of its field, and what is asked about them.
//
// Digits half typed into a field that is left are put aside (Draft.aside) and are there again when the
// keypad comes back to it. Leaving the weighing screen takes the keypad off its field, coming back
// restores it. So a screen shows the keypad exactly when draft.field.kind is not none.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/problem.h"
#include "draft.h"
#include "web/app/desk/desk.h"
#include "web/app/host.h"
#include "web/app/shelf/cards.h"

namespace tallyblock {

// A block's weight that is too far from what was expected: asked about, not believed.
struct AskedWeight {
  std::string digits;              // as typed
  std::vector<std::string> meant;  // what else they may have been, the likeliest first
  Mass expected;                   // of all that was weighed together
};

// What is being asked of the weight being typed.
struct AskedOf {
  unsigned count = 0;  // how many pieces the weight last entered looks like, else 0
  std::optional<AskedWeight> weight;
  bool count_said = false, weight_sure = false;  // the answers
};

// The labour timer, by a clock that goes on while the device sleeps, but not back, and not for half a day unseen.
struct Stopwatch {
  std::int64_t seen_ms = 0;  // monotonic: this window knows of the running timer since then
  bool told = false;         // that the clock jumped
  bool doubtful(const Draft& draft, Host& host) const;  // only what is certain is counted
  std::int64_t ms(const Draft& draft, Host& host) const;
};

bool needs_session(Screen screen);

struct Keypad {
  Draft draft;
  std::optional<Problem> problem;  // of the digits
  AskedOf asked;

  // ---- what is typed into
  bool is_weight() const;  // its unit can be chosen
  // Behind the digits of its field: "g", "EUR per kg", "%", "min", "C".
  std::string unit(const Desk& desk, const AppSettings& settings) const;
  EntryId person() const;     // who is cutting from now on; empty if nobody was named
  std::string place() const;  // the session on its screens, else ""

  // ---- going about. True: something has changed.
  void go(Screen screen, const OpenSession* open);
  bool edit(const Field& field, const OpenSession* open, const AppSettings& settings);
  void go_to_default_field(const OpenSession* open);
  void after_field(const OpenSession* open);     // its digits were taken
  void begin(const OpenSession& session);        // another piece lies open
  void leave();                                  // none does
  void leave_gone_tub(const OpenSession& open);  // one that was taken out
  void take_off();                               // the digits; the field stays

  // ---- typing. key: "0".."9", ".", "space", "/", "lb", "oz", "minus", "back", "clear".
  bool key(const std::string& key, const Desk& desk);
  bool set_unit(const std::string& unit);  // of the digits; typed digits stay
  bool set_habit(const std::string& habit);
  void set_count(unsigned count);  // pieces on the scale; also of the reading that is typed anew
  void fill_next(const std::string& pile, const OpenSession& open);
  void forget_asked() { asked = {}; }
  void clear_text();

 private:
  void leave_unit();  // it is remembered for fields like the present one
  void come_to_unit(const OpenSession* open);
  void put_aside();  // the digits of the present field
  void take_up();    // those put aside for it
  void keep_what_lasts(Draft fresh);
};

}  // namespace tallyblock
