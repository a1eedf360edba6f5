// What the stores say of their own accord: shown until it is closed, and acted upon.
#include <gtest/gtest.h>

#include "kitchen.h"

namespace tallyblock::test {
namespace {

TEST(StoreNews, OfStorageThatWasClearedStoresAllInMemoryAgain) {
  Rig rig(start().contents, start().drawn);
  rig->on_protected(true);
  const std::string before = seen(rig.store.kept);
  auto& entries = rig.store.kept[Area::entries];
  const auto of_open = entries;
  rig.store.kept.clear();
  rig->on_store_news(StoreNews::cleared, 1);
  EXPECT_EQ(save_state(*rig), SaveState::saving) << "nothing is called saved before it is";
  rig.pump();
  EXPECT_EQ(save_state(*rig), SaveState::kept);
  EXPECT_EQ(rig.notice(), "news.cleared");
  std::size_t found = 0;
  for (const auto& [key, bytes] : of_open) {
    if (key.compare(0, 21, start().open + "/") != 0) continue;
    EXPECT_EQ(rig.store.kept[Area::entries][key], bytes) << key;
    ++found;
  }
  EXPECT_GT(found, 4u);
  EXPECT_TRUE(rig.store.kept[Area::bin].contains(start().binned));
  EXPECT_EQ(rig->shelf().cards.size(), 1u) << "pieces that are gone are not listed any more";
  EXPECT_EQ(rig.grams("portions"), 810.0);
}

TEST(StoreNews, OfPiecesThatCameBackShowsThem) {
  Rig rig(start().contents, start().drawn);
  Contents without = rig.store.kept;
  rig.store.kept[Area::index].erase(start().other);
  rig->on_others_changed();
  rig.pump();
  EXPECT_EQ(rig->shelf().cards.size(), 1u);
  rig.store.kept = without;
  rig->on_store_news(StoreNews::back, 1);
  rig.pump();
  EXPECT_EQ(rig->shelf().cards.size(), 2u);
  EXPECT_EQ(rig.notice(), "news.back#one");
}

TEST(StoreNews, StaysWhileWeighingGoesOnUntilItIsClosed) {
  Rig rig(start().contents, start().drawn);
  rig->on_store_news(StoreNews::mended, 3);
  rig.weigh("portions", "99");
  ask::go(*rig, Screen::result);
  ask::go(*rig, Screen::weigh);
  EXPECT_EQ(rig.notice(), "news.mended");
  EXPECT_EQ(rig->notice()->args, (std::vector<std::string>{"3"}));
  ask::dismiss_notice(*rig);
  rig.weigh("portions", "98");
  EXPECT_NE(rig.notice(), "news.mended");
  EXPECT_EQ(rig.grams("portions"), 810.0 + 99.0 + 98.0);
}

TEST(StoreNews, MakesWayForTheResultOfAnImport) {
  Rig from(start().contents, start().drawn);
  ask::export_session(*from, start().open, true);
  from.pump();
  ASSERT_FALSE(from.host.offered.empty());
  for (const StoreNews news : {StoreNews::wiped, StoreNews::damaged, StoreNews::copied}) {
    Rig rig;
    rig.pump();
    rig->on_store_news(news, 2);
    ASSERT_TRUE(rig->notice()->stays);
    rig->on_file("kept.json", from.host.offered.back().bytes, true);
    rig.pump();
    EXPECT_EQ(rig.notice(), "import.report");
  }
}

TEST(StoreNews, OfDamageIsAnError) {
  Rig rig(start().contents, start().drawn);
  for (const StoreNews news : {StoreNews::damaged, StoreNews::wiped}) {
    rig->on_store_news(news, 2);
    ASSERT_TRUE(rig->notice());
    EXPECT_TRUE(rig->notice()->is_error);
  }
}

}  // namespace
}  // namespace tallyblock::test
