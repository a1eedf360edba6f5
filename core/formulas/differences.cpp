#include "differences.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>

#include "core/base/finite.h"

namespace tallyblock {
namespace {

constexpr double kNoPortions = 1e-9;      // of one piece
constexpr double kFewestPortions = 1e-6;  // of a mixture

PricePerMass price_per_gram(double units) {
  return PricePerMass::of(Money::units(units), MassUnit::gram);
}
double in_units(PricePerMass price) { return price.per(MassUnit::gram); }

// What the piles put into the sums.
struct Sums {
  double share = 0.0;
  double credit = 0.0;
};

std::optional<double> cost_of(double paid, const Sums& piles, double fewest) {
  const double left = 1.0 - piles.share;
  if (!(left > fewest)) return std::nullopt;
  return ratio_of(paid - piles.credit, left);
}

// A pile in both pieces, the absent one filled in.
struct Pair {
  PileShare first, second;
};

std::vector<Pair> pairs_of(const CostedPiece& first, const CostedPiece& second) {
  std::vector<Pair> out(std::max(first.piles.size(), second.piles.size()));
  const auto at = [](const CostedPiece& piece, std::size_t i) {
    return i < piece.piles.size() ? piece.piles[i] : std::nullopt;
  };
  for (std::size_t i = 0; i < out.size(); ++i) {
    const auto a = at(first, i), b = at(second, i);
    out[i].first = a.value_or(PileShare{0.0, b.value_or(PileShare{}).value});
    out[i].second = b.value_or(PileShare{0.0, out[i].first.value});
  }
  return out;
}

// The causes that changed, each a bit of a mixture: set where it is taken from the second piece.
class Mixtures {
 public:
  Mixtures(const CostedPiece& first, const CostedPiece& second)
      : first_(first), second_(second), pairs_(pairs_of(first, second)) {
    if (first.price != second.price) price_ = causes_++;
    if (first.labour != second.labour) labour_ = causes_++;
    if (std::any_of(pairs_.begin(), pairs_.end(),
                    [](const Pair& p) { return p.first.value != p.second.value; })) {
      values_ = causes_++;
    }
    for (const Pair& pair : pairs_) {
      const bool changed = pair.first.share != pair.second.share;
      share_.push_back(changed ? std::optional(causes_++) : std::nullopt);
      if (!changed) add_fixed(pair);
    }
  }

  std::size_t causes() const { return causes_; }

  double least_portions() const {
    double left = 1.0;
    for (const Pair& p : pairs_) left -= std::fmax(p.first.share, p.second.share);
    return finite_or(left);
  }

  std::optional<double> cost(std::size_t mixture) const {
    const bool new_values = has(mixture, values_);
    Sums sums = fixed_[new_values ? 1 : 0];
    for (std::size_t i = 0; i < pairs_.size(); ++i) {
      if (!share_[i]) continue;
      const double share = (has(mixture, share_[i]) ? pairs_[i].second : pairs_[i].first).share;
      sums.share += share;
      sums.credit += share * in_units((new_values ? pairs_[i].second : pairs_[i].first).value);
    }
    const PricePerMass price = (has(mixture, price_) ? second_ : first_).price;
    const PricePerMass labour = (has(mixture, labour_) ? second_ : first_).labour;
    return cost_of(in_units(price) + in_units(labour), sums, kFewestPortions);
  }

  CostParts named(const std::vector<double>& parts) const {
    const auto of = [&](std::optional<std::size_t> cause) {
      return cause ? price_per_gram(parts[*cause]) : PricePerMass();
    };
    CostParts out{of(price_), of(values_), of(labour_), {}};
    out.shares.reserve(share_.size());
    for (const auto& cause : share_) out.shares.push_back(of(cause));
    return out;
  }

 private:
  static bool has(std::size_t mixture, std::optional<std::size_t> cause) {
    return cause && (mixture >> *cause & 1u) != 0;
  }
  void add_fixed(const Pair& pair) {
    for (std::size_t k = 0; k < 2; ++k) {
      fixed_[k].share += pair.first.share;
      fixed_[k].credit += pair.first.share * in_units((k == 0 ? pair.first : pair.second).value);
    }
  }

  const CostedPiece& first_;
  const CostedPiece& second_;
  std::vector<Pair> pairs_;
  std::size_t causes_ = 0;
  std::optional<std::size_t> price_, labour_, values_;
  std::vector<std::optional<std::size_t>> share_;
  std::array<Sums, 2>
      fixed_;  // of the piles whose share did not change, at the values of each piece
};

// Orders in which a cause comes right after `before` others, as a share of all orders of `causes`.
double share_of_orders(std::size_t before, std::size_t causes) {
  double out = 1.0 / static_cast<double>(causes);
  // 1 / C(causes - 1, before)
  for (std::size_t k = 1; k <= before; ++k) {
    out *= static_cast<double>(k) / static_cast<double>(causes - k);
  }
  return out;
}

// The Shapley value of each cause; absent where a mixture has no cost.
std::optional<std::vector<double>> parts_of(const Mixtures& mixtures) {
  const std::size_t causes = mixtures.causes();
  std::vector<double> costs;
  costs.reserve(std::size_t{1} << causes);
  for (std::size_t m = 0; m < std::size_t{1} << causes; ++m) {
    const auto cost = mixtures.cost(m);
    if (!cost) return std::nullopt;
    costs.push_back(*cost);
  }
  std::vector<double> parts(causes, 0.0);
  for (std::size_t cause = 0; cause < causes; ++cause) {
    const std::size_t bit = std::size_t{1} << cause;
    for (std::size_t m = 0; m < costs.size(); ++m) {
      if ((m & bit) != 0) continue;
      const auto before = static_cast<std::size_t>(std::popcount(m));
      parts[cause] += share_of_orders(before, causes) * (costs[m | bit] - costs[m]);
    }
    if (!std::isfinite(parts[cause])) return std::nullopt;
  }
  return parts;
}

}  // namespace

std::optional<PricePerMass> cost_of_portions(const CostedPiece& piece) {
  Sums sums;
  for (const auto& pile : piece.piles) {
    if (!pile) continue;
    sums.share += pile->share;
    sums.credit += pile->share * in_units(pile->value);
  }
  const auto cost = cost_of(in_units(piece.price) + in_units(piece.labour), sums, kNoPortions);
  return cost ? std::optional(price_per_gram(*cost)) : std::nullopt;
}

CostDifference what_changed(const CostedPiece& first, const CostedPiece& second) {
  const Mixtures mixtures(first, second);
  CostDifference out;
  out.least_portions = mixtures.least_portions();
  out.first = cost_of_portions(first);
  out.second = cost_of_portions(second);
  if (out.first && out.second && std::isfinite(in_units(*out.second - *out.first))) {
    out.difference = *out.second - *out.first;
  }
  if (!out.first) {
    out.why = NotParted::first_has_no_portions;
  } else if (!out.second) {
    out.why = NotParted::second_has_no_portions;
  } else if (mixtures.causes() > kMostCauses) {
    out.why = NotParted::too_many_causes;
  } else if (const auto parts = parts_of(mixtures)) {
    out.parts = mixtures.named(*parts);
  } else {
    out.why = NotParted::a_mixture_has_none;
  }
  return out;
}

}  // namespace tallyblock
