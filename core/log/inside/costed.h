// A piece of the log as the parts of its cost: every share of B that is not portions.
#pragma once
#include <string>
#include <vector>

#include "core/formulas/differences.h"
#include "core/log/log_piece.h"

namespace tallyblock {

struct PileOfCost {
  std::string cause;  // the pile's key, or kLossCause or kRestCause of log_changes.h
  double share = 0.0;
  PricePerMass value;
};
// The piles that are not primary, the loss in cutting and the rest, so that what is left of 1 is primary / B.
// Empty without B.
std::vector<PileOfCost> piles_of_cost(const LogPiece& piece);

}  // namespace tallyblock
