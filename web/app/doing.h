// What is done when it is asked for: one function for each row of TALLYBLOCK_ASKS.
#pragma once
#include <optional>
#include <string>

#include "ask.h"
#include "rooms.h"

namespace tallyblock::doing {

#define TALLYBLOCK_ASK(name) void name(Rooms& r, const Asked& asked);
TALLYBLOCK_ASKS(TALLYBLOCK_ASK)
#undef TALLYBLOCK_ASK

// The name of who is cutting from now on; "" if nobody was named.
std::string cook_named(const Rooms& r);
// A new pile among the entries, weighed into from now on; undoing it chooses the one before again.
std::optional<Act> enter_pile(Rooms& r, const body::Pile& pile);
// Digits into the field they were typed for. True: they became entries or settings.
bool commit_field(Rooms& r);

}  // namespace tallyblock::doing
