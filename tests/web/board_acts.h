// A piece on the board of a small phone, and what the screens show of it.
#pragma once
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "app_stage.h"

namespace tallyblock::test {

struct BoardActs : ::testing::Test {
  AppStage at;
  Rig& rig = at.rig;
  void SetUp() override {
    at.stage.size(360, 640, 2, 1);
    begin("2000");
  }
  void begin(const std::string& whole) {
    ask::new_session(*rig);
    rig.pump();
    rig.name("piece", "Loin");
    rig.enter(FieldKind::drained, whole);
  }
  bool shows(std::string_view path) {
    at.settle();
    return std::ranges::any_of(at.access(),
                               [&](const AccessNode& n) { return n.id == Kit::id_of(path); });
  }
  std::string said(std::string_view path) {
    at.settle();
    for (const AccessNode& n : at.access()) {
      if (n.id == Kit::id_of(path)) return n.label + " " + n.value;
    }
    return {};
  }
  void press(std::string_view path) {
    at.stage.in.activated.push_back(Kit::id_of(path));
    at.settle();
  }
  void step_of_cooking() {
    rig.weigh("portions", "180");
    rig.weigh("portions", "190");
    ask::break_down(*rig, "portions", "Roasting", Process::cooking);
    rig.pump();
  }
  std::string cooked() { return rig.figures().piles.back().key; }
};

}  // namespace tallyblock::test
