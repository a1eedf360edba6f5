// Every word a person reads, by key. The tables lie with each feature (DEVELOPERS.md).
//
// say("weigh.missing", {"1.2 kg"}) replaces {0}, {1}, ... by the arguments; an argument is never
// searched again, so that a name with braces in it stays as it is. A missing argument gives nothing.
// An unknown key gives the key itself (a test asserts that no screen shows one). Texts are UTF-8 and
// contain no markup.
#pragma once
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "part.h"

namespace tallyblock {

std::string say(std::string_view key);
std::string say(std::string_view key, std::initializer_list<std::string_view> args);
// "{where}" in the text stands for `where`.
std::string say(std::string_view key, const std::vector<std::string>& args,
                std::string_view where = {});
bool has_words(std::string_view key);
// The key of the words for so many things: "key#one" (#few, ...) where the language has such a form of
// the key for the count, else the key itself. Which counts have which form the catalogue says by the name
// of a rule, under the key "plural" (words.cpp; none: "one" for 1). Forms and rules as in the plural
// rules of the Unicode CLDR.
std::string form_of(std::string_view key, double count);

// The words of the language that a part of the program needs, beside those of the parts before it: one text,
// a key and its words on a line each. In the browser they come as files that are added with their part;
// elsewhere they are there from the start.
std::string packed_words(AppPart part);
void add_words(std::string packed);
// In the spelling and the trade words of a region (ISO 3166), where they differ from those of the tables: the
// pairs "from=to" under the key "spelling.<region>". Also of what is added later.
void spell_as(std::string_view region);
// Before the words of another language are added.
void forget_words();

// All keys, sorted, for tests.
std::vector<std::string_view> word_keys();

}  // namespace tallyblock
