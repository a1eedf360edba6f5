// Doubts about the entries themselves: what they name and is not there, what could not be read.
#include <algorithm>

#include "sorted.h"
#include "steps.h"

namespace tallyblock {
namespace {

class References {
 public:
  References(const Facts& facts, const PileTable& table, const std::vector<std::string>& left_out)
      : facts_(facts), table_(table) {
    people_left_out_ = std::find(left_out.begin(), left_out.end(), "person") != left_out.end();
    for (const Entry* entry : facts.in_order())
      if (const auto* pile = std::get_if<body::Pile>(&entry->body)) ever_.insert(pile->key);
  }

  void check(const Entry& entry) {
    at_ = &entry;
    if (entry.by && !people_left_out_) person(*entry.by);
    std::visit(*this, entry.body);
  }

  void operator()(const body::Pile& b) { step(b.step); }
  void operator()(const body::Step& b) {
    if (b.key != "main") pile(b.from_pile);
  }
  void operator()(const body::ByDifference& b) { pile_ever(b.pile); }
  void operator()(const body::Target& b) { pile_ever(b.pile); }
  void operator()(const body::Price& b) {
    if (b.of.starts_with("pile:")) return pile_ever(b.of.substr(5));
    if (b.of != "piece" && b.of != "ready-cut") missing("price", b.of);
  }
  void operator()(const body::Reading& b) {
    pile(b.pile);
    if (!b.tub.empty() && facts_.winner("tub:" + b.tub) == nullptr) missing("tub", b.tub);
    for (const EntryId& id : b.covers) entry("reading", id);
    if (b.cut) entry("cut", *b.cut);
  }
  void operator()(const body::Remainder& b) { step(b.step); }
  void operator()(const body::Checkpoint& b) { step(b.step); }
  void operator()(const body::Cut& b) { step(b.step); }
  void operator()(const body::Station& b) { step(b.step); }
  void operator()(const body::PlanLimits& b) { step(b.step); }
  void operator()(const body::LongPiece& b) { step(b.step); }
  void operator()(const body::Face& b) { step(b.step); }
  void operator()(const body::CutClosed& b) { entry("cut", b.cut); }
  void operator()(const body::Wanted& b) { pile_ever(b.pile); }
  void operator()(const body::Move& b) {
    entry("reading", b.reading);
    pile(b.to_pile);
  }
  void operator()(const body::Transfer& b) {
    pile(b.from_pile);
    pile(b.to_pile);
  }
  void operator()(const body::Note& b) {
    if (b.about) entry("entry", *b.about);
  }
  template <class Other>
  void operator()(const Other&) {}

  void tell(Figures& figures) {
    for (auto& [key, entries] : missing_) {
      heap_sort(entries);
      entries.erase(std::unique(entries.begin(), entries.end()), entries.end());
      figures.doubts.push_back({Code::doubt_unknown_reference,
                                key.first + " " + key.second,
                                std::move(entries),
                                {key.first, key.second},
                                {}});
    }
  }

 private:
  void missing(const char* kind, const std::string& key) {
    missing_[{kind, key}].push_back(at_->id);
  }
  void pile(const std::string& key) {
    if (table_.find(key) == kNoPlace) missing("pile", key);
  }
  // Facts about a pile that was taken away on purpose are no loss.
  void pile_ever(const std::string& key) {
    if (!ever_.contains(key)) missing("pile", key);
  }
  void step(const std::string& key) {
    if (key != "main" && facts_.winner("step:" + key) == nullptr) missing("step", key);
  }
  void entry(const char* kind, const EntryId& id) {
    if (facts_.place_of(id) == kNoPlace) missing(kind, to_text(id));
  }
  void person(const EntryId& id) {
    if (facts_.place_of(id) == kNoPlace) missing("person", to_text(id));
  }

  const Facts& facts_;
  const PileTable& table_;
  bool people_left_out_ = false;
  std::set<std::string> ever_;
  const Entry* at_ = nullptr;
  std::map<std::pair<std::string, std::string>, std::vector<EntryId>> missing_;
};

void doubt_unread(const Facts& facts, Figures& figures) {
  std::map<std::string, std::vector<EntryId>> kinds;
  for (const Entry* entry : facts.counted()) {
    const auto* unknown = std::get_if<body::Unknown>(&entry->body);
    if (unknown == nullptr) continue;
    if (!unknown->problem) {
      kinds[unknown->kind].push_back(entry->id);
      continue;
    }
    figures.doubts.push_back(
        {Code::doubt_unreadable_entry,
         "entry " + to_text(entry->id),
         {entry->id},
         {std::string(key_of(unknown->problem->code)), unknown->problem->where},
         {}});
  }
  for (auto& [kind, ids] : kinds) {
    std::vector<std::string> args{kind, std::to_string(ids.size())};
    figures.doubts.push_back(
        {Code::doubt_unknown_kind, "session", std::move(ids), std::move(args), {}});
  }
}

void doubt_copies_and_gaps(const Facts& facts, const std::vector<std::string>& left_out,
                           Figures& figures) {
  const auto& conflicts = facts.set().conflicts();
  if (!conflicts.empty())
    figures.doubts.push_back({Code::doubt_conflicting_copies,
                              "session",
                              {conflicts.begin(), conflicts.end()},
                              {std::to_string(conflicts.size())},
                              {}});
  if (!left_out.empty()) return;  // gaps were made on purpose: no telling which others there are
  std::vector<EntryId> missing = facts.set().missing();
  if (missing.empty()) return;
  std::vector<std::string> args{std::to_string(facts.set().missing_count())};
  figures.doubts.push_back(
      {Code::doubt_missing_entries, "session", std::move(missing), std::move(args), {}});
}

}  // namespace

void doubt_entries(const Facts& facts, const PileTable& table,
                   const std::vector<std::string>& left_out, Figures& figures) {
  doubt_copies_and_gaps(facts, left_out, figures);
  doubt_unread(facts, figures);
  References references(facts, table, left_out);
  for (const Entry* entry : facts.counted()) references.check(*entry);
  references.tell(figures);
}

}  // namespace tallyblock
