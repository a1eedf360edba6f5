// The piece on the marks of a ruler and every way to cut a block on it: what plan.cpp searches.
// Internal to the planner. Masses g, places mm from the first face, worths whole 1e-6 currency units (in
// doubles: below 2^53 sums are exact).
#pragma once
#include <cstdint>
#include <vector>

#include "core/cutting/plan.h"
#include "plan_worth.h"

namespace tallyblock {

// A block that starts at a place with k long pieces, and what its portions count for.
struct BlockWay {
  int to = 0;  // index of the far face's place
  std::uint8_t spec = 0, used = 0;
  std::uint8_t other = 0, other_used = 0;  // none: 0 used
  double gain = 0.0;
};

class PlanGrid {
 public:
  // Keeps a reference: `input` must outlive the grid.
  // `one`: whether there is any way at all; it stops at the first.
  enum class Ways { all, one };
  explicit PlanGrid(const PlanInput& input, Ways ways = Ways::all);

  int last() const { return static_cast<int>(mass_.size()) - 1; }
  double mass(int i) const { return mass_[static_cast<std::size_t>(i)]; }
  Length at(int i) const { return Length::millimetres(place_[static_cast<std::size_t>(i)]); }
  int saw() const { return saw_; }                    // marks lost per cut
  const std::vector<int>& ks() const { return ks_; }  // numbers of long pieces that may be used
  // Ways to cut with ks()[k] long pieces from place `from`.
  const std::vector<BlockWay>& ways(int from, std::size_t k) const {
    return ways_[static_cast<std::size_t>(from) * ks_.size() + k];
  }
  std::uint64_t way_count() const { return count_; }
  // More ways than kMostWays: the rest is left out, and there must be no plan.
  static constexpr std::uint64_t kMostWays = 1'000'000;
  bool too_many() const { return count_ >= kMostWays; }
  // Of leaving the stretch from place i to the next one.
  double remainder(int i) const;
  double cut_cost() const { return cut_; }
  double gap_cost() const { return gap_; }
  double change_cost() const { return change_; }
  double spare_cost() const { return spare_; }
  // Where the knife stands for the next block after a block that ends at `to`.
  int after(int to) const { return to + saw_ < last() ? to + saw_ : last(); }
  // Of one portion of a block from `from` to `to`.
  double each(int from, int to, int k) const { return (mass(to) - mass(from)) / k; }
  // Of the weight of one portion that is meant for `spec`.
  double spread(std::size_t spec, double each, int k) const;

 private:
  void set_places();
  void find_narrowest();
  void find_ways(int from, std::size_t k);
  void add_ways(std::vector<BlockWay>& found, int to, int k, double each);
  bool keeps_limits(double thickness, double least_here) const;

  const PlanInput* input_;
  PortionWorth worth_;
  int saw_ = 0;
  std::uint64_t count_ = 0;
  double cut_ = 0.0, gap_ = 0.0, change_ = 0.0, spare_ = 0.0;
  std::vector<int> ks_;
  std::vector<double> place_, mass_, depth_;
  std::vector<double> width_, narrowest_share_;  // narrowest_share_: 4 per place, where limited
  std::vector<std::vector<BlockWay>> ways_;
};

}  // namespace tallyblock
