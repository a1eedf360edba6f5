// What things of a session are called, and which pile of its role one is.
#pragma once
#include <string>
#include <string_view>

#include "core/session/session.h"

namespace tallyblock {

// The setting of a session that was invented to try the app with.
inline constexpr std::string_view kSampleSetting = "sample";

// The piece's name, or the stand-in; of the sample with the word that it is invented.
std::string title_of(const Figures& figures);
std::string person_name(const Figures& figures, const EntryId& id);
// How many piles of the same role come before it.
std::uint8_t place_in_role(const Figures& figures, const PileFigures& pile);

}  // namespace tallyblock
