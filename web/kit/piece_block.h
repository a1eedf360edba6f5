// One block of the piece picture: its slabs on the page, and the labels around it.
//
// plan() decides where each label goes: into its slab if it fits, else into a row above or below with
// a leader line, else into a list beneath. Labels never overlap and are never cut.
#pragma once
#include <string_view>
#include <vector>

#include "frame.h"
#include "piece_picture.h"
#include "piece_shape.h"

namespace tallyblock {

enum class LabelSide : std::uint8_t { below, above };

struct SlabLabel {
  enum class Where : std::uint8_t { inside, row, list } where = Where::list;
  std::string_view name, amount, share;
  Look look{};
  std::uint8_t variant = 0;
  bool lit = false;
  int lines_at = 0, lines_n = 0;     // of the name, in PieceBlock::lines
  float x = 0, y = 0, w = 0, h = 0;  // relative to the block's top left
  bool with_name = true, with_amount = true;
};

class PieceBlock {
 public:
  // Copies what is needed into the frame's arena.
  PieceBlock(Frame& f, const Piece& piece, std::uint32_t id);

  // Lays the block out: its own height is h, the labels' rows and list are returned by the heights.
  // Without a list a slab shows its share alone, where it fits. Not labelled: the shape alone.
  void plan(Frame& f, float width, float h, LabelSide side, bool with_list, bool labelled = true);
  float row_height() const { return row_h_; }
  float list_height(const Frame& f) const;
  float title_height(const Frame& f) const;
  float full_height() const { return h_ + side_; }  // with the side face

  void paint_title(Frame& f, float x, float y, float width) const;
  // Top left of the block. Labels above have their row over it.
  void paint(Frame& f, float x, float y);
  // Where its slabs were painted, for the target `id` that they are parts of.
  void add_regions(Frame& f, std::uint32_t id, float x, float y) const;
  void paint_list(Frame& f, float x, float y, float width) const;

  // Where slab i meets the horizontal line, as drawn last; both equal when it has no area.
  void span_at(std::size_t i, float y_share, float& left, float& right) const;
  std::size_t size() const { return labels_.size(); }
  const SlabLabel& label(std::size_t i) const { return labels_[i]; }
  const std::vector<Point>& slab(std::size_t i) const { return slabs_[i]; }
  float edge_at(std::size_t i, float x, bool top) const;  // y of the slab's upper or lower edge
  static std::string sentence_of(const Piece& piece);

 private:
  void cut(std::span<const double> values);
  float label_width(const Frame& f, const SlabLabel& l) const;
  bool fit_inside(Frame& f, std::size_t i, SlabLabel& l, bool with_name, bool with_amount);
  void name_lines(Frame& f, SlabLabel& l, float width);
  float label_height(const SlabLabel& l) const;
  void place_row(Frame& f, float width, LabelSide side, bool with_list);
  void draw_side(const Frame& f, const std::vector<Point>& slab, Colour colour) const;
  void paint_label(const Frame& f, const SlabLabel& l, float x, float y) const;
  void paint_leader(const Frame& f, std::size_t i, float x, float y) const;

  std::uint32_t id_;
  std::string_view title_, whole_text_;
  double whole_ = 0;
  std::vector<double> values_;
  std::vector<SlabLabel> labels_;  // slabs, then the rest
  std::vector<std::string_view> lines_;
  std::vector<std::vector<Point>> slabs_, beyond_;  // beyond_: what of each is more than the whole
  std::vector<double> cuts_;
  std::vector<Point> shape_;
  float w_ = 0, h_ = 0, side_ = 0, kerf_ = 0, shift_ = 0, row_h_ = 0, row_gap_ = 0;
  float small_ = 14, lead_ = 20, title_type_ = 20;
  bool above_ = false;
};

}  // namespace tallyblock
