// How far undo goes back, and who takes the board while another piece is fetched.
#include <gtest/gtest.h>

#include "fake_host.h"

namespace tallyblock::test {
namespace {

struct Board : ::testing::Test {
  Rig rig;
  App& app = *rig;
  void SetUp() override {
    ask::new_session(app);
    rig.pump();
    rig.enter(FieldKind::drained, "30000");
  }
};

TEST_F(Board, AFullListOfUndoLosesNoneByUndoing) {
  constexpr int most = 50;
  for (int i = 0; i < most + 10; ++i) rig.weigh("portions", "300");
  for (int i = 0; i < most; ++i) {
    ask::undo(app);
    EXPECT_EQ(app.notice()->key, "notice.undone") << i;
  }
  EXPECT_EQ(rig.grams("portions"), 3000.0);
  ask::undo(app);
  EXPECT_EQ(app.notice()->key, "notice.nothing-to-undo");
}

TEST_F(Board, APieceBegunWhileAnotherIsFetchedKeepsTheBoard) {
  const std::string first = app.session()->id;
  rig.weigh("portions", "300");
  ask::new_session(app);
  rig.pump();
  ask::open(app, first);
  EXPECT_EQ(app.opening(), first);
  ask::new_session(app);
  const std::string begun = app.session()->id;
  rig.pump();
  EXPECT_EQ(app.session()->id, begun);
  EXPECT_TRUE(app.opening().empty());
}

}  // namespace
}  // namespace tallyblock::test
