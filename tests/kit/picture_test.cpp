// The piece picture: areas, order, and what is said.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>
#include <set>

#include "kit_demo.h"
#include "kit_stage.h"
#include "web/kit/piece_block.h"
#include "web/kit/piece_shape.h"

namespace tallyblock::test {
namespace {

double sum_of_areas(const std::vector<std::vector<Point>>& slabs) {
  double sum = 0;
  for (const auto& s : slabs) sum += area_of(s);
  return sum;
}

TEST(PieceShape, OutlineIsConvexSoThatEverySlabIs) {
  for (const auto& [w, h] :
       {std::pair{328.0, 110.0}, {300.0, 80.0}, {1600.0, 340.0}, {140.0, 90.0}}) {
    const std::vector<Point> s = piece_outline(w, h);
    for (std::size_t i = 0; i < s.size(); ++i) {
      const Point a = s[i], b = s[(i + 1) % s.size()], c = s[(i + 2) % s.size()];
      const double cross = static_cast<double>(b.x - a.x) * static_cast<double>(c.y - b.y) -
                           static_cast<double>(b.y - a.y) * static_cast<double>(c.x - b.x);
      EXPECT_GE(cross, -1e-2) << w << " x " << h << " at corner " << i;
    }
  }
}

TEST(PieceShape, EverySlabsAreaIsItsShareWithinHalfAPercent) {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> amount(1, 1000);
  for (int round = 0; round < 200; ++round) {
    const std::vector<Point> shape = piece_outline(300 + round, 80 + round % 60);
    std::vector<double> values;
    double whole = 0;
    for (int i = 0; i < 1 + round % 9; ++i) {
      values.push_back(i % 4 == 3 ? amount(random) / 100 : amount(random));
      whole += values.back();
    }
    whole *= 1 + (round % 3) * 0.2;  // a rest, sometimes
    const auto slabs = cut_into_slabs(shape, values, whole);
    const double all = area_of(shape);
    for (std::size_t i = 0; i < values.size(); ++i) {
      const double expected = all * values[i] / whole;
      EXPECT_NEAR(area_of(slabs[i]), expected, expected * 0.005 + all * 1e-6)
          << round << " slab " << i;
    }
    EXPECT_NEAR(sum_of_areas(slabs), all, all * 1e-4);
  }
}

TEST(PieceShape, WhatIsNotWeighedYetStaysAsTheLastPart) {
  const auto shape = piece_outline(328, 110);
  const std::vector<double> values = {500, 250};
  const auto slabs = cut_into_slabs(shape, values, 1000);
  ASSERT_EQ(slabs.size(), 3U);
  EXPECT_NEAR(area_of(slabs[2]) / area_of(shape), 0.25, 0.001);
}

TEST(PieceShape, SlabsStandInTheOrderOfTheirValues) {
  const auto shape = piece_outline(328, 110);
  const std::vector<double> values = {10, 400, 1, 300, 289};
  std::vector<double> at;
  const auto slabs = cut_into_slabs(shape, values, 1000, &at);
  ASSERT_EQ(at.size(), values.size() + 1);
  for (std::size_t i = 0; i + 1 < at.size(); ++i) EXPECT_LT(at[i], at[i + 1]);
}

TEST(PieceShape, ZeroNegativeAndImpossibleAmountsHaveNoAreaButKeepTheirPlace) {
  const auto shape = piece_outline(328, 110);
  const std::vector<double> values = {
      60, 0, -5, std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity(),
      40};
  const auto slabs = cut_into_slabs(shape, values, 100);
  ASSERT_EQ(slabs.size(), 7U);
  for (const std::size_t i : {1U, 2U, 3U, 4U}) EXPECT_TRUE(slabs[i].empty());
  EXPECT_NEAR(area_of(slabs[0]) / area_of(shape), 0.6, 0.003);
  EXPECT_NEAR(area_of(slabs[5]) / area_of(shape), 0.4, 0.003);
}

TEST(PieceShape, MoreThanTheWholeFillsTheShapeAndNoMore) {
  const auto shape = piece_outline(328, 110);
  const std::vector<double> values = {80, 40};
  const auto slabs = cut_into_slabs(shape, values, 100);
  EXPECT_NEAR(area_of(slabs[0]) / area_of(shape), 2.0 / 3, 0.002);
  EXPECT_TRUE(slabs[2].empty());
}

TEST(PieceShape, SlabsUpToTheWholeFillItAndTheRestLiesBeyond) {
  const auto shape = piece_outline(328, 110);
  const double total = area_of(shape);
  const auto whole_first = beyond_the_whole(shape, std::vector<double>{100, 20}, 100);
  EXPECT_TRUE(whole_first[0].empty()) << "the slab that says 100 % fills the whole";
  EXPECT_NEAR(area_of(whole_first[1]) / total, 20.0 / 120, 0.001);
  const auto one = beyond_the_whole(shape, std::vector<double>{0, 125}, 100);
  EXPECT_TRUE(one[0].empty());
  EXPECT_NEAR(area_of(one[1]) / total, 0.2, 0.001);
  for (const auto& part : beyond_the_whole(shape, std::vector<double>{60, 40}, 100)) {
    EXPECT_TRUE(part.empty());
  }
}

TEST(PieceShape, NothingKnownYetIsOneEmptyOutline) {
  const auto shape = piece_outline(328, 110);
  const auto slabs = cut_into_slabs(shape, {}, 0);
  ASSERT_EQ(slabs.size(), 1U);
  EXPECT_NEAR(area_of(slabs[0]), area_of(shape), 1);
}

// ---- as drawn

struct Planned {
  Stage stage;
  std::unique_ptr<PieceBlock> block;
  float width = 0;

  Planned(const Piece& piece, float css, float ratio, float text, LabelSide side) {
    stage.size(css, 640, ratio, text);
    stage.frame([](Kit&) {});
    Frame& f = stage.kit->frame();
    width = (css - 32) * ratio;
    block = std::make_unique<PieceBlock>(f, piece, 1);
    stage.kit->begin(stage.in);
    block->plan(f, width, 130 * ratio, side, true);
    stage.kit->end();
  }
};

TEST(PiecePicture, LabelsNeverOverlapAndStayWithinThePicture) {
  for (const float css : {360.0F, 640.0F, 1024.0F, 1920.0F}) {
    for (const float text : {1.0F, 1.5F, 2.0F}) {
      for (const LabelSide side : {LabelSide::below, LabelSide::above}) {
        const Planned p(demo_weight(), css, 2, text, side);
        for (std::size_t i = 0; i < p.block->size(); ++i) {
          const SlabLabel& a = p.block->label(i);
          if (a.where == SlabLabel::Where::list) continue;
          EXPECT_GE(a.x, -1.0F) << css << " " << text;
          EXPECT_LE(a.x + a.w, p.width + 1) << css << " " << text;
          for (std::size_t k = 0; k < i; ++k) {
            const SlabLabel& b = p.block->label(k);
            if (b.where == SlabLabel::Where::list) continue;
            const bool apart =
                a.x >= b.x + b.w || b.x >= a.x + a.w || a.y >= b.y + b.h || b.y >= a.y + a.h;
            EXPECT_TRUE(apart) << a.name << " and " << b.name << " at " << css << ", text " << text;
          }
        }
      }
    }
  }
}

TEST(PiecePicture, EverySlabIsNamedInItsPlaceOrInTheListBeneath) {
  Piece p = demo_weight();
  for (int i = 0; i < 8; ++i)
    p.slabs.push_back(
        {"Small tub " + std::to_string(i), "0.01 kg", "0.2 %", 10, Look::secondary, 0});
  const Planned planned(p, 360, 2, 1, LabelSide::below);
  const auto listed = [&](std::size_t i) {
    return planned.block->label(i).where == SlabLabel::Where::list;
  };
  EXPECT_FALSE(listed(0));  // half of the piece has room for its name
  EXPECT_TRUE(listed(p.slabs.size() - 1));
  EXPECT_GT(planned.block->list_height(planned.stage.kit->frame()), 0.0F);
}

TEST(PiecePicture, WorthlessWasteIsListedInWordsUnderTheMoney) {
  const Planned planned(demo_money(), 360, 2, 1, LabelSide::below);
  EXPECT_EQ(planned.block->label(4).name, "Fat and sinew");
  EXPECT_EQ(planned.block->label(4).where, SlabLabel::Where::list);
  EXPECT_TRUE(planned.block->slab(4).empty());
}

TEST(PiecePicture, SlabsAsDrawnKeepTheirAreasThoughKerfsPartThem) {
  const Piece piece = demo_weight();
  const Planned p(piece, 360, 2.625F, 1, LabelSide::below);
  double all = 0;
  for (std::size_t i = 0; i < piece.slabs.size(); ++i) all += area_of(p.block->slab(i));
  float last_right = -1;
  for (std::size_t i = 0; i < piece.slabs.size(); ++i) {
    const double share = piece.slabs[i].value / piece.value;
    EXPECT_NEAR(area_of(p.block->slab(i)) / all, share, share * 0.005) << piece.slabs[i].name;
    float left = 0, right = 0;
    p.block->span_at(i, 0.8F, left, right);
    EXPECT_GT(left, last_right) << "a kerf before " << piece.slabs[i].name;
    last_right = right;
  }
}

TEST(PiecePicture, SaysItsNumbersInOneSentence) {
  Stage stage;
  const AccessList& list =
      stage.frame([](Kit& kit) { piece_picture(kit, "p", demo_weight(false)); });
  const AccessNode* n = Stage::find(list, "p");
  ASSERT_NE(n, nullptr);
  EXPECT_EQ(n->kind, AccessKind::image);
  EXPECT_EQ(n->label,
            "Pork loin, bone in, 4.86 kg: Portions 2.42 kg, 49.8 %; Tail for stew 0.52 kg, 10.7 %; "
            "Trim for mince 0.61 kg, 12.6 %; Not weighed yet 1.31 kg, 27.0 %.");
}

// A finger on the middle of each slab, then presses without a place.
TEST(PiecePicture, TellsWhichSlabIsTouched) {
  for (const bool both : {false, true}) {
    Stage stage;
    stage.size(390, 844, 2);
    std::optional<std::size_t> touched;
    std::size_t lit = 99;
    const Stage::Screen screen = [&](Kit& kit) {
      Piece weight = demo_weight(false), money = demo_money();
      if (lit < weight.slabs.size()) weight.slabs[lit].lit = true;
      weight.rest_lit = lit == weight.slabs.size();
      const auto now = both ? weight_and_money(kit, "p", weight, money, PieceSize::small)
                            : touched_piece(kit, "p", weight);
      if (now) touched = now;
    };
    stage.settle(screen);
    const std::vector<Region> regions = stage.kit->frame().regions;
    std::set<std::size_t> seen;
    for (const Region& region : regions) {
      EXPECT_EQ(region.id, Kit::id_of("p"));
      EXPECT_GE(region.r.w, 2 * style::slab_target - 1) << "wide enough for a finger";
      const float x = region.r.x + region.r.w / 2, y = region.r.y + region.r.h / 2;
      stage.pointer(PointerKind::down, x, y);
      stage.pointer(PointerKind::up, x, y);
      touched.reset();
      stage.settle(screen);
      ASSERT_TRUE(touched.has_value());
      const auto over = std::ranges::find_if(
          regions, [&](const Region& other) { return &other > &region && other.r.contains(x, y); });
      if (over == regions.end()) EXPECT_EQ(*touched, region.index);
      seen.insert(*touched);
    }
    EXPECT_GE(seen.size(), 3U);
    const std::size_t slabs = demo_weight(false).slabs.size();
    const auto press = [&] {
      stage.in.activated.push_back(Kit::id_of("p"));
      touched.reset();
      stage.settle(screen);
      return touched.value_or(99);
    };
    EXPECT_EQ(press(), 0U);
    lit = 0;
    EXPECT_EQ(press(), 1U);
    lit = slabs;  // the rest is the last: pressed again, it is put away
    EXPECT_EQ(press(), slabs);
  }
}

TEST(PiecePicture, MovesForAMomentWhenAWeightComesInAndNotAtAllWithReducedMotion) {
  for (const bool reduced : {false, true}) {
    Stage stage;
    stage.in.reduced_motion = reduced;
    bool done = false;
    const Stage::Screen screen = [&](Kit& kit) {
      Piece p = demo_weight();
      if (!done) p.slabs[3].value = 0;
      piece_picture(kit, "p", p);
    };
    stage.settle(screen);
    EXPECT_EQ(stage.settle(screen), 1) << "idle: one frame, and no more wanted";
    done = true;
    const std::int64_t before = stage.in.now_ms;
    const int frames = stage.settle(screen);
    if (reduced) {
      EXPECT_EQ(frames, 1);
    } else {
      EXPECT_GT(frames, 2);
      EXPECT_LE(stage.in.now_ms - before, 200);
    }
  }
}

}  // namespace
}  // namespace tallyblock::test
