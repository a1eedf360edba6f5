// What the acts about where to put the knife take and give.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/entries/entry.h"

namespace tallyblock {

// A station that counts, as entered.
struct StationLine {
  EntryId id;
  std::optional<TypedLength> at;  // absent: the first face
  TypedLength width, depth;
  std::optional<TypedNumber> fill;
  Length place() const { return at ? at->length : Length(); }
};

// The advice the next weighed block follows.
struct Followed {
  std::string pile;   // key, of the portion that is weighed next
  std::string other;  // key, of the portions of the cut beyond `counted`; "": all go to `pile`
  int counted = 4;
  std::string long_piece;  // key; "" the piece itself
  int k = 1;
  Length thickness;            // as the ruler shows it
  Mass target, expected;       // of one portion
  std::optional<EntryId> cut;  // already cut, this only weighs (more of) it
  unsigned missing = 1;        // portions of it for this pile not weighed yet
  double log_sd = 0.0;         // of the weight expected; 0: nothing is expected
};

// A block's weight that is too far from what was expected: asked about, not believed.
struct AskedWeight {
  std::string digits;              // as typed
  std::vector<std::string> meant;  // what else they may have been, the likeliest first
  Mass expected;                   // of all that was weighed together
};

}  // namespace tallyblock
