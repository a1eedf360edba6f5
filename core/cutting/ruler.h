// Lengths as a ruler shows them: whole millimetres, tenths of a centimetre, or inches in sixteenths.
//
// Rounding: to the nearest mark, ties to even; 0 is shown as "0 mm", "0.0 cm" or "0 in". A length that is not
// finite is shown as "?".
#pragma once
#include <string>
#include <string_view>

#include "core/base/units.h"

namespace tallyblock {

struct Settings;  // session.h

// The session's ruler, "mm", "cm" or "in": the one chosen, else as its weights are.
std::string_view ruler_of(const Settings& settings);

// One step of the ruler: 1 mm, or 1/16 in for LengthUnit::inch.
Length ruler_step(LengthUnit ruler);
// The nearest mark.
Length ruler_mark(Length length, LengthUnit ruler);
// "34 mm"; "3.4 cm"; "1 5/16 in" in lowest terms.
std::string ruler_text(Length length, LengthUnit ruler);

}  // namespace tallyblock
