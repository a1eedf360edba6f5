// The optimal plan: where to split and where to cut, on the marks of the ruler, for the most expected money.
//
// The piece between `trim_front` and `length - trim_back` is a row of sections; each section is split
// lengthwise into k equal long pieces (1..k_max) and cut across at the ruler's marks (whole multiples of
// `grid` from the first face; the piece's own end is a place too); one length of block gives k portions.
// Every cut across loses `saw` (0 for a knife), rounded up to whole marks. What is in no portion is remainder.
//
// One objective, in money:
//   + for every portion that counts, what it is expected to be worth, see below; of a spec with `wanted`
//     at most so many count, and each is worth 1 + `kAskedFor` times its value: portions that were
//     asked for come first
//   + remainder, and portions of a block that do not count, at `remainder_value`
//   - `costs`, shares of the least valued portion: of each block's far face where it is not the end of the
//     piece, of each stretch left over before a block (a mark and a cut of its own), of each change of k, of
//     each portion of a block that does not count (what is left over is better in one piece)
// A block planned to give k portions of w each of kind a gives x ~ N(w, s^2) with
//   s = w sqrt((knife / t)^2 + (k > 1 ? (k split)^2 : 0)), t = k target_a / (usable weight / usable length),
// as thick as it is in the mean, so that no end of the piece is better than the other; and one that is meant for kind a turns out to be, r being the remainder's value of a gram:
//   within the tolerance of a          its worth W_a: value, or 1 + kAskedFor values where asked for by number
//   else within that of other kinds    the greatest value V of these
//   else, the better of                lesser pile: r x
//                                      trimmed to a kind b whose upper limit it is above:
//                                      kTrimmedWorth W_b + r (x - target_b), with W_b = V_b for b other than a
// The expectation is exact: between the limits of all kinds the worth is linear in x, and the mean of a
// linear function of a normal variable over an interval has a closed form (distribution and density).
// A block that cannot miss is worth W_a. A block is planned within the tolerance of its kinds. Its
// portions may count for two kinds where both tolerances hold it; one of the two without `wanted` takes all
// portions that the other does not.
// Ends that are trimmed reach to the next mark. Where leaving all of the piece is worth more than any block, the
// plan is the one of most portions. Where none is wanted, it is empty.
// Rounding: each worth, and the remainder between two places, half to even to 1e-6 currency units, so that
// sums and comparisons are exact.
//
// Exact dynamic programming backwards over (place, k, what was left over before, counts still wanted).
// Complexity O(L k S B C): L places, S specs, B block lengths in tolerance, C product of (wanted + 1)
// over bounded specs; memory 8 bytes a state, up to 14 L C states. Above `work_limit` each bounded spec gets
// one stretch of the piece, the stretches in as many of four orders as that limit allows (C becomes the sum of
// `wanted`, plus 1); such a plan carries `gap_portions`, a proven bound on the portions asked for that are lost.
// Refused (plan_too_many): above 300,000 ways to cut a block, thirty million states or 200 million steps,
// which no piece at a board asks for.
// Target (600 mm piece, k 1..4): one spec under 5 ms native; several bounded specs under 50 ms.
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
  Money value;                     // of one portion, above zero, a million at most
};

// Choices of ours, no source.
inline constexpr double kAskedFor = 3.0;      // values more, for a portion asked for by number
inline constexpr double kTrimmedWorth = 0.5;  // of a portion cut right: a second cut and weighing

// What is left over, where it has no price: a gram of it, of a gram of portions.
inline constexpr double kUnpricedRemainder = 0.25;

// Shares of the least valued portion, 0 to 100. Choices of ours, no source.
struct PlanCosts {
  double cut = 0.01, gap = 1.0, change = 1.0, spare = 0.25;
};
// How far blocks depart from the plan; from 0.
struct PlanScatter {
  Length knife = Length::millimetres(1.0);  // sd of where a cut lands
  double split =
      0.0175;  // sd of where a lengthwise split lands, of the width: k times that of a long piece's
};

struct PlanInput {
  Shape shape;
  std::vector<PortionSpec> specs = {};  // 1..4
  Limits limits = {};
  int k_max = 4;
  std::optional<int> k_only = {};  // force one k
  bool k_yields = false;  // k_only was not asked for: the guide leaves it where nothing else fits
  Length trim_front = {}, trim_back = {};  // lost as trim at the ends
  Length saw = {};                         // loss per cut across
  Length grid = Length::millimetres(1.0);  // between two marks of the ruler, 0.5 to 10 mm
  PricePerMass remainder_value = {};
  PlanScatter scatter = {};
  PlanCosts costs = {};
  std::uint64_t work_limit = 40'000'000;  // steps of the search before specs are cut in order
};

struct PlannedBlock {
  int k = 1;
  std::size_t spec = 0;
  unsigned counted = 1;        // how many of its k portions count for the spec
  Length from, to;             // ruler readings from the first face
  Length left_from;            // `from`, or where the stretch begins that is left over before it
  Mass each;                   // weight of each of its k portions
  std::size_t other = 0;       // the second kind it serves
  unsigned other_counted = 0;  // and how many of its portions count for that
};
struct PlannedSection {
  int k = 1;
  Length from, to;
  std::vector<double> split_at;  // fractions of the width at the section's middle
};
struct Plan {
  std::vector<PlannedBlock> blocks;  // in order
  std::vector<PlannedSection> sections;
  std::vector<unsigned> portions;  // per spec, that count
  std::vector<double> expected;    // per spec, how many of them are expected within tolerance
  unsigned demanded = 0;           // all portions that count
  Money worth;                     // the objective
  Money value;  // expected of portions and remainder alone: as if nothing was asked for
                // by number, and without costs
  unsigned changes_of_k = 0;
  unsigned gaps = 0;  // stretches left over before a block
  Mass deviation;     // sum of |weight - target| of the portions that count
  Mass remainder, trim, saw_loss;
  bool exact = true;          // false: see gap_portions
  unsigned gap_portions = 0;  // proven bound on the portions asked for that are lost when not exact
};

// Nothing feasible: Problem naming the limit that stands in the way and the nearest change that works
// (plan_target_too_heavy, plan_thickness_max, plan_least_dimension, plan_tolerance_too_fine, ...).
Result<Plan> plan(const PlanInput& input);
// The same without asking why there is none, which takes a while.
std::optional<Plan> plan_or_nothing(const PlanInput& input);

// The best plan for each number of long pieces by itself, where there is one, and for k changing along the
// piece. `best`: the one of most worth; of equals the fewest long pieces; changing only if it is better.
struct SplitPlans {
  struct One {
    int k = 1;  // 0: changing
    Plan plan;
  };
  std::vector<One>
      all;  // by k, changing last; changing is there only where it is better than all others
  std::size_t best = 0;
};
// Without a plan: the Problem of the input as it is. Ignores k_only. Half of `work_limit` for each.
Result<SplitPlans> plans_by_split(const PlanInput& input);

// What changing the first spec's target a little would gain: the plan for each target within +-10 %
// in `step` (1 g, 0.1 oz; 50 steps either way at most), reduced to those worth saying: for each
// number of portions the heaviest target that each of them can reach; and the target itself. What a
// block weighs above its target counts as left over. A knife that misses nothing.
struct TargetChange {
  Mass target;
  unsigned portions = 0;
  Mass remainder;
};
std::vector<TargetChange> nearby_targets(const PlanInput& input, Mass step);

}  // namespace tallyblock
