// The cleaned piece to scale, as drawn: handles, room, states, names.
//
// With TALLYBLOCK_PICTURES set to a folder, the drawings are written there as PNG files.
#include <gtest/gtest.h>

#include <set>

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "cut_demo.h"
#include "kit_stage.h"

namespace tallyblock::test {
namespace {

struct View {
  float w, h, ratio, text;
};
constexpr View views[] = {{360, 640, 2, 1},  {360, 640, 2, 2},    {360, 640, 2.625F, 1.3F},
                          {640, 360, 2, 1},  {640, 360, 1.5F, 2}, {1024, 768, 1, 1},
                          {1920, 1080, 1, 1}};

const CutDrawingOptions with_handles = {.handles = true, .small = false};

template <class Check>
void for_handles(Check check) {
  for (const View& v : views) {
    for (const int n : {1, 2, 3, 6, 9}) {
      for (const bool detailed : {false, true}) {
        SCOPED_TRACE(std::to_string(n) + " stations at " + std::to_string(v.w) + ", text " +
                     std::to_string(v.text) + (detailed ? ", with measures" : ""));
        CutDrawing d = loin(n);
        for (CutStation& s : d.stations) s.detail = detailed ? "130 × 80" : "";
        d.chosen = n / 2;
        Stage stage;
        stage.size(v.w, v.h, v.ratio, v.text);
        check(stage, d);
      }
    }
  }
}

TEST(CutHandles, AreFortyEightPixelsEachWayEightApartAndAllAlike) {
  for_handles([](Stage& stage, const CutDrawing& d) {
    stage.frame([&](Kit& kit) { cut_drawing(kit, "cut", d, with_handles); });
    const std::vector<Target>& t = stage.kit->frame().targets;
    const float ratio = stage.in.ratio;
    ASSERT_EQ(t.size(), d.stations.size());
    for (std::size_t i = 0; i < t.size(); ++i) {
      EXPECT_GE(t[i].r.w / ratio, 47.9F);
      EXPECT_GE(t[i].r.h / ratio, 47.9F);
      EXPECT_NEAR(t[i].r.w, t[0].r.w, 0.5F);
      EXPECT_NEAR(t[i].r.h, t[0].r.h, 0.5F);
      EXPECT_GE(t[i].r.x, 0);
      EXPECT_LE(t[i].r.right(), stage.in.width);
      for (std::size_t k = 0; k < i; ++k) {
        const float dx = std::max(t[i].r.x - t[k].r.right(), t[k].r.x - t[i].r.right());
        const float dy = std::max(t[i].r.y - t[k].r.bottom(), t[k].r.y - t[i].r.bottom());
        EXPECT_GE(std::max(dx, dy) / ratio, 7.6F) << i << " and " << k;
      }
    }
  });
}

TEST(CutHandles, FiveStandInOneRowOnAPhoneAndSixInTwo) {
  for (const int n : {5, 6}) {
    Stage stage;
    stage.size(360, 640, 2);
    stage.frame([&](Kit& kit) { cut_drawing(kit, "cut", loin(n), with_handles); });
    const std::vector<Target>& t = stage.kit->frame().targets;
    ASSERT_EQ(t.size(), static_cast<std::size_t>(n));
    std::set<float> rows;
    for (const Target& each : t) rows.insert(each.r.y);
    EXPECT_EQ(rows.size(), n == 5 ? 1U : 2U) << n;
  }
}

TEST(CutHandles, ATapOnEachSaysWhichStationItIs) {
  for (const int n : {2, 3, 6, 9}) {
    for (int i = 0; i < n; ++i) {
      Stage stage;
      stage.size(360, 640, 2);
      int tapped = -1;
      const Stage::Screen screen = [&](Kit& kit) {
        const int now = cut_drawing(kit, "cut", loin(n), with_handles);
        if (now >= 0) tapped = now;
      };
      const AccessList list = stage.frame(screen);
      const AccessNode* handle = Stage::find(list, "cut/" + std::to_string(i));
      ASSERT_NE(handle, nullptr);
      stage.tap(*handle);
      stage.settle(screen);
      EXPECT_EQ(tapped, i) << "of " << n;
    }
  }
}

TEST(CutHandles, AreNamedAndSayWhichIsChosenAndThePictureIsAnImage) {
  Stage stage;
  stage.size(360, 640);
  CutDrawing d = loin();
  d.chosen = 1;
  const AccessList list = stage.frame([&](Kit& kit) {
    cut_drawing(kit, "cut", d, with_handles);
    cut_face(kit, "face", oval_in_thirds());
  });
  ASSERT_NE(Stage::find(list, "cut"), nullptr);
  EXPECT_EQ(Stage::find(list, "cut")->kind, AccessKind::image);
  EXPECT_EQ(Stage::find(list, "cut")->label, "The piece from above, 600 mm long.");
  EXPECT_EQ(Stage::find(list, "face")->kind, AccessKind::image);
  EXPECT_EQ(Stage::find(list, "face")->label, "From the end.");
  for (int i = 0; i < 3; ++i) {
    const AccessNode* n = Stage::find(list, "cut/" + std::to_string(i));
    ASSERT_NE(n, nullptr);
    EXPECT_EQ(n->kind, AccessKind::button);
    EXPECT_EQ(n->label, d.stations[static_cast<std::size_t>(i)].name);
    EXPECT_EQ(n->pressed, i == 1 ? 1 : 0);
  }
}

// The screen's pixels that are not those of an empty page, outside the rectangles of the widget.
int pixels_outside(Stage& stage, const Stage::Screen& screen, const std::vector<Rect>& inside) {
  stage.frame(screen);
  const Pixels drawn = render(stage.kit->drawn());
  int outside = 0;
  for (int y = 0; y < drawn.height; ++y) {
    for (int x = 0; x < drawn.width; ++x) {
      const auto* p = &drawn.rgb[static_cast<std::size_t>(y * drawn.width + x) * 3];
      const Colour here = 0xFF000000U | (static_cast<Colour>(p[2]) << 16U) |
                          (static_cast<Colour>(p[1]) << 8U) | p[0];
      if (here == stage.kit->frame().colours().page) continue;
      const bool in = std::any_of(inside.begin(), inside.end(), [&](const Rect& r) {
        return r.contains(static_cast<float>(x) + 0.5F, static_cast<float>(y) + 0.5F);
      });
      outside += in ? 0 : 1;
    }
  }
  return outside;
}

Rect rect_of(const AccessList& list, std::string_view path) {
  const AccessNode* n = Stage::find(list, path);
  return n == nullptr ? Rect{} : Rect{n->x, n->y, n->w, n->h};
}

TEST(CutDrawing, NothingIsDrawnOutsideItsRectangle) {
  CutDrawing crowded = planned(60);
  crowded.chosen = 0;
  CutDrawing stout = guided(0);
  for (CutStation& s : stout.stations) s.width *= 4;
  CutDrawing last = guided(14), bad = guided();
  bad.stations[1].at = nan;
  for (const View& v : {views[0], views[1], views[3], views[4]}) {
    for (const CutDrawing& d :
         {loin(), planned(), guided(), guided(0), last, crowded, stout, bad}) {
      Stage stage;
      stage.size(v.w, v.h, v.ratio, v.text);
      const Stage::Screen screen = [&](Kit& kit) {
        kit.space(3);
        cut_drawing(kit, "cut", d);
      };
      const AccessList list = stage.frame(screen);
      EXPECT_EQ(pixels_outside(stage, screen, {rect_of(list, "cut")}), 0)
          << v.w << " text " << v.text << " blocks " << d.blocks.size();
    }
  }
}

TEST(CutFace, NothingIsDrawnOutsideItsRectangle) {
  CutFaceShape flat = oval_in_thirds(), high = oval_in_thirds();
  flat.depth = 8;
  high.depth = 700;
  high.exponent = 0;
  for (const View& v : {views[0], views[1], views[3], views[4]}) {
    for (const CutFaceShape& face : {oval_in_thirds(), flat, high}) {
      Stage stage;
      stage.size(v.w, v.h, v.ratio, v.text);
      const Stage::Screen screen = [&](Kit& kit) {
        kit.space(3);
        cut_face(kit, "face", face);
      };
      const AccessList list = stage.frame(screen);
      EXPECT_EQ(pixels_outside(stage, screen, {rect_of(list, "face")}), 0)
          << v.w << " text " << v.text << " depth " << face.depth;
    }
  }
}

TEST(CutDrawing, LeadersStayBetweenThePictureAndTheHandles) {
  for (const int n : {2, 6, 9}) {
    for (const float text : {1.0F, 2.0F}) {
      Stage stage;
      stage.size(360, 900, 2, text);  // the page does not scroll
      CutDrawing d = loin(n);
      d.chosen = n - 1;
      const Stage::Screen screen = [&](Kit& kit) {
        kit.space(3);
        cut_drawing(kit, "cut", d, with_handles);
      };
      const AccessList list = stage.frame(screen);
      Rect all = rect_of(list, "cut");
      for (int i = 0; i < n; ++i)
        all.h = std::max(all.h, rect_of(list, "cut/" + std::to_string(i)).bottom() - all.y);
      EXPECT_EQ(pixels_outside(stage, screen, {all}), 0) << n << " stations, text " << text;
    }
  }
}

TEST(CutDrawing, NumbersThatAreNoneReachNoVertex) {
  CutDrawing broken = guided();
  broken.blocks[3].to = infinite;
  broken.blocks[7].from = nan;
  broken.blocks[8].to = 1;
  broken.trim_front = nan;
  broken.cut_to = infinite;
  broken.tick = nan;
  broken.marks.resize(30, "600 mm");
  broken.sections = {{nan, 5, {nan}}};
  broken.chosen = 99;
  for (const float width : {130.0F, nan, 1e30F, -1.0F, 1e-30F}) {
    broken.stations[1].width = width;
    Stage stage;
    stage.size(360, 640);
    stage.frame([&](Kit& kit) { cut_drawing(kit, "cut", broken, with_handles); });
    int vertices = 0;
    for (const ImDrawList* list : stage.kit->drawn()->CmdLists) {
      for (const ImDrawVert& v : list->VtxBuffer) {
        EXPECT_TRUE(std::isfinite(v.pos.x) && std::isfinite(v.pos.y));
        ++vertices;
      }
    }
    EXPECT_GT(vertices, 50) << "the handles at least";
  }
}

TEST(CutDrawing, WhatIsNoPieceTakesNoHeightAndItsHandlesStayInReach) {
  CutDrawing bad = guided();
  bad.stations[0].width = nan;
  Stage stage;
  stage.size(360, 640);
  const AccessList list =
      stage.frame([&](Kit& kit) { cut_drawing(kit, "cut", bad, with_handles); });
  EXPECT_EQ(rect_of(list, "cut").h, 0);
  EXPECT_GE(rect_of(list, "cut/0").h, 47.9F);
}

// The piece is no higher than its share of the screen, whatever its shape.
TEST(CutDrawing, AStoutPieceIsMadeSmallerBothWays) {
  CutDrawing d = loin();
  for (CutStation& s : d.stations) s.width = 600;
  for (const bool small : {false, true}) {
    Stage stage;
    stage.size(640, 360);
    const AccessList list = stage.frame(
        [&](Kit& kit) { cut_drawing(kit, "cut", d, {.handles = false, .small = small}); });
    EXPECT_LE(rect_of(list, "cut").h, (small ? 0.22F : 0.4F) * 360 + 32);
    EXPECT_GE(rect_of(list, "cut").h, (small ? 0.22F : 0.4F) * 360);
  }
}

// States are told apart by more than colour: in grey, each differs from every other in many pixels.
TEST(CutDrawing, StatesDifferInGrey) {
  const auto grey = [](CutState state) {
    Stage stage;
    stage.size(360, 640);
    CutDrawing d = loin();
    d.blocks = {{0, 200, 1, "", CutState::cut},
                {200, 400, 1, "8", state},
                {400, 600, 1, "", CutState::planned}};
    stage.frame([&](Kit& kit) { cut_drawing(kit, "cut", d); });
    const Pixels p = render(stage.kit->drawn());
    std::vector<int> out;
    for (int y = 14; y < 90; ++y) {
      for (int x = 125; x < 235; ++x) {
        const auto* c = &p.rgb[static_cast<std::size_t>(y * p.width + x) * 3];
        out.push_back((c[0] * 30 + c[1] * 59 + c[2] * 11) / 100);
      }
    }
    return out;
  };
  const CutState states[] = {CutState::planned,  CutState::next, CutState::cut,
                             CutState::short_,   CutState::over, CutState::unweighed,
                             CutState::taken_out};
  for (const CutState a : states) {
    for (const CutState b : states) {
      if (a >= b) continue;
      const std::vector<int> one = grey(a), other = grey(b);
      int differ = 0;
      for (std::size_t i = 0; i < one.size(); ++i) differ += std::abs(one[i] - other[i]) > 40;
      EXPECT_GE(differ, 30) << static_cast<int>(a) << " and " << static_cast<int>(b);
    }
  }
}

TEST(CutDrawing, IsDrawn) {
  const char* folder = std::getenv("TALLYBLOCK_PICTURES");
  for (const View& v : views) {
    for (const bool dark : {false, true}) {
      Stage stage;
      stage.size(v.w, v.h, v.ratio, v.text);
      stage.in.dark = dark;
      CutDrawing measuring = loin(3), many = loin(9);
      measuring.chosen = 1;
      measuring.stations[2].width = 0;
      for (CutStation& s : measuring.stations) s.detail = s.width > 0 ? "130 × 80" : "not yet";
      many.chosen = 6;
      int screen = 0;
      for (const Stage::Screen& draw :
           {Stage::Screen([&](Kit& kit) {
              auto body = kit.scroll("body");
              cut_drawing(kit, "a", measuring, with_handles);
              cut_drawing(kit, "b", loin(6), with_handles);
              cut_drawing(kit, "c", many, with_handles);
            }),
            Stage::Screen([&](Kit& kit) {
              auto body = kit.scroll("body");
              cut_drawing(kit, "a", planned());
              cut_face(kit, "f", oval_in_thirds(), true);
              cut_drawing(kit, "b", guided(5), {.handles = false, .small = true});
              cut_drawing(kit, "c", guided(12), {.handles = false, .small = true});
              cut_drawing(kit, "d", planned(40));
            })}) {
        stage.frame(draw);
        stage.frame(draw);
        EXPECT_FALSE(stage.kit->frame().painters.empty());
        if (folder == nullptr) continue;
        const std::string name =
            "/kit-cut-" + std::to_string(screen++) + "-" + std::to_string(static_cast<int>(v.w)) +
            "-" + std::to_string(static_cast<int>(v.text * 10)) + (dark ? "-dark" : "") + ".png";
        EXPECT_TRUE(write_png(folder + name, render(stage.kit->drawn())));
      }
    }
  }
}

}  // namespace
}  // namespace tallyblock::test
