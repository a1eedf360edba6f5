// The block onto the page.
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "piece_block.h"

namespace tallyblock {

namespace {
std::vector<Point> moved(const std::vector<Point>& shape, float x, float y) {
  std::vector<Point> out = shape;
  for (Point& p : out) {
    p.x += x;
    p.y += y;
  }
  return out;
}
}  // namespace

// The side face: the lower edge of the slab, drawn out downwards.
void PieceBlock::draw_side(const Frame& f, const std::vector<Point>& slab, Colour colour) const {
  std::size_t left = 0, right = 0;
  for (std::size_t i = 0; i < slab.size(); ++i) {
    if (slab[i].x < slab[left].x) left = i;
    if (slab[i].x > slab[right].x) right = i;
  }
  std::vector<Point> face;
  face.reserve(slab.size() + 2);
  // Clockwise from the rightmost to the leftmost point is the lower edge.
  face.push_back(slab[right]);
  for (std::size_t i = right;; i = (i + 1) % slab.size()) {
    face.push_back({slab[i].x, slab[i].y + side_});
    if (i == left) break;
  }
  face.push_back(slab[left]);
  f.draw()->PathClear();
  for (const Point p : face) f.draw()->PathLineTo(ImVec2(p.x, p.y));
  f.draw()->PathFillConcave(colour);
}

void PieceBlock::paint(Frame& f, float x, float y) {
  const Palette& p = f.colours();
  const std::vector<double>& now = f.moving(id_, values_);
  if (now != values_) cut(now);
  for (std::size_t i = 0; i < slabs_.size(); ++i) {
    if (slabs_[i].size() < 3) continue;
    const std::vector<Point> s = moved(slabs_[i], x, y);
    const SlabLabel& l = labels_[i];
    const LookColours& colours = p.of(l.look);
    if (l.look == Look::unweighed) {
      dashed_outline(f.draw(), s, colours.edge, f.px(1.75F), f.px(6));
      continue;
    }
    draw_side(f, s, colours.side);
    fill_texture(f.draw(), s, colours, l.look, l.variant,
                 f.px(1) * std::clamp(h_ / f.px(120), 1.0F, 2.0F));
    outline(f.draw(), s, colours.edge, f.px(style::edge));
  }
  for (std::size_t i = 0; i < slabs_.size(); ++i) {  // over its neighbours' edges
    if (!labels_[i].lit || slabs_[i].size() < 3) continue;
    outline(f.draw(), moved(slabs_[i], x, y), p.ink, f.px(style::edge_chosen));
  }
  for (const std::vector<Point>& part : beyond_) {
    if (!part.empty()) outline(f.draw(), moved(part, x, y), p.bad, f.px(style::ring));
  }
  for (std::size_t i = 0; i < labels_.size(); ++i) {
    const SlabLabel& l = labels_[i];
    if (l.where == SlabLabel::Where::row) paint_leader(f, i, x, y);
    if (l.where != SlabLabel::Where::list) paint_label(f, l, x, y);
  }
}

void PieceBlock::add_regions(Frame& f, std::uint32_t id, float x, float y) const {
  const float narrow = f.px(style::slab_target);
  for (std::size_t i = 0; i < slabs_.size(); ++i) {
    if (slabs_[i].size() < 3) continue;
    const auto [left, right] = std::ranges::minmax(slabs_[i], {}, &Point::x);
    const float more = std::max(0.0F, (narrow - (right.x - left.x)) / 2);
    const Rect r = {x + left.x - more, y, right.x - left.x + 2 * more, full_height()};
    f.regions.push_back({id, i, r});
  }
}

void PieceBlock::paint_label(const Frame& f, const SlabLabel& l, float x, float y) const {
  const Palette& p = f.colours();
  const bool on_slab = l.where == SlabLabel::Where::inside;
  const Rect r = {std::round(x + l.x), std::round(y + l.y), l.w, l.h};
  if (on_slab && l.look != Look::unweighed) {
    f.draw()->AddRectFilled(ImVec2(r.x, r.y), ImVec2(r.right(), r.bottom()), p.raised,
                            f.px(style::corner_small));
  }
  float top = r.y + (on_slab ? f.px(style::grid) * 0.75F : 0);
  const auto line = [&](std::string_view text, float size, float line_h, Colour colour) {
    if (text.empty()) return;
    f.draw_text(r.x + (r.w - f.text_width(text, size)) / 2, top + (line_h * size - size) / 2, text,
                size, colour);
    top += line_h * size;
  };
  line(l.share, lead_, style::line_figure, p.ink);
  if (l.with_amount) line(l.amount, small_, style::line_text, p.ink);
  for (int k = 0; l.with_name && k < l.lines_n; ++k) {
    line(lines_[static_cast<std::size_t>(l.lines_at) + static_cast<std::size_t>(k)], small_,
         style::line_text, p.quiet);
  }
}

void PieceBlock::paint_leader(const Frame& f, std::size_t i, float x, float y) const {
  const SlabLabel& l = labels_[i];
  float left = 0, right = 0;
  span_at(i, above_ ? 0.2F : 0.9F, left, right);
  const float at = (left + right) / 2, from_x = x + at, to_x = x + l.x + l.w / 2;
  const Colour colour = f.colours().of(l.look).edge;
  const float width = f.px(style::edge);
  const float from_y = above_ ? y + edge_at(i, at, true) + f.px(style::grid)
                              : y + edge_at(i, at, false) + side_ - f.px(style::grid);
  const float to_y = above_ ? y - row_gap_ : y + h_ + side_ + row_gap_ - f.px(2);
  f.draw()->AddLine(ImVec2(from_x, from_y), ImVec2(to_x, to_y), colour, width);
  f.draw()->AddNgonFilled(ImVec2(from_x, from_y), f.px(2.5F), colour, 8);
}

void PieceBlock::paint_title(Frame& f, float x, float y, float width) const {
  const Palette& p = f.colours();
  const float whole_w = f.text_width(whole_text_, title_type_),
              room = width - whole_w - f.px(style::gap);
  float size = title_type_;
  while (size > small_ && f.text_width(title_, size) > room) size -= 1;
  f.draw_text(x, y + (title_type_ - size) * 0.8F, title_, size, p.quiet);
  f.draw_text(x + width - whole_w, y, whole_text_, title_type_, p.ink);
}

void PieceBlock::paint_list(Frame& f, float x, float y, float width) const {
  const Palette& p = f.colours();
  const float swatch = f.px(style::swatch_small),
              line = std::max(swatch, small_ * style::line_text);
  y += f.px(style::gap);
  float share_w = 0;
  for (const SlabLabel& l : labels_) share_w = std::max(share_w, f.text_width(l.share, small_));
  for (const SlabLabel& l : labels_) {
    if (l.where != SlabLabel::Where::list || l.amount.empty()) continue;
    const float c = swatch * 0.3F, top = y + (line - swatch) / 2;
    const Point shape[] = {{x, top},
                           {x + swatch - c, top},
                           {x + swatch, top + c},
                           {x + swatch, top + swatch},
                           {x, top + swatch}};
    const LookColours& colours = p.of(l.look);
    fill_texture(f.draw(), shape, colours, l.look, l.variant, f.px(1), true);
    outline(f.draw(), shape, colours.edge, f.px(style::edge));
    const float at = y + (line - small_) / 2, amount_w = f.text_width(l.amount, small_);
    const float name_room = width - swatch - share_w - amount_w - 3 * f.px(style::gap);
    float size = small_;
    while (size > small_ / 2 && f.text_width(l.name, size) > name_room) size -= 1;
    f.draw_text(x + swatch + f.px(style::gap), at + (small_ - size) * 0.8F, l.name, size, p.ink);
    f.draw_text(x + width - share_w - f.px(style::pad) - amount_w, at, l.amount, small_, p.ink);
    f.draw_text(x + width - f.text_width(l.share, small_), at, l.share, small_, p.quiet);
    y += line + f.px(style::grid);
  }
}

}  // namespace tallyblock
