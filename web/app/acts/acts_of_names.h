// Names and notes: what they are, and what becomes of a text.
//
// Ids: piece, species, cut, specification, note, next (a note for the next piece), note:<entry>, person, person:<entry>, currency,
// lot:<field>, pile:<key>, pile-use:<key>, tub:<key>, step:<key>, default:person, default:currency.
#pragma once
#include <string>

#include "web/app/desk/writing.h"
#include "web/app/shelf/cards.h"

namespace tallyblock {

// How long a text typed into the box `id` may be, in bytes of UTF-8.
std::size_t most_bytes(const std::string& id);
bool is_note(const std::string& kind);
// As it was saved. `open`: null where no session is.
std::string saved_text(const OpenSession* open, const AppSettings& settings, const std::string& id);
// A text of the session that is not a setting, in place of what it was.
Made name(const OpenSession& open, Writing to, const std::string& id, const std::string& text);

}  // namespace tallyblock
