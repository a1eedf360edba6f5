// The piece from above onto the page: its parts, its stations, the way to their handles.
#include "cut_paint.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "vec.h"

namespace tallyblock {
namespace {

void broken_line(ImDrawList* draw, Point a, Point b, Colour colour, float width, float dash) {
  const float len = std::hypot(b.x - a.x, b.y - a.y);
  if (len <= 0) return;
  const auto on = [&](float at) {
    const float t = std::min(at, len) / len;
    return ImVec2(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t);
  };
  for (float at = 0; at < len; at += dash * 1.7F) {
    draw->AddLine(on(at), on(at + dash), colour, width);
  }
}

}  // namespace

bool FromAbove::is_drawn(const CutBlockShape& b) const {
  const auto& spans = plot_.spans();
  return std::any_of(spans.begin(), spans.end(), [&](const CutSpan& s) {
    return s.block >= 0 && &d_.blocks[static_cast<std::size_t>(s.block)] == &b;
  });
}

void FromAbove::paint(Frame& f, const Rect& r) {
  if (!plot_.is_piece()) return;
  x_ = r.x + f.px(style::cut_side);
  y_ = r.y + head_ + band_ / 2;
  ruler_ = std::round(r.y + head_ + band_ + side_ + f.px(style::grid));
  paint_cells(f);
  paint_stations(f);
  paint_tags(f);
  if (has_ruler_) paint_ruler(f);
  if (next_ >= 0) paint_next(f, r);
  if (readings_ > 0) paint_readings(f, r);
  if (leaders_) paint_leaders(f, r);
}

FromAbove::Dress FromAbove::dress_of(const Frame& f, const CutSpan& span) const {
  const Palette& p = f.colours();
  const float thin = f.px(style::edge);
  const Colour lit_edge = p.of(Look::primary).edge;
  if (span.trim) return {Fill::hatched, p.of(Look::unusable_trim).edge, thin, false};
  const bool gone = span.to <= plot_.cut_to() + 0.01F;
  if (span.block < 0) {
    if (gone) return {Fill::faint, p.edge, thin, false};
    if (!d_.blocks.empty()) return {Fill::pale, p.edge, thin, false};
    return {Fill::lit, lit_edge, thin, false};
  }
  switch (d_.blocks[static_cast<std::size_t>(span.block)].state) {
    case CutState::planned:
      if (gone) return {Fill::faint, p.edge, thin, false};
      if (next_ >= 0) return {Fill::pale, p.edge, thin, false};
      break;
    case CutState::next: return {Fill::lit, p.ink, f.px(style::ring), false};
    case CutState::cut: return {Fill::faint, p.edge, thin, false};
    case CutState::short_:
    case CutState::over: return {Fill::warned, p.warn, f.px(style::edge_state), false};
    case CutState::unweighed: return {Fill::faint, p.edge, f.px(style::edge_state), true};
    case CutState::taken_out: return {Fill::empty, p.edge, thin, true};
  }
  return {Fill::lit, lit_edge, thin, false};
}

void FromAbove::paint_cells(const Frame& f) const {
  const float kerf = f.px(style::kerf_thin);
  const CutSpan* lit = nullptr;  // the next block: over the edges of its neighbours
  const auto paint_span = [&](const CutSpan& span) {
    const float w = (span.to - span.from) * plot_.scale();
    if (span.block < 0 && !span.trim && !d_.blocks.empty() && w <= 2 * kerf) return;  // a saw cut
    const Dress dress = dress_of(f, span);
    for (std::size_t piece = 0; piece + 1 < span.shares.size(); ++piece) {
      paint_cell(f, plot_.cell(span, piece, std::min(kerf, w / 3)), dress,
                 piece + 2 == span.shares.size());
    }
  };
  for (const CutSpan& span : plot_.spans()) {
    if (next_ >= 0 && span.block == next_) {
      lit = &span;
    } else {
      paint_span(span);
    }
  }
  if (lit != nullptr) paint_span(*lit);
}

void FromAbove::paint_cell(const Frame& f, const std::vector<CutPoint>& cell, const Dress& dress,
                           bool has_side) const {
  if (cell.size() < 4) return;
  if (has_side) paint_side(f, cell, dress.fill);
  const std::size_t n = cell.size();
  const auto at = [&](std::size_t i) { return Point{x_ + cell[i].x, y_ + cell[i].y}; };
  const ImDrawListFlags flags = f.draw()->Flags;
  f.draw()->Flags &= ~ImDrawListFlags_AntiAliasedFill;  // no seams at the stations
  for (std::size_t i = 0; i + 1 < n / 2; ++i) {
    fill_part(f, {at(i), at(i + 1), at(n - 2 - i), at(n - 1 - i)},
              fill_between(cell[i], cell[i + 1], dress.fill));
  }
  f.draw()->Flags = flags;
  paint_edge(f, cell, dress);
}

bool FromAbove::is_solid(const CutPoint& a, const CutPoint& b) const {
  return plot_.is_solid(((a.x + b.x) / 2 - plot_.x(0)) / plot_.scale());
}

// Before there are blocks, what is measured is lit and the rest pale.
FromAbove::Fill FromAbove::fill_between(const CutPoint& a, const CutPoint& b, Fill fill) const {
  return fill == Fill::lit && d_.blocks.empty() && !is_solid(a, b) ? Fill::pale : fill;
}

void FromAbove::fill_part(const Frame& f, const std::vector<Point>& part, Fill fill) const {
  const Palette& p = f.colours();
  const auto plain = [&](Colour colour) {
    f.draw()->AddQuadFilled(vec(part[0]), vec(part[1]), vec(part[2]), vec(part[3]), colour);
  };
  const LookColours pale = {p.raised, p.edge_soft, p.edge, p.sunk};
  switch (fill) {
    case Fill::lit:
      fill_texture(f.draw(), part, p.of(Look::primary), Look::primary, 0, texture_);
      break;
    case Fill::pale: fill_texture(f.draw(), part, pale, Look::primary, 0, texture_); break;
    case Fill::hatched:
      fill_texture(f.draw(), part, p.of(Look::unusable_trim), Look::unusable_trim, 0, texture_,
                   true);
      break;
    case Fill::faint: plain(p.sunk); break;
    case Fill::warned: plain(p.warn_ground); break;
    case Fill::empty: break;
  }
}

// The lower edge drawn out downwards, as on the block of the piece picture.
void FromAbove::paint_side(const Frame& f, const std::vector<CutPoint>& cell, Fill fill) const {
  const Palette& p = f.colours();
  if (fill == Fill::faint || fill == Fill::empty) return;
  for (std::size_t i = cell.size() / 2; i + 1 < cell.size(); ++i) {
    const Fill part = fill_between(cell[i], cell[i + 1], fill);
    const Colour colour = part == Fill::lit       ? p.of(Look::primary).side
                          : part == Fill::hatched ? p.of(Look::unusable_trim).side
                                                  : p.edge_soft;
    const ImVec2 a(x_ + cell[i].x, y_ + cell[i].y), b(x_ + cell[i + 1].x, y_ + cell[i + 1].y);
    f.draw()->AddQuadFilled(b, a, ImVec2(a.x, a.y + side_), ImVec2(b.x, b.y + side_), colour);
  }
}

// Broken where it rests on a station that is not measured.
void FromAbove::paint_edge(const Frame& f, const std::vector<CutPoint>& cell,
                           const Dress& dress) const {
  std::vector<Point> shape;
  shape.reserve(cell.size());
  for (const CutPoint& p : cell) shape.push_back({x_ + p.x, y_ + p.y});
  const float dash = f.px(style::dash);
  if (dress.broken) {
    return dashed_outline(f.draw(), shape, dress.edge, dress.width, dash);
  }
  bool all = true;
  for (std::size_t i = 0; i < cell.size(); ++i) {
    all = all && is_solid(cell[i], cell[(i + 1) % cell.size()]);
  }
  if (all || !d_.blocks.empty()) return outline(f.draw(), shape, dress.edge, dress.width);
  for (std::size_t i = 0; i < cell.size(); ++i) {
    const std::size_t k = (i + 1) % cell.size();
    if (is_solid(cell[i], cell[k])) {
      f.draw()->AddLine(vec(shape[i]), vec(shape[k]), dress.edge, dress.width);
    } else {
      broken_line(f.draw(), shape[i], shape[k], f.colours().edge, f.px(style::edge_state), dash);
    }
  }
}

// Where the tape goes across: a groove, and on down to the ruler.
void FromAbove::paint_stations(const Frame& f) const {
  if (!leaders_ && d_.chosen < 0) return;
  const Palette& p = f.colours();
  for (int turn = 0; turn < 2; ++turn) {  // the chosen one last, over its neighbours
    for (std::size_t i = 0; i < d_.stations.size(); ++i) {
      const CutStation& s = d_.stations[i];
      const bool chosen = static_cast<int>(i) == d_.chosen;
      const bool at_end = s.at <= 0 || s.at >= plot_.length();  // the outline is there already
      if (chosen != (turn == 1) || (at_end && !chosen)) continue;
      const float x = page_x(s.at), h = plot_.half(s.at);
      const Point top = {x, y_ - h}, foot = {x, y_ + h + side_};
      const Colour ink = chosen ? p.accent : p.edge;
      f.draw()->AddLine(vec(top), vec(foot), p.raised,
                        f.px(chosen ? style::groove_chosen : style::groove));
      if (s.width > 0) {
        f.draw()->AddLine(vec(top), vec(foot), ink,
                          f.px(chosen ? style::tape_chosen : style::tape));
      } else {
        broken_line(f.draw(), top, foot, ink, f.px(chosen ? style::tape_chosen : style::tape),
                    f.px(style::dash));
      }
    }
  }
}

// To the handle where it lies below its station, else to the nearest point of its upper edge; to one
// of a lower row down the lane beside its column.
void FromAbove::paint_leaders(const Frame& f, const Rect& r) const {
  const Palette& p = f.colours();
  std::size_t row = 0;
  for (std::size_t i = 0; i < handles_.size() && i < d_.stations.size(); ++i) {
    const auto rect = [&](std::size_t h) {
      return f.nodes[static_cast<std::size_t>(handles_[h])].r;
    };
    const Rect to = rect(i);
    row = i > 0 && rect(i - 1).x == to.x ? row + 1 : 0;
    const bool chosen = static_cast<int>(i) == d_.chosen;
    const Colour colour = chosen ? p.accent : p.edge;
    const float at = d_.stations[i].at, x = page_x(at),
                width = f.px(chosen ? style::ring : style::edge);
    const float inner = f.px(style::pad);
    const float end = row == 0 ? std::clamp(x, to.x + inner, to.right() - inner)
                               : to.right() + f.px(style::lane) * static_cast<float>(row);
    ImDrawList* draw = f.draw();
    draw->PathClear();
    draw->PathLineTo(ImVec2(x, lower_edge(at) + side_));
    draw->PathLineTo(ImVec2(x, ruler_ + f.px(style::tick_long)));
    draw->PathLineTo(ImVec2(end, r.bottom()));
    if (row > 0) {
      draw->PathLineTo(ImVec2(end, to.y + to.h / 2));
      draw->PathLineTo(ImVec2(to.right(), to.y + to.h / 2));
    }
    draw->PathStroke(colour, 0, width);
    draw->AddNgonFilled(ImVec2(x, ruler_), f.px(chosen ? style::knob_chosen : style::knob), colour,
                        12);
  }
}

}  // namespace tallyblock
