// Drawings whose parts can be touched.
#include <algorithm>
#include <cmath>

#include "build_parts.h"

namespace tallyblock {

std::optional<std::size_t> parts::touched_region(Frame& f, int node, std::uint32_t id,
                                                 std::string_view sentence,
                                                 std::optional<std::size_t> lit) {
  const bool tapped = f.make_target(node, id, true);
  f.describe(node, AccessKind::button, id, sentence);
  if (!tapped) return std::nullopt;
  std::optional<std::size_t> found;
  if (f.tapped_at) {
    float nearest = 1;  // from its middle by half of its width: narrow ones share what is between
    for (const Region& region : f.regions) {
      if (region.id != id || !region.r.contains(f.tapped_at->x, f.tapped_at->y)) continue;
      const float half = region.r.w / 2;
      const float off = std::abs(f.tapped_at->x - (region.r.x + half)) / half;
      if (off <= nearest) found = region.index;
      nearest = std::min(nearest, off);
    }
    return found;
  }
  for (const Region& region : f.regions) {
    const bool after = !lit || region.index > *lit;
    if (region.id == id && after && (!found || region.index < *found)) found = region.index;
  }
  return found ? found : lit;
}

}  // namespace tallyblock
