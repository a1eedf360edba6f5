// A set of entries, their union, and which of them count.
//
// Union is commutative, associative and idempotent. Two entries of one id and different text: the
// smaller text wins and the id is remembered as a conflict (rule 4). A void takes its target out
// unless it is itself void (rule 5; a circle of voids counts the one first in order as live). An
// entry named in `replaces` of a later entry that is not void no longer counts, nor does what it
// replaced in its turn (rule 3). Replacing a void does not undo it: void it.
#pragma once
#include <cstddef>
#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "entry.h"

namespace tallyblock {

class EntrySet {
 public:
  // Returns true if the set changed. Same id and text: nothing.
  bool insert(Entry entry);
  void merge(const EntrySet& other);

  const Entry* find(const EntryId& id) const;
  std::size_t size() const { return by_id_.size(); }
  bool empty() const { return by_id_.empty(); }
  // All entries in order (seq, id).
  std::vector<const Entry*> in_order() const;
  // Ids that arrived with different texts.
  const std::set<EntryId>& conflicts() const { return conflicts_; }
  // 1 + highest seq seen, at most kMaxSeq; 1 for an empty set.
  std::uint64_t next_seq() const { return highest_seq_ < kMaxSeq ? highest_seq_ + 1 : kMaxSeq; }
  // 1 + highest counter of this writer here; 1 if none.
  std::uint32_t next_counter(const std::string& writer) const;
  // Counters missing below the highest of each writer, in order of id; the first kMaxMissing only, as
  // a hostile file may leave thousands of millions. missing_count() is exact.
  static constexpr std::size_t kMaxMissing = 1000;
  std::vector<EntryId> missing() const;
  std::uint64_t missing_count() const;

  // Same ids with the same texts, and the same conflicts.
  friend bool operator==(const EntrySet& a, const EntrySet& b);

 private:
  std::map<EntryId, Entry> by_id_;
  std::set<EntryId> conflicts_;
  std::uint64_t highest_seq_ = 0;
};

// Which entries count: not void and not replaced. Includes bodies of every kind but Void. Keeps
// pointers into the set: the set must outlive the view unchanged.
class LiveView {
 public:
  explicit LiveView(const EntrySet& set);
  bool is_void(const EntryId& id) const;      // voided by a live void
  bool is_replaced(const EntryId& id) const;  // replaced by a later entry that is not void
  bool is_live(const EntryId& id) const;      // in the set, not void, not replaced; voids too
  // Live entries in order.
  const std::vector<const Entry*>& entries() const { return live_; }
  // For an entry voided by live voids, those voids; voiding them restores it.
  std::vector<EntryId> voids_of(const EntryId& id) const;

 private:
  void find_void(const std::vector<const Entry*>& ordered);
  void find_replaced(const std::vector<const Entry*>& ordered);

  const EntrySet* set_;
  std::set<EntryId> void_, replaced_;
  std::map<EntryId, std::vector<EntryId>> voids_of_;  // target -> the live voids on it, in order
  std::vector<const Entry*> live_;
};

// The fact key of an entry ("pile:portions", "price:piece", ...); empty for additive kinds
// (reading, remainder, transfer, labour, cut, note, void, unknown).
std::string fact_key(const Entry& entry);

}  // namespace tallyblock
