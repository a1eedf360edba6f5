#include "plan_grid.h"

#include <algorithm>
#include <cmath>

namespace tallyblock {
namespace {

constexpr double kGuardGrams = 1e-9;

std::int64_t to_micro(double value) { return std::llrint(value * 1e6); }

}  // namespace

PlanGrid::PlanGrid(const PlanInput& input) : input_(&input) {
  const double length = input.shape.length().in_millimetres();
  begin_ = std::ceil(input.trim_front.in_millimetres() - 1e-9);
  const double end = std::floor(length - input.trim_back.in_millimetres() + 1e-9);
  saw_ = static_cast<int>(std::ceil(input.saw.in_millimetres() - 1e-9));
  for (const PortionSpec& spec : input.specs) {
    portion_value_.push_back(to_micro(spec.value.in_units()));
  }
  std::vector<double> shares;
  double known_fill = -1.0;
  for (double x = begin_; x <= end; x += 1.0) {
    const Length place = Length::millimetres(x);
    mass_.push_back(input.shape.mass_to(place).in_grams());
    depth_.push_back(input.shape.depth(place).in_millimetres());
    width_.push_back(input.shape.width(place).in_millimetres());
    const double fill = input.shape.fill(place);
    if (std::abs(fill - known_fill) > 1e-9) {
      known_fill = fill;
      shares.clear();
      for (int k = 1; k <= 4; ++k) shares.push_back(narrowest_fraction(fill, k));
    }
    narrowest_share_.insert(narrowest_share_.end(), shares.begin(), shares.end());
  }
  options_.resize(mass_.size() * 4);
  for (int from = 0; from <= last(); ++from) {
    for (int k = 1; k <= input.k_max; ++k) {
      if (!input.k_only || *input.k_only == k) find_blocks(from, k);
    }
  }
}

void PlanGrid::find_blocks(int from, int k) {
  auto& found = options_[static_cast<std::size_t>(from) * 4 + static_cast<std::size_t>(k - 1)];
  const Limits& limits = input_->limits;
  for (std::size_t s = 0; s < input_->specs.size(); ++s) {
    const PortionSpec& spec = input_->specs[s];
    const double low = (spec.target - spec.tolerance).in_grams() * k - kGuardGrams;
    const double high = (spec.target + spec.tolerance).in_grams() * k + kGuardGrams;
    const auto first = std::lower_bound(mass_.begin() + from + 1, mass_.end(), mass(from) + low);
    double least_here = 1e300;
    int seen = from;
    for (int to = static_cast<int>(first - mass_.begin()); to <= last(); ++to) {
      if (mass(to) - mass(from) > high) break;
      for (; seen <= to; ++seen) {
        const auto at = static_cast<std::size_t>(seen);
        const double narrow =
            width_[at] * narrowest_share_[at * 4 + static_cast<std::size_t>(k - 1)];
        least_here = std::min({least_here, narrow, depth_[at]});
      }
      const double thickness = static_cast<double>(to - from);
      const double least = std::min(thickness, least_here);
      const bool fits =
          (!limits.thickness_min || thickness >= limits.thickness_min->in_millimetres() - 1e-9) &&
          (!limits.thickness_max || thickness <= limits.thickness_max->in_millimetres() + 1e-9) &&
          (!limits.least_min || least >= limits.least_min->in_millimetres() - 1e-9);
      if (!fits) continue;
      if (too_many()) return;
      ++count_;
      const double each = (mass(to) - mass(from)) / k;
      found.push_back({to, s, each, to_micro(std::abs(each - spec.target.in_grams())),
                       to_micro((input_->remainder_value * Mass::grams(each)).in_units())});
    }
  }
}

std::int64_t PlanGrid::remainder_value(int i, int j) const {
  const Mass rest = Mass::grams(mass(j) - mass(i));
  return to_micro((input_->remainder_value * rest).in_units());
}

}  // namespace tallyblock
