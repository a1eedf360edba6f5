// The log: made when it is first opened, made again where a piece has changed, and what is said of n pieces.
#include <gtest/gtest.h>

#include "board_acts.h"
#include "web/app/logbook/logbook.h"
#include "web/app/shelf/sample.h"
#include "web/app/shelf/sample_kitchen.h"

namespace tallyblock::test {
namespace {

constexpr const char* kLoins = "samp1evea10000000005";

struct LogOnScreen : BoardActs {
  void SetUp() override { at.stage.size(390, 844, 2, 1); }
  void load_sample() {
    ask::load_sample(at.app(), true);
    rig.pump();
  }
  void open_log(const std::string& panel = {}) { at.go(Screen::log, panel); }
  const LogLine& line(const std::string& key = kLoins) { return *at.app().log()->line(key); }
  std::size_t stored() {
    std::size_t n = 0;
    for (const auto& [key, bytes] : rig.store.kept[Area::index]) n += key.starts_with("~log/");
    return n;
  }
  // Another window over what is stored, its log open.
  void open_elsewhere(AppStage& other) {
    other.rig.store.kept = rig.store.kept;
    other.rig.restart();
    other.screens = std::make_unique<Screens>(other.app());
    other.stage.size(390, 844, 2, 1);
    other.go(Screen::log);
  }
  // All that is said of the chart, a line each.
  std::string said_of_chart() {
    std::string text;
    for (int n = 1; shows("log/said/" + std::to_string(n)); ++n)
      text += said("log/said/" + std::to_string(n)) + '\n';
    return text;
  }
  bool says(const std::string& part) { return said_of_chart().find(part) != std::string::npos; }
};

TEST_F(LogOnScreen, NothingOfItIsReadOrMadeBeforeItIsOpened) {
  load_sample();
  at.settle();
  EXPECT_EQ(at.app().log(), nullptr);
  EXPECT_EQ(stored(), 0U);
  open_log();
  EXPECT_EQ(line().members.size(), 5U);
  EXPECT_EQ(stored(), 5U);
}

TEST_F(LogOnScreen, IsReadWithoutOpeningAnySessionTheNextTime) {
  load_sample();
  open_log();
  const LogLine before = line();
  ASSERT_FALSE(rig.store.kept[Area::entries].empty());
  rig.store.kept[Area::entries].clear();  // whoever opened a session would find nothing
  AppStage other;
  open_elsewhere(other);
  ASSERT_NE(other.app().log(), nullptr);
  EXPECT_EQ(other.app().log()->line(kLoins)->members, before.members);
}

TEST_F(LogOnScreen, APieceThatChangedIsMadeAgain) {
  load_sample();
  open_log();
  const Mass waste = line().members.back().waste;
  ask::open(at.app(), "samp1evea10000000009");
  rig.pump();
  rig.weigh("unusable-trim", "5");
  open_log();
  EXPECT_NEAR(line().members.back().waste.in_grams(), waste.in_grams() + 5.0, 1e-9);
}

TEST_F(LogOnScreen, APieceInTheBinLeavesItsLine) {
  load_sample();
  open_log();
  ask::put_in_bin(at.app(), "samp1evea10000000007");
  rig.pump();
  open_log();
  EXPECT_EQ(line().members.size(), 4U);
  EXPECT_EQ(stored(), 4U);
}

TEST_F(LogOnScreen, APieceThatIsErasedTakesItsRecordWithIt) {
  load_sample();
  open_log();
  at.go(Screen::sessions);
  ask::put_in_bin(at.app(), "samp1evea10000000007");
  rig.pump();
  ask::erase(at.app(), "samp1evea10000000007");
  rig.pump();
  EXPECT_EQ(stored(), 4U);
}

TEST_F(LogOnScreen, ChangesOfAnotherWindowAreSeen) {
  load_sample();
  open_log();
  Rig other(rig.store.kept, 999);
  ask::open(*other, "samp1evea10000000009");
  other.pump();
  other.weigh("unusable-trim", "7");
  const Mass waste = line().members.back().waste;
  rig.store.kept = other.store.kept;
  at.app().on_others_changed();
  rig.pump();
  open_log();
  EXPECT_NEAR(line().members.back().waste.in_grams(), waste.in_grams() + 7.0, 1e-9);
}

TEST_F(LogOnScreen, IsWholeWhileNothingCanBeSaved) {
  load_sample();
  rig.store.set_fault({1, StoreStatus::quota, true, false, true});
  open_log();
  EXPECT_EQ(line().members.size(), 5U);
  EXPECT_FALSE(shows("log/reading"));
  EXPECT_EQ(stored(), 0U);
}

TEST_F(LogOnScreen, TheFirstOfALineIsNotParted) {
  load_sample();
  open_log(std::string(kLoins) + " usable " + kLoins);
  EXPECT_TRUE(shows("log/open"));
  EXPECT_FALSE(shows("log/part"));
  open_log(std::string(kLoins) + " usable samp1evea10000000006");
  EXPECT_TRUE(shows("log/part"));
}

TEST_F(LogOnScreen, DamagedRecordsAreMadeAgain) {
  load_sample();
  open_log();
  for (auto& [key, bytes] : rig.store.kept[Area::index]) {
    if (key.starts_with("~log/")) bytes.resize(bytes.size() / 2);
  }
  AppStage other;
  open_elsewhere(other);
  EXPECT_EQ(other.app().log()->line(kLoins)->members.size(), 5U);
}

TEST_F(LogOnScreen, SameAgainStaysInTheLineWithTheNoteForNextTime) {
  begin("2000");
  const std::string first = at.app().session()->id;
  ask::text_changed(at.app(), "next", "Start at the thin end");
  ask::text_done(at.app(), "next");
  rig.pump();
  ask::same_again(at.app(), first);
  rig.pump();
  const std::string second = at.app().session()->id;
  ASSERT_NE(first, second);
  ASSERT_TRUE(at.app().notice());
  EXPECT_EQ(at.app().notice()->key, "notice.next-time");
  rig.enter(FieldKind::drained, "2100");
  ask::same_again(at.app(), second);
  rig.pump();
  rig.enter(FieldKind::drained, "1900");
  open_log();
  EXPECT_EQ(line(first).members.size(), 3U);
}

TEST_F(LogOnScreen, PiecesAreTiedAndParted) {
  begin("2000");
  const std::string id = at.app().session()->id;
  load_sample();
  open_log(id + " usable " + id + " tie");
  ASSERT_TRUE(shows(std::string("log/tie/") + kLoins));
  press(std::string("log/tie/") + kLoins);
  rig.pump();
  at.settle();
  EXPECT_EQ(line().members.size(), 6U);
  EXPECT_EQ(at.app().log()->line(id), nullptr);
  // a start of its own, and out again
  open_log(std::string(kLoins) + " usable " + id);
  press("log/start");
  rig.pump();
  at.settle();
  EXPECT_EQ(line().members.at(line().from).session, id);
  open_log(std::string(kLoins) + " usable " + id);
  press("log/part");
  rig.pump();
  at.settle();
  EXPECT_EQ(line().members.size(), 5U);
  EXPECT_EQ(line(id).members.size(), 1U);
}

TEST_F(LogOnScreen, OfTheSampleSaysWhatFiveAllow) {
  load_sample();
  open_log(std::string(kLoins) + " usable");
  // 2676 of 3240 g, 2679 of 3385, 2501 of 3150, 2757 of 3310, 2737 of 3295
  EXPECT_EQ(
      said_of_chart(),
      "5 count: 82.6 % in the middle, from 79.1 % to 83.3 %. If nothing changes, the next lies "
      "between them with a chance of 66.7 %. \n");
  open_log(std::string(kLoins) + " cost");
  // (3.31 x 25.90 - 0.318 x 14 - 0.356 x 8) / 2.083 = 37.65
  EXPECT_TRUE(says("37.65 € in the middle")) << said_of_chart();
  EXPECT_TRUE(says("from 36.48 € to 41.76 €"));
}

TEST_F(LogOnScreen, WhatChangedAddsUpToTheCent) {
  load_sample();
  open_log(std::string(kLoins) + " cost samp1evea10000000008 changed");
  EXPECT_EQ(said("log/changed/sentence"),
            "A kg of portions, with work, cost 5.20 € less: 41.68 €, not 46.88 €. ");
  // in cents: 263 + 112 + 63 + 54 + 28
  EXPECT_EQ(said("log/changed/0"), "Chain fat and membrane: 19.8 %, then 16.3 %, - 2.63 € ");
  EXPECT_EQ(said("log/changed/4"), "Lost in cutting: 0.8 %, then 0.4 %, - 0.28 € ");
  EXPECT_FALSE(shows("log/changed/5"));
}

// ---- so many pieces, each with so much waste of 2000 g

struct ManyOfALine : LogOnScreen {
  static std::string id_of(int n) {
    std::string id = "m0000000000000000000";
    id[18] = static_cast<char>('0' + n / 10);
    id[19] = static_cast<char>('0' + n % 10);
    return id;
  }
  void add(int n, int waste) {
    const std::string id = id_of(n), writer = id.substr(10);
    const sample::Setup setup = {
        "",     id.c_str(), writer.c_str(), 1'780'000'000'000 + n * 86'400'000LL,
        "Loin", "pork",     "loin",         "g",
        "kg",   "EUR",      "1 g"};
    sample::Kitchen k(setup);
    const EntryId ada = k.person("Ada"), ben = k.person("Ben");
    k.cutting(ada);
    if (n > 0) k.add(body::Line{id_of(0), false});
    k.piles({{"portions", "Portions", Role::primary, "", nullptr},
             {"waste", "Waste", Role::unusable_trim, "waste", nullptr}});
    k.incoming(Incoming::drained, "2000 g");
    k.weigh("portions", (std::to_string(2000 - waste) + " g").c_str());
    k.weigh("waste", (std::to_string(waste) + " g").c_str());
    k.cutting(ben);
    k.quality("membrane", true);
    at.app().on_file(id + ".json", write_session(k.done()), true);
    rig.pump();
  }
};

TEST_F(ManyOfALine, FromOneToTwentyNoMoreIsSaidThanTheyAllow) {
  // never eight in a row on one side of their average, never all of four above all of four
  constexpr int waste[] = {200, 240, 220, 190, 250, 210, 230, 205, 245, 215,
                           195, 235, 200, 240, 220, 190, 250, 210, 230, 205};
  for (int n = 1; n <= 20; ++n) {
    add(n - 1, waste[n - 1]);
    open_log(id_of(0) + " waste");
    ASSERT_EQ(line(id_of(0)).members.size(), static_cast<std::size_t>(n));
    const std::string all = said_of_chart();
    EXPECT_EQ(says("nothing to compare yet"), n == 1) << n << all;
    EXPECT_EQ(says("the second has 2.0 points more"), n == 2) << n << all;
    EXPECT_EQ(says("with a chance of"), n >= 3 && n <= 5) << n << all;
    EXPECT_EQ(says("Provisional"), n >= 6 && n <= 11) << n << all;
    EXPECT_EQ(says("no clear change"), n >= 8) << n << all;
    EXPECT_EQ(says("The first twelve fix"), n >= 12) << n << all;
    EXPECT_EQ(says("No piece is outside"), n >= 12) << n << all;
    EXPECT_FALSE(says("has changed")) << n << all;
    EXPECT_FALSE(says("above the limits")) << n << all;
    EXPECT_EQ(all.find("nan"), std::string::npos);
  }
}

TEST_F(ManyOfALine, ASignalIsSaidFromTwelveOn) {
  for (int n = 0; n < 11; ++n) add(n, 200 + 10 * (n % 2));
  add(11, 700);
  open_log(id_of(0) + " waste");
  EXPECT_TRUE(says("35.0 % is above the limits")) << said_of_chart();
}

TEST_F(ManyOfALine, AllAlikeHaveNoLimits) {
  for (int n = 0; n < 7; ++n) add(n, 200);
  open_log(id_of(0) + " waste");
  EXPECT_EQ(said_of_chart(), "7 count, and all are 10.0 %. \n");
}

TEST_F(ManyOfALine, WhatIsNotJudgedIsDrawnAndNotCounted) {
  begin("2000");
  const std::string id = at.app().session()->id;
  rig.weigh("portions", "1800");
  rig.weigh("unusable-trim", "200");
  open_log(id + " waste");
  EXPECT_TRUE(says("None counts yet")) << said_of_chart();
  EXPECT_TRUE(shows("log/drawing"));
}

}  // namespace
}  // namespace tallyblock::test
