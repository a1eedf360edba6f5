// The piece on a 1 mm grid and every block that may be cut on it: what plan.cpp searches.
// Internal to the planner. Masses g, positions whole mm from the first face.
#pragma once
#include <cstdint>
#include <vector>

#include "plan.h"

namespace tallyblock {

// The four objective terms, packed so that two comparisons decide: gain holds demanded portions above
// value (1e-6 currency units), cost holds changes of k above deviation (micrograms). plan() refuses
// values and weights that could spill from one term into the next.
struct PlanScore {
  static constexpr std::int64_t kPortion = std::int64_t{1} << 44;
  static constexpr std::int64_t kChange = std::int64_t{1} << 48;
  std::int64_t gain = 0;
  std::int64_t cost = 0;

  std::int64_t demanded() const { return (gain + kPortion / 2) >> 44; }
  std::int64_t value() const { return gain - demanded() * kPortion; }
  std::int64_t changes() const { return cost >> 48; }
  std::int64_t deviation() const { return cost - changes() * kChange; }
  friend PlanScore operator+(PlanScore a, const PlanScore& b) {
    return {a.gain + b.gain, a.cost + b.cost};
  }
  bool better_than(const PlanScore& other) const {
    return gain != other.gain ? gain > other.gain : cost < other.cost;
  }
};

struct BlockOption {
  int to = 0;  // grid index of the far face
  std::size_t spec = 0;
  double each = 0.0;               // grams of one of the k portions
  std::int64_t deviation = 0;      // micrograms, of one portion that counts
  std::int64_t surplus_value = 0;  // 1e-6 currency units, of one portion that does not
};

class PlanGrid {
 public:
  // Keeps a reference: `input` must outlive the grid.
  explicit PlanGrid(const PlanInput& input);

  int last() const { return static_cast<int>(mass_.size()) - 1; }
  double mass(int i) const { return mass_[static_cast<std::size_t>(i)]; }
  Length at(int i) const { return Length::millimetres(begin_ + static_cast<double>(i)); }
  int saw() const { return saw_; }  // mm lost per cut
  // Blocks with k long pieces whose near face is at `from`, by spec then far face.
  const std::vector<BlockOption>& blocks(int from, int k) const {
    return options_[static_cast<std::size_t>(from) * 4 + static_cast<std::size_t>(k - 1)];
  }
  std::uint64_t block_count() const { return count_; }
  // More blocks than kMostBlocks: the rest is left out, and there must be no plan.
  static constexpr std::uint64_t kMostBlocks = 1'000'000;
  bool too_many() const { return count_ >= kMostBlocks; }
  // Objective terms of cutting this block when `wanted` of its portions count.
  PlanScore score(const BlockOption& block, int k, unsigned counted) const {
    const std::int64_t used = counted;
    return {used * (PlanScore::kPortion + portion_value_[block.spec]) +
                (k - used) * block.surplus_value,
            used * block.deviation};
  }
  // Value of leaving [i, j] as remainder.
  std::int64_t remainder_value(int i, int j) const;
  // Where the knife stands for the next block after a block that ends at `to`.
  int after(int to) const {
    return to >= last() ? last() : (to + saw_ < last() ? to + saw_ : last());
  }

 private:
  void find_blocks(int from, int k);
  const PlanInput* input_;
  int saw_ = 0;
  std::uint64_t count_ = 0;
  double begin_ = 0.0;
  std::vector<std::int64_t> portion_value_;
  std::vector<double> mass_, depth_;
  std::vector<double> width_, narrowest_share_;  // narrowest_share_: 4 per grid point
  std::vector<std::vector<BlockOption>> options_;
};

}  // namespace tallyblock
