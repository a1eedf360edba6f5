// Doubts about a session in words.
#pragma once
#include <string>

#include "show.h"

namespace tallyblock {

std::string doubt_words(const Figures& figures, const show::Style& style, const Doubt& doubt);

}  // namespace tallyblock
