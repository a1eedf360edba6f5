#include "plan_worth.h"

#include <algorithm>

#include "core/base/normal.h"
#include "core/base/sorted.h"

namespace tallyblock {
PortionWorth::PortionWorth(const std::vector<PortionSpec>& specs, PricePerMass remainder_value,
                           double asked_for)
    : rest_(remainder_value.per(MassUnit::gram)) {
  std::vector<double> limits;
  for (const PortionSpec& spec : specs) {
    const double low = (spec.target - spec.tolerance).in_grams();
    const double high = (spec.target + spec.tolerance).in_grams();
    kinds_.push_back(
        {low, high, spec.value.in_units() * (spec.wanted ? 1.0 + asked_for : 1.0), {}, {}});
    limits.push_back(low);
    limits.push_back(high);
  }
  heap_sort(limits);
  for (std::size_t meant = 0; meant < kinds_.size(); ++meant) {
    Kind& kind = kinds_[meant];
    Outcome before = kind.lightest = outcome(specs, meant, limits.front() - 1.0);
    for (std::size_t i = 0; i < limits.size(); ++i) {
      const bool last = i + 1 == limits.size();
      const double inside = last ? limits[i] + 1.0 : (limits[i] + limits[i + 1]) / 2.0;
      const Outcome after = outcome(specs, meant, inside);
      const Outcome change{after.constant - before.constant, after.slope - before.slope};
      if (change.constant != 0.0 || change.slope != 0.0) kind.steps.push_back({limits[i], change});
      before = after;
    }
  }
}

PortionWorth::Outcome PortionWorth::outcome(const std::vector<PortionSpec>& specs,
                                            std::size_t meant, double grams) const {
  const Kind& own = kinds_[meant];
  if (grams >= own.low && grams <= own.high) return {own.worth, 0.0};
  double other = -1.0;
  Outcome aside{0.0, rest_};
  for (std::size_t s = 0; s < kinds_.size(); ++s) {
    const double worth = s == meant ? own.worth : specs[s].value.in_units();
    const bool fits = grams >= kinds_[s].low && grams <= kinds_[s].high;
    if (fits) other = std::max(other, worth);
    if (grams > kinds_[s].high) {
      aside.constant =
          std::max(aside.constant, kTrimmedWorth * worth - rest_ * specs[s].target.in_grams());
    }
  }
  return other >= 0.0 ? Outcome{other, 0.0} : aside;
}

// The outcome below all limits, and at each limit what the worth gains from there on:
// E[(c + r x) 1(x > b)] = (c + r w) P(x > b) + r s phi((b - w) / s).
double PortionWorth::of(std::size_t spec, double each, double sd) const {
  const Kind& kind = kinds_[spec];
  if (!(sd > 0.0)) return kind.worth;
  double sum = kind.lightest.constant + kind.lightest.slope * each;
  for (const Step& step : kind.steps) {
    const double z = (each - step.at) / sd;
    sum += (step.change.constant + step.change.slope * each) * normal_below(z);
    if (step.change.slope != 0.0) sum += step.change.slope * sd * normal_density(z);
  }
  return sum;
}

double PortionWorth::within(std::size_t spec, double each, double sd) const {
  const Kind& kind = kinds_[spec];
  if (!(sd > 0.0)) return 1.0;
  return normal_below((kind.high - each) / sd) - normal_below((kind.low - each) / sd);
}

}  // namespace tallyblock
