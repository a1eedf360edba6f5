// The colours, by what they are for, in light and dark.
//
// Texts are at least 7 : 1 against every ground they stand on, shapes and edges at least 3 : 1
// (WCAG 2.2, success criteria 1.4.6 and 1.4.11; measured by tests/kit/palette_test.cpp).
// Light is unbleached paper and ink; dark is a cast-iron pan. The garnet of the primary slab is the
// only loud colour and means "what the piece was bought for".
#pragma once
#include <cstdint>

#include "look.h"

namespace tallyblock {

// 0xAABBGGRR, as Dear ImGui packs it.
using Colour = std::uint32_t;

constexpr Colour rgb(std::uint32_t hex) {
  return 0xFF000000U | ((hex & 0xFFU) << 16U) | (hex & 0xFF00U) | ((hex >> 16U) & 0xFFU);
}
constexpr Colour with_alpha(Colour c, std::uint32_t alpha) {
  return (c & 0x00FFFFFFU) | (alpha << 24U);
}

struct LookColours {
  Colour fill, mark, edge, side;  // side: the thin side face of the block
};

struct Palette {
  // grounds
  Colour page, raised, sunk, pressed, chosen, warn_ground, bad_ground, good_ground, notice;
  // texts, on any of the grounds above except notice
  Colour ink, quiet, disabled, warn, bad, good;
  Colour on_notice;                 // on notice and on primary buttons
  Colour primary, primary_pressed;  // ground of the one next step
  // shapes
  Colour edge, edge_soft, accent, ring;
  LookColours looks[look_count];

  const LookColours& of(Look look) const { return looks[static_cast<int>(look)]; }
};

const Palette& palette(bool dark);

// WCAG 2 contrast of two opaque colours, 1 to 21.
double contrast(Colour a, Colour b);

}  // namespace tallyblock
