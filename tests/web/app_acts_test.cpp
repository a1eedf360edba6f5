// What can be done with sessions and in them, and taken back.
#include <gtest/gtest.h>

#include <algorithm>

#include "fake_host.h"
#include "web/app/shelf/sample.h"

namespace tallyblock::test {
namespace {

struct Acts : ::testing::Test {
  Rig rig;
  App& app = *rig;
  void SetUp() override {
    ask::new_session(app);
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
  ASSERT_EQ(app.shelf().cards.size(), 1u);
  EXPECT_EQ(app.shelf().cards[0].whole_grams, 2000.0);
}

TEST_F(Acts, UndoTakesTheLastActsBackOneByOne) {
  rig.weigh("portions", "300");
  rig.weigh("portions", "400");
  EXPECT_TRUE(app.notice()->can_undo);
  ask::undo(app);
  EXPECT_EQ(rig.grams("portions"), 300.0);
  ask::undo(app);
  EXPECT_EQ(rig.grams("portions"), 0.0);
  ask::undo(app);
  EXPECT_FALSE(rig.figures().incoming.drained);
  EXPECT_EQ(rig.pile("portions").lines.size(), 2u) << "voided readings stay in the list";
}

TEST_F(Acts, UndoOfACorrectionBringsTheFigureBeforeBack) {
  rig.enter(FieldKind::price_per_mass, "10");
  rig.enter(FieldKind::price_per_mass, "12");
  ask::undo(app);
  EXPECT_DOUBLE_EQ(rig.figures().cost->in_units(), 20.0);
}

TEST_F(Acts, VoidingAFactMeansAllItsCorrectionsAndRestoringToo) {
  rig.enter(FieldKind::price_per_mass, "10");
  rig.enter(FieldKind::price_per_mass, "12");
  const EntryId price = last();
  ask::void_entry(app, price);
  EXPECT_FALSE(rig.figures().cost);
  ask::restore_entry(app, price);
  EXPECT_DOUBLE_EQ(rig.figures().cost->in_units(), 24.0);
  ask::undo(app);
  EXPECT_FALSE(rig.figures().cost);
}

TEST_F(Acts, AVoidedReadingCountsAgainWhenRestored) {
  rig.weigh("portions", "300");
  const EntryId reading = last();
  ask::void_entry(app, reading);
  EXPECT_EQ(rig.grams("portions"), 0.0);
  ask::void_entry(app, reading);  // nothing more to void
  EXPECT_EQ(rig.grams("portions"), 0.0);
  ask::restore_entry(app, reading);
  EXPECT_EQ(rig.grams("portions"), 300.0);
  ask::undo(app);
  EXPECT_EQ(rig.grams("portions"), 0.0);
}

TEST_F(Acts, MovingAReadingAndMovingItOnLeavesNoDoubt) {
  rig.weigh("portions", "300");
  const EntryId reading = last();
  ask::move_reading(app, reading, "second-cuts");
  EXPECT_EQ(rig.grams("second-cuts"), 300.0);
  ask::move_reading(app, reading, "usable-trim");
  EXPECT_EQ(rig.grams("usable-trim"), 300.0);
  EXPECT_EQ(rig.grams("second-cuts"), 0.0);
  EXPECT_FALSE(rig.has_doubt(Code::doubt_several_candidates));
  ask::undo(app);
  EXPECT_EQ(rig.grams("second-cuts"), 300.0);
  ask::move_reading(app, reading, "no-such-pile");
  EXPECT_EQ(rig.grams("second-cuts"), 300.0);
}

TEST_F(Acts, APileKeepsItsKeyThroughRenamingAndAKnownOneHasTheKnownKey) {
  ask::add_pile(app, Role::usable_trim, "Stock bones", "stock");
  EXPECT_EQ(rig.figures().piles.back().key, "stock-bones");
  EXPECT_EQ(app.draft().pile, "stock-bones");
  ask::add_pile(app, Role::secondary, "Côte & more", "");
  const std::string key = rig.figures().piles.back().key;
  EXPECT_EQ(key, "c-te-more");
  ask::add_pile(app, Role::secondary, "Côte & more", "");
  EXPECT_EQ(rig.figures().piles.back().key, "c-te-more-2");
  ask::add_pile(app, Role::secondary, "—", "");
  EXPECT_TRUE(is_key(rig.figures().piles.back().key));
  rig.name("pile:" + key, "Ribs");
  EXPECT_EQ(rig.pile(key).name, "Ribs");
  ask::set_pile_role(app, key, Role::usable_trim);
  EXPECT_EQ(rig.pile(key).role, Role::usable_trim);
  EXPECT_EQ(rig.pile(key).name, "Ribs");
  EXPECT_FALSE(rig.has_doubt(Code::doubt_several_candidates));
}

TEST_F(Acts, APileByDifferenceClaimsNoBalance) {
  rig.weigh("portions", "1500");
  ask::set_by_difference(app, "unusable-trim", true);
  EXPECT_EQ(rig.grams("unusable-trim"), 500.0);
  EXPECT_FALSE(rig.figures().steps[0].loss);
  ask::set_by_difference(app, "unusable-trim", false);
  EXPECT_TRUE(rig.figures().steps[0].loss);
}

TEST_F(Acts, APileBrokenDownFurtherHasItsOwnStepWithPiles) {
  rig.weigh("usable-trim", "600");
  ask::break_down(app, "usable-trim", "Trim again", Process::breakdown);
  ASSERT_EQ(rig.figures().steps.size(), 2u);
  const std::string step = rig.figures().steps[1].key;
  EXPECT_EQ(rig.pile(app.draft().pile).step, step);
  ask::add_pile(app, Role::usable_trim, "Fat to render", "render");
  EXPECT_EQ(rig.figures().piles.back().step, step);
  rig.enter(FieldKind::step_weight, "500", "usable-trim");
  EXPECT_EQ(rig.figures().steps[1].input->value().in_grams(), 500.0);
  rig.enter(FieldKind::step_weight, "450", "usable-trim");
  EXPECT_EQ(rig.figures().steps[1].input->value().in_grams(), 450.0);
  EXPECT_EQ(rig.figures().steps.size(), 2u);
}

TEST_F(Acts, NamesNotesAndPeopleAreKeptHalfTypedAndWhenDone) {
  ask::text_changed(app, "piece", "Beef ten");
  EXPECT_EQ(text_of(app, "piece"), "Beef ten");
  rig.pump();
  rig.restart();
  EXPECT_EQ(text_of(*rig, "piece"), "Beef ten");
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
  EXPECT_EQ(text_of(app, "piece"), longest);
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
  ask::set_person(app, ada);
  rig.pump();
  rig.restart();
  EXPECT_EQ(rig->keypad().person(), ada);
  rig.weigh("portions", "100");
  EXPECT_EQ(rig->session()->set.in_order().back()->by, ada);
}

TEST_F(Acts, TheLabourTimerPausesAndSurvivesAKill) {
  ask::timer_start(app);
  rig.pump();
  rig.wait(120'000);
  EXPECT_EQ(app.timer_ms(), 120'000);
  rig.restart();
  rig.wait(60'000);
  EXPECT_EQ(rig->timer_ms(), 180'000);
  ask::timer_pause(*rig);
  EXPECT_DOUBLE_EQ(rig.figures().minutes, 3.0);
  EXPECT_EQ(rig->timer_ms(), 0);
  rig.pump();
  ask::undo(*rig);
  EXPECT_DOUBLE_EQ(rig.figures().minutes, 0.0);
}

TEST_F(Acts, ARunningTimerAsksForOneWakeAMinute) {
  ask::timer_start(app);
  rig.pump();
  rig.host.wakes.clear();
  app.on_timer();
  ASSERT_EQ(rig.host.wakes.size(), 1u);
  EXPECT_EQ(rig.host.wakes[0] - rig.host.monotonic, 60'000);
  ask::timer_pause(app);
  rig.pump();
  rig.host.wakes.clear();
  app.on_timer();
  EXPECT_TRUE(rig.host.wakes.empty());
}

TEST_F(Acts, LeavingASessionKeepsItsTimeThere) {
  ask::timer_start(app);
  rig.wait(240'000);
  const std::string first = id();
  ask::new_session(app);
  rig.pump();
  EXPECT_EQ(app.draft().timer_started_ms, 0);
  ask::open(app, first);
  rig.pump();
  EXPECT_DOUBLE_EQ(rig.figures().minutes, 4.0);
}

TEST_F(Acts, SameAgainCopiesPiecePilesSettingsPricesAndTargets) {
  rig.name("piece", "Pork loin");
  ask::add_pile(app, Role::usable_trim, "Stock bones", "stock");
  rig.name("pile:portions", "Chops");
  rig.enter(FieldKind::price_per_mass, "7.80");
  rig.enter(FieldKind::pile_value, "0.9", "stock-bones");
  rig.enter(FieldKind::target, "200", "portions");
  rig.enter(FieldKind::wage, "18");
  rig.weigh("portions", "600");
  const std::string before = id();
  ask::same_again(app, before);
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
  ask::go(app, Screen::sessions);
  ask::same_again(app, before);  // of a session that is not open
  rig.pump();
  EXPECT_EQ(rig.figures().piece, "Pork loin");
  EXPECT_EQ(app.shelf().cards.size(), 3u);
}

TEST_F(Acts, TheBinGivesBackAndErasingIsForGood) {
  const std::string session = id();
  ask::put_in_bin(app, session);
  rig.pump();
  EXPECT_EQ(app.session(), nullptr);
  EXPECT_TRUE(app.shelf().cards.empty());
  ASSERT_EQ(app.shelf().binned.size(), 1u);
  EXPECT_EQ(app.draft().screen, Screen::sessions);
  ask::undo(app);
  rig.pump();
  ASSERT_EQ(app.shelf().cards.size(), 1u);
  ask::erase(app, session);  // not in the bin: nothing happens
  rig.pump();
  EXPECT_EQ(app.shelf().cards.size(), 1u);
  ask::put_in_bin(app, session);
  ask::erase(app, session);
  rig.pump();
  EXPECT_TRUE(app.shelf().binned.empty());
  EXPECT_TRUE(rig.store.kept[Area::entries].empty());
  EXPECT_TRUE(rig.store.kept[Area::index].empty());
  EXPECT_TRUE(rig.store.kept[Area::bin].empty());
}

TEST_F(Acts, TheSampleIsLoadedAndRemovedWithOneActEach) {
  ask::load_sample(app);
  rig.pump();
  EXPECT_GE(app.shelf().cards.size(), 5u);
  EXPECT_EQ(rig.notice(), "notice.sample-loaded");
  EXPECT_EQ(std::count_if(app.shelf().cards.begin(), app.shelf().cards.end(),
                          [](const SessionCard& card) { return card.sample; }),
            4);
  ask::load_sample(app);
  rig.pump();
  EXPECT_EQ(rig.notice(), "notice.sample-there");
  ask::remove_sample(app);
  rig.pump();
  EXPECT_EQ(app.shelf().cards.size(), 1u);
  EXPECT_TRUE(app.shelf().binned.empty());
}

TEST_F(Acts, ASampleSessionThatWasWorkedOnGoesToTheBin) {
  ask::load_sample(app);
  rig.pump();
  ask::open(app, sample_sessions()[0].session);
  rig.pump();
  EXPECT_TRUE(app.session()->sample);
  rig.weigh("portions", "170");
  ask::remove_sample(app);
  rig.pump();
  ASSERT_EQ(app.shelf().binned.size(), 1u);
  EXPECT_EQ(app.shelf().binned[0].id, sample_sessions()[0].session);
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
  ask::take_over(app);
  EXPECT_EQ(rig.host.takeovers, 1);
  app.on_role(true);
  rig.pump();
  ask::enter(app);
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
  EXPECT_EQ(other.shelf().cards[0].entries, app.shelf().cards[0].entries);
}

TEST_F(Acts, AnUpdateIsAdoptedOnlyWithNothingUnsaved) {
  app.on_update_waiting();
  EXPECT_TRUE(app.page().update_waiting);
  rig.weigh("portions", "300");
  ask::edit(app, {FieldKind::reading, ""});
  ask::key(app, "5");
  ask::enter(app);  // its transaction has not completed
  ask::adopt_update(app);
  EXPECT_EQ(rig.host.adoptions, 0);
  EXPECT_EQ(rig.notice(), "notice.update-unsaved");
  rig.pump();
  ask::key(app, "7");
  ask::adopt_update(app);  // half-typed digits are flushed first
  EXPECT_EQ(rig.host.adoptions, 0);
  rig.pump();
  EXPECT_EQ(rig.host.adoptions, 1);
  rig.restart();
  EXPECT_EQ(rig->draft().digits, "7");
}

TEST_F(Acts, SettingsRefuseWhatASessionCouldNotHold) {
  ask::set_setting(app, "theme", "dark");
  ask::set_setting(app, "currency", "CHF");
  rig.pump();
  EXPECT_EQ(app.shelf().settings.theme, "dark");
  ask::set_setting(app, "currency", "money");
  EXPECT_EQ(rig.notice(), "notice.setting-refused");
  ask::set_setting(app, "division", "wide");
  ask::set_setting(app, "unit", "stone");
  ask::set_setting(app, "theme", "pink");
  rig.pump();
  rig.restart();
  EXPECT_EQ(rig->shelf().settings.currency, "CHF");
  EXPECT_EQ(rig->shelf().settings.division, "1 g");
  EXPECT_EQ(rig->shelf().settings.unit, "g");
  EXPECT_EQ(rig->shelf().settings.theme, "dark");
}

}  // namespace
}  // namespace tallyblock::test
