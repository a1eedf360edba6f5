#include "plan_trouble.h"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

namespace tallyblock {
namespace {

using Feasible = std::function<bool(const PlanInput&)>;

std::optional<Problem> trouble_with_specs(const PlanInput& in) {
  if (in.specs.empty() || in.specs.size() > 4) return Problem{Code::plan_no_target, "target", {}};
  for (const PortionSpec& spec : in.specs) {
    const bool sane = spec.target.in_grams() > 0.0 && spec.tolerance.in_grams() >= 0.0 &&
                      spec.tolerance < spec.target && (!spec.wanted || *spec.wanted <= 1000);
    if (!sane) return Problem{Code::plan_no_target, "target", {Arg::name(spec.name)}};
    const bool is_valued = spec.value.in_units() > 0.0 && spec.value.in_units() <= 1e6;
    if (!is_valued) {
      return Problem{Code::plan_value_range, "portion-value", {}};
    }
  }
  const double all_remainder = (in.remainder_value * in.shape.mass()).in_units();
  const bool small = std::abs(all_remainder) <= 1e9 && in.shape.mass().in_grams() <= 1e6;
  if (!small) {
    return Problem{Code::plan_value_range, "remainder-value", {}};
  }
  return std::nullopt;
}

std::optional<Problem> trouble_with_limits(const Limits& l) {
  if (l.thickness_min && l.thickness_max && *l.thickness_min > *l.thickness_max) {
    return Problem{Code::plan_limits_cross, "thickness", {*l.thickness_min, *l.thickness_max}};
  }
  if (l.least_min && l.thickness_max && *l.least_min > *l.thickness_max) {
    return Problem{
        Code::plan_least_over_thickness, "least-dimension", {*l.least_min, *l.thickness_max}};
  }
  return std::nullopt;
}

bool are_sane(const PlanInput& in) {
  const double step = in.grid.in_millimetres(), knife = in.scatter.knife.in_millimetres();
  const auto is_cost = [](double cost) { return cost >= 0.0 && cost <= 100.0; };
  return step >= 0.5 && step <= 10.0 && knife >= 0.0 && knife <= 1e3 && in.scatter.split >= 0.0 &&
         in.scatter.split <= 1.0 && is_cost(in.costs.cut) && is_cost(in.costs.gap) &&
         is_cost(in.costs.change);
}

// The value nearest to `bad` for which the changed input works, to 1 mm, g or %; `good` works.
template <class Change>
double nearest_that_works(const PlanInput& input, double bad, double good, const Feasible& feasible,
                          Change change) {
  const auto works = [&](double value) {
    PlanInput tried = input;
    change(tried, value);
    return feasible(tried);
  };
  while (std::abs(good - bad) > 0.5) {
    const double middle = (bad + good) / 2.0;
    (works(middle) ? good : bad) = middle;
  }
  double round = good < bad ? std::floor(good) : std::ceil(good);
  for (int i = 0; i < 3 && !works(round); ++i) round += good < bad ? -1.0 : 1.0;
  return round;
}

struct Limit {
  Code code;
  const char* where;
  std::optional<Length> Limits::* member;
  bool upper;
};
constexpr Limit kLimits[] = {
    {Code::plan_thickness_max, "thickness", &Limits::thickness_max, true},
    {Code::plan_thickness_min, "thickness", &Limits::thickness_min, false},
    {Code::plan_least_dimension, "least-dimension", &Limits::least_min, false},
};

std::optional<Problem> one_limit(const PlanInput& input, const Limit& limit,
                                 const Feasible& feasible) {
  const std::optional<Length> set = input.limits.*limit.member;
  PlanInput open = input;
  (open.limits.*limit.member).reset();
  if (!set || !feasible(open)) return std::nullopt;
  const double far = limit.upper ? input.shape.length().in_millimetres() : 0.0;
  const double works = nearest_that_works(
      input, set->in_millimetres(), far, feasible,
      [&](PlanInput& in, double mm) { in.limits.*limit.member = Length::millimetres(mm); });
  return Problem{limit.code, limit.where, {*set, Length::millimetres(works)}};
}

void ease(PlanInput& input, double percent) {
  const double factor = 1.0 + percent / 100.0;
  Limits& limits = input.limits;
  if (limits.thickness_max) limits.thickness_max = *limits.thickness_max * factor;
  if (limits.thickness_min) limits.thickness_min = *limits.thickness_min / factor;
  if (limits.least_min) limits.least_min = *limits.least_min / factor;
}

}  // namespace

std::optional<Problem> contradiction(const PlanInput& in) {
  if (auto problem = trouble_with_specs(in)) return problem;
  if (in.k_max < 1 || in.k_max > 4 || (in.k_only && (*in.k_only < 1 || *in.k_only > in.k_max))) {
    return Problem{Code::plan_split_range, "split", {}};
  }
  if (auto problem = trouble_with_limits(in.limits)) return problem;
  if (!are_sane(in)) return Problem{Code::plan_value_range, "scatter", {}};
  const Length ends = in.trim_front + in.trim_back;
  const double left = (in.shape.length() - ends).in_millimetres();
  const bool leaves_some = in.trim_front.in_millimetres() >= 0.0 &&
                           in.trim_back.in_millimetres() >= 0.0 &&
                           left >= std::max(2.0, 2.0 * in.grid.in_millimetres());
  if (!leaves_some) {
    return Problem{Code::plan_trim_takes_all, "ends", {ends, in.shape.length()}};
  }
  const double saw = in.saw.in_millimetres();
  const bool saw_known = saw >= 0.0 && saw <= 20.0;
  if (!saw_known) {
    return Problem{Code::plan_saw_range, "saw-loss", {}};
  }
  return std::nullopt;
}

Problem why_nothing(const PlanInput& input, const Feasible& feasible) {
  const auto lightest = std::min_element(input.specs.begin(), input.specs.end(),
                                         [](const PortionSpec& a, const PortionSpec& b) {
                                           return a.target - a.tolerance < b.target - b.tolerance;
                                         });
  const Mass usable = input.shape.mass_to(input.shape.length() - input.trim_back) -
                      input.shape.mass_to(input.trim_front);
  if (lightest->target - lightest->tolerance > usable) {
    const Mass most = Mass::grams(std::floor(usable.in_grams()));
    return {Code::plan_target_too_heavy, "target", {lightest->target, most}};
  }
  for (const Limit& limit : kLimits) {
    if (auto problem = one_limit(input, limit, feasible)) return *problem;
  }
  PlanInput open = input;
  open.limits = {};
  if (feasible(open)) {
    const double works = nearest_that_works(input, 0.0, 1e5, feasible, ease);
    return {Code::plan_limits_together, "limits", {Arg::number(works)}};
  }
  const Mass given = lightest->tolerance;
  const auto place = static_cast<std::size_t>(lightest - input.specs.begin());
  const double works = nearest_that_works(
      open, given.in_grams(), lightest->target.in_grams() * 0.999, feasible,
      [place](PlanInput& in, double grams) { in.specs[place].tolerance = Mass::grams(grams); });
  return {Code::plan_tolerance_too_fine, "tolerance", {given, Mass::grams(works)}};
}

}  // namespace tallyblock
