// A new session on a small phone, for the tests of "where to cut"; what its screen says.
#pragma once
#include <gtest/gtest.h>

#include <string>

#include "app_stage.h"
#include "board.h"

namespace tallyblock::test {

class CutStage : public ::testing::Test {
 protected:
  void SetUp() override {
    ASSERT_TRUE(at.stage.has_font) << "the font of the tests is missing: install fonts-inter";
    at.stage.size(360, 640, 2, 1);
    at.stage.in.reduced_motion = true;
    ask::new_session(at.app());
    at.rig.pump();
  }
  std::string words() {
    at.settle();
    std::string all;
    for (const AccessNode& n : at.access()) all += n.label + " " + n.value + "\n";
    return all;
  }
  bool says(const std::string& text) { return words().find(text) != std::string::npos; }
  AppStage at;
};

}  // namespace tallyblock::test
