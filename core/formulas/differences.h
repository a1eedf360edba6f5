// What changed between two pieces: the difference in the cost of a weight of portions, parted among
// its causes.
//
//   u = (p - sum v_j s_j + l) / (1 - sum s_j)        over every pile but the portions
//
// p is the price paid, l the labour, both per weight that the shares s_j are of; v_j the value of
// pile j per weight; loss in cutting is a pile of value 0. Causes: the price, the values of all piles
// together, each pile's share, the labour. Each gets its mean effect over all orders in which the
// causes can change from the first piece to the second: L. S. Shapley, A Value for n-Person Games,
// Contributions to the Theory of Games II, 1953. The parts add up to the difference (to 1e-9 of the
// larger cost), no cause is favoured by its place, and one that did not change gets 0.
// On the way shares of both pieces are mixed; where a mixture, the two pieces themselves included, leaves
// no more than a millionth of portions there are no parts: dust of computing would decide them.
// The less it leaves, the larger and the more opposed the parts: see least_portions.
// Nothing is rounded. Does not: say why a cause changed; compare pieces of several portions' kinds.
#pragma once
#include <cstddef>
#include <optional>
#include <vector>

#include "core/base/units.h"

namespace tallyblock {

struct PileShare {
  double share =
      0.0;  // of the weight that the price is for; below 0 only as loss within uncertainty
  PricePerMass value;  // negative: a disposal cost
};
// Place by place the same pile in both pieces; absent: share 0, and no change of value.
struct CostedPiece {
  PricePerMass price;
  PricePerMass labour;
  std::vector<std::optional<PileShare>> piles;
};

// u; absent where no portions are left (1 - sum s_j not above 1e-9) or it is not finite. "Had the waste
// been as usual" is this of the piece with that one share changed, less this of the piece.
std::optional<PricePerMass> cost_of_portions(const CostedPiece& piece);

// The number of causes that did change, beyond which nothing is parted: 4,096 mixtures.
inline constexpr std::size_t kMostCauses = 12;

enum class NotParted {
  parted,                  // the parts are there
  first_has_no_portions,   // or its cost is not finite
  second_has_no_portions,  // the same
  a_mixture_has_none,      // or next to none (1e-6): the shares are too far apart
  too_many_causes,
};

struct CostParts {
  PricePerMass price;
  PricePerMass values;
  PricePerMass labour;
  std::vector<PricePerMass>
      shares;  // place by place as the piles; the shorter list counts as absent
};
struct CostDifference {
  std::optional<PricePerMass> first, second;  // u of each
  std::optional<PricePerMass> difference;     // second less first
  NotParted why = NotParted::parted;
  std::optional<CostParts> parts;
  // The smallest share of portions among all mixtures, 1 - sum of the larger shares; may be below 0.
  double least_portions = 0.0;
};
CostDifference what_changed(const CostedPiece& first, const CostedPiece& second);

}  // namespace tallyblock
