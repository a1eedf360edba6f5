// A block's weight that cannot be is asked about in one tap; a heavy block is trimmed in one tap.
#include <gtest/gtest.h>

#include "app_stage.h"
#include "board.h"
#include "core/cutting/cutting.h"

namespace tallyblock::test {
namespace {

class CutAsks : public ::testing::Test {
 protected:
  void SetUp() override {
    ASSERT_TRUE(at.stage.has_font) << "the font of the tests is missing: install fonts-inter";
    at.stage.size(390, 844, 2, 1);
    at.stage.in.reduced_motion = true;
    ask::new_session(at.app());
    at.rig.pump();
    measure_loin(at.rig);
    ask::set_long_pieces(at.app(), 1);
    at.rig.pump();
    at.go(Screen::cut, "guide");
    ask::edit(at.app(), {FieldKind::block, ""});
    at.settle();
  }
  void block(const std::string& grams) {
    ask::edit(at.app(), {FieldKind::block, ""});
    at.settle();
    answer(at.rig, grams);
    at.settle();
  }
  const AccessNode* shown(const std::string& label) {
    nodes = at.access();
    for (const AccessNode& n : nodes) {
      if (n.label.find(label) != std::string::npos) return &n;
    }
    return nullptr;
  }
  void tap(const std::string& label) {
    const AccessNode* node = shown(label);
    ASSERT_NE(node, nullptr) << label;
    const AccessNode found = *node;
    at.stage.tap(found);
    at.settle();
  }
  CuttingObject piece() {
    const auto views = cutting_of(at.app().session()->set, at.app().session()->figures);
    return views.front().objects.front();
  }
  // Of the pile's readings that count, in order.
  std::vector<Mass> in_pile(const std::string& key) {
    std::vector<Mass> found;
    for (const ReadingLine& line : pile_named(at.app().session()->figures, key)->lines) {
      if (!line.is_void && !line.outvoted) found.push_back(line.net);
    }
    return found;
  }
  AppStage at;
  std::vector<AccessNode> nodes;
};

TEST_F(CutAsks, AWeightTenTimesTooLargeIsAskedAboutAndTheOtherTakenInOneTap) {
  block("1810");
  ASSERT_TRUE(at.app().keypad().asked.weight);
  EXPECT_TRUE(in_pile("portions").empty());
  ASSERT_NE(shown("1810 g? This cut should give about"), nullptr);
  tap("181 g");
  EXPECT_FALSE(at.app().keypad().asked.weight);
  ASSERT_EQ(in_pile("portions").size(), 1u);
  EXPECT_EQ(in_pile("portions")[0], Mass::grams(181));
}

// The decimal mark was left out: the scale shows tenths of an ounce, so that is what may have been meant.
TEST_F(CutAsks, AForgottenDecimalMarkIsOfferedAsTheScaleShowsIt) {
  ask::set_session_setting(at.app(), "unit", "lb-oz");
  ask::set_session_setting(at.app(), "division", "0.1 oz");
  at.settle();
  ask::edit(at.app(), {FieldKind::block, ""});
  at.settle();
  for (const char* key : {"6", "3", "oz"}) ask::key(at.app(), key);
  ask::enter(at.app());
  at.settle();
  ASSERT_TRUE(at.app().keypad().asked.weight);
  EXPECT_EQ(at.app().keypad().asked.weight->meant.front(), "6.3 oz");
  EXPECT_NE(shown("63 oz? This cut should give about"), nullptr);
  EXPECT_NE(shown("63 oz is right"), nullptr);
  ask::answer_weight(at.app(), "6.3 oz");
  at.settle();
  ASSERT_EQ(in_pile("portions").size(), 1u);
  EXPECT_NEAR(in_pile("portions")[0].in(MassUnit::ounce), 6.3, 1e-9);
}

TEST_F(CutAsks, WhatIsSaidToBeRightIsKeptSoAndBelieved) {
  block("281");
  ASSERT_TRUE(at.app().keypad().asked.weight);
  tap("281 g is right");
  ASSERT_EQ(in_pile("portions").size(), 1u);
  EXPECT_EQ(in_pile("portions")[0], Mass::grams(281));
  EXPECT_EQ(piece().remaining, Mass::grams(5200 - 281));
}

TEST_F(CutAsks, TypingOnTakesTheQuestionAway) {
  block("1810");
  ASSERT_TRUE(at.app().keypad().asked.weight);
  ask::key(at.app(), "back");
  at.settle();
  EXPECT_FALSE(at.app().keypad().asked.weight);
  EXPECT_EQ(at.app().draft().digits, "181");
}

TEST_F(CutAsks, DigitsTypedAfterTheQuestionAreThoseOfAnotherWeight) {
  block("1810");
  ASSERT_TRUE(at.app().keypad().asked.weight);
  for (const char* key : {"1", "8", "3"}) ask::key(at.app(), key);
  at.settle();
  EXPECT_FALSE(at.app().keypad().asked.weight);
  EXPECT_EQ(at.app().draft().digits, "183");
}

TEST_F(CutAsks, AHeavyBlockIsTrimmedInOneTapAndTheCutStillGaveWhatItGave) {
  block("200");
  EXPECT_FALSE(at.app().keypad().asked.weight);
  const Mass left = piece().remaining;
  tap("Trimmed: ");
  EXPECT_EQ(in_pile("portions"), std::vector<Mass>{Mass::grams(180)});
  EXPECT_EQ(piece().remaining, left);
  EXPECT_EQ(piece().cuts.front().verdicts.front().fate, Fate::keep);
  Mass trims;
  for (const PileFigures& pile : at.app().session()->figures.piles) {
    if (pile.key != "portions") trims += pile.weighed.value();
  }
  EXPECT_EQ(trims, Mass::grams(20));
  ask::undo(at.app());
  at.settle();
  EXPECT_EQ(in_pile("portions"), std::vector<Mass>{Mass::grams(200)});
}

}  // namespace
}  // namespace tallyblock::test
