// Which entry decides each fact, and which additive entries count.
//
// Internal to the session figures. A fact is decided by the highest in order among its live
// candidates; the others are a doubt (rule 3). Two live corrections of one reading (transfer, labour)
// are candidates for one fact too: the highest in order counts.
#pragma once
#include <functional>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "core/entries/entry_set.h"
#include "session.h"

namespace tallyblock {

inline constexpr std::size_t kNoPlace = static_cast<std::size_t>(-1);

// Finds an entry's place in the order by its id, without a tree of strings to walk.
class IdIndex {
 public:
  void build(const std::vector<const Entry*>& entries);
  std::size_t find(const EntryId& id) const;  // kNoPlace: not there

 private:
  static std::size_t hash(const EntryId& id);
  const std::vector<const Entry*>* entries_ = nullptr;
  std::vector<std::size_t> slots_;  // open addressing, at most half full
};

class Facts {
 public:
  explicit Facts(const EntrySet& set);
  Facts(const Facts&) = delete;
  Facts& operator=(const Facts&) = delete;

  const EntrySet& set() const { return *set_; }
  const LiveView& live() const { return live_; }
  const std::vector<const Entry*>& in_order() const { return in_order_; }
  // Winners of facts and additive entries that count, in order.
  const std::vector<const Entry*>& counted() const { return counted_; }
  bool is_outvoted(const EntryId& id) const { return outvoted_.contains(id); }
  // Place in in_order(), or kNoPlace; the entry, or null.
  std::size_t place_of(const EntryId& id) const { return index_.find(id); }
  const Entry* find(const EntryId& id) const {
    const std::size_t place = index_.find(id);
    return place == kNoPlace ? nullptr : in_order_[place];
  }
  // Live and not outvoted, by place in in_order().
  bool counts(std::size_t place) const { return counts_[place] != 0; }

  // The entry that decides a fact, or null.
  const Entry* winner(std::string_view key) const;
  // All decided facts whose key starts with `prefix`, by key.
  std::vector<const Entry*> winners(std::string_view prefix) const;
  // The body of the deciding entry, or null.
  template <class B>
  const B* find(std::string_view key) const {
    const Entry* entry = winner(key);
    return entry == nullptr ? nullptr : std::get_if<B>(&entry->body);
  }

  // The division of a reading that states none: the session's setting "division", else 1/8 oz where
  // the session is in ounces (units oz and lb-oz), else 1 g.
  const TypedMass& usual_division() const { return usual_division_; }
  // The division an entry states, else the usual one.
  Mass division_of(const TypedMass& stated) const {
    return stated.text.empty() ? usual_division_.mass : stated.mass;
  }

  // Ids an entry replaces, directly or through what it replaces.
  std::vector<EntryId> replaced_by(const Entry& entry) const;

  const std::vector<Doubt>& doubts() const { return doubts_; }

 private:
  void drop_outvoted();
  bool claim(const Entry& entry, std::map<EntryId, const Entry*>& claimed);
  void decide();
  void find_usual_division();

  const EntrySet* set_;
  LiveView live_;
  std::vector<const Entry*> in_order_, counted_;
  std::vector<char> counts_;
  IdIndex index_;
  std::set<EntryId> outvoted_;
  std::map<std::string, const Entry*, std::less<>> winner_;
  std::vector<Doubt> doubts_;
  TypedMass usual_division_;
};

// Named fields, lot, tubs, people, notes and settings of the session.
void describe(const Facts& facts, Figures& figures);

}  // namespace tallyblock
