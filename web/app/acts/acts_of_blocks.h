// Acts on weighed blocks; the weight itself is a typed act (work.h), which follows what the guide says.
#pragma once
#include <string>

#include "web/app/desk/writing.h"
#include "web/app/shelf/cards.h"

namespace tallyblock {

// The block as it is now, and what came off it, in one act: what the cut gave stays known, to the digit
// that weights are shown with. Into the pile.
Made trim_block(const OpenSession& open, Writing to, const EntryId& block, Mass target,
                const std::string& pile, const AppSettings& settings);
// What the cuts of that person alone have shown, to be known in later sessions; none of the invented sample.
std::optional<CookRecord> learned(const OpenSession& open, const CookRecord& shown,
                                  const EntryId& person);

}  // namespace tallyblock
