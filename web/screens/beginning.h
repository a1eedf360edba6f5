// Ways to a piece. Before the first of them the cautions are read, on a sheet of their own.
#pragma once
#include <string>

#include "parts.h"

namespace tallyblock {

// What was asked for is done at once, or after the sheet was read.
void begin_new(Ui& ui);
void begin_sample(Ui& ui);
void begin_again(Ui& ui, const std::string& session);

// The sheet, in place of the list. False: nothing was asked for that waits for it.
bool caution_sheet(Ui& ui);

}  // namespace tallyblock
