// What changed between two pieces of a line, and what the usual waste would have made of one.
//
// Both pieces as CostedPiece (core/formulas/differences.h) with every share of B, the weight on the
// board: prices and labour are money per weight of B, so that the cost per weight of portions is C and L
// less the credits over the weight of the portions. Piles are the same by their key; one that only one piece
// has is a share of 0 in the other. Loss in cutting is a pile of value 0, and so is the rest: what brine or
// grinding added or took away, and piles whose weight is not known. A pile without a value is worth nothing.
// Labour counts where both pieces know theirs, else in neither. Nothing is rounded.
// Does not: look whether the two are of one specification; see LogGroup.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/formulas/differences.h"
#include "log_lines.h"

namespace tallyblock {

// Causes beside the keys of piles, which have no colon.
inline constexpr std::string_view kLossCause = ":loss";
inline constexpr std::string_view kRestCause = ":rest";

enum class NotCompared {
  compared,
  other_currency,  // two currencies
  first_no_price,  // what was paid is not known
  second_no_price,
  first_no_board,  // B is not known
  second_no_board,
};
// "compared", "other-currency", "first-no-price", ...: names of reports.
std::string_view name_of(NotCompared why);

struct LogChange {
  NotCompared why = NotCompared::compared;
  std::optional<CostDifference>
      difference;                   // where compared; it may still say why it is not parted
  std::vector<std::string> causes;  // place by place as its parts' shares, by key
  bool with_labour = false;
};
LogChange log_change(const LogPiece& first, const LogPiece& second);

// Waste is unusable trim, as the figure of that name. A piece with several piles of it keeps their
// proportions and their values.
struct WasteAsUsual {
  double usual = 0.0, was = 0.0;  // shares of B
  PricePerMass cost;              // per weight of portions, labour apart
  PricePerMass would_be;          // had the waste been as usual, and the portions the rest
};
// `usual`: the median of the line's waste (LogSeries::median). Absent without price, B or portions, also where
// the usual waste would leave none; 0 <= usual < 1.
std::optional<WasteAsUsual> waste_as_usual(const LogPiece& piece, double usual);

}  // namespace tallyblock
