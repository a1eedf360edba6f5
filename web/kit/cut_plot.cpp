#include "cut_plot.h"

#include <cmath>

#include "style.h"

namespace tallyblock {
namespace {

constexpr float most_mm = 1e5F;  // no piece is longer or wider

bool is_length(float mm) { return std::isfinite(mm) && mm > 0 && mm <= most_mm; }

bool makes_piece(const CutDrawing& d) {
  if (!is_length(d.length) || d.stations.empty()) return false;
  float before = -1;
  for (const CutStation& s : d.stations) {
    const bool has_width = s.width == 0.0F || is_length(s.width);
    const bool has_place = s.at == 0.0F || is_length(s.at);
    if (!has_width || !has_place || s.at <= before || s.at > d.length * 1.0001F) return false;
    before = s.at;
  }
  return true;
}

float inside(float mm, float length) {
  return std::isfinite(mm) ? std::clamp(mm, 0.0F, length) : 0;
}

}  // namespace

std::vector<float> shares_of(const std::vector<float>& split_at) {
  std::vector<float> shares = {0};
  for (const float s : split_at) {
    if (s > shares.back() && s < 1) shares.push_back(s);
  }
  shares.push_back(1);
  return shares;
}

CutPlot::CutPlot(const CutDrawing& d) {
  if (!makes_piece(d)) return;
  length_ = d.length;
  trim_front_ = inside(d.trim_front, length_);
  trim_back_ = length_ - inside(d.trim_back, length_ - trim_front_);
  cut_to_ = inside(d.cut_to, length_);
  add_knots(d);
  add_spans(d);
}

void CutPlot::add_knots(const CutDrawing& d) {
  float last = 0;
  for (const CutStation& s : d.stations) {
    knots_.push_back({s.at, s.width, s.width > 0});
    if (s.width > 0 && last <= 0) last = s.width;
    widest_ = std::max(widest_, s.width);
  }
  if (widest_ <= 0) widest_ = last = length_ * style::cut_nominal;
  // What is not measured lies on the line between its neighbours, or goes on as the last one.
  Knot before = {-1, last, false};
  for (std::size_t i = 0; i < knots_.size(); ++i) {
    if (!knots_[i].measured) {
      std::size_t next = i;
      while (next < knots_.size() && !knots_[next].measured) ++next;
      const bool between = before.measured && next < knots_.size();
      const float t = between ? (knots_[i].at - before.at) / (knots_[next].at - before.at) : 0;
      knots_[i].width = before.width + (between ? (knots_[next].width - before.width) * t : 0);
    } else {
      before = knots_[i];
    }
  }
}

void CutPlot::add_spans(const CutDrawing& d) {
  float done = 0;
  for (std::size_t i = 0; i < d.blocks.size(); ++i) {
    const CutBlockShape& b = d.blocks[i];
    if (!std::isfinite(b.from) || !std::isfinite(b.to)) continue;
    const float slack = length_ * 1e-4F, from = std::max(b.from, done),
                to = std::min(b.to, length_);
    if (b.from < done - slack || b.to > length_ + slack || !(to > from)) continue;
    add_rest(d, done, from);
    add_span(d, from, to, static_cast<int>(i));
    done = to;
  }
  add_rest(d, done, length_);
}

void CutPlot::add_rest(const CutDrawing& d, float from, float to) {
  for (float at = from; at < to;) {
    float end = to;
    const auto stop = [&](float place) {
      if (place > at && place < end) end = place;
    };
    stop(trim_front_);
    stop(trim_back_);
    for (const CutSectionShape& s : d.sections) {
      stop(s.from);
      stop(s.to);
    }
    add_span(d, at, end, -1);
    at = end;
  }
}

void CutPlot::add_span(const CutDrawing& d, float from, float to, int block) {
  if (!(to > from)) return;
  const float middle = (from + to) / 2;
  const bool trim = block < 0 && (middle < trim_front_ || middle > trim_back_);
  CutSpan span = {from, to, block, trim, {0, 1}};
  for (const CutSectionShape& s : d.sections) {
    if (!trim && s.from <= middle && middle < s.to) span.shares = shares_of(s.split_at);
  }
  spans_.push_back(std::move(span));
}

float CutPlot::width_at(float at) const {
  if (at <= knots_.front().at) return knots_.front().width;
  for (std::size_t i = 1; i < knots_.size(); ++i) {
    const Knot &a = knots_[i - 1], &b = knots_[i];
    if (at <= b.at) return a.width + (b.width - a.width) * (at - a.at) / (b.at - a.at);
  }
  return knots_.back().width;
}

bool CutPlot::is_solid(float at) const {
  for (std::size_t i = 1; i < knots_.size(); ++i) {
    const Knot &a = knots_[i - 1], &b = knots_[i];
    if (at >= a.at && at <= b.at) return a.measured && b.measured;
  }
  return false;
}

void CutPlot::fit(float w, float most_h) {
  scale_ = std::min(w / length_, most_h / widest_);
  left_ = (w - length_ * scale_) / 2;
}

std::vector<float> CutPlot::breaks(float from, float to) const {
  std::vector<float> at = {from};
  for (const Knot& k : knots_) {
    if (k.at > from && k.at < to) at.push_back(k.at);
  }
  at.push_back(to);
  return at;
}

std::vector<CutPoint> CutPlot::cell(const CutSpan& span, std::size_t piece, float kerf) const {
  const float gap = kerf / 2 / scale_;
  const float from = span.from > 0 ? span.from + gap : span.from;
  const float to = span.to < length_ ? span.to - gap : span.to;
  if (!(to > from)) return {};
  const float above = piece == 0 ? 0 : kerf / 2;
  const float below = piece + 2 == span.shares.size() ? 0 : kerf / 2;
  const std::vector<float> at = breaks(from, to);
  std::vector<CutPoint> outline;
  outline.reserve(at.size() * 2);
  for (const float a : at) outline.push_back({x(a), y(a, span.shares[piece]) + above});
  for (std::size_t i = at.size(); i-- > 0;) {
    const float top = y(at[i], span.shares[piece]) + above;
    outline.push_back({x(at[i]), std::max(top, y(at[i], span.shares[piece + 1]) - below)});
  }
  return outline;
}

// ---- for tests

std::vector<CutPoint> cut_outline(const CutDrawing& drawing, float w, float h) {
  CutPlot plot(drawing);
  if (!plot.is_piece()) return {};
  plot.fit(w, h);
  CutSpan whole = {0, plot.length(), -1, false, {0, 1}};
  std::vector<CutPoint> outline = plot.cell(whole, 0, 0);
  for (CutPoint& p : outline) p.y += h / 2;
  return outline;
}

std::vector<CutCell> cut_cells(const CutDrawing& drawing, float w, float h) {
  CutPlot plot(drawing);
  if (!plot.is_piece()) return {};
  plot.fit(w, h);
  std::vector<CutCell> cells;
  for (const CutSpan& span : plot.spans()) {
    for (std::size_t piece = 0; piece + 1 < span.shares.size(); ++piece) {
      CutCell cell = {span.block, span.trim, static_cast<int>(piece), plot.cell(span, piece, 0)};
      for (CutPoint& p : cell.outline) p.y += h / 2;
      cells.push_back(std::move(cell));
    }
  }
  return cells;
}

}  // namespace tallyblock
