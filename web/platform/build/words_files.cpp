// Writes the words of a part of the program as the page loads them, onto standard output: words_files NAME NUMBER.
// Refuses when the part of that name is another one of the parts. Part of the build.
#include <cstdio>
#include <string>
#include <string_view>

#include "web/words/words.h"

int main(int count, char** words) {
  using namespace tallyblock;
  for (const AppPart part : kParts) {
    const std::string number = std::to_string(static_cast<int>(part));
    if (count != 3 || name_of(part) != words[1] || number != words[2]) continue;
    const std::string text = packed_words(part);
    return std::fwrite(text.data(), 1, text.size(), stdout) == text.size() ? 0 : 1;
  }
  std::fputs("web/platform/parts.txt and web/words/part.h name other parts, or in another order.\n",
             stderr);
  return 1;
}
