// A point as Dear ImGui's draw list takes it.
#pragma once
#include <imgui.h>

#include "texture.h"

namespace tallyblock {

inline ImVec2 vec(Point p) { return {p.x, p.y}; }

}  // namespace tallyblock
