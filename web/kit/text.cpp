// Words of the frame: measured, broken into lines, made to fit, drawn.
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "frame.h"
#include "line_breaks.h"

namespace tallyblock {
namespace {

ImFont* font() {
  return ImGui::GetIO().Fonts->Fonts.empty() ? nullptr : ImGui::GetIO().Fonts->Fonts[0];
}

constexpr float suffix_gap_em = 0.4F;

// By the size of its letters.
float line_height(const TextLook& look) {
  return look.tight ? style::line_tight : look.figure ? style::line_figure : style::line_text;
}

// Digits and units of a figure by turns.
template <class Run>
void each_run(std::string_view text, const Run& run) {
  const auto is_letter = [](char c) { return (c | 0x20) >= 'a' && (c | 0x20) <= 'z'; };
  while (!text.empty()) {
    const bool unit = is_letter(text.front());
    std::size_t n = 1;
    while (n < text.size() && is_letter(text[n]) == unit) ++n;
    run(text.substr(0, n), unit);
    text.remove_prefix(n);
  }
}

}  // namespace

float Frame::text_width(std::string_view text, float size) const {
  if (text.empty() || !(size > 0) || font() == nullptr) return 0;
  const char* begin = text.data();
  return font()->CalcTextSizeA(size, 1e9F, 0, begin, begin + text.size()).x;
}

float Frame::ascent(float size) const {
  if (font() == nullptr) return size;
  return font()->GetFontBaked(size)->Ascent;
}

void Frame::draw_text(float x, float y, std::string_view text, float size, Colour colour) const {
  if (text.empty() || !(size > 0) || font() == nullptr) return;
  const char* begin = text.data();
  draw()->AddText(font(), size, ImVec2(std::round(x), std::round(y)), colour, begin,
                  begin + text.size());
}

int Frame::wrap(std::string_view text, float size, float width) {
  const std::size_t before = lines.size();
  break_lines(text, width, [&](std::string_view part) { return text_width(part, size); }, lines);
  return static_cast<int>(lines.size() - before);
}

float Frame::word_width(std::string_view text, float size) const {
  return widest_word(text, [&](std::string_view word) { return text_width(word, size); });
}

float Frame::line_width(const Node& n, std::string_view line) const {
  if (!(n.units > 0)) return text_width(line, n.type);
  float w = 0;
  each_run(line,
           [&](std::string_view run, bool unit) { w += text_width(run, unit ? n.units : n.type); });
  return w;
}

// On one base line.
void Frame::draw_figure(const Node& n, float x, float y, std::string_view text) const {
  if (!(n.units > 0)) return draw_text(x, y, text, n.type, n.look.colour);
  each_run(text, [&](std::string_view run, bool unit) {
    const float size = unit ? n.units : n.type;
    draw_text(x, y + ascent(n.type) - ascent(size), run, size, n.look.colour);
    x += text_width(run, size);
  });
}

// Returns the height. Figures stay on one line: first their units are made smaller, then all of it as far
// as it must; other words are wrapped, and set a step smaller only where a single word is too wide.
float Frame::fit_text(Node& n, float width) {
  n.type = n.look.size;
  n.lines_at = static_cast<int>(lines.size());
  if (n.look.figure) {
    const float suffix_gap = n.suffix.empty() ? 0 : n.suffix_size * suffix_gap_em;
    n.units = 0;
    const auto natural = [&] {
      return line_width(n, n.text) + suffix_gap + text_width(n.suffix, n.suffix_size);
    };
    if (natural() > width) n.units = std::floor(n.type * style::units_share);
    if (const float wide = natural(); wide > width) {
      const float by = std::max(width / wide, 0.3F);
      n.type = std::floor(n.type * by);
      n.units = std::floor(n.units * by);
      n.suffix_size = std::floor(n.suffix_size * by);
    }
    lines.push_back(n.text);
    n.lines_n = 1;
    return std::ceil(n.type * line_height(n.look));
  }
  if (n.look.single && text_width(n.text, n.type) > width) {
    n.lines_n = 0;
    return 0;
  }
  for (int step = 0; step < 3; ++step) {
    if (word_width(n.text, n.type) <= width) break;
    n.type = std::floor(n.type * style::shrink_step);
  }
  n.lines_n = wrap(n.text, n.type, width);
  return std::ceil(static_cast<float>(n.lines_n) * n.type * line_height(n.look));
}

void Frame::draw_lines(const Node& n) const {
  const float line_h = n.type * line_height(n.look);
  const float total = line_h * static_cast<float>(n.lines_n);
  float y =
      n.r.y + (line_h - n.type) / 2 + (n.look.middle ? std::max(0.0F, (n.r.h - total) / 2) : 0);
  for (int i = 0; i < n.lines_n; ++i, y += line_h) {
    const std::string_view line =
        lines[static_cast<std::size_t>(n.lines_at) + static_cast<std::size_t>(i)];
    const float line_w = line_width(n, line);
    const float suffix_w =
        n.suffix.empty() ? 0 : n.suffix_size * suffix_gap_em + text_width(n.suffix, n.suffix_size);
    float x = n.r.x;
    if (n.look.align == Align::middle) x += (n.r.w - line_w - suffix_w) / 2;
    if (n.look.align == Align::right) x += n.r.w - line_w - suffix_w;
    draw_figure(n, x, y, line);
    if (!n.suffix.empty()) {
      draw_text(x + line_w + n.suffix_size * suffix_gap_em,
                y + ascent(n.type) - ascent(n.suffix_size), n.suffix, n.suffix_size, n.look.colour);
    }
    if (n.look.caret) {
      const float at = x + line_w + px(2);
      draw()->AddRectFilled(ImVec2(at, y + n.type * 0.1F), ImVec2(at + px(2.5F), y + n.type),
                            colours().accent);
    }
    if (n.look.struck) {
      const float mid = std::round(y + n.type * 0.55F);
      draw()->AddLine(ImVec2(x, mid), ImVec2(x + line_w + suffix_w, mid), n.look.colour,
                      px(style::edge));
    }
    if (n.look.dotted) {
      const float base = std::round(y + n.type * 1.04F), step = px(6);
      for (float at = x; at < x + line_w + suffix_w - px(2); at += step) {
        draw()->AddRectFilled(ImVec2(at, base), ImVec2(at + px(3), base + px(style::edge)),
                              n.look.colour);
      }
    }
  }
}

}  // namespace tallyblock
