// Portions against their target, drawn.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "kit_stage.h"
#include "web/kit/spread.h"

namespace tallyblock::test {
namespace {

class SpreadStrip : public ::testing::Test {
 protected:
  // How many vertices the strip takes, and whether all are finite and inside the screen.
  std::size_t draw(std::vector<float> values, float tolerance = 14) {
    EXPECT_TRUE(stage.has_font) << "the font of the tests is missing: install fonts-inter";
    stage.size(360, 640, 2);
    SpreadDrawing spread{180,     tolerance, std::move(values), "166 g",
                         "180 g", "194 g",   "8 portions"};
    stage.frame([&](Kit& kit) { spread_strip(kit, "strip", spread); });
    std::size_t count = 0;
    for (const ImDrawList* list : stage.kit->drawn()->CmdLists) {
      for (const ImDrawVert& v : list->VtxBuffer) {
        EXPECT_TRUE(std::isfinite(v.pos.x) && std::isfinite(v.pos.y));
        EXPECT_GE(v.pos.x, -1.0F);
        EXPECT_LE(v.pos.x, 721.0F);
        ++count;
      }
    }
    return count;
  }
  Stage stage;
};

TEST_F(SpreadStrip, HasAMarkForEachPortion) {
  const std::size_t none = draw({}), one = draw({180}), two = draw({171, 186});
  EXPECT_GT(one, none);
  EXPECT_EQ(two - none, 2 * (one - none));
}

TEST_F(SpreadStrip, ShowsAPortionOutOfToleranceAsAnotherShape) {
  const std::size_t none = draw({});
  EXPECT_NE(draw({150}) - none, draw({180}) - none);
  EXPECT_EQ(draw({194}) - none, draw({180}) - none);  // the limit is within
}

TEST_F(SpreadStrip, DrawsFarAndSenselessWeightsInsideOrNotAtAll) {
  const float inf = std::numeric_limits<float>::infinity();
  const std::size_t none = draw({});
  EXPECT_EQ(draw({inf, -inf, std::nanf("")}), none);
  EXPECT_GT(draw({5000, 0}), none);
  draw({180}, 0);
  draw({180}, std::nanf(""));
}

}  // namespace
}  // namespace tallyblock::test
