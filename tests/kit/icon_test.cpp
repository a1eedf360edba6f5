// The icon: the block of the piece picture with its round end, three slabs and what is not weighed yet.
//
// With TALLYBLOCK_PICTURES set to a folder it is written there as icon.png, for shell/tools/icons.py, and its
// outlines as icon.svg.
#include <gtest/gtest.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>

#include "kit_stage.h"
#include "web/kit/piece_block.h"

namespace tallyblock::test {
namespace {

constexpr float kSide = 128;  // of the icon, in its own units
constexpr float kLeft = 14, kTop = 30;

Piece icon_piece() {
  Piece piece;
  piece.value = 100;
  piece.slabs = {{"Portions", "", "", 46, Look::primary, 0},
                 {"Tail", "", "", 17, Look::secondary, 0},
                 {"Trim", "", "", 17, Look::usable_trim, 0}};
  return piece;
}

class Icon final : public Painter {
 public:
  float height(Frame& f, float) override { return f.px(kSide); }
  void paint(Frame& f, const Rect&) override {
    f.draw()->AddRectFilled({0, 0}, {f.px(kSide), f.px(kSide)}, f.colours().page);
    PieceBlock block(f, icon_piece(), 1);
    block.plan(f, f.px(100), f.px(68), LabelSide::below, false, false);
    block.paint(f, f.px(kLeft), f.px(kTop));
    for (std::size_t i = 0; i < block.size(); ++i) {
      areas.push_back(area_of(block.slab(i)));
      outlines += path_of(f, block, i);
    }
  }
  static inline std::vector<double> areas;
  static inline std::string outlines;

 private:
  static std::string colour_of(Colour colour) {
    char text[8];
    std::snprintf(text, sizeof text, "#%02x%02x%02x", colour & 255U, colour >> 8U & 255U,
                  colour >> 16U & 255U);
    return text;
  }
  // Without its texture, for the page's first moment.
  static std::string path_of(const Frame& f, const PieceBlock& block, std::size_t i) {
    std::string d;
    for (const Point p : block.slab(i)) {
      char at[32];
      std::snprintf(at, sizeof at, "%s%.1f %.1f", d.empty() ? "M" : " ",
                    (p.x / f.px(1) + kLeft) / 2, (p.y / f.px(1) + kTop) / 2);
      d += at;
    }
    const LookColours& c = f.colours().of(block.label(i).look);
    const bool is_rest = block.label(i).look == Look::unweighed;
    const std::string paint =
        is_rest ? "none\" stroke=\"" + colour_of(c.edge) + "\" stroke-dasharray=\"3 2"
                : colour_of(c.fill);
    return "<path d=\"" + d + "Z\" fill=\"" + paint + "\"/>\n";
  }
};

TEST(Icon, IsCutFromTheBlock) {
  Stage stage;
  stage.size(kSide, kSide, 8);
  Icon::areas.clear();
  Icon::outlines.clear();
  stage.frame([](Kit& kit) { kit.frame().add_painter(std::make_unique<Icon>()); });
  ASSERT_EQ(Icon::areas.size(), 4U);
  double all = 0;
  for (const double area : Icon::areas) all += area;
  EXPECT_NEAR(Icon::areas[0] / all, 0.46, 0.005);
  EXPECT_NEAR(Icon::areas[1] / all, 0.17, 0.005);
  EXPECT_NEAR(Icon::areas[3] / all, 0.20, 0.005);
  const Pixels pixels = render(stage.kit->drawn());
  EXPECT_EQ(pixels.width, 1024);
  if (const char* folder = std::getenv("TALLYBLOCK_PICTURES"); folder != nullptr) {
    EXPECT_TRUE(write_png(std::string(folder) + "/icon.png", pixels));
    std::ofstream(std::string(folder) + "/icon.svg")
        << R"(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 64 64">)" << "\n"
        << Icon::outlines << "</svg>\n";
  }
}

}  // namespace
}  // namespace tallyblock::test
