// The worth of the plan equals that of an independent MILP solver (CBC, Debian's coinor-cbc) on 200
// random pieces and specs, solved once; seed and command stand in the file.
#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>

#include "core/cutting/plan.h"

namespace tallyblock {
namespace {

using Json = nlohmann::json;

Length mm(const Json& json, const char* key) { return Length::millimetres(json.value(key, 0.0)); }

PlanInput input_of(const Json& one) {
  std::vector<Station> stations;
  for (const Json& station : one["stations"]) {
    stations.push_back({mm(station, "at"), mm(station, "width"), mm(station, "depth"), 1.0});
  }
  PlanInput input{*Shape::from(stations, Mass::grams(one["mass"].get<double>()))};
  for (const Json& spec : one["specs"]) {
    PortionSpec portion;
    portion.target = Mass::grams(spec["target"].get<double>());
    portion.tolerance = Mass::grams(spec["tolerance"].get<double>());
    portion.value = Money::units(spec["value"].get<double>());
    if (!spec["wanted"].is_null()) portion.wanted = spec["wanted"].get<unsigned>();
    input.specs.push_back(portion);
  }
  const Json& limits = one["limits"];
  if (limits.contains("thickness_min")) input.limits.thickness_min = mm(limits, "thickness_min");
  if (limits.contains("thickness_max")) input.limits.thickness_max = mm(limits, "thickness_max");
  if (limits.contains("least_min")) input.limits.least_min = mm(limits, "least_min");
  input.k_max = one["k_max"].get<int>();
  input.trim_front = mm(one, "trim_front");
  input.trim_back = mm(one, "trim_back");
  input.saw = mm(one, "saw");
  input.grid = mm(one, "grid");
  input.scatter.knife = mm(one, "knife");
  input.scatter.split = one["split"].get<double>();
  const Json& costs = one["costs"];
  input.costs.cut = costs["cut"].get<double>();
  input.costs.gap = costs["gap"].get<double>();
  input.costs.change = costs["change"].get<double>();
  input.costs.spare = costs["spare"].get<double>();
  input.remainder_value =
      PricePerMass::of(Money::units(one["remainder_value"].get<double>()), MassUnit::gram);
  input.work_limit = 4'000'000'000;  // exact, however many are wanted
  return input;
}

TEST(PlanAgainstMilp, WorthEqualsThatOfAnIndependentSolverOnTwoHundredCases) {
  std::ifstream file(std::string(TALLYBLOCK_SOURCE_DIR) + "/tests/reference/plan_milp.json");
  const Json kept = Json::parse(file, nullptr, false);
  ASSERT_TRUE(kept.is_object());
  ASSERT_EQ(kept["cases"].size(), 200U);
  std::size_t number = 0;
  for (const Json& one : kept["cases"]) {
    SCOPED_TRACE(number++);
    const Result<Plan> found = plan(input_of(one));
    ASSERT_TRUE(found.ok());
    EXPECT_TRUE(found->exact);
    // Another error function may round a portion's worth to the next micro-unit.
    const double room = 4.0 * static_cast<double>(found->blocks.size()) + 2.0;
    EXPECT_NEAR(found->worth.in_units() * 1e6, one["answer"]["worth"].get<double>(), room);
  }
}

}  // namespace
}  // namespace tallyblock
