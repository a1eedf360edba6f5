// Doubts about a session, in words and otherwise.
#pragma once
#include <optional>
#include <string>

#include "show.h"

namespace tallyblock {

inline constexpr std::string_view kAllWeighed =
    "all-weighed";  // a setting of a session: "yes" or "no"

// What of the piece lies on no pile yet: what would be lost in cutting if work stopped now; negative: more lies
// on the piles than there was. Absent while that is not known, and where a pile is what is left.
std::optional<Mass> left_to_weigh(const Figures& figures);
bool is_said_all_weighed(const Figures& figures);  // by the setting `all-weighed`
// Somebody said so (the setting `all-weighed`), or something was weighed and no more is left than the limit for
// the loss allows.
bool all_is_weighed(const Figures& figures);
// What is left while not all is weighed.
std::optional<Mass> not_all_weighed(const Figures& figures);

std::string doubt_words(const Figures& figures, const show::Style& style, const Doubt& doubt);

}  // namespace tallyblock
