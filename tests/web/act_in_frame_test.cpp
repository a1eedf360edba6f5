// What is asked for in the midst of a frame is done after it: the screen walks to its end what it began with.
#include <gtest/gtest.h>

#include "app_stage.h"

namespace tallyblock::test {
namespace {

struct ActInFrame : ::testing::Test {
  AppStage stage;
  void SetUp() override {
    ask::new_session(stage.app());
    stage.rig.pump();
    stage.rig.enter(FieldKind::drained, "2000");
    stage.rig.weigh("portions", "300");
    stage.rig.weigh("second-cuts", "40");
    stage.go(Screen::weigh);
  }
  // Activates the first control whose name begins so, as a screen reader would.
  void press(const std::string& begin) {
    for (const AccessNode& node : stage.access()) {
      if (node.kind != AccessKind::button || node.label.rfind(begin, 0) != 0) continue;
      stage.stage.in.activated.push_back(node.id);
      stage.settle();
      return;
    }
    ADD_FAILURE() << "there is no " << begin;
  }
};

TEST_F(ActInFrame, NothingChangesBeforeTheFrameIsOver) {
  stage.rig.type("120");
  const PileFigures* walked = stage.rig.figures().piles.data();
  const std::uint64_t before = stage.app().revision();
  stage.app().begin_frame();
  ask::choose_pile(stage.app(), "portions");
  ask::open_panel(stage.app(), "readings");
  EXPECT_EQ(stage.rig.figures().piles.data(), walked);
  EXPECT_EQ(stage.rig.grams("portions"), 300.0);
  EXPECT_EQ(stage.app().draft().panel, "");
  EXPECT_EQ(stage.app().revision(), before);
  stage.app().after_frame();
  EXPECT_EQ(stage.rig.grams("portions"), 420.0);
  EXPECT_EQ(stage.app().draft().panel, "readings");
  ask::open_panel(stage.app(), "");  // outside a frame at once
  EXPECT_EQ(stage.app().draft().panel, "");
}

TEST_F(ActInFrame, AllThatWasAskedForIsDoneInItsOrder) {
  stage.app().begin_frame();
  ask::edit(stage.app(), {FieldKind::reading, ""});
  for (const char* key : {"7", "5"}) ask::key(stage.app(), key);
  ask::choose_pile(stage.app(), "portions");
  ask::choose_pile(stage.app(), "second-cuts");
  stage.app().after_frame();
  EXPECT_EQ(stage.rig.grams("portions"), 375.0);
  EXPECT_EQ(stage.app().draft().pile, "second-cuts");
}

TEST_F(ActInFrame, WeighingIntoTheFirstPileLeavesTheOthersDrawn) {
  stage.rig.type("120");
  press("Portions, ");
  EXPECT_EQ(stage.rig.grams("portions"), 420.0);
}

TEST_F(ActInFrame, TakingOutAReadingInTheListLeavesTheOthersDrawn) {
  stage.go(Screen::weigh, "readings");
  press("Cross out: 40 g");
  EXPECT_EQ(stage.rig.grams("second-cuts"), 0.0);
}

}  // namespace
}  // namespace tallyblock::test
