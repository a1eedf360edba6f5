#include "writing.h"

#include <algorithm>
#include <utility>

namespace tallyblock {
namespace {

constexpr std::int64_t kClocksDifferMs =
    std::int64_t{10} * 60'000;        // of two devices that share a session
constexpr int kMostOffset = 14 * 60;  // minutes from UTC

}  // namespace

EntryId Writing::add(Body body, std::vector<EntryId> replaces) {
  Entry entry;
  entry.id = {writer, counter++};
  entry.seq = seq++;
  entry.time = time;
  entry.by = by;
  entry.replaces = std::move(replaces);
  entry.body = std::move(body);
  Result<Entry> whole = checked(std::move(entry));
  if (!whole) {
    if (!problem) problem = whole.problem();
    return {};
  }
  EntryId id = whole->id;
  made.push_back(std::move(whole.value()));
  return id;
}

EntryId Writing::add_fact(const OpenSession& session, Body body) {
  std::vector<EntryId> replaces = live_of(session, body);
  return add(std::move(body), std::move(replaces));
}

Stamp stamp_in(const OpenSession& session, std::int64_t utc_ms, int offset_minutes) {
  Stamp out{utc_ms, std::clamp(offset_minutes, -kMostOffset, kMostOffset)};
  if (out.utc_ms < 0 || out.utc_ms > kMaxUtcMs) out.utc_ms = 0;
  for (const Entry* entry : session.set.in_order()) {
    if (entry->time.utc_ms > out.utc_ms + kClocksDifferMs) out.utc_ms = 0;
  }
  return out;
}

Writing writing_into(const OpenSession& session, const std::string& writer, Stamp time) {
  Writing out;
  out.writer = writer;
  out.counter = session.set.next_counter(writer);
  out.seq = session.set.next_seq();
  out.time = time;
  return out;
}

std::vector<EntryId> live_of(const OpenSession& session, const Body& like) {
  std::vector<EntryId> ids;
  Entry probe;
  probe.body = like;
  const std::string key = fact_key(probe);
  if (key.empty()) return ids;
  const LiveView live(session.set);
  for (const Entry* entry : live.entries()) {
    if (fact_key(*entry) == key) ids.push_back(entry->id);
  }
  return ids;
}

const Entry* latest_entry(const OpenSession& session, const Body& like) {
  const std::vector<EntryId> ids = live_of(session, like);
  return ids.empty() ? nullptr : session.set.find(ids.back());
}

std::vector<EntryId> with_what_it_replaced(const OpenSession& session, const EntryId& id) {
  std::vector<EntryId> ids{id};
  for (std::size_t at = 0; at < ids.size(); ++at) {
    const Entry* entry = session.set.find(ids[at]);
    if (entry == nullptr) continue;
    for (const EntryId& before : entry->replaces) {
      if (std::ranges::find(ids, before) == ids.end()) ids.push_back(before);
    }
  }
  return ids;
}

std::vector<EntryId> all_of(const OpenSession& session, const Body& like) {
  std::vector<EntryId> ids;
  for (const EntryId& live : live_of(session, like)) {
    for (const EntryId& each : with_what_it_replaced(session, live)) {
      if (std::ranges::find(ids, each) == ids.end()) ids.push_back(each);
    }
  }
  return ids;
}

std::string pile_name(const OpenSession& session, const std::string& key) {
  const PileFigures* pile = pile_named(session.figures, key);
  return pile == nullptr ? key : pile->name;
}

}  // namespace tallyblock
