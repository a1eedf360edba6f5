// The advice a cut followed, as the text its entry keeps (field "plan" of a cut; FORMAT.md).
//
// "k=2; pile=portions; counted=1; other=small; long-piece=left; thickness=42 mm; ..." Read back are these names;
// the rest is for people. Unknown names, wrong values and text of any other form are passed over.
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "core/base/units.h"

namespace tallyblock {

struct CutAdvice {
  int k = 1;                    // portions across, 1 to 4
  std::string pile;             // where they were meant to go; "" unknown
  std::string long_piece = {};  // "" for the piece itself
  std::optional<Length> thickness = {};
  std::optional<Mass> expected = {};  // of one portion; for people, not read back
  std::string other = {};             // where those beyond `counted` were meant to go; "": none
  int counted = 4;
};

CutAdvice advice_from(std::string_view plan);
// The thickness in whole marks of the ruler it was read from.
std::string advice_text(const CutAdvice& advice, LengthUnit ruler);

}  // namespace tallyblock
