#include "plan.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>
#include <ranges>
#include <utility>

#include "plan_grid.h"
#include "plan_trouble.h"
#include "sorted.h"

namespace tallyblock {
namespace {

constexpr int kOrders = 4;
constexpr std::size_t kMostStates = 10'000'000;  // 160 MB

// How many portions of each bounded spec are still wanted, numbered so that cutting one lowers the
// number; 0: none. Exact: every combination of counts. In order: the specs follow one another along
// the piece, and one that is left is not taken up again, so the counts add instead of multiplying.
class Demands {
 public:
  explicit Demands(const PlanInput& input) : specs_(&input.specs) {
    for (const PortionSpec& spec : input.specs) {
      base_.push_back(size_);
      size_ *= spec.wanted ? static_cast<std::size_t>(*spec.wanted) + 1 : 1;
    }
  }
  Demands(const PlanInput& input, const std::vector<std::size_t>& order)
      : specs_(&input.specs), in_order_(true), base_(input.specs.size(), 0) {
    for (const std::size_t spec : std::views::reverse(order)) {
      base_[spec] = size_ - 1;
      size_ += input.specs[spec].wanted.value_or(0);
    }
  }

  std::size_t size() const { return size_; }
  // Of `k` portions of a spec cut now, how many count.
  unsigned counted(std::size_t demand, std::size_t spec, int k) const {
    const auto all = static_cast<unsigned>(k);
    return (*specs_)[spec].wanted ? std::min(all, wanted(demand, spec)) : all;
  }
  std::size_t after(std::size_t demand, std::size_t spec, unsigned used) const {
    if (!(*specs_)[spec].wanted) return demand;
    if (in_order_) return base_[spec] + wanted(demand, spec) - used;
    return demand - used * base_[spec];
  }

 private:
  unsigned wanted(std::size_t demand, std::size_t spec) const {
    const std::size_t most = (*specs_)[spec].wanted.value_or(0);
    if (!in_order_) return static_cast<unsigned>(demand / base_[spec] % (most + 1));
    const std::size_t left = demand > base_[spec] ? demand - base_[spec] : 0;
    return static_cast<unsigned>(std::min(left, most));
  }
  const std::vector<PortionSpec>* specs_;
  bool in_order_ = false;
  std::size_t size_ = 1;
  std::vector<std::size_t> base_;
};

// Exact search, backwards along the piece. A state is: where the knife stands, k of the last block
// (0: none yet), whether the last stretch was left as remainder (then a cut is due before a block,
// which matters with a saw, or where gaps count), and what is still wanted.
class Search {
 public:
  // Keeps a reference: `input` must outlive the search.
  Search(const PlanInput& input, Demands demands)
      : input_(input), grid_(input), demands_(std::move(demands)) {
    rest_states_ = grid_.saw() > 0 || input.few_gaps ? 2 : 1;
    per_place_ = std::size_t{5} * static_cast<std::size_t>(rest_states_);
    per_demand_ = static_cast<std::size_t>(grid_.last() + 1) * per_place_;
  }

  // Whether it would take more memory or blocks than a piece at the board can ask for.
  bool too_many() const { return grid_.too_many() || demands_.size() > kMostStates / per_demand_; }
  // Blocks looked at in all, and states held (16 bytes each).
  std::uint64_t work() const {
    const std::uint64_t looks = demands_.size() > 1 ? 2 * grid_.block_count() : grid_.block_count();
    return demands_.size() * (looks + per_demand_);
  }

  void solve() {
    best_.assign(demands_.size() * per_demand_, PlanScore{});
    for (std::size_t demand = 0; demand < demands_.size(); ++demand) {
      starts_.assign(static_cast<std::size_t>(grid_.last() + 1) * 4, {});
      for (int at = grid_.last() - 1; at >= 0; --at) solve_place(demand, at);
    }
  }
  const PlanScore& score() const { return best(demands_.size() - 1, 0, 0, 0); }
  Plan plan_found() const;

 private:
  struct Start {
    bool possible = false;
    PlanScore score;
    const BlockOption* block = nullptr;
    unsigned used = 0;  // portions of the block that count
  };

  std::size_t index(std::size_t demand, int at, int k, int rest) const {
    return demand * per_demand_ + static_cast<std::size_t>(at) * per_place_ +
           static_cast<std::size_t>(k * rest_states_ + (rest_states_ == 2 ? rest : 0));
  }
  const PlanScore& best(std::size_t demand, int at, int k, int rest) const {
    return best_[index(demand, at, k, rest)];
  }

  // The best block that starts at `from` with k long pieces, and everything after it.
  Start best_start(std::size_t demand, int from, int k) const {
    Start start;
    std::size_t spec = input_.specs.size();
    unsigned most = 0;
    unsigned fewest = 0;
    for (const BlockOption& block : grid_.blocks(from, k)) {
      if (block.spec != spec) {
        spec = block.spec;
        most = demands_.counted(demand, spec, k);
        fewest = input_.specs[spec].wanted ? 1U : most;
      }
      for (unsigned used = most; used >= fewest && used > 0; --used) {
        const std::size_t later = demands_.after(demand, block.spec, used);
        const PlanScore score =
            grid_.score(block, k, used) + best(later, grid_.after(block.to), k, 0);
        if (!start.possible || score.better_than(start.score)) start = {true, score, &block, used};
      }
    }
    return start;
  }

  int start_from(int at, int rest) const { return rest == 1 ? at + grid_.saw() : at; }

  void solve_place(std::size_t demand, int at) {
    for (int k = 1; k <= 4; ++k) {
      starts_[static_cast<std::size_t>(at * 4 + k - 1)] = best_start(demand, at, k);
    }
    for (int last_k = 0; last_k <= 4; ++last_k) {
      for (int rest = 0; rest < rest_states_; ++rest) {
        best_[index(demand, at, last_k, rest)] = choose(demand, at, last_k, rest).score;
      }
    }
  }

  struct Choice {
    PlanScore score;
    int k = 0;  // 0: leave one step as remainder
    const BlockOption* block = nullptr;
    unsigned used = 0;
  };
  Choice choose(std::size_t demand, int at, int last_k, int rest) const {
    Choice choice;
    choice.score.gain = grid_.remainder_value(at, at + 1);
    choice.score = choice.score + best(demand, at + 1, last_k, 1);
    const int from = start_from(at, rest);
    if (from >= grid_.last()) return choice;
    for (int k = 1; k <= 4; ++k) {
      const Start& start = starts_[static_cast<std::size_t>(from * 4 + k - 1)];
      if (!start.possible) continue;
      PlanScore score = start.score;
      if (last_k != 0 && last_k != k) score.cost += PlanScore::kChange;
      if (input_.few_gaps && rest == 1) score.cost += PlanScore::kChange;
      if (!choice.score.better_than(score)) choice = {score, k, start.block, start.used};
    }
    return choice;
  }

  const PlanInput& input_;
  PlanGrid grid_;
  Demands demands_;
  int rest_states_ = 1;
  std::size_t per_place_ = 0;
  std::size_t per_demand_ = 0;
  std::vector<PlanScore> best_;
  mutable std::vector<Start> starts_;
};

void add_section(std::vector<PlannedSection>& sections, const PlannedBlock& block) {
  if (sections.empty() || sections.back().k != block.k) {
    sections.push_back({block.k, block.from, block.to, {}});
  }
  sections.back().to = block.to;
}

Plan Search::plan_found() const {
  Plan plan;
  plan.portions.assign(input_.specs.size(), 0);
  std::size_t demand = demands_.size() - 1;
  int at = 0;
  int last_k = 0;
  int rest = 0;
  double cut = 0.0;
  double sawn = 0.0;
  const PlanScore total = best(demand, 0, 0, 0);
  while (at < grid_.last()) {
    const int from = start_from(at, rest);
    for (int k = 1; k <= 4 && from < grid_.last(); ++k) {
      starts_[static_cast<std::size_t>(from * 4 + k - 1)] = best_start(demand, from, k);
    }
    const Choice choice = choose(demand, at, last_k, rest);
    if (choice.k == 0) {
      ++at;
      rest = 1;
      continue;
    }
    const BlockOption& found = *choice.block;
    const unsigned used = choice.used;
    if (rest == 1) ++plan.gaps;
    plan.blocks.push_back(
        {choice.k, found.spec, used, grid_.at(from), grid_.at(found.to), Mass::grams(found.each)});
    plan.portions[found.spec] += used;
    add_section(plan.sections, plan.blocks.back());
    cut += found.each * used;
    const int next = grid_.after(found.to);
    sawn += grid_.mass(from) - grid_.mass(at) + grid_.mass(next) - grid_.mass(found.to);
    demand = demands_.after(demand, found.spec, used);
    at = next;
    last_k = choice.k;
    rest = 0;
  }
  for (PlannedSection& section : plan.sections) {
    const Length middle = (section.from + section.to) / 2.0;
    section.split_at = split_fractions(input_.shape.fill(middle), section.k);
  }
  plan.demanded = static_cast<unsigned>(total.demanded());
  plan.value = Money::units(static_cast<double>(total.value()) / 1e6);
  plan.changes_of_k = plan.sections.empty() ? 0U : static_cast<unsigned>(plan.sections.size()) - 1U;
  plan.deviation = Mass::grams(static_cast<double>(total.deviation()) / 1e6);
  plan.saw_loss = Mass::grams(sawn);
  const double usable = grid_.mass(grid_.last()) - grid_.mass(0);
  plan.remainder = Mass::grams(usable - cut - sawn);
  plan.trim = std::max(Mass(), input_.shape.mass() - Mass::grams(usable));
  return plan;
}

Search solved(const PlanInput& input) {
  Search search(input, Demands(input));
  search.solve();
  return search;
}

bool feasible(const PlanInput& given) {
  PlanInput input = given;
  for (PortionSpec& spec : input.specs) spec.wanted.reset();
  return solved(input).score().demanded() > 0;
}

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
std::optional<Plan> ordered_plan(const PlanInput& input) {
  const std::uint64_t most = most_portions(input);
  std::vector<std::size_t> order(input.specs.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  heap_sort(order, [&](std::size_t a, std::size_t b) {
    const Mass light = input.specs[a].target, heavy = input.specs[b].target;
    return light < heavy || (light == heavy && a < b);
  });
  Plan best;
  PlanScore best_score;
  for (int attempt = 0; attempt < kOrders; ++attempt) {
    Search search(input, Demands(input, order));
    if (search.too_many()) return std::nullopt;
    search.solve();
    if (attempt == 0 || search.score().better_than(best_score)) {
      best_score = search.score();
      best = search.plan_found();
    }
    if (best.demanded >= most) break;
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
  Search search(input, Demands(input));
  if (search.work() > input.work_limit && Demands(input).size() > 1) return ordered_plan(input);
  if (search.too_many()) return std::nullopt;
  search.solve();
  return search.plan_found();
}

}  // namespace

Result<Plan> plan(const PlanInput& input) {
  if (auto problem = contradiction(input)) return *problem;
  std::optional<Plan> found = best_plan(input);
  if (!found) return Problem{Code::plan_too_many, "tolerance", {}};
  if (found->demanded == 0) return why_nothing(input, feasible);
  return *std::move(found);
}

// Each portion is to weigh its target at least, and no more above it than whole millimetres make
// necessary: 1.1 mm where the piece is thickest.
std::vector<TargetChange> nearby_targets(const PlanInput& input, Mass step) {
  if (contradiction(input) || !(step.in_grams() > 0.0)) return {};
  PlanInput tried = input;
  PortionSpec& spec = tried.specs.front();
  double thickest = 0.0;
  for (const Station& station : input.shape.stations()) {
    thickest = std::max(thickest, input.shape.grams_per_mm(station.at));
  }
  const Mass target = spec.target;
  spec.tolerance = Mass::grams(0.55 * thickest);
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
