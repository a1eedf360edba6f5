#include "plan_grid.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/rounding.h"

namespace tallyblock {
namespace {

constexpr double kGuardMarks = 1e-9, kGuardMillimetres = 1e-9;
constexpr double kSamePlace = 1e-6;  // mm

double to_micro(double value) { return static_cast<double>(std::llrint(value * 1e6)); }

}  // namespace

PlanGrid::PlanGrid(const PlanInput& input, Ways ways)
    : input_(&input), worth_(input.specs, input.remainder_value, kAskedFor) {
  double least = 1e300;
  for (const PortionSpec& spec : input.specs) least = std::min(least, spec.value.in_units());
  cut_ = to_micro(input.costs.cut * least);
  gap_ = to_micro(input.costs.gap * least);
  change_ = to_micro(input.costs.change * least);
  spare_ = to_micro(input.costs.spare * least);
  for (int k = 1; k <= input.k_max; ++k) {
    if (!input.k_only || *input.k_only == k) ks_.push_back(k);
  }
  set_places();
  for (const double x : place_) {
    const Length place = Length::millimetres(x);
    mass_.push_back(input.shape.mass_to(place).in_grams());
    depth_.push_back(input.shape.depth(place).in_millimetres());
    width_.push_back(input.shape.width(place).in_millimetres());
  }
  if (input.limits.least_min) find_narrowest();
  ways_.resize(mass_.size() * ks_.size());
  for (int from = 0; from <= last(); ++from) {
    for (std::size_t k = 0; k < ks_.size(); ++k) {
      find_ways(from, k);
      if (ways == Ways::one && count_ > 0) return;
    }
  }
}

// The marks of the ruler, and the end of the piece where nothing is cut off there.
void PlanGrid::set_places() {
  const double step = input_->grid.in_millimetres();
  const double length = input_->shape.length().in_millimetres();
  const double back = input_->trim_back.in_millimetres();
  const double first = std::ceil(input_->trim_front.in_millimetres() / step - kGuardMarks);
  const double final = std::floor((length - back) / step + kGuardMarks);
  saw_ = static_cast<int>(std::ceil(input_->saw.in_millimetres() / step - kGuardMarks));
  for (double mark = first; mark <= final; mark += 1.0) place_.push_back(mark * step);
  if (back == 0.0 && (place_.empty() || length - place_.back() > kSamePlace)) {
    place_.push_back(length);
  }
}

// Only for the limit that asks for it: solving for the split takes a while. Between 32nds of the fill the share
// runs straight, to less than a thousandth of the width.
void PlanGrid::find_narrowest() {
  constexpr double steps = 32.0;
  std::array<std::array<double, 4>, 33> known{};
  const auto shares = [&](double node) -> const std::array<double, 4>& {
    std::array<double, 4>& found = known[static_cast<std::size_t>(node)];
    for (int k = 1; k <= 4 && found[3] == 0.0; ++k) {
      found[static_cast<std::size_t>(k - 1)] = narrowest_fraction(node / steps, k);
    }
    return found;
  };
  for (const double x : place_) {
    const double fill = input_->shape.fill(Length::millimetres(x)) * steps;
    const double below = std::clamp(std::floor(fill), 0.0, steps);
    const double above = std::min(below + 1.0, steps), share = fill - below;
    for (std::size_t k = 0; k < 4; ++k) {
      const double low = shares(below)[k];
      narrowest_share_.push_back(share > 0.0 ? low + (shares(above)[k] - low) * share : low);
    }
  }
}

double PlanGrid::remainder(int i) const { return to_micro(worth_.surplus(mass(i + 1) - mass(i))); }

double PlanGrid::spread(std::size_t spec, double each, int k) const {
  const double grams_per_mm = (mass_.back() - mass_.front()) / (place_.back() - place_.front());
  const double thickness = k * input_->specs[spec].target.in_grams() / grams_per_mm;
  const double knife = input_->scatter.knife.in_millimetres() / thickness;
  return each * std::hypot(knife, k > 1 ? k * input_->scatter.split : 0.0);
}

bool PlanGrid::keeps_limits(double thickness, double least_here) const {
  const Limits& limits = input_->limits;
  const double least = std::min(thickness, least_here);
  return (!limits.thickness_min ||
          thickness >= limits.thickness_min->in_millimetres() - kGuardMillimetres) &&
         (!limits.thickness_max ||
          thickness <= limits.thickness_max->in_millimetres() + kGuardMillimetres) &&
         (!limits.least_min || least >= limits.least_min->in_millimetres() - kGuardMillimetres);
}

void PlanGrid::find_ways(int from, std::size_t k_index) {
  std::vector<BlockWay>& found = ways_[static_cast<std::size_t>(from) * ks_.size() + k_index];
  const int k = ks_[k_index];
  double low = 1e300, high = 0.0;
  for (const PortionSpec& spec : input_->specs) {
    low = std::min(low, (spec.target - spec.tolerance).in_grams() * k - kGuardGrams);
    high = std::max(high, (spec.target + spec.tolerance).in_grams() * k + kGuardGrams);
  }
  const auto first = std::lower_bound(mass_.begin() + from + 1, mass_.end(), mass(from) + low);
  double least_here = 1e300;
  int seen = from;
  for (int to = static_cast<int>(first - mass_.begin()); to <= last(); ++to) {
    if (mass(to) - mass(from) > high || too_many()) return;
    for (; input_->limits.least_min && seen <= to; ++seen) {
      const auto here = static_cast<std::size_t>(seen);
      const double share = narrowest_share_[here * 4 + static_cast<std::size_t>(k - 1)];
      least_here = std::min({least_here, width_[here] * share, depth_[here]});
    }
    if (!keeps_limits((at(to) - at(from)).in_millimetres(), least_here)) continue;
    add_ways(found, to, k, each(from, to, k));
  }
}

// A kind without a number takes all portions that no other one does.
void PlanGrid::add_ways(std::vector<BlockWay>& found, int to, int k, double each) {
  struct Fitting {
    std::uint8_t spec = 0;
    bool bounded = false;
    double worth = 0.0;
  };
  std::array<Fitting, 4> fitting;
  std::size_t count = 0;
  const std::vector<PortionSpec>& specs = input_->specs;
  for (std::size_t s = 0; s < specs.size(); ++s) {
    const double off = std::abs(each - specs[s].target.in_grams());
    if (off > specs[s].tolerance.in_grams() + kGuardGrams) continue;
    fitting[count++] = {static_cast<std::uint8_t>(s), specs[s].wanted.has_value(),
                        to_micro(worth_.of(s, each, spread(s, each, k)))};
  }
  const double surplus = to_micro(worth_.surplus(each)) - spare_;
  const double cut = to < last() ? cut_ : 0.0;
  for (std::size_t a = 0; a < count; ++a) {
    for (std::size_t b = a; b < count; ++b) {  // b is a: for one kind alone
      const Fitting &one = fitting[a], &other = fitting[b];
      const bool all_taken = !one.bounded || !other.bounded;
      // Of two without a number, the one that is worth more takes all.
      if (b != a && !one.bounded && !other.bounded) continue;
      for (int used = 1; used <= k; ++used) {
        const int least = b == a ? 0 : 1, most = b == a ? 0 : k - used;
        for (int others = all_taken ? k - used : least; others <= most; ++others) {
          if (others < least) continue;
          const double gain =
              used * one.worth + others * other.worth + (k - used - others) * surplus - cut;
          found.push_back({to, one.spec, static_cast<std::uint8_t>(used), other.spec,
                           static_cast<std::uint8_t>(others), gain});
          ++count_;
        }
      }
    }
  }
}

}  // namespace tallyblock
