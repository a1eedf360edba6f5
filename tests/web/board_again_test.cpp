// What a cook may rely on at the board: cooking changes no raw figure, nothing invented is carried over,
// no verdict without minutes.
#include "board_acts.h"

namespace tallyblock::test {
namespace {

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
  ask::take_out_step(*rig, step);
  rig.pump();
  EXPECT_EQ(rig.figures().steps.size(), 1U);
  EXPECT_EQ(rig.figures().piles.size(), 4U);
  EXPECT_FALSE(rig.has_doubt(Code::doubt_unknown_reference));
  ask::undo(*rig);
  EXPECT_EQ(rig.figures().steps.size(), 2U);
  EXPECT_EQ(rig.grams(cooked()), 290.0);
}

TEST_F(BoardActs, WhatWasMovedOffAStepStaysWhenTheStepIsTakenOut) {
  step_of_cooking();
  const std::string step = rig.figures().steps.back().key;
  rig.weigh(cooked(), "300");
  const EntryId wrong = rig.pile(cooked()).lines.back().id;
  ask::move_reading(*rig, wrong, "usable-trim");
  rig.weigh(cooked(), "290");
  rig.pump();
  ask::take_out_step(*rig, step);
  rig.pump();
  EXPECT_EQ(rig.figures().steps.size(), 1U);
  EXPECT_EQ(rig.grams("usable-trim"), 300.0);
}

TEST_F(BoardActs, OfACookedPileNoCostIsGivenAndMoreThanWentInIsSaid) {
  rig.enter(FieldKind::price_per_mass, "10");
  step_of_cooking();
  const std::string step = rig.figures().steps.back().key;
  rig.enter(FieldKind::target, "100", cooked());
  ASSERT_FALSE(rig.figures().targets.empty());
  EXPECT_FALSE(rig.figures().targets.back().cost);
  rig.enter(FieldKind::step_weight, "190", "portions");
  rig.weigh(cooked(), "150");
  at.go(Screen::details, "pile:portions");
  EXPECT_NE(said("details/step/" + step).find("190 g raw, 150 g cooked, 21.1 % lost"),
            std::string::npos);
  EXPECT_NE(said("field/step-weight/portions").find("190 g"), std::string::npos);
  rig.weigh(cooked(), "90");
  at.go(Screen::details, "pile:portions");
  EXPECT_NE(said("details/step/" + step).find("weigh again"), std::string::npos);
}

TEST_F(BoardActs, WhatComesOfAPileCountsAsThatPileDidAndNoHigher) {
  rig.weigh("portions", "800");
  rig.weigh("second-cuts", "600");
  ask::break_down(*rig, "second-cuts", "Legs", Process::breakdown);
  rig.pump();
  EXPECT_EQ(rig.pile(rig->draft().pile).role, Role::secondary);
  rig.weigh(rig->draft().pile, "500");
  EXPECT_EQ(rig.figures().primary.value().in_grams(), 800.0);
  rig.weigh("usable-trim", "200");
  ask::break_down(*rig, "usable-trim", "Mince", Process::grinding);
  rig.pump();
  EXPECT_EQ(rig.pile(rig->draft().pile).role, Role::usable_trim);
}

// ---- same again, the sample

TEST_F(BoardActs, SameAgainKeepsTheOrderOfThePilesAndTheReadyCutsYield) {
  rig.enter(FieldKind::ready_cut, "31");
  rig.enter(FieldKind::ready_cut_yield, "96");
  rig.name("pile:portions", "Steaks");  // said last, first all the same
  ask::same_again(*rig, rig->session()->id);
  rig.pump();
  ASSERT_EQ(rig.figures().piles.size(), 4U);
  EXPECT_EQ(rig.figures().piles[0].name, "Steaks");
  EXPECT_DOUBLE_EQ(rig.figures().ready_cut_yield, 0.96);
}

TEST_F(BoardActs, SameAgainOfTheSampleCarriesPilesAndNamesAndNothingInvented) {
  ask::load_sample(*rig);
  rig.pump();
  for (const SessionCard& card : rig->shelf().cards) {
    if (!card.sample) continue;
    ask::same_again(*rig, card.id);
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
  ask::set_by_difference(*rig, "usable-trim", true);
  rig.pump();
  EXPECT_EQ(rig.grams("usable-trim"), 1100.0);
  at.go(Screen::result, "chapter:doubts");
  const bool said = std::ranges::any_of(at.access(), [](const AccessNode& n) {
    return std::string_view(n.label).find("its readings are left out: 1.") !=
           std::string_view::npos;
  });
  EXPECT_TRUE(said);
}

TEST_F(BoardActs, TheListSaysWhatIsStillToWeighInsteadOfACostOfIt) {
  const auto in_list = [&] {
    at.go(Screen::sessions);
    return std::ranges::any_of(at.access(), [](const AccessNode& n) {
      return (std::string(n.label) + n.value).find("1100 g still to weigh") != std::string::npos;
    });
  };
  rig.enter(FieldKind::price_per_mass, "10");
  rig.weigh("portions", "900");
  const SessionCard* card = &rig->shelf().cards.front();
  EXPECT_TRUE(in_list());
  ASSERT_TRUE(card->unweighed_grams && card->primary_ratio);
  EXPECT_NEAR(*card->unweighed_grams, 1100.0, 1e-6);
  rig.weigh("unusable-trim", "1090");
  EXPECT_FALSE(in_list());
  EXPECT_FALSE(rig->shelf().cards.front().unweighed_grams);
}

TEST_F(BoardActs, WithoutMinutesOrWithoutTheRestThereIsNoVerdictOnCutOrBuy) {
  rig.enter(FieldKind::price_per_mass, "10");
  rig.enter(FieldKind::ready_cut, "31");
  rig.enter(FieldKind::wage, "20");
  rig.weigh("portions", "900");
  at.go(Screen::result, "chapter:buy");
  const auto verdict = [&] {
    return shows("result/verdict") + shows("figure/saving") + shows("figure/may-be-spoiled");
  };
  // The rest is still on the board: its cost would be carried by what is weighed.
  EXPECT_TRUE(shows("result/all-weighed"));
  EXPECT_TRUE(shows("result/verdict-later"));
  EXPECT_EQ(verdict(), 0);
  rig.weigh("unusable-trim", "1090");
  at.go(Screen::result, "chapter:buy");
  EXPECT_FALSE(shows("result/all-weighed"));
  EXPECT_TRUE(shows("result/no-minutes"));
  EXPECT_EQ(verdict(), 0);
  rig.enter(FieldKind::minutes, "20");
  EXPECT_EQ(verdict(), 3);
  EXPECT_FALSE(shows("result/no-minutes"));
}

TEST_F(BoardActs, TheSampleSaysThatItIsInventedOnEveryScreenAndInItsFile) {
  ask::load_sample(*rig);
  rig.pump();
  for (const SessionCard& card : rig->shelf().cards) {
    if (card.sample) ask::open(*rig, card.id);
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
  ask::export_session(*rig, rig->session()->id, false);
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

TEST_F(BoardActs, ABalanceThatClosesInTenthsOfAGramHasItsYields) {
  begin("356.2");
  rig.weigh("portions", "100.1");
  rig.weigh("usable-trim", "256.1");
  at.go(Screen::result, "chapter:loss");
  EXPECT_TRUE(shows("figure/usable-share"));
  EXPECT_FALSE(shows("result/beyond-whole"));
}

TEST_F(BoardActs, ANameOfTooManyBytesIsRefusedWhereItIsTypedAndNeverStopsANewPiece) {
  std::string name;
  for (int i = 0; i < 67; ++i) name += "\xE7\x89\x9B";
  at.go(Screen::settings);
  ask::text_changed(*rig, "default:person", name);
  EXPECT_TRUE(shows("text/default:person/long"));
  ask::text_done(*rig, "default:person");
  EXPECT_EQ(rig.notice(), "notice.text-too-long");
  EXPECT_EQ(rig->shelf().settings.person, "");
  ask::new_session(*rig);
  rig.pump();
  EXPECT_EQ(rig.figures().piles.size(), 4U);
}

TEST(Defaults, ADamagedSettingNeverStopsWeighingAndIsSaid) {
  Contents kept;
  kept[Area::app]["settings"] =
      R"({"currency":"EUR","division":"no weight","loss-limit":"2 %","price-unit":"kg","unit":"g"})";
  Rig rig(kept);
  ask::new_session(*rig);
  rig.pump();
  ASSERT_NE(rig->session(), nullptr);
  EXPECT_EQ(rig.notice(), "notice.unfit-settings");
  EXPECT_EQ(rig.figures().settings.division.text, "1 g");
  EXPECT_EQ(rig.figures().piles.size(), 4U);
}

}  // namespace
}  // namespace tallyblock::test
