// What lies on each pile: readings in their habits, moves, transfers, tub totals.
//
// Internal to the session figures. A contribution is a reading, or one side of a transfer. A tub
// total ("tub now weighs") stands for everything in its pile that it covers, directly or through
// readings that are void or replaced; a covered contribution counts only inside its tub. Of several
// tub readings covering the same, the earliest is its parent, and it is a doubt if none of them covers
// the other; a circle is cut where a reading covers one later in order, and is a doubt. `covers` may also
// name transfers. A covered reading that was moved to another pile after the tub was read is taken out
// of its total, unless the total is too small to have held it.
#pragma once
#include <map>
#include <string>
#include <vector>

#include "core/session/facts.h"

namespace tallyblock {

// From this place in the order on something lies on that pile.
struct Placing {
  std::size_t at = 0, pile = kNoPlace;
};

struct Contribution {
  const Entry* entry = nullptr;
  const Entry* placed = nullptr;  // the entry, or the earliest it corrects: its place in time
  std::size_t placed_at = 0;      // its place in the order
  const body::Reading* reading = nullptr;  // null for a side of a transfer
  const body::Transfer* transfer = nullptr;
  std::size_t pile = kNoPlace;    // after moves
  std::size_t parent = kNoPlace;  // the tub reading this is inside of
  bool counts = false;            // live and not outvoted
  bool moved = false;
  bool tared = false;
  bool across = false;    // side of a transfer between piles of different steps
  bool outgoing = false;  // the giving side
  Measured net;           // after tare and sign; outgoing negative
  Measured keeps;  // net, less what was carried off after this total and before the next around it
  Mass still;      // of what lay in it: what was carried off only after the next total around it
  Mass inside;     // what the readings directly inside keep, and what was carried off since
  std::vector<Placing> was_on;            // in order, of a reading that did not stay on one pile
  std::vector<std::size_t> corrected_by;  // live readings that correct this one
};

struct PileTable {
  std::vector<PileFigures> piles;                         // in order of first definition
  std::map<std::string, std::size_t, std::less<>> place;  // key -> index
  std::vector<Contribution> contributions;                // in order of entry
  std::vector<std::size_t> of_entry;  // first contribution, by place in Facts::in_order()
  std::vector<std::vector<std::size_t>> of_pile;  // contributions per pile
  std::vector<Measured> carried_out;              // per pile, to piles of other steps
  std::size_t find(std::string_view key) const {
    const auto found = place.find(key);
    return found == place.end() ? kNoPlace : found->second;
  }
};

// The pile on which a contribution lay before that place in the order; of one that came later, its first.
std::size_t pile_before(const Contribution& c, std::size_t place);

// Sums pairwise, so that adding n readings costs n log n.
Measured sum_of(std::vector<Measured> parts);

PileTable weigh_piles(const Facts& facts, Figures& figures);

// Fills parents and `inside` (cover.cpp).
void resolve_covers(PileTable& table, const Facts& facts, Figures& figures);

}  // namespace tallyblock
