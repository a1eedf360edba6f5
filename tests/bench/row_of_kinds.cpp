#include "row_of_kinds.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace tallyblock::bench {
namespace {

constexpr double kStep = 10.0;
constexpr int kAims = 10;  // of each kind, from one limit to the other
// Middles of fifteenths of the standard normal distribution, spread so that the variance is 1.
constexpr std::array<double, 15> kNormal = {-1.9133, -1.3370, -1.0093, -0.7594, -0.5471,
                                            -0.3554, -0.1752, 0.0,     0.1752,  0.3554,
                                            0.5471,  0.7594,  1.0093,  1.3370,  1.9133};

}  // namespace

RowOfKinds::RowOfKinds(const std::vector<PortionSpec>& specs, double scatter, double most)
    : specs_(specs),
      scatter_(scatter),
      first_(specs.at(0).wanted.value()),
      second_(specs.at(1).wanted.value()) {
  for (const PortionSpec& spec : specs) {
    for (int i = 0; i <= kAims; ++i) {
      aims_.push_back(spec.target.in_grams() + spec.tolerance.in_grams() * (2.0 * i / kAims - 1.0));
    }
  }
  const auto count = static_cast<std::size_t>(most / kStep) + 3;
  worth_.assign(static_cast<std::size_t>(first_ + 1) * (second_ + 1), {});
  for (unsigned a = 0; a <= first_; ++a) {
    for (unsigned b = 0; b <= second_; ++b) {
      auto& row = worth_[a * (second_ + 1) + b];
      row.reserve(count);
      for (std::size_t i = 0; i < count; ++i) {
        row.push_back(0.0);
        row.back() = best(static_cast<double>(i) * kStep, a, b).worth;
      }
    }
  }
}

double RowOfKinds::worth(double left, unsigned first, unsigned second) const {
  const auto& row = worth_[first * (second_ + 1) + second];
  if (!(left > 0.0) || row.empty()) return 0.0;
  const double place = std::min(left / kStep, static_cast<double>(row.size() - 1));
  const auto below = static_cast<std::size_t>(place);
  const auto above = std::min(below + 1, row.size() - 1);
  const double share = place - static_cast<double>(below);
  return row[below] * (1.0 - share) + row[above] * share;
}

// The first kind that holds it and is still wanted counts.
double RowOfKinds::of_block(double grams, double left, unsigned first, unsigned second) const {
  const auto within = [&](std::size_t kind) {
    return std::abs(grams - specs_[kind].target.in_grams()) <= specs_[kind].tolerance.in_grams();
  };
  if (first > 0 && within(0)) return 1.0 + worth(left, first - 1, second);
  if (second > 0 && within(1)) return 1.0 + worth(left, first, second - 1);
  return worth(left, first, second);
}

RowOfKinds::Choice RowOfKinds::best(double left, unsigned first, unsigned second) const {
  Choice choice{left, of_block(left, 0.0, first, second)};
  for (const double aim : aims_) {
    if (aim >= left) continue;
    double sum = 0.0;
    for (const double z : kNormal) {
      const double grams = std::min(left, aim * (1.0 + scatter_ * z));
      sum += of_block(grams, left - grams, first, second);
    }
    sum /= static_cast<double>(kNormal.size());
    if (sum > choice.worth + 1e-9) choice = {aim, sum};
  }
  return choice;
}

double RowOfKinds::aim(double left, const std::vector<unsigned>& wanted) const {
  const Choice choice = best(left, std::min(wanted.at(0), first_), std::min(wanted.at(1), second_));
  return choice.worth > 0.0 ? choice.aim : 0.0;
}

}  // namespace tallyblock::bench
