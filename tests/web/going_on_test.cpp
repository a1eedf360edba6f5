// A pile that goes on: the screens offer only what is left of it.
#include <gtest/gtest.h>

#include <algorithm>

#include "app_stage.h"

namespace tallyblock::test {
namespace {

struct GoingOn : ::testing::Test {
  Rig rig;
  App& app = *rig;
  void SetUp() override {
    ask::new_session(app);
    rig.pump();
    rig.enter(FieldKind::drained, "2000");
  }
};

TEST_F(GoingOn, NoMoreThanIsLeftOfAPileCanGoOn) {
  rig.weigh("usable-trim", "600");
  ask::break_down(app, "usable-trim", "Grind", Process::grinding);
  rig.enter(FieldKind::step_weight, "700", "usable-trim");
  EXPECT_EQ(rig.notice(), "notice.more-than-left");
  EXPECT_EQ(app.notice()->args,
            (std::vector<std::string>{rig.pile("usable-trim").name, "600 g", "700 g"}));
  EXPECT_EQ(rig.figures().steps[1].input->value().in_grams(), 600.0);
  ask::break_down(app, "usable-trim", "Again", Process::breakdown);
  EXPECT_EQ(rig.notice(), "notice.nothing-left");
  EXPECT_EQ(rig.figures().steps.size(), 2u);
  ask::edit(app, {FieldKind::step_weight, "usable-trim"});
  ask::key(app, "clear");  // what was refused stayed in the field
  rig.type("450");
  ask::enter(app);
  rig.pump();
  EXPECT_EQ(rig.figures().steps[1].input->value().in_grams(), 450.0);
  ask::choose_pile(app, "portions");
  ask::edit(app, {FieldKind::transfer, "usable-trim"});
  rig.type("200");
  ask::choose_pile(app, "second-cuts");
  ask::enter(app);
  EXPECT_EQ(rig.notice(), "notice.more-than-left");
  EXPECT_EQ(rig.grams("second-cuts"), 0.0);
  ask::break_down(app, "usable-trim", "Again", Process::breakdown);
  EXPECT_EQ(rig.figures().steps.back().input->value().in_grams(), 150.0);
}

TEST_F(GoingOn, APileThatIsAllInACookingTestIsNotCookedTwiceButStillBrokenDown) {
  rig.weigh("usable-trim", "600");
  ask::break_down(app, "usable-trim", "Roast", Process::cooking);
  ask::break_down(app, "usable-trim", "Stew", Process::cooking);
  EXPECT_EQ(rig.notice(), "notice.all-cooked");
  EXPECT_EQ(rig.figures().steps.size(), 2u);
  ask::break_down(app, "usable-trim", "Grind", Process::grinding);
  EXPECT_EQ(rig.figures().steps.size(), 3u);
  EXPECT_FALSE(rig.has_doubt(Code::doubt_taken_more_than_pile));
}

TEST(GoingOnScreens, OnlyWhatIsLeftOfAPileIsOffered) {
  AppStage at;
  Rig& rig = at.rig;
  at.stage.size(360, 640, 2, 1);
  ask::new_session(*rig);
  rig.pump();
  rig.enter(FieldKind::drained, "2000");
  rig.weigh("usable-trim", "600");
  const auto shows = [&](const std::string& path) {
    at.go(Screen::details, "pile:usable-trim");
    at.settle();
    return std::ranges::any_of(at.access(),
                               [&](const AccessNode& n) { return n.id == Kit::id_of(path); });
  };
  const std::string way = "details/break-down/usable-trim/";
  EXPECT_TRUE(shows(way + "cooking") && shows(way + "grinding"));
  ask::break_down(*rig, "usable-trim", "Roast", Process::cooking);
  rig.pump();
  EXPECT_FALSE(shows(way + "cooking"));
  EXPECT_TRUE(shows(way + "grinding"));
  EXPECT_FALSE(shows("details/nothing-left/usable-trim"));
  ask::break_down(*rig, "usable-trim", "Grind", Process::grinding);
  rig.pump();
  EXPECT_FALSE(shows(way + "grinding"));
  EXPECT_TRUE(shows("details/nothing-left/usable-trim"));
}

}  // namespace
}  // namespace tallyblock::test
