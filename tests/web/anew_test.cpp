// A weight typed wrong is typed anew: the same reading, with another weight in its place.
#include <gtest/gtest.h>

#include "fake_host.h"

namespace tallyblock::test {
namespace {

class Anew : public ::testing::Test {
 protected:
  Anew() {
    ask::new_session(*rig);
    rig.pump();
    rig.enter(FieldKind::drained, "3000");
  }
  EntryId last_of(const std::string& pile) { return rig.pile(pile).lines.back().id; }
  void anew(const EntryId& id, const std::string& digits) {
    rig.enter(FieldKind::anew, digits, to_text(id));
  }
  // 200 g of trim, then the whole tub: 500 g.
  void trim_and_its_tub() {
    rig.weigh("usable-trim", "200");
    ask::set_habit(*rig, "tub-now");
    rig.weigh("usable-trim", "500");
    ASSERT_EQ(rig.grams("usable-trim"), 500.0);
  }
  Rig rig;
};

TEST_F(Anew, KeepsPileCountAndTub) {
  ask::add_tub(*rig, "");
  rig.type("300");
  ask::enter(*rig);
  rig.pump();
  ask::set_tub(*rig, rig.figures().tubs.at(0).key);
  ask::set_count(*rig, 4);
  rig.weigh("portions", "10800");
  ask::choose_pile(*rig, "usable-trim");
  ask::set_tub(*rig, "");
  anew(last_of("portions"), "1080");
  EXPECT_EQ(rig.grams("portions"), 780.0);
  EXPECT_EQ(rig.pile("portions").pieces, 4U);
  EXPECT_EQ(rig.pile("portions").lines.size(), 1U);
  EXPECT_EQ(rig->draft().pile, "usable-trim");  // what is weighed next is not touched
  ask::undo(*rig);
  rig.pump();
  EXPECT_EQ(rig.grams("portions"), 10500.0);
}

TEST_F(Anew, IsRefusedBelowTheTub) {
  ask::add_tub(*rig, "");
  rig.type("300");
  ask::enter(*rig);
  rig.pump();
  ask::set_tub(*rig, rig.figures().tubs.at(0).key);
  rig.weigh("portions", "1080");
  anew(last_of("portions"), "108");
  ASSERT_TRUE(rig->keypad().problem);
  EXPECT_EQ(rig->keypad().problem->code, Code::typed_under_tub);
  EXPECT_EQ(rig->draft().digits, "108");
  EXPECT_EQ(rig.grams("portions"), 780.0);
}

TEST_F(Anew, StaysWhereTheReadingWasMoved) {
  rig.weigh("portions", "1790");
  const EntryId id = last_of("portions");
  ask::move_reading(*rig, id, "second-cuts");
  rig.pump();
  anew(id, "179");
  EXPECT_EQ(rig.grams("portions"), 0.0);
  EXPECT_EQ(rig.grams("second-cuts"), 179.0);
}

TEST_F(Anew, StaysInTheTubThatWasWeighedAfterIt) {
  trim_and_its_tub();
  anew(rig.pile("usable-trim").lines.front().id, "220");
  EXPECT_EQ(rig.grams("usable-trim"), 500.0);
}

TEST_F(Anew, OfATubLeavesWhatWasWeighedAfterItAlone) {
  trim_and_its_tub();
  const EntryId tub = last_of("usable-trim");
  ask::set_habit(*rig, "piece");
  rig.weigh("usable-trim", "70");
  ASSERT_EQ(rig.grams("usable-trim"), 570.0);
  anew(tub, "510");
  EXPECT_EQ(rig.grams("usable-trim"), 580.0);
}

TEST_F(Anew, OfNothingGoesBackToTheBoard) {
  ask::go(*rig, Screen::weigh);
  anew(EntryId{}, "179");
  EXPECT_EQ(rig->draft().field.kind, FieldKind::reading);
  EXPECT_EQ(rig.grams("portions"), 0.0);
}

}  // namespace
}  // namespace tallyblock::test
