// Writes the words as the page loads them: words_files first|later, onto standard output. Part of the build.
#include <cstdio>
#include <string>
#include <string_view>

#include "web/words/words.h"

int main(int count, char** names) {
  using namespace tallyblock;
  const std::string_view part = count > 1 ? names[1] : "";
  if (part != "first" && part != "later") return 1;
  const std::string text = packed_words(part == "first" ? WordPart::first : WordPart::later);
  return std::fwrite(text.data(), 1, text.size(), stdout) == text.size() ? 0 : 1;
}
