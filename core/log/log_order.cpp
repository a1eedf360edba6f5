#include "log_order.h"

#include <vector>

#include "core/base/finite.h"

namespace tallyblock {
namespace {

constexpr std::size_t kFewestForOrder = 3;

void put_last_price(const LogLine& line, const LogGroup& group, LogOrder& out) {
  for (const std::size_t member : group.members) {
    const auto prices = prices_of(line.members[member]);
    if (!prices) continue;
    out.price = prices->price;
    out.currency = line.members[member].currency;
  }
}

}  // namespace

LogOrder log_order(const LogLine& line, const LogGroup& group, const LogOrderAsked& asked) {
  LogOrder out;
  put_last_price(line, group, out);
  std::vector<double> pieces, each, yields;
  for (const std::size_t member : comparable(line, group)) {
    const LogPiece& piece = line.members[member];
    if (!piece.bought || !(piece.primary > Mass()) || piece.pieces == 0) continue;
    pieces.push_back(piece.bought->in_grams() / piece.pieces);
    each.push_back(piece.primary.in_grams() / piece.pieces);
    yields.push_back(finite_or(piece.primary / *piece.bought));
  }
  out.n = pieces.size();
  if (out.n == 0) return out;
  out.piece_grams = spread_of(pieces);
  out.usual_piece = Mass::grams(out.piece_grams->median);
  const bool other_weight = asked.piece && *asked.piece > Mass();
  out.grams_each =
      other_weight ? scaled(spread_of(yields), asked.piece->in_grams()) : spread_of(each);
  out.smallest = Mass::grams(out.grams_each->smallest);
  if (out.n < kFewestForOrder) return out;
  const Pack pack{other_weight ? *asked.piece : *out.usual_piece, asked.case_of, out.price};
  out.order = order_from_log(asked.needed, *out.grams_each, pack, asked.confidence);
  return out;
}

}  // namespace tallyblock
