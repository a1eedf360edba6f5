// Saving as the person sees it, starting from what was kept, and resuming after a kill.
#include <gtest/gtest.h>

#include <functional>

#include "kitchen.h"

namespace tallyblock::test {
namespace {

// ---- saying it

TEST(Saving, IsSaidToBeKeptOnlyWhenTheTransactionHasCompleted) {
  Rig rig(start().contents, start().drawn);
  ask::edit(*rig, {FieldKind::reading, ""});
  rig.type("42");
  ask::choose_pile(*rig, "portions");
  const EntryId reading = rig->session()->set.in_order().back()->id;
  EXPECT_EQ(save_state(*rig), SaveState::saving);
  EXPECT_FALSE(is_kept(*rig, reading));
  EXPECT_EQ(rig->keeper().unsaved(), 1u);
  rig.pump();
  EXPECT_EQ(save_state(*rig), SaveState::kept);
  EXPECT_TRUE(is_kept(*rig, reading));
}

TEST(Saving, AFailureIsSaidAtOnceTriedAgainByItselfAndSaidWhenItIsOver) {
  Rig rig(start().contents, start().drawn);
  ask::edit(*rig, {FieldKind::reading, ""});
  rig.type("42");
  rig.store.set_fault({1, StoreStatus::quota, true, false});
  ask::choose_pile(*rig, "portions");
  rig.pump();
  EXPECT_EQ(rig->keeper().trouble(), StoreStatus::quota);
  EXPECT_EQ(save_state(*rig), SaveState::failed);
  EXPECT_EQ(rig.notice(), "trouble.quota");
  EXPECT_TRUE(rig->notice()->is_error);
  EXPECT_EQ(rig.grams("portions"), 852.0) << "it counts on the screen all the same";
  rig.wait(1'000);
  EXPECT_EQ(save_state(*rig), SaveState::failed);
  rig.store.set_fault({});
  rig.wait(64'000);
  EXPECT_EQ(save_state(*rig), SaveState::kept);
  EXPECT_EQ(rig->keeper().trouble(), StoreStatus::ok);
  EXPECT_EQ(rig.notice(), "notice.kept-again");
}

TEST(Saving, IsTriedLessAndLessOften) {
  Rig rig(start().contents, start().drawn);
  rig.store.set_fault({1, StoreStatus::closed, true, false});
  ask::add_pile(*rig, Role::secondary, "More", "");
  rig.pump();
  std::vector<std::size_t> tries;
  for (int n = 0; n < 300; ++n) {
    const std::size_t before = rig.store.operations();
    rig.wait(1'000);
    if (rig.store.operations() != before) tries.push_back(static_cast<std::size_t>(n) + 1);
  }
  EXPECT_EQ(tries, (std::vector<std::size_t>{1, 3, 7, 15, 31, 63, 127, 191, 255}));
}

TEST(Saving, ManyActsAreKeptInTheirOrderOnceTheStoreAnswersAgain) {
  Rig rig(start().contents, start().drawn);
  rig.store.set_fault({1, StoreStatus::aborted, true, false});
  for (const char* weight : {"11", "12", "13"}) rig.weigh("portions", weight);
  EXPECT_EQ(rig->keeper().unsaved(), 3u);
  rig.store.set_fault({});
  ask::retry_save(*rig);
  rig.pump();
  EXPECT_EQ(rig->keeper().unsaved(), 0u);
  rig.restart();
  EXPECT_EQ(rig.grams("portions"), 846.0);
}

TEST(Saving, AFailedDraftLosesNoActAndShowsNoTrouble) {
  Rig rig(start().contents, start().drawn);
  ask::edit(*rig, {FieldKind::reading, ""});
  rig.pump();
  rig.store.set_fault({1, StoreStatus::quota, false, false});
  rig.type("42");
  EXPECT_EQ(rig->keeper().trouble(), StoreStatus::ok);
  EXPECT_EQ(save_state(*rig), SaveState::kept);
  ask::choose_pile(*rig, "portions");
  rig.pump();
  rig.restart();
  EXPECT_EQ(rig.grams("portions"), 852.0);
}

TEST(Saving, ANewerStoreMakesTheAppReadOnlyButExportWorks) {
  Rig rig(start().contents, start().drawn);
  rig.store.set_fault({1, StoreStatus::newer, true, false});
  ask::add_pile(*rig, Role::secondary, "More", "");
  rig.pump();
  EXPECT_EQ(rig->keeper().trouble(), StoreStatus::newer);
  const std::size_t size = rig->session()->set.size();
  rig.weigh("portions", "42");
  EXPECT_EQ(rig->session()->set.size(), size);
  EXPECT_EQ(rig.notice(), "trouble.newer");
  ask::export_session(*rig, start().open, true);
  EXPECT_EQ(rig.host.offered.size(), 1u);
  const std::size_t operations = rig.store.operations();
  rig.wait(500'000);
  EXPECT_EQ(rig.store.operations(), operations) << "nothing is tried by itself";
}

TEST(Saving, WithoutAnyStorageTheAppWorksInMemoryAndSaysSo) {
  FaultyStore store;
  FakeHost host;
  store.set_fault({1, StoreStatus::unavailable, true, false});
  App app(store, host);
  app.start();
  const auto pump = [&] {
    while (store.pump_one(app)) {
    }
  };
  pump();
  EXPECT_EQ(app.phase(), App::Phase::ready);
  EXPECT_EQ(app.keeper().trouble(), StoreStatus::unavailable);
  ask::new_session(app);
  pump();
  ASSERT_NE(app.session(), nullptr);
  EXPECT_EQ(save_state(app), SaveState::failed);
  ask::export_session(app, app.session()->id, true);
  EXPECT_EQ(host.offered.size(), 1u);
}

// ---- starting

TEST(Starting, WhateverCannotBeReadIsSaidNothingIsWrittenAndItIsTriedAgain) {
  for (std::size_t n = 1; n <= 4; ++n) {
    for (const StoreStatus status : kFaults) {
      if (status == StoreStatus::unavailable || status == StoreStatus::not_writer) continue;
      SCOPED_TRACE(::testing::Message() << n << ' ' << static_cast<int>(status));
      FaultyStore store;
      FakeHost host;
      store.kept = start().contents;
      store.set_fault({n, status, false, false});
      App app(store, host);
      app.start();
      while (store.pump_one(app)) {
      }
      EXPECT_EQ(app.phase(), App::Phase::unreadable);
      EXPECT_EQ(app.keeper().trouble(), status);
      EXPECT_EQ(store.kept, start().contents);
      ask::retry_save(app);
      while (store.pump_one(app)) {
      }
      EXPECT_EQ(app.phase(), App::Phase::ready);
      EXPECT_EQ(app.keeper().trouble(), StoreStatus::ok);
      ASSERT_NE(app.session(), nullptr);
      EXPECT_EQ(app.session()->id, start().open);
      EXPECT_EQ(app.shelf().cards.size(), 2u);
    }
  }
}

TEST(Starting, LoadsTheIndexAndTheOpenSessionOnly) {
  Contents contents = start().contents;
  // An entry of another session that would be noticed if it were read.
  contents[Area::entries][start().other + "/0000000001.99"] = "damaged";
  Rig rig(contents, 5000);
  EXPECT_EQ(rig.notice(), "");
  EXPECT_EQ(rig->session()->id, start().open);
}

TEST(Starting, AMissingOrDamagedIndexIsMadeAgainFromTheEntriesAndSaid) {
  const std::string healthy = seen(start().contents);
  Contents missing = start().contents;
  missing[Area::index].clear();
  Contents damaged = start().contents;
  damaged[Area::index][start().other] = "{\"title\":";
  for (const Contents& contents : {missing, damaged}) {
    Rig rig(contents, 5000);
    EXPECT_EQ(rig.notice(), "notice.index-rebuilt");
    EXPECT_EQ(rig.store.kept[Area::index], start().contents.at(Area::index));
    EXPECT_EQ(seen(contents), healthy);
    EXPECT_EQ(rig->shelf().binned.size(), 1u);
  }
}

TEST(Starting, ADamagedEntryIsSaidAndTheOthersCount) {
  Contents contents = start().contents;
  contents[Area::entries][start().open + "/0000000001.999"] = "{\"half\":";
  Rig rig(contents, 5000);
  EXPECT_EQ(rig.notice(), "notice.unreadable-entries");
  EXPECT_EQ(rig.grams("portions"), 810.0);
  EXPECT_EQ(rig.store.kept[Area::entries].count(start().open + "/0000000001.999"), 1u);
}

TEST(Starting, ADraftOfASessionThatIsGoneLandsOnTheList) {
  Contents contents = start().contents;
  auto& entries = contents[Area::entries];
  for (auto at = entries.begin(); at != entries.end();) {
    at = at->first.compare(0, start().open.size(), start().open) == 0 ? entries.erase(at) : ++at;
  }
  contents[Area::index].erase(start().open);
  Rig rig(contents, 5000);
  EXPECT_EQ(rig->session(), nullptr);
  EXPECT_EQ(rig->draft().screen, Screen::sessions);
}

// ---- resuming

struct Resuming : ::testing::Test {
  Rig rig;
  // One press, then the page is killed and opened again.
  void then(const std::function<void()>& press) {
    press();
    rig.pump();
    const std::string draft = draft_to_json(rig->draft()), session = shown();
    rig.restart();
    ASSERT_EQ(draft_to_json(rig->draft()), draft);
    ASSERT_EQ(shown(), session);
  }
  void keys(const std::string& text) {
    for (const char key : text) then([&] { ask::key(*rig, std::string(1, key)); });
  }
  std::string shown() {
    return rig->session() == nullptr ? "" : write_session(file_of(*rig->session()));
  }
};

TEST_F(Resuming, AKillAfterEveryKeyPressLandsOnTheSameScreenWithTheSameDigits) {
  then([&] { ask::new_session(*rig); });
  keys("2480");
  then([&] { ask::enter(*rig); });
  for (const char* text : {"B", "Be", "Bee", "Beef"})
    then([&] { ask::text_changed(*rig, "piece", text); });
  then([&] { ask::text_done(*rig, "piece"); });
  then([&] { ask::choose_pile(*rig, "portions"); });
  keys("18");
  then([&] { ask::key(*rig, "back"); });
  keys("82");
  then([&] { ask::enter(*rig); });
  keys("311");
  then([&] { ask::choose_pile(*rig, "second-cuts"); });
  then([&] { ask::set_habit(*rig, "tub-now"); });
  then([&] { ask::set_count(*rig, 2); });
  keys("40");
  then([&] { ask::go(*rig, Screen::result); });
  then([&] { ask::open_panel(*rig, "explain:loss"); });
  then([&] { ask::edit(*rig, {FieldKind::price_per_mass, ""}); });
  keys("29.8");
  then([&] { ask::enter(*rig); });
  then([&] { ask::go(*rig, Screen::weigh); });
  keys("9");
  then([&] { ask::enter(*rig); });
  then([&] { ask::timer_start(*rig); });
  then([&] { ask::select(*rig, to_text(first_reading(*rig))); });
  then([&] { ask::move_reading(*rig, first_reading(*rig), "usable-trim"); });
  then([&] { ask::set_unit(*rig, "lb-oz"); });
  keys("1");
  then([&] { ask::key(*rig, "lb"); });
  keys("8");
  then([&] { ask::enter(*rig); });
  then([&] { ask::void_entry(*rig, first_reading(*rig)); });
  then([&] { ask::timer_pause(*rig); });
  then([&] { ask::go(*rig, Screen::sessions); });
  EXPECT_EQ(rig->shelf().cards.size(), 1u);
}

}  // namespace
}  // namespace tallyblock::test
