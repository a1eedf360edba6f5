// 200 of the simulated pieces, the same each time: the guide against the first plan and an oracle.
// The full table is in core/CUTTING.md. Thresholds are the goals set for the guide; in the full table
// it is well above them.
#include <gtest/gtest.h>

#include <array>

#include "tests/bench/guide_sim.h"

namespace tallyblock::bench {
namespace {

using Cooks = std::array<Outcome, kCooks.size()>;

Cooks hundred_pieces(const Severity& severity) {
  Cooks cooks;
  for (std::size_t number = 0; number < 100; ++number) {
    cooks[number % cooks.size()] += simulate(severity, 1, number);
  }
  return cooks;
}

void expect_closes(const Severity& severity, double least) {
  Outcome all;
  for (const Outcome& cook : hundred_pieces(severity)) {
    all += cook;
    for (std::size_t p = 0; p < kPriors.size(); ++p) {
      EXPECT_GE(cook.guide[p], cook.first) << "priors times " << kPriors[p];
    }
  }
  EXPECT_GT(all.oracle, all.first);
  EXPECT_GT(all.first, all.equal);
  for (std::size_t p = 0; p < kPriors.size(); ++p) {
    EXPECT_GE(all.closes(p), least) << "priors times " << kPriors[p];
    EXPECT_LE(all.guide[p], all.possible);
  }
}

TEST(GuideSimulated, ClosesHalfOfTheGapToTheOracleAtMiddleSeverityAndIsNeverWorseThanTheFirstPlan) {
  expect_closes(kSeverities[1], 0.5);
}

TEST(GuideSimulated, ClosesFourTenthsOfTheGapAtTheHardestAndIsNeverWorseThanTheFirstPlan) {
  expect_closes(kSeverities[2], 0.4);
}

}  // namespace
}  // namespace tallyblock::bench
