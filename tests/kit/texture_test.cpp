// The textures, printed in greyscale: told apart by their marks alone.
#include "web/kit/texture.h"
#include "web/kit/canvas.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "kit_stage.h"

namespace tallyblock::test {
namespace {

constexpr int side = 96;

struct Grey {
  std::array<double, side * side> at{};
  double mean = 0;
};

// A square of one look in black marks on white, so that neither colour nor tone helps.
Grey printed(Look look, std::uint8_t variant) {
  Stage stage;
  stage.size(side, side);
  stage.kit->begin(stage.in);
  const Point square[] = {{0, 0}, {side, 0}, {side, side}, {0, side}};
  const LookColours ink = {rgb(0xFFFFFF), rgb(0x000000), rgb(0x000000), rgb(0x000000)};
  stage.kit->end();
  Canvas canvas;
  canvas.begin(side, side);
  fill_texture(canvas.list(), square, ink, look, variant, 1);
  canvas.end();
  const Pixels pixels = render(canvas.data());
  Grey grey;
  for (std::size_t i = 0; i < grey.at.size(); ++i) {
    grey.at[i] = pixels.rgb[i * 3] / 255.0;
    grey.mean += grey.at[i] / (side * side);
  }
  return grey;
}

// How a pattern repeats in each direction: likeness with itself moved by a few pixels. Two patterns
// with the same numbers look the same however they are placed.
std::array<double, 60> repeats(const Grey& g) {
  std::array<double, 60> out{};
  std::size_t n = 0;
  for (int dy = -2; dy <= 3; ++dy) {
    for (int dx = 0; dx < 10; ++dx, ++n) {
      double sum = 0, count = 0;
      for (int y = 4; y < side - 4; ++y) {
        for (int x = 4; x < side - 14; ++x) {
          const auto here = static_cast<std::size_t>(y * side + x);
          const auto there = static_cast<std::size_t>((y + 1 * dy) * side + x + dx);
          sum += std::abs(g.at[here] - g.at[there]);
          count += 1;
        }
      }
      out[n] = sum / count;
    }
  }
  return out;
}

double difference(const Grey& a, const Grey& b) {
  const auto ra = repeats(a), rb = repeats(b);
  double sum = std::abs(a.mean - b.mean) * 10;
  for (std::size_t i = 0; i < ra.size(); ++i) sum += std::abs(ra[i] - rb[i]);
  return sum;
}

TEST(Texture, EveryLookHasAPatternOfItsOwnInGreyscale) {
  for (int a = 0; a < look_count; ++a) {
    const Grey first = printed(static_cast<Look>(a), 0);
    EXPECT_LT(difference(first, printed(static_cast<Look>(a), 0)), 1e-9);
    for (int b = 0; b < a; ++b) {
      EXPECT_GT(difference(first, printed(static_cast<Look>(b), 0)), 2.0)
          << "looks " << a << " and " << b;
    }
  }
}

TEST(Texture, PilesOfOneKindDifferFromEachOther) {
  for (const Look look : {Look::primary, Look::secondary, Look::usable_trim, Look::unusable_trim}) {
    for (std::uint8_t a = 0; a < 4; ++a) {
      for (std::uint8_t b = 0; b < a; ++b) {
        EXPECT_GT(difference(printed(look, a), printed(look, b)), 0.5)
            << "look " << static_cast<int>(look) << " variants " << int{a} << " and " << int{b};
      }
    }
  }
}

TEST(Texture, NothingIsDrawnOutsideTheShape) {
  for (int look = 0; look < look_count; ++look) {
    Stage stage;
    stage.size(side, side);
    stage.frame([](Kit&) {});
    Canvas canvas;
    canvas.begin(side, side);
    const Point shape[] = {{20, 10}, {70, 20}, {80, 60}, {30, 80}};
    fill_texture(canvas.list(), shape, palette(false).looks[look], static_cast<Look>(look), 0, 1);
    canvas.end();
    for (const ImDrawVert& v : canvas.data()->CmdLists[0]->VtxBuffer) {
      EXPECT_GE(v.pos.x, 18.0F) << look;
      EXPECT_LE(v.pos.x, 82.0F) << look;
      EXPECT_GE(v.pos.y, 8.0F) << look;
      EXPECT_LE(v.pos.y, 82.0F) << look;
    }
  }
}

TEST(Texture, AScreenFullOfItStaysCheap) {
  Stage stage;
  stage.size(1920, 400);
  stage.frame([](Kit&) {});
  Canvas canvas;
  canvas.begin(1920, 400);
  const Point shape[] = {{0, 0}, {1500, 0}, {1500, 330}, {0, 330}};
  fill_texture(canvas.list(), shape, palette(false).of(Look::usable_trim), Look::usable_trim, 0, 2);
  canvas.end();
  EXPECT_LT(canvas.data()->TotalVtxCount, 20000);
}

}  // namespace
}  // namespace tallyblock::test
