// How a pile looks wherever it is shown: its texture and tone, by what it is worth.
// Persistent nowhere; the order is the order of worth.
#pragma once
#include <cstdint>

namespace tallyblock {

enum class Look : std::uint8_t {
  primary,        // what the piece was bought for: solid with fine lines along the cut
  secondary,      // other saleable: slanted lines
  usable_trim,    // dots
  unusable_trim,  // cross-hatch
  loss,           // loss in cutting, purge, packaging: waves
  unweighed,      // not weighed yet: empty outline
};
inline constexpr int look_count = 6;

}  // namespace tallyblock
