// What the screens of "where to cut" say: problems in the session's own ruler, blocks against their
// target, habit in words.
#include <gtest/gtest.h>

#include <cmath>

#include "core/cutting/cutting.h"
#include "cut_stage.h"

namespace tallyblock::test {
namespace {

class CutScreens : public CutStage {
 protected:
  void SetUp() override {
    CutStage::SetUp();
    measure_loin(at.rig);
  }
  void block(const std::string& grams) {
    at.go(Screen::cut, "guide");
    ask::edit(at.app(), {FieldKind::block, ""});
    ask::set_count(at.app(), 4);
    at.settle();
    answer(at.rig, grams);
  }
  void tap(const std::string& label) {
    at.settle();
    for (const AccessNode& n : at.access()) {
      if (n.label != label) continue;
      const AccessNode found = n;
      return at.stage.tap(found);
    }
    FAIL() << label << " is not on the screen: " << words();
  }
  std::optional<EntryId> cut_of(const ReadingLine& line) {
    return std::get<body::Reading>(at.app().session()->set.find(line.id)->body).cut;
  }
};

TEST_F(CutScreens, SayWhatStandsInTheWayInMillimetres) {
  type_length(at.rig, "thickness-max", "5");
  at.go(Screen::cut, "plan");
  EXPECT_TRUE(says("No block may be over 5 mm thick")) << words();
  EXPECT_TRUE(says(" mm works.")) << words();
}

TEST_F(CutScreens, SayWhatStandsInTheWayInSixteenthsOfAnInchAndItWorks) {
  ask::set_session_setting(at.app(), "ruler", "in");
  at.rig.pump();
  type_length(at.rig, "thickness-max", "1/4");
  at.go(Screen::cut, "plan");
  const std::string before = words();
  EXPECT_NE(before.find("No block may be over 1/4 in thick"), std::string::npos) << before;
  const std::size_t end = before.find(" in works.");
  ASSERT_NE(end, std::string::npos) << before;
  const std::size_t begin = before.rfind(". ", end) + 2;
  type_length(at.rig, "thickness-max", before.substr(begin, end - begin));
  EXPECT_FALSE(says("No block may be over")) << words();
  EXPECT_TRUE(says("Start cutting")) << words();
}

TEST_F(CutScreens, ShowTheCleanedWeightBeforeAnythingIsMeasured) {
  ask::new_session(at.app());
  at.rig.pump();
  at.rig.enter(FieldKind::drained, "2000");
  at.rig.enter(FieldKind::checkpoint, "1620", "main");
  at.go(Screen::cut);
  EXPECT_TRUE(says("1620 g")) << words();
}

TEST_F(CutScreens, TellATooHeavyTargetInGramsAndWhatIsThere) {
  at.rig.enter(FieldKind::target, "9000", "portions");
  at.go(Screen::cut, "plan");
  EXPECT_TRUE(says("A portion of 9000 g is more than the 5200 g there are")) << words();
}

TEST_F(CutScreens, TellWhatToDoWithABlockAndHowOneCuts) {
  block("420");
  EXPECT_TRUE(says("Trim ")) << words();
  EXPECT_TRUE(says(" to come to its target")) << words();
  EXPECT_TRUE(says("shows after a few blocks")) << words();
  EXPECT_TRUE(says("Planned: 37 mm")) << words();
  EXPECT_TRUE(says("No more portions")) << words();
  for (int i = 0; i < 3; ++i) block("380");
  EXPECT_TRUE(says("heavy. The marks allow for it")) << words();
  EXPECT_TRUE(says("Block 4, 2 × 190 g, within tolerance")) << words();
}

TEST_F(CutScreens, AskForTheWeightAgainOfABlockThatWasTakenOut) {
  block("350");
  const PileFigures& pile = at.rig.pile("portions");
  ASSERT_EQ(pile.lines.size(), 1U);
  ask::void_entry(at.app(), pile.lines[0].id);
  at.rig.pump();
  EXPECT_TRUE(says("Cut, not weighed")) << words();
  block("352");
  EXPECT_EQ(at.rig.grams("portions"), 352.0);
  EXPECT_TRUE(says("Cut 2, from the fresh face")) << words();
}

TEST_F(CutScreens, GoOnWhenASliceGaveFewerPortionsThanMeant) {
  at.go(Screen::cut, "guide");
  ask::edit(at.app(), {FieldKind::block, ""});
  at.settle();
  answer(at.rig, "178");
  EXPECT_TRUE(says("Portion 2 of ")) << words();
  EXPECT_TRUE(says("Then cut 2, from the fresh face")) << words();  // before the rest is weighed
  tap("No more of this slice");
  EXPECT_FALSE(says("Portion 2 of ")) << words();
  EXPECT_TRUE(says("Should give")) << words();
  at.go(Screen::weigh, "");
  at.go(Screen::cut, "guide");
  EXPECT_FALSE(says("Portion 2 of ")) << words();  // not forgotten on the way
  tap("One more of this slice");
  EXPECT_TRUE(says("Portion 2 of ")) << words();
  tap("No more of this slice");
  EXPECT_FALSE(says("Portion 2 of ")) << words();
  ask::undo(at.app());
  EXPECT_TRUE(says("Portion 2 of ")) << words();
  tap("No more of this slice");
  ask::edit(at.app(), {FieldKind::block, ""});
  at.settle();
  answer(at.rig, "181");
  const PileFigures& pile = at.rig.pile("portions");
  ASSERT_EQ(pile.lines.size(), 2U);
  EXPECT_NE(cut_of(pile.lines[0]), cut_of(pile.lines[1]));
}

// The one portion that came is taken out: its slice has none, so its weight is asked for again.
TEST_F(CutScreens, AskForTheWeightOfASliceThatWasClosedAndHasNoneLeft) {
  at.go(Screen::cut, "guide");
  ask::edit(at.app(), {FieldKind::block, ""});
  at.settle();
  answer(at.rig, "178");
  tap("No more of this slice");
  EXPECT_FALSE(says("Portion 2 of ")) << words();
  ask::void_entry(at.app(), at.rig.pile("portions").lines.at(0).id);
  at.rig.pump();
  EXPECT_TRUE(says("Cut, not weighed")) << words();
}

// At the end of the piece too.
TEST_F(CutScreens, TakeUpTheLastSliceAgain) {
  ask::set_long_pieces(at.app(), 2);
  at.rig.pump();
  at.go(Screen::cut, "guide");
  for (int i = 0; i < 80 && !says("Left over"); ++i) {
    if (says("Portion 2 of ")) {
      tap("No more of this slice");
      continue;
    }
    ask::edit(at.app(), {FieldKind::block, ""});
    at.settle();
    answer(at.rig, "178");
  }
  ASSERT_TRUE(says("Left over")) << words();
  tap("One more of this slice");
  EXPECT_TRUE(says("Portion 2 of ")) << words();
}

// What is left over before a block has a mark of its own; the blocks' marks alone would cut it into them.
TEST_F(CutScreens, MarkWhatIsLeftOverBeforeABlock) {
  ask::new_session(at.app());
  at.rig.pump();
  at.rig.enter(FieldKind::drained, "3000");
  at.rig.enter(FieldKind::target, "180", "portions");
  measure_first_face(at.rig, "400", "120", "10");  // too low for a block
  type_length(at.rig, "width:400 mm", "120");
  answer(at.rig, "80");
  type_length(at.rig, "least", "25");
  at.go(Screen::cut, "plan");
  const Plan plan = *cutting_of(at.app().session()->set, at.rig.figures()).at(0).objects.at(0).plan;
  ASSERT_EQ(plan.gaps, 1U);
  EXPECT_TRUE(says("left over")) << words();
  ask::cut_long_piece(at.app(), "");
  at.go(Screen::cut, "guide");
  EXPECT_TRUE(says("No portion comes from the first ")) << words();
  EXPECT_FALSE(says("Cut 1, from the first face")) << words();
  type_length(at.rig, "trim-front",
              std::to_string(std::lround(plan.blocks[0].from.in_millimetres())));
  ask::cut_long_piece(at.app(), "");
  at.go(Screen::cut, "guide");
  EXPECT_TRUE(says("Cut 1, from the fresh face")) << words();  // where that end was cut off
  at.rig.enter(FieldKind::length, "", "trim-front");
  at.go(Screen::cut, "plan");
  EXPECT_TRUE(says("left over")) << words();
  at.rig.enter(FieldKind::length, "", "least");
  EXPECT_FALSE(says("left over")) << words();
}

// So many are wanted: whether another cut comes depends on the portion that is missing.
TEST_F(CutScreens, NameNoMarkBeforeTheLastWantedPortionIsWeighed) {
  at.rig.enter(FieldKind::wanted, "2", "portions");
  at.go(Screen::cut, "guide");
  ask::edit(at.app(), {FieldKind::block, ""});
  at.settle();
  answer(at.rig, "178");
  EXPECT_TRUE(says("Portion 2 of 2")) << words();
  EXPECT_FALSE(says("Then cut 2")) << words();
}

TEST_F(CutScreens, SayThatTheWeightIsEstimatedUntilThePieceIsWeighed) {
  AppStage other;
  other.stage.size(360, 640, 2, 1);
  ask::new_session(other.app());
  other.rig.pump();
  other.rig.enter(FieldKind::target, "180", "portions");
  measure_first_face(other.rig, "600", "130", "80");
  ask::same_all_along(*other.rig);
  other.go(Screen::cut, "plan");
  const auto says_estimated = [&] {
    for (const AccessNode& n : other.access()) {
      if (n.label.find("estimated from the measures") != std::string::npos) return true;
    }
    return false;
  };
  EXPECT_TRUE(says_estimated());
  other.rig.enter(FieldKind::checkpoint, "6000", "main");
  other.settle();
  EXPECT_FALSE(says_estimated());
}

TEST_F(CutScreens, TellThatTheMeasuresDoNotFitTheWeight) {
  at.go(Screen::cut, "plan");
  EXPECT_FALSE(says("By its measures it would weigh about")) << words();
  type_length(at.rig, "piece", "60");  // a digit lost
  at.go(Screen::cut, "plan");
  EXPECT_TRUE(says("By its measures it would weigh about")) << words();
}

TEST_F(CutScreens, TellWhatEachNumberOfLongPiecesGives) {
  at.go(Screen::cut, "plan");
  const std::string all = words();
  EXPECT_NE(all.find("Best: "), std::string::npos) << all;
  EXPECT_NE(all.find("Not split: "), std::string::npos) << all;
  EXPECT_NE(all.find("In 4: "), std::string::npos) << all;
  EXPECT_NE(all.find(" will be within tolerance."), std::string::npos) << all;
}

}  // namespace
}  // namespace tallyblock::test
