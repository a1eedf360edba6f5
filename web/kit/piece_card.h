// A piece as one card of a list: its block small, what it is called, one figure; the whole card is one target.
#pragma once
#include <string_view>

#include "kit.h"
#include "piece_picture.h"

namespace tallyblock {

struct PieceCardOptions {
  std::string_view detail = {}, note = {};  // below the title, a line each
  std::string_view figure = {}, of = {};    // at the right, and what it is the figure of
  Tone tone = Tone::normal;                 // of the note
};

// True: tapped. Of the piece only the slabs and the whole are drawn.
bool piece_card(Kit& kit, std::string_view path, std::string_view title, const Piece& piece,
                const PieceCardOptions& options = {});

// The block of a piece across the room there is, without words. `sentence`: for who does not see it.
void piece_strip(Kit& kit, std::string_view path, const Piece& piece, std::string_view sentence);

}  // namespace tallyblock
