// Acts on money and labour besides those of the keypad's fields (work.h).
#pragma once
#include "work.h"

namespace tallyblock {

// Those typed: of all there were before, or on top of them.
Made keep_minutes(Work& w, bool instead);
// The time that the timer has measured.
Made timed(const OpenSession& open, Writing to, std::int64_t ms);

}  // namespace tallyblock
