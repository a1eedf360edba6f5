#include "costed.h"

#include <cmath>

#include "core/base/finite.h"
#include "core/log/log_changes.h"

namespace tallyblock {
namespace {

// Less than this of B between the sum of all shares and 1 comes from computing.
constexpr double kDust = 1e-9;

}  // namespace

std::vector<PileOfCost> piles_of_cost(const LogPiece& piece) {
  std::vector<PileOfCost> out;
  if (!piece.board) return out;
  double left = 1.0 - finite_or(piece.primary / *piece.board);
  for (const LogPile& pile : piece.piles) {
    if (pile.role == Role::primary) continue;
    out.push_back({pile.key, pile.share, pile.value.value_or(PricePerMass())});
    left -= pile.share;
  }
  if (piece.missing) {
    const double loss = finite_or(*piece.missing / *piece.board);
    out.push_back({std::string(kLossCause), loss, {}});
    left -= loss;
  }
  if (std::fabs(left) > kDust) out.push_back({std::string(kRestCause), left, {}});
  return out;
}

}  // namespace tallyblock
