// Parts of the list of pieces; only the files of this folder use them.
#pragma once
#include "web/screens/parts.h"

namespace tallyblock {

// There is no piece yet: what this is, and two ways to begin.
void first_run(Ui& ui);
// What must be seen above everything else of the list: a part on its way, what an import does.
void state_of_list(Ui& ui);

}  // namespace tallyblock
