// The entry rules that concern figures, each by its number in DEVELOPERS.md.
#include <gtest/gtest.h>

#include "core/report/report.h"
#include "session_builder.h"

namespace tallyblock {
namespace {

using testing::doubts_of;
using testing::grams_on;
using testing::pile_of;
using testing::SessionBuilder;
using testing::step_of;

SessionBuilder started() {
  SessionBuilder s;
  s.whole("5 kg").price("40", "kg");
  s.pile("portions", Role::primary);
  s.pile("trim", Role::usable_trim);
  return s;
}

TEST(EntryRules, Rule03_TheHighestInOrderDecidesAFactAndTheOthersAreADoubt) {
  SessionBuilder s = started();
  s.price("44", "kg");
  const Figures f = s.figures();
  ASSERT_TRUE(f.cost);
  EXPECT_DOUBLE_EQ(f.cost->in_units(), 220.0);
  const auto doubts = doubts_of(f, Code::doubt_several_candidates);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_EQ(doubts[0].where, "fact price:piece");
  EXPECT_EQ(doubts[0].entries.size(), 2u);
}

TEST(EntryRules, Rule03_ACorrectionThatNamesWhatItReplacesLeavesNoDoubt) {
  SessionBuilder s;
  s.whole("5 kg");
  const EntryId old = s.total_of("piece", "200").entries().back().id;
  s.add(body::Price{"piece", PriceBasis::total, {"210", 210.0}, "", "", std::nullopt}, {old});
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(f.cost->in_units(), 210.0);
  EXPECT_TRUE(doubts_of(f, Code::doubt_several_candidates).empty());
}

TEST(EntryRules, Rule03_TwoCorrectionsOfOneReadingCountOnceAndAreADoubt) {
  SessionBuilder s = started();
  const EntryId old = s.read("portions", "450 g");
  s.corrected(old, "portions", "540 g");
  s.corrected(old, "portions", "545 g");
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(grams_on(f, "portions"), 545.0);
  EXPECT_EQ(doubts_of(f, Code::doubt_several_candidates).size(), 1u);
}

TEST(EntryRules, Rule03_ACorrectionOfACorrectionDoesNotBringBackTheFirst) {
  SessionBuilder s = started();
  const EntryId first = s.read("portions", "450 g");
  const EntryId second = s.corrected(first, "portions", "540 g");
  s.corrected(second, "portions", "530 g");
  EXPECT_DOUBLE_EQ(grams_on(s.figures(), "portions"), 530.0);
}

TEST(EntryRules, Rule06_AllHabitsAddUpOnOnePile) {
  SessionBuilder s = started();
  s.read("portions", "200 g");
  s.read("portions", "600 g", "", 3);
  s.increment("portions", "50 g");
  s.taken_off("portions", "-150 g");
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(grams_on(f, "portions"), 1000.0);
  EXPECT_EQ(pile_of(f, "portions")->pieces, 5u);
}

TEST(EntryRules, Rule06_ATubTotalStandsForWhatItCoversAndLeavesTheRest) {
  SessionBuilder s = started();
  const EntryId a = s.read("trim", "100 g");
  const EntryId b = s.increment("trim", "200 g");
  s.read("trim", "70 g");
  s.tub_now("trim", "310 g", {a, b});
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(grams_on(f, "trim"), 380.0);
  EXPECT_TRUE(pile_of(f, "trim")->lines[0].covered);
  EXPECT_FALSE(pile_of(f, "trim")->lines[2].covered);
  EXPECT_DOUBLE_EQ(pile_of(f, "trim")->lines[3].net.in_grams(), 10.0);
}

TEST(EntryRules, Rule06_VoidingATubTotalRestoresWhatItCovered) {
  SessionBuilder s = started();
  const EntryId a = s.read("trim", "100 g");
  const EntryId tub = s.tub_now("trim", "140 g", {a});
  const std::string before = report_json(s.figures());
  const EntryId gone = s.voids(tub);
  EXPECT_DOUBLE_EQ(grams_on(s.figures(), "trim"), 100.0);
  s.voids(gone);
  EXPECT_DOUBLE_EQ(grams_on(s.figures(), "trim"), 140.0);
  EXPECT_FALSE(before.empty());
}

TEST(EntryRules, Rule06_ALaterTubTotalCoversAnEarlierOneAndWhatThatCovered) {
  SessionBuilder s = started();
  const EntryId a = s.read("trim", "100 g");
  const EntryId first = s.tub_now("trim", "140 g", {a});
  s.tub_now("trim", "200 g", {first});
  EXPECT_DOUBLE_EQ(grams_on(s.figures(), "trim"), 200.0);
  s.voids(first);  // mistyped: the later total still includes what lay in the tub then
  EXPECT_DOUBLE_EQ(grams_on(s.figures(), "trim"), 200.0);
}

TEST(EntryRules, Rule06_TheLinesOfAPileAddUpToItAlongAChainOfTubTotals) {
  SessionBuilder s = started();
  const EntryId a = s.read("trim", "100 g");
  const EntryId first = s.tub_now("trim", "140 g", {a});
  const EntryId b = s.read("trim", "55 g");
  s.tub_now("trim", "200 g", {a, first, b});
  const Figures f = s.figures();
  double sum = 0.0;
  for (const ReadingLine& line : pile_of(f, "trim")->lines) sum += line.net.in_grams();
  EXPECT_DOUBLE_EQ(sum, 200.0);
  EXPECT_DOUBLE_EQ(pile_of(f, "trim")->lines[3].net.in_grams(), 5.0);
}

TEST(EntryRules, Rule06_ACorrectedReadingStaysCovered) {
  SessionBuilder s = started();
  const EntryId a = s.read("trim", "100 g");
  s.tub_now("trim", "140 g", {a});
  s.corrected(a, "trim", "110 g");
  EXPECT_DOUBLE_EQ(grams_on(s.figures(), "trim"), 140.0);
}

TEST(EntryRules, Rule06_TubTotalsThatCoverEachOtherAreADoubtAndCountOnce) {
  SessionBuilder s = started();
  const EntryId later{"aaaaaaaaaa", 6};
  const EntryId first = s.tub_now("trim", "140 g", {later});
  ASSERT_EQ(s.tub_now("trim", "200 g", {first}), later);
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(grams_on(f, "trim"), 200.0);
  EXPECT_EQ(doubts_of(f, Code::doubt_tub_circular).size(), 1u);
}

TEST(EntryRules, Rule06_ATubThatShowsLessThanWhatItCoversIsADoubt) {
  SessionBuilder s = started();
  const EntryId a = s.read("trim", "100 g");
  s.tub_now("trim", "60 g", {a});
  const auto doubts = doubts_of(s.figures(), Code::doubt_tub_below_readings);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_DOUBLE_EQ(doubts[0].amount->in_grams(), 40.0);
}

TEST(EntryRules, Rule06_AReadingMovedOutOfTheTubIsNoLongerCovered) {
  SessionBuilder s = started();
  const EntryId a = s.read("trim", "100 g");
  s.tub_now("trim", "40 g", {a});
  s.move(a, "portions");
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(grams_on(f, "trim"), 40.0);
  EXPECT_DOUBLE_EQ(grams_on(f, "portions"), 100.0);
}

TEST(EntryRules, Rule06_ATubTotalMayCoverATransfer) {
  SessionBuilder s = started();
  const EntryId a = s.read("trim", "100 g");
  const EntryId carried = s.transfer("trim", "portions", "30 g");
  EXPECT_DOUBLE_EQ(grams_on(s.figures(), "trim"), 70.0);
  s.tub_now("trim", "90 g", {a, carried});  // 20 g more came in
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(grams_on(f, "trim"), 90.0);
  EXPECT_DOUBLE_EQ(grams_on(f, "portions"), 30.0);
}

TEST(EntryRules, Rule06_AnUnweighedPileIsTheDifferenceAndNoBalanceIsClaimed) {
  SessionBuilder s = started();
  s.pile("waste", Role::unusable_trim);
  s.by_difference("waste");
  s.read("portions", "3 kg");
  s.read("trim", "1 kg");
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(grams_on(f, "waste"), 1000.0);
  EXPECT_FALSE(f.loss);
  EXPECT_FALSE(step_of(f, "main")->loss);
  // 5000 - 3000 - 1000, three readings: d x sqrt(3 / 12)
  EXPECT_NEAR(pile_of(f, "waste")->weighed.uncertainty().in_grams(), 0.5, 1e-12);
}

TEST(EntryRules, Rule06_TwoUnweighedPilesCannotBeToldApart) {
  SessionBuilder s = started();
  s.pile("waste", Role::unusable_trim);
  s.by_difference("waste");
  s.by_difference("trim");
  s.read("portions", "3 kg");
  const Figures f = s.figures();
  EXPECT_EQ(doubts_of(f, Code::doubt_two_by_difference).size(), 1u);
  EXPECT_FALSE(pile_of(f, "waste")->weight_known);
  EXPECT_FALSE(f.loss);
}

TEST(EntryRules, Rule07_WhatIsLeftAndACheckpointAreNoOutputs) {
  SessionBuilder s = started();
  s.read("trim", "800 g");
  s.checkpoint("cleaned", "4.19 kg");
  s.read("portions", "1 kg");
  s.remainder("3.18 kg");
  const Figures f = s.figures();
  const StepFigures* main = step_of(f, "main");
  EXPECT_DOUBLE_EQ(main->outputs.value().in_grams(), 1800.0);
  EXPECT_DOUBLE_EQ(main->checkpoints.at("cleaned").value().in_grams(), 4190.0);
  EXPECT_NEAR(main->missing_now->value().in_grams(), 20.0, 1e-9);
  EXPECT_NEAR(main->loss->value().in_grams(), 3200.0, 1e-9);
}

TEST(EntryRules, Rule07_WhatIsMissingIsJudgedAtTheRemainderAndNotLater) {
  SessionBuilder s = started();
  s.read("portions", "1 kg");
  s.remainder("3.99 kg");
  s.read("portions", "1 kg");
  const Figures f = s.figures();
  EXPECT_NEAR(step_of(f, "main")->missing_now->value().in_grams(), 10.0, 1e-9);
}

TEST(EntryRules, Rule08_InvoiceCarriesTheMoneyAndDrainedTheBalance) {
  SessionBuilder s;
  s.incoming(Incoming::invoice, "5 kg");
  s.incoming(Incoming::received, "4.98 kg");
  s.incoming(Incoming::packaging, "40 g");
  s.incoming(Incoming::purge, "60 g");
  s.incoming(Incoming::drained, "4.88 kg");
  s.price("10", "kg");
  s.pile("portions", Role::primary);
  s.read("portions", "4.8 kg");
  const Figures f = s.figures();
  EXPECT_NEAR(f.cost->in_units(), 50.0, 1e-12);
  EXPECT_NEAR(f.loss->value().in_grams(), 80.0, 1e-9);
  EXPECT_NEAR(f.yield->primary_ratio, 0.96, 1e-12);
  const IncomingFigures& in = f.incoming;
  EXPECT_NEAR(in.short_delivery->value().in_grams(), 20.0, 1e-9);
  EXPECT_NEAR(in.invoice->value().in_grams(),
              (*in.drained + *in.packaging + *in.purge + *in.short_delivery).value().in_grams(),
              1e-9);
  EXPECT_TRUE(doubts_of(f, Code::doubt_incoming_order).empty());
}

TEST(EntryRules, Rule08_MoreDrainedThanReceivedIsADoubt) {
  SessionBuilder s;
  s.incoming(Incoming::received, "4.98 kg");
  s.incoming(Incoming::drained, "4.99 kg");
  EXPECT_EQ(doubts_of(s.figures(), Code::doubt_incoming_order).size(), 1u);
  SessionBuilder close;
  close.division("10 g");
  close.incoming(Incoming::received, "4.98 kg");
  close.incoming(Incoming::drained, "4.985 kg");  // within twice 4.1 g
  EXPECT_TRUE(doubts_of(close.figures(), Code::doubt_incoming_order).empty());
}

TEST(EntryRules, Rule09_ABrokenDownPileCountsOnlyWhatIsKeptOfIt) {
  SessionBuilder s = started();
  s.read("portions", "3 kg");
  s.read("trim", "1.9 kg");
  s.step("trimming", Process::breakdown, "trim", "900 g");
  s.pile("mince", Role::usable_trim, "trimming");
  s.read("mince", "880 g");
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(pile_of(f, "trim")->kept.value().in_grams(), 1000.0);
  EXPECT_DOUBLE_EQ(step_of(f, "trimming")->input->value().in_grams(), 900.0);
  EXPECT_NEAR(step_of(f, "trimming")->loss->value().in_grams(), 20.0, 1e-9);
  EXPECT_NEAR(f.usable_trim.value().in_grams(), 1880.0, 1e-9);
  EXPECT_NEAR(f.loss->value().in_grams(), 120.0, 1e-9);
  EXPECT_NEAR(f.yield->usable_ratio, 0.976, 1e-12);
}

TEST(EntryRules, Rule09_AMovedReadingCountsOnItsNewPileOnly) {
  SessionBuilder s = started();
  const EntryId a = s.read("portions", "100 g");
  const EntryId moved = s.move(a, "trim");
  EXPECT_DOUBLE_EQ(grams_on(s.figures(), "trim"), 100.0);
  EXPECT_DOUBLE_EQ(grams_on(s.figures(), "portions"), 0.0);
  s.voids(moved);
  EXPECT_DOUBLE_EQ(grams_on(s.figures(), "portions"), 100.0);
}

TEST(EntryRules, Rule09_WeightCarriedToAnotherStepKeepsBothBalancesClosed) {
  SessionBuilder s = started();
  s.read("portions", "4 kg");
  s.read("trim", "980 g");
  s.step("grind", Process::grinding, "trim", "500 g");
  s.pile("mince", Role::usable_trim, "grind");
  s.read("mince", "490 g");
  s.transfer("portions", "mince", "200 g");
  const Figures f = s.figures();
  EXPECT_NEAR(step_of(f, "main")->loss->value().in_grams(), 20.0, 1e-9);
  EXPECT_DOUBLE_EQ(step_of(f, "grind")->input->value().in_grams(), 700.0);
  EXPECT_NEAR(step_of(f, "grind")->unweighed->value().in_grams(), 10.0, 1e-9);
  EXPECT_DOUBLE_EQ(pile_of(f, "portions")->kept.value().in_grams(), 3800.0);
  EXPECT_DOUBLE_EQ(grams_on(f, "mince"), 690.0);
}

TEST(EntryRules, Rule09_StepsThatFeedEachOtherAreADoubtAndNotCounted) {
  SessionBuilder s = started();
  s.step("one", Process::breakdown, "b");
  s.step("two", Process::breakdown, "a");
  s.pile("a", Role::primary, "one");
  s.pile("b", Role::primary, "two");
  s.read("a", "100 g");
  s.read("portions", "1 kg");
  const Figures f = s.figures();
  EXPECT_EQ(doubts_of(f, Code::doubt_step_circular).size(), 2u);
  EXPECT_DOUBLE_EQ(f.primary.value().in_grams(), 1000.0);
}

TEST(EntryRules, Rule09_TakingMoreThanThePileHoldsIsADoubt) {
  SessionBuilder s = started();
  s.read("trim", "500 g");
  s.step("grind", Process::grinding, "trim", "600 g");
  const auto doubts = doubts_of(s.figures(), Code::doubt_taken_more_than_pile);
  ASSERT_EQ(doubts.size(), 1u);
  EXPECT_DOUBLE_EQ(doubts[0].amount->in_grams(), 100.0);
}

TEST(EntryRules, Rule10_VoidingAWeightLeavesTheCutItWeighed) {
  SessionBuilder s = started();
  body::Cut cut;
  cut.plan = "as advised";
  const EntryId cut_id = s.add(std::move(cut));
  body::Reading weighing;
  weighing.pile = "portions";
  weighing.weight = TypedMass{"225 g", Mass::grams(225.0), WeightStyle::grams};
  weighing.division = TypedMass{"1 g", Mass::grams(1.0), WeightStyle::grams};
  weighing.cut = cut_id;
  const EntryId weight = s.add(weighing);
  EXPECT_DOUBLE_EQ(grams_on(s.figures(), "portions"), 225.0);
  s.voids(weight);
  EXPECT_DOUBLE_EQ(grams_on(s.figures(), "portions"), 0.0);
  EXPECT_TRUE(LiveView(s.set()).is_live(cut_id));
}

TEST(EntryRules, Rule11_ARenamedPileKeepsItsKeyItsPlaceAndItsReadings) {
  SessionBuilder s;
  s.whole("5 kg");
  const EntryId first = s.pile("k1", Role::primary);
  s.pile("k2", Role::usable_trim);
  s.read("k1", "450 g");
  s.add(body::Pile{"k1", "main", "Steaks 225", Role::primary, ""}, {first});
  s.read("k1", "450 g");
  const Figures f = s.figures();
  ASSERT_EQ(f.piles.size(), 2u);
  EXPECT_EQ(f.piles[0].key, "k1");
  EXPECT_EQ(f.piles[0].name, "Steaks 225");
  EXPECT_DOUBLE_EQ(grams_on(f, "k1"), 900.0);
}

TEST(EntryRules, Rule11_TwoSessionsCompareByKeyWhateverThePilesAreCalled) {
  SessionBuilder ours, theirs;
  ours.add(body::Pile{"k1", "main", "Steaks", Role::primary, ""});
  theirs.add(body::Pile{"k1", "main", "Portions", Role::primary, ""});
  ours.read("k1", "450 g");
  theirs.read("k1", "430 g");
  EXPECT_DOUBLE_EQ(grams_on(ours.figures(), "k1") - grams_on(theirs.figures(), "k1"), 20.0);
}

TEST(EntryRules, Rule12_FiguresFollowFromTheEntriesAlone) {
  SessionBuilder s = started();
  s.setting("wage", "24");
  s.labour("30");
  s.read("portions", "3 kg");
  const Figures before = s.figures();
  ASSERT_TRUE(before.labour_known);
  EXPECT_DOUBLE_EQ(before.labour->in_units(), 12.0);
  EXPECT_EQ(report_json(before), report_json(s.figures()));
  SessionBuilder unset = started();
  unset.labour("30");
  EXPECT_FALSE(unset.figures().labour_known);
}

TEST(EntryRules, Rule12_ToleranceAndLimitComeFromSettingsInTheSession) {
  SessionBuilder s = started();
  s.target("portions", "200 g");
  s.read("portions", "205 g");
  s.setting("tolerance", "3 g");
  s.setting("loss-limit", "1 %");
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(f.targets.at(0).tolerance.in_grams(), 3.0);
  EXPECT_EQ(f.targets.at(0).portions->overs, 1u);
  EXPECT_DOUBLE_EQ(f.settings.loss_limit, 0.01);
}

}  // namespace
}  // namespace tallyblock
