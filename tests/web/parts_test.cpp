// The program in two parts: what is asked for before the second is here waits, in its order.
#include <gtest/gtest.h>

#include "app_stage.h"
#include "board.h"

namespace tallyblock::test {
namespace {

class InParts : public ::testing::Test {
 protected:
  // A page of which only the first part is here, with what an earlier one has kept.
  void begin(Contents kept = {}) {
    rig.kill();
    rig.store.kept = std::move(kept);
    rig.app.emplace(rig.store, rig.host);
    rig->begin_in_parts();
    rig->start();
    rig.pump();
  }
  Contents with_a_piece() {
    Rig before;
    ask::new_session(*before);
    before.pump();
    before.name("piece", "Loin");
    before.enter(FieldKind::drained, "3000");
    ask::go(*before, Screen::result);
    before.pump();
    return before.store.kept;
  }
  Rig rig;
};

TEST_F(InParts, ANewPieceWaitsAndIsThereOnce) {
  begin();
  EXPECT_FALSE(rig->has(AppPart::board));
  ask::new_session(*rig);
  rig.pump();
  EXPECT_EQ(rig->session(), nullptr);
  rig->on_part(AppPart::board);
  rig.pump();
  ASSERT_NE(rig->session(), nullptr);
  EXPECT_EQ(rig->draft().screen, Screen::weigh);
  rig->on_part(AppPart::board);  // told twice
  rig.pump();
  EXPECT_EQ(rig->shelf().cards.size(), 1U);
}

TEST_F(InParts, ThePieceThatWasOpenOpensOnItsScreen) {
  begin(with_a_piece());
  EXPECT_EQ(rig->session(), nullptr);
  EXPECT_EQ(rig->draft().screen, Screen::result);
  rig->on_part(AppPart::board);
  rig.pump();
  ASSERT_NE(rig->session(), nullptr);
  EXPECT_EQ(rig.figures().piece, "Loin");
  EXPECT_EQ(rig->draft().screen, Screen::result);
}

TEST_F(InParts, EveryActOfTheListOfPiecesIsDoneInItsOrder) {
  Contents kept = with_a_piece();
  for (auto& [area, records] : kept) {
    if (area == Area::app) records.erase("draft");  // nothing was open
  }
  begin(kept);
  ASSERT_EQ(rig->shelf().cards.size(), 1U);
  const std::string loin = rig->shelf().cards.front().id;
  ask::load_sample(*rig);
  ask::put_in_bin(*rig, loin);
  EXPECT_EQ(rig->shelf().cards.size(), 0U);
  ask::undo(*rig);  // needs nothing of a later part
  EXPECT_EQ(rig->shelf().cards.size(), 1U);
  ask::same_again(*rig, loin);
  ask::same_again(*rig, loin);  // pressed again
  ask::export_backup(*rig);
  rig.pump();
  EXPECT_EQ(rig->shelf().cards.size(), 1U);
  EXPECT_TRUE(rig->waits_for_part());
  EXPECT_TRUE(rig.host.offered.empty());
  rig->on_part(AppPart::board);
  rig.pump();
  EXPECT_EQ(rig->shelf().cards.size(), 2U) << "the sample and the backup still wait";
  EXPECT_TRUE(rig->waits_for_part());
  EXPECT_TRUE(rig.host.offered.empty());
  rig->on_part(AppPart::office);
  rig.pump();
  EXPECT_FALSE(rig->waits_for_part());
  EXPECT_EQ(rig->shelf().cards.size(), 6U);  // four of the sample, the loin, and the same again
  EXPECT_EQ(rig.figures().piece, "Loin");
  EXPECT_EQ(rig.host.offered.size(), 1U);
}

TEST(Parts, AScreenOfALaterPartIsShownWithoutAnotherTapWhenItIsHere) {
  AppStage stage;
  ASSERT_TRUE(stage.stage.has_font) << "the font of the tests is missing: install fonts-inter";
  stage.stage.size(360, 640, 2, 1);
  stage.app().begin_in_parts();
  const auto sees = [&](const std::string& words) {
    for (const AccessNode& n : stage.access()) {
      if (n.label.find(words) != std::string::npos) return true;
    }
    return false;
  };
  ask::go(stage.app(), Screen::settings);
  stage.settle();
  EXPECT_TRUE(sees("on its way"));
  stage.app().on_part_failed();
  stage.settle();
  EXPECT_TRUE(sees("Connect to the network"));
  stage.app().on_part(AppPart::board);
  stage.settle();
  EXPECT_TRUE(sees("on its way"));
  stage.app().on_part(AppPart::office);
  stage.settle();
  EXPECT_TRUE(sees("New pieces start with"));
  EXPECT_FALSE(sees("on its way"));
}

}  // namespace
}  // namespace tallyblock::test
