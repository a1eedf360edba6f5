// A Host whose clock stands still until it is moved and whose randomness is a counter, and the rig of
// an App on it with a FaultyStore.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "faulty_store.h"

namespace tallyblock::test {

class FakeHost : public Host {
 public:
  std::int64_t utc = 1'790'000'000'000, monotonic = 5'000;
  std::uint64_t drawn = 0;
  struct File {
    std::string name, mime, bytes;
  };
  std::vector<File> offered;
  int picks = 0, persists = 0, adoptions = 0, takeovers = 0, told = 0;
  std::vector<std::int64_t> wakes;  // monotonic times at which on_timer is due

  std::int64_t utc_ms() override { return utc; }
  int offset_minutes() override { return 60; }
  Locale speaks;  // of the browser
  Locale locale() override { return speaks; }
  std::int64_t monotonic_ms() override { return monotonic; }
  std::string random_id(int length) override {
    static constexpr char alphabet[] = "0123456789abcdefghjkmnpqrstvwxyz";
    std::string id(static_cast<std::size_t>(length), '0');
    std::uint64_t rest = ++drawn;
    for (std::size_t at = id.size(); rest != 0; rest /= 32) id[--at] = alphabet[rest % 32];
    return id;
  }
  void offer_file(const std::string& name, const std::string& mime,
                  const std::string& bytes) override {
    offered.push_back({name, mime, bytes});
  }
  struct Drawn {
    std::string name;
    PictureOrder order;
  };
  std::vector<Drawn> pictures;
  void offer_picture(const std::string& name, const PictureOrder& order) override {
    pictures.push_back({name, order});
  }
  void pick_file() override { ++picks; }
  void ask_persist() override { ++persists; }
  void adopt_update() override { ++adoptions; }
  void take_over() override { ++takeovers; }
  void announce(const std::string&) override {}
  void keep_awake(bool) override {}
  void tell_others() override { ++told; }
  void wake_after(std::int64_t ms) override { wakes.push_back(monotonic + ms); }
};

// One device: its memory, its clock, and the app running on it.
struct Rig {
  FaultyStore store;
  FakeHost host;
  // In place: an App& held by a test is the app of today after every restart.
  std::optional<App> app;

  Rig() { restart(); }
  explicit Rig(const Contents& contents) {
    store.kept = contents;
    restart();
  }
  // Continues where another rig stands: same memory, same next random ids.
  Rig(const Contents& contents, std::uint64_t drawn) {
    store.kept = contents;
    host.drawn = drawn;
    restart();
  }

  App& operator*() { return *app; }
  App* operator->() { return &*app; }

  // Kills the page and opens it again.
  void restart() {
    kill();
    app.emplace(store, host);
    app->start();
    pump();
  }
  void kill() {
    app.reset();
    store.drop_waiting();
    host.wakes.clear();
  }
  void pump() {
    while (store.pump_one(*app)) {
    }
  }
  // Lets time pass; the app is woken when it asked for it.
  void wait(std::int64_t ms) {
    host.utc += ms;
    host.monotonic += ms;
    std::vector<std::int64_t> later, due;
    for (const std::int64_t at : host.wakes) (at <= host.monotonic ? due : later).push_back(at);
    host.wakes = later;
    for (std::size_t n = 0; n < due.size(); ++n) {
      app->on_timer();
      pump();
    }
  }
  void type(const std::string& keys) {
    for (const char key : keys) {
      ask::key(*app, key == ' ' ? "space" : key == '-' ? "minus" : std::string(1, key));
    }
    pump();
  }
  void enter(FieldKind kind, const std::string& keys, const std::string& subject = "") {
    ask::edit(*app, {kind, subject});
    type(keys);
    ask::enter(*app);
    pump();
  }
  void weigh(const std::string& pile, const std::string& keys) {
    ask::edit(*app, {FieldKind::reading, ""});
    type(keys);
    ask::choose_pile(*app, pile);
    pump();
  }
  void name(const std::string& id, const std::string& text) {
    ask::text_changed(*app, id, text);
    ask::text_done(*app, id);
    pump();
  }
  const Figures& figures() { return app->session()->figures; }
  const PileFigures& pile(const std::string& key) {
    static const PileFigures none;
    for (const PileFigures& pile : figures().piles) {
      if (pile.key == key) return pile;
    }
    return none;
  }
  bool has_doubt(Code code) {
    for (const Doubt& doubt : figures().doubts) {
      if (doubt.code == code) return true;
    }
    return false;
  }
  double grams(const std::string& key) { return pile(key).weighed.value().in_grams(); }
  std::string notice() { return app->notice() ? app->notice()->key : ""; }
};

}  // namespace tallyblock::test
