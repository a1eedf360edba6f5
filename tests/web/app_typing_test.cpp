// The keypad on App: digits, units, piles, habits, and what becomes of each field.
#include <gtest/gtest.h>

#include "fake_host.h"
#include "web/words/words.h"

namespace tallyblock::test {
namespace {

struct Typing : ::testing::Test {
  Rig rig;
  App& app = *rig;
  void SetUp() override {
    ask::new_session(app);
    rig.pump();
  }
  void weigh_in(const std::string& keys = "2000") {
    ask::edit(app, {FieldKind::drained, ""});
    rig.type(keys);
    ask::enter(app);
    rig.pump();
  }
};

TEST_F(Typing, ANewSessionIsWeighedInFirstThenReadingsFollow) {
  EXPECT_EQ(app.draft().screen, Screen::weigh);
  EXPECT_EQ(app.draft().field.kind, FieldKind::drained);
  rig.type("2000");
  ask::enter(app);
  EXPECT_EQ(app.draft().field.kind, FieldKind::reading);
  EXPECT_EQ(app.draft().digits, "");
  EXPECT_EQ(rig.figures().incoming.drained->value().in_grams(), 2000.0);
}

TEST_F(Typing, DigitsThenPileWeighsAndPileThenDigitsWeighs) {
  weigh_in();
  rig.type("450");
  ask::choose_pile(app, "portions");
  EXPECT_EQ(rig.grams("portions"), 450.0);
  EXPECT_EQ(app.draft().pile, "portions") << "the chosen pile stays chosen";
  rig.type("180");
  ask::enter(app);
  EXPECT_EQ(rig.grams("portions"), 630.0);
  ask::choose_pile(app, "usable-trim");
  EXPECT_EQ(app.session()->figures.entry_count, app.session()->set.size());
  EXPECT_EQ(rig.grams("usable-trim"), 0.0);
  rig.type("70");
  ask::enter(app);
  EXPECT_EQ(rig.grams("usable-trim"), 70.0);
}

TEST_F(Typing, ChoosingAPileOnlyChoosesWhileTheKeypadIsElsewhere) {
  rig.type("1");
  ask::choose_pile(app, "portions");
  EXPECT_EQ(app.draft().digits, "1");
  EXPECT_EQ(app.draft().field.kind, FieldKind::drained);
  EXPECT_EQ(rig.pile("portions").lines.size(), 0u);
}

TEST_F(Typing, TheFirstWeightOfANewPieceIsAPortionsUnlessAnotherPileIsChosen) {
  weigh_in();
  rig.type("450");
  ask::enter(app);
  rig.pump();
  EXPECT_EQ(rig.pile("portions").lines.size(), 1u);
}

TEST_F(Typing, WithoutAPileTheDigitsStayAndThePileIsAskedFor) {
  weigh_in();
  ask::choose_pile(app, "");
  rig.type("450");
  ask::enter(app);
  EXPECT_EQ(rig.notice(), "notice.choose-pile");
  EXPECT_EQ(app.draft().digits, "450");
}

TEST_F(Typing, ARefusedFigureStaysAndSaysWhyUntilAKeyIsPressed) {
  weigh_in();
  ask::choose_pile(app, "portions");
  const std::size_t before = app.session()->set.size();
  ask::enter(app);
  ASSERT_TRUE(app.keypad().problem);
  EXPECT_EQ(app.keypad().problem->code, Code::typed_empty);
  rig.type("0");
  ask::enter(app);
  EXPECT_EQ(app.keypad().problem->code, Code::typed_zero);
  EXPECT_EQ(app.draft().digits, "0");
  ask::key(app, "7");
  EXPECT_FALSE(app.keypad().problem);
  ask::key(app, "clear");
  rig.type("2000000");
  ask::enter(app);
  EXPECT_EQ(app.keypad().problem->code, Code::typed_too_heavy);
  EXPECT_EQ(app.session()->set.size(), before);
}

TEST_F(Typing, TakenOffIsTypedWithoutASignAndStoredNegative) {
  weigh_in();
  ask::set_habit(app, "taken-off");
  rig.type("320");
  ask::choose_pile(app, "portions");
  EXPECT_EQ(rig.grams("portions"), 320.0);
  ASSERT_EQ(rig.pile("portions").lines.size(), 1u);
  EXPECT_EQ(rig.pile("portions").lines[0].typed, "-320 g");
}

TEST_F(Typing, ATubReadingCoversAllThatWasNotCoveredYet) {
  weigh_in();
  rig.weigh("portions", "100");
  rig.weigh("portions", "200");
  rig.weigh("usable-trim", "50");
  ask::set_habit(app, "tub-now");
  rig.weigh("portions", "310");
  EXPECT_EQ(rig.grams("portions"), 310.0);
  ask::set_habit(app, "piece");
  rig.weigh("portions", "90");
  EXPECT_EQ(rig.grams("portions"), 400.0);
  ask::set_habit(app, "tub-now");
  rig.weigh("portions", "500");
  EXPECT_EQ(rig.grams("portions"), 500.0);
  const Entry* tub = app.session()->set.in_order().back();
  EXPECT_EQ(std::get<body::Reading>(tub->body).covers.size(), 2u)
      << "the earlier tub reading and the piece since";
  ask::void_entry(app, tub->id);
  EXPECT_EQ(rig.grams("portions"), 400.0) << "voiding it restores what it covered";
  EXPECT_EQ(rig.grams("usable-trim"), 50.0);
}

TEST_F(Typing, ATubReadingLeavesOutWhatWasWeighedInAnotherTub) {
  weigh_in();
  std::vector<std::string> tubs;
  for (const char* tare : {"200", "210"}) {
    ask::add_tub(app, "");
    rig.type(tare);
    ask::enter(app);
    rig.pump();
    tubs.push_back(rig.figures().tubs.back().key);
  }
  ask::set_habit(app, "tub-now");
  ask::set_tub(app, tubs[0]);
  rig.weigh("portions", "500");
  EXPECT_EQ(rig.grams("portions"), 300.0);
  ask::set_tub(app, tubs[1]);
  rig.weigh("portions", "410");
  EXPECT_EQ(rig.grams("portions"), 500.0) << "two tubs, each with its own";
  ask::set_tub(app, tubs[0]);
  rig.weigh("portions", "600");
  EXPECT_EQ(rig.grams("portions"), 600.0) << "the first tub now weighs more";
}

TEST_F(Typing, OuncesAloneAreThoseOfTheNextBareNumber) {
  ask::set_setting(app, "unit", "lb-oz");
  ask::new_session(app);
  rig.pump();
  const auto weigh_oz = [&](std::initializer_list<const char*> keys) {
    for (const char* key : keys) ask::key(app, key);
    ask::enter(app);
    rig.pump();
  };
  weigh_oz({"8", "lb", "1", "2", "oz"});
  ask::choose_pile(app, "portions");
  weigh_oz({"6", "oz"});
  EXPECT_EQ(rig.pile("portions").lines.back().typed, "6 oz");
  weigh_oz({"5", ".", "9"});
  EXPECT_EQ(rig.pile("portions").lines.back().typed, "5.9 oz");
  ask::set_count(app, 1);  // or it would be asked: it weighs like three of the others
  weigh_oz({"1", "lb", "2", "oz"});
  EXPECT_EQ(rig.pile("portions").lines.back().typed, "1 lb 2 oz");
  weigh_oz({"6", ".", "1"});
  EXPECT_EQ(rig.pile("portions").lines.back().typed, "6.1 oz");
}

TEST_F(Typing, TypedDigitsStayWhenTheUnitChanges) {
  weigh_in();
  ask::choose_pile(app, "portions");
  rig.type("0.45");
  ask::set_unit(app, "kg");
  EXPECT_EQ(app.draft().digits, "0.45");
  ask::enter(app);
  EXPECT_EQ(rig.grams("portions"), 450.0);
  ask::set_unit(app, "stone");
  EXPECT_EQ(app.draft().unit, "kg");
}

TEST_F(Typing, PoundsAndOuncesAreComposedByTheirKeys) {
  weigh_in();
  ask::set_unit(app, "lb-oz");
  ask::choose_pile(app, "portions");
  rig.type("1");
  ask::key(app, "lb");
  rig.type("8 1/2");
  EXPECT_EQ(app.draft().digits, "1 lb 8 1/2");
  ask::enter(app);
  EXPECT_DOUBLE_EQ(rig.grams("portions"), 24.5 * kGramsPerOunce);
}

TEST_F(Typing, PiecesWeighedTogetherCountOnceOnly) {
  weigh_in();
  ask::set_count(app, 3);
  rig.weigh("portions", "540");
  EXPECT_EQ(rig.pile("portions").lines[0].count, 3u);
  EXPECT_EQ(app.draft().count, 1u);
  ask::set_count(app, 0);
  EXPECT_EQ(app.draft().count, 1u);
}

TEST_F(Typing, ANamedTubTakesItsTareOff) {
  weigh_in();
  ask::add_tub(app, "Large tub");
  EXPECT_EQ(app.draft().field.kind, FieldKind::tub_tare);
  rig.type("120");
  ask::enter(app);
  ASSERT_EQ(rig.figures().tubs.size(), 1u);
  EXPECT_EQ(rig.figures().tubs[0].tare.mass.in_grams(), 120.0);
  EXPECT_EQ(rig.figures().tubs[0].name, "Large tub");
  ask::set_tub(app, rig.figures().tubs[0].key);
  rig.weigh("portions", "500");
  EXPECT_EQ(rig.grams("portions"), 380.0);
  ask::set_tub(app, "");
  rig.weigh("portions", "500");
  EXPECT_EQ(rig.grams("portions"), 880.0);
}

TEST_F(Typing, AFactTypedAgainReplacesAllThatStoodForIt) {
  weigh_in();
  rig.enter(FieldKind::price_per_mass, "12.50");
  rig.enter(FieldKind::price_per_mass, "13");
  EXPECT_FALSE(rig.has_doubt(Code::doubt_several_candidates));
  EXPECT_DOUBLE_EQ(rig.figures().cost->in_units(), 26.0);
  rig.enter(FieldKind::price_total, "30");
  EXPECT_FALSE(rig.has_doubt(Code::doubt_several_candidates));
  EXPECT_DOUBLE_EQ(rig.figures().cost->in_units(), 30.0);
  const Entry* last = app.session()->set.in_order().back();
  EXPECT_EQ(last->replaces.size(), 1u);
}

TEST_F(Typing, EveryWeightBecomesItsEntry) {
  weigh_in("4000");
  rig.enter(FieldKind::invoice, "4100");
  rig.enter(FieldKind::received, "4080");
  rig.enter(FieldKind::packaging, "20");
  rig.enter(FieldKind::purge, "0");
  rig.weigh("portions", "2000");
  rig.enter(FieldKind::target, "180", "portions");
  rig.enter(FieldKind::tolerance, "5", "portions");
  rig.enter(FieldKind::remainder, "1050");
  rig.enter(FieldKind::checkpoint, "3500");
  ask::choose_pile(app, "portions");
  rig.enter(FieldKind::transfer, "1", "portions");  // no other pile chosen
  EXPECT_EQ(rig.notice(), "notice.choose-other-pile");
  ask::choose_pile(app, "second-cuts");
  ask::enter(app);
  rig.enter(FieldKind::division, "2");
  ASSERT_FALSE(app.keypad().problem);
  const Figures& f = rig.figures();
  EXPECT_EQ(f.incoming.invoice->value().in_grams(), 4100.0);
  EXPECT_EQ(f.incoming.received->value().in_grams(), 4080.0);
  EXPECT_EQ(f.incoming.packaging->value().in_grams(), 20.0);
  EXPECT_EQ(f.incoming.purge->value().in_grams(), 0.0);
  ASSERT_EQ(f.targets.size(), 1u);
  EXPECT_EQ(f.targets[0].target.in_grams(), 180.0);
  EXPECT_EQ(f.targets[0].tolerance.in_grams(), 5.0);
  EXPECT_EQ(f.steps[0].on_board->value().in_grams(), 1050.0);
  EXPECT_EQ(f.steps[0].checkpoints.at("cleaned").value().in_grams(), 3500.0);
  EXPECT_EQ(rig.grams("second-cuts"), 1.0);
  EXPECT_EQ(rig.grams("portions"), 1999.0);
  EXPECT_EQ(f.settings.division.mass.in_grams(), 2.0);
}

TEST_F(Typing, EveryOtherFigureBecomesItsEntry) {
  weigh_in("4100");
  rig.weigh("portions", "2000");
  rig.weigh("usable-trim", "900");
  rig.enter(FieldKind::price_per_mass, "10");
  rig.enter(FieldKind::ready_cut, "24");
  rig.enter(FieldKind::ready_cut_yield, "96");
  rig.enter(FieldKind::pile_value, "5", "usable-trim");
  rig.enter(FieldKind::pile_value, "-0.3", "unusable-trim");
  rig.enter(FieldKind::wage, "18");
  rig.enter(FieldKind::minutes, "30");
  rig.enter(FieldKind::eye_call, "52");
  rig.enter(FieldKind::receiving_temperature, "3.5");
  rig.enter(FieldKind::loss_limit, "3");
  ASSERT_FALSE(app.keypad().problem);
  const Figures& f = rig.figures();
  EXPECT_DOUBLE_EQ(f.cost->in_units(), 41.0);
  EXPECT_DOUBLE_EQ(f.ready_cut->per(MassUnit::kilogram), 24.0);
  ASSERT_TRUE(f.make_or_buy && f.make_or_buy->ready_cut_same_trim);
  EXPECT_DOUBLE_EQ(f.make_or_buy->ready_cut_same_trim->per(MassUnit::kilogram), 25.0);
  EXPECT_DOUBLE_EQ(rig.pile("usable-trim").value->per(MassUnit::kilogram), 5.0);
  EXPECT_DOUBLE_EQ(rig.pile("unusable-trim").value->per(MassUnit::kilogram), -0.3);
  EXPECT_DOUBLE_EQ(f.labour->in_units(), 9.0);
  ASSERT_EQ(f.eye_calls.size(), 1u);
  EXPECT_DOUBLE_EQ(f.eye_calls[0].called, 0.52);
  EXPECT_EQ(f.lot.at("receiving-temperature"), "3.5 C");
  EXPECT_DOUBLE_EQ(f.settings.loss_limit, 0.03);
}

TEST_F(Typing, AToleranceOrAReadyCutYieldNeedsWhatItBelongsTo) {
  rig.enter(FieldKind::tolerance, "5", "portions");
  ASSERT_TRUE(app.keypad().problem);
  EXPECT_EQ(app.keypad().problem->code, Code::need_target);
  rig.enter(FieldKind::ready_cut_yield, "95");
  ASSERT_TRUE(app.keypad().problem);
  EXPECT_EQ(app.keypad().problem->code, Code::need_ready_cut_price);
}

TEST_F(Typing, AWhatIfPriceIsNoEntry) {
  ask::go(app, Screen::result);
  const std::size_t before = app.session()->set.size();
  rig.enter(FieldKind::new_price, "31.5");
  EXPECT_EQ(app.draft().new_price, "31.5");
  EXPECT_EQ(app.session()->set.size(), before);
  EXPECT_EQ(app.draft().field.kind, FieldKind::none);
}

TEST_F(Typing, DefaultsAreForNewSessionsOnly) {
  const std::size_t before = app.session()->set.size();
  ask::go(app, Screen::settings);
  rig.enter(FieldKind::default_wage, "21.50");
  rig.enter(FieldKind::default_loss_limit, "1.5");
  rig.enter(FieldKind::default_division, "5");
  EXPECT_EQ(app.shelf().settings.wage, "21.50");
  EXPECT_EQ(app.shelf().settings.loss_limit, "1.5 %");
  EXPECT_EQ(app.shelf().settings.division, "5 g");
  EXPECT_EQ(app.session()->set.size(), before);
  ask::new_session(app);
  rig.pump();
  EXPECT_DOUBLE_EQ(rig.figures().settings.wage_per_hour->in_units(), 21.5);
  EXPECT_DOUBLE_EQ(rig.figures().settings.loss_limit, 0.015);
  EXPECT_EQ(rig.figures().settings.division.mass.in_grams(), 5.0);
}

TEST_F(Typing, LeavingTheWeighingScreenPutsTheDigitsAsideAndComingBackBringsThem) {
  weigh_in();
  ask::choose_pile(app, "portions");
  rig.type("18");
  ask::go(app, Screen::result);
  EXPECT_EQ(app.draft().field.kind, FieldKind::none);
  ask::edit(app, {FieldKind::new_price, ""});
  rig.type("9");
  ask::enter(app);
  rig.restart();
  ask::go(*rig, Screen::weigh);
  EXPECT_EQ(rig->draft().digits, "18");
  EXPECT_EQ(rig->draft().field.kind, FieldKind::reading);
}

TEST_F(Typing, EveryFieldSaysWhatStandsBehindItsDigits) {
  const auto unit = [&](FieldKind kind) {
    ask::edit(app, {kind, ""});
    return field_unit(app);
  };
  EXPECT_EQ(unit(FieldKind::reading), "g");
  EXPECT_EQ(unit(FieldKind::price_per_mass), "EUR per kg");
  EXPECT_EQ(unit(FieldKind::price_total), "EUR");
  EXPECT_EQ(unit(FieldKind::wage), "EUR per hour");
  EXPECT_EQ(unit(FieldKind::eye_call), "%");
  EXPECT_EQ(unit(FieldKind::minutes), "min");
  EXPECT_EQ(unit(FieldKind::receiving_temperature), "C");
  ask::set_session_setting(app, "unit", "lb-oz");
  EXPECT_EQ(field_unit(app), "F");
  EXPECT_EQ(unit(FieldKind::none), "");
}

}  // namespace
}  // namespace tallyblock::test
