// What a cook may rely on at the board: several pieces are never one portion, undo belongs to its
// piece, half-typed digits stay, cooking changes no raw figure, nothing invented is carried over.
#include <gtest/gtest.h>

#include <algorithm>

#include "app_stage.h"
#include "core/aim.h"
#include "web/words/words.h"

namespace tallyblock::test {
namespace {

struct BoardActs : ::testing::Test {
  AppStage at;
  Rig& rig = at.rig;
  void SetUp() override {
    at.stage.size(360, 640, 2, 1);
    begin("2000");
  }
  void begin(const std::string& whole) {
    rig->new_session();
    rig.pump();
    rig.name("piece", "Loin");
    rig.enter(FieldKind::drained, whole);
  }
  bool shows(std::string_view path) {
    at.settle();
    return std::ranges::any_of(at.access(),
                               [&](const AccessNode& n) { return n.id == Kit::id_of(path); });
  }
  std::string said(std::string_view path) {
    at.settle();
    for (const AccessNode& n : at.access()) {
      if (n.id == Kit::id_of(path)) return n.label + " " + n.value;
    }
    return {};
  }
  void press(std::string_view path) {
    at.stage.in.activated.push_back(Kit::id_of(path));
    at.settle();
  }
  void step_of_cooking() {
    rig.weigh("portions", "180");
    rig.weigh("portions", "190");
    rig->break_down("portions", "Roasting", Process::cooking);
    rig.pump();
  }
  std::string cooked() { return rig.figures().piles.back().key; }
};

// ---- how many pieces

TEST_F(BoardActs, AWeightLikeSeveralPortionsAsksHowManyThereAre) {
  rig.enter(FieldKind::target, "180", "portions");
  rig.weigh("portions", "1463");
  EXPECT_EQ(rig.grams("portions"), 0.0);
  EXPECT_EQ(rig->asked_count(), 8U);
  EXPECT_EQ(rig->draft().panel, "count");
  EXPECT_NE(said("weigh/how-many-why").find("like 8 portions"), std::string::npos);
  rig->set_count(8);
  rig->enter();
  rig.pump();
  EXPECT_EQ(rig.grams("portions"), 1463.0);
  EXPECT_EQ(rig.pile("portions").pieces, 8U);
  EXPECT_TRUE(rig.figures().targets.front().singles.empty());
}

TEST_F(BoardActs, OneHeavyPieceIsBelievedWhenItIsSaidToBeOne) {
  rig.enter(FieldKind::target, "180", "portions");
  rig.weigh("portions", "500");
  ASSERT_EQ(rig->asked_count(), 3U);
  rig->set_count(1);
  rig->enter();
  rig.pump();
  EXPECT_EQ(rig.grams("portions"), 500.0);
  EXPECT_EQ(rig.pile("portions").pieces, 1U);
  rig.weigh("portions", "360");
  EXPECT_EQ(rig->asked_count(), 2U) << "said of that weight alone";
}

TEST_F(BoardActs, WithoutATargetTheFirstTwoSinglesTellWhatOneWeighs) {
  rig.weigh("portions", "182");
  rig.weigh("portions", "178");
  rig.weigh("portions", "560");
  EXPECT_EQ(rig->asked_count(), 3U);
  rig->choose_pile("usable-trim");  // with the digits that wait
  rig.pump();
  EXPECT_EQ(rig.grams("usable-trim"), 560.0) << "trim comes in every size";
}

TEST_F(BoardActs, HowManyPiecesCanBeCorrectedAfterwards) {
  rig.weigh("portions", "720");
  rig->edit({FieldKind::anew, to_text(rig.pile("portions").lines.back().id)});
  EXPECT_EQ(rig->draft().count, 1U);
  rig->set_count(4);
  rig->enter();
  rig.pump();
  EXPECT_EQ(rig.grams("portions"), 720.0);
  EXPECT_EQ(rig.pile("portions").pieces, 4U);
  EXPECT_EQ(rig.notice(), "notice.counted-anew");
  EXPECT_EQ(rig->draft().count, 1U);
  rig->undo();
  EXPECT_EQ(rig.pile("portions").pieces, 1U);
}

TEST_F(BoardActs, TheMeanOfAllStandsBesideAndFewSinglesGiveNoSpread) {
  rig.enter(FieldKind::target, "180", "portions");
  rig->set_count(8);
  rig.weigh("portions", "1464");
  rig.weigh("portions", "181");
  rig.weigh("portions", "177");
  at.go(Screen::result);
  EXPECT_TRUE(said("result/mean-of-all/portions").starts_with("182 g each over 10."))
      << said("result/mean-of-all/portions");
  EXPECT_TRUE(shows("result/few-singles/portions"));
  EXPECT_FALSE(shows("figure/portions-s:portions"));
  rig->go(Screen::weigh);
  rig.weigh("portions", "183");
  at.go(Screen::result);
  EXPECT_FALSE(shows("result/few-singles/portions"));
  EXPECT_TRUE(shows("figure/portions-s:portions"));
}

// ---- nothing typed

TEST_F(BoardActs, AnEmptyWeighSaysThatNothingWasTyped) {
  rig.weigh("portions", "180");
  rig->enter();
  rig.pump();
  ASSERT_TRUE(rig->field_problem());
  EXPECT_EQ(rig->field_problem()->code, Code::typed_empty);
  EXPECT_TRUE(shows("weigh/display/problem"));
  rig->key("1");
  EXPECT_FALSE(rig->field_problem());
}

// ---- undo

TEST_F(BoardActs, ANoticeAndItsUndoLeaveWithThePieceAndAreThereAgain) {
  const std::string first = rig->session()->id;
  rig.weigh("portions", "180");
  begin("3000");
  rig.weigh("portions", "400");
  rig->open(first);
  rig.pump();
  ASSERT_EQ(rig.notice(), "notice.weighed");
  EXPECT_EQ(rig->notice()->args.front(), "180 g");
  rig->undo();
  EXPECT_EQ(rig.grams("portions"), 0.0);
  rig->go(Screen::sessions);
  EXPECT_EQ(rig.notice(), "");
}

TEST_F(BoardActs, UndoOfTheBinTakesThePieceOutAgainWhateverElseWasDone) {
  const std::string first = rig->session()->id;
  rig.weigh("portions", "180");
  rig->put_in_bin(first);
  rig.pump();
  EXPECT_EQ(rig.notice(), "notice.binned");
  begin("3000");
  rig->go(Screen::sessions);
  ASSERT_EQ(rig.notice(), "notice.binned");
  rig->undo();
  rig.pump();
  EXPECT_EQ(rig->cards().size(), 2U);
  rig->open(first);
  rig.pump();
  rig->undo();
  EXPECT_EQ(rig.grams("portions"), 0.0) << "its own undo waited with it";
}

TEST_F(BoardActs, UndoPassesOverWhatWasTakenOutInAnotherWay) {
  rig.weigh("portions", "180");
  rig.weigh("portions", "190");
  const EntryId last = rig.pile("portions").lines.back().id;
  rig->undo();
  rig->restore_entry(last);
  rig->undo();
  EXPECT_EQ(rig.grams("portions"), 180.0);
  rig->undo();
  EXPECT_EQ(rig.grams("portions"), 0.0);
  rig->undo();
  rig->undo();
  rig->undo();
  rig->undo();
  EXPECT_EQ(rig.notice(), "notice.nothing-to-undo");
}

// ---- digits half typed

TEST_F(BoardActs, HalfTypedDigitsOfEveryFieldSurviveTappingAnother) {
  rig->go(Screen::result);
  rig->edit({FieldKind::price_per_mass, ""});
  rig.type("12.5");
  rig->edit({FieldKind::wage, ""});
  rig.type("21");
  rig->edit({FieldKind::target, "portions"});
  rig->set_unit("kg");
  rig.type("0.18");
  rig->edit({FieldKind::price_per_mass, ""});
  EXPECT_EQ(rig->draft().digits, "12.5");
  rig->go(Screen::weigh);
  rig->set_unit("g");
  rig.restart();
  rig->go(Screen::result);
  rig->edit({FieldKind::wage, ""});
  EXPECT_EQ(rig->draft().digits, "21");
  rig->edit({FieldKind::target, "portions"});
  EXPECT_EQ(rig->draft().digits, "0.18");
  EXPECT_EQ(rig->draft().unit, "kg") << "digits keep their unit";
  rig->enter();
  rig->edit({FieldKind::target, "portions"});
  EXPECT_EQ(rig->draft().digits, "") << "what counts is not half typed any more";
}

TEST_F(BoardActs, AFieldShowsWhatItHoldsAlsoBeforeThePieceIsWeighedIn) {
  rig->new_session();
  rig.pump();
  rig.enter(FieldKind::price_per_mass, "12.50");
  at.go(Screen::result);
  EXPECT_NE(said("field/price-per-mass").find("12.50"), std::string::npos);
  rig->edit({FieldKind::price_per_mass, ""});
  EXPECT_NE(said("sheet/display").find("now 12.50"), std::string::npos) << said("sheet/display");
}

// Enter on the keyboard presses what has the focus: the field that the finger opened.
TEST_F(BoardActs, EnterOnAnOpenFieldTakesWhatWasTyped) {
  at.go(Screen::result);
  press("field/price-per-mass");
  EXPECT_EQ(rig->draft().field.kind, FieldKind::price_per_mass);
  for (const char* digit : {"7", ".", "4"}) rig->key(digit);
  press("field/price-per-mass");
  EXPECT_NE(said("field/price-per-mass").find("7.40"), std::string::npos);
}

// A steady hand could aim low within the tolerance and never be short.
TEST_F(BoardActs, WhatIsSoldAsSoMuchIsNeverAimedAtLess) {
  rig.enter(FieldKind::price_per_mass, "10");
  rig.enter(FieldKind::target, "180", "portions");
  const TargetFigures& target = rig.figures().targets.front();
  for (const char* grams : {"178", "182", "179", "181", "180"}) rig.weigh("portions", grams);
  const Money price = target.target * *rig.figures().yield->cost_per_primary;
  const auto s = Mass::grams(*target.portions->grams.s);
  ASSERT_LT(where_to_aim(target.target, target.target - target.tolerance, s, price,
                         *rig.figures().yield->cost_per_primary)
                .aim,
            target.target);
  at.go(Screen::result);
  EXPECT_FALSE(shows("result/aim/portions"));
  for (const char* grams : {"155", "205", "158", "202"}) rig.weigh("portions", grams);
  EXPECT_TRUE(shows("result/aim/portions"));
}

TEST_F(BoardActs, AToleranceCanGoBackToTheUsualOne) {
  rig.enter(FieldKind::target, "180", "portions");
  const Mass usual = rig.figures().targets.front().tolerance;
  rig.enter(FieldKind::tolerance, "2", "portions");
  at.go(Screen::result);
  EXPECT_TRUE(shows("usual-tolerance/portions"));
  rig->usual_tolerance("portions");
  rig.pump();
  EXPECT_EQ(rig.figures().targets.front().tolerance, usual);
  EXPECT_FALSE(shows("usual-tolerance/portions"));
}

// ---- cooking

TEST_F(BoardActs, CookingChangesNoRawFigureAndIsTakenOutWholeWithOneUndo) {
  rig.enter(FieldKind::price_per_mass, "10");
  step_of_cooking();
  const double before = rig.figures().yield->cost_per_primary->per(MassUnit::gram);
  rig.weigh(cooked(), "290");
  EXPECT_EQ(rig.figures().primary.value().in_grams(), 370.0);
  EXPECT_EQ(rig.figures().yield->cost_per_primary->per(MassUnit::gram), before);
  const std::string step = rig.figures().steps.back().key;
  at.go(Screen::details, "pile:portions");
  EXPECT_NE(said("details/step/" + step).find("370 g raw, 290 g cooked, 21.6 % lost"),
            std::string::npos)
      << said("details/step/" + step);
  rig->take_out_step(step);
  rig.pump();
  EXPECT_EQ(rig.figures().steps.size(), 1U);
  EXPECT_EQ(rig.figures().piles.size(), 4U);
  EXPECT_FALSE(rig.has_doubt(Code::doubt_unknown_reference));
  rig->undo();
  EXPECT_EQ(rig.figures().steps.size(), 2U);
  EXPECT_EQ(rig.grams(cooked()), 290.0);
}

// ---- same again, the sample

TEST_F(BoardActs, SameAgainKeepsTheOrderOfThePilesAndTheReadyCutsYield) {
  rig.enter(FieldKind::ready_cut, "31");
  rig.enter(FieldKind::ready_cut_yield, "96");
  rig.name("pile:portions", "Steaks");  // said last, first all the same
  rig->same_again(rig->session()->id);
  rig.pump();
  ASSERT_EQ(rig.figures().piles.size(), 4U);
  EXPECT_EQ(rig.figures().piles[0].name, "Steaks");
  EXPECT_DOUBLE_EQ(rig.figures().ready_cut_yield, 0.96);
}

TEST_F(BoardActs, SameAgainOfTheSampleCarriesPilesAndNamesAndNothingInvented) {
  rig->load_sample();
  rig.pump();
  for (const SessionCard& card : rig->cards()) {
    if (!card.sample) continue;
    rig->same_again(card.id);
    rig.pump();
    break;
  }
  EXPECT_FALSE(rig->session()->sample);
  EXPECT_FALSE(rig.figures().piece.empty());
  EXPECT_GE(rig.figures().piles.size(), 3U);
  for (const Entry* entry : rig->session()->set.in_order()) {
    EXPECT_FALSE(std::holds_alternative<body::Price>(entry->body));
    EXPECT_FALSE(std::holds_alternative<body::Target>(entry->body));
    EXPECT_FALSE(std::holds_alternative<body::Tub>(entry->body));
  }
  EXPECT_FALSE(rig.figures().settings.wage_per_hour);
  EXPECT_NE(said("notice").find("were invented and are not"), std::string::npos);
}

TEST_F(BoardActs, APileByDifferenceSaysThatItsReadingsAreLeftOut) {
  rig.weigh("portions", "900");
  rig.weigh("usable-trim", "400");
  rig->set_by_difference("usable-trim", true);
  rig.pump();
  EXPECT_EQ(rig.grams("usable-trim"), 1100.0);
  at.go(Screen::result);
  const bool said = std::ranges::any_of(at.access(), [](const AccessNode& n) {
    return std::string_view(n.label).find("its readings are left out: 1.") !=
           std::string_view::npos;
  });
  EXPECT_TRUE(said);
}

TEST_F(BoardActs, WithoutMinutesThereIsNoVerdictOnCutOrBuy) {
  rig.enter(FieldKind::price_per_mass, "10");
  rig.enter(FieldKind::ready_cut, "31");
  rig.enter(FieldKind::wage, "20");
  rig.weigh("portions", "900");
  at.go(Screen::result);
  const auto verdict = [&] {
    return shows("result/verdict") + shows("figure/saving") + shows("figure/may-be-spoiled");
  };
  EXPECT_TRUE(shows("result/no-minutes"));
  EXPECT_EQ(verdict(), 0);
  rig.enter(FieldKind::minutes, "20");
  EXPECT_EQ(verdict(), 3);
  EXPECT_FALSE(shows("result/no-minutes"));
}

TEST_F(BoardActs, TheSampleSaysThatItIsInventedOnEveryScreenAndInItsFile) {
  rig->load_sample();
  rig.pump();
  for (const SessionCard& card : rig->cards()) {
    if (card.sample) rig->open(card.id);
  }
  rig.pump();
  for (const Screen screen :
       {Screen::weigh, Screen::result, Screen::details, Screen::share, Screen::cut}) {
    at.go(screen);
    const bool said = std::ranges::any_of(at.access(), [](const AccessNode& n) {
      return std::string_view(n.label).find("(invented)") != std::string_view::npos;
    });
    EXPECT_TRUE(said) << name_of(screen);
  }
  rig->export_session(rig->session()->id, false);
  ASSERT_EQ(rig.host.offered.size(), 1U);
  EXPECT_TRUE(rig.host.offered[0].name.starts_with("tallyblock-invented-"));
  EXPECT_NE(rig.host.offered[0].bytes.find("\"sample\""), std::string::npos);
}

// ---- too much, too long, unusable

TEST_F(BoardActs, YieldsBeyondTheWholeAreWordsInsteadOfFigures) {
  rig.weigh("portions", "1500");
  rig.weigh("usable-trim", "900");
  at.go(Screen::result);
  EXPECT_TRUE(shows("result/beyond-whole"));
  EXPECT_FALSE(shows("figure/usable-share"));
}

TEST_F(BoardActs, ANameOfTooManyBytesIsRefusedWhereItIsTypedAndNeverStopsANewPiece) {
  std::string name;
  for (int i = 0; i < 67; ++i) name += "\xE7\x89\x9B";
  at.go(Screen::settings);
  rig->text_changed("default:person", name);
  EXPECT_TRUE(shows("text/default:person/long"));
  rig->text_done("default:person");
  EXPECT_EQ(rig.notice(), "notice.text-too-long");
  EXPECT_EQ(rig->settings().person, "");
  rig->new_session();
  rig.pump();
  EXPECT_EQ(rig.figures().piles.size(), 4U);
}

TEST(Defaults, ADamagedSettingNeverStopsWeighingAndIsSaid) {
  Contents kept;
  kept[Area::app]["settings"] =
      R"({"currency":"EUR","division":"no weight","loss-limit":"2 %","price-unit":"kg","unit":"g"})";
  Rig rig(kept);
  rig->new_session();
  rig.pump();
  ASSERT_NE(rig->session(), nullptr);
  EXPECT_EQ(rig.notice(), "notice.unfit-settings");
  EXPECT_EQ(rig.figures().settings.division.text, "1 g");
  EXPECT_EQ(rig.figures().piles.size(), 4U);
}

}  // namespace
}  // namespace tallyblock::test
