// One line of a catalogue: key and text. A file words/<language>/<screen>.h holds one array of these,
// named k<Screen>Words, e.g. kSessionsWords. words.cpp includes every file, packs all into one text while
// compiling and looks keys up.
#pragma once
#include <string_view>

namespace tallyblock {

struct Word {
  std::string_view key;
  std::string_view text;  // UTF-8, {0} {1} ... are the arguments, no markup
};

}  // namespace tallyblock
