#include "aim.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/normal.h"
#include "core/cutting/inside/plan_worth.h"

namespace tallyblock {
namespace {

constexpr double kGrid = 2000.0;  // steps of the row, at most
constexpr int kAimsOfOne = 400;   // aims tried for one block, from its target to the upper limit
constexpr int kAims = 12;         // aims tried from the lower limit to the upper
constexpr double kLeastScatter = 0.004, kMostScatter = 0.3;  // log
constexpr double kEdge = 0.02;  // of a portion: so much less is an aim at a limit liked

// Twelve points of equal weight of the standard normal distribution: the middles of twelfths, spread
// so that the variance is 1.
constexpr std::size_t kPoints = 12;
constexpr std::array<double, kPoints> kNormal = {-1.7786, -1.1815, -0.8292, -0.5501,
                                                 -0.3057, -0.0980, 0.0980,  0.3057,
                                                 0.5501,  0.8292,  1.1815,  1.7786};

}  // namespace

Aim where_to_aim(const PortionSpec& spec, PricePerMass remainder_value, Mass scatter) {
  const double sd = scatter.in_grams();
  const double target = spec.target.in_grams(), tolerance = spec.tolerance.in_grams();
  if (!(sd > 0.0)) return {spec.target, spec.value, 0.0, 1.0};
  const PortionWorth worth({spec}, remainder_value, 0.0);
  const double best = weight_of_most(target, target + tolerance, kAimsOfOne, [&](double aim) {
    return worth.of(0, aim, sd) - spec.value.in_units() * aim / target;
  });
  return {Mass::grams(best), Money::units(worth.of(0, best, sd)),
          normal_below((target - tolerance - best) / sd), worth.within(0, best, sd)};
}

RowOfBlocks::RowOfBlocks(Mass target, Mass tolerance, double log_scatter, double rest_worth,
                         Mass most)
    : target_(target.in_grams()),
      tolerance_(std::max(1e-3, tolerance.in_grams())),
      scatter_(std::clamp(log_scatter, kLeastScatter, kMostScatter)),
      rest_worth_(std::clamp(rest_worth, 0.0, 0.9)),
      step_(std::max(target_ / 200.0, most.in_grams() / kGrid)) {
  for (int i = 0; i <= kAims; ++i) {
    const double aim = target_ - tolerance_ + 2.0 * tolerance_ * i / kAims;
    aims_.push_back({aim, worth_of_cut(aim)});
  }
  const auto count = static_cast<std::size_t>(std::ceil(most.in_grams() / step_)) + 2;
  worth_.reserve(count);
  for (std::size_t i = 0; i < count; ++i) {
    const double left = static_cast<double>(i) * step_;
    worth_.push_back(as_it_is(left));  // so that what is left of almost all is known
    worth_.back() = best(left).worth;
  }
}

// Of one block that weighs so much.
double RowOfBlocks::as_it_is(double grams) const {
  if (grams < target_ - tolerance_) return rest_worth_ * std::max(0.0, grams) / target_;
  if (grams <= target_ + tolerance_) return 1.0;
  return kTrimmedWorth + rest_worth_ * (grams - target_) / target_;
}

// Expected, of a block that is aimed at so much.
double RowOfBlocks::worth_of_cut(double aim) const {
  const double s = scatter_ * aim;
  const double short_of = normal_below((target_ - tolerance_ - aim) / s);
  const double over = normal_below((aim - target_ - tolerance_) / s);
  const double off = (aim - target_) / tolerance_;
  return 1.0 - short_of - over + kTrimmedWorth * over +
         rest_worth_ * (short_of * (target_ - tolerance_) + over * tolerance_) / target_ -
         kEdge * off * off;
}

double RowOfBlocks::at(double grams) const {
  if (!(grams > 0.0)) return 0.0;
  const double place = std::min(grams / step_, static_cast<double>(worth_.size() - 1));
  const auto below = std::min(static_cast<std::size_t>(place), worth_.size() - 1);
  const auto above = std::min(below + 1, worth_.size() - 1);
  const double share = place - static_cast<double>(below);
  return worth_[below] * (1.0 - share) + worth_[above] * share;
}

RowOfBlocks::Choice RowOfBlocks::best(double left) const {
  Choice choice{left, as_it_is(left)};
  for (const Choice& cut : aims_) {
    if (cut.aim >= left) break;
    double after = 0.0;
    for (const double z : kNormal) after += at(left - cut.aim * (1.0 + scatter_ * z));
    const double worth = cut.worth + after / static_cast<double>(kPoints);
    if (worth > choice.worth + 1e-9) choice = {cut.aim, worth};
  }
  return choice;
}

Mass RowOfBlocks::aim(Mass left) const {
  const double grams = left.in_grams();
  if (grams < target_ - tolerance_) return Mass();
  const Choice rough = best(grams);
  if (rough.aim == grams) return left;
  return Mass::grams(rough.aim);
}

double RowOfBlocks::worth(Mass left) const { return best(left.in_grams()).worth; }

}  // namespace tallyblock
