// Tables: words left, numbers aligned at the decimal mark. Too narrow for its columns, a table becomes
// a list: each row's first cell, and below it title and number of every other column.
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "build_parts.h"
#include "frame.h"
#include "texture.h"

namespace tallyblock {

using namespace parts;

namespace {

struct Cell {
  std::string_view text;
  float before = 0, after = 0;  // width up to the decimal mark, and behind it
};

struct Line {
  std::vector<Cell> cells;
  std::optional<Look> look;
  std::uint8_t variant = 0;
  bool total = false, quiet = false, title = false;
};

// Where the whole part of the first number in the text ends.
std::size_t decimal_at(std::string_view text) {
  std::size_t at = text.find_first_of("0123456789");
  if (at == std::string_view::npos) return text.size();
  while (at < text.size()) {
    const bool digit = text[at] >= '0' && text[at] <= '9';
    // A comma before exactly three digits groups thousands in English notation only if a point
    // follows; the kit gets texts in one notation, so the last mark before a non-digit counts.
    if (!digit) {
      const bool groups =
          (text[at] == ',' || text[at] == '.') &&
          text.find_first_of(".,", at + 1) != std::string_view::npos &&
          text.find_first_not_of("0123456789.,", at + 1) > text.find_first_of(".,", at + 1);
      if (!groups) break;
    }
    ++at;
  }
  return at;
}

class TablePainter final : public Painter {
 public:
  std::vector<std::string_view> titles;
  std::vector<bool> number;
  std::vector<Line> lines;

  float height(Frame& f, float width) override {
    body_ = f.type(style::type_body);
    small_ = f.type(style::type_small);
    indent_ = 0;
    for (const Line& l : lines) {
      if (l.look) indent_ = f.px(style::swatch_small + style::gap);
    }
    if (fits(f, width, body_) || fits(f, width, small_)) return table_height(f);
    listed_ = true;
    float h = 0;
    for (const Line& l : lines) h += list_line_height(f, l, width);
    return h;
  }

  void paint(Frame& f, const Rect& r) override {
    if (listed_) {
      paint_list(f, r);
    } else {
      paint_table(f, r);
    }
  }

 private:
  float body_ = 0, small_ = 0, size_ = 0, indent_ = 0, name_w_ = 0;
  bool listed_ = false;
  std::vector<float> before_, after_, widths_;
  std::vector<int> name_lines_;

  // Column widths at this size; the first column takes what the others leave and may wrap to two.
  bool fits(Frame& f, float width, float size) {
    size_ = size;
    const std::size_t columns = titles.size();
    before_.assign(columns, 0);
    after_.assign(columns, 0);
    widths_.assign(columns, 0);
    float name = 0, rest = 0, longest_word = 0;
    for (Line& l : lines) {
      for (std::size_t c = 0; c < std::min(columns, l.cells.size()); ++c) {
        Cell& cell = l.cells[c];
        if (!number[c] || l.title) {
          widths_[c] = std::max(widths_[c], f.text_width(cell.text, l.title ? small_ : size));
          continue;
        }
        const std::size_t at = decimal_at(cell.text);
        cell.before = f.text_width(cell.text.substr(0, at), size);
        cell.after = f.text_width(cell.text.substr(at), size);
        before_[c] = std::max(before_[c], cell.before);
        after_[c] = std::max(after_[c], cell.after);
        widths_[c] = std::max(widths_[c], before_[c] + after_[c]);
      }
      if (!l.cells.empty()) {
        name = std::max(name, f.text_width(l.cells[0].text, size));
        longest_word = std::max(longest_word, f.word_width(l.cells[0].text, size));
      }
    }
    for (std::size_t c = 1; c < columns; ++c) rest += widths_[c] + f.px(style::pad);
    name_w_ = width - rest - indent_;
    return name_w_ >= std::min(name, std::max(name * 0.55F, longest_word));
  }

  float line_height(const Frame& f, int text_lines) const {
    return std::ceil(static_cast<float>(text_lines) * size_ * style::line_text) + f.px(style::gap);
  }

  float table_height(Frame& f) {
    float h = 0;
    name_lines_.clear();
    for (const Line& l : lines) {
      const int n = l.cells.empty() ? 1 : std::max(1, f.wrap(l.cells[0].text, size_, name_w_));
      name_lines_.push_back(n);
      h += line_height(f, n);
    }
    return h;
  }

  void rule(const Frame& f, const Rect& r, float y, Colour colour) const {
    f.draw()->AddRectFilled(ImVec2(r.x, std::round(y)),
                            ImVec2(r.right(), std::round(y) + f.px(style::hair)), colour);
  }

  void paint_swatch(const Frame& f, const Line& l, float x, float y) const {
    const float s = f.px(style::swatch_small), c = s * 0.3F;
    const Point shape[] = {{x, y}, {x + s - c, y}, {x + s, y + c}, {x + s, y + s}, {x, y + s}};
    const Look look = l.look.value_or(Look::primary);
    const LookColours& colours = f.colours().of(look);
    fill_texture(f.draw(), shape, colours, look, l.variant, f.px(1), true);
    outline(f.draw(), shape, colours.edge, f.px(style::edge));
  }

  void paint_table(Frame& f, const Rect& r) const {
    const Palette& p = f.colours();
    float y = r.y;
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const Line& l = lines[i];
      const float h = line_height(f, name_lines_[i]);
      if (i > 0) rule(f, r, y, l.total ? p.ink : p.edge_soft);
      const Colour ink = l.title || l.quiet ? p.quiet : p.ink;
      const float size = l.title ? small_ : size_;
      const float line = size_ * style::line_text;
      float top = y + (h - line * static_cast<float>(name_lines_[i])) / 2 + (line - size) / 2;
      if (l.look) paint_swatch(f, l, r.x, y + (h - f.px(style::swatch_small)) / 2);
      float x = r.x + indent_;
      if (!l.cells.empty()) {
        const std::size_t first = f.lines.size();
        f.wrap(l.cells[0].text, size, name_w_);
        for (std::size_t k = first; k < f.lines.size(); ++k) {
          f.draw_text(x, top + line * static_cast<float>(k - first), f.lines[k], size, ink);
        }
        f.lines.resize(first);
      }
      top = y + (h - size) / 2;
      x += name_w_;
      for (std::size_t c = 1; c < std::min(titles.size(), l.cells.size()); ++c) {
        x += f.px(style::pad);
        const Cell& cell = l.cells[c];
        float at = x;
        if (number[c]) {
          at = l.title ? x + widths_[c] - f.text_width(cell.text, size)
                       : x + widths_[c] - after_[c] - cell.before;
        }
        f.draw_text(at, top, cell.text, size, ink);
        x += widths_[c];
      }
      y += h;
    }
  }

  // ---- as a list
  float list_line_height(Frame& f, const Line& l, float width) const {
    if (l.title) return 0;
    std::size_t filled = 0;
    for (std::size_t c = 1; c < l.cells.size(); ++c) filled += l.cells[c].text.empty() ? 0U : 1U;
    const int n = l.cells.empty() ? 1 : f.wrap(l.cells[0].text, body_, width - indent_);
    f.lines.resize(f.lines.size() - static_cast<std::size_t>(n));
    return std::ceil((static_cast<float>(n) * body_ + static_cast<float>(filled) * body_) *
                     style::line_text) +
           f.px(style::pad);
  }

  void paint_list(Frame& f, const Rect& r) {
    const Palette& p = f.colours();
    float y = r.y;
    for (const Line& l : lines) {
      if (l.title) continue;
      if (y > r.y) rule(f, r, y, l.total ? p.ink : p.edge_soft);
      const float h = list_line_height(f, l, r.w);
      float at = y + f.px(style::grid);
      if (l.look) paint_swatch(f, l, r.x, at);
      const std::size_t first = f.lines.size();
      f.wrap(l.cells.empty() ? std::string_view() : l.cells[0].text, body_, r.w - indent_);
      for (std::size_t k = first; k < f.lines.size(); ++k, at += body_ * style::line_text) {
        f.draw_text(r.x + indent_, at, f.lines[k], body_, l.quiet ? p.quiet : p.ink);
      }
      f.lines.resize(first);
      for (std::size_t c = 1; c < std::min(titles.size(), l.cells.size()); ++c) {
        const std::string_view text = l.cells[c].text;
        if (text.empty()) continue;
        const float room = r.w - indent_ - f.text_width(titles[c], small_) - f.px(style::gap);
        const float natural = f.text_width(text, body_);
        const float size = natural > room ? std::floor(body_ * room / natural) : body_;
        f.draw_text(r.x + indent_, at + (body_ - small_), titles[c], small_, p.quiet);
        f.draw_text(r.right() - f.text_width(text, size), at, text, size,
                    l.quiet ? p.quiet : p.ink);
        at += body_ * style::line_text;
      }
      y += h;
    }
  }
};

}  // namespace

void Kit::table(std::string_view path, std::string_view label,
                const std::vector<TableColumn>& columns, const std::vector<TableRow>& rows) {
  Frame& f = *frame_;
  auto painter = std::make_unique<TablePainter>();
  std::string said(label);
  Line head;
  head.title = true;
  for (const TableColumn& c : columns) {
    painter->titles.push_back(f.arena.keep(c.title));
    painter->number.push_back(c.number);
    head.cells.push_back({painter->titles.back()});
  }
  painter->lines.push_back(std::move(head));
  for (const TableRow& row : rows) {
    Line& l = painter->lines.emplace_back();
    l.look = row.look;
    l.variant = row.variant;
    l.total = row.total;
    l.quiet = row.quiet;
    said += said.empty() ? "" : "; ";
    for (std::size_t c = 0; c < row.cells.size(); ++c) {
      l.cells.push_back({f.arena.keep(row.cells[c])});
      if (row.cells[c].empty()) continue;
      if (c > 0) said += ", ";
      if (c > 0 && c < columns.size()) said += joined(columns[c].title, " ", "");
      if (c > 0 && c < columns.size() && !columns[c].title.empty()) said += " ";
      said += row.cells[c];
    }
  }
  const int i = f.add_painter(std::move(painter));
  f.describe(i, AccessKind::text, id_of(path), said);
}

}  // namespace tallyblock
