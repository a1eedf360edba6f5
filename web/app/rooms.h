// The six rooms, and what is done across them: saying, entering, going about.
//
// keeper: transactions, queue, retry, loads, the pen. desk: the open session and what is derived of it. shelf:
// cards, bin, settings. keypad: draft, fields, digits. porter: files in and out. log: what
// the log knows of each piece. Each is told by nobody but
// here and by what is done (doing_*.cpp, app_*.cpp); none knows of App.
#pragma once
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "host.h"
#include "web/app/desk/desk.h"
#include "web/app/keeper/keeper.h"
#include "web/app/keypad/keypad.h"
#include "web/app/porter/porter.h"
#include "web/app/shelf/shelf.h"

namespace tallyblock {

// A notice and its undo belong to the piece they are about, or to the list of pieces: they leave with it.
struct Notices {
  std::optional<Notice> now;
  std::map<std::string, Notice>
      waiting;  // until its place is looked at again: a session, or "" for the list

  void leave(const std::string& place);  // what failed is said wherever one goes
  void come_to(const std::string& place);
  void going_on();          // what was only said, and offers nothing, has been read
  void say(Notice notice);  // unless one stays
  bool stays() const { return now && now->stays; }
};

// Of a new piece nothing was typed or weighed: lists do not show it.
bool left_empty(const SessionCard& card, const Draft& draft);

struct Logbook;

struct Rooms {
  Rooms(Store& store, Host& device) : host(device), keeper(store) {}

  Host& host;
  Keeper keeper;
  Desk desk;
  Shelf shelf;
  Keypad keypad;
  Porter porter;
  std::shared_ptr<Logbook> log;  // from when it is first opened
  Notices notices;
  Stopwatch watch;
  std::string writer_id;
  bool ready = false;          // loading is over
  std::uint64_t revision = 0;  // grows with every visible change

  // ---- saying
  void changed() { ++revision; }
  void changed_draft();  // visible, and to be kept
  void tell(std::string key, std::vector<std::string> args = {}, bool can_undo = false);
  void tell_error(std::string key, std::vector<std::string> args = {});
  void refuse(Problem problem);  // the digits stay; why they were not taken is shown beside them
  bool may_act();                // else it is said why not
  bool may_write();              // a session is open, too

  // ---- entering and keeping: one act is one transaction
  Writing writing() const;  // into the open session, by who is cutting
  Writing writing_into(const OpenSession& session) const;
  // Lets the entries into the open session; undo takes them back. None: nothing is made, and why was said.
  std::optional<Act> enter(Made made);
  void keep(Act act);      // with the draft as it is now
  bool put(Made made);     // both
  void send();             // what waits to be kept
  void arm();              // asks to be woken for the next thing that is due
  void undo();             // the last act of this window, by voiding
  void write_all_again();  // all that is in memory: somebody took away what was stored

  // ---- going about
  void go(Screen screen);
  void show(OpenSession session);
  void leave_session();
  void begin_session(OpenSession session, const Writing& writing, const std::string& notice);
  void pause_before_leaving();
  void pause_timer();  // pausing keeps the measured time as a labour entry
  std::int64_t timer_ms() const { return watch.ms(keypad.draft, host); }
  void watch_timer();

  // ---- the list
  void put_in_bin(const std::string& session);  // undo stands in the notice
  void take_from_bin(const std::string& session);
  void remove_sample();
  void caution_read();
  void keep_settings();
  void tell_import();  // at once, or after what is being saved
  void tell_refused();
};

}  // namespace tallyblock
