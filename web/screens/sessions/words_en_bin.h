// The bin.
#pragma once
#include "web/words/table.h"

namespace tallyblock {

inline constexpr Word kBinWords[] = {
    {"bin.title", "Bin"},
    {"bin.what", "Deleted pieces wait here until they are taken back or erased."},
    {"bin.empty", "The bin is empty."},
    {"bin.how", "Tap a piece to erase it for good."},
    {"bin.take-back", "Take back"},
    {"bin.erase", "Erase"},
};

}  // namespace tallyblock
