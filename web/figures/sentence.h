// The sentences of problems and doubts: each value is written as its reader writes it.
//
// Masses are in the style's weight unit, with the digits of shown_mass (core/session/session.h); lengths
// in metres or, below one, millimetres; money with its currency; shares, numbers, minutes and degrees
// with the decimals they bring; words of closed lists from the catalogue; names, codes and keys as they
// are; what was typed with the reader's decimal mark. The first count of a sentence chooses its plural form.
#pragma once
#include <string>
#include <vector>

#include "core/base/problem.h"
#include "show.h"

namespace tallyblock::show {

std::vector<std::string> args(const Args& args, const Style& style);
// As {where} of a sentence: "Price", "line 3, entry 12, field seq", "byte 7".
std::string place(const Place& place);
// The catalogue's key for a sentence with such values.
std::string sentence_key(Code code, const Args& args);
std::string problem(const Problem& problem, const Style& style);

}  // namespace tallyblock::show
