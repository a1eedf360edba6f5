// How many pieces lay on the scale; the readings themselves are typed acts (work.h).
#pragma once
#include "core/base/units.h"

namespace tallyblock {

// How many pieces a weight is like, if one weighs `one`; 1 where it is like one or cannot be told. Nobody cuts
// three quarters beside the target.
unsigned like_several(Mass weight, Mass one);

}  // namespace tallyblock
