#include "log_changes.h"

#include <algorithm>

#include "core/base/finite.h"
#include "core/log/inside/costed.h"

namespace tallyblock {
namespace {

PricePerMass per_board(const std::optional<Money>& money, const LogPiece& piece) {
  if (!money || !piece.board) return {};
  const double each = finite_or(money->in_units() / piece.board->in_grams());
  return PricePerMass::of(Money::units(each), MassUnit::gram);
}

std::optional<NotCompared> hindrance(const LogPiece& first, const LogPiece& second) {
  if (!first.board) return NotCompared::first_no_board;
  if (!second.board) return NotCompared::second_no_board;
  if (!first.cost) return NotCompared::first_no_price;
  if (!second.cost) return NotCompared::second_no_price;
  if (first.currency != second.currency) return NotCompared::other_currency;
  return std::nullopt;
}

CostedPiece costed_of(const LogPiece& piece, bool with_labour,
                      const std::vector<std::string>& causes) {
  CostedPiece out;
  out.price = per_board(piece.cost, piece);
  if (with_labour) out.labour = per_board(piece.labour, piece);
  const std::vector<PileOfCost> piles = piles_of_cost(piece);
  for (const std::string& cause : causes) {
    const auto pile = std::ranges::find(piles, cause, &PileOfCost::cause);
    out.piles.push_back(pile == piles.end() ? std::nullopt
                                            : std::optional(PileShare{pile->share, pile->value}));
  }
  return out;
}

void add_causes(const LogPiece& piece, std::vector<std::string>& causes) {
  for (const PileOfCost& pile : piles_of_cost(piece)) {
    if (std::ranges::find(causes, pile.cause) == causes.end()) causes.push_back(pile.cause);
  }
}

}  // namespace

std::string_view name_of(NotCompared why) {
  switch (why) {
    case NotCompared::compared: return "compared";
    case NotCompared::other_currency: return "other-currency";
    case NotCompared::first_no_price: return "first-no-price";
    case NotCompared::second_no_price: return "second-no-price";
    case NotCompared::first_no_board: return "first-no-board";
    case NotCompared::second_no_board: return "second-no-board";
  }
  return "";
}

LogChange log_change(const LogPiece& first, const LogPiece& second) {
  LogChange out;
  if (const auto why = hindrance(first, second)) {
    out.why = *why;
    return out;
  }
  out.with_labour = first.labour && second.labour;
  add_causes(first, out.causes);
  add_causes(second, out.causes);
  out.difference = what_changed(costed_of(first, out.with_labour, out.causes),
                                costed_of(second, out.with_labour, out.causes));
  return out;
}

std::optional<WasteAsUsual> waste_as_usual(const LogPiece& piece, double usual) {
  const bool possible = usual >= 0.0 && usual < 1.0;
  if (!possible || !piece.board || !piece.cost) return std::nullopt;
  std::vector<std::string> causes;
  add_causes(piece, causes);
  CostedPiece costed = costed_of(piece, false, causes);
  const auto cost = cost_of_portions(costed);
  const double was = finite_or(piece.waste / *piece.board);
  if (!cost || was < 0.0) return std::nullopt;
  for (std::size_t i = 0; i < causes.size() && was > 0.0; ++i) {
    const auto pile = std::ranges::find(piece.piles, causes[i], &LogPile::key);
    const bool is_waste = pile != piece.piles.end() && pile->role == Role::unusable_trim;
    if (auto& share = costed.piles[i]; is_waste && share) share->share *= usual / was;
  }
  if (!(was > 0.0)) costed.piles.emplace_back(PileShare{usual, {}});
  const auto would_be = cost_of_portions(costed);
  if (!would_be) return std::nullopt;
  return WasteAsUsual{usual, was, *cost, *would_be};
}

}  // namespace tallyblock
