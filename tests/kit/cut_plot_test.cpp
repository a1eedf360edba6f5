// The cleaned piece to scale: its geometry, and what is no piece.
#include <gtest/gtest.h>

#include <cmath>

#include "cut_demo.h"
#include "kit_stage.h"

namespace tallyblock::test {
namespace {

double area(const std::vector<CutPoint>& shape) {
  double twice = 0;
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const CutPoint a = shape[i], b = shape[(i + 1) % shape.size()];
    twice += static_cast<double>(a.x) * static_cast<double>(b.y) -
             static_cast<double>(b.x) * static_cast<double>(a.y);
  }
  return std::abs(twice) / 2;
}

// ---- geometry

TEST(CutOutline, IsTrueToScaleBothWays) {
  for (const auto& [w, h] : {std::pair{328.0F, 200.0F}, {328.0F, 30.0F}, {1000.0F, 90.0F}}) {
    const std::vector<CutPoint> o = cut_outline(loin(), w, h);
    ASSERT_EQ(o.size(), 6U);
    const float scale = std::min(w / 600, h / 130);
    EXPECT_NEAR(o[2].x - o[0].x, 600 * scale, 0.01F);
    EXPECT_NEAR(o[5].y - o[0].y, 130 * scale, 0.01F) << "first face";
    EXPECT_NEAR(o[4].y - o[1].y, 120 * scale, 0.01F) << "middle";
    EXPECT_NEAR(o[3].y - o[2].y, 90 * scale, 0.01F) << "other end";
    EXPECT_NEAR((o[0].x + o[2].x) / 2, w / 2, 0.01F);
    for (const CutPoint& p : o) {
      EXPECT_GE(p.x, -0.01F);
      EXPECT_LE(p.x, w + 0.01F);
      EXPECT_GE(p.y, -0.01F);
      EXPECT_LE(p.y, h + 0.01F);
    }
  }
}

// Width linear between stations: the area is that of the trapezoids, (130+120)/2*300 + (120+90)/2*300.
TEST(CutOutline, RunsStraightBetweenStations) {
  EXPECT_NEAR(area(cut_outline(loin(), 600, 130)), 37500 + 31500, 1);
}

TEST(CutOutline, AStationNotMeasuredYetLiesOnTheLineBetweenItsNeighbours) {
  CutDrawing d = loin();
  d.stations[1].width = 0;
  const std::vector<CutPoint> o = cut_outline(d, 600, 130);
  ASSERT_EQ(o.size(), 6U);
  EXPECT_NEAR(o[4].y - o[1].y, 110, 0.01F);
  d.stations[2].width = 0;  // nothing known beyond the first face: as wide as that
  const std::vector<CutPoint> same = cut_outline(d, 600, 130);
  EXPECT_NEAR(same[3].y - same[2].y, 130, 0.01F);
}

TEST(CutOutline, NothingIsDrawnOfWhatIsNoPiece) {
  std::vector<CutDrawing> bad(8, loin());
  bad[0].stations.clear();
  bad[1].length = 0;
  bad[2].length = nan;
  bad[3].stations[1].at = 0;  // crosses the first
  bad[4].stations[1].width = nan;
  bad[5].stations[2].at = infinite;
  bad[6].stations[1].width = -5;
  bad[7].length = 500;  // shorter than its last station
  for (const CutDrawing& d : bad) {
    EXPECT_TRUE(cut_outline(d, 300, 100).empty());
    EXPECT_TRUE(cut_cells(d, 300, 100).empty());
  }
}

TEST(CutCells, BlocksSplitsAndEndsPartTheWholePieceWithoutALeftover) {
  const CutDrawing d = planned();
  const std::vector<CutCell> cells = cut_cells(d, 600, 130);
  double sum = 0, lost = 0;
  int in_blocks = 0;
  for (const CutCell& c : cells) {
    sum += area(c.outline);
    lost += c.trim ? area(c.outline) : 0;
    in_blocks += c.block >= 0 ? 1 : 0;
  }
  EXPECT_EQ(in_blocks, 30);
  EXPECT_NEAR(sum, 69000, 5);
  // 10 mm of 129.8 mm and 15 mm of 90.75 mm in the middle.
  EXPECT_NEAR(lost, 10 * 129.833 + 15 * 90.75, 1);
}

TEST(CutCells, SplitLinesLieAtTheirFractionsOfTheWidthAllAlong) {
  CutDrawing d = planned();
  d.sections = {{10, 300, {0.367F, 0.633F}}, {300, 585, {0.25F, 0.5F, 0.75F}}};
  int checked = 0;
  for (const CutCell& c : cut_cells(d, 600, 130)) {
    if (c.block < 0) continue;
    const CutBlockShape& b = d.blocks[static_cast<std::size_t>(c.block)];
    const std::vector<float> at = b.from + b.to < 600
                                      ? std::vector<float>{0, 0.367F, 0.633F, 1}
                                      : std::vector<float>{0, 0.25F, 0.5F, 0.75F, 1};
    const auto piece = static_cast<std::size_t>(c.long_piece);
    ASSERT_LT(piece + 1, at.size());
    const std::size_t half = c.outline.size() / 2;  // the upper edge, then the lower one
    for (const std::size_t i : {std::size_t{0}, half - 1, half, 2 * half - 1}) {
      const CutPoint p = c.outline[i];
      const float width = p.x < 300 ? 130 - 10 * p.x / 300 : 120 - 30 * (p.x - 300) / 300;
      EXPECT_NEAR(p.y, 65 + (at[i < half ? piece : piece + 1] - 0.5F) * width, 0.02F)
          << "block " << c.block << " piece " << piece;
      ++checked;
    }
  }
  EXPECT_GE(checked, 15 * 3 * 4);
}

TEST(CutCells, BlocksAndSplitsThatCrossOrAreNotFiniteAreLeftOutOneByOne) {
  CutDrawing d = loin();
  d.blocks = {{0, 100, 1, "1", {}},        {80, 150, 1, "2", {}},
              {150, 120, 1, "3", {}},      {nan, 200, 1, "4", {}},
              {200, infinite, 1, "5", {}}, {500, 700, 1, "6", {}},
              {300, 400, 1, "7", {}},      {-50, -20, 1, "8", CutState::next}};
  d.sections = {{nan, 600, {0.5F}}, {0, 600, {0.6F, 0.4F, nan, 1.5F, -1}}};
  d.trim_back = nan;
  d.cut_to = nan;
  std::vector<int> drawn;
  for (const CutCell& c : cut_cells(d, 600, 130)) {
    if (c.block >= 0 && c.long_piece == 0) drawn.push_back(c.block);
    EXPECT_LT(c.long_piece, 2) << "one split is left";
    EXPECT_FALSE(c.trim);
  }
  EXPECT_EQ(drawn, (std::vector<int>{0, 6}));
}

// An ellipse in thirds of equal area, in closed form: the middle piece is 26.5 % of the width.
TEST(CutFace, LongPiecesOfAnOvalSplitForThirdsHaveEqualAreas) {
  const auto cells = face_cells(oval_in_thirds(), 130, 80);
  ASSERT_EQ(cells.size(), 3U);
  const double third = 3.14159265 / 4 * 130 * 80 / 3;
  for (const auto& c : cells) EXPECT_NEAR(area(c), third, third * 0.01);
}

TEST(CutFace, SplitsLieAtTheirFractionsOfTheWidth) {
  CutFaceShape face = oval_in_thirds();
  face.exponent = 0;
  face.split_at = {0.2F, 0.7F};
  const auto cells = face_cells(face, 200, 100);
  ASSERT_EQ(cells.size(), 3U);
  EXPECT_NEAR(cells[1].front().x, 40, 0.01F);
  EXPECT_NEAR(cells[2].front().x, 140, 0.01F);
  EXPECT_NEAR(area(cells[1]), 100 * 100, 0.1);
}

TEST(CutFace, IsABoxAnEllipseOrASuperellipse) {
  EXPECT_EQ(face_height(0, 0.7F), 1.0F);
  EXPECT_NEAR(face_height(2, 0.6F), 0.8F, 1e-5);  // 3, 4, 5
  EXPECT_NEAR(face_height(2, -0.6F), 0.8F, 1e-5);
  EXPECT_NEAR(face_height(4, 0.5F), std::pow(1 - 0.0625F, 0.25F), 1e-5);
  EXPECT_EQ(face_height(2, 1.5F), 0.0F);
}

TEST(CutFace, NothingIsDrawnOfWhatIsNoFace) {
  for (const float bad : {0.0F, -1.0F, nan, infinite}) {
    CutFaceShape face = oval_in_thirds();
    face.width = bad;
    EXPECT_TRUE(face_cells(face, 100, 100).empty());
    Stage stage;
    stage.size(360, 640);
    stage.frame([&](Kit& kit) { cut_face(kit, "face", face); });
  }
}

}  // namespace
}  // namespace tallyblock::test
