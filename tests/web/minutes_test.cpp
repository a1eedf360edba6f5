// Minutes, timed and typed; the ready-cut price for pieces: what the keypad makes of them and the
// screens say.
#include <gtest/gtest.h>

#include <algorithm>

#include "app_stage.h"
#include "web/figures/explain.h"
#include "web/figures/sentence.h"
#include "web/words/words.h"

namespace tallyblock::test {
namespace {

class AtTheResult : public ::testing::Test {
 protected:
  AtTheResult() {
    at.stage.size(360, 640, 2, 1);
    ask::new_session(*rig);
    rig.pump();
    rig.name("piece", "Loin");
    rig.enter(FieldKind::drained, "2000");
    at.go(Screen::result, "chapter:work");
  }
  bool shows(std::string_view path) {
    at.settle();
    return std::ranges::any_of(at.access(),
                               [&](const AccessNode& n) { return n.id == Kit::id_of(path); });
  }
  std::string said(std::string_view path) {
    at.settle();
    for (const AccessNode& n : at.access())
      if (n.id == Kit::id_of(path)) return n.label + " " + n.value;
    return {};
  }
  bool says(std::string_view path, std::string_view words) {
    return said(path).find(words) != std::string::npos;
  }
  void press(std::string_view path) {
    ASSERT_TRUE(shows(path)) << path;
    at.stage.in.activated.push_back(Kit::id_of(path));
    at.settle();
  }
  AppStage at;
  Rig& rig = at.rig;
};

class Minutes : public AtTheResult {
 protected:
  Minutes() {
    ask::timer_start(*rig);
    rig.wait(22 * 60'000);
    ask::timer_pause(*rig);
    rig.pump();
  }
  void type_minutes(const std::string& digits) {
    ask::edit(*rig, {FieldKind::minutes, ""});
    rig.type(digits);
    ask::enter(*rig);
    rig.pump();
  }
  double timed() { return rig.figures().minutes_timed; }
  double typed() { return rig.figures().minutes_typed; }
};

TEST_F(Minutes, TypedWhereSomeWereTimedAreAskedAboutAndNotAdded) {
  type_minutes("40");
  EXPECT_DOUBLE_EQ(rig.figures().minutes, 22.0);
  EXPECT_EQ(rig->draft().digits, "40");
  EXPECT_TRUE(shows("minutes/instead"));
  EXPECT_TRUE(shows("minutes/more"));
  rig.restart();  // the question outlives the page
  EXPECT_EQ(rig->draft().panel, "minutes");
  EXPECT_EQ(rig->draft().digits, "40");
}

TEST_F(Minutes, TypedInsteadTakeThePlaceOfTimedOnesUntilThatIsUndone) {
  type_minutes("40");
  press("minutes/instead");
  EXPECT_DOUBLE_EQ(timed(), 0.0);
  EXPECT_DOUBLE_EQ(typed(), 40.0);
  EXPECT_EQ(rig.notice(), "notice.minutes-instead");
  EXPECT_EQ(rig->draft().panel, "chapter:work") << "where they were typed";
  ask::undo(*rig);
  rig.pump();
  EXPECT_DOUBLE_EQ(timed(), 22.0);
  EXPECT_DOUBLE_EQ(typed(), 0.0);
}

TEST_F(Minutes, TypedOnTopStandBesideTheTimedOnes) {
  type_minutes("40");
  press("minutes/more");
  EXPECT_DOUBLE_EQ(timed(), 22.0);
  EXPECT_DOUBLE_EQ(typed(), 40.0);
  EXPECT_EQ(rig->notice()->args, (std::vector<std::string>{"40", "62"}));
  EXPECT_TRUE(says("field/minutes", "1 h 2 min: 22 min timed, 40 min typed"))
      << said("field/minutes");
}

TEST_F(Minutes, TypedASecondTimeAreAskedAboutToo) {
  type_minutes("40");
  press("minutes/instead");
  type_minutes("45");
  EXPECT_DOUBLE_EQ(rig.figures().minutes, 40.0);
  press("minutes/instead");
  EXPECT_DOUBLE_EQ(rig.figures().minutes, 45.0);
}

TEST_F(Minutes, TypedInsteadOfARunningTimerStopItAndReplaceWhatItMeasured) {
  ask::timer_start(*rig);
  rig.wait(3 * 60'000);
  type_minutes("30");
  press("minutes/instead");
  EXPECT_DOUBLE_EQ(rig.figures().minutes, 30.0);
  EXPECT_EQ(rig->draft().timer_started_ms, 0);
}

TEST_F(Minutes, TheQuestionGoesWithItsField) {
  type_minutes("40");
  ask::edit(*rig, {FieldKind::wage, ""});
  EXPECT_EQ(rig->draft().panel, "");
  EXPECT_DOUBLE_EQ(rig.figures().minutes, 22.0);
}

TEST_F(Minutes, TimedOnTopOfOthersAreSaidWithTheSum) {
  ask::timer_start(*rig);
  rig.wait(5 * 60'000);
  ask::timer_pause(*rig);
  rig.pump();
  EXPECT_EQ(rig.notice(), "notice.timed-more");
  EXPECT_EQ(rig->notice()->args, (std::vector<std::string>{"5", "27"}));
}

class ReadyCutForPieces : public AtTheResult {
 protected:
  ReadyCutForPieces() {
    rig.enter(FieldKind::price_per_mass, "10");
    rig.weigh("portions", "900");
    at.go(Screen::result, "chapter:buy");
  }
  double per_kg() {
    const auto& price = rig.figures().ready_cut;
    return price ? price->per(MassUnit::kilogram) : 0.0;
  }
};

TEST_F(ReadyCutForPieces, IsEnteredAsAnAmountTheirNumberAndTheirWeight) {
  rig.enter(FieldKind::ready_cut, "23.15");
  EXPECT_DOUBLE_EQ(per_kg(), 23.15);
  EXPECT_FALSE(shows("field/ready-cut-piece"));
  rig.enter(FieldKind::ready_cut_pieces, "24");
  EXPECT_EQ(per_kg(), 0.0);  // what does one weigh?
  EXPECT_EQ(rig.figures().ready_cut_need, Code::need_piece_weight);
  EXPECT_TRUE(says("field/ready-cut", "23.15 € for 24")) << said("field/ready-cut");
  rig.enter(FieldKind::ready_cut_piece, "170");
  EXPECT_NEAR(per_kg(), 23.15 / 4.08, 1e-9);
  EXPECT_TRUE(says("field/ready-cut-piece", "170 g")) << said("field/ready-cut-piece");
  rig.enter(FieldKind::ready_cut, "25");
  rig.enter(FieldKind::ready_cut_yield, "98");
  EXPECT_NEAR(per_kg(), 25.0 / 4.08, 1e-9);  // still for 24
  EXPECT_DOUBLE_EQ(rig.figures().ready_cut_yield, 0.98);
  EXPECT_EQ(rig->session()->minor, 0);
  EXPECT_NE(write_session(file_of(*rig->session())).find("\"minor\":3"), std::string::npos);
}

TEST_F(ReadyCutForPieces, TakesTheTargetAsTheWeightOfOneAndIsExplained) {
  rig.enter(FieldKind::target, "200", "portions");
  rig.enter(FieldKind::ready_cut, "23.15");
  rig.enter(FieldKind::ready_cut_pieces, "24");
  EXPECT_NEAR(per_kg(), 23.15 / 4.8, 1e-9);
  EXPECT_TRUE(says("field/ready-cut-piece", "200 g, the target")) << said("field/ready-cut-piece");
  std::string sentence;
  for (const explain::Line& line :
       explain::make_or_buy(rig.figures(), show::style_of(rig.figures().settings)))
    if (line.id == "ready-cut-by-weight") sentence = line.sentence;
  EXPECT_EQ(sentence,
            "The ready-cut price over the number of pieces times the weight of one: "
            "23.15 ÷ (24 × 0.2) = 4.82 € per kg.");
}

TEST_F(ReadyCutForPieces, IsAPriceByWeightAgainWithoutANumber) {
  rig.enter(FieldKind::ready_cut, "23.15");
  rig.enter(FieldKind::ready_cut_pieces, "24");
  rig.enter(FieldKind::ready_cut_pieces, "0");
  EXPECT_DOUBLE_EQ(per_kg(), 23.15);
  EXPECT_FALSE(rig.figures().piece_price);
}

TEST_F(ReadyCutForPieces, RefusesWhatIsNoNumberOfPiecesAndAPriceThatIsNotThere) {
  rig.enter(FieldKind::ready_cut_pieces, "24");
  ASSERT_TRUE(rig->keypad().problem);
  EXPECT_EQ(rig->keypad().problem->code, Code::need_ready_cut_price);
  ask::key(*rig, "clear");
  rig.enter(FieldKind::ready_cut, "23.15");
  rig.enter(FieldKind::ready_cut_pieces, "2.5");
  EXPECT_EQ(rig->keypad().problem->code, Code::typed_not_whole);
  EXPECT_EQ(rig->draft().digits, "2.5");
  rig.enter(FieldKind::ready_cut_piece, "170");
  EXPECT_EQ(rig->keypad().problem->code, Code::need_ready_cut_pieces);
}

TEST_F(ReadyCutForPieces, AQuotedYieldOfNothingIsRefusedWithASentence) {
  rig.enter(FieldKind::ready_cut, "23.15");
  rig.enter(FieldKind::ready_cut_yield, "0");
  ASSERT_TRUE(rig->keypad().problem);
  EXPECT_EQ(rig->keypad().problem->code, Code::typed_zero);
  EXPECT_FALSE(show::problem(*rig->keypad().problem, {}).empty());
  EXPECT_EQ(rig->draft().digits, "0");
  EXPECT_DOUBLE_EQ(rig.figures().ready_cut_yield, 1.0);
}

}  // namespace
}  // namespace tallyblock::test
