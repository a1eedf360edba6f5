// What a cook may rely on at the board: several pieces are never one portion, undo belongs to its
// piece, half-typed digits stay.
#include "board_acts.h"
#include "core/cutting/aim.h"

namespace tallyblock::test {
namespace {

// ---- how many pieces

TEST_F(BoardActs, AWeightLikeSeveralPortionsAsksHowManyThereAre) {
  rig.enter(FieldKind::target, "180", "portions");
  rig.weigh("portions", "1463");
  EXPECT_EQ(rig.grams("portions"), 0.0);
  EXPECT_EQ(rig->keypad().asked.count, 8U);
  EXPECT_EQ(rig->draft().panel, "count");
  EXPECT_NE(said("weigh/how-many-why").find("like 8 portions"), std::string::npos);
  ask::set_count(*rig, 8);
  ask::enter(*rig);
  rig.pump();
  EXPECT_EQ(rig.grams("portions"), 1463.0);
  EXPECT_EQ(rig.pile("portions").pieces, 8U);
  EXPECT_TRUE(rig.figures().targets.front().singles.empty());
}

TEST_F(BoardActs, OneHeavyPieceIsBelievedWhenItIsSaidToBeOne) {
  rig.enter(FieldKind::target, "180", "portions");
  rig.weigh("portions", "500");
  ASSERT_EQ(rig->keypad().asked.count, 3U);
  ask::set_count(*rig, 1);
  ask::enter(*rig);
  rig.pump();
  EXPECT_EQ(rig.grams("portions"), 500.0);
  EXPECT_EQ(rig.pile("portions").pieces, 1U);
  rig.weigh("portions", "360");
  EXPECT_EQ(rig->keypad().asked.count, 2U) << "said of that weight alone";
}

TEST_F(BoardActs, WithoutATargetTheFirstTwoSinglesTellWhatOneWeighs) {
  rig.weigh("portions", "182");
  rig.weigh("portions", "178");
  rig.weigh("portions", "560");
  EXPECT_EQ(rig->keypad().asked.count, 3U);
  ask::choose_pile(*rig, "usable-trim");  // with the digits that wait
  rig.pump();
  EXPECT_EQ(rig.grams("usable-trim"), 560.0) << "trim comes in every size";
}

TEST_F(BoardActs, HowManyPiecesCanBeCorrectedAfterwards) {
  rig.weigh("portions", "720");
  ask::edit(*rig, {FieldKind::anew, to_text(rig.pile("portions").lines.back().id)});
  EXPECT_EQ(rig->draft().count, 1U);
  ask::set_count(*rig, 4);
  ask::enter(*rig);
  rig.pump();
  EXPECT_EQ(rig.grams("portions"), 720.0);
  EXPECT_EQ(rig.pile("portions").pieces, 4U);
  EXPECT_EQ(rig.notice(), "notice.counted-anew");
  EXPECT_EQ(rig->draft().count, 1U);
  ask::undo(*rig);
  EXPECT_EQ(rig.pile("portions").pieces, 1U);
}

TEST_F(BoardActs, TheMeanOfAllStandsBesideAndFewSinglesGiveNoSpread) {
  rig.enter(FieldKind::target, "180", "portions");
  ask::set_count(*rig, 8);
  rig.weigh("portions", "1464");
  rig.weigh("portions", "181");
  rig.weigh("portions", "177");
  at.go(Screen::result, "chapter:portions");
  EXPECT_TRUE(said("result/mean-of-all/portions").starts_with("182 g each over 10."))
      << said("result/mean-of-all/portions");
  EXPECT_TRUE(shows("result/few-singles/portions"));
  EXPECT_FALSE(shows("figure/portions-s:portions"));
  ask::go(*rig, Screen::weigh);
  rig.weigh("portions", "183");
  at.go(Screen::result, "chapter:portions");
  EXPECT_FALSE(shows("result/few-singles/portions"));
  EXPECT_TRUE(shows("figure/portions-s:portions"));
}

TEST_F(BoardActs, PiecesWeighedTogetherBeforeThereWasATargetAreAskedAboutAfterwards) {
  rig.weigh("portions", "1440");
  rig.enter(FieldKind::target, "180", "portions");
  at.go(Screen::result, "chapter:portions");
  EXPECT_NE(said("result/like-several/portions").find("like 8"), std::string::npos);
  press("result/say-how-many/portions");
  EXPECT_EQ(rig->draft().screen, Screen::weigh);
  press("weigh/on-scale/8");
  rig.pump();
  EXPECT_EQ(rig.pile("portions").pieces, 8U);
  EXPECT_EQ(rig.grams("portions"), 1440.0);
  at.go(Screen::result, "chapter:portions");
  EXPECT_FALSE(shows("result/like-several/portions"));
}

// ---- nothing typed

TEST_F(BoardActs, AnEmptyWeighSaysThatNothingWasTyped) {
  rig.weigh("portions", "180");
  ask::enter(*rig);
  rig.pump();
  ASSERT_TRUE(rig->keypad().problem);
  EXPECT_EQ(rig->keypad().problem->code, Code::typed_empty);
  EXPECT_TRUE(shows("weigh/display/problem"));
  ask::key(*rig, "1");
  EXPECT_FALSE(rig->keypad().problem);
}

// ---- undo

TEST_F(BoardActs, ANoticeAndItsUndoLeaveWithThePieceAndAreThereAgain) {
  const std::string first = rig->session()->id;
  rig.weigh("portions", "180");
  begin("3000");
  rig.weigh("portions", "400");
  ask::open(*rig, first);
  rig.pump();
  ASSERT_EQ(rig.notice(), "notice.weighed");
  EXPECT_EQ(rig->notice()->args.front(), "180 g");
  ask::undo(*rig);
  EXPECT_EQ(rig.grams("portions"), 0.0);
  ask::go(*rig, Screen::sessions);
  EXPECT_EQ(rig.notice(), "");
}

TEST_F(BoardActs, UndoOfTheBinTakesThePieceOutAgainWhateverElseWasDone) {
  const std::string first = rig->session()->id;
  rig.weigh("portions", "180");
  ask::put_in_bin(*rig, first);
  rig.pump();
  EXPECT_EQ(rig.notice(), "notice.binned");
  begin("3000");
  ask::go(*rig, Screen::sessions);
  ASSERT_EQ(rig.notice(), "notice.binned");
  ask::undo(*rig);
  rig.pump();
  EXPECT_EQ(rig->shelf().cards.size(), 2U);
  ask::open(*rig, first);
  rig.pump();
  ask::undo(*rig);
  EXPECT_EQ(rig.grams("portions"), 0.0) << "its own undo waited with it";
}

TEST_F(BoardActs, UndoPassesOverWhatWasTakenOutInAnotherWay) {
  rig.weigh("portions", "180");
  rig.weigh("portions", "190");
  const EntryId last = rig.pile("portions").lines.back().id;
  ask::undo(*rig);
  ask::restore_entry(*rig, last);
  ask::undo(*rig);
  EXPECT_EQ(rig.grams("portions"), 180.0);
  ask::undo(*rig);
  EXPECT_EQ(rig.grams("portions"), 0.0);
  ask::undo(*rig);
  ask::undo(*rig);
  ask::undo(*rig);
  ask::undo(*rig);
  EXPECT_EQ(rig.notice(), "notice.nothing-to-undo");
}

// ---- digits half typed

TEST_F(BoardActs, HalfTypedDigitsOfEveryFieldSurviveTappingAnother) {
  ask::go(*rig, Screen::result);
  ask::edit(*rig, {FieldKind::price_per_mass, ""});
  rig.type("12.5");
  ask::edit(*rig, {FieldKind::wage, ""});
  rig.type("21");
  ask::edit(*rig, {FieldKind::target, "portions"});
  ask::set_unit(*rig, "kg");
  rig.type("0.18");
  ask::edit(*rig, {FieldKind::price_per_mass, ""});
  EXPECT_EQ(rig->draft().digits, "12.5");
  ask::go(*rig, Screen::weigh);
  ask::set_unit(*rig, "g");
  rig.restart();
  ask::go(*rig, Screen::result);
  ask::edit(*rig, {FieldKind::wage, ""});
  EXPECT_EQ(rig->draft().digits, "21");
  ask::edit(*rig, {FieldKind::target, "portions"});
  EXPECT_EQ(rig->draft().digits, "0.18");
  EXPECT_EQ(rig->draft().unit, "kg") << "digits keep their unit";
  ask::enter(*rig);
  ask::edit(*rig, {FieldKind::target, "portions"});
  EXPECT_EQ(rig->draft().digits, "") << "what counts is not half typed any more";
}

TEST_F(BoardActs, AFieldShowsWhatItHoldsAlsoBeforeThePieceIsWeighedIn) {
  ask::new_session(*rig);
  rig.pump();
  rig.enter(FieldKind::price_per_mass, "12.50");
  at.go(Screen::result, "chapter:costs");
  EXPECT_NE(said("field/price-per-mass").find("12.50"), std::string::npos);
  ask::edit(*rig, {FieldKind::price_per_mass, ""});
  EXPECT_NE(said("sheet/display").find("now 12.50"), std::string::npos) << said("sheet/display");
}

// Enter on the keyboard presses what has the focus: the field that the finger opened.
TEST_F(BoardActs, EnterOnAnOpenFieldTakesWhatWasTyped) {
  at.go(Screen::result, "chapter:costs");
  press("field/price-per-mass");
  EXPECT_EQ(rig->draft().field.kind, FieldKind::price_per_mass);
  for (const char* digit : {"7", ".", "4"}) ask::key(*rig, digit);
  press("field/price-per-mass");
  EXPECT_NE(said("field/price-per-mass").find("7.40"), std::string::npos);
}

// A steady hand could aim low within the tolerance and never be short: the declared weight is aimed at.
TEST_F(BoardActs, WhatIsSoldAsSoMuchIsNeverAimedAtLess) {
  rig.enter(FieldKind::price_per_mass, "10");
  rig.enter(FieldKind::target, "180", "portions");
  for (const char* grams : {"178", "182", "179", "181", "180"}) rig.weigh("portions", grams);
  at.go(Screen::result, "chapter:portions");
  EXPECT_FALSE(shows("result/aim/portions"));
  for (const char* grams : {"155", "205", "158", "202"}) rig.weigh("portions", grams);
  EXPECT_TRUE(shows("result/aim/portions"));
}

TEST_F(BoardActs, AToleranceCanGoBackToTheUsualOne) {
  rig.enter(FieldKind::target, "180", "portions");
  const Mass usual = rig.figures().targets.front().tolerance;
  rig.enter(FieldKind::tolerance, "2", "portions");
  at.go(Screen::result, "chapter:portions");
  EXPECT_TRUE(shows("usual-tolerance/portions"));
  ask::usual_tolerance(*rig, "portions");
  rig.pump();
  EXPECT_EQ(rig.figures().targets.front().tolerance, usual);
  EXPECT_FALSE(shows("usual-tolerance/portions"));
}

}  // namespace
}  // namespace tallyblock::test
