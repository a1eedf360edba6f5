// Height that is left, and height that is missing: who takes it, who gives way (web/kit/LAYOUT.md 7, 8).
#include <gtest/gtest.h>

#include "kit_stage.h"

namespace tallyblock::test {
namespace {

struct Page {
  int tiles = 4;
  bool gives_way = true;

  void operator()(Kit& kit) const {
    {
      auto bar = kit.top_bar();
      kit.heading("Loin", 2, "title");
    }
    {
      auto room = kit.column();
      kit.may_grow(3, 300);
      if (gives_way) kit.may_give_way();
      kit.button("picture", "Picture");
    }
    {
      auto area = kit.scroll_if_short("piles");
      kit.may_grow(2, 20.0F * static_cast<float>((tiles + 1) / 2));
      auto grid = kit.grid(2, 100);
      kit.may_grow(2, 20);
      for (int i = 0; i < tiles; ++i) kit.button("pile/" + std::to_string(i), "Pile");
    }
    KeypadOptions options;
    options.enter_label = "Into";
    options.turn = 1;
    options.grow_by = 8;
    kit.keypad("pad", options);
    auto bar = kit.bottom_bar();
    kit.place("board", "Board", true);
  }
};

struct Turns : ::testing::Test {
  Stage stage;
  Page page;
  void at(float height) {
    stage.size(360, height);
    stage.settle(page);
  }
  float height(std::string_view path) {
    for (const Target& t : stage.kit->frame().targets) {
      if (t.id == Kit::id_of(path)) return t.r.h;
    }
    return 0;
  }
  bool is_visible(std::string_view path) {
    for (const AccessNode& n : stage.kit->frame().access) {
      if (n.id == Kit::id_of(path)) return n.visible;
    }
    return false;
  }
};

TEST_F(Turns, TheEarlierTakesAllItMayBeforeTheNextHasAny) {
  ASSERT_TRUE(stage.has_font);
  float natural = 0;  // the least page with everything in its least height
  for (natural = 400; natural < 800; natural += 1) {
    at(natural);
    if (!stage.kit->frame().squeezed && !stage.kit->frame().page_scrolls) break;
  }
  EXPECT_FLOAT_EQ(height("pad/7"), 56);
  EXPECT_FLOAT_EQ(height("pile/0"), 56);
  EXPECT_FLOAT_EQ(height("picture"), 56);
  at(natural + 16);  // half of what the keys may have
  EXPECT_FLOAT_EQ(height("pad/7"), 60);
  EXPECT_FLOAT_EQ(height("pile/0"), 56);
  at(natural + 32 + 20);  // all of it, and half of what the two rows of piles may have
  EXPECT_FLOAT_EQ(height("pad/7"), 64);
  EXPECT_FLOAT_EQ(height("pile/0"), 66);
  at(natural + 32 + 40 + 100);
  EXPECT_FLOAT_EQ(height("pad/7"), 64);
  EXPECT_FLOAT_EQ(height("pile/0"), 76);
  EXPECT_FALSE(stage.kit->frame().page_scrolls);
}

TEST_F(Turns, WhatGivesWayIsGoneWholeAndNeitherSeenNorTapped) {
  at(640);
  ASSERT_TRUE(is_visible("picture"));
  at(560);
  EXPECT_TRUE(stage.kit->frame().squeezed);
  EXPECT_FALSE(stage.kit->frame().is_short) << "without it there is room";
  EXPECT_FALSE(is_visible("picture"));
  EXPECT_FLOAT_EQ(height("picture"), 0);
  EXPECT_GE(height("pile/3"), 56);
}

TEST_F(Turns, ThenThePilesScrollAndKeysAndPlacesStayInReach) {
  page.tiles = 10;
  at(560);
  const Frame& f = stage.kit->frame();
  EXPECT_TRUE(f.is_short);
  EXPECT_FALSE(f.page_scrolls);
  EXPECT_TRUE(is_visible("pile/0"));
  EXPECT_FALSE(is_visible("pile/9"));
  for (const char* path : {"pad/0", "pad/enter", "board"}) EXPECT_TRUE(is_visible(path)) << path;
}

TEST_F(Turns, AtLastThePageScrollsAndNothingIsLost) {
  at(380);
  EXPECT_TRUE(stage.kit->frame().page_scrolls);
  EXPECT_GT(height("picture"), 0);
}

TEST(Caption, TakesOneLineOrNoneAndIsHeardAnyway) {
  for (const bool fits : {true, false}) {
    Stage stage;
    ASSERT_TRUE(stage.has_font);
    stage.size(200, 400);
    const std::string text = fits ? "Loin" : "Loin of a pig that was bought whole";
    stage.frame([&](Kit& kit) { kit.caption(text, "title"); });
    const Frame& f = stage.kit->frame();
    EXPECT_EQ(f.nodes.back().lines_n, fits ? 1 : 0);
    ASSERT_EQ(f.access.size(), 1U);
    EXPECT_EQ(f.access[0].label, text);
  }
}

}  // namespace
}  // namespace tallyblock::test
