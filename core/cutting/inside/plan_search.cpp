#include "plan_search.h"

#include <algorithm>
#include <ranges>
#include <utility>

namespace tallyblock {
namespace {

constexpr std::size_t kMostStates = 30'000'000;  // 240 MB
constexpr double kImpossible = -1e300;

}  // namespace

Demands::Demands(const std::vector<PortionSpec>& specs) {
  for (const PortionSpec& spec : specs) {
    specs_.push_back({spec.wanted.has_value(), spec.wanted.value_or(0), size_});
    const std::size_t more = specs_.back().most + 1;
    const bool searched = size_ <= kMostStates / more;
    size_ = searched ? size_ * more : kMostStates + 1;
    if (!searched) return;
  }
  set_ranges();
}

Demands::Demands(const std::vector<PortionSpec>& specs, const std::vector<std::size_t>& order)
    : specs_(specs.size()), in_order_(true) {
  for (const std::size_t s : std::views::reverse(order)) {
    specs_[s] = {specs[s].wanted.has_value(), specs[s].wanted.value_or(0), size_ - 1};
    size_ += specs_[s].most;
  }
  set_ranges();
}

std::size_t Demands::wanted(std::size_t demand, std::size_t spec) const {
  const Spec& one = specs_[spec];
  if (!in_order_) return demand / one.base % (one.most + 1);
  return std::min(demand > one.base ? demand - one.base : 0, one.most);
}

void Demands::set_ranges() {
  ranges_.resize(specs_.size() * 4);
  for (std::size_t s = 0; s < specs_.size(); ++s) {
    const Spec& spec = specs_[s];
    for (unsigned used = 1; used <= 4; ++used) {
      std::vector<Range>& found = ranges_[s * 4 + used - 1];
      if (!spec.bounded) {
        found.push_back({0, size_, 0, false});
      } else if (used > spec.most) {
        continue;
      } else if (in_order_) {
        const std::size_t full = spec.base + spec.most;
        found.push_back({spec.base + used, full + 1, used, false});
        if (full + 1 < size_) found.push_back({full + 1, size_, full - used, true});
      } else {
        const std::size_t period = spec.base * (spec.most + 1);
        for (std::size_t from = 0; from < size_; from += period) {
          found.push_back({from + used * spec.base, from + period, used * spec.base, false});
        }
      }
    }
  }
}

Search::Search(const PlanInput& input, const PlanGrid& grid, Demands demands)
    : input_(input), grid_(grid), demands_(std::move(demands)) {
  const std::size_t a_place = last_ks() * 2 + grid_.ks().size();
  place_states_ = (static_cast<std::size_t>(grid_.last()) + 1) * a_place;
}

bool Search::too_many() const { return demands_.size() > kMostStates / place_states_; }

std::size_t Search::best_row(int at, std::size_t last_k, int rest) const {
  const std::size_t place = static_cast<std::size_t>(at) * last_ks() + last_k;
  return (place * 2 + static_cast<std::size_t>(rest)) * demands_.size();
}

std::size_t Search::start_row(int from, std::size_t k) const {
  return (static_cast<std::size_t>(from) * grid_.ks().size() + k) * demands_.size();
}

void Search::try_way(const BlockWay& way, std::size_t k, double* start) const {
  const double* later = best_at(grid_.after(way.to), last_k_after(k), 0);
  const double gain = way.gain;
  if (way.other_used > 0) {
    for (std::size_t d = 0; d < demands_.size(); ++d) {
      const std::size_t then = after(d, way);
      if (then < demands_.size()) start[d] = std::max(start[d], gain + later[then]);
    }
    return;
  }
  for (const Demands::Range& range : demands_.ranges(way.spec, way.used)) {
    if (range.same) {
      const double worth = gain + later[range.shift];
      for (std::size_t d = range.from; d < range.to; ++d) {
        start[d] = start[d] > worth ? start[d] : worth;
      }
      continue;
    }
    const double* then = later - range.shift;
    for (std::size_t d = range.from; d < range.to; ++d) {
      const double worth = gain + then[d];
      start[d] = start[d] > worth ? start[d] : worth;
    }
  }
}

// What is left of a demand; its size where the way gives more than is wanted.
std::size_t Search::after(std::size_t demand, const BlockWay& way) const {
  if (!demands_.allows(demand, way.spec, way.used)) return demands_.size();
  std::size_t then = demands_.after(demand, way.spec, way.used);
  if (way.other_used > 0) {
    if (!demands_.allows(then, way.other, way.other_used)) return demands_.size();
    then = demands_.after(then, way.other, way.other_used);
  }
  return then;
}

// The best blocks that start at `from` with k long pieces, and everything after them.
void Search::find_starts(int from, std::size_t k) {
  double* start = starts_.data() + start_row(from, k);
  std::fill(start, start + demands_.size(), kImpossible);
  for (const BlockWay& way : grid_.ways(from, k)) try_way(way, k, start);
}

// What a block costs before it is cut.
double Search::entering(std::size_t last_k, std::size_t k, int rest) const {
  const bool change = last_k != 0 && last_ks() > 1 && last_k != k + 1;
  return (change ? grid_.change_cost() : 0.0) + (rest == 1 ? grid_.gap_cost() : 0.0);
}

void Search::solve_place(int at) {
  const std::size_t size = demands_.size();
  for (std::size_t k = 0; k < grid_.ks().size(); ++k) find_starts(at, k);
  const double gain = grid_.remainder(at);
  for (std::size_t last_k = 0; last_k < last_ks(); ++last_k) {
    for (int rest = 0; rest < 2; ++rest) {
      double* best = best_.data() + best_row(at, last_k, rest);
      const double* left = best_at(at + 1, last_k, 1);
      for (std::size_t d = 0; d < size; ++d) best[d] = gain + left[d];
      const int from = rest == 1 ? at + grid_.saw() : at;
      if (from >= grid_.last()) continue;
      for (std::size_t k = 0; k < grid_.ks().size(); ++k) {
        const double* start = starts_at(from, k);
        const double cost = entering(last_k, k, rest);
        for (std::size_t d = 0; d < size; ++d) {
          const double worth = start[d] - cost;
          best[d] = best[d] > worth ? best[d] : worth;
        }
      }
    }
  }
}

void Search::solve() {
  const auto places = static_cast<std::size_t>(grid_.last()) + 1;
  best_.assign(places * last_ks() * 2 * demands_.size(), 0.0);
  starts_.assign(places * grid_.ks().size() * demands_.size(), kImpossible);
  for (int at = grid_.last() - 1; at >= 0; --at) solve_place(at);
}

const BlockWay* Search::way_taken(std::size_t demand, int from, std::size_t k) const {
  const double best = starts_at(from, k)[demand];
  for (const BlockWay& way : grid_.ways(from, k)) {
    const std::size_t then = after(demand, way);
    if (then == demands_.size()) continue;
    if (way.gain + best_at(grid_.after(way.to), last_k_after(k), 0)[then] == best) return &way;
  }
  return nullptr;
}

namespace {

void add_section(std::vector<PlannedSection>& sections, const PlannedBlock& block) {
  if (sections.empty() || sections.back().k != block.k) {
    sections.push_back({block.k, block.from, block.to, {}});
  }
  sections.back().to = block.to;
}

}  // namespace

Plan Search::plan_found() const {
  Plan plan;
  plan.portions.assign(input_.specs.size(), 0);
  std::size_t demand = demands_.size() - 1, last_k = 0;
  int at = 0, rest = 0;
  double cut = 0.0, sawn = 0.0;
  Length left_from;
  while (at < grid_.last()) {
    const double best = best_at(at, last_k, rest)[demand];
    const int from = rest == 1 ? at + grid_.saw() : at;
    const BlockWay* way = nullptr;
    std::size_t k = 0;
    for (; from < grid_.last() && k < grid_.ks().size(); ++k) {
      if (starts_at(from, k)[demand] - entering(last_k, k, rest) != best) continue;
      way = way_taken(demand, from, k);
      break;
    }
    if (way == nullptr) {
      if (rest == 0) left_from = grid_.at(at);
      ++at;
      rest = 1;
      continue;
    }
    const int pieces = grid_.ks()[k], next = grid_.after(way->to);
    const double each = grid_.each(from, way->to, pieces);
    if (rest == 1) ++plan.gaps;
    plan.blocks.push_back({pieces, way->spec, way->used, grid_.at(from), grid_.at(way->to),
                           rest == 1 ? left_from : grid_.at(from), Mass::grams(each), way->other,
                           way->other_used});
    add_section(plan.sections, plan.blocks.back());
    plan.portions[way->spec] += way->used;
    plan.portions[way->other] += way->other_used;
    const unsigned counted = unsigned{way->used} + way->other_used;
    plan.demanded += counted;
    cut += counted * each;
    sawn += grid_.mass(from) - grid_.mass(at) + grid_.mass(next) - grid_.mass(way->to);
    demand = after(demand, *way);
    at = next;
    last_k = last_k_after(k);
    rest = 0;
  }
  for (PlannedSection& section : plan.sections) {
    const Length middle = (section.from + section.to) / 2.0;
    section.split_at = split_fractions(input_.shape.fill(middle), section.k);
  }
  plan.changes_of_k = plan.sections.empty() ? 0U : static_cast<unsigned>(plan.sections.size()) - 1U;
  plan.saw_loss = Mass::grams(sawn);
  const double usable = grid_.mass(grid_.last()) - grid_.mass(0);
  plan.remainder = Mass::grams(usable - cut - sawn);
  plan.trim = std::max(Mass(), input_.shape.mass() - Mass::grams(usable));
  judge(plan, input_, grid_);
  plan.worth = Money::units(worth() / 1e6);  // to the digit that was searched by
  return plan;
}

void judge(Plan& plan, const PlanInput& input, const PlanGrid& grid) {
  const PortionWorth plain(input.specs, input.remainder_value, 0.0),
      asked(input.specs, input.remainder_value, kAskedFor);
  plan.expected.assign(input.specs.size(), 0.0);
  plan.deviation = Mass();
  double value = plain.surplus(plan.remainder.in_grams()), worth = value;
  const auto count = [&](const PlannedBlock& block, std::size_t spec, unsigned used) {
    const double each = block.each.in_grams(), sd = grid.spread(spec, each, block.k);
    plan.expected[spec] += used * plain.within(spec, each, sd);
    plan.deviation += Mass::grams(used * std::abs(each - input.specs[spec].target.in_grams()));
    value += used * plain.of(spec, each, sd);
    worth += used * asked.of(spec, each, sd);
  };
  double costs = grid.gap_cost() * plan.gaps + grid.change_cost() * plan.changes_of_k;
  for (const PlannedBlock& block : plan.blocks) {
    count(block, block.spec, block.counted);
    count(block, block.other, block.other_counted);
    if (block.to < grid.at(grid.last())) costs += grid.cut_cost();
    costs +=
        grid.spare_cost() * (static_cast<double>(block.k) - block.counted - block.other_counted);
  }
  plan.value = Money::units(value);
  plan.worth = Money::units(worth - costs / 1e6);
}

}  // namespace tallyblock
