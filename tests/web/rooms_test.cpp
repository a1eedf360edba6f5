// The keeper and the shelf by themselves: what is answered, without an App.
#include <gtest/gtest.h>

#include "web/app/keeper/keeper.h"
#include "web/app/shelf/shelf.h"

namespace tallyblock::test {
namespace {

struct SilentStore : Store {
  std::vector<std::pair<std::uint32_t, Transaction>> sent;
  void commit(std::uint32_t token, const Transaction& transaction) override {
    sent.emplace_back(token, transaction);
  }
  void load(std::uint32_t, Area, const std::string&) override {}
};

Act act_of(const std::string& key) {
  Act act;
  act.put(Area::entries, key, "text of " + key);
  act.unsaved.push_back(key);
  act.draft = "draft with " + key;
  return act;
}

struct AKeeper : ::testing::Test {
  SilentStore store;
  Keeper keeper{store};
  Keeper::Answer answer(StoreStatus status) {
    return keeper.on_commit(store.sent.back().first, status);
  }
};

TEST_F(AKeeper, OneActIsOneTransactionWithTheDraftOfThatTime) {
  keeper.add(act_of("a/1"));
  keeper.add(act_of("a/2"));
  ASSERT_TRUE(keeper.may_send());
  keeper.send("draft now");
  ASSERT_EQ(store.sent.size(), 1U);
  ASSERT_EQ(store.sent[0].second.size(), 2U);
  EXPECT_EQ(store.sent[0].second[0].key, "a/1");
  EXPECT_EQ(store.sent[0].second[1].bytes, "draft with a/1");
  EXPECT_FALSE(keeper.may_send());  // nothing overtakes it
  const Keeper::Answer kept = answer(StoreStatus::ok);
  EXPECT_TRUE(kept.ours && kept.kept);
  EXPECT_TRUE(keeper.is_kept("a/1"));
  EXPECT_FALSE(keeper.is_kept("a/2"));
  keeper.send("draft now");
  EXPECT_EQ(store.sent[1].second[1].bytes, "draft now");  // the last goes with the present one
}

TEST_F(AKeeper, AnAnswerOfAnotherTransactionIsNotOurs) {
  keeper.add(act_of("a/1"));
  keeper.send("");
  EXPECT_FALSE(keeper.on_commit(store.sent[0].first + 1, StoreStatus::ok).ours);
  EXPECT_FALSE(keeper.on_commit(0, StoreStatus::ok).ours);
  EXPECT_EQ(keeper.waiting(), 1U);
}

TEST_F(AKeeper, WhatFailedIsTriedAgainLaterAndLater) {
  keeper.add(act_of("a/1"));
  keeper.send("");
  EXPECT_FALSE(answer(StoreStatus::quota).kept);
  EXPECT_TRUE(keeper.fail(StoreStatus::quota, false, true));
  EXPECT_TRUE(keeper.wait_after(StoreStatus::quota, 1'000));
  EXPECT_EQ(keeper.retry_at(), 2'000);
  EXPECT_FALSE(keeper.retry_due(1'999));
  EXPECT_TRUE(keeper.retry_due(2'000));
  keeper.send("");
  answer(StoreStatus::quota);
  keeper.fail(StoreStatus::quota, false, true);
  keeper.wait_after(StoreStatus::quota, 2'000);
  EXPECT_EQ(keeper.retry_at(), 4'000);
  EXPECT_EQ(keeper.state(true), SaveState::failed);
  keeper.retry_now();
  keeper.send("");
  EXPECT_TRUE(answer(StoreStatus::ok).again);
  EXPECT_EQ(keeper.state(true), SaveState::kept);
}

TEST_F(AKeeper, WithoutThePenNothingIsSent) {
  keeper.add(act_of("a/1"));
  EXPECT_FALSE(keeper.set_writer(false));
  EXPECT_FALSE(keeper.may_send());
  EXPECT_EQ(keeper.why_not(), "notice.not-writer");
  EXPECT_TRUE(keeper.set_writer(true));
  EXPECT_TRUE(keeper.may_send());
}

TEST_F(AKeeper, WhatWaitsIsLaidOverWhatIsRead) {
  Act act = act_of("a/2");
  act.ops.push_back({Op::What::erase_prefix, Area::entries, "b/", ""});
  keeper.add(std::move(act));
  const std::vector<Record> now =
      keeper.with_pending(Area::entries, "", {{"a/1", "one"}, {"b/1", "two"}});
  ASSERT_EQ(now.size(), 2U);
  EXPECT_EQ(now[0].key, "a/1");
  EXPECT_EQ(now[1].bytes, "text of a/2");
}

SessionCard card(const std::string& id, std::int64_t started) {
  SessionCard made;
  made.id = id;
  made.started_ms = started;
  return made;
}

TEST(AShelf, HasTheNewestFirstAndEachOnce) {
  Shelf shelf;
  Act act;
  shelf.put(card("old", 1), act);
  shelf.put(card("new", 3), act);
  shelf.put(card("mid", 2), act);
  shelf.put(card("mid", 2), act);
  ASSERT_EQ(shelf.cards.size(), 3U);
  EXPECT_EQ(shelf.cards[0].id, "new");
  EXPECT_EQ(shelf.cards[1].id, "mid");
  EXPECT_EQ(act.ops.size(), 4U);
}

TEST(AShelf, ErasesForGoodAndRemembersIt) {
  Shelf shelf;
  Act act;
  shelf.put(card("one", 1), act);
  shelf.set_bin("one", true, 77, act);
  EXPECT_EQ(shelf.card("one"), nullptr);
  EXPECT_NE(shelf.binned_card("one"), nullptr);
  shelf.learn({"Ada", "one", {}});
  EXPECT_NE(shelf.cook_of("Ada", "two"), nullptr);
  EXPECT_EQ(shelf.cook_of("Ada", "one"), nullptr);  // its own is not from before
  shelf.erase("one", act);
  EXPECT_FALSE(shelf.in_bin("one"));
  EXPECT_TRUE(shelf.binned.empty());
  EXPECT_EQ(shelf.erased, std::vector<std::string>{"one"});
  EXPECT_EQ(shelf.cook_of("Ada", "two"), nullptr);
  EXPECT_TRUE(shelf.forget_erased("one", act));
  EXPECT_FALSE(shelf.forget_erased("one", act));
}

}  // namespace
}  // namespace tallyblock::test
