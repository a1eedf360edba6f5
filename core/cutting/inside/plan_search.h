// The search behind plan.h: dynamic programming backwards along the piece. Internal to the planner.
//
// A state is: where the knife stands, k of the last block, whether the last stretch was left over (then a
// cut is due before a block), and what is still wanted. States that differ only in what is wanted lie side
// by side, so that one way to cut a block is tried for all of them in one sweep.
#pragma once
#include <cstdint>
#include <vector>

#include "core/cutting/plan.h"
#include "plan_grid.h"

namespace tallyblock {

// How many portions of each bounded spec are still wanted, numbered so that cutting one lowers the
// number; 0: none. Exact: every combination of counts. In order: the specs follow one another along
// the piece, and one that is left is not taken up again, so the counts add instead of multiplying.
class Demands {
 public:
  explicit Demands(const std::vector<PortionSpec>& specs);
  Demands(const std::vector<PortionSpec>& specs, const std::vector<std::size_t>& order);

  std::size_t size() const { return size_; }
  bool in_order() const { return in_order_; }
  // Whether so many portions of a spec are still wanted.
  bool allows(std::size_t demand, std::size_t spec, unsigned used) const {
    return !specs_[spec].bounded || wanted(demand, spec) >= used;
  }
  std::size_t after(std::size_t demand, std::size_t spec, unsigned used) const {
    if (!specs_[spec].bounded) return demand;
    if (in_order_) return specs_[spec].base + wanted(demand, spec) - used;
    return demand - used * specs_[spec].base;
  }
  // Demands [from, to) allow it; what is then left is `shift` less, or, where `same`, always `shift`.
  struct Range {
    std::size_t from, to, shift;
    bool same;
  };
  const std::vector<Range>& ranges(std::size_t spec, unsigned used) const {
    return ranges_[spec * 4 + used - 1];
  }

 private:
  struct Spec {
    bool bounded = false;
    std::size_t most = 0, base = 0;
  };
  std::size_t wanted(std::size_t demand, std::size_t spec) const;
  void set_ranges();

  std::vector<Spec> specs_;
  bool in_order_ = false;
  std::size_t size_ = 1;
  std::vector<std::vector<Range>> ranges_;
};

class Search {
 public:
  // More demands than states are allowed: only too_many() and work() may be asked then.
  // Keeps references: `input` and `grid`, which is its grid, must outlive the search.
  Search(const PlanInput& input, const PlanGrid& grid, Demands demands);

  // Whether it would take more memory than a piece at the board can ask for.
  bool too_many() const;
  // Steps it takes.
  std::uint64_t work() const { return demands_.size() * (grid_.way_count() + place_states_); }
  void solve();
  double worth() const { return best_at(0, 0, 0)[demands_.size() - 1]; }  // 1e-6 currency units
  Plan plan_found() const;

 private:
  std::size_t best_row(int at, std::size_t last_k, int rest) const;
  std::size_t start_row(int from, std::size_t k) const;
  const double* best_at(int at, std::size_t last_k, int rest) const {
    return best_.data() + best_row(at, last_k, rest);
  }
  const double* starts_at(int from, std::size_t k) const {
    return starts_.data() + start_row(from, k);
  }
  void find_starts(int from, std::size_t k);
  void try_way(const BlockWay& way, std::size_t k, double* start) const;
  void solve_place(int at);
  // States of the last k: none yet, and each; one where there is only one.
  std::size_t last_ks() const { return grid_.ks().size() == 1 ? 1 : grid_.ks().size() + 1; }
  std::size_t last_k_after(std::size_t k) const { return last_ks() == 1 ? 0 : k + 1; }
  double entering(std::size_t last_k, std::size_t k, int rest) const;
  const BlockWay* way_taken(std::size_t demand, int from, std::size_t k) const;
  std::size_t after(std::size_t demand, const BlockWay& way) const;

  const PlanInput& input_;
  const PlanGrid& grid_;
  Demands demands_;
  std::size_t place_states_ = 0;
  std::vector<double> best_, starts_;
};

// Sets `expected`, `value`, `deviation` and `worth` of a plan's blocks to what `input` says of them.
// `grid`: that of `input`.
void judge(Plan& plan, const PlanInput& input, const PlanGrid& grid);

}  // namespace tallyblock
