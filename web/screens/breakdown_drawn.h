// Where the weight and the money went: as pictures, and as a table.
#pragma once
#include <string>

#include "parts.h"
#include "web/figures/breakdown.h"
#include "web/kit/piece_picture.h"

namespace tallyblock {

// Of a row among those of one piece.
std::string slab_key(const BreakdownRow& row);
// `rest_name`: what the rest is called, e.g. "Not weighed yet" or "Lost in cutting". The row of key `lit` stands
// out.
Piece weight_piece(const Breakdown& breakdown, const std::string& title,
                   const std::string& rest_name, std::string_view lit = {});
Piece money_piece(const Breakdown& breakdown, const std::string& title, std::string_view lit = {});
void breakdown_table(Ui& ui, const Breakdown& breakdown, const std::string& rest_name);

}  // namespace tallyblock
