// Weights of portions against their target, drawn: each a mark on one line, the tolerance a band.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "kit.h"

namespace tallyblock {

struct SpreadDrawing {
  float target = 0, tolerance = 0;  // any one unit
  std::vector<float> values;
  std::string low_label, target_label, high_label;  // at the ends of the band and at the target
  std::string name;                                 // said for who does not see it
};

// Values that are not finite are left out. Those far outside are drawn at the edge.
void spread_strip(Kit& kit, std::string_view path, const SpreadDrawing& spread);

}  // namespace tallyblock
