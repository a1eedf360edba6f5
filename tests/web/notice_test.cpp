// What was just done, said in one line.
#include <gtest/gtest.h>

#include "fake_host.h"

namespace tallyblock::test {
namespace {

TEST(Notice, WhatWasOnlySaidGoesWhenOneGoesOnAndWhatCanBeUndoneStays) {
  Rig rig;
  ask::load_sample(*rig);
  rig.pump();
  ASSERT_TRUE(rig->notice());
  EXPECT_FALSE(rig->notice()->can_undo);
  ask::open(*rig, rig->shelf().cards.back().id);
  rig.pump();
  EXPECT_FALSE(rig->notice());
  rig.weigh(rig.figures().piles.front().key, "12");
  ASSERT_TRUE(rig->notice());
  EXPECT_TRUE(rig->notice()->can_undo);
  ask::go(*rig, Screen::result);
  EXPECT_TRUE(rig->notice());
}

}  // namespace
}  // namespace tallyblock::test
