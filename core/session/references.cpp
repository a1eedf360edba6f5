// Doubts about the entries themselves: what they name and is not there, what could not be read.
#include <algorithm>

#include "core/base/sorted.h"
#include "core/entries/kinds.h"
#include "core/session/inside/steps.h"

namespace tallyblock {
namespace {

// What entries name: the fields of kinds.h that say so.
class References : public IgnoreFields {
 public:
  References(const Facts& facts, const PileTable& table, const std::vector<std::string>& left_out)
      : facts_(facts), table_(table) {
    people_left_out_ = std::find(left_out.begin(), left_out.end(), "person") != left_out.end();
    for (const Entry* entry : facts.in_order())
      if (const auto* pile = std::get_if<body::Pile>(&entry->body)) ever_.insert(pile->key);
  }

  void check(const Entry& entry) {
    at_ = &entry;
    if (entry.by && !people_left_out_) this->entry("person", "by", *entry.by);
    visit_fields(*this, entry.body);
  }

  void pile(std::string_view, const std::string& key) {
    if (table_.find(key) == kNoPlace) missing("pile", key);
  }
  // Facts about a pile that was taken away on purpose are no loss.
  void pile_ever(std::string_view, const std::string& key) {
    if (!ever_.contains(key)) missing("pile", key);
  }
  void priced(std::string_view field, const std::string& of) {
    if (of.starts_with("pile:")) return pile_ever(field, of.substr(5));
    if (of != "piece" && of != "ready-cut") missing("price", of);
  }
  void step(const std::string& key) {
    if (key != "main" && facts_.winner("step:" + key) == nullptr) missing("step", key);
  }
  void tub(std::string_view, const std::string& key) {
    if (!key.empty() && facts_.winner("tub:" + key) == nullptr) missing("tub", key);
  }
  void entry(const char* what, std::string_view, const EntryId& id) {
    if (*what != 0 && facts_.place_of(id) == kNoPlace) missing(what, to_text(id));
  }
  void optional_entry(const char* what, std::string_view field, const std::optional<EntryId>& id) {
    if (id) entry(what, field, *id);
  }
  void entries(const char* what, std::string_view field, const std::vector<EntryId>& ids) {
    for (const EntryId& id : ids) entry(what, field, id);
  }

  void tell(Figures& figures) {
    for (auto& [key, entries] : missing_) {
      heap_sort(entries);
      entries.erase(std::unique(entries.begin(), entries.end()), entries.end());
      figures.doubts.push_back({Code::doubt_unknown_reference,
                                key.first + " " + key.second,
                                std::move(entries),
                                {Arg::word("kind." + key.first), Arg::code(key.second)},
                                {}});
    }
  }

 private:
  void missing(const char* kind, const std::string& key) {
    missing_[{kind, key}].push_back(at_->id);
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
         {Arg::code(key_of(unknown->problem->code)), Arg::code(unknown->problem->where.field)},
         {}});
  }
  for (auto& [kind, ids] : kinds) {
    Args args{Arg::code(kind), Arg::count(ids.size())};
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
                              {Arg::count(conflicts.size())},
                              {}});
  if (!left_out.empty()) return;  // gaps were made on purpose: no telling which others there are
  std::vector<EntryId> missing = facts.set().missing();
  if (missing.empty()) return;
  Args args{Arg::count(facts.set().missing_count())};
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
