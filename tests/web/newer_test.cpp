// What a later version of the app has stored: read and handed out, never written.
#include <gtest/gtest.h>

#include <deque>
#include <functional>
#include <utility>

#include "fake_host.h"

namespace tallyblock::test {
namespace {

// Every load is answered with what is there, every transaction refused.
class NewerStore : public Store {
 public:
  Contents kept;
  std::size_t commits = 0;

  void commit(std::uint32_t token, const Transaction&) override {
    ++commits;
    waiting_.push_back([token](App& app) { app.on_commit(token, StoreStatus::newer); });
  }
  void load(std::uint32_t token, Area area, const std::string& prefix) override {
    std::vector<Record> found;
    for (const auto& [key, bytes] : kept[area]) {
      if (key.starts_with(prefix)) found.push_back({key, bytes});
    }
    waiting_.push_back([token, found = std::move(found)](App& app) {
      app.on_load(token, StoreStatus::read_newer, found);
    });
  }
  void pump(App& app) {
    while (!waiting_.empty()) {
      const auto act = std::move(waiting_.front());
      waiting_.pop_front();
      act(app);
    }
  }

 private:
  std::deque<std::function<void(App&)>> waiting_;
};

TEST(Newer, DataOfALaterVersionIsShownExportedAndBackedUpButNotChanged) {
  Rig before;
  ask::new_session(*before);
  before.pump();
  before.enter(FieldKind::drained, "2000");
  before.weigh("portions", "120");
  ask::export_session(*before, before->session()->id, true);
  before.pump();
  const std::string bytes = before.host.offered.back().bytes;

  NewerStore store;
  store.kept = before.store.kept;
  FakeHost host;
  App app(store, host);
  app.start();
  store.pump(app);
  ASSERT_EQ(app.phase(), App::Phase::ready);
  EXPECT_EQ(app.keeper().trouble(), StoreStatus::newer);
  ASSERT_NE(app.session(), nullptr);
  ASSERT_TRUE(app.notice());
  EXPECT_EQ(app.notice()->key, "trouble.newer");
  ask::export_session(app, app.session()->id, true);
  store.pump(app);
  ASSERT_EQ(host.offered.size(), 1u);
  EXPECT_EQ(host.offered[0].bytes, bytes);
  ask::export_backup(app);
  store.pump(app);
  ASSERT_EQ(host.offered.size(), 2u);
  EXPECT_NE(host.offered[1].bytes.find(bytes), std::string::npos);

  const std::size_t entries = app.session()->set.size();
  ask::add_pile(app, Role::secondary, "More", "");
  store.pump(app);
  EXPECT_EQ(app.session()->set.size(), entries);
  ASSERT_TRUE(app.notice());
  EXPECT_EQ(app.notice()->key, "trouble.newer");
  EXPECT_EQ(store.commits, 0u);
}

TEST(Newer, AMissingIndexIsMadeFromTheEntriesThere) {
  Rig before;
  ask::new_session(*before);
  before.pump();
  before.enter(FieldKind::drained, "2000");
  NewerStore store;
  store.kept = before.store.kept;
  store.kept[Area::index].clear();
  FakeHost host;
  App app(store, host);
  app.start();
  store.pump(app);
  EXPECT_EQ(app.shelf().cards.size(), 1u);
  EXPECT_EQ(app.keeper().trouble(), StoreStatus::newer);
}

}  // namespace
}  // namespace tallyblock::test
