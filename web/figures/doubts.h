// Doubts about a session, in words and otherwise.
#pragma once
#include <optional>
#include <string>

#include "show.h"

namespace tallyblock {

// What is missing of the piece where it is so much that the work goes on.
std::optional<Mass> not_all_weighed(const Figures& figures);

std::string doubt_words(const Figures& figures, const show::Style& style, const Doubt& doubt);

}  // namespace tallyblock
