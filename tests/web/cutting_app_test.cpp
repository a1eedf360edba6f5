// Where to put the knife, entered as a cook would: stations, long pieces, blocks, an evening later.
#include <gtest/gtest.h>

#include "app_stage.h"
#include "board.h"
#include "core/cutting/cutting.h"

namespace tallyblock::test {
namespace {

class Cutting : public ::testing::Test {
 protected:
  Cutting() {
    ask::new_session(*rig);
    rig.pump();
  }
  std::vector<CuttingView> views() { return cutting_of(rig->session()->set, rig.figures()); }
  // The keypad on the next block, so many portions together; what it follows is derived.
  void follow(unsigned together = 1) {
    const CuttingObject object = views().at(0).objects.at(0);
    ASSERT_TRUE(object.advice && !object.advice->done);
    ask::set_count(*rig, together);
    ask::edit(*rig, {FieldKind::block, ""});
  }
  Rig rig;
};

TEST_F(Cutting, AStationIsItsPlaceItsWidthAndItsDepthInThisOrder) {
  measure_loin(rig);
  const std::vector<StationLine> stations = rig->desk().cutting().stations;
  ASSERT_EQ(stations.size(), 2U);
  EXPECT_FALSE(stations[0].at);
  EXPECT_EQ(stations[0].width.text, "130 mm");
  EXPECT_EQ(stations[0].depth.text, "80 mm");
  EXPECT_EQ(stations[1].at->text, "600 mm");
  EXPECT_EQ(stations[1].width.text, "110 mm");
  EXPECT_EQ(rig->desk().cutting().open_end, "");  // the far end is measured
  ASSERT_TRUE(views().at(0).input);
  EXPECT_NEAR(views()[0].input->shape.mass().in_grams(), 5200.0, 1e-9);
}

TEST_F(Cutting, ABlockTypedAnewIsStillThatCut) {
  measure_loin(rig);
  for (int i = 0; i < 2; ++i) {
    follow(2);
    answer(rig, "358");
  }
  const std::vector<CutLine> before = views().at(0).objects.at(0).cuts;
  ASSERT_EQ(before.size(), 2U);
  rig.enter(FieldKind::anew, "364", to_text(rig.pile("portions").lines.at(0).id));
  const std::vector<CutLine> after = views().at(0).objects.at(0).cuts;
  ASSERT_EQ(after.size(), 2U);
  EXPECT_EQ(after[0].id, before[0].id);
  EXPECT_EQ(after[0].portions, (std::vector<Mass>{Mass::grams(182), Mass::grams(182)}));
  EXPECT_EQ(after[1].portions, before[1].portions);
}

TEST_F(Cutting, SameAllAlongIsOneTap) {
  measure_first_face(rig, "400", "90", "60");
  ask::same_all_along(*rig);
  rig.pump();
  const std::vector<StationLine> stations = rig->desk().cutting().stations;
  ASSERT_EQ(stations.size(), 2U);
  EXPECT_EQ(stations[1].at->text, "400 mm");
  EXPECT_EQ(stations[1].width.text, "90 mm");
  ask::undo(*rig);
  rig.pump();
  EXPECT_EQ(rig->desk().cutting().stations.size(), 1U);
}

TEST_F(Cutting, AKilledPageAsksForTheSameMeasureWithTheSameDigits) {
  ask::go(*rig, Screen::cut);
  type_length(rig, "piece", "600");
  answer(rig, "130");
  rig.type("8");
  rig->on_hidden();
  rig.pump();
  rig.restart();
  EXPECT_EQ(rig->draft().field, (Field{FieldKind::length, "depth:"}));
  EXPECT_EQ(rig->draft().digits, "8");
  answer(rig, "0");
  ASSERT_EQ(rig->desk().cutting().stations.size(), 1U);
  EXPECT_EQ(rig->desk().cutting().stations[0].width.text, "130 mm");
  EXPECT_EQ(rig->desk().cutting().stations[0].depth.text, "80 mm");
  EXPECT_EQ(rig->desk().cutting().open_end, "600 mm");
}

TEST_F(Cutting, AStationMeasuredAgainTakesTheOldOnesPlaceAndEmptyDigitsKeepIt) {
  measure_loin(rig);
  type_length(rig, "width:600 mm", "115");
  answer(rig, "");
  ASSERT_EQ(rig->desk().cutting().stations.size(), 2U);
  EXPECT_EQ(rig->desk().cutting().stations[1].width.text, "115 mm");
  EXPECT_EQ(rig->desk().cutting().stations[1].depth.text, "70 mm");
}

TEST_F(Cutting, TheLengthMovesTheFarEndButNotAcrossAMeasuredPlace) {
  measure_loin(rig);
  type_length(rig, "at", "300");
  answer(rig, "125");
  answer(rig, "75");
  ASSERT_EQ(rig->desk().cutting().stations.size(), 3U);
  type_length(rig, "piece", "620");
  EXPECT_EQ(rig->desk().cutting().stations[2].at->text, "620 mm");
  type_length(rig, "piece", "250");
  EXPECT_EQ(rig->notice()->key, "notice.beyond-end");
  EXPECT_EQ(rig->desk().cutting().stations[2].at->text, "620 mm");
}

TEST_F(Cutting, LimitsWantedNumbersAndInchesAreTakenAndTakenBack) {
  measure_loin(rig);
  type_length(rig, "least", "40");
  EXPECT_EQ(views()[0].input->limits.least_min, Length::millimetres(40));
  type_length(rig, "least", "");
  EXPECT_FALSE(views()[0].input->limits.least_min);
  rig.enter(FieldKind::wanted, "12", "portions");
  EXPECT_EQ(views()[0].specs.at(0).wanted, 12U);
  rig.enter(FieldKind::wanted, "2.5", "portions");
  ASSERT_TRUE(rig->keypad().problem);
  EXPECT_EQ(rig->keypad().problem->code, Code::typed_not_whole);
  ask::key(*rig, "clear");
  ask::enter(*rig);
  rig.pump();
  EXPECT_FALSE(views()[0].specs.at(0).wanted);
  ask::set_long_pieces(*rig, 3);
  rig.pump();
  EXPECT_EQ(views()[0].input->k_only, 3);
  EXPECT_FALSE(views()[0].input->k_yields);
  ask::set_long_pieces(*rig, 0);
  rig.pump();
  EXPECT_TRUE(views()[0].input->k_yields);
  ask::set_session_setting(*rig, "ruler", "in");
  rig.pump();
  type_length(rig, "trim-front", "1 1/2");
  EXPECT_NEAR(views()[0].input->trim_front.in_millimetres(), 38.1, 1e-9);
}

TEST_F(Cutting, LengthsInCentimetresAreTakenAndKeptSo) {
  ask::set_session_setting(*rig, "ruler", "cm");
  rig.pump();
  EXPECT_EQ(rig->desk().ruler(), "cm");
  rig.enter(FieldKind::drained, "5200");
  rig.enter(FieldKind::target, "180", "portions");
  measure_first_face(rig, "60", "13.5", "8");
  ASSERT_EQ(rig->desk().cutting().stations.size(), 1U);
  EXPECT_EQ(rig->desk().cutting().stations[0].width.text, "13.5 cm");
  EXPECT_EQ(rig->desk().cutting().stations[0].width.length, Length::millimetres(135));
  type_length(rig, "piece", "1.25");
  EXPECT_EQ(rig->desk().cutting().open_end, "1.25 cm");
  type_length(rig, "piece", "60");
  ask::same_all_along(*rig);
  rig.pump();
  follow(2);
  answer(rig, "358");
  const CuttingObject object = views().at(0).objects.at(0);
  ASSERT_EQ(object.cuts.size(), 1U);
  const auto& made = std::get<body::Cut>(rig->session()->set.find(object.cuts[0].id)->body);
  ASSERT_TRUE(made.mark && object.cuts[0].asked);
  EXPECT_TRUE(made.mark->text.ends_with(" cm")) << made.mark->text;
  EXPECT_EQ(*object.cuts[0].asked, made.mark->length);  // by the text of the advice
}

TEST_F(Cutting, AnotherPieceIsAskedWhereItTapers) {
  ask::set_session_setting(*rig, "taper", "even");
  rig.pump();
  EXPECT_TRUE(rig.figures().settings.all.contains("taper"));
  ask::same_again(*rig, rig->session()->id);
  rig.pump();
  EXPECT_FALSE(rig.figures().settings.all.contains("taper"));
}

TEST_F(Cutting, WhatIsTakenBackDoesNotLetAnEarlierOneComeBack) {
  measure_loin(rig);
  rig.enter(FieldKind::wanted, "12", "portions");
  rig.enter(FieldKind::wanted, "10", "portions");
  rig.enter(FieldKind::wanted, "", "portions");
  EXPECT_FALSE(views()[0].specs.at(0).wanted);
  type_length(rig, "at", "300");
  answer(rig, "125");
  answer(rig, "75");
  ask::set_face_fill(*rig, "90 %", "Rounded");
  rig.pump();
  ASSERT_EQ(rig->desk().cutting().stations.size(), 3U);
  ask::void_entry(*rig, rig->desk().cutting().stations[1].id);
  rig.pump();
  EXPECT_EQ(rig->desk().cutting().stations.size(), 2U);
}

TEST_F(Cutting, APlaceInTheMiddleDoesNotStandForTheFarEnd) {
  measure_first_face(rig, "600", "130", "80");
  type_length(rig, "at", "300");
  answer(rig, "125");
  answer(rig, "75");
  EXPECT_EQ(rig->desk().cutting().open_end, "600 mm");
  type_length(rig, "piece", "610");  // corrected: the measured place stays where it is
  ASSERT_EQ(rig->desk().cutting().stations.size(), 2U);
  EXPECT_EQ(rig->desk().cutting().stations[1].at->text, "300 mm");
  EXPECT_EQ(rig->desk().cutting().open_end, "610 mm");
  ask::same_all_along(*rig);
  rig.pump();
  EXPECT_EQ(rig->desk().cutting().open_end, "");
  EXPECT_EQ(rig->desk().cutting().stations.back().at->text, "610 mm");
}

TEST_F(Cutting, ABlockMovedToALesserPileIsTakenOffOnce) {
  measure_loin(rig);
  follow(2);
  answer(rig, "260");
  ask::answer_weight(*rig, "260");  // too light to be believed, and right
  rig.pump();
  const double before = views()[0].objects[0].remaining.in_grams();
  ask::move_reading(*rig, rig.pile("portions").lines.at(0).id, "usable-trim");
  rig.pump();
  EXPECT_EQ(rig.grams("usable-trim"), 260.0);
  EXPECT_NEAR(views()[0].objects[0].weight->in_grams(), 5200.0, 1e-9);
  EXPECT_NEAR(views()[0].objects[0].remaining.in_grams(), before, 1e-9);
}

TEST_F(Cutting, TheCleanedWeightIsWhatThePlanCuts) {
  measure_loin(rig);
  rig.enter(FieldKind::checkpoint, "4600", "main");
  EXPECT_NEAR(views()[0].input->shape.mass().in_grams(), 4600.0, 1e-9);
}

TEST_F(Cutting, HowManyAtOnceIsNotCarriedToTheBoard) {
  measure_loin(rig);
  follow(2);
  answer(rig, "352");
  ask::go(*rig, Screen::weigh);
  rig.weigh("portions", "180");
  EXPECT_EQ(rig.pile("portions").lines.back().count, 1U);
}

TEST_F(Cutting, PortionsAskedForByNumberAreNotLostForThickBlocks) {
  measure_loin(rig);
  const unsigned most = [&] {
    PlanInput free = *views()[0].input;
    free.k_only.reset();
    return plan(free)->demanded;
  }();
  rig.enter(FieldKind::wanted, std::to_string(most), "portions");
  EXPECT_EQ(views()[0].objects[0].plan->demanded, most);
}

TEST_F(Cutting, WhatOneLongPieceShowedIsKnownBeforeTheNext) {
  measure_loin(rig);
  rig.enter(FieldKind::long_piece, "2650", "2-1");
  rig.enter(FieldKind::long_piece, "2540", "2-2");
  for (int i = 0; i < 4; ++i) {
    ask::cut_long_piece(*rig, "2-1");
    answer(rig, "192");
  }
  const CuttingView view = views().at(0);
  EXPECT_GT(view.objects[1].cook.habit, 0.01);
  EXPECT_NEAR(view.objects[2].cook.habit, view.objects[1].cook.habit, 1e-12);
  EXPECT_EQ(view.cook.cuts, 4U);
}

TEST_F(Cutting, WithoutAChoiceItIsSplitIntoAsManyAsAreWorthMost) {
  measure_loin(rig);
  const CuttingView view = views().at(0);
  ASSERT_GE(view.splits.size(), 2U);
  for (const SplitOption& option : view.splits) {
    if (!option.best) continue;
    EXPECT_EQ(view.input->k_only, option.k);
    for (const SplitOption& other : view.splits) EXPECT_GE(option.worth, other.worth);
  }
  EXPECT_TRUE(view.input->k_yields);
  ask::set_long_pieces(*rig, 3);
  rig.pump();
  EXPECT_EQ(views()[0].objects[0].plan->sections.at(0).k, 3);
  EXPECT_EQ(views()[0].splits.size(), view.splits.size());  // what the others give is still told
}

TEST_F(Cutting, ABlockIsACutWithItsAdviceAndAReadingThatNamesIt) {
  measure_loin(rig);
  follow(2);
  answer(rig, "352");
  const CuttingObject object = views().at(0).objects.at(0);
  ASSERT_EQ(object.cuts.size(), 1U);
  EXPECT_EQ(object.cuts[0].k, 2);
  ASSERT_EQ(object.cuts[0].portions.size(), 2U);
  EXPECT_NEAR(object.cuts[0].portions[0].in_grams(), 176.0, 1e-9);
  EXPECT_EQ(rig.grams("portions"), 352.0);
  EXPECT_EQ(rig.pile("portions").pieces, 2U);
  EXPECT_EQ(rig->draft().field.kind, FieldKind::block);  // ready for the next
  EXPECT_EQ(rig->draft().digits, "");
  ask::undo(*rig);
  rig.pump();
  EXPECT_EQ(views().at(0).objects.at(0).cuts.size(), 0U);
  EXPECT_EQ(rig.grams("portions"), 0.0);
}

TEST_F(Cutting, ABlockWeighedOneByOneIsOneCut) {
  measure_loin(rig);
  follow();
  answer(rig, "171");
  follow();
  answer(rig, "179");
  const CuttingObject object = views().at(0).objects.at(0);
  ASSERT_EQ(object.cuts.size(), 1U);
  ASSERT_EQ(object.cuts[0].portions.size(), 2U);
  EXPECT_EQ(object.cook.cuts, 1U);
}

TEST_F(Cutting, NoBlockIsTakenWithoutAdviceToFollow) {
  rig.enter(FieldKind::drained, "5200");  // nothing is measured
  ask::edit(*rig, {FieldKind::block, ""});
  answer(rig, "180");
  EXPECT_EQ(rig.grams("portions"), 0.0);
  EXPECT_EQ(rig->draft().digits, "180");  // still there
}

TEST_F(Cutting, LongPiecesGetMarksOfTheirOwn) {
  measure_loin(rig);
  rig.enter(FieldKind::long_piece, "2650", "2-1");
  rig.enter(FieldKind::long_piece, "2540", "2-2");
  const CuttingView view = views().at(0);
  ASSERT_EQ(view.objects.size(), 3U);
  EXPECT_EQ(view.objects[1].of, 2);
  EXPECT_EQ(view.objects[1].weight, Mass::grams(2650));
  ASSERT_TRUE(view.objects[2].plan);
  EXPECT_EQ(view.objects[2].plan->sections.at(0).k, 1);
}

TEST_F(Cutting, AFollowingWindowLearnsNothingAndSaysNothing) {
  measure_loin(rig);
  follow(2);
  answer(rig, "376");
  Contents kept = rig.store.kept;
  kept[Area::app].erase("settings");
  AppStage at;  // shows the guide of a piece that is cut elsewhere
  ASSERT_TRUE(at.stage.has_font) << "the font of the tests is missing: install fonts-inter";
  at.stage.size(360, 640, 2, 1);
  at.rig.kill();
  at.rig.store.kept = kept;
  at.rig.app.emplace(at.rig.store, at.rig.host);
  at.rig->start();
  at.rig.pump();
  at.go(Screen::cut, "guide");
  at.rig->on_role(false);
  at.rig.pump();
  ask::dismiss_notice(*at.rig);
  at.settle();
  const std::uint64_t before = at.rig->revision();
  at.frame();
  EXPECT_FALSE(at.rig->notice());
  EXPECT_EQ(at.rig->revision(), before);
  EXPECT_TRUE(at.rig->shelf().settings.cooks.empty());
}

TEST_F(Cutting, WhatOneSessionShowedIsTakenAlongToTheNext) {
  measure_loin(rig);
  for (int i = 0; i < 4; ++i) {
    follow(2);
    answer(rig, "376");  // heavy each time
  }
  const double habit = views()[0].objects[0].cook.habit;
  EXPECT_GT(habit, 0.01);
  ask::new_session(*rig);
  rig.pump();
  measure_loin(rig);
  ask::begin_cutting(*rig);
  rig.pump();
  EXPECT_EQ(rig->notice()->key, "notice.cook-carried");
  const double carried = views()[0].objects[0].cook.habit;
  EXPECT_GT(carried, 0.0);
  EXPECT_LT(carried, habit);  // shrunk
  rig.restart();
  ask::new_session(*rig);
  rig.pump();
  measure_loin(rig);
  ask::begin_cutting(*rig);
  rig.pump();
  EXPECT_NEAR(views()[0].objects[0].cook.habit, carried, 2e-4);  // kept with four decimals
}

}  // namespace
}  // namespace tallyblock::test
