// The planner finds the best plan of its model: against integrals, and every way of cutting short pieces.
#include "core/cutting/plan.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

#include "core/cutting/inside/plan_worth.h"
#include "plan_make.h"

namespace tallyblock {
namespace {

// The worth of a portion, integrated numerically from the rule in words (plan.h).
double worth_of_weight(const PlanInput& input, std::size_t meant, double x) {
  const double rest = input.remainder_value.per(MassUnit::gram);
  const auto is_within = [&](const PortionSpec& spec) {
    return std::abs(x - spec.target.in_grams()) <= spec.tolerance.in_grams();
  };
  const PortionSpec& own = input.specs[meant];
  const double own_worth = own.value.in_units() * (own.wanted ? 4.0 : 1.0);
  if (is_within(own)) return own_worth;
  double other = -1.0, aside = rest * x;
  for (std::size_t s = 0; s < input.specs.size(); ++s) {
    const PortionSpec& spec = input.specs[s];
    const double worth = s == meant ? own_worth : spec.value.in_units();
    if (is_within(spec)) other = std::max(other, worth);
    if (x > (spec.target + spec.tolerance).in_grams()) {
      aside = std::max(aside, 0.5 * worth + rest * (x - spec.target.in_grams()));
    }
  }
  return other >= 0.0 ? other : aside;
}

double integrated(const PlanInput& input, std::size_t meant, double each, double sd) {
  constexpr int steps = 160'000;
  double sum = 0.0;
  for (int i = 0; i < steps; ++i) {
    const double z = -8.0 + 16.0 * (i + 0.5) / steps;
    sum += std::exp(-0.5 * z * z) * worth_of_weight(input, meant, each + sd * z);
  }
  return sum * 16.0 / steps / std::sqrt(2.0 * std::numbers::pi);
}

TEST(PlanWorth, OfAPortionIsTheIntegralOverWhatItMayWeigh) {
  PlanInput input = piece(400, 80, 50, 2000);
  input.specs = {portions(200, 8, 4U, 3.0), portions(212, 6, {}, 3.3), portions(150, 9, {}, 2.0)};
  input.remainder_value = PricePerMass::of(Money::units(4), MassUnit::kilogram);
  const PortionWorth worth(input.specs, input.remainder_value, kAskedFor);
  for (std::size_t meant = 0; meant < 3; ++meant) {
    const PortionSpec& spec = input.specs[meant];
    for (const double off : {-0.9, 0.0, 0.6}) {
      for (const double sd : {2.0, 6.0, 15.0}) {
        const double each = (spec.target + spec.tolerance * off).in_grams();
        EXPECT_NEAR(worth.of(meant, each, sd), integrated(input, meant, each, sd), 2e-3);
      }
    }
    EXPECT_EQ(worth.of(meant, spec.target.in_grams(), 0.0),
              worth_of_weight(input, meant, spec.target.in_grams()));
  }
}

// Every way of cutting a short piece on the marks, tried in full: 1e-6 currency units.
struct ByHand {
  const PlanInput& input;
  PortionWorth worth{input.specs, input.remainder_value, kAskedFor};
  double least = 1e300;  // value
  explicit ByHand(const PlanInput& in) : input(in) {
    for (const PortionSpec& spec : in.specs) least = std::min(least, spec.value.in_units());
  }
  static double micro(double value) { return std::nearbyint(value * 1e6); }
  double grams(int at) const { return input.shape.mass_to(input.grid * double(at)).in_grams(); }

  double best(int at, int end, bool left, int last_k, std::vector<unsigned> wanted) const {
    if (at >= end) return 0.0;
    double most = -1e300;
    const double gap = left ? micro(input.costs.gap * least) : 0.0;
    for (int to = at + 1; to <= end; ++to) {
      for (int k = 1; k <= input.k_max; ++k) {
        const bool change = last_k != 0 && last_k != k;
        const double before = gap + (change ? micro(input.costs.change * least) : 0.0) +
                              (to < end ? micro(input.costs.cut * least) : 0.0);
        most = std::max(most, block(at, to, end, k, wanted) - before);
      }
    }
    const double rest = micro(worth.surplus(grams(at + 1) - grams(at)));
    return std::max(most, rest + best(at + 1, end, true, last_k, wanted));
  }
  // u portions count for one kind and v for another.
  double block(int at, int to, int end, int k, const std::vector<unsigned>& wanted) const {
    const double each = (grams(to) - grams(at)) / k;
    const auto sd = [&](std::size_t s) {
      const double mean_grams = grams(end) / (input.grid * double(end)).in_millimetres();
      const double thick = k * input.specs[s].target.in_grams() / mean_grams;
      const double knife = input.scatter.knife.in_millimetres() / thick;
      return each * std::hypot(knife, k > 1 ? k * input.scatter.split : 0.0);
    };
    double most = -1e300;
    const auto fits = [&](std::size_t s) {
      const PortionSpec& spec = input.specs[s];
      return std::abs(each - spec.target.in_grams()) <= spec.tolerance.in_grams() + 1e-9;
    };
    for (std::size_t a = 0; a < input.specs.size(); ++a) {
      for (std::size_t b = 0; b < input.specs.size(); ++b) {
        for (unsigned u = 1; u <= unsigned(k); ++u) {
          for (unsigned v = 0; u + v <= unsigned(k); ++v) {
            if (!fits(a) || (v > 0 && (b == a || !fits(b)))) continue;
            if (v == 0 && b != a) continue;
            const bool all = !input.specs[a].wanted || (v > 0 && !input.specs[b].wanted);
            if (all && u + v < unsigned(k)) continue;
            if (input.specs[a].wanted && wanted[a] < u) continue;
            if (v > 0 && input.specs[b].wanted && wanted[b] < v) continue;
            std::vector<unsigned> then = wanted;
            if (input.specs[a].wanted) then[a] -= u;
            if (v > 0 && input.specs[b].wanted) then[b] -= v;
            const double gain = u * micro(worth.of(a, each, sd(a))) +
                                v * micro(worth.of(b, each, sd(b))) +
                                (k - double(u) - v) *
                                    (micro(worth.surplus(each)) - micro(input.costs.spare * least));
            most = std::max(most, gain + best(to, end, false, k, then));
          }
        }
      }
    }
    return most;
  }
};

PlanInput short_piece(std::mt19937& random, int round) {
  std::uniform_real_distribution<double> side(40.0, 120.0);
  const int length = 9 + round % 4;
  const double mm_a_mark = round % 5 == 0 ? 25.4 / 16 : 1.0, all = length * 5.0;
  PlanInput input{*Shape::from(
      {{mm(0), mm(side(random)), mm(40)}, {mm(length * mm_a_mark), mm(side(random)), mm(30)}},
      Mass::grams(all))};
  input.grid = mm(mm_a_mark);
  input.specs.push_back(portions(all / 4.3, all / 30, {}, 2.0));
  if (round % 2 == 1) input.specs.back().wanted = 2U;
  if (round % 3 == 0) input.specs.push_back(portions(all / 4.1, all / 25, 1U, 2.2));
  input.k_max = 1 + round % 3;
  input.scatter.knife = mm(0.2 * (round % 4));
  if (round % 3 == 0) input.costs = {0.0, 0.1 * (round % 2), 0.0};
  input.remainder_value = PricePerMass::of(Money::units(20.0 * (round % 3)), MassUnit::kilogram);
  return input;
}

TEST(Plan, EqualsExhaustiveSearchOnShortPieces) {
  std::mt19937 random(5);
  int gaps = 0, plans = 0;
  for (int round = 0; round < 96; ++round) {
    SCOPED_TRACE(round);
    const PlanInput input = short_piece(random, round);
    const int end = static_cast<int>(std::lround(input.shape.length() / input.grid));
    std::vector<unsigned> wanted;
    for (const PortionSpec& spec : input.specs) wanted.push_back(spec.wanted.value_or(0));
    const double best = ByHand(input).best(0, end, false, 0, wanted);
    const auto found = plan(input);
    if (!found) continue;
    ++plans;
    EXPECT_NEAR(found->worth.in_units() * 1e6, best, 0.01);
    gaps += static_cast<int>(found->gaps);
  }
  EXPECT_GT(plans, 60);
  EXPECT_GT(gaps, 0);
}

}  // namespace
}  // namespace tallyblock
