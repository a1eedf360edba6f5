// Where slabs and labels go.
#include "piece_block.h"

#include <algorithm>
#include <cmath>
#include <ranges>

#include "build_parts.h"

namespace tallyblock {

using namespace parts;

namespace {

bool inside(std::span<const Point> shape, float x, float y, float room) {
  if (shape.size() < 3) return false;
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const Point a = shape[i], b = shape[(i + 1) % shape.size()];
    const float ex = b.x - a.x, ey = b.y - a.y, len = std::hypot(ex, ey);
    if (len < 1e-3F) continue;
    if ((ex * (y - a.y) - ey * (x - a.x)) / len < room) return false;  // the outline runs clockwise
  }
  return true;
}

// The centre of gravity: where a label looks at rest.
Point middle_of(std::span<const Point> shape) {
  float twice = 0, x = 0, y = 0;
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const Point a = shape[i], b = shape[(i + 1) % shape.size()];
    const float cross = a.x * b.y - b.x * a.y;
    twice += cross;
    x += (a.x + b.x) * cross;
    y += (a.y + b.y) * cross;
  }
  if (std::abs(twice) < 1e-3F) return shape.empty() ? Point{} : shape[0];
  return {x / (3 * twice), y / (3 * twice)};
}

}  // namespace

std::string PieceBlock::sentence_of(const Piece& piece) {
  if (!piece.sentence.empty()) return piece.sentence;
  std::string out = joined(piece.title, ", ", piece.whole);
  std::string_view between = ": ";
  const auto part = [&](std::string_view name, std::string_view amount, std::string_view share) {
    out += between;
    out += joined(name, " ", joined(amount, ", ", share));
    between = "; ";
  };
  for (const Slab& s : piece.slabs) part(s.name, s.amount, s.share);
  if (!piece.rest_amount.empty()) part(piece.rest_name, piece.rest_amount, piece.rest_share);
  return out + ".";
}

PieceBlock::PieceBlock(Frame& f, const Piece& piece, std::uint32_t id)
    : id_(id), whole_(piece.value) {
  title_ = f.arena.keep(piece.title);
  whole_text_ = f.arena.keep(piece.whole);
  labels_.reserve(piece.slabs.size() + 1);
  for (const Slab& s : piece.slabs) {
    values_.push_back(s.value);
    SlabLabel& l = labels_.emplace_back();
    l.name = f.arena.keep(s.name);
    l.amount = f.arena.keep(s.amount);
    l.share = f.arena.keep(s.share);
    l.look = s.look;
    l.variant = s.variant;
    l.lit = s.lit;
  }
  SlabLabel& rest = labels_.emplace_back();
  rest.name = f.arena.keep(piece.rest_name);
  rest.amount = f.arena.keep(piece.rest_amount);
  rest.share = f.arena.keep(piece.rest_share);
  rest.look = Look::unweighed;
  rest.lit = piece.rest_lit;
}

// Slabs are cut from the whole shape and then moved apart, so that the kerfs take nothing away.
void PieceBlock::cut(std::span<const double> values) {
  slabs_ = cut_into_slabs(shape_, values, whole_, &cuts_);
  beyond_ = beyond_the_whole(shape_, values, whole_);
  float by = shift_;
  for (std::size_t i = 0; i < slabs_.size(); ++i) {
    cuts_[i] += static_cast<double>(by);
    if (slabs_[i].empty()) continue;
    for (Point& p : slabs_[i]) p.x += by;
    for (Point& p : beyond_[i]) p.x += by;
    by += kerf_;
  }
}

void PieceBlock::plan(Frame& f, float width, float h, LabelSide side, bool with_list,
                      bool labelled) {
  kerf_ = f.px(style::kerf);
  side_ = std::round(h * style::piece_side);
  h_ = h - side_;
  above_ = side == LabelSide::above;
  const float css = f.px(1) * f.scale.text;
  const float by = std::clamp(h / (css * 190), 1.0F, 1.7F);  // larger on a wall
  small_ = std::round(f.type(style::type_small) * by);
  lead_ = std::round(f.type(with_list && h < css * 110  ? style::type_body
                            : with_list || h < css * 56 ? style::type_lead
                                                        : style::type_title) *
                     by);
  title_type_ = with_list ? lead_ : small_;
  row_gap_ = f.px(style::gap) * 2;
  std::size_t parts_n = 0;
  for (const double v : values_) parts_n += has_area(v) ? 1U : 0U;
  const float most = h_ * style::piece_wide;
  w_ = std::min(width, most) - kerf_ * static_cast<float>(parts_n);
  shift_ = (width - std::min(width, most)) / 2;
  shape_ = piece_outline(static_cast<double>(w_), static_cast<double>(h_));
  cut(values_);
  for (std::size_t i = 0; i < labels_.size(); ++i) {
    SlabLabel& l = labels_[i];
    l.where = SlabLabel::Where::list;
    if (!labelled || (l.name.empty() && l.amount.empty())) continue;
    if (with_list) {
      fit_inside(f, i, l, true, true);
    } else if (l.look != Look::unweighed && !l.share.empty()) {
      fit_inside(f, i, l, false, false);
    }
  }
  place_row(f, width, side, with_list);
}

void PieceBlock::name_lines(Frame& f, SlabLabel& l, float width) {
  const std::size_t before = f.lines.size();
  l.lines_at = static_cast<int>(lines_.size());
  l.lines_n = f.wrap(l.name, small_, width);
  lines_.insert(lines_.end(), f.lines.begin() + static_cast<std::ptrdiff_t>(before), f.lines.end());
  f.lines.resize(before);
}

float PieceBlock::label_width(const Frame& f, const SlabLabel& l) const {
  float w = f.text_width(l.share, lead_);
  if (l.with_amount) w = std::max(w, f.text_width(l.amount, small_));
  for (int k = 0; l.with_name && k < l.lines_n; ++k) {
    w = std::max(
        w, f.text_width(lines_[static_cast<std::size_t>(l.lines_at) + static_cast<std::size_t>(k)],
                        small_));
  }
  return std::ceil(w) + 1;
}

float PieceBlock::label_height(const SlabLabel& l) const {
  float h = l.share.empty() ? 0 : lead_ * style::line_figure;
  if (l.with_amount) h += small_ * style::line_text;
  if (l.with_name) h += static_cast<float>(l.lines_n) * small_ * style::line_text;
  return std::ceil(h);
}

// Tries the label on its slab, on a tag of its own ground.
bool PieceBlock::fit_inside(Frame& f, std::size_t i, SlabLabel& l, bool with_name,
                            bool with_amount) {
  const std::vector<Point>& s = slabs_[i];
  if (s.size() < 3) return false;
  l.with_name = with_name;
  l.with_amount = with_amount;
  const float room = f.px(style::grid), pad = f.px(style::grid) * 1.5F;
  const Point mid = middle_of(s);
  for (const float share : {0.92F, 0.6F}) {  // the name on one line, or broken
    float left = 1e9F, right = -1e9F;
    for (const Point p : s) {
      left = std::min(left, p.x);
      right = std::max(right, p.x);
    }
    if (with_name) name_lines(f, l, (right - left) * share - 2 * pad);
    if (with_name && l.lines_n > 2) return false;
    l.w = label_width(f, l) + 2 * pad;
    l.h = label_height(l) + pad;
    // Also a little off the middle: the ends are not symmetrical.
    for (const float off : {0.0F, 0.06F, -0.06F, 0.12F, -0.12F}) {
      l.x = mid.x - l.w / 2 + off * (right - left);
      l.y = mid.y - l.h / 2;
      if (inside(s, l.x, l.y, room) && inside(s, l.x + l.w, l.y, room) &&
          inside(s, l.x, l.y + l.h, room) && inside(s, l.x + l.w, l.y + l.h, room)) {
        l.where = SlabLabel::Where::inside;
        return true;
      }
    }
  }
  return false;
}

// The labels that found no room in their slabs, in a row in the same order; leaders cannot cross.
void PieceBlock::place_row(Frame& f, float width, LabelSide side, bool with_list) {
  row_h_ = 0;
  if (!with_list) return;
  const float apart = f.px(style::gap);
  std::vector<std::size_t> row;
  float total = 0;
  for (std::size_t i = 0; i < labels_.size(); ++i) {
    SlabLabel& l = labels_[i];
    if (l.where == SlabLabel::Where::inside || slabs_[i].empty() || l.amount.empty()) continue;
    l.with_name = l.with_amount = true;
    const float word = f.word_width(l.name, small_);  // as narrow as its longest word
    name_lines(f, l,
               std::max({word + 1, f.text_width(l.amount, small_), f.text_width(l.share, lead_)}));
    l.w = label_width(f, l);
    l.h = label_height(l);
    row.push_back(i);
    total += l.w + (row.size() > 1 ? apart : 0);
  }
  if (row.empty() || total > width) return;
  float edge = 0;
  for (const std::size_t i : row) {
    SlabLabel& l = labels_[i];
    l.where = SlabLabel::Where::row;
    l.x = std::max(edge, middle_of(slabs_[i]).x - l.w / 2);
    edge = l.x + l.w + apart;
    row_h_ = std::max(row_h_, l.h);
  }
  edge = width;
  for (const std::size_t i : std::views::reverse(row)) {
    SlabLabel& l = labels_[i];
    l.x = std::min(l.x, edge - l.w);
    edge = l.x - apart;
  }
  for (const std::size_t i : row) {
    SlabLabel& l = labels_[i];
    l.y = side == LabelSide::above ? -row_gap_ - l.h : h_ + side_ + row_gap_;
  }
  row_h_ += row_gap_;
}

float PieceBlock::list_height(const Frame& f) const {
  float h = 0;
  for (const SlabLabel& l : labels_) {
    if (l.where == SlabLabel::Where::list && !l.amount.empty()) {
      h += std::max(f.px(style::swatch_small), small_ * style::line_text) + f.px(style::grid);
    }
  }
  return h > 0 ? h + f.px(style::gap) : 0;
}

float PieceBlock::title_height(const Frame& f) const {
  return title_.empty() && whole_text_.empty()
             ? 0
             : std::ceil(title_type_ * style::line_text) + f.px(style::grid);
}

float PieceBlock::edge_at(std::size_t i, float x, bool top) const {
  float y = top ? h_ : 0;
  const std::vector<Point>& s = slabs_[i];
  for (std::size_t k = 0; k < s.size(); ++k) {
    const Point a = s[k], b = s[(k + 1) % s.size()];
    if ((a.x <= x) == (b.x <= x)) continue;
    const float at = a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
    y = top ? std::min(y, at) : std::max(y, at);
  }
  return y;
}

void PieceBlock::span_at(std::size_t i, float y_share, float& left, float& right) const {
  const float y = h_ * y_share;
  left = 1e9F;
  right = -1e9F;
  const std::vector<Point>& s = slabs_[i];
  for (std::size_t k = 0; k < s.size(); ++k) {
    const Point a = s[k], b = s[(k + 1) % s.size()];
    if ((a.y <= y) == (b.y <= y)) continue;
    const float x = a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y);
    left = std::min(left, x);
    right = std::max(right, x);
  }
  if (left <= right) return;
  if (s.empty()) {
    left = right = static_cast<float>(cuts_[i] - cut_lean * static_cast<double>(y)) - kerf_ / 2;
    left = right = std::clamp(left, shift_ + h_ * 0.1F, shift_ + w_ - h_ * 0.05F);
  } else {  // a slab that does not reach this height
    left = right = middle_of(s).x;
  }
}

}  // namespace tallyblock
