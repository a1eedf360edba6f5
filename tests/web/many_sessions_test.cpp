// A thousand sessions: imported some together, stopped, refused one by one; cards made again in slices.
#include <gtest/gtest.h>

#include <string>

#include "app_stage.h"
#include "files_stage.h"
#include "web/app/shelf/sample.h"
#include "web/words/words.h"

namespace tallyblock::test {
namespace {

// A session of the sample under another id.
std::string file_of_many(int n) {
  SessionFile file = sample_sessions()[0];
  std::string id = "m" + std::to_string(100000 + n);
  id.resize(file.session.size(), '0');
  file.session = id;
  return write_session(file);
}

// As an earlier version wrote the cards.
void make_older(Contents& contents) {
  for (auto& [id, card] : contents[Area::index]) {
    const std::string now = "\"version\":" + std::to_string(kCardVersion);
    const std::size_t at = card.find(now);
    ASSERT_NE(at, std::string::npos);
    card.replace(at, now.size(), "\"version\":" + std::to_string(kCardVersion - 1));
  }
}

void come(Rig& rig, int from, int to) {
  for (int n = from; n < to; ++n)
    rig->on_file("s" + std::to_string(n) + ".json", file_of_many(n), true);
}

struct Many : ::testing::Test {
  Rig rig;
  void pick(int count) {
    ask::import_file(*rig);
    rig->on_files(static_cast<std::size_t>(count));
  }
  void come(int from, int to) { test::come(rig, from, to); }
  // The first so many sessions, imported; what is stored then, with cards of an earlier version.
  Contents older(int count) {
    pick(count);
    come(0, count);
    rig.pump();
    Contents contents = rig.store.kept;
    make_older(contents);
    return contents;
  }
};

struct ManyOnTheScreen : ::testing::Test {
  AppStage at;
  void SetUp() override {
    at.stage.size(390, 844, 2, 1);
    at.go(Screen::sessions);
    ask::import_file(*at.rig);
  }
  void come(int count) { test::come(at.rig, 0, count); }
  // Anywhere but in the notice.
  bool says(const std::string& words) {
    for (const AccessNode& n : at.access()) {
      if (n.id != Kit::id_of("notice") && n.label.find(words) != std::string::npos) return true;
    }
    return false;
  }
  void activate(std::string_view path) {
    at.stage.in.activated.push_back(Kit::id_of(path));
    at.settle();
  }
};

TEST_F(Many, AreImportedByFewTransactions) {
  pick(200);
  rig.store.set_fault({});
  come(0, 200);
  rig.pump();
  EXPECT_EQ(rig->shelf().cards.size(), 200u);
  EXPECT_FALSE(rig->porter().going_on());
  EXPECT_EQ(rig->porter().totals.sessions.size(), 200u);
  // one load a session and no more than one transaction for twenty of them
  EXPECT_LE(rig.store.operations(), 200u + 10u + 2u);
  rig.restart();
  EXPECT_EQ(rig->shelf().cards.size(), 200u);
}

TEST_F(Many, StopWhenAskedToAndKeepWhatIsIn) {
  pick(120);
  come(0, 100);
  for (int n = 0; n < 30; ++n) rig.store.pump_one(*rig);
  ask::stop_import(*rig);
  come(100, 120);
  rig.pump();
  const std::size_t kept = rig->shelf().cards.size();
  EXPECT_GT(kept, 0u);
  EXPECT_LT(kept, 60u);
  EXPECT_FALSE(rig->porter().going_on());
  EXPECT_EQ(rig.notice(), "import.report");
  rig.restart();
  EXPECT_EQ(rig->shelf().cards.size(), kept);
  pick(1);
  come(119, 120);
  rig.pump();
  EXPECT_EQ(rig->shelf().cards.size(), kept + 1);
}

TEST_F(Many, AreAllNamedThatWereRefused) {
  pick(4);
  come(0, 1);
  rig->on_file("first.json", "{", true);
  rig->on_file("second.json", "nothing", true);
  come(1, 2);
  rig.pump();
  ASSERT_EQ(rig->porter().refused.size(), 2u);
  EXPECT_EQ(rig->porter().refused[0].find("first.json was not imported"), 0u);
  EXPECT_EQ(rig->porter().refused[1].find("second.json was not imported"), 0u);
  EXPECT_EQ(rig->shelf().cards.size(), 2u);
  ask::forget_refused(*rig);
  EXPECT_TRUE(rig->porter().refused.empty());
}

TEST_F(Many, GoOnWhereSavingFails) {
  rig.store.set_fault(
      {.from = 1, .status = StoreStatus::quota, .for_ever = true, .commits_only = true});
  pick(120);
  come(0, 120);
  rig.pump();
  EXPECT_EQ(rig->keeper().trouble(), StoreStatus::quota);
  EXPECT_EQ(rig->shelf().cards.size(), 120u) << "all are in memory";
  EXPECT_TRUE(rig->porter().refused.empty());
  rig.store.set_fault({});
  ask::retry_save(*rig);
  rig.pump();
  EXPECT_EQ(rig->keeper().unsaved(), 0u);
  rig.restart();
  EXPECT_EQ(rig->shelf().cards.size(), 120u);
}

// Another window has taken the pen: what was read waits for it to come back, what comes is refused in words.
TEST_F(Many, WaitWhileAnotherWindowHasThePen) {
  pick(61);
  come(0, 60);
  for (int n = 0; n < 10; ++n) rig.store.pump_one(*rig);
  rig->on_role(false);
  rig.pump();
  const std::size_t before = rig->shelf().cards.size();
  EXPECT_LT(before, 60u);
  come(60, 61);
  EXPECT_EQ(rig->porter().refused.size(), 1u);
  rig->on_role(true);
  rig.pump();
  EXPECT_EQ(rig->shelf().cards.size(), 60u);
  EXPECT_FALSE(rig->porter().going_on());
}

TEST_F(Many, ARefusalIsStillSaidWhenTheOthersAreKept) {
  pick(2);
  rig->on_file("good.json", file_of_many(1), true);
  rig.store.pump_one(*rig);  // read, and being kept
  rig->on_file("bad.json", "{", true);
  rig.pump();
  EXPECT_NE(line(rig).find("bad.json was not imported"), std::string::npos) << line(rig);
  EXPECT_NE(line(rig).find("1 session imported"), std::string::npos) << line(rig);
}

// Erased for good between being read and being put: it comes back whole or not at all.
TEST_F(Many, WhatChangedWhileItWasReadIsReadAgain) {
  pick(1);
  come(0, 1);
  rig.pump();
  const std::string id = rig->shelf().cards.front().id;
  ask::put_in_bin(*rig, id);
  rig.pump();
  pick(1);
  come(0, 1);
  ask::erase(*rig, id);  // while what is here of it is on its way
  rig.pump();
  ASSERT_EQ(rig->shelf().cards.size(), 1u);
  rig.restart();
  ask::open(*rig, id);
  rig.pump();
  ASSERT_NE(rig->session(), nullptr);
  EXPECT_EQ(rig->session()->set.size(), sample_sessions()[0].entries.size());
}

TEST_F(Many, CardsOfAnEarlierVersionAreShownAtOnceAndMadeAgain) {
  const Contents contents = older(30);
  const auto whole = rig.store.kept[Area::index];
  Rig later(contents, 9000);
  EXPECT_EQ(later->shelf().cards.size(), 30u);
  EXPECT_EQ(later.store.kept[Area::index], whole);
  EXPECT_EQ(later.notice(), "") << "nobody need know";
}

TEST_F(Many, CardsOfAnEarlierVersionMakeNobodyWaitForALaterPart) {
  const Contents contents = older(3);
  FaultyStore store;
  store.kept = contents;
  FakeHost host;
  App app(store, host);
  app.begin_in_parts();
  app.start();
  while (store.pump_one(app)) {
  }
  EXPECT_EQ(app.shelf().cards.size(), 3u);
  EXPECT_FALSE(app.waits_for_part());
  app.on_part(AppPart::board);
  while (store.pump_one(app)) {
  }
  EXPECT_EQ(store.kept[Area::index], rig.store.kept[Area::index]);
}

// The second store brought entries back; their cards are gone.
TEST_F(Many, PiecesThatCameBackAreListedAtOnce) {
  pick(5);
  come(0, 5);
  rig.pump();
  const std::string id = rig->shelf().cards.front().id;
  rig.restart();
  rig.store.kept[Area::index][id] = "";  // as the page hands on a card that is missing
  rig->on_store_news(StoreNews::back, 1);
  rig.pump();
  EXPECT_EQ(rig->shelf().cards.size(), 5u);
  EXPECT_NE(rig.store.kept[Area::index][id], "");
}

TEST_F(Many, ACardThatCannotBeMadeAgainIsLeftForAnotherStart) {
  const Contents contents = older(3);
  FaultyStore store;
  store.kept = contents;
  store.set_fault(
      {.from = 4, .status = StoreStatus::aborted, .for_ever = false});  // the first of the pieces
  FakeHost host;
  App app(store, host);
  app.start();
  for (int n = 0; n < 200 && store.pump_one(app); ++n) {
  }
  EXPECT_TRUE(store.idle());
  EXPECT_EQ(app.shelf().cards.size(), 3u);
  EXPECT_EQ(app.keeper().trouble(), StoreStatus::ok);
  EXPECT_EQ(app.phase(), App::Phase::ready);
}

TEST_F(Many, CardsHoldWhatALogShowsWithoutOpening) {
  ask::load_sample(*rig);
  rig.pump();
  bool portions = false;
  for (const SessionCard& card : rig->shelf().cards) {
    ASSERT_TRUE(card.usable_ratio && card.primary_ratio) << card.title;
    ask::open(*rig, card.id);
    rig.pump();
    const Figures& f = rig->session()->figures;
    EXPECT_NEAR(*card.usable_ratio, f.yield->usable_ratio, 1e-8);
    EXPECT_NEAR(*card.cost_per_usable_gram, f.yield->cost_per_usable->per(MassUnit::gram), 1e-8);
    EXPECT_EQ(card.loss_ratio.has_value(), f.loss.has_value());
    if (card.portions) {
      portions = true;
      EXPECT_EQ(*card.portions, static_cast<double>(f.targets.front().singles.size()));
    }
    const auto back = card_from_json(card.id, card_to_json(card));
    ASSERT_TRUE(back);
    EXPECT_EQ(card_to_json(*back), card_to_json(card));
  }
  EXPECT_TRUE(portions);
}

TEST_F(ManyOnTheScreen, AreListedWithFewElements) {
  come(100);
  at.rig.pump();
  at.settle();
  ASSERT_EQ(at.app().shelf().cards.size(), 100u);
  std::size_t rows = 0;
  for (const AccessNode& n : at.access()) {
    if (n.set_size == 100) ++rows;
  }
  EXPECT_GT(rows, 5u);
  EXPECT_LT(rows, 40u);  // one element a row
}

TEST_F(ManyOnTheScreen, LeaveTheWayToANewPieceWithinReach) {
  come(60);
  at.rig.pump();
  at.settle();
  ASSERT_FALSE(Stage::find(at.access(), "sessions/not-protected")->visible);
  EXPECT_TRUE(Stage::find(at.access(), "sessions/new")->visible);
  EXPECT_TRUE(Stage::find(at.access(), "place.settings")->visible);
}

TEST_F(ManyOnTheScreen, SayHowFarTheImportIsAndStopByATap) {
  at.rig->on_files(60);
  come(40);
  for (int n = 0; n < 30; ++n) at.rig.store.pump_one(*at.rig);
  at.settle();
  EXPECT_TRUE(says("still to come"));
  activate("sessions/stop-import");
  EXPECT_TRUE(at.app().porter().stopped);
  EXPECT_FALSE(says("still to come"));
}

TEST_F(ManyOnTheScreen, ListTheRefusedOnTheScreenUntilItIsClosed) {
  at.rig->on_file("bad-one.json", "{", true);
  at.rig->on_file("bad-two.json", "no", true);
  at.settle();
  EXPECT_TRUE(says("Not imported: 2"));
  EXPECT_TRUE(says("bad-one.json"));
  activate("sessions/refused-read");
  EXPECT_FALSE(says("bad-one.json"));
}

}  // namespace
}  // namespace tallyblock::test
