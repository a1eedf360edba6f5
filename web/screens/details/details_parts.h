// Parts of the details screen; only details_screen.cpp uses them.
#pragma once
#include "web/screens/parts.h"

namespace tallyblock {

// A row that unfolds what stands below it, one at a time; true while it is open.
bool unfolded(Ui& ui, const std::string& path, const std::string& panel, const std::string& title,
              ListRowOptions options);
// Add, rename, role, use, by difference, value, break down further.
void piles_part(Ui& ui);
// Named tubs and their tares.
void tubs_part(Ui& ui);

}  // namespace tallyblock
