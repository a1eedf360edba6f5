// What can be done with sessions and in them, and taken back.
#include <gtest/gtest.h>

#include <algorithm>

#include "fake_host.h"
#include "web/app/sample.h"

namespace tallyblock::test {
namespace {

struct Acts : ::testing::Test {
  Rig rig;
  App& app = *rig;
  void SetUp() override {
    app.new_session();
    rig.pump();
    rig.enter(FieldKind::drained, "2000");
  }
  std::string id() { return app.session()->id; }
  EntryId last() { return app.session()->set.in_order().back()->id; }
};

TEST_F(Acts, ANewSessionHasTheDefaultPilesAndSettings) {
  ASSERT_EQ(rig.figures().piles.size(), 4u);
  EXPECT_EQ(rig.figures().piles[0].key, "portions");
  EXPECT_EQ(rig.figures().piles[0].role, Role::primary);
  EXPECT_EQ(rig.figures().piles[3].key, "unusable-trim");
  EXPECT_EQ(rig.figures().settings.currency, "EUR");
  EXPECT_EQ(rig.figures().settings.all.count("loss-limit"), 1u);
  ASSERT_EQ(app.cards().size(), 1u);
  EXPECT_EQ(app.cards()[0].whole_grams, 2000.0);
}

TEST_F(Acts, UndoTakesTheLastActsBackOneByOne) {
  rig.weigh("portions", "300");
  rig.weigh("portions", "400");
  EXPECT_TRUE(app.notice()->can_undo);
  app.undo();
  EXPECT_EQ(rig.grams("portions"), 300.0);
  app.undo();
  EXPECT_EQ(rig.grams("portions"), 0.0);
  app.undo();
  EXPECT_FALSE(rig.figures().incoming.drained);
  EXPECT_EQ(rig.pile("portions").lines.size(), 2u) << "voided readings stay in the list";
}

TEST_F(Acts, UndoOfACorrectionBringsTheFigureBeforeBack) {
  rig.enter(FieldKind::price_per_mass, "10");
  rig.enter(FieldKind::price_per_mass, "12");
  app.undo();
  EXPECT_DOUBLE_EQ(rig.figures().cost->in_units(), 20.0);
}

TEST_F(Acts, VoidingAFactMeansAllItsCorrectionsAndRestoringToo) {
  rig.enter(FieldKind::price_per_mass, "10");
  rig.enter(FieldKind::price_per_mass, "12");
  const EntryId price = last();
  app.void_entry(price);
  EXPECT_FALSE(rig.figures().cost);
  app.restore_entry(price);
  EXPECT_DOUBLE_EQ(rig.figures().cost->in_units(), 24.0);
  app.undo();
  EXPECT_FALSE(rig.figures().cost);
}

TEST_F(Acts, AVoidedReadingCountsAgainWhenRestored) {
  rig.weigh("portions", "300");
  const EntryId reading = last();
  app.void_entry(reading);
  EXPECT_EQ(rig.grams("portions"), 0.0);
  app.void_entry(reading);  // nothing more to void
  EXPECT_EQ(rig.grams("portions"), 0.0);
  app.restore_entry(reading);
  EXPECT_EQ(rig.grams("portions"), 300.0);
  app.undo();
  EXPECT_EQ(rig.grams("portions"), 0.0);
}

TEST_F(Acts, MovingAReadingAndMovingItOnLeavesNoDoubt) {
  rig.weigh("portions", "300");
  const EntryId reading = last();
  app.move_reading(reading, "second-cuts");
  EXPECT_EQ(rig.grams("second-cuts"), 300.0);
  app.move_reading(reading, "usable-trim");
  EXPECT_EQ(rig.grams("usable-trim"), 300.0);
  EXPECT_EQ(rig.grams("second-cuts"), 0.0);
  EXPECT_FALSE(rig.has_doubt(Code::doubt_several_candidates));
  app.undo();
  EXPECT_EQ(rig.grams("second-cuts"), 300.0);
  app.move_reading(reading, "no-such-pile");
  EXPECT_EQ(rig.grams("second-cuts"), 300.0);
}

TEST_F(Acts, APileKeepsItsKeyThroughRenamingAndAKnownOneHasTheKnownKey) {
  app.add_pile(Role::usable_trim, "Stock bones", "stock");
  EXPECT_EQ(rig.figures().piles.back().key, "stock-bones");
  EXPECT_EQ(app.draft().pile, "stock-bones");
  app.add_pile(Role::secondary, "Côte & more", "");
  const std::string key = rig.figures().piles.back().key;
  EXPECT_EQ(key, "c-te-more");
  app.add_pile(Role::secondary, "Côte & more", "");
  EXPECT_EQ(rig.figures().piles.back().key, "c-te-more-2");
  app.add_pile(Role::secondary, "—", "");
  EXPECT_TRUE(is_key(rig.figures().piles.back().key));
  rig.name("pile:" + key, "Ribs");
  EXPECT_EQ(rig.pile(key).name, "Ribs");
  app.set_pile_role(key, Role::usable_trim);
  EXPECT_EQ(rig.pile(key).role, Role::usable_trim);
  EXPECT_EQ(rig.pile(key).name, "Ribs");
  EXPECT_FALSE(rig.has_doubt(Code::doubt_several_candidates));
}

TEST_F(Acts, APileByDifferenceClaimsNoBalance) {
  rig.weigh("portions", "1500");
  app.set_by_difference("unusable-trim", true);
  EXPECT_EQ(rig.grams("unusable-trim"), 500.0);
  EXPECT_FALSE(rig.figures().steps[0].loss);
  app.set_by_difference("unusable-trim", false);
  EXPECT_TRUE(rig.figures().steps[0].loss);
}

TEST_F(Acts, APileBrokenDownFurtherHasItsOwnStepWithPiles) {
  rig.weigh("usable-trim", "600");
  app.break_down("usable-trim", "Trim again", Process::breakdown);
  ASSERT_EQ(rig.figures().steps.size(), 2u);
  const std::string step = rig.figures().steps[1].key;
  EXPECT_EQ(rig.pile(app.draft().pile).step, step);
  app.add_pile(Role::usable_trim, "Fat to render", "render");
  EXPECT_EQ(rig.figures().piles.back().step, step);
  rig.enter(FieldKind::step_weight, "500", "usable-trim");
  EXPECT_EQ(rig.figures().steps[1].input->value().in_grams(), 500.0);
  rig.enter(FieldKind::step_weight, "450", "usable-trim");
  EXPECT_EQ(rig.figures().steps[1].input->value().in_grams(), 450.0);
  EXPECT_EQ(rig.figures().steps.size(), 2u);
}

TEST_F(Acts, NamesNotesAndPeopleAreKeptHalfTypedAndWhenDone) {
  app.text_changed("piece", "Beef ten");
  EXPECT_EQ(app.text_of("piece"), "Beef ten");
  rig.pump();
  rig.restart();
  EXPECT_EQ(rig->text_of("piece"), "Beef ten");
  EXPECT_EQ(rig.figures().piece, "");
  rig.name("piece", "  Beef tenderloin\t");
  EXPECT_EQ(rig.figures().piece, "Beef tenderloin");
  rig.name("species", "beef");
  rig.name("cut", "tenderloin");
  EXPECT_EQ(rig.figures().piece, "Beef tenderloin");
  EXPECT_EQ(rig.figures().species, "beef");
  rig.name("lot:lot", "A-17");
  rig.name("specification", "Chain off");
  rig.name("note", "line one\nline two");
  rig.name("currency", "chf");
  EXPECT_EQ(rig.figures().lot.at("lot"), "A-17");
  EXPECT_EQ(rig.figures().specification, "Chain off");
  ASSERT_EQ(rig.figures().notes.size(), 1u);
  EXPECT_EQ(rig.figures().notes[0].text, "line one\nline two");
  EXPECT_EQ(rig.figures().settings.currency, "CHF");
  rig.name("note:" + to_text(rig.figures().notes[0].id), "changed");
  ASSERT_EQ(rig.figures().notes.size(), 1u);
  EXPECT_EQ(rig.figures().notes[0].text, "changed");
  EXPECT_EQ(rig->draft().text_field, "");
}

TEST_F(Acts, ATextThatCannotBeKeptStaysInItsFieldAndSaysSo) {
  const std::string longest(300, 'x');
  rig.name("piece", longest);
  EXPECT_EQ(app.text_of("piece"), longest);
  EXPECT_EQ(rig.notice(), "notice.text-too-long");
  rig.name("currency", "euros");
  EXPECT_EQ(rig.notice(), "notice.setting-refused");
  EXPECT_EQ(rig.figures().settings.currency, "EUR");
}

TEST_F(Acts, EveryEntryNamesWhoWasCutting) {
  rig.name("person", "Ada");
  const EntryId ada = rig.figures().people[0].id;
  rig.weigh("portions", "100");
  EXPECT_EQ(app.session()->set.in_order().back()->by, ada);
  rig.name("person", "Ben");
  rig.weigh("portions", "100");
  EXPECT_NE(app.session()->set.in_order().back()->by, ada);
  app.set_person(ada);
  rig.pump();
  rig.restart();
  EXPECT_EQ(rig->person(), ada);
  rig.weigh("portions", "100");
  EXPECT_EQ(rig->session()->set.in_order().back()->by, ada);
}

TEST_F(Acts, TheLabourTimerPausesAndSurvivesAKill) {
  app.timer_start();
  rig.pump();
  rig.wait(120'000);
  EXPECT_EQ(app.timer_ms(), 120'000);
  rig.restart();
  rig.wait(60'000);
  EXPECT_EQ(rig->timer_ms(), 180'000);
  rig->timer_pause();
  EXPECT_DOUBLE_EQ(rig.figures().minutes, 3.0);
  EXPECT_EQ(rig->timer_ms(), 0);
  rig.pump();
  rig->undo();
  EXPECT_DOUBLE_EQ(rig.figures().minutes, 0.0);
}

TEST_F(Acts, ARunningTimerAsksForOneWakeAMinute) {
  app.timer_start();
  rig.pump();
  rig.host.wakes.clear();
  app.on_timer();
  ASSERT_EQ(rig.host.wakes.size(), 1u);
  EXPECT_EQ(rig.host.wakes[0] - rig.host.monotonic, 60'000);
  app.timer_pause();
  rig.pump();
  rig.host.wakes.clear();
  app.on_timer();
  EXPECT_TRUE(rig.host.wakes.empty());
}

TEST_F(Acts, LeavingASessionKeepsItsTimeThere) {
  app.timer_start();
  rig.wait(240'000);
  const std::string first = id();
  app.new_session();
  rig.pump();
  EXPECT_EQ(app.draft().timer_started_ms, 0);
  app.open(first);
  rig.pump();
  EXPECT_DOUBLE_EQ(rig.figures().minutes, 4.0);
}

TEST_F(Acts, SameAgainCopiesPiecePilesSettingsPricesAndTargets) {
  rig.name("piece", "Pork loin");
  app.add_pile(Role::usable_trim, "Stock bones", "stock");
  rig.name("pile:portions", "Chops");
  rig.enter(FieldKind::price_per_mass, "7.80");
  rig.enter(FieldKind::pile_value, "0.9", "stock-bones");
  rig.enter(FieldKind::target, "200", "portions");
  rig.enter(FieldKind::wage, "18");
  rig.weigh("portions", "600");
  const std::string before = id();
  app.same_again(before);
  rig.pump();
  EXPECT_NE(id(), before);
  EXPECT_EQ(app.draft().field.kind, FieldKind::drained);
  EXPECT_EQ(rig.figures().piece, "Pork loin");
  EXPECT_EQ(rig.pile("portions").name, "Chops");
  EXPECT_EQ(rig.pile("stock-bones").use, "stock");
  EXPECT_DOUBLE_EQ(rig.pile("stock-bones").value->per(MassUnit::kilogram), 0.9);
  ASSERT_EQ(rig.figures().targets.size(), 1u);
  EXPECT_DOUBLE_EQ(rig.figures().settings.wage_per_hour->in_units(), 18.0);
  EXPECT_EQ(rig.grams("portions"), 0.0);
  EXPECT_FALSE(rig.figures().incoming.drained);
  rig.enter(FieldKind::drained, "1000");
  EXPECT_DOUBLE_EQ(rig.figures().cost->in_units(), 7.8);
  app.go(Screen::sessions);
  app.same_again(before);  // of a session that is not open
  rig.pump();
  EXPECT_EQ(rig.figures().piece, "Pork loin");
  EXPECT_EQ(app.cards().size(), 3u);
}

TEST_F(Acts, TheBinGivesBackAndErasingIsForGood) {
  const std::string session = id();
  app.put_in_bin(session);
  rig.pump();
  EXPECT_EQ(app.session(), nullptr);
  EXPECT_TRUE(app.cards().empty());
  ASSERT_EQ(app.binned().size(), 1u);
  EXPECT_EQ(app.draft().screen, Screen::sessions);
  app.undo();
  rig.pump();
  ASSERT_EQ(app.cards().size(), 1u);
  app.erase(session);  // not in the bin: nothing happens
  rig.pump();
  EXPECT_EQ(app.cards().size(), 1u);
  app.put_in_bin(session);
  app.erase(session);
  rig.pump();
  EXPECT_TRUE(app.binned().empty());
  EXPECT_TRUE(rig.store.kept[Area::entries].empty());
  EXPECT_TRUE(rig.store.kept[Area::index].empty());
  EXPECT_TRUE(rig.store.kept[Area::bin].empty());
}

TEST_F(Acts, TheSampleIsLoadedAndRemovedWithOneActEach) {
  app.load_sample();
  rig.pump();
  EXPECT_GE(app.cards().size(), 5u);
  EXPECT_EQ(rig.notice(), "notice.sample-loaded");
  EXPECT_EQ(std::count_if(app.cards().begin(), app.cards().end(),
                          [](const SessionCard& card) { return card.sample; }),
            4);
  app.load_sample();
  rig.pump();
  EXPECT_EQ(rig.notice(), "notice.sample-there");
  app.remove_sample();
  rig.pump();
  EXPECT_EQ(app.cards().size(), 1u);
  EXPECT_TRUE(app.binned().empty());
}

TEST_F(Acts, ASampleSessionThatWasWorkedOnGoesToTheBin) {
  app.load_sample();
  rig.pump();
  app.open(sample_sessions()[0].session);
  rig.pump();
  EXPECT_TRUE(app.session()->sample);
  rig.weigh("portions", "170");
  app.remove_sample();
  rig.pump();
  ASSERT_EQ(app.binned().size(), 1u);
  EXPECT_EQ(app.binned()[0].id, sample_sessions()[0].session);
}

TEST_F(Acts, AFollowerIsToldAndOfferedThePen) {
  app.on_role(false);
  rig.pump();
  const std::size_t before = app.session()->set.size();
  rig.weigh("portions", "300");
  EXPECT_EQ(app.session()->set.size(), before);
  EXPECT_EQ(rig.notice(), "notice.not-writer");
  EXPECT_TRUE(app.notice()->is_error);
  EXPECT_EQ(app.draft().digits, "300") << "what was typed is still there";
  app.take_over();
  EXPECT_EQ(rig.host.takeovers, 1);
  app.on_role(true);
  rig.pump();
  app.enter();
  EXPECT_EQ(rig.grams("portions"), 300.0);
}

TEST_F(Acts, AnotherWindowsEntriesAppearWhenItSaysSo) {
  App other(rig.store, rig.host);
  other.start();
  while (rig.store.pump_one(other)) {
  }
  other.on_role(false);
  rig.weigh("portions", "300");
  other.on_others_changed();
  while (rig.store.pump_one(other)) {
  }
  ASSERT_NE(other.session(), nullptr);
  EXPECT_EQ(other.session()->set.size(), app.session()->set.size());
  EXPECT_EQ(other.cards()[0].entries, app.cards()[0].entries);
}

TEST_F(Acts, AnUpdateIsAdoptedOnlyWithNothingUnsaved) {
  app.on_update_waiting();
  EXPECT_TRUE(app.update_waiting());
  rig.weigh("portions", "300");
  app.edit({FieldKind::reading, ""});
  app.key("5");
  app.enter();  // its transaction has not completed
  app.adopt_update();
  EXPECT_EQ(rig.host.adoptions, 0);
  EXPECT_EQ(rig.notice(), "notice.update-unsaved");
  rig.pump();
  app.key("7");
  app.adopt_update();  // half-typed digits are flushed first
  EXPECT_EQ(rig.host.adoptions, 0);
  rig.pump();
  EXPECT_EQ(rig.host.adoptions, 1);
  rig.restart();
  EXPECT_EQ(rig->draft().digits, "7");
}

TEST_F(Acts, SettingsRefuseWhatASessionCouldNotHold) {
  app.set_setting("theme", "dark");
  app.set_setting("currency", "CHF");
  rig.pump();
  EXPECT_EQ(app.settings().theme, "dark");
  app.set_setting("currency", "money");
  EXPECT_EQ(rig.notice(), "notice.setting-refused");
  app.set_setting("division", "wide");
  app.set_setting("unit", "stone");
  app.set_setting("theme", "pink");
  rig.pump();
  rig.restart();
  EXPECT_EQ(rig->settings().currency, "CHF");
  EXPECT_EQ(rig->settings().division, "1 g");
  EXPECT_EQ(rig->settings().unit, "g");
  EXPECT_EQ(rig->settings().theme, "dark");
}

}  // namespace
}  // namespace tallyblock::test
