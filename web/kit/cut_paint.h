// The painter of the piece from above; its drawing is in cut_paint.cpp and cut_marks.cpp.
//
// From the top: number and knife of the next block where they have no room on it, the piece with its
// side face, the ruler, the readings of the marks, the leaders to the handles.
#pragma once
#include <string>
#include <vector>

#include "cut_drawing.h"
#include "cut_plot.h"
#include "texture.h"

namespace tallyblock {

class FromAbove final : public Painter {
 public:
  FromAbove(const CutDrawing& drawing, bool small, bool leaders);
  float height(Frame& f, float width) override;
  void paint(Frame& f, const Rect& r) override;
  // The nodes of the handles, one for each station.
  void add_handle(int node) { handles_.push_back(node); }

 private:
  enum class Fill { lit, pale, faint, hatched, warned, empty };
  struct Dress {
    Fill fill = Fill::lit;
    Colour edge = 0;
    float width = 0;
    bool broken = false;
  };
  // A reading below the ruler.
  struct Reading {
    std::size_t block = 0;
    float x = 0, left = 0, w = 0;
    float middle() const { return left + w / 2; }
  };

  // cut_paint.cpp
  Dress dress_of(const Frame& f, const CutSpan& span) const;
  void paint_cells(const Frame& f) const;
  void paint_cell(const Frame& f, const std::vector<CutPoint>& cell, const Dress& dress,
                  bool has_side) const;
  void paint_side(const Frame& f, const std::vector<CutPoint>& cell, Fill fill) const;
  void paint_edge(const Frame& f, const std::vector<CutPoint>& cell, const Dress& dress) const;
  bool is_solid(const CutPoint& a, const CutPoint& b) const;
  Fill fill_between(const CutPoint& a, const CutPoint& b, Fill fill) const;
  void fill_part(const Frame& f, const std::vector<Point>& part, Fill fill) const;
  void paint_stations(const Frame& f) const;
  void paint_leaders(const Frame& f, const Rect& r) const;

  // cut_marks.cpp
  void paint_tags(const Frame& f) const;
  void paint_tag(const Frame& f, const CutBlockShape& b, bool with_label, float size) const;
  void paint_sign(const Frame& f, CutState state, float x, float y, float size) const;
  void paint_next(const Frame& f, const Rect& r) const;
  void paint_ruler(const Frame& f) const;
  void paint_readings(const Frame& f, const Rect& r) const;
  std::vector<Reading> readings(const Frame& f, const Rect& r) const;
  std::size_t label_step(const Frame& f, float size) const;
  float number_size(const Frame& f) const;
  float next_size(const Frame& f) const;
  float block_width(const CutBlockShape& b) const;
  bool fits_inside(const Frame& f, const CutBlockShape& next) const;

  bool is_drawn(const CutBlockShape& b) const;
  float page_x(float at) const { return x_ + plot_.x(at); }
  float lower_edge(float at) const { return y_ + plot_.half(at); }

  CutDrawing d_;
  CutPlot plot_;
  bool small_, leaders_, has_ruler_ = true;
  int next_ = -1;  // the block that is next
  std::vector<int> handles_;
  float head_ = 0, band_ = 0, side_ = 0, readings_ = 0;  // heights
  float texture_ = 1;                                    // its scale
  float x_ = 0, y_ = 0, ruler_ = 0;  // left edge, middle line, top of the ruler, on the page
};

}  // namespace tallyblock
