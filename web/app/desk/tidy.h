// Names and notes as a person leaves them.
#pragma once
#include <string>
#include <string_view>

#include "core/session/session.h"

namespace tallyblock {

// No control characters (line ends only with `lines`), no blanks at the ends, one blank between words.
std::string tidied(std::string_view text, bool lines = false);
// What the figures say in names and notes, tidied: entries stay as they came, with a file too.
void tidy_names(Figures& figures);

}  // namespace tallyblock
