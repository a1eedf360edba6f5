// What an act answers: entries, numbered and checked before any is let into the session, and what is said
// of them. Acts are functions over a session: no frame, no store and no clock is needed to try one.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "open_session.h"
#include "web/app/keeper/notice.h"

namespace tallyblock {

// Entries of one act.
struct Writing {
  std::string writer;
  std::uint32_t counter = 0;
  std::uint64_t seq = 0;
  Stamp time;
  std::optional<EntryId> by;
  std::vector<Entry> made;
  std::optional<Problem> problem;
  EntryId add(Body body, std::vector<EntryId> replaces = {});
  // Takes the place of whatever stands for the fact in the session.
  EntryId add_fact(const OpenSession& session, Body body);
};

// A clock that cannot be right gives no time: before 1970, after 9999, or set back since an entry.
Stamp stamp_in(const OpenSession& session, std::int64_t utc_ms, int offset_minutes);
// The next of that writer.
Writing writing_into(const OpenSession& session, const std::string& writer, Stamp time);

// What an act comes to: entries with what is said of them. Without entries: a problem of the digits, or
// what is said instead, or nothing at all.
struct Made {
  Writing writing;
  Notice notice;
  std::optional<Problem> problem;

  Made() = default;
  Made(Writing w, Notice n) : writing(std::move(w)), notice(std::move(n)) {}
  Made(Problem p) : problem(std::move(p)) {}
  Made(Notice n) : notice(std::move(n)) {}
};
// Said of what was done, with its undo; and of what was not.
inline Notice done(std::string key, std::vector<std::string> args = {}) {
  return {std::move(key), std::move(args), true, false};
}
inline Notice refused(std::string key, std::vector<std::string> args = {}) {
  return {std::move(key), std::move(args), false, true};
}

// ---- what stands in a session

// The live entries of the fact `like` belongs to, in their order.
std::vector<EntryId> live_of(const OpenSession& session, const Body& like);
// The entry that decides it, or null.
const Entry* latest_entry(const OpenSession& session, const Body& like);
template <class B>
const B* latest(const OpenSession& session, const B& like) {
  const Entry* entry = latest_entry(session, like);
  return entry == nullptr ? nullptr : std::get_if<B>(&entry->body);
}
// An entry with all it took the place of: voiding a corrected fact means the fact, not only its last
// correction.
std::vector<EntryId> with_what_it_replaced(const OpenSession& session, const EntryId& id);
// Whatever stands for a fact, with what it took the place of: void, none of it comes back.
std::vector<EntryId> all_of(const OpenSession& session, const Body& like);
// The body of that kind under that id, or null.
template <class B>
const B* body_at(const OpenSession& session, const EntryId& id) {
  const Entry* entry = session.set.find(id);
  return entry == nullptr ? nullptr : std::get_if<B>(&entry->body);
}
// The pile's name, or its key.
std::string pile_name(const OpenSession& session, const std::string& key);

}  // namespace tallyblock
