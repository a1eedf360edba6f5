// Which contribution lies inside which tub total.
#include <algorithm>
#include <cmath>

#include "core/base/sorted.h"
#include "core/session/inside/piles.h"

namespace tallyblock {
namespace {

// A tub total and something it lists.
struct Listed {
  std::size_t tub, what;
};

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
  // What is inside another tub total than the one that lists it too.
  const std::vector<Listed>& listed_twice() const { return twice_; }
  // What lay in the tub when it was read and was moved to another pile afterwards.
  const std::vector<Listed>& carried_off() const { return carried_off_; }

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
        if (c.pile == all_[tub].pile) {
          adopt(tub, at, looking_back);
        } else if (looking_back) {
          note_carried_off(tub, at);
        }
        continue;
      }
      if (seen_for_[at] == all_[tub].pile) {
        if (looking_back) list_again(tub, c);
        continue;
      }
      seen_for_[at] = all_[tub].pile;
      open_.insert(open_.end(), c.corrected_by.begin(), c.corrected_by.end());
      if (c.pile == all_[tub].pile && c.reading != nullptr) push_covered(at);
    }
  }

  void note_carried_off(std::size_t tub, std::size_t what) {
    const std::size_t then = all_[tub].placed_at;
    if (all_[what].placed_at < then && pile_before(all_[what], then) == all_[tub].pile)
      carried_off_.push_back({tub, what});
  }

  // A total has listed it before: what stands in its place is not taken in twice.
  void list_again(std::size_t tub, const Contribution& replaced) {
    for (const std::size_t stands : replaced.corrected_by) {
      if (all_[stands].pile == all_[tub].pile) {
        twice_.push_back({tub, stands});
      } else {
        note_carried_off(tub, stands);
      }
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
    if (all_[child].parent != kNoPlace) {
      twice_.push_back({tub, child});
      return;
    }
    all_[child].parent = tub;
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
  std::vector<Listed> twice_, carried_off_;
};

// What each tub total keeps and holds, from the innermost outwards.
class Totals {
 public:
  Totals(PileTable& table, const Covers& covers, Figures& figures)
      : table_(table), all_(table.contributions), covers_(covers), figures_(figures) {}

  void settle() {
    note_carried_off();
    inside_.resize(all_.size());
    std::vector<std::size_t> waits(all_.size(), 0), ready;
    std::vector<char> is_tub(all_.size(), 0);
    for (const std::size_t tub : covers_.tubs()) is_tub[tub] = 1;
    for (std::size_t i = 0; i < all_.size(); ++i) {
      if (all_[i].parent == kNoPlace) continue;
      if (is_tub[i] != 0) {
        ++waits[all_[i].parent];
      } else {
        inside_[all_[i].parent].push_back(all_[i].keeps);
      }
    }
    for (const std::size_t tub : covers_.tubs())
      if (waits[tub] == 0) ready.push_back(tub);
    for (std::size_t at = 0; at < ready.size(); ++at) {
      settle(ready[at]);
      const std::size_t outer = all_[ready[at]].parent;
      if (outer == kNoPlace) continue;
      inside_[outer].push_back(all_[ready[at]].keeps);
      all_[outer].still += all_[ready[at]].still;
      if (--waits[outer] == 0) ready.push_back(outer);
    }
    for (const std::size_t tub : covers_.tubs())
      if (below_.contains(tub)) doubt_below(tub, below_[tub]);
    doubt_apart();
  }

 private:
  // A total that includes another includes what lay in that one, as long as it lay there: it is taken
  // out of the last that held it.
  void note_carried_off() {
    std::vector<std::size_t> noted_for(all_.size(), kNoPlace);
    for (const auto& [what, tubs] : by_what(covers_.carried_off())) {
      for (const std::size_t tub : tubs) {
        std::size_t last = kNoPlace;
        for (std::size_t at = tub; at != kNoPlace && noted_for[at] != what; at = all_[at].parent) {
          const std::size_t then = all_[at].placed_at;
          if (then < all_[what].placed_at || pile_before(all_[what], then) != all_[at].pile) break;
          noted_for[at] = what;
          last = at;
        }
        if (last != kNoPlace) lay_in_[tub].push_back({what, last});
      }
    }
    // In the order in which they were laid there, however often they were corrected.
    for (auto& [tub, lay] : lay_in_)
      heap_sort(lay, [this](const Lay& a, const Lay& b) {
        return all_[a.what].placed_at < all_[b.what].placed_at;
      });
  }

  static std::map<std::size_t, std::vector<std::size_t>> by_what(const std::vector<Listed>& list) {
    std::map<std::size_t, std::vector<std::size_t>> tubs;
    for (const Listed& listed : list) tubs[listed.what].push_back(listed.tub);
    return tubs;
  }

  // What lay in it counts as lying in it only if the total is large enough for that; else it was
  // listed by mistake. Readings count as independent here.
  void settle(std::size_t tub) {
    Contribution& c = all_[tub];
    const Measured inside = sum_of(std::move(inside_[tub]));
    const Measured gap = inside - c.net;
    Mass over = gap.value(), entered;
    double variance = squared(gap.uncertainty());
    const auto clear = [](Mass value, double its_variance) {
      return value > Mass::grams(2.0 * std::sqrt(its_variance) + 1e-6);
    };
    if (const auto lay = lay_in_.find(tub); lay != lay_in_.end()) {
      for (const auto& [what, last] : lay->second) {
        const Measured& net = all_[what].net;
        if (clear(over + net.value(), variance + squared(net.uncertainty()))) continue;
        over += net.value();
        entered += net.value();
        variance += squared(net.uncertainty());
        leaves_[last].push_back(net);
      }
    }
    if (clear(over, variance)) below_[tub] = over;
    c.inside = inside.value() + entered;
    c.still += entered;
    const auto leaves = leaves_.find(tub);
    if (leaves == leaves_.end()) return;
    const Measured left = sum_of(std::move(leaves->second));
    c.keeps -= left;
    c.still -= left.value();
  }

  static double squared(Mass mass) { return mass.in_grams() * mass.in_grams(); }

  void doubt_below(std::size_t tub, Mass gap) {
    const Contribution& c = all_[tub];
    const PileFigures& pile = table_.piles[c.pile];
    figures_.doubts.push_back({Code::doubt_tub_below_readings,
                               "pile " + pile.key,
                               {c.entry->id},
                               {Arg::name(pile.name), Arg::typed(c.reading->weight.text), gap},
                               gap});
  }

  // The outermost total a contribution is in; remembered for all on the way.
  std::size_t outermost(std::size_t at) {
    std::size_t top = at;
    while (all_[top].parent != kNoPlace && outermost_[top] == kNoPlace) top = all_[top].parent;
    if (outermost_[top] != kNoPlace) top = outermost_[top];
    while (at != top && outermost_[at] == kNoPlace) {
      outermost_[at] = top;
      at = all_[at].parent;
    }
    return top;
  }

  // Two totals side by side, each said to include the same: that is counted twice. One doubt for each
  // total and the first one it meets.
  void doubt_apart() {
    outermost_.assign(all_.size(), kNoPlace);
    std::map<std::size_t, Apart> apart;
    for (const Listed& listed : covers_.listed_twice())
      note_apart(listed.tub, all_[listed.what].parent, listed.what, apart);
    for (const auto& [what, tubs] : by_what(covers_.carried_off()))
      for (const std::size_t tub : tubs) note_apart(tub, tubs.front(), what, apart);
    for (const auto& [tub, found] : apart) {
      const Contribution& c = all_[tub];
      const Contribution& other = all_[found.other];
      const PileFigures& pile = table_.piles[c.pile];
      Mass shared;
      for (const std::size_t what : found.shared) shared += all_[what].net.value();
      figures_.doubts.push_back({Code::doubt_tubs_apart,
                                 "pile " + pile.key,
                                 {other.entry->id, c.entry->id},
                                 {Arg::name(pile.name), Arg::typed(other.reading->weight.text),
                                  Arg::typed(c.reading->weight.text), shared},
                                 shared});
    }
  }

  struct Apart {
    std::size_t other;
    std::set<std::size_t> shared;
  };

  void note_apart(std::size_t tub, std::size_t other, std::size_t what,
                  std::map<std::size_t, Apart>& apart) {
    if (other == kNoPlace || other == tub || all_[other].pile != all_[tub].pile) return;
    if (outermost(tub) == outermost(other)) return;
    Apart& found = apart.try_emplace(tub, Apart{other, {}}).first->second;
    if (found.other == other) found.shared.insert(what);
  }

  PileTable& table_;
  std::vector<Contribution>& all_;
  const Covers& covers_;
  Figures& figures_;
  std::vector<std::vector<Measured>> inside_;  // what each total holds directly
  struct Lay {
    std::size_t what, last;  // the last total that held it
  };
  std::map<std::size_t, std::vector<Lay>> lay_in_;       // by the total that lists it
  std::map<std::size_t, std::vector<Measured>> leaves_;  // by the last total that held it
  std::map<std::size_t, Mass> below_;
  std::vector<std::size_t> outermost_;
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
    Doubt doubt{Code::doubt_tub_circular, "pile " + pile.key, {}, {Arg::name(pile.name)}, {}};
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
  Totals(table, covers, figures).settle();
}

}  // namespace tallyblock
