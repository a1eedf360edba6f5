#include "entry_set.h"
#include "core/base/sorted.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace tallyblock {

bool EntrySet::insert(Entry entry) {
  highest_seq_ = std::max(highest_seq_, entry.seq);
  const auto found = by_id_.find(entry.id);
  if (found == by_id_.end()) {
    EntryId id = entry.id;
    by_id_.emplace(std::move(id), std::move(entry));
    return true;
  }
  if (found->second.text == entry.text) return false;
  bool changed = conflicts_.insert(entry.id).second;
  if (entry.text < found->second.text) {
    found->second = std::move(entry);
    changed = true;
  }
  return changed;
}

void EntrySet::merge(const EntrySet& other) {
  if (this == &other) return;
  for (const auto& [id, entry] : other.by_id_) insert(entry);
  conflicts_.insert(other.conflicts_.begin(), other.conflicts_.end());
  highest_seq_ = std::max(highest_seq_, other.highest_seq_);
}

const Entry* EntrySet::find(const EntryId& id) const {
  const auto found = by_id_.find(id);
  return found == by_id_.end() ? nullptr : &found->second;
}

std::vector<const Entry*> EntrySet::in_order() const {
  std::vector<const Entry*> entries;
  entries.reserve(by_id_.size());
  for (const auto& [id, entry] : by_id_) entries.push_back(&entry);
  heap_sort(entries, [](const Entry* a, const Entry* b) { return before(*a, *b); });
  return entries;
}

std::uint32_t EntrySet::next_counter(const std::string& writer) const {
  const auto after = by_id_.upper_bound(EntryId{writer, UINT32_MAX});
  if (after == by_id_.begin()) return 1;
  const EntryId& last = std::prev(after)->first;
  return last.writer == writer ? last.counter + 1 : 1;
}

std::vector<EntryId> EntrySet::missing() const {
  std::vector<EntryId> gaps;
  EntryId expected;
  for (const auto& [id, entry] : by_id_) {
    if (id.writer != expected.writer) expected = {id.writer, 1};
    for (; expected.counter < id.counter; ++expected.counter) {
      if (gaps.size() == kMaxMissing) return gaps;
      gaps.push_back(expected);
    }
    expected.counter = id.counter + 1;
  }
  return gaps;
}

std::uint64_t EntrySet::missing_count() const {
  std::uint64_t count = 0;
  EntryId expected;
  for (const auto& [id, entry] : by_id_) {
    if (id.writer != expected.writer) expected = {id.writer, 1};
    count += id.counter - expected.counter;
    expected.counter = id.counter + 1;
  }
  return count;
}

bool operator==(const EntrySet& a, const EntrySet& b) {
  return a.conflicts_ == b.conflicts_ &&
         std::equal(a.by_id_.begin(), a.by_id_.end(), b.by_id_.begin(), b.by_id_.end(),
                    [](const auto& x, const auto& y) {
                      return x.first == y.first && x.second.text == y.second.text;
                    });
}

}  // namespace tallyblock
