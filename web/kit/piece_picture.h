// The piece picture: the whole piece as bought as ONE shape whose area is its weight.
//
// Each slab takes its share of the area, in order; what is not weighed yet stays an empty outline.
// Drawn again with money, the same shape shows where the cost went. Areas are exact: cut positions
// come from the shape's cumulative area, not from its width (piece_shape.h).
// Amounts are in any one unit, the same for all slabs and the whole. A slab of zero or negative or
// not finite amount has no area: it is named in words below the picture. When the slabs sum to more
// than the whole, the shape is the sum and what lies beyond the whole is outlined as too much; the slabs
// up to there fill the whole (the doubt is the screen's to say).
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "kit.h"

namespace tallyblock {

struct Slab {
  std::string name;    // the pile's
  std::string amount;  // as shown: "1.24 kg", "12.40 EUR"
  std::string share;   // as shown: "31 %"
  double value = 0;    // in the unit of the whole
  Look look = Look::primary;
  std::uint8_t variant = 0;
  bool lit = false;  // chosen: it stands out
};

struct Piece {
  std::string title;        // "Weight" or the piece's name
  std::string whole;        // as shown: "4.05 kg"
  double value = 0;         // of the whole; <= 0: nothing known yet, an empty outline is drawn
  std::vector<Slab> slabs;  // in the order of the piles, the same in every picture of the piece
  std::string
      rest_name;  // "Not weighed yet", shown for the rest of the whole; empty: the rest has no label
  std::string rest_amount, rest_share;
  std::string sentence;  // for who does not see it; empty: made from the above
  bool rest_lit = false;
};

enum class PieceSize : std::uint8_t {
  full,  // with all names, beneath what does not hold them
  small,  // beside targets that name its slabs: their shares where they fit; fills the height there is
  slim  // the same, as low as it may be
};

struct PieceOptions {
  PieceSize size = PieceSize::full;
  bool titled = true;  // false: title and whole stand above already
};

void piece_picture(Kit& kit, std::string_view path, const Piece& piece,
                   const PieceOptions& options = {});
// The same in full, its slabs targets: the place of the one that was touched, beyond the last one the rest.
// Narrow slabs are wider targets than they are drawn.
std::optional<std::size_t> touched_piece(Kit& kit, std::string_view path, const Piece& piece);

// Weight above, money below, a strand from each slab to its worth: waste shrinks to nothing, the
// portions swell. The slabs of both must be the same piles in the same order.
// Small: low, with one large label each, what the largest slab comes to.
// Slabs of both are targets: the place of the one that was touched.
std::optional<std::size_t> weight_and_money(Kit& kit, std::string_view path, const Piece& weight,
                                            const Piece& money, PieceSize size = PieceSize::full);

}  // namespace tallyblock
