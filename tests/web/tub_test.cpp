// Tubs at the board: one stays with its pile, and nothing weighed in one is lighter than it.
#include <gtest/gtest.h>

#include "core/entries/codec.h"
#include "fake_host.h"

namespace tallyblock::test {
namespace {

class Tubs : public ::testing::Test {
 protected:
  Tubs() {
    rig->new_session();
    rig.pump();
    rig.enter(FieldKind::drained, "3000");
    rig->add_tub("");
    rig.type("300");
    rig->enter();
    rig.pump();
    tub = rig.figures().tubs.at(0).key;
  }
  Rig rig;
  std::string tub;
};

TEST_F(Tubs, WithoutANameAreNumbered) { EXPECT_EQ(rig.figures().tubs.at(0).name, "Tub 1"); }

TEST_F(Tubs, AreChosenBeforeThePileAndLeftWithIt) {
  rig->set_tub(tub);
  rig.weigh("second-cuts", "1000");
  EXPECT_EQ(rig.grams("second-cuts"), 700.0);
  EXPECT_EQ(rig->draft().tub, tub);
  rig->choose_pile("portions");
  EXPECT_EQ(rig->draft().tub, "");
  rig.weigh("portions", "180");
  EXPECT_EQ(rig.grams("portions"), 180.0);
}

TEST_F(Tubs, StandBesideTheDigitsAndCountForThem) {
  rig->set_tub(tub);
  rig.weigh("second-cuts", "1000");
  rig.weigh("usable-trim", "930");
  EXPECT_EQ(rig.grams("usable-trim"), 630.0);
}

TEST_F(Tubs, AreNeverHeavierThanWhatIsWeighedInThem) {
  rig->set_tub(tub);
  rig.weigh("portions", "184");
  EXPECT_EQ(rig.grams("portions"), 0.0);
  ASSERT_TRUE(rig->field_problem());
  EXPECT_EQ(rig->field_problem()->code, Code::typed_under_tub);
  EXPECT_EQ(rig->draft().digits, "184");  // nothing typed is lost
  rig->set_tub("");
  rig->enter();
  rig.pump();
  EXPECT_EQ(rig.grams("portions"), 184.0);
}

// Another phone took the tub out; what is weighed now is in none.
TEST_F(Tubs, TakenOutByAnImportAreNotWeighedIn) {
  rig->set_tub(tub);
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
  rig->import_file();
  rig->on_file("other.json", write_session(file), true);
  rig.pump();
  ASSERT_TRUE(rig.figures().tubs.empty()) << rig->notice()->args.at(0);
  rig.weigh("portions", "480");
  EXPECT_EQ(rig.grams("portions"), 480.0);
  const ReadingLine& line = rig.pile("portions").lines.at(0);
  EXPECT_EQ(std::get<body::Reading>(rig->session()->set.find(line.id)->body).tub, "");
}

TEST_F(Tubs, LoseAPieceThatIsMovedOnAfterTheyWereWeighedAndBothPilesAreRight) {
  rig->set_tub("");
  rig.weigh("usable-trim", "200");
  rig.weigh("usable-trim", "300");
  rig->set_habit("tub-now");
  rig.weigh("usable-trim", "510");
  rig->move_reading(rig.pile("usable-trim").lines.at(0).id, "portions");
  rig.pump();
  EXPECT_EQ(rig.grams("portions"), 200.0);
  EXPECT_EQ(rig.grams("usable-trim"), 310.0);
}

TEST_F(Tubs, AreLeftWhenAMoveTellsWhichPileIsBeingFilled) {
  rig->set_tub(tub);
  rig.weigh("portions", "480");
  rig->move_reading(rig.pile("portions").lines.at(0).id, "usable-trim");
  rig.pump();
  EXPECT_EQ(rig->draft().pile, "usable-trim");
  rig.type("20");
  rig->move_reading(rig.pile("usable-trim").lines.at(0).id, "portions");
  rig.pump();
  EXPECT_EQ(rig->draft().pile, "usable-trim");
  EXPECT_EQ(rig->draft().digits, "20");
}

TEST_F(Tubs, TakenBackAtOnceAreNeitherChosenNorAskedFor) {
  rig->go(Screen::weigh);
  rig->add_tub("");
  rig.type("18");
  rig.pump();
  ASSERT_EQ(rig->draft().field.kind, FieldKind::tub_tare);
  rig->undo();
  rig.pump();
  EXPECT_EQ(rig.figures().tubs.size(), 1U);
  EXPECT_EQ(rig->draft().tub, "");
  EXPECT_EQ(rig->draft().field.kind, FieldKind::reading);
  EXPECT_EQ(rig->draft().digits, "");
}

TEST_F(Tubs, ArePutAsideNoLongerWhenTakenBackFromAnotherScreen) {
  rig->go(Screen::weigh);
  rig->add_tub("");
  rig.type("18");
  rig->go(Screen::details);
  rig->undo();
  rig.pump();
  rig->go(Screen::weigh);
  EXPECT_EQ(rig->draft().field.kind, FieldKind::reading);
  EXPECT_EQ(rig->draft().digits, "");
}

}  // namespace
}  // namespace tallyblock::test
