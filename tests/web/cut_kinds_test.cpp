// Slices whose portions are for two kinds: which goes where, in words and on the piles.
#include <gtest/gtest.h>

#include "core/cutting/cutting.h"
#include "cut_stage.h"

namespace tallyblock::test {
namespace {

// 121 +/- 7 and 122 +/- 7 g (invented), one wanted of each, from a piece that is cut in slices of two.
class CutKinds : public CutStage {
 protected:
  void SetUp() override {
    CutStage::SetUp();
    at.rig.enter(FieldKind::drained, "2400");
    at.rig.enter(FieldKind::target, "121", "portions");
    at.rig.enter(FieldKind::tolerance, "7", "portions");
    at.rig.enter(FieldKind::wanted, "1", "portions");
    at.rig.enter(FieldKind::target, "122", kOther);
    at.rig.enter(FieldKind::tolerance, "7", kOther);
    at.rig.enter(FieldKind::wanted, "1", kOther);
    measure_first_face(at.rig, "400", "110", "60");
    type_length(at.rig, "width:400 mm", "110");
    answer(at.rig, "60");
    ask::set_long_pieces(at.app(), 2);
    at.rig.pump();
    at.go(Screen::cut, "guide");
    ask::cut_long_piece(at.app(), "");
    ask::edit(at.app(), {FieldKind::block, ""});
    at.settle();
  }
  void weigh(const std::string& grams) {
    ask::edit(at.app(), {FieldKind::block, ""});
    at.settle();
    answer(at.rig, grams);
    at.settle();
    ASSERT_FALSE(at.app().keypad().asked.weight);
  }
  std::size_t in(const std::string& pile) {
    std::size_t count = 0;
    for (const ReadingLine& line : pile_named(at.rig.figures(), pile)->lines) {
      if (!line.is_void) count += line.count;
    }
    return count;
  }
  static constexpr const char* kOther = "second-cuts";
};

TEST_F(CutKinds, ASliceForTwoKindsIsSaidAndEachPortionGoesToItsPile) {
  const auto views = cutting_of(at.app().session()->set, at.rig.figures());
  ASSERT_TRUE(views.at(0).objects.at(0).advice);
  const PlannedBlock block = views[0].objects[0].advice->rest.blocks.at(0);
  ASSERT_EQ(block.k, 2);
  ASSERT_EQ(block.other_counted, 1U) << "the plan serves both kinds with one slice";
  EXPECT_TRUE(says("This slice gives 1 for ")) << words();
  // One at a time: two together cannot go into two piles.
  EXPECT_FALSE(says("at once")) << words();
  EXPECT_FALSE(says("1 at a time")) << words();
  const std::string first = views[0].specs[block.spec].name;
  const std::string second = views[0].specs[block.other].name;
  weigh("122");
  EXPECT_EQ(in(first), 1U);
  EXPECT_EQ(in(second), 0U);
  EXPECT_TRUE(says("Portion 2 of 2 of this slice: for ")) << words();
  weigh("121");
  EXPECT_EQ(in(first), 1U);
  EXPECT_EQ(in(second), 1U);
  const auto now = cutting_of(at.app().session()->set, at.rig.figures());
  EXPECT_TRUE(now.at(0).objects.at(0).advice->done);
}

// The plan speaks of several kinds: another size is added there.
TEST_F(CutStage, AnotherSizeOfPortionIsAddedOnThePlan) {
  at.rig.enter(FieldKind::drained, "2400");
  at.rig.enter(FieldKind::target, "120", "portions");
  measure_first_face(at.rig, "400", "110", "60");
  type_length(at.rig, "width:400 mm", "110");
  answer(at.rig, "60");
  at.go(Screen::cut, "plan");
  at.settle();
  ASSERT_TRUE(says("Add another size of portion")) << words();
  for (const AccessNode& n : at.access()) {
    if (n.label == "Add another size of portion") at.stage.in.activated.push_back(n.id);
  }
  at.settle();
  EXPECT_TRUE(says("Portion target, Portions 2")) << words();
  EXPECT_FALSE(says("Add another size of portion")) << "the one there is has no target yet";
  const std::string key = at.rig.figures().piles.back().key;
  at.rig.enter(FieldKind::target, "200", key);
  at.settle();
  EXPECT_TRUE(says("Portions 2 of 200 g")) << words();
}

}  // namespace
}  // namespace tallyblock::test
