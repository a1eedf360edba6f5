// Acts on where to put the knife besides those of the keypad's fields (work.h): stations, limits, cuts, long
// pieces; all in the step "main".
#pragma once
#include <string>

#include "work.h"

namespace tallyblock {

// The far end is like the last place measured.
Made same_all_along(const OpenSession& open, Writing to, const AppSettings& settings);
Made set_face_fill(const OpenSession& open, Writing to, const std::string& percent,
                   const std::string& name);                            // of all stations
Made set_long_pieces(const OpenSession& open, Writing to, unsigned k);  // 0: as many as are best
Made close_cut(Writing to, const EntryId& cut);  // no more portions come of it
Made reopen_cut(const OpenSession& open, Writing to, const EntryId& cut);  // more come after all
Made take_out_long_piece(const OpenSession& open, Writing to, const std::string& key);
// What is known of the cook is taken along, unless cutting has begun.
Made begin_cutting(const OpenSession& open, Writing to, const CookOf* cook);
// Marks scored into a piece, "": they are given up.
void score_marks(Draft& draft, const std::string& of, const std::string& marks);
// The length that is asked for next.
void ask_length(Keypad& keypad, const std::string& subject);

}  // namespace tallyblock
