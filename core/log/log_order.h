// How many pieces to order so that a line's own past gives so many portions.
//
// Each comparable piece of the group (log_lines.h) gave so many grams of portions a piece, over the pieces
// that came; that spread, and the bound from it, is order_from_log() of core/formulas/ordering.h. Where pieces of
// another weight are to be bought, it is the spread of portions over weight bought, times that weight.
// The usual weight of a piece is the median of what was bought. The price is the last one paid in the group, by
// whatever piece. Counts are rounded up, nothing else. From fewer than three only the smallest is given.
#pragma once
#include <cstddef>
#include <optional>
#include <string>

#include "core/formulas/ordering.h"
#include "log_lines.h"

namespace tallyblock {

struct LogOrderAsked {
  Needed needed;              // raw portions
  double confidence = 0.9;    // [0.5, 1)
  std::size_t case_of = 1;    // pieces in a case
  std::optional<Mass> piece;  // weight of a piece to be bought; absent: the usual one
};

struct LogOrder {
  std::size_t n = 0;                // comparable pieces that gave portions of a known weight bought
  std::optional<Mass> usual_piece;  // from one on
  std::optional<Spread> piece_grams;  // of the weights of a piece, grams; from one on
  std::optional<Spread>
      grams_each;                // of portions from a piece of the weight asked, grams; from one on
  std::optional<Mass> smallest;  // of them
  std::optional<PricePerMass> price;  // per weight bought
  std::string currency;               // of the price, else ""
  std::optional<PackOrder> order;     // from three on; absent as order_from_log()
};
LogOrder log_order(const LogLine& line, const LogGroup& group, const LogOrderAsked& asked);

}  // namespace tallyblock
