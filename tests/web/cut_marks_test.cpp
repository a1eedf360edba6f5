// Where each length is measured from, what is asked of a taper, and marks that are scored first.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>

#include "core/cutting/cutting.h"
#include "cut_stage.h"
#include "tests/kit/render_png.h"

namespace tallyblock::test {
namespace {

class CutMarks : public CutStage {
 protected:
  void tap(const std::string& label) {
    at.settle();
    for (const AccessNode& n : at.access()) {
      if (n.label != label) continue;
      at.stage.in.activated.push_back(n.id);
      return at.settle();
    }
    FAIL() << label << " is not on the screen: " << words();
  }
  void loin(const std::string& width, const std::string& depth) {
    at.rig.enter(FieldKind::drained, "5200");
    at.rig.enter(FieldKind::target, "180", "portions");
    measure_first_face(at.rig, "600", "130", "80");
    type_length(at.rig, "width:600 mm", width);
    answer(at.rig, depth);
    at.go(Screen::cut, "measure");
  }
  CuttingObject piece() {
    return cutting_of(at.app().session()->set, at.rig.figures()).at(0).objects.at(0);
  }
  // So many blocks as an invented cook cuts them: heavy by this factor.
  void blocks(int count, double heavy) {
    ask::set_long_pieces(at.app(), 1);
    at.rig.pump();
    at.go(Screen::cut, "guide");
    for (int i = 0; i < count; ++i) {
      const Guide::Advice advice = *piece().advice;
      const double grams = advice.expected.in_grams() * std::exp(-piece().cook.habit) * heavy;
      ask::edit(at.app(), {FieldKind::block, ""});
      at.settle();
      answer(at.rig, std::to_string(std::lround(grams)));
      at.settle();
      if (at.app().keypad().asked.weight)
        ask::answer_weight(at.app(), at.app().keypad().asked.weight->digits);
      at.settle();
    }
  }
  void picture(const std::string& name) {
    at.settle();
    const char* folder = std::getenv("TALLYBLOCK_PICTURES");
    if (folder == nullptr) return;
    const std::string file = std::string(folder) + "/" + name + ".png";
    EXPECT_TRUE(write_png(file, render(at.screens->kit().drawn())));
  }
};

constexpr const char* kTaper = "Where does it begin to taper?";

TEST_F(CutMarks, TwoFacesThatDifferAreAskedAboutOnceAndEvenlyIsRemembered) {
  loin("110", "70");
  EXPECT_TRUE(says(kTaper)) << words();
  EXPECT_FALSE(says("See the plan"));
  tap("Evenly, all along");
  EXPECT_FALSE(says(kTaper)) << words();
  EXPECT_TRUE(says("See the plan"));
  EXPECT_EQ(at.app().desk().cutting().stations.size(), 2U);  // no reading was made up
  EXPECT_TRUE(says("Measure one more place"));
  ask::undo(at.app());
  at.rig.pump();
  EXPECT_TRUE(says(kTaper)) << words();
}

TEST_F(CutMarks, WhereItTapersIsMeasuredThereAndNothingMoreAsked) {
  loin("110", "70");
  tap("Measure there");
  EXPECT_EQ(at.app().draft().field, (Field{FieldKind::length, "at"}));
  for (const char* digits : {"400", "128", "79"}) answer(at.rig, digits);
  EXPECT_EQ(at.app().desk().cutting().stations.size(), 3U);
  EXPECT_FALSE(says(kTaper)) << words();
  EXPECT_TRUE(says("See the plan"));
}

TEST_F(CutMarks, FacesThatAreNearlyAlikeAreNotAskedAbout) {
  loin("126", "76");  // 7.9 % less
  EXPECT_FALSE(says(kTaper)) << words();
  EXPECT_TRUE(says("See the plan"));
  type_length(at.rig, "width:600 mm", "145");  // 12 % more than the first
  answer(at.rig, "80");
  EXPECT_TRUE(says(kTaper)) << words();
}

TEST_F(CutMarks, TellWhatIsMeasuredAndWhatIsCut) {
  const std::string clean = "Boneless and cleaned; keep the blade upright.";
  at.go(Screen::cut, "measure");
  EXPECT_TRUE(says(clean)) << words();
  loin("130", "80");
  EXPECT_FALSE(says(clean)) << words();
  blocks(0, 1.0);
  EXPECT_TRUE(says(clean)) << words();
  blocks(1, 1.0);
  EXPECT_FALSE(says(clean)) << words();
}

TEST_F(CutMarks, ASplitIsToldAtBothEndsWhereTheyDiffer) {
  loin("110", "70");
  ask::set_long_pieces(at.app(), 3);
  at.rig.pump();
  const std::string split =
      "Split it from the edge: at the near end 43 mm, 87 mm; at the far end 37 mm, 73 mm.";
  at.go(Screen::cut, "plan");
  EXPECT_TRUE(says(split)) << words();
  ask::edit(at.app(), {});
  at.go(Screen::cut, "guide");
  EXPECT_TRUE(says(split + " Weigh each long piece")) << words();
  ask::set_session_setting(at.app(), "ruler", "cm");
  at.rig.pump();
  EXPECT_TRUE(says("at the near end 4.3 cm, 8.7 cm; at the far end 3.7 cm, 7.3 cm")) << words();
  ask::set_session_setting(at.app(), "ruler", "in");
  at.rig.pump();
  EXPECT_TRUE(says("at the near end 1 11/16 in, 3 7/16 in; ")) << words();
}

TEST_F(CutMarks, ASplitThatIsTheSameAtBothEndsIsToldOnce) {
  loin("130", "80");
  ask::set_long_pieces(at.app(), 3);
  at.rig.pump();
  at.go(Screen::cut, "plan");
  EXPECT_TRUE(says("Split it 43 mm, 87 mm from the edge.")) << words();
  EXPECT_FALSE(says("near end")) << words();
}

TEST_F(CutMarks, ThePlanSaysFromWhichFaceEachLengthIsMeasured) {
  loin("110", "70");
  at.go(Screen::cut, "plan");
  EXPECT_TRUE(says("Marks from the first face")) << words();
  EXPECT_TRUE(says("From the first face")) << words();
  EXPECT_TRUE(says("From the fresh face")) << words();
  at.screens->kit().scroll_to("cut/marks");
  picture("cut-marks");
}

TEST_F(CutMarks, CentimetresHaveTheMarkOfTheSession) {
  ask::set_session_setting(at.app(), "ruler", "cm");
  ask::set_setting(at.app(), "decimal-mark", ",");
  at.rig.pump();
  at.rig.enter(FieldKind::target, "180", "portions");
  measure_first_face(at.rig, "60.5", "13", "8");
  EXPECT_TRUE(says("The other end, at 60,5 cm:")) << words();
  ask::same_all_along(at.app());
  at.rig.pump();
  EXPECT_TRUE(says("60,5 cm")) << words();
  EXPECT_FALSE(says("60.5")) << words();
  at.go(Screen::cut, "plan");
  EXPECT_FALSE(says("60.5")) << words();
  ask::set_long_pieces(at.app(), 1);
  at.rig.pump();
  at.go(Screen::cut, "guide");
  EXPECT_TRUE(says(" cm")) << words();
  picture("cut-guide-cm");
}

TEST_F(CutMarks, AnAimOverTheTargetIsExplained) {
  loin("130", "80");
  at.rig.enter(FieldKind::tolerance, "5", "portions");
  blocks(0, 1.0);
  EXPECT_TRUE(says("A little over 180 g, so that few fall short.")) << words();
  EXPECT_GE(piece().advice->expected.in_grams(), 180.5);
  picture("cut-over");
}

TEST_F(CutMarks, WithoutAStrongHabitNoMarksAreToBeScored) {
  loin("110", "70");
  blocks(4, 1.01);
  EXPECT_FALSE(says("Score all marks first")) << words();
}

TEST_F(CutMarks, WithAStrongHabitAllMarksMayBeScoredFirst) {
  loin("110", "70");
  blocks(6, 1.12);
  ASSERT_GT(piece().cook.habit, 0.04);
  ASSERT_GT(piece().cook.habit, piece().cook.habit_sd);
  const double habit_when_scored = piece().cook.habit;
  EXPECT_TRUE(says("Cut 7, from the fresh face")) << words();
  picture("cut-score-offer");
  tap("Score all marks first");
  EXPECT_FALSE(says("Cut 7, from the fresh face")) << words();  // one way to cut at a time
  EXPECT_TRUE(says("Cut 7, at its scored mark, about")) << words();
  EXPECT_TRUE(says("Scored beforehand, one cut's error does not move the next.")) << words();
  const Guide::Advice scored = *piece().advice;
  const auto mark = [&](std::size_t i) {
    return std::to_string(std::lround(scored.rest.blocks.at(i).to.in_millimetres())) + " mm";
  };
  EXPECT_TRUE(says(mark(0))) << words();
  EXPECT_TRUE(says(mark(4))) << words();
  EXPECT_TRUE(says("From the fresh face")) << words();
  picture("cut-score");
  // What lies in the piece stays where it is, though the next block weighs other than expected.
  blocks(1, 1.03);
  EXPECT_TRUE(says("Cut 8, at its scored mark")) << words();
  EXPECT_TRUE(says("From the face scored from")) << words();
  EXPECT_TRUE(says(mark(1))) << words();
  EXPECT_TRUE(says(mark(4))) << words();
  EXPECT_FALSE(says(" " + mark(0))) << words();  // cut
  // Entered as the thickness that ends at the mark: from where the face stands, the habit allowed for.
  const CutLine cut = piece().cuts.back();
  EXPECT_NEAR(cut.asked->in_millimetres(),
              (scored.rest.blocks.at(0).to + scored.face_off).in_millimetres() *
                  std::exp(-habit_when_scored),
              0.51);
  // Another start of the app finds them too.
  const Draft kept = draft_from_json(draft_to_json(at.app().draft()));
  EXPECT_EQ(kept.scored, at.app().draft().scored);
  EXPECT_EQ(kept.scored.size(), 1U);
  // Another piece is opened meanwhile, and this one again.
  const std::string id = at.app().session()->id;
  ask::new_session(at.app());
  at.rig.pump();
  EXPECT_FALSE(at.app().draft().scored.empty());
  ask::open(at.app(), id);
  at.rig.pump();
  at.go(Screen::cut, "guide");
  at.settle();
  EXPECT_TRUE(says("Cut 8, at its scored mark")) << words();
  // A block that is taken out, with its cut, comes to its mark again.
  const EntryId last = piece().cuts.back().id;
  for (const Entry* entry : at.app().session()->set.in_order()) {
    const auto* reading = std::get_if<body::Reading>(&entry->body);
    if (reading != nullptr && reading->cut == last) ask::void_entry(at.app(), entry->id);
  }
  at.settle();
  ask::void_entry(at.app(), last);
  at.settle();
  EXPECT_TRUE(says("Cut 7, at its scored mark")) << words();
  blocks(1, 1.03);
  EXPECT_TRUE(says("Cut 8, at its scored mark")) << words();
  tap("Score all marks first");
  EXPECT_FALSE(says("Scored beforehand")) << words();
  EXPECT_TRUE(says("Cut 8, from the fresh face")) << words();
}

// What is kept of them may be anything: then there are none.
TEST_F(CutMarks, ScoredMarksThatCannotBeReadAreNone) {
  loin("110", "70");
  blocks(2, 1.0);
  const std::string id = at.app().session()->id;
  for (const char* text :
       {"nan nan nan;nan 1 1 portions 0 portions", "600.00 5200.00 0;nan 1 1 portions 0 portions",
        "600.00 5200.00 0;90 9 1 portions 0 portions",
        "600.00 5200.00 0;90 1 9 portions 0 portions", "600.00 5200.00 0;90 1 1 gone 0 gone",
        "600.00 5200.00 0;;;", "600.00 5200.00 0", "x",
        "500.00 5200.00 0;90 1 1 portions 0 portions"}) {
    ask::score_marks(at.app(), id + "/", text);
    EXPECT_FALSE(says("at its scored mark")) << text << words();
  }
  ask::score_marks(at.app(), id + "/", "600.00 5200.00 0;90 1 1 portions 0 portions");
  EXPECT_TRUE(says("Cut 3, at its scored mark")) << words();
}

// What earlier pieces showed is known before the first cut.
TEST_F(CutMarks, ScoredBeforeTheFirstCutTheyAreMeasuredFromTheFirstFace) {
  loin("110", "70");
  ask::set_session_setting(at.app(), "cook", "0.08 0.02 0.03 12");
  at.rig.pump();
  blocks(0, 1.0);
  tap("Score all marks first");
  EXPECT_TRUE(says("From the first face")) << words();
  EXPECT_FALSE(says("From the fresh face")) << words();
}

}  // namespace
}  // namespace tallyblock::test
