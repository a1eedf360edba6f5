// Fuzz target of the line breaks: any bytes as a text, any width, size and scale. It ends, with no more
// lines than characters; every line lies inside the text, and together they hold all but the blanks.
//
// The first 13 bytes are the width, the size, the scale (floats, any of their values) and how wide a
// byte is taken to be; the rest is the text.
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>

#include "web/kit/line_breaks.h"

namespace {

void expect(bool holds, const char* promise) {
  if (holds) return;
  std::fprintf(stderr, "BROKEN PROMISE: %s\n", promise);
  std::abort();
}

bool is_blank(char c) { return c == ' ' || c == '\n'; }

void try_text(std::string_view text, float width, float scaled, unsigned manner) {
  // Widths of a font: zero for some characters, other ones for others; with a bad size not numbers.
  const auto measure = [&](std::string_view part) {
    expect(part.empty() || (part.data() >= text.data() &&
                            part.data() + part.size() <= text.data() + text.size()),
           "only parts of the text are measured");
    float sum = 0;
    for (const char c : part)
      sum += static_cast<float>((static_cast<unsigned char>(c) + manner) % 7);
    return sum * scaled;
  };
  std::vector<std::string_view> lines;
  tallyblock::break_lines(text, width, measure, lines);
  expect(lines.size() <= text.size(), "no more lines than characters");
  const char* at = text.data();
  const char* const end = text.data() + text.size();
  for (const std::string_view line : lines) {
    expect(!line.empty(), "a line holds something");
    expect(line.data() >= at && line.data() + line.size() <= end,
           "lines lie in the text, in order");
    for (; at < line.data(); ++at) expect(is_blank(*at), "only blanks lie between lines");
    expect(!is_blank(line.front()) && !is_blank(line.back()), "a line has no blank at its ends");
    expect(line.find('\n') == std::string_view::npos, "a line end is no part of a line");
    const std::size_t first = tallyblock::next_character(line, 0);
    const bool one = first >= line.size();
    expect(one || !(measure(line) > width) || tallyblock::stays_whole(line),
           "a line is no wider than asked for, but for one character or a figure");
    at = line.data() + line.size();
  }
  for (; at < end; ++at) expect(is_blank(*at), "only blanks lie behind the last line");
  const float widest = tallyblock::widest_word(text, measure);
  expect(!(widest < 0) || scaled < 0, "a word has a width");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  constexpr std::size_t head = 13;
  if (size < head) return 0;
  float numbers[3];
  std::memcpy(numbers, data, sizeof numbers);
  const std::string text(reinterpret_cast<const char*>(data) + head, size - head);
  const float scaled = numbers[1] * numbers[2];
  try_text(text, numbers[0], scaled, data[12]);
  // Numbers as they come on a screen, with the same text.
  for (const float width : {0.0F, -1.0F, 30.0F, 300.0F}) try_text(text, width, 2.0F, data[12]);
  return 0;
}
