// Steps that take a pile further: what cooking leaves alone, and what the others take.
#include <gtest/gtest.h>

#include "session_builder.h"

namespace tallyblock {
namespace {

using testing::pile_of;
using testing::SessionBuilder;
using testing::step_of;

SessionBuilder started() {
  SessionBuilder s;
  s.whole("5 kg").price("40", "kg");
  s.pile("portions", Role::primary);
  s.pile("trim", Role::usable_trim);
  return s;
}

TEST(EntryRules, Rule09_CookingIsNoLossInCuttingAndChangesNothingOfTheRawYield) {
  SessionBuilder s = started();
  s.read("portions", "4 kg");
  s.read("trim", "1 kg");
  const Figures raw = s.figures();
  s.step("roast", Process::cooking, "portions");
  s.pile("cooked", Role::primary, "roast");
  s.read("cooked", "3 kg");
  s.step("slicing", Process::breakdown, "cooked");
  s.pile("slices", Role::primary, "slicing");
  s.read("slices", "2.9 kg");
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(step_of(f, "roast")->input->value().in_grams(), 4000.0);
  EXPECT_DOUBLE_EQ(step_of(f, "roast")->unweighed->value().in_grams(), 1000.0);
  EXPECT_DOUBLE_EQ(step_of(f, "slicing")->input->value().in_grams(), 3000.0);
  EXPECT_DOUBLE_EQ(pile_of(f, "portions")->kept.value().in_grams(), 4000.0);
  EXPECT_DOUBLE_EQ(f.primary.value().in_grams(), 4000.0);
  EXPECT_DOUBLE_EQ(f.change_of_weight.value().in_grams(), 0.0);
  EXPECT_NEAR(f.loss->value().in_grams(), 0.0, 1e-9);
  EXPECT_DOUBLE_EQ(f.yield->primary_ratio, raw.yield->primary_ratio);
  EXPECT_FALSE(pile_of(f, "cooked")->counted);
}

TEST(EntryRules, Rule09_AStepWithoutAWeightTakesTheWholePile) {
  SessionBuilder s = started();
  s.read("portions", "4 kg");
  s.step("brining", Process::brine, "portions");
  s.pile("brined", Role::primary, "brining");
  s.read("brined", "3 kg");
  const Figures f = s.figures();
  EXPECT_DOUBLE_EQ(pile_of(f, "portions")->kept.value().in_grams(), 0.0);
  EXPECT_DOUBLE_EQ(f.primary.value().in_grams(), 3000.0);
  EXPECT_DOUBLE_EQ(f.change_of_weight.value().in_grams(), 1000.0);
}

}  // namespace
}  // namespace tallyblock
