// The rules of entries that show in the set, the files and what counts. Rules 6, 7, 8 and the
// balance of 9 show in the figures: see the tests of the session.
#include <gtest/gtest.h>

#include "make.h"

namespace tallyblock::testing {
namespace {

const EntryId kA1{kWriterA, 1}, kA2{kWriterA, 2}, kA3{kWriterA, 3}, kA4{kWriterA, 4};
const EntryId kB1{kWriterB, 1}, kB2{kWriterB, 2};

Entry voiding(EntryId id, std::uint64_t seq, EntryId target) {
  return entry(std::move(id), seq, body::Void{std::move(target)});
}
SessionFile file_of(std::vector<Entry> entries) {
  SessionFile file;
  file.session = kSession;
  file.entries = std::move(entries);
  return file;
}
std::vector<Entry> entries_of(const EntrySet& set) {
  std::vector<Entry> entries;
  for (const Entry* each : set.in_order()) entries.push_back(*each);
  return entries;
}

TEST(EntryRules, Rule01_GapsInACounterRevealMissingEntries) {
  const EntrySet set = set_of(
      {reading(kA2, 1, "100 g"), reading({kWriterA, 5}, 2, "100 g"), reading(kB1, 3, "100 g")});
  EXPECT_EQ(set.missing(), (std::vector<EntryId>{kA1, kA3, kA4}));
  EXPECT_EQ(set.missing_count(), 3u);
  EXPECT_EQ(set.next_counter(kWriterA), 6u);
  EXPECT_EQ(set.next_counter(kWriterB), 2u);
  EXPECT_EQ(set.next_counter("cccccccccc"), 1u);
}

TEST(EntryRules, Rule01_AnEnormousGapIsCountedButNotListedInFull) {
  const EntrySet set = set_of({reading({kWriterA, kMaxCounter}, 1, "100 g")});
  EXPECT_EQ(set.missing_count(), kMaxCounter - 1u);
  EXPECT_EQ(set.missing().size(), EntrySet::kMaxMissing);
}

TEST(EntryRules, Rule02_NextPlaceIsOneMoreThanTheHighestSeenAndNeverBeyondWhatAFileHolds) {
  EXPECT_EQ(EntrySet{}.next_seq(), 1u);
  EXPECT_EQ(set_of({reading(kA1, 41, "100 g"), reading(kA2, 7, "100 g")}).next_seq(), 42u);
  EXPECT_EQ(set_of({reading(kA1, kMaxSeq, "100 g")}).next_seq(), kMaxSeq);
}

TEST(EntryRules, Rule02_ADurationIsStoredAsMeasured) {
  body::Labour labour;
  labour.measured_ms = 423500;
  const Result<Entry> back = decode_entry_strict(entry(kA1, 1, labour).text);
  ASSERT_TRUE(back);
  EXPECT_EQ(std::get<body::Labour>(back->body).measured_ms, 423500);
}

TEST(EntryRules, Rule03_AReplacedEntryCountsNoMore) {
  const EntrySet set =
      set_of({reading(kA1, 1, "100 g"), entry(kA2, 2, body::Note{"instead", std::nullopt}, {kA1})});
  const LiveView live(set);
  EXPECT_TRUE(live.is_replaced(kA1));
  EXPECT_FALSE(live.is_live(kA1));
  EXPECT_FALSE(live.is_void(kA1));
  ASSERT_EQ(live.entries().size(), 1u);
  EXPECT_EQ(live.entries().front()->id, kA2);
}

TEST(EntryRules, Rule03_WhatAReplacedEntryReplacedStaysReplaced) {
  const std::vector<Entry> chain = {reading(kA1, 1, "100 g"),
                                    entry(kA2, 2, body::Note{"b", {}}, {kA1}),
                                    entry(kA3, 3, body::Note{"c", {}}, {kA2})};
  const EntrySet set = set_of(chain);
  const LiveView live(set);
  ASSERT_EQ(live.entries().size(), 1u);
  EXPECT_EQ(live.entries().front()->id, kA3);

  // The middle one voided by a phone that had not seen the last: the first does not count again.
  EntrySet voided = set;
  voided.insert(voiding(kB1, 3, kA2));
  const LiveView after(voided);
  ASSERT_EQ(after.entries().size(), 1u);
  EXPECT_EQ(after.entries().front()->id, kA3);
}

TEST(EntryRules, Rule03_VoidingACorrectionBringsBackWhatItReplaced) {
  const EntrySet set = set_of(
      {reading(kA1, 1, "100 g"), entry(kA2, 2, body::Note{"b", {}}, {kA1}), voiding(kA3, 3, kA2)});
  const LiveView live(set);
  EXPECT_TRUE(live.is_live(kA1));
  EXPECT_FALSE(live.is_live(kA2));
}

TEST(EntryRules, Rule03_EntriesThatReplaceEachOtherLeaveTheLastInOrder) {
  const EntrySet set = set_of(
      {entry(kA1, 1, body::Note{"a", {}}, {kA2}), entry(kA2, 2, body::Note{"b", {}}, {kA1, kA2})});
  const LiveView live(set);
  EXPECT_FALSE(live.is_live(kA1));
  EXPECT_TRUE(live.is_live(kA2));
}

TEST(EntryRules, Rule03_EveryFactOfASessionHasItsKeyAndAdditiveKindsHaveNone) {
  const auto key = [](Body body) { return fact_key(entry(kA1, 1, std::move(body))); };
  EXPECT_EQ(key(body::Piece{}), "piece");
  EXPECT_EQ(key(body::Setting{"wage", "20"}), "setting:wage");
  EXPECT_EQ(key(body::Lot{"pack-date", "2025-10-01"}), "lot:pack-date");
  EXPECT_EQ(key(body::Specification{"x"}), "specification");
  EXPECT_EQ(key(body::Quality{"nerve", true}), "quality:nerve");
  EXPECT_EQ(key(body::Step{"stock", "Stock", {}, "bones", {}, {}}), "step:stock");
  EXPECT_EQ(key(body::Pile{"grind", "main", "Grind", {}, ""}), "pile:grind");
  EXPECT_EQ(key(body::ByDifference{"waste", true}), "by-difference:waste");
  EXPECT_EQ(key(body::IncomingWeight{Incoming::purge, {}, {}, 1}), "incoming:purge");
  EXPECT_EQ(key(body::Checkpoint{"main", "cleaned", {}, {}}), "checkpoint:main:cleaned");
  EXPECT_EQ(key(body::Tub{"blue", "Blue", {}, {}}), "tub:blue");
  EXPECT_EQ(key(body::Move{kB2, "grind"}), "move:bbbbbbbbbb.2");
  EXPECT_EQ(key(body::Price{"pile:grind", {}, {}, "", "", {}}), "price:pile:grind");
  EXPECT_EQ(key(body::Target{"portions", {}, {}}), "target:portions");
  EXPECT_EQ(key(body::EyeCall{Role::usable_trim, {}}), "eye-call:usable-trim");
  EXPECT_EQ(key(body::Person{"A"}), "person:aaaaaaaaaa.1");
  EXPECT_EQ(fact_key(entry(kA3, 3, body::Person{"B"}, {kA1, kA2})), "person:aaaaaaaaaa.1");
  EXPECT_EQ(key(body::PlanLimits{}), "plan-limits:main");
  EXPECT_EQ(key(body::Wanted{"portions", 2}), "wanted:portions");
  EXPECT_EQ(key(body::Line{"strip-loin", true}), "line");
  EXPECT_EQ(key(body::LongPiece{"main", "left", 2, {}, {}, {}, {}}), "long-piece:main:left");
  for (const Body& additive :
       {Body(body::Reading{}), Body(body::Remainder{}), Body(body::Transfer{}),
        Body(body::Labour{}), Body(body::Cut{}), Body(body::Station{}), Body(body::Face{}),
        Body(body::CutClosed{}), Body(body::Note{}), Body(body::Void{kA1}),
        Body(body::Unknown{"later", {}})}) {
    EXPECT_EQ(key(additive), "") << kind_name(additive);
  }
}

TEST(EntryRules, Rule04_OfTwoContentsOfOneIdTheSmallerTextWinsAndIsReported) {
  const Entry lighter = reading(kA1, 1, "100 g"), heavier = reading(kA1, 1, "200 g");
  ASSERT_LT(lighter.text, heavier.text);
  for (const auto& [first, second] : {std::pair{lighter, heavier}, std::pair{heavier, lighter}}) {
    EntrySet set;
    EXPECT_TRUE(set.insert(first));
    EXPECT_TRUE(set.insert(second));
    EXPECT_FALSE(set.insert(second)) << "known already";
    EXPECT_EQ(set.find(kA1)->text, lighter.text);
    EXPECT_EQ(set.conflicts(), std::set<EntryId>{kA1});
  }
}

TEST(EntryRules, Rule05_AVoidTakesItsTargetOutAndCanBeFoundAgain) {
  const EntrySet set = set_of({reading(kA1, 1, "100 g"), voiding(kA2, 2, kA1)});
  const LiveView live(set);
  EXPECT_TRUE(live.is_void(kA1));
  EXPECT_TRUE(live.entries().empty());
  EXPECT_EQ(live.voids_of(kA1), std::vector<EntryId>{kA2});
}

TEST(EntryRules, Rule05_VoidMayArriveBeforeItsTarget) {
  EntrySet set = set_of({voiding(kB1, 2, kA1)});
  EXPECT_FALSE(LiveView(set).is_live(kA1)) << "not here yet";
  set.insert(reading(kA1, 1, "100 g"));
  EXPECT_FALSE(LiveView(set).is_live(kA1));
  EXPECT_TRUE(LiveView(set).is_void(kA1));
}

TEST(EntryRules, Rule05_VoidOfAVoidRestoresTheTarget) {
  const EntrySet set =
      set_of({reading(kA1, 1, "100 g"), voiding(kA2, 2, kA1), voiding(kA3, 3, kA2)});
  const LiveView live(set);
  EXPECT_TRUE(live.is_live(kA1));
  EXPECT_TRUE(live.is_void(kA2));
  EXPECT_TRUE(live.voids_of(kA1).empty());

  EntrySet again = set;
  again.insert(voiding(kA4, 4, kA3));
  EXPECT_FALSE(LiveView(again).is_live(kA1));
}

TEST(EntryRules, Rule05_AnEntryVoidedTwiceNeedsBothVoidsVoided) {
  EntrySet set = set_of({reading(kA1, 1, "100 g"), voiding(kA2, 2, kA1), voiding(kB1, 2, kA1)});
  EXPECT_EQ(LiveView(set).voids_of(kA1), (std::vector<EntryId>{kA2, kB1}));
  set.insert(voiding(kA3, 3, kA2));
  EXPECT_FALSE(LiveView(set).is_live(kA1));
  set.insert(voiding(kB2, 3, kB1));
  EXPECT_TRUE(LiveView(set).is_live(kA1));
}

TEST(EntryRules, Rule05_InACircleOfVoidsTheFirstInOrderCounts) {
  const EntrySet two = set_of({voiding(kA1, 1, kA2), voiding(kA2, 2, kA1)});
  EXPECT_TRUE(LiveView(two).is_live(kA1));
  EXPECT_TRUE(LiveView(two).is_void(kA2));

  const EntrySet three = set_of({voiding(kA1, 1, kA2), voiding(kA2, 2, kA3), voiding(kA3, 3, kA1)});
  EXPECT_TRUE(LiveView(three).is_live(kA1));
  EXPECT_TRUE(LiveView(three).is_void(kA2));
  EXPECT_TRUE(LiveView(three).is_live(kA3));

  const EntrySet itself = set_of({voiding(kA1, 1, kA1)});
  EXPECT_TRUE(LiveView(itself).is_live(kA1));

  // Broken from outside, it is a circle no more.
  EntrySet broken = two;
  broken.insert(voiding(kB1, 3, kA1));
  EXPECT_TRUE(LiveView(broken).is_void(kA1));
  EXPECT_TRUE(LiveView(broken).is_live(kA2));
}

TEST(EntryRules, Rule05_AVeryLongChainOfVoidsIsFollowedWithoutRecursion) {
  EntrySet set;
  set.insert(reading(kA1, 1, "100 g"));
  for (std::uint32_t i = 2; i <= 20000; ++i) {
    set.insert(voiding({kWriterA, i}, i, {kWriterA, i - 1}));
  }
  EXPECT_FALSE(LiveView(set).is_live(kA1)) << "19,999 voids: an odd number";
  set.insert(voiding({kWriterA, 20001}, 20001, {kWriterA, 20000}));
  EXPECT_TRUE(LiveView(set).is_live(kA1));
}

TEST(EntryRules, Rule09_APileNamesItsStepAndAStepNamesThePileItTakesFrom) {
  const Entry step = entry(
      kA1, 1, body::Step{"stock", "Stock", Process::cooking, "bones", mass("2 kg"), mass("1 g")});
  const Entry pile = entry(kA2, 2, body::Pile{"clear", "stock", "Clear stock", {}, ""});
  const Result<Entry> step_back = decode_entry_strict(step.text);
  const Result<Entry> pile_back = decode_entry_strict(pile.text);
  ASSERT_TRUE(step_back && pile_back);
  EXPECT_EQ(std::get<body::Step>(step_back->body).from_pile, "bones");
  EXPECT_EQ(std::get<body::Pile>(pile_back->body).step, "stock");
  const Result<Entry> plain =
      decode_entry_strict(entry(kA3, 3, body::Pile{"p", "main", "P", {}, ""}).text);
  ASSERT_TRUE(plain);
  EXPECT_EQ(std::get<body::Pile>(plain->body).step, "main");
}

TEST(EntryRules, Rule10_VoidingAWeightLeavesTheCutAndItsAdvice) {
  body::Cut cut;
  cut.mark = length("42 mm");
  cut.target = mass("225 g");
  cut.plan = "sections=2";
  body::Reading weighed;
  weighed.pile = "portions";
  weighed.weight = mass("226 g");
  weighed.cut = kA1;
  const EntrySet set = set_of({entry(kA1, 1, cut), entry(kA2, 2, weighed), voiding(kA3, 3, kA2)});
  const LiveView live(set);
  ASSERT_EQ(live.entries().size(), 1u);
  const Result<Entry> back = decode_entry_strict(live.entries().front()->text);
  ASSERT_TRUE(back);
  EXPECT_EQ(std::get<body::Cut>(back->body).plan, "sections=2");
  EXPECT_EQ(std::get<body::Cut>(back->body).mark, cut.mark);
}

TEST(EntryRules, Rule11_TheKeyOfAPileStaysWhenItsNameChanges) {
  const Entry first = entry(kA1, 1, body::Pile{"portions", "main", "Portions", {}, ""});
  const Entry renamed = entry(kA2, 2, body::Pile{"portions", "main", "Steaks", {}, ""}, {kA1});
  EXPECT_EQ(fact_key(first), fact_key(renamed));
}

TEST(EntryRules, Rule12_SettingsAreEntriesOfTheSessionAndComeBackFromItsFile) {
  const Result<SessionFile> back = read_session(
      write_session(file_of({entry(kA1, 1, body::Setting{"wage", "21,50"}),
                             entry(kA2, 2, body::Setting{"mood-of-a-later-version", "blue"})})));
  ASSERT_TRUE(back);
  EXPECT_EQ(std::get<body::Setting>(back->entries[0].body).value, "21,50");
  EXPECT_EQ(std::get<body::Setting>(back->entries[1].body).value, "blue");
}

TEST(EntryRules, Rule13_UnknownKindsAndFieldsSurviveLoadEditAndExport) {
  const std::string golden = file_bytes("tests/golden/future-minor.json");
  const Result<SessionFile> loaded = read_session(golden);
  ASSERT_TRUE(loaded) << key_of(loaded.problem().code) << ' ' << text_of(loaded.problem().where);
  EntrySet set = set_of(loaded->entries);
  set.insert(reading({kWriterA, 1}, set.next_seq(), "250 g"));
  set.insert(voiding({kWriterA, 2}, set.next_seq(), {"dem00000d4", 3}));

  SessionFile edited = *loaded;
  edited.entries = entries_of(set);
  const std::string exported = write_session(edited);
  const Result<SessionFile> again = read_session(exported);
  ASSERT_TRUE(again);
  ASSERT_EQ(again->entries.size(), loaded->entries.size() + 2);
  for (std::size_t i = 0; i < loaded->entries.size(); ++i) {
    EXPECT_NE(golden.find(again->entries[i].text), std::string::npos) << again->entries[i].text;
  }
  EXPECT_EQ(again->extra, loaded->extra);
  EXPECT_NE(exported.find(R"("zoom":1.50)"), std::string::npos);
  EXPECT_EQ(again->minor, 7);
}

TEST(EntryRules, Rule13_OnlyANewerMajorVersionIsRefusedAndSaysSo) {
  std::string text = file_bytes("tests/golden/small-lb-oz.json");
  text.replace(text.find("\"major\":1"), 9, "\"major\":2");
  const Result<SessionFile> newer = read_session(text);
  ASSERT_FALSE(newer);
  EXPECT_EQ(newer.problem(),
            (Problem{Code::file_newer_major, "major", {Arg::number(2), Arg::number(1)}}));
}

TEST(EntryRules, Rule14_StrippingNamesOmitsPersonsAndNotesAndEditsNothing) {
  Entry by_person = reading(kA2, 2, "100 g");
  by_person.by = kA1;
  by_person = sealed(by_person);
  const SessionFile whole = file_of({entry(kA1, 1, body::Person{"Invented cook"}), by_person,
                                     entry(kA3, 3, body::Note{"said something", kA2})});
  const SessionFile stripped = without_names(whole);
  ASSERT_EQ(stripped.entries.size(), 1u);
  EXPECT_EQ(stripped.entries.front().text, by_person.text);
  EXPECT_EQ(stripped.left_out, (std::vector<std::string>{"note", "person"}));
  const std::string bytes = write_session(stripped);
  EXPECT_EQ(bytes.find("Invented cook"), std::string::npos);
  const Result<SessionFile> back = read_session(bytes);
  ASSERT_TRUE(back);
  EXPECT_EQ(back->left_out, stripped.left_out);
  EXPECT_EQ(write_session(without_names(*back)), bytes);
}

TEST(EntryRules, Rule15_ImportingADeletedSessionAgainBringsAllOfItBack) {
  const std::string exported = file_bytes("tests/golden/every-kind.json");
  EntrySet erased;
  const Result<SessionFile> file = read_session(exported);
  ASSERT_TRUE(file);
  bool said = false;
  for (const Entry& each : file->entries) said = erased.insert(each) || said;
  EXPECT_TRUE(said) << "the set tells that it changed";
  SessionFile restored = *file;
  restored.entries = entries_of(erased);
  EXPECT_EQ(write_session(restored), exported);
}

}  // namespace
}  // namespace tallyblock::testing
