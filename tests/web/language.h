// A language that nobody speaks, made of the English words: to find what is not in the catalogue, and
// where words a third longer have no room.
//
// Every run of words between figures stands in square brackets, its vowels with marks, a third longer. It
// counts as Czech does. What is outside the brackets on a screen is data: figures, units, names that
// somebody gave.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "core/session/session.h"
#include "web/words/words.h"

namespace tallyblock::test {

// In place of English while it lives.
class InventedLanguage {
 public:
  InventedLanguage() {
    forget_words();
    for (const AppPart part : kParts) add_words(all_invented(packed_words(part)));
    add_words("plural\none-few\n");
  }
  ~InventedLanguage() {
    forget_words();
    for (const AppPart part : kParts) add_words(packed_words(part));
  }
  InventedLanguage(const InventedLanguage&) = delete;
  InventedLanguage& operator=(const InventedLanguage&) = delete;

  // "[Íntó~~] {0}" of "Into {0}".
  static std::string invented(std::string_view text);

 private:
  static std::string all_invented(std::string_view packed);
};

// What somebody gave as a name, a note or a code in a session, added to `names`; those of the sample.
void add_names(const Figures& figures, std::vector<std::string>& names);
std::vector<std::string> sample_names();
// Words of `text` that are neither in brackets nor data (`names`, units, currencies); "" for none.
std::string english_in(std::string text, std::vector<std::string> names);

}  // namespace tallyblock::test
