// The board as it is read from across the table: what stays where it is, what is said while not all is weighed,
// piles by kind of piece, units of each kind of weight.
#include "board_acts.h"
#include "web/app/shelf/defaults.h"
#include "web/figures/doubts.h"
#include "web/words/words.h"

namespace tallyblock::test {
namespace {

struct AtBoard : BoardActs {
  Rect rect(std::string_view path) {
    at.settle();
    for (const AccessNode& n : at.access()) {
      if (n.id == Kit::id_of(path)) return {n.x, n.y, n.w, n.h};
    }
    return {};
  }
  // And puts it where it was meant for, in two touches.
  void weigh_onto_the_wrong_pile() {
    rig.weigh("portions", "640");
    ASSERT_TRUE(shows("weigh/correct"));
    press("weigh/correct");
    press("weigh/last/to/usable-trim");
    rig.pump();
  }
};

TEST_F(AtBoard, NothingAboveTheKeysMovesBetweenTwoReadings) {
  for (const auto& [w, h] : {std::pair{390.0F, 844.0F}, {360.0F, 640.0F}, {412.0F, 915.0F}}) {
    at.stage.size(w, h, 2, 1);
    rig.weigh("portions", "181");
    ask::dismiss_notice(*rig);
    std::vector<float> before, typing, after;
    const auto look = [&](std::vector<float>& tops) {
      for (const PileFigures& pile : rig.figures().piles) {
        tops.push_back(rect("weigh/pile/" + pile.key).y);
      }
      tops.push_back(rect("weigh/display").y);
      tops.push_back(rect("weigh/keypad/7").y);
    };
    look(before);
    EXPECT_GT(before.back(), 0);
    ask::key(*rig, "1");
    look(typing);
    ask::key(*rig, "7");
    ask::choose_pile(*rig, "usable-trim");
    rig.pump();
    look(after);
    EXPECT_EQ(before, typing) << w;
    EXPECT_EQ(before, after) << w;
  }
}

TEST_F(AtBoard, TheNumberJustWeighedStaysAsItWasTyped) {
  rig.weigh("portions", "12.5");
  EXPECT_NE(said("weigh/display").find("12.5 g"), std::string::npos) << said("weigh/display");
  EXPECT_NE(said("weigh/display/said").find("Portions"), std::string::npos);
  ask::key(*rig, "9");
  EXPECT_EQ(said("weigh/display").find("12.5 g"), std::string::npos);
}

TEST_F(AtBoard, AMovedWeightKeepsItsPlaceAndCanBeCorrectedAgain) {
  weigh_onto_the_wrong_pile();
  EXPECT_NE(said("weigh/display").find("640 g"), std::string::npos) << said("weigh/display");
  EXPECT_NE(said("weigh/display").find("Usable trim"), std::string::npos) << said("weigh/display");
  EXPECT_TRUE(shows("weigh/correct"));
}

TEST_F(AtBoard, ATubThatWeighsLessThanBeforeIsAskedAbout) {
  ask::set_habit(*rig, "tub-now");
  rig.weigh("portions", "3150");
  EXPECT_EQ(said("weigh/display").find("Less than before"), std::string::npos);
  rig.weigh("portions", "3000");
  EXPECT_NE(said("weigh/display").find("-150 g"), std::string::npos) << said("weigh/display");
  EXPECT_NE(said("weigh/display").find("Less than before"), std::string::npos);
}

TEST_F(AtBoard, AWrongPileIsTwoTouches) {
  weigh_onto_the_wrong_pile();
  EXPECT_EQ(rig.grams("portions"), 0.0);
  EXPECT_EQ(rig.grams("usable-trim"), 640.0);
  EXPECT_EQ(rig->draft().panel, "");
}

TEST_F(AtBoard, HowManyLayOnTheScaleIsCorrectedInTwoTouches) {
  rig.weigh("portions", "640");
  ASSERT_TRUE(shows("weigh/correct"));
  press("weigh/correct");
  press("weigh/last/count/4");
  rig.pump();
  EXPECT_EQ(rig.pile("portions").pieces, 4U);
  EXPECT_EQ(rig.grams("portions"), 640.0);
  EXPECT_EQ(rig->draft().panel, "");
  EXPECT_EQ(rig->draft().field.kind, FieldKind::reading);
}

TEST_F(AtBoard, TheCountThatStandsIsNoChangeAndNoError) {
  rig.weigh("portions", "640");
  ASSERT_TRUE(shows("weigh/correct"));
  press("weigh/correct");
  press("weigh/last/count/1");
  rig.pump();
  EXPECT_EQ(rig->draft().panel, "");
  EXPECT_EQ(rig->draft().field.kind, FieldKind::reading);
  EXPECT_FALSE(rig->keypad().problem);
  EXPECT_EQ(rig.pile("portions").lines.size(), 1U);
}

TEST_F(AtBoard, AnyNumberIsSaidInThree) {
  rig.weigh("portions", "640");
  ASSERT_TRUE(shows("weigh/correct"));
  press("weigh/correct");
  press("weigh/last/count");
  press("weigh/on-scale/7");
  rig.pump();
  EXPECT_EQ(rig.pile("portions").pieces, 7U);
  EXPECT_EQ(rig.grams("portions"), 640.0);
}

TEST_F(AtBoard, WithoutAPileThereIsNoEnterKeyAndThePilesStandOut) {
  ask::choose_pile(*rig, "portions");
  at.settle();
  const auto enabled = [&] {
    for (const AccessNode& n : at.access()) {
      if (n.id == Kit::id_of("weigh/keypad/enter")) return n.enabled;
    }
    return false;
  };
  EXPECT_TRUE(enabled());
  AppStage other;
  other.stage.size(390, 844, 2, 1);
  ask::load_sample(other.app());
  other.rig.pump();
  other.open("Beef tenderloin");
  ask::key(other.app(), "4");
  other.settle();
  ASSERT_EQ(other.app().draft().pile, "");
  for (const AccessNode& n : other.access()) {
    if (n.id == Kit::id_of("weigh/keypad/enter")) {
      EXPECT_FALSE(n.enabled);
    }
    if (n.id == Kit::id_of("weigh/display")) {
      EXPECT_NE(n.label.find(say("weigh.tap-pile")), std::string::npos);
    }
  }
}

// ---- all is weighed

TEST_F(AtBoard, WhatIsLeftIsToGoUntilAllIsSaidToBeWeighed) {
  EXPECT_EQ(not_all_weighed(rig.figures()), Mass::grams(2000));
  rig.weigh("portions", "1200");
  EXPECT_EQ(not_all_weighed(rig.figures()), Mass::grams(800));
  EXPECT_NE(said("weigh/to-go").find("800 g to go"), std::string::npos) << said("weigh/to-go");
  ask::set_session_setting(*rig, std::string(kAllWeighed), "yes");
  rig.pump();
  EXPECT_FALSE(not_all_weighed(rig.figures()));
  EXPECT_NE(said("weigh/to-go").find(say("weigh.missing")), std::string::npos);
  ask::undo(*rig);
  rig.pump();
  EXPECT_EQ(not_all_weighed(rig.figures()), Mass::grams(800));
}

TEST_F(AtBoard, NoMoreLeftThanTheLimitIsAllWeighedByItself) {
  rig.weigh("portions", "1200");
  rig.weigh("usable-trim", "765");
  EXPECT_FALSE(not_all_weighed(rig.figures())) << "35 of 2000 g, limit 2 %";
  ask::undo(*rig);
  rig.pump();
  rig.weigh("usable-trim", "755");
  EXPECT_EQ(not_all_weighed(rig.figures()), Mass::grams(45));
}

TEST_F(AtBoard, TooMuchIsSaidLargeAndIsNotAllWeighed) {
  rig.weigh("portions", "2100");
  EXPECT_NE(said("weigh/to-go").find(say("weigh.too-much")), std::string::npos);
  EXPECT_NE(said("weigh/to-go").find("100 g"), std::string::npos);
  EXPECT_TRUE(shows("weigh/balance"));
}

TEST_F(AtBoard, SameAgainIsNotAllWeighedFromTheBeginning) {
  rig.weigh("portions", "1200");
  ask::set_session_setting(*rig, std::string(kAllWeighed), "yes");
  rig.pump();
  ask::same_again(*rig, rig->session()->id);
  rig.pump();
  rig.enter(FieldKind::drained, "2200");
  EXPECT_EQ(not_all_weighed(rig.figures()), Mass::grams(2200));
}

// ---- piles

TEST_F(AtBoard, ASetGivesItsPilesAndTakesBackWhatAnotherBrought) {
  for (const PileSet& set : kPileSets) {
    ask::use_set(*rig, std::string(set.key));
    rig.pump();
    for (const DefaultPile& pile : set.piles) {
      EXPECT_EQ(rig.pile(std::string(pile.key)).name, set_name(set, pile)) << set.key;
      EXPECT_EQ(rig.pile(std::string(pile.key)).role, pile.role) << set.key;
    }
    EXPECT_EQ(rig.figures().piles.size(), set.piles.size()) << set.key;
  }
  rig.weigh("portions", "300");
  ask::use_set(*rig, "bird");
  rig.pump();
  EXPECT_EQ(rig.grams("portions"), 300.0) << "what lies on a pile stays";
  rig.weigh("wings", "90");
  ask::use_set(*rig, "loin");
  rig.pump();
  EXPECT_EQ(rig.grams("wings"), 90.0);
  ask::undo(*rig);
  rig.pump();
  EXPECT_EQ(rig.pile("portions").name, say("set.bird.portions"));
}

TEST_F(AtBoard, APileOfOnesOwnNameIsWeighedIntoNext) {
  ask::open_panel(*rig, "pile");
  rig.name("new-pile", "Collar's bits");
  EXPECT_EQ(rig.figures().piles.back().name, "Collar's bits");
  EXPECT_EQ(rig->draft().pile, rig.figures().piles.back().key);
  EXPECT_EQ(rig->draft().panel, "");
}

// ---- units

TEST_F(AtBoard, EachKindOfWeightHasItsOwnUnit) {
  begin("1.85");
  ask::edit(*rig, {FieldKind::drained, ""});
  ask::set_unit(*rig, "kg");
  for (const char key : std::string("1.85")) ask::key(*rig, std::string(1, key));
  ask::enter(*rig);
  rig.pump();
  EXPECT_EQ(rig.figures().incoming.drained->value(), Mass::of(1.85, MassUnit::kilogram));
  EXPECT_EQ(rig->draft().unit, "g") << "a portion";
  ask::go(*rig, Screen::result);
  ask::edit(*rig, {FieldKind::target, "portions"});
  EXPECT_EQ(rig->draft().unit, "g");
  rig.enter(FieldKind::target, "180", "portions");
  EXPECT_EQ(rig.figures().targets.front().target, Mass::grams(180));
  ask::edit(*rig, {FieldKind::drained, ""});
  EXPECT_EQ(rig->draft().unit, "kg") << "as the whole was weighed before";
  const Draft read = draft_from_json(draft_to_json(rig->draft()));
  EXPECT_EQ(read.units, rig->draft().units);
}

// ---- read from an arm's length: 16 px, 28 px for figures, 56 px targets (web/kit/DESIGN.md)

TEST_F(AtBoard, LettersFiguresAndTargetsAreLargeEnough) {
  rig.weigh("portions", "182");
  ask::dismiss_notice(*rig);
  for (const auto& [w, h] : {std::pair{390.0F, 844.0F},
                             {360.0F, 640.0F},
                             {320.0F, 568.0F},
                             {844.0F, 390.0F},
                             {768.0F, 1024.0F},
                             {1024.0F, 768.0F}}) {
    for (const char* digits : {"", "64"}) {
      at.stage.size(w, h, 2, 1);
      for (const char* d = digits; *d != 0; ++d) ask::key(*rig, std::string(1, *d));
      at.settle();
      const Frame& f = at.drawn();
      SCOPED_TRACE(std::to_string(w) + " " + digits);
      std::size_t figures = 0;
      for (const Node& n : f.nodes) {
        if (n.part != Part::text || n.lines_n == 0) continue;
        EXPECT_GE(n.type / 2, 15.9F) << n.text;
        const bool weight = n.look.figure && n.text.ends_with(" g");
        if (!weight || w > 1000) continue;  // the list of readings beside is not the board
        EXPECT_GE(n.type / 2, 27.9F) << n.text;
        ++figures;
      }
      for (const Target& t : f.targets) EXPECT_GE(t.r.h / 2, 55.9F) << t.r.y;
      if (w < 1000) EXPECT_GE(figures, 5U);
      for (const char* d = digits; *d != 0; ++d) ask::key(*rig, "back");
    }
  }
}

}  // namespace
}  // namespace tallyblock::test
