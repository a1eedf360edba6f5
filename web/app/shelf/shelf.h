// The shelf: all that is kept besides the entries of sessions: cards of the list and of the bin, ids that
// were erased, the app's own settings.
#pragma once
#include <cstdint>
#include <deque>
#include <map>
#include <string>
#include <vector>

#include "cards.h"
#include "web/app/keeper/act.h"

namespace tallyblock {

// Cards that could not be read or are of an earlier version are made again, a few at a time.
struct Remaking {
  std::deque<std::string> sessions;
  std::size_t damaged = 0;  // could not be read
  bool busy = false;
};

struct Shelf {
  std::vector<SessionCard> cards;  // newest first, without the bin
  std::vector<SessionCard> binned;
  std::map<std::string, std::int64_t> bin;  // when each was put there, UTC ms
  std::vector<std::string> erased;          // ids erased for good, to say so when they come back
  AppSettings settings;
  Remaking remake;

  const SessionCard* card(const std::string& session) const;         // null: not in the list
  const SessionCard* binned_card(const std::string& session) const;  // null: not in the bin
  bool in_bin(const std::string& session) const { return bin.contains(session); }

  // ---- as it was stored
  void take_app_records(const std::vector<Record>& records);  // settings and what was erased
  bool take_cards(const std::vector<Record>& in_the_bin,
                  const std::vector<Record>& index);  // false: no index
  void forget_cards();

  // ---- what is done, and put into the act
  void put(const SessionCard& card, Act& act);
  void drop_card(const std::string& session, Act& act);  // of nothing
  void set_bin(const std::string& session, bool in, std::int64_t utc_ms, Act& act);
  void drop(const std::string& session, Act& act);   // everything kept of it goes
  void erase(const std::string& session, Act& act);  // and is remembered
  bool forget_erased(const std::string& session, Act& act);
  void put_settings(Act& act) const;
  // How a person cuts, as shown by a session: once for each session, the newest last.
  void learn(CookOf cook);
  // What the newest session but this one showed of that person, or null.
  const CookOf* cook_of(const std::string& person, const std::string& but) const;
};

}  // namespace tallyblock
