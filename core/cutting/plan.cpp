#include "plan.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>
#include <utility>

#include "core/base/sorted.h"
#include "core/cutting/inside/plan_grid.h"
#include "core/cutting/inside/plan_search.h"
#include "core/cutting/inside/plan_trouble.h"

namespace tallyblock {
namespace {

constexpr int kOrders = 4;
constexpr std::uint64_t kMostWork = 200'000'000;  // steps

// No plan can hold more portions: of the bounded specs no more than wanted, and no more than the
// weight gives when every portion is as light as its tolerance allows, the lightest first.
std::uint64_t most_portions(const PlanInput& input) {
  std::vector<std::pair<double, std::uint64_t>> lots;  // least weight, how many at most
  lots.reserve(input.specs.size());
  for (const PortionSpec& spec : input.specs) {
    lots.emplace_back((spec.target - spec.tolerance).in_grams(), spec.wanted.value_or(1'000'000));
  }
  heap_sort(lots);
  double left = (input.shape.mass_to(input.shape.length() - input.trim_back) -
                 input.shape.mass_to(input.trim_front))
                    .in_grams();
  std::uint64_t most = 0;
  for (const auto& [least, count] : lots) {
    const double fit = std::floor(left / least + 1e-9);
    const auto taken = fit < static_cast<double>(count) ? static_cast<std::uint64_t>(fit) : count;
    most += taken;
    left -= static_cast<double>(taken) * least;
  }
  return most;
}

// Too many combinations of counts: each bounded spec gets one stretch of the piece, the stretches in
// a few orders. The best of these plans, with a bound from the counts.
std::optional<Plan> ordered_plan(const PlanInput& input, const PlanGrid& grid) {
  const std::uint64_t most = most_portions(input);
  std::vector<std::size_t> order(input.specs.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  heap_sort(order, [&](std::size_t a, std::size_t b) {
    const Mass light = input.specs[a].target, heavy = input.specs[b].target;
    return light < heavy || (light == heavy && a < b);
  });
  Plan best;
  std::uint64_t spent = 0;
  for (int attempt = 0; attempt < kOrders; ++attempt) {
    Search search(input, grid, Demands(input.specs, order));
    if (search.too_many() || search.work() > kMostWork) return std::nullopt;
    spent += search.work();
    if (attempt > 0 && spent > input.work_limit) break;
    search.solve();
    Plan found = search.plan_found();
    if (attempt == 0 || found.worth > best.worth) best = std::move(found);
    // Lightest first, heaviest first, then each of these turned by one.
    if (attempt % 2 == 1) std::rotate(order.begin(), order.begin() + 1, order.end());
    std::reverse(order.begin(), order.end());
  }
  best.exact = false;
  best.gap_portions = static_cast<unsigned>(most - std::min<std::uint64_t>(most, best.demanded));
  return best;
}

// Nothing for a problem too large. More wanted than the piece can hold is as good as what it holds.
std::optional<Plan> best_plan(PlanInput input) {
  for (PortionSpec& spec : input.specs) {
    const double least = std::max(1e-3, (spec.target - spec.tolerance).in_grams());
    const double fit = std::floor(input.shape.mass().in_grams() / least) + 1.0;
    if (spec.wanted && fit < *spec.wanted) spec.wanted = static_cast<unsigned>(fit);
  }
  const PlanGrid grid(input);
  if (grid.too_many()) return std::nullopt;
  Demands demands(input.specs);
  const bool several = demands.size() > 1;
  Search search(input, grid, std::move(demands));
  if (search.work() > input.work_limit && several) return ordered_plan(input, grid);
  if (search.too_many()) return std::nullopt;
  search.solve();
  return search.plan_found();
}

// As the input, but nothing is better than a portion: no other value, no cost, no miss.
PlanInput portions_alone(PlanInput input) {
  input.remainder_value = PricePerMass();
  input.costs = {0.0, 0.0, 0.0};
  input.scatter = {Length(), 0.0};
  for (PortionSpec& spec : input.specs) spec.value = Money::units(1.0);
  return input;
}

bool feasible(const PlanInput& given) {
  const PlanInput input = portions_alone(given);
  return PlanGrid(input, PlanGrid::Ways::one).way_count() > 0;
}

bool none_wanted(const PlanInput& input) {
  return std::ranges::all_of(input.specs, [](const PortionSpec& s) { return s.wanted == 0U; });
}

// The best plan, else that of most portions, judged by the input as it is; without blocks where there is none.
std::optional<Plan> some_plan(const PlanInput& input) {
  std::optional<Plan> found = best_plan(input);
  if (!found || found->demanded > 0) return found;
  std::optional<Plan> most = best_plan(portions_alone(input));
  if (!most || most->demanded == 0) return found;
  judge(*most, input, PlanGrid(input, PlanGrid::Ways::one));
  return most;
}

}  // namespace

Result<Plan> plan(const PlanInput& input) {
  if (auto problem = contradiction(input)) return *problem;
  std::optional<Plan> found = some_plan(input);
  if (!found) return Problem{Code::plan_too_many, "tolerance", {}};
  if (found->demanded == 0 && !none_wanted(input)) return why_nothing(input, feasible);
  return *std::move(found);
}

std::optional<Plan> plan_or_nothing(const PlanInput& input) {
  if (contradiction(input)) return std::nullopt;
  std::optional<Plan> found = some_plan(input);
  if (found && found->demanded == 0) return std::nullopt;
  return found;
}

Result<SplitPlans> plans_by_split(const PlanInput& input) {
  SplitPlans plans;
  PlanInput one = input;
  one.work_limit /= 2;  // so that all of them take little longer than one
  for (int k = 1; k <= input.k_max; ++k) {
    one.k_only = k;
    // Without its trouble: that of the input as it is will be told, if there is none at all.
    if (contradiction(one)) break;
    std::optional<Plan> found = some_plan(one);
    if (!found || found->demanded == 0) continue;
    if (!plans.all.empty() && found->worth > plans.all[plans.best].plan.worth) {
      plans.best = plans.all.size();
    }
    plans.all.push_back({k, *std::move(found)});
  }
  one.k_only.reset();
  if (plans.all.empty() || input.k_max > 1) {
    Result<Plan> changing = plan(one);
    if (!changing && plans.all.empty()) return changing.problem();
    if (changing && changing->changes_of_k > 0 &&
        (plans.all.empty() || changing->worth > plans.all[plans.best].plan.worth)) {
      plans.best = plans.all.size();
      plans.all.push_back({0, *std::move(changing)});
    } else if (plans.all.empty()) {
      const int k = changing->sections.empty() ? 1 : changing->sections.front().k;
      plans.all.push_back({k, *std::move(changing)});
    }
  }
  return plans;
}

// Each portion is to weigh its target at least, and no more above it than the ruler's marks make
// necessary: 1.1 marks where the piece is thickest.
std::vector<TargetChange> nearby_targets(const PlanInput& input, Mass step) {
  if (contradiction(input) || !(step.in_grams() > 0.0)) return {};
  PlanInput tried = input;
  tried.scatter = {Length(), 0.0};
  PortionSpec& spec = tried.specs.front();
  double thickest = 0.0;
  for (const Station& station : input.shape.stations()) {
    thickest = std::max(thickest, input.shape.grams_per_mm(station.at));
  }
  const Mass target = spec.target;
  spec.tolerance = Mass::grams(0.55 * thickest * input.grid.in_millimetres());
  const int reach = static_cast<int>(std::min(50.0, std::floor(target / step * 0.1)));
  std::vector<TargetChange> all;
  for (int i = -reach; i <= reach; ++i) {
    const Mass aim = target + step * static_cast<double>(i);
    spec.target = aim + spec.tolerance;
    const std::optional<Plan> best = best_plan(tried);
    if (!best || best->demanded == 0) continue;
    const Plan& found = *best;
    const unsigned count = found.portions.front();
    const Mass over = std::accumulate(
        found.blocks.begin(), found.blocks.end(), Mass(), [&](Mass sum, const PlannedBlock& block) {
          return block.spec == 0 ? sum + (block.each - aim) * block.counted : sum;
        });
    all.push_back({aim, count, found.remainder + over});
  }
  std::vector<TargetChange> worth;
  for (const TargetChange& one : all) {
    const bool beaten = std::any_of(all.begin(), all.end(), [&](const TargetChange& other) {
      const bool no_worse = other.portions >= one.portions && other.target >= one.target;
      return no_worse && (other.portions > one.portions || other.target > one.target);
    });
    if (!beaten || one.target == target) worth.push_back(one);
  }
  return worth;
}

}  // namespace tallyblock
