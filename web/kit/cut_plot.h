// The piece from above as geometry: in mm along it, in page pixels on it. Only the cut drawing uses it.
//
// Pixels count from the left edge of the box and from the middle line of the piece, y downwards.
#pragma once
#include <algorithm>
#include <vector>

#include "cut_drawing.h"

namespace tallyblock {

// A part of the length: a block, an end that is lost, or what no block takes.
struct CutSpan {
  float from = 0, to = 0;
  int block = -1;
  bool trim = false;
  std::vector<float> shares;  // of the width: 0, the splits, 1
};

class CutPlot {
 public:
  explicit CutPlot(const CutDrawing& drawing);
  bool is_piece() const { return length_ > 0; }
  // Into a width and a greatest height, true to scale.
  void fit(float w, float most_h);
  float scale() const { return scale_; }  // page pixels per mm
  float high() const { return widest_ * scale_; }
  float length() const { return length_; }
  float cut_to() const { return cut_to_; }
  float x(float at) const { return left_ + std::clamp(at, 0.0F, length_) * scale_; }
  float y(float at, float share) const { return (share - 0.5F) * width_at(at) * scale_; }
  float half(float at) const { return width_at(at) * scale_ / 2; }
  float width_at(float at) const;  // mm
  // Measured on both sides of it.
  bool is_solid(float at) const;
  // from, the stations between, to.
  std::vector<float> breaks(float from, float to) const;
  const std::vector<CutSpan>& spans() const { return spans_; }
  // One long piece of a span as an outline, its cuts `kerf` pixels wide; empty: nothing is left.
  std::vector<CutPoint> cell(const CutSpan& span, std::size_t piece, float kerf) const;

 private:
  struct Knot {
    float at, width;
    bool measured;
  };
  void add_knots(const CutDrawing& drawing);
  void add_spans(const CutDrawing& drawing);
  void add_rest(const CutDrawing& drawing, float from, float to);
  void add_span(const CutDrawing& drawing, float from, float to, int block);

  float length_ = 0, widest_ = 0, scale_ = 1, left_ = 0;
  float trim_front_ = 0, trim_back_ = 0, cut_to_ = 0;
  std::vector<Knot> knots_;
  std::vector<CutSpan> spans_;
};

// Splits that lie inside and follow each other, with 0 before and 1 behind.
std::vector<float> shares_of(const std::vector<float>& split_at);

}  // namespace tallyblock
