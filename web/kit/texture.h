// The textures of the piles: few lines each, cut exactly to a convex shape.
//
// Told apart without colour: lines along the cut, slanted lines, dots, cross-hatch, waves, empty.
#pragma once
#include <span>

#include "frame.h"

namespace tallyblock {

struct Point {
  float x = 0, y = 0;
};

// Fills a convex polygon (any turn) with a look. scale: physical px per texture unit (px(1)).
// fine: for small swatches, closer marks. Nothing is drawn outside the polygon.
void fill_texture(ImDrawList* draw, std::span<const Point> shape, const LookColours& colours,
                  Look look, std::uint8_t variant, float scale, bool fine = false);

// The polygon's outline, inside and outside by half the width.
void outline(ImDrawList* draw, std::span<const Point> shape, Colour colour, float width);
void dashed_outline(ImDrawList* draw, std::span<const Point> shape, Colour colour, float width,
                    float dash);

}  // namespace tallyblock
