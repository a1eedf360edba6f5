#include "facts.h"

#include <algorithm>
#include <cstdint>
#include <ranges>

namespace tallyblock {

void IdIndex::build(const std::vector<const Entry*>& entries) {
  entries_ = &entries;
  std::size_t size = 16;
  while (size < 2 * entries.size()) size *= 2;
  slots_.assign(size, kNoPlace);
  for (std::size_t i = 0; i < entries.size(); ++i) {
    std::size_t at = hash(entries[i]->id) & (size - 1);
    while (slots_[at] != kNoPlace) at = (at + 1) & (size - 1);
    slots_[at] = i;
  }
}

std::size_t IdIndex::find(const EntryId& id) const {
  const std::size_t mask = slots_.size() - 1;
  for (std::size_t at = hash(id) & mask; slots_[at] != kNoPlace; at = (at + 1) & mask)
    if ((*entries_)[slots_[at]]->id == id) return slots_[at];
  return kNoPlace;
}

std::size_t IdIndex::hash(const EntryId& id) {
  std::uint64_t mixed = std::hash<std::string>{}(id.writer) + id.counter;
  mixed *= 0x9E3779B97F4A7C15u;
  return static_cast<std::size_t>(mixed ^ (mixed >> 32));
}

Facts::Facts(const EntrySet& set) : set_(&set), live_(set), in_order_(set.in_order()) {
  index_.build(in_order_);
  drop_outvoted();
  decide();
  find_usual_division();
}

const Entry* Facts::winner(std::string_view key) const {
  const auto found = winner_.find(key);
  return found == winner_.end() ? nullptr : found->second;
}

std::vector<const Entry*> Facts::winners(std::string_view prefix) const {
  std::vector<const Entry*> result;
  for (auto at = winner_.lower_bound(prefix); at != winner_.end(); ++at) {
    if (std::string_view(at->first).substr(0, prefix.size()) != prefix) break;
    result.push_back(at->second);
  }
  return result;
}

void Facts::find_usual_division() {
  const auto* unit = find<body::Setting>("setting:unit");
  const bool ounces = unit != nullptr && (unit->value == "oz" || unit->value == "lb-oz");
  if (auto usual = parse_mass(ounces ? "1/8 oz" : "1 g", "division"))
    usual_division_ = usual.value();
  const auto* setting = find<body::Setting>("setting:division");
  if (setting == nullptr) return;
  if (auto mass = parse_mass(setting->value, "division")) usual_division_ = mass.value();
}

std::vector<EntryId> Facts::replaced_by(const Entry& entry) const {
  std::vector<EntryId> found;
  std::set<EntryId> seen{entry.id};
  std::vector<const Entry*> open{&entry};
  while (!open.empty()) {
    const Entry* at = open.back();
    open.pop_back();
    for (const EntryId& id : at->replaces) {
      const Entry* next = find(id);
      if (next != nullptr && !before(*next, *at)) continue;  // replaces nothing: see LiveView
      if (!seen.insert(id).second) continue;
      found.push_back(id);
      if (next != nullptr) open.push_back(next);
    }
  }
  return found;
}

// Takes every id the entry replaces; false, with a doubt, if a later correction has one already.
bool Facts::claim(const Entry& entry, std::map<EntryId, const Entry*>& claimed) {
  std::vector<const Entry*> open{&entry};
  while (!open.empty()) {
    const Entry* at = open.back();
    open.pop_back();
    for (const EntryId& id : at->replaces) {
      const Entry* next = find(id);
      if (next != nullptr && !before(*next, *at)) continue;  // replaces nothing: see LiveView
      const auto [place, fresh] = claimed.try_emplace(id, &entry);
      if (fresh) {
        if (next != nullptr) open.push_back(next);
      } else if (place->second != &entry) {
        doubts_.push_back({Code::doubt_several_candidates,
                           "fact correction:" + to_text(id),
                           {entry.id, place->second->id},
                           {Arg::fact("correction:" + to_text(id)), Arg::count(2)},
                           {}});
        return false;
      }
    }
  }
  return true;
}

void Facts::drop_outvoted() {
  std::map<EntryId, const Entry*> claimed;
  for (const Entry* entry : std::views::reverse(live_.entries())) {
    if (entry->replaces.empty() || std::holds_alternative<body::Unknown>(entry->body)) continue;
    if (!fact_key(*entry).empty()) continue;
    if (!claim(*entry, claimed)) outvoted_.insert(entry->id);
  }
  std::reverse(doubts_.begin(), doubts_.end());
}

void Facts::decide() {
  std::map<std::string, std::vector<const Entry*>> several;
  for (const Entry* entry : live_.entries()) {
    std::string key = fact_key(*entry);
    if (key.empty()) continue;
    const auto [place, fresh] = winner_.try_emplace(std::move(key), entry);
    if (fresh) continue;
    auto& list = several[place->first];
    if (list.empty()) list.push_back(place->second);
    list.push_back(entry);
    place->second = entry;
  }
  for (const auto& [key, list] : several) {
    Doubt doubt{Code::doubt_several_candidates,
                "fact " + key,
                {},
                {Arg::fact(key), Arg::count(list.size())},
                {}};
    for (const Entry* entry : list) doubt.entries.push_back(entry->id);
    for (const Entry* entry : list)
      if (entry != list.back()) outvoted_.insert(entry->id);
    doubts_.push_back(std::move(doubt));
  }
  // live_.entries() stands in the same order.
  counts_.assign(in_order_.size(), 0);
  std::size_t place = 0;
  for (const Entry* entry : live_.entries()) {
    while (in_order_[place] != entry) ++place;
    if (!outvoted_.empty() && outvoted_.contains(entry->id)) continue;
    counts_[place] = 1;
    counted_.push_back(entry);
  }
}

}  // namespace tallyblock
