// Which contribution lies inside which tub total.
#include <algorithm>

#include "piles.h"
#include "sorted.h"

namespace tallyblock {
namespace {

class Covers {
 public:
  Covers(PileTable& table, const Facts& facts)
      : all_(table.contributions), of_entry_(table.of_entry), facts_(facts) {
    for (std::size_t i = 0; i < all_.size(); ++i) {
      if (all_[i].reading != nullptr && all_[i].reading->habit == Habit::tub_now &&
          all_[i].counts && all_[i].pile != kNoPlace && !all_[i].reading->covers.empty())
        tubs_.push_back(i);
    }
    if (tubs_.empty()) return;
    link_corrections();
    heap_sort(tubs_, [this](std::size_t a, std::size_t b) {
      if (all_[a].pile != all_[b].pile) return all_[a].pile < all_[b].pile;
      return earlier(a, b);
    });
  }

  // First only what was there before the tub was read: that cannot close a circle. Then the rest,
  // each checked against a circle.
  void resolve() {
    for (const bool looking_back : {true, false}) {
      if (!looking_back && !looks_ahead_) return;
      seen_for_.assign(all_.size(), kNoPlace);
      for (const std::size_t tub : tubs_) take_in(tub, looking_back);
    }
  }

  // Tub readings that cover what they are themselves inside of.
  const std::vector<std::pair<std::size_t, std::size_t>>& circles() const { return circles_; }
  const std::vector<std::size_t>& tubs() const { return tubs_; }

 private:
  bool earlier(std::size_t a, std::size_t b) const {
    return all_[a].placed_at != all_[b].placed_at ? all_[a].placed_at < all_[b].placed_at : a < b;
  }

  void link_corrections() {
    for (std::size_t i = 0; i < all_.size(); ++i) {
      if (!all_[i].counts || all_[i].entry->replaces.empty()) continue;
      for (const EntryId& id : facts_.replaced_by(*all_[i].entry)) {
        const std::size_t old = contribution_of(id);
        if (old == kNoPlace) continue;
        all_[old].corrected_by.push_back(i);
        if (all_[old].transfer != nullptr) all_[old + 1].corrected_by.push_back(i);
      }
    }
  }

  void take_in(std::size_t tub, bool looking_back) {
    open_.clear();
    push_covered(tub);
    while (!open_.empty()) {
      const std::size_t at = open_.back();
      open_.pop_back();
      Contribution& c = all_[at];
      if (c.counts) {
        if (c.pile == all_[tub].pile) adopt(tub, at, looking_back);
        continue;
      }
      if (seen_for_[at] == all_[tub].pile) continue;
      seen_for_[at] = all_[tub].pile;
      open_.insert(open_.end(), c.corrected_by.begin(), c.corrected_by.end());
      if (c.pile == all_[tub].pile && c.reading != nullptr) push_covered(at);
    }
  }

  void push_covered(std::size_t tub) {
    if (all_[tub].reading->habit != Habit::tub_now) return;
    for (const EntryId& id : all_[tub].reading->covers) {
      const std::size_t found = contribution_of(id);
      if (found == kNoPlace) continue;
      open_.push_back(found);
      if (all_[found].transfer != nullptr) open_.push_back(found + 1);
    }
  }

  // A transfer's two sides stand side by side.
  std::size_t contribution_of(const EntryId& id) const {
    const std::size_t place = facts_.place_of(id);
    return place == kNoPlace ? kNoPlace : of_entry_[place];
  }

  void adopt(std::size_t tub, std::size_t child, bool looking_back) {
    const bool back = earlier(child, tub);
    looks_ahead_ |= !back;
    if (back != looking_back) return;
    if (!looking_back && is_inside(tub, child)) {
      circles_.emplace_back(tub, child);
      return;
    }
    if (all_[child].parent != kNoPlace) return;
    all_[child].parent = tub;
    all_[tub].inside += all_[child].net.value();
  }

  // A reading counts as inside of itself.
  bool is_inside(std::size_t inner, std::size_t outer) const {
    while (inner != outer && all_[inner].parent != kNoPlace) inner = all_[inner].parent;
    return inner == outer;
  }

  std::vector<Contribution>& all_;
  const std::vector<std::size_t>& of_entry_;
  const Facts& facts_;
  bool looks_ahead_ = false;  // some tub covers what came after it
  std::vector<std::size_t> tubs_, open_, seen_for_;
  std::vector<std::pair<std::size_t, std::size_t>> circles_;
};

// One doubt for each pile, naming every reading of its circles.
void doubt_circles(const PileTable& table,
                   const std::vector<std::pair<std::size_t, std::size_t>>& circles,
                   Figures& figures) {
  std::map<std::size_t, std::set<std::size_t>> by_pile;
  for (const auto& [tub, child] : circles)
    by_pile[table.contributions[tub].pile].insert({tub, child});
  for (const auto& [place, members] : by_pile) {
    const PileFigures& pile = table.piles[place];
    Doubt doubt{Code::doubt_tub_circular, "pile " + pile.key, {}, {pile.name}, {}};
    for (const std::size_t i : members) doubt.entries.push_back(table.contributions[i].entry->id);
    figures.doubts.push_back(std::move(doubt));
  }
}

}  // namespace

void resolve_covers(PileTable& table, const Facts& facts, Figures& figures) {
  Covers covers(table, facts);
  if (covers.tubs().empty()) return;
  covers.resolve();
  doubt_circles(table, covers.circles(), figures);
  std::vector<std::vector<Measured>> inside(table.contributions.size());
  for (const Contribution& c : table.contributions)
    if (c.parent != kNoPlace) inside[c.parent].push_back(c.net);
  for (const std::size_t tub : covers.tubs()) {
    const Contribution& c = table.contributions[tub];
    const Measured gap = sum_of(std::move(inside[tub])) - c.net;
    if (gap.value() <= 2.0 * gap.uncertainty() + Mass::grams(1e-6)) continue;
    const PileFigures& pile = table.piles[c.pile];
    figures.doubts.push_back(
        {Code::doubt_tub_below_readings,
         "pile " + pile.key,
         {c.entry->id},
         {pile.name, c.reading->weight.text, shown_mass(gap.value(), figures.settings)},
         gap.value()});
  }
}

}  // namespace tallyblock
