// The optimal plan: where to split and where to cut, on a 1 mm grid.
//
// The piece between `trim_front` and `length - trim_back` is a row of sections; each section is split
// lengthwise into k equal long pieces (1..k_max) and cut across at whole millimetres; one length of
// block gives k portions. Every cut across a section loses `saw` mm (0 for a knife). What is in no
// portion is remainder. Objective, in this order:
//   1. portions in tolerance that were demanded (a spec with `wanted` counts at most that many)
//   2. value of portions and remainder
//   3. fewest changes of k; with `few_gaps` together with the gaps: stretches of remainder before a
//      block, each of which needs a mark and a cut of its own
//   4. least sum of |weight - target| (without `few_gaps` a gap may be there for that alone)
// Exact dynamic programming over (position, k, counts of the bounded specs) with integer objective
// terms (value in 1e-6 currency units, deviation in micrograms, both rounded half to even when a
// block is priced). Complexity O(L k S B C): L grid points, S specs, B block lengths in tolerance, C
// product of (wanted + 1) over bounded specs; memory 16 bytes a state, 5 L C states (twice with a
// saw or `few_gaps`). Above `work_limit` block comparisons each bounded spec gets one stretch of the piece, the
// stretches in up to four orders (C becomes the sum of `wanted`, plus 1); such a plan carries
// `gap_portions`, a proven bound on the demanded portions lost.
// Refused (plan_too_many): above a million possible blocks or ten million states, which no piece at a
// board asks for.
// Target (600 mm piece, k 1..4): one spec under 5 ms native; several bounded specs under 200 ms.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "split.h"

namespace tallyblock {

struct PortionSpec {
  std::string name;
  Mass target, tolerance;          // weight within target +- tolerance
  std::optional<unsigned> wanted;  // absent: as many as possible
  Money value;                     // of one portion
};

struct PlanInput {
  Shape shape;
  std::vector<PortionSpec> specs = {};  // 1..4
  Limits limits = {};
  int k_max = 4;
  std::optional<int> k_only = {};  // force one k
  bool k_yields = false;  // k_only was not asked for: the guide leaves it where nothing else fits
  bool few_gaps = false;  // objective 3 counts them: for a plan that somebody is to cut
  Length trim_front = {}, trim_back = {};  // lost as trim at the ends
  Length saw = {};                         // loss per cut across
  PricePerMass remainder_value = {};
  std::uint64_t work_limit = 10'000'000;  // block comparisons before specs are cut in order
};

struct PlannedBlock {
  int k = 1;
  std::size_t spec = 0;
  unsigned counted = 1;  // how many of its k portions were wanted
  Length from, to;       // ruler readings from the first face
  Mass each;             // weight of each of its k portions
};
struct PlannedSection {
  int k = 1;
  Length from, to;
  std::vector<double> split_at;  // fractions of the width at the section's middle
};
struct Plan {
  std::vector<PlannedBlock> blocks;  // in order
  std::vector<PlannedSection> sections;
  std::vector<unsigned> portions;  // per spec
  unsigned demanded = 0;           // objective 1
  Money value;                     // objective 2
  unsigned changes_of_k = 0;       // objective 3, and the gaps
  unsigned gaps = 0;
  Mass deviation;  // objective 4
  Mass remainder, trim, saw_loss;
  bool exact = true;          // false: see gap_portions
  unsigned gap_portions = 0;  // proven bound on demanded portions lost when not exact
};

// Nothing feasible: Problem naming the limit that stands in the way and the nearest change that works
// (plan_target_too_heavy, plan_thickness_max, plan_least_dimension, plan_tolerance_too_fine, ...).
Result<Plan> plan(const PlanInput& input);

// What changing the first spec's target a little would gain: the plan for each target within +-10 %
// in `step` (1 g, 1/8 oz; 50 steps either way at most), reduced to those worth saying: for each
// number of portions the heaviest target that each of them can reach; and the target itself. What a
// block weighs above its target counts as left over.
struct TargetChange {
  Mass target;
  unsigned portions = 0;
  Mass remainder;
};
std::vector<TargetChange> nearby_targets(const PlanInput& input, Mass step);

}  // namespace tallyblock
