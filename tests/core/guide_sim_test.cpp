// 24 simulated pieces of each scenario, the same each time: the guide against the ways of cutting without
// it. The full table, of more pieces, is in core/cutting/CUTTING.md. Thresholds are a few points under what these
// pieces give, for the noise of other compilers.
#include <gtest/gtest.h>

#include "tests/bench/guide_sim.h"

namespace tallyblock::bench {
namespace {

Outcome some(const Scenario& scenario) {
  Outcome all;
  for (std::size_t number = 0; number < 24; ++number) all += simulate(scenario, 1, number);
  return all;
}

double percent(std::size_t part, const Outcome& of) {
  return 100.0 * static_cast<double>(part) / static_cast<double>(of.possible);
}

const Scenario& named(std::string_view name) {
  for (const Scenario& scenario : kScenarios) {
    if (scenario.name == name) return scenario;
  }
  ADD_FAILURE() << "no scenario " << name;
  return kScenarios.front();
}

TEST(GuideSimulated, IsNotBelowThePlansMarksWhateverTheCookDoes) {
  for (const Scenario& scenario : kScenarios) {
    const Outcome all = some(scenario);
    EXPECT_GE(percent(all.guide, all) + 5.0, percent(all.blocks, all)) << scenario.name;
    EXPECT_GE(percent(all.guide, all) + 5.0, percent(all.scored, all)) << scenario.name;
    EXPECT_GE(percent(all.guide, all), percent(all.equal, all)) << scenario.name;
  }
}

TEST(GuideSimulated, ASlipCostsLittle) {
  const Outcome fair = some(named("bulging loin"));
  for (const char* slip : {"a weight ten times too large", "a digit lost", "a hundred too much"}) {
    const Outcome all = some(named(slip));
    EXPECT_GE(percent(all.guide, all) + 3.0, percent(fair.guide, fair)) << slip;
  }
  const Outcome swapped = some(named("two digits swapped"));
  EXPECT_GE(percent(swapped.guide, swapped) + 5.0, percent(fair.guide, fair));
}

TEST(GuideSimulated, SaysHowFarOffItMayBe) {
  for (const char* name :
       {"bulging loin", "tail, measured at 3 places", "bent axis", "habit drifting 1 % a cut",
        "habit wandering 2 % a cut", "a heavy hand, 8 %"}) {
    const Outcome all = some(named(name));
    const double z = all.surprise / static_cast<double>(all.stated);
    EXPECT_GT(z, 0.65) << name;
    EXPECT_LT(z, 1.45) << name;
  }
}

}  // namespace
}  // namespace tallyblock::bench
