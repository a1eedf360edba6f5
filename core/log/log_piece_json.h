// A LogPiece as text, as it is kept beside the entries it was made of.
//
// One JSON object, canonical text, with short names; what is absent, empty or 0 where that is usual is not
// written. Numbers read back as the same double. `v` is the version: text of another one is not read, and
// the piece is made again of its entries. Names: s session, l line, st start, t tz first time, n name, sp
// specification, cu currency, ck cook, nx next, m mark (0 hollow, 1 half, 2 solid), cl closed (not open),
// b board, mi missing, u w p pr usable waste prime primary in grams, uu wu pu their uncertainties over B, pl piles
// ([key, name, role, share] and the value per gram), po portions ([n, within, target, mean] and s, in
// grams), cf count fixed, ey eye call ([four shares, error, bias]), bo bought, pc pieces, co cost, cp cost per
// gram of portions, mn minutes, la labour.
#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "log_piece.h"

namespace tallyblock {

inline constexpr int kLogPieceVersion = 1;
inline constexpr std::size_t kMaxLogPieceBytes = std::size_t{256} * 1024;

std::string log_piece_to_json(const LogPiece& piece);
// Absent for text that is not JSON of this form and version: a member missing or of another type, a name
// not known, a number not finite or out of its range, over kMaxLogPieceBytes.
std::optional<LogPiece> log_piece_from_json(std::string_view text);

}  // namespace tallyblock
