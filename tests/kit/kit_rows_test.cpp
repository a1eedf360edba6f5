// Lists of many rows: what is built of them, where it stands, and that nothing jumps.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "kit_stage.h"

namespace tallyblock::test {
namespace {

std::string path_of(std::size_t row) { return "rows/" + std::to_string(row); }

// Every third row has a second line: heights differ.
struct Listed {
  std::size_t count = 1000;
  std::size_t built = 0;
  int tapped = -1;
  Stage::Screen screen() {
    return [this](Kit& kit) {
      built = 0;
      {
        auto bar = kit.top_bar();
        kit.button("bar/back", "Back");
      }
      auto body = kit.scroll("rows/body");
      kit.heading("Many rows", 1, "rows/title");
      for (auto rows = kit.rows("rows/list", count); rows.next();) {
        ++built;
        const std::string title = "Row " + std::to_string(rows.at());
        const std::string more =
            rows.at() % 3 == 0 ? "A second line that is long enough to be broken on any phone" : "";
        if (kit.list_row(path_of(rows.at()), title, {.detail = more, .opens = true}) ==
            RowTap::row) {
          tapped = static_cast<int>(rows.at());
        }
      }
      kit.button("rows/after", "After them");
    };
  }
};

class KitRows : public ::testing::Test {
 protected:
  KitRows() { stage.size(390, 844, 2); }
  const AccessList& wheel(float px) {
    stage.in.wheel_y = px;
    stage.settle(screen);
    return stage.frame(screen);
  }
  // Rows in the list from the first to the last one that is seen, and whether none is missing between.
  static bool covers(const AccessList& list, float top, float bottom) {
    std::map<float, float> rows;
    for (const AccessNode& n : list) {
      if (n.set_size > 0) rows[n.y] = n.y + n.h;
    }
    float at = top;
    for (const auto& [from, to] : rows) {
      if (to <= at) continue;
      if (from > at + 24) return false;  // more than a gap
      at = to;
      if (at >= bottom) return true;
    }
    return false;
  }
  Listed listed;
  Stage stage;
  Stage::Screen screen = listed.screen();
};

TEST_F(KitRows, BuildsWhatIsSeenAndLittleMore) {
  stage.settle(screen);
  EXPECT_LT(listed.built, 40U);
  const AccessList list = stage.frame(screen);
  EXPECT_TRUE(covers(list, 400, 1688));
  const AccessNode* third = Stage::find(list, path_of(2));
  ASSERT_NE(third, nullptr);
  EXPECT_EQ(third->position, 3U);
  EXPECT_EQ(third->set_size, 1000U);
  EXPECT_EQ(Stage::find(list, "bar/back")->set_size, 0U);
}

TEST_F(KitRows, AreAllBuiltWhenTheyAreFew) {
  listed.count = 30;
  stage.settle(screen);
  EXPECT_EQ(listed.built, 30U);
}

TEST_F(KitRows, CoverTheViewInEveryFrameOfAScroll) {
  stage.settle(screen);
  for (int i = 0; i < 180; ++i) {
    stage.in.wheel_y = 700;
    const AccessList& list = stage.frame(screen);
    EXPECT_TRUE(covers(list, 400, 1688)) << "frame " << i;
    EXPECT_LT(listed.built, 60U);
  }
}

TEST_F(KitRows, ReachTheEndAndComeBackToTheStart) {
  stage.settle(screen);
  for (int i = 0; i < 400; ++i) wheel(800);
  AccessList list = stage.frame(screen);
  ASSERT_NE(Stage::find(list, path_of(999)), nullptr);
  EXPECT_TRUE(Stage::find(list, path_of(999))->visible);
  EXPECT_TRUE(Stage::find(list, "rows/after")->visible);
  for (int i = 0; i < 400; ++i) wheel(-800);
  list = stage.frame(screen);
  EXPECT_EQ(stage.kit->scroll_of("rows/body"), 0.0F);
  EXPECT_TRUE(Stage::find(list, path_of(0))->visible);
}

// What is seen moves by what was scrolled, though heights above become known only now.
TEST_F(KitRows, DoNotJumpWhileScrollingUp) {
  stage.settle(screen);
  stage.kit->set_scroll("rows/body", 20000);
  stage.settle(screen);
  for (int i = 0; i < 200; ++i) {
    const AccessList before = stage.frame(screen);
    stage.in.wheel_y = -50;
    const AccessList after = stage.frame(screen);
    for (const AccessNode& n : before) {
      if (n.set_size == 0 || !n.visible) continue;
      const auto same = std::find_if(after.begin(), after.end(),
                                     [&](const AccessNode& o) { return o.id == n.id; });
      if (same == after.end()) continue;
      EXPECT_NEAR(same->y - n.y, 50, 1.01) << "row " << n.position << " in frame " << i;
    }
  }
}

TEST_F(KitRows, AreTappedWhereTheyStand) {
  stage.settle(screen);
  stage.kit->set_scroll("rows/body", 15000);
  stage.settle(screen);
  const AccessList list = stage.frame(screen);
  const auto seen = std::find_if(list.begin(), list.end(), [](const AccessNode& n) {
    return n.set_size > 0 && n.visible && n.y > 600;
  });
  ASSERT_NE(seen, list.end());
  const int row = static_cast<int>(seen->position) - 1;
  EXPECT_GT(row, 100);
  stage.tap(*seen);
  stage.settle(screen);
  EXPECT_EQ(listed.tapped, row);
}

TEST_F(KitRows, KeepTheOneWithTheFocus) {
  stage.settle(screen);
  stage.in.focused = Kit::id_of(path_of(1));
  stage.settle(screen);
  for (int i = 0; i < 100; ++i) wheel(800);
  const AccessList list = stage.frame(screen);
  const AccessNode* kept = Stage::find(list, path_of(1));
  ASSERT_NE(kept, nullptr);
  EXPECT_FALSE(kept->visible);
  EXPECT_EQ(Stage::find(list, path_of(2)), nullptr);
  EXPECT_TRUE(covers(list, 400, 1688));
  for (int i = 0; i < 300; ++i) wheel(800);
  stage.in.focused = 0;
  stage.settle(screen);
  stage.frame(screen);
  EXPECT_EQ(Stage::find(stage.frame(screen), path_of(1)), nullptr);
}

// A place is put back before any height is known.
TEST_F(KitRows, ComeBackToAPlaceAtOnce) {
  stage.frame([](Kit& kit) { kit.heading("Loading"); });
  stage.kit->set_scroll("rows/body", 30000);
  stage.settle(screen);
  EXPECT_NEAR(stage.kit->scroll_of("rows/body"), 30000, 1500);
  EXPECT_TRUE(covers(stage.frame(screen), 400, 1688));
  EXPECT_FALSE(stage.kit->wants_frame());
}

TEST_F(KitRows, MayBecomeFewerOrMore) {
  stage.settle(screen);
  for (int i = 0; i < 400; ++i) wheel(800);
  listed.count = 40;
  stage.settle(screen);
  EXPECT_TRUE(Stage::find(stage.frame(screen), path_of(39))->visible);
  listed.count = 0;
  stage.settle(screen);
  EXPECT_EQ(listed.built, 0U);
  EXPECT_TRUE(Stage::find(stage.frame(screen), "rows/after")->visible);
  listed.count = 16000;
  stage.settle(screen);
  EXPECT_LT(listed.built, 40U);
}

TEST_F(KitRows, ScrollWithThePageWhereTheScreenIsTooLow) {
  stage.size(640, 110, 1, 2);
  stage.settle(screen);
  ASSERT_TRUE(stage.kit->frame().page_scrolls);
  for (int i = 0; i < 200; ++i) {
    stage.in.wheel_y = 300;
    stage.settle(screen);
  }
  EXPECT_LT(listed.built, 40U);
  EXPECT_TRUE(covers(stage.frame(screen), 10, 100));
}

}  // namespace
}  // namespace tallyblock::test
