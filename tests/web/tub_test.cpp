// Tubs at the board: one stays with its pile, and nothing weighed in one is lighter than it.
#include <gtest/gtest.h>

#include "core/entries/codec.h"
#include "fake_host.h"

namespace tallyblock::test {
namespace {

class Tubs : public ::testing::Test {
 protected:
  Tubs() {
    ask::new_session(*rig);
    rig.pump();
    rig.enter(FieldKind::drained, "3000");
    ask::add_tub(*rig, "");
    rig.type("300");
    ask::enter(*rig);
    rig.pump();
    tub = rig.figures().tubs.at(0).key;
  }
  Rig rig;
  std::string tub;
};

TEST_F(Tubs, WithoutANameAreNumbered) { EXPECT_EQ(rig.figures().tubs.at(0).name, "Tub 1"); }

TEST_F(Tubs, AreChosenBeforeThePileAndLeftWithIt) {
  ask::set_tub(*rig, tub);
  rig.weigh("second-cuts", "1000");
  EXPECT_EQ(rig.grams("second-cuts"), 700.0);
  EXPECT_EQ(rig->draft().tub, tub);
  ask::choose_pile(*rig, "portions");
  EXPECT_EQ(rig->draft().tub, "");
  rig.weigh("portions", "180");
  EXPECT_EQ(rig.grams("portions"), 180.0);
}

TEST_F(Tubs, StandBesideTheDigitsAndCountForThem) {
  ask::set_tub(*rig, tub);
  rig.weigh("second-cuts", "1000");
  rig.weigh("usable-trim", "930");
  EXPECT_EQ(rig.grams("usable-trim"), 630.0);
}

TEST_F(Tubs, AreNeverHeavierThanWhatIsWeighedInThem) {
  ask::set_tub(*rig, tub);
  rig.weigh("portions", "184");
  EXPECT_EQ(rig.grams("portions"), 0.0);
  ASSERT_TRUE(rig->keypad().problem);
  EXPECT_EQ(rig->keypad().problem->code, Code::typed_under_tub);
  EXPECT_EQ(rig->draft().digits, "184");  // nothing typed is lost
  ask::set_tub(*rig, "");
  ask::enter(*rig);
  rig.pump();
  EXPECT_EQ(rig.grams("portions"), 184.0);
}

// Another phone took the tub out; what is weighed now is in none.
TEST_F(Tubs, TakenOutByAnImportAreNotWeighedIn) {
  ask::set_tub(*rig, tub);
  SessionFile file;
  file.session = rig->session()->id;
  for (const Entry* entry : rig->session()->set.in_order()) {
    file.entries.push_back(*entry);
    if (!std::holds_alternative<body::Tub>(entry->body)) continue;
    Entry taken_out;
    taken_out.id = {"zther00000", static_cast<std::uint32_t>(file.entries.size())};
    taken_out.seq = 900;
    taken_out.body = body::Void{entry->id};
    file.entries.push_back(sealed(taken_out));
  }
  ask::import_file(*rig);
  rig->on_file("other.json", write_session(file), true);
  rig.pump();
  ASSERT_TRUE(rig.figures().tubs.empty()) << rig->notice()->args.at(0);
  rig.weigh("portions", "480");
  EXPECT_EQ(rig.grams("portions"), 480.0);
  const ReadingLine& line = rig.pile("portions").lines.at(0);
  EXPECT_EQ(std::get<body::Reading>(rig->session()->set.find(line.id)->body).tub, "");
}

TEST_F(Tubs, LoseAPieceThatIsMovedOnAfterTheyWereWeighedAndBothPilesAreRight) {
  ask::set_tub(*rig, "");
  rig.weigh("usable-trim", "200");
  rig.weigh("usable-trim", "300");
  ask::set_habit(*rig, "tub-now");
  rig.weigh("usable-trim", "510");
  ask::move_reading(*rig, rig.pile("usable-trim").lines.at(0).id, "portions");
  rig.pump();
  EXPECT_EQ(rig.grams("portions"), 200.0);
  EXPECT_EQ(rig.grams("usable-trim"), 310.0);
}

TEST_F(Tubs, AreLeftWhenAMoveTellsWhichPileIsBeingFilled) {
  ask::set_tub(*rig, tub);
  rig.weigh("portions", "480");
  ask::move_reading(*rig, rig.pile("portions").lines.at(0).id, "usable-trim");
  rig.pump();
  EXPECT_EQ(rig->draft().pile, "usable-trim");
  rig.type("20");
  ask::move_reading(*rig, rig.pile("usable-trim").lines.at(0).id, "portions");
  rig.pump();
  EXPECT_EQ(rig->draft().pile, "usable-trim");
  EXPECT_EQ(rig->draft().digits, "20");
}

TEST_F(Tubs, TakenBackAtOnceAreNeitherChosenNorAskedFor) {
  ask::go(*rig, Screen::weigh);
  ask::add_tub(*rig, "");
  rig.type("18");
  rig.pump();
  ASSERT_EQ(rig->draft().field.kind, FieldKind::tub_tare);
  ask::undo(*rig);
  rig.pump();
  EXPECT_EQ(rig.figures().tubs.size(), 1U);
  EXPECT_EQ(rig->draft().tub, "");
  EXPECT_EQ(rig->draft().field.kind, FieldKind::reading);
  EXPECT_EQ(rig->draft().digits, "");
}

TEST_F(Tubs, ArePutAsideNoLongerWhenTakenBackFromAnotherScreen) {
  ask::go(*rig, Screen::weigh);
  ask::add_tub(*rig, "");
  rig.type("18");
  ask::go(*rig, Screen::details);
  ask::undo(*rig);
  rig.pump();
  ask::go(*rig, Screen::weigh);
  EXPECT_EQ(rig->draft().field.kind, FieldKind::reading);
  EXPECT_EQ(rig->draft().digits, "");
}

}  // namespace
}  // namespace tallyblock::test
