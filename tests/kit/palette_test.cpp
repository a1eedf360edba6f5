// Contrast of every pair of colours that meets on a screen, by the formula of WCAG 2.2 (definition of
// "contrast ratio" and "relative luminance").
#include "web/kit/palette.h"

#include <gtest/gtest.h>

#include <array>
#include <string>
#include <utility>
#include <vector>

namespace tallyblock {
namespace {

using Named = std::pair<std::string, Colour>;

std::vector<Named> grounds(const Palette& p) {
  return {{"page", p.page},
          {"raised", p.raised},
          {"sunk", p.sunk},
          {"pressed", p.pressed},
          {"chosen", p.chosen},
          {"warn ground", p.warn_ground},
          {"bad ground", p.bad_ground},
          {"good ground", p.good_ground}};
}

TEST(Palette, ContrastOfBlackAndWhiteIsTwentyOneAsWcagDefines) {
  // WCAG 2.2, "contrast ratio": ratios range from 1 to 21.
  EXPECT_NEAR(contrast(rgb(0x000000), rgb(0xFFFFFF)), 21.0, 1e-9);
  EXPECT_NEAR(contrast(rgb(0x777777), rgb(0x777777)), 1.0, 1e-9);
  // A grey often quoted as the lightest that reaches 4.5 on white; value from memory.
  EXPECT_GT(contrast(rgb(0x767676), rgb(0xFFFFFF)), 4.5);
  EXPECT_LT(contrast(rgb(0x777777), rgb(0xFFFFFF)), 4.5);
}

TEST(Palette, TextIsSevenToOneOnEveryGroundInBothThemes) {
  for (const bool dark : {false, true}) {
    const Palette& p = palette(dark);
    const std::array<Named, 5> texts = {
        {{"ink", p.ink}, {"quiet", p.quiet}, {"warn", p.warn}, {"bad", p.bad}, {"good", p.good}}};
    for (const Named& ground : grounds(p)) {
      for (const Named& text : texts) {
        EXPECT_GE(contrast(text.second, ground.second), 7.0)
            << text.first << " on " << ground.first << (dark ? ", dark" : ", light");
      }
    }
    for (const Colour ground : {p.notice, p.primary, p.primary_pressed}) {
      EXPECT_GE(contrast(p.on_notice, ground), 7.0) << dark;
    }
  }
}

TEST(Palette, DisabledTextIsStillThreeToOne) {
  for (const bool dark : {false, true}) {
    for (const Colour ground : {palette(dark).page, palette(dark).raised}) {
      EXPECT_GE(contrast(palette(dark).disabled, ground), 3.0) << dark;
    }
  }
}

TEST(Palette, EdgesRingAndMarksAreThreeToOneOnTheGroundsTheyStandOn) {
  for (const bool dark : {false, true}) {
    const Palette& p = palette(dark);
    for (const Named& shape : {Named{"edge", p.edge}, {"accent", p.accent}, {"ring", p.ring}}) {
      for (const Named& ground : {Named{"page", p.page}, {"raised", p.raised}, {"sunk", p.sunk}}) {
        EXPECT_GE(contrast(shape.second, ground.second), 3.0)
            << shape.first << " on " << ground.first << (dark ? ", dark" : ", light");
      }
    }
    EXPECT_GE(contrast(p.accent, p.chosen), 3.0) << dark;
    EXPECT_GE(contrast(p.primary, p.page), 3.0) << dark;
    EXPECT_GE(contrast(p.bad, p.bad_ground), 3.0) << dark;
  }
}

TEST(Palette, EveryTextureShowsOnItsSlabAndEverySlabOnThePage) {
  for (const bool dark : {false, true}) {
    const Palette& p = palette(dark);
    for (int i = 0; i < look_count; ++i) {
      const LookColours& c = p.looks[i];
      EXPECT_GE(contrast(c.mark, c.fill), 3.0) << "mark of look " << i << " dark " << dark;
      EXPECT_GE(std::max(contrast(c.edge, p.page), contrast(c.fill, p.page)), 3.0)
          << "slab of look " << i << " dark " << dark;
      EXPECT_GE(std::max(contrast(c.edge, p.raised), contrast(c.fill, p.raised)), 3.0)
          << "swatch of look " << i << " dark " << dark;
    }
  }
}

// The tags on the slabs carry the page's texts on the raised ground; next to them the slab must show.
TEST(Palette, StrongestSlabIsThePrimaryOneInBothThemes) {
  for (const bool dark : {false, true}) {
    const Palette& p = palette(dark);
    const double primary = contrast(p.of(Look::primary).fill, p.page);
    for (const Look other : {Look::usable_trim, Look::unusable_trim, Look::loss, Look::unweighed}) {
      EXPECT_GT(primary, contrast(p.of(other).fill, p.page)) << dark;
    }
  }
}

}  // namespace
}  // namespace tallyblock
