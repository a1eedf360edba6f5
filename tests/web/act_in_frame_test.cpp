// An act in the midst of a frame makes new figures while the screen still walks those it began with.
// The sanitized build sees whether anything of the old ones is gone.
#include <gtest/gtest.h>

#include "app_stage.h"

namespace tallyblock::test {
namespace {

struct ActInFrame : ::testing::Test {
  AppStage stage;
  void SetUp() override {
    stage.app().new_session();
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

TEST_F(ActInFrame, WeighingIntoTheFirstPileLeavesTheOthersDrawn) {
  stage.rig.type("120");
  const PileFigures* walked = stage.rig.figures().piles.data();
  press("Portions, ");
  EXPECT_EQ(stage.rig.grams("portions"), 420.0);
  ASSERT_FALSE(stage.app().session()->earlier.empty());
  EXPECT_EQ(stage.app().session()->earlier.back().piles.data(), walked);
}

TEST_F(ActInFrame, TakingOutAReadingInTheListLeavesTheOthersDrawn) {
  stage.go(Screen::weigh, "readings");
  const PileFigures* walked = stage.rig.figures().piles.data();
  press("Take out: 40 g");
  EXPECT_EQ(stage.rig.grams("second-cuts"), 0.0);
  EXPECT_EQ(stage.app().session()->earlier.back().piles.data(), walked);
}

}  // namespace
}  // namespace tallyblock::test
