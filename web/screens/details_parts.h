// Parts of the details screen; only details_screen.cpp uses them.
#pragma once
#include "parts.h"

namespace tallyblock {

void piles_part(
    Ui& ui);             // add, rename, role, use, by difference, value, target, break down further
void tubs_part(Ui& ui);  // named tubs and their tares

}  // namespace tallyblock
