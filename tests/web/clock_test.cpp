// Clocks that jump: entries are taken all the same, and the timer shows what is certain.
#include <gtest/gtest.h>

#include "fake_host.h"
#include "web/figures/show.h"
#include "web/words/words.h"

namespace tallyblock::test {
namespace {

struct Clock : ::testing::Test {
  Rig rig;
  App& app = *rig;
  void SetUp() override {
    ask::new_session(app);
    rig.pump();
    rig.enter(FieldKind::drained, "2000");
  }
};

TEST_F(Clock, AClockSetBackLeavesTheTimerAtWhatTheDeviceItselfCounted) {
  ask::timer_start(app);
  rig.pump();
  rig.wait(120'000);
  rig.host.utc -= 3 * 3'600'000;
  rig.wait(60'000);
  EXPECT_EQ(app.timer_ms(), 180'000);
  EXPECT_EQ(rig.notice(), "notice.timer-clock");
  ask::timer_pause(app);
  EXPECT_EQ(rig.notice(), "notice.timer-clock");
  EXPECT_DOUBLE_EQ(rig.figures().minutes, 3.0);
}

TEST_F(Clock, AClockSetForwardByAWeekDoesNotMakeTheTimerShowAWeek) {
  ask::timer_start(app);
  rig.pump();
  rig.wait(120'000);
  rig.host.utc += std::int64_t{166} * 3'600'000;
  rig.wait(60'000);
  EXPECT_EQ(app.timer_ms(), 180'000);
  EXPECT_EQ(rig.notice(), "notice.timer-clock");
}

TEST_F(Clock, ATimerFoundRunningAfterAWeekCountsOnlyFromThenAndSaysSo) {
  ask::timer_start(app);
  rig.pump();
  rig.kill();
  rig.host.utc += std::int64_t{166} * 3'600'000;
  rig.restart();
  EXPECT_EQ(rig->timer_ms(), 0);
  EXPECT_EQ(rig.notice(), "notice.timer-clock");
  rig.wait(60'000);
  EXPECT_EQ(rig->timer_ms(), 60'000);
}

TEST_F(Clock, ADeviceAsleepForHoursWhileTheTimerRunsCountsThem) {
  ask::timer_start(app);
  rig.pump();
  rig.host.utc += 5 * 3'600'000;  // the monotonic clock stood still
  EXPECT_FALSE(app.timer_doubtful());
  EXPECT_EQ(app.timer_ms(), 5 * 3'600'000);
}

TEST_F(Clock, AnEntryMadeByAClockThatCannotBeRightIsTakenWithATimeThatIsNotCertain) {
  constexpr std::int64_t before_1970 = -5, after_9999 = kMaxUtcMs + 1;
  const std::int64_t now = rig.host.utc;
  for (const std::int64_t utc : {before_1970, after_9999, now - 3'600'000}) {
    rig.host.utc = utc;
    const std::size_t entries = app.session()->set.size();
    rig.weigh("portions", "100");
    ASSERT_GT(app.session()->set.size(), entries) << utc;
    EXPECT_EQ(app.session()->set.in_order().back()->time.utc_ms, 0) << utc;
  }
  rig.host.utc = now - 60'000;  // as two phones may differ
  rig.weigh("portions", "100");
  EXPECT_EQ(app.session()->set.in_order().back()->time.utc_ms, now - 60'000);
}

TEST_F(Clock, APieceOfACertainlyWrongClockHasACardAndAFileNameWithoutADate) {
  rig.host.utc = -1;
  ask::new_session(app);
  rig.pump();
  rig.enter(FieldKind::drained, "2000");
  EXPECT_EQ(show::date(app.shelf().cards.back().started_ms, 0, {}), say("show.no-date"));
  ask::export_session(app, app.session()->id, true);
  rig.pump();
  EXPECT_EQ(rig.host.offered.back().name, "tallyblock-session.json");
}

}  // namespace
}  // namespace tallyblock::test
