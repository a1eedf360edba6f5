// The keeper: one ordered queue of acts, one strict transaction each; loads; who has the pen.
//
// The front of the queue is in flight or waiting to be tried again; nothing overtakes it, so that what
// is kept is always a state the person has seen. Every transaction carries the draft as it was when
// the act was done (the present one, if nothing was done since), so that a restart finds the act with
// its screen or neither. The draft alone is saved only while no act waits; its failures are retried and
// not shown. All operations are puts of fixed contents or erasures: trying again what may have been
// kept changes nothing. Knows neither sessions nor screens; tells by what it answers.
#pragma once
#include <cstdint>
#include <deque>
#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "act.h"

namespace tallyblock {

enum class SaveState { nothing_yet, saving, kept, failed };

// Catalogue key of the sentence for a status that is not ok, e.g. "trouble.quota".
std::string_view trouble_key(StoreStatus status);

class Keeper {
 public:
  using Loaded = std::function<void(StoreStatus, const std::vector<Record>&)>;
  // What the store's answer to a transaction was about.
  struct Answer {
    bool ours = false, of_draft = false;
    std::optional<Act> kept;
    bool again = false;  // the first that was kept after trouble, and nothing waits any more
  };

  explicit Keeper(Store& store) : store_(store) {}

  // ---- loads; tokens are of loads and transactions together
  void load(Area area, const std::string& prefix, Loaded then);
  bool on_load(std::uint32_t token, StoreStatus status, const std::vector<Record>& records);
  // What the store would hold if everything waiting had been kept.
  std::vector<Record> with_pending(Area area, const std::string& prefix,
                                   std::vector<Record> records) const;

  // ---- the queue
  void add(Act act);             // done just now: the draft goes with it
  void add_made(Act act);        // of cards made again: with whatever the draft is then
  bool may_send() const;         // something waits and nothing is in flight
  void send(std::string draft);  // the draft as it is now
  Answer on_commit(std::uint32_t token, StoreStatus status);
  // A transaction or a load failed; true: that is news. `ready`: the app is past its loading.
  bool fail(StoreStatus status, bool of_draft, bool ready);
  bool wait_after(StoreStatus status,
                  std::int64_t monotonic_ms);  // false: trying again is of no use
  void hold(bool on) { holding_ = on; }  // an act is being put together: its draft goes with it
  bool idle() const { return queue_.empty(); }
  std::size_t waiting() const { return queue_.size(); }
  bool all_kept() const { return queue_.empty() && !draft_dirty_; }
  bool in_flight() const { return in_flight_.token != 0; }
  bool say_when_kept(const Notice& notice);     // with the last that waits; false: nothing does
  std::uint64_t acts() const { return acts_; }  // so far

  // ---- the draft
  void draft_changed() { draft_dirty_ = true; }
  bool draft_waits() const { return draft_dirty_; }

  // ---- what is known of saving
  StoreStatus trouble() const { return trouble_; }  // why saving fails, ok if it does not
  void begin_afresh();    // all was read: no trouble but a newer version's
  void keep_in_memory();  // this browser keeps nothing
  bool memory_only() const { return memory_only_; }
  bool stored_by_newer() const { return newer_; }  // read, never written
  SaveState state(bool any_entries) const;
  bool is_kept(const std::string& key) const { return !unsaved_.contains(key); }
  std::size_t unsaved() const { return unsaved_.size(); }  // entries not yet kept

  // ---- trying again
  std::optional<std::int64_t> retry_at() const { return retry_.at; }  // monotonic
  bool retry_due(std::int64_t monotonic_ms);  // from then on it is no longer waited for
  void retry_now();

  // ---- the pen
  bool writer() const { return writer_; }
  bool set_writer(bool writer);      // true: it was taken just now
  std::string_view why_not() const;  // nothing may be changed: the sentence's key, or ""

 private:
  struct Flight {
    std::uint32_t token = 0;  // 0: none
    bool of_draft = false;
  };
  struct Retry {
    int attempts = 0;
    std::optional<std::int64_t> at;  // monotonic
  };

  Store& store_;
  std::uint32_t last_token_ = 0;
  std::map<std::uint32_t, Loaded> loads_;
  std::deque<Act> queue_;
  std::uint64_t acts_ = 0;
  std::set<std::string> unsaved_;  // "<session>/<entry id>" of all entries in the queue
  Flight in_flight_;
  bool draft_dirty_ = false;
  bool holding_ = false;
  bool anything_kept_ = false;  // by this window since the start
  bool memory_only_ = false, newer_ = false;
  bool writer_ = true;
  StoreStatus trouble_ = StoreStatus::ok;
  Retry retry_;
};

}  // namespace tallyblock
