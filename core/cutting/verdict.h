// What to do with a block once it is weighed.
//
// Within tolerance it is a portion of its spec. Else it may be one of another spec still wanted.
// Else, above the upper limit, it is trimmed to its target; below the lower limit it is a short and
// goes to a lesser pile.
#pragma once
#include <cstddef>
#include <vector>

#include "plan.h"

namespace tallyblock {

enum class Fate { keep, other_spec, trim, lesser_pile };

struct Verdict {
  Fate fate = Fate::keep;
  std::size_t spec = 0;  // the spec it counts for: the one asked, or the other
  Mass off;              // weight - target of that spec
  Mass trim;             // Fate::trim: how much to take off to reach the target
  Length
      trim_thickness;  // the same as thickness, where the face weighs `grams_per_mm`; 0 if unknown
};

// `weight` is that of one portion; `left` how many of each spec are still wanted (empty: any).
// Limits count as within, with 1e-9 g of room.
Verdict judge_block(const std::vector<PortionSpec>& specs, std::size_t asked, Mass weight,
                    const std::vector<unsigned>& left, double grams_per_mm);

}  // namespace tallyblock
