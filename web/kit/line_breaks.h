// Where a text is broken into lines: between words, inside a word only where it must.
//
// Any bytes, any width and any measure give an end: each line is at least one character, starts and
// ends with no blank, and the lines in order hold everything but the blanks between them. Invalid
// UTF-8 is broken too, never inside the bytes that follow a lead byte.
#pragma once
#include <algorithm>
#include <cstddef>
#include <string_view>
#include <vector>

namespace tallyblock {

// A word with digits is not broken, whoever shows it makes it smaller; no figure is longer than this. What is left
// of a longer word that was broken is no figure.
inline constexpr std::size_t longest_figure = 24;  // bytes

inline std::size_t next_character(std::string_view text, std::size_t at) {
  ++at;
  while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U) ++at;
  return at;
}

inline bool stays_whole(std::string_view word) {
  return word.size() <= longest_figure &&
         word.find_first_of("0123456789") != std::string_view::npos;
}

// What may not begin a line behind a word that ends so: a unit or a sign behind a figure ("12 g", "58.3 %,").
inline bool is_unit_of(char last, std::string_view word) {
  return last >= '0' && last <= '9' && word.size() <= 3 &&
         (word.front() < '0' || word.front() > '9');
}

// `measure`: the width of a part of the text, in the unit of `width`. Appends to `lines`.
template <class Measure>
void break_lines(std::string_view text, float width, const Measure& measure,
                 std::vector<std::string_view>& lines) {
  constexpr std::string_view blanks = " \n";
  std::size_t start = text.find_first_not_of(blanks);
  while (start < text.size()) {
    const std::size_t row_end = std::min(text.find('\n', start), text.size());
    std::size_t end = std::min(text.find(' ', start), row_end);
    const std::string_view word = text.substr(start, end - start);
    const bool is_rest = start > 0 && blanks.find(text[start - 1]) == std::string_view::npos;
    if (measure(word) > width && (is_rest || !stays_whole(word))) {
      std::size_t cut = next_character(text, start);
      for (std::size_t next = cut; next < end; next = next_character(text, next)) {
        if (measure(text.substr(start, next - start)) > width) break;
        cut = next;
      }
      end = std::min(cut, end);
    } else {
      for (std::size_t before = start;;) {
        const std::size_t next = text.find_first_not_of(' ', end);
        if (next >= row_end) break;
        const std::size_t next_end = std::min(text.find(' ', next), row_end);
        if (measure(text.substr(start, next_end - start)) > width) {
          // A figure goes along with its unit.
          if (before > start && is_unit_of(text[end - 1], text.substr(next, next_end - next)))
            end = before;
          break;
        }
        before = end;
        end = next_end;
      }
    }
    lines.push_back(text.substr(start, end - start));
    start = text.find_first_not_of(blanks, end);
  }
}

// Of the words between blanks; 0 if there is none.
template <class Measure>
float widest_word(std::string_view text, const Measure& measure) {
  float widest = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find_first_of(" \n", at), text.size());
    widest = std::max(widest, measure(text.substr(at, end - at)));
    at = end + 1;
  }
  return widest;
}

}  // namespace tallyblock
