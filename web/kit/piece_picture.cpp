#include "piece_picture.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "build_parts.h"
#include "piece_block.h"

namespace tallyblock {
namespace {

enum class Room { slim, pair, one, two };

float block_height(const Frame& f, float width, Room room) {
  if (room == Room::slim) return f.px(style::piece_height_slim);
  if (room == Room::pair) {
    const float low = f.px(style::piece_height_slim) * f.scale.text;
    const bool broad = f.in.width > f.in.height && f.in.height >= f.px(style::broad_height);
    const float most = f.in.height * (broad ? style::piece_pair_broad : style::piece_pair);
    return std::round(std::max(low, std::min(most, width * style::piece_aspect_small)));
  }
  const bool small = room == Room::two && f.in.height < f.px(style::piece_low_screen);
  const float least = small ? style::piece_height_small : style::piece_height;
  const float aspect = small ? style::piece_aspect_small : style::piece_aspect;
  const float screen = f.in.height * (room == Room::one ? 0.34F : 0.2F);
  const float most = std::max(f.px(least), std::min(f.px(style::piece_height_most), screen));
  return std::round(std::clamp(width * aspect, f.px(least), most));
}

class OnePiece : public Painter {
 public:
  OnePiece(Frame& f, const Piece& piece, std::uint32_t id, PieceSize size)
      : block_(f, piece, id), size_(size) {}

  float height(Frame& f, float width) override {
    h_ = block_height(f, width, is_full() ? Room::one : Room::slim);
    plan(f, width);
    const float title = block_.title_height(f);
    all_ = title + block_.full_height() + block_.row_height() +
           (is_full() ? block_.list_height(f) : 0) + f.px(2);
    return all_;
  }

  void paint(Frame& f, const Rect& r) override {
    float over = r.h - all_;
    if (size_ == PieceSize::small && over > 1) {  // it takes the height that is left to it
      const float most = std::min(h_ + over, r.w * style::piece_aspect_most);
      over -= most - h_;
      h_ = most;
      plan(f, r.w);
    }
    block_.paint_title(f, r.x, r.y, r.w);
    top_ = r.y + block_.title_height(f) + std::max(0.0F, std::floor(over / 2));
    block_.paint(f, r.x, top_);
    if (is_full())
      block_.paint_list(f, r.x, top_ + block_.full_height() + block_.row_height(), r.w);
  }

 protected:
  PieceBlock block_;
  float top_ = 0;  // of the block, as painted

 private:
  bool is_full() const { return size_ == PieceSize::full; }
  void plan(Frame& f, float width) { block_.plan(f, width, h_, LabelSide::below, is_full()); }

  float h_ = 0, all_ = 0;
  PieceSize size_;
};

class TouchedPiece final : public OnePiece {
 public:
  TouchedPiece(Frame& f, const Piece& piece, std::uint32_t id)
      : OnePiece(f, piece, id, PieceSize::full), id_(id) {}
  void paint(Frame& f, const Rect& r) override {
    OnePiece::paint(f, r);
    block_.add_regions(f, id_, r.x, top_);
  }

 private:
  std::uint32_t id_;
};

// A point on the way down, slow at both ends.
float eased(float from, float to, float t) { return from + (to - from) * t * t * (3 - 2 * t); }

// What the largest slab comes to is the one label; no list, no name of the rest.
Piece with_one_label(Piece piece) {
  const auto largest = std::ranges::max_element(piece.slabs, {}, &Slab::value);
  for (Slab& slab : piece.slabs) {
    if (&slab != &*largest) {
      slab.share.clear();
    } else if (slab.share.empty()) {
      slab.share = slab.amount;
    }
  }
  return piece;
}

class TwoPieces final : public Painter {
 public:
  TwoPieces(Frame& f, const Piece& weight, const Piece& money, std::uint32_t id, bool full)
      : weight_(f, weight, id), money_(f, money, id * 16777619U + 1), id_(id), full_(full) {}

  float height(Frame& f, float width) override {
    const float h = block_height(f, width, full_ ? Room::two : Room::pair);
    weight_.plan(f, width, h, LabelSide::above, full_);
    money_.plan(f, width, h, LabelSide::below, full_);
    const float least = full_ ? f.px(style::strand_height) : f.px(style::strand_height_small);
    strands_ = std::round(std::clamp(h * 0.5F, least, f.px(style::strand_height_most)));
    const float lists = full_ ? weight_.list_height(f) + money_.list_height(f) : 0;
    return weight_.title_height(f) + weight_.row_height() + weight_.full_height() + strands_ +
           money_.full_height() + money_.row_height() + money_.title_height(f) + lists;
  }

  void paint(Frame& f, const Rect& r) override {
    float y = r.y;
    weight_.paint_title(f, r.x, y, r.w);
    y += weight_.title_height(f);
    if (full_) {
      weight_.paint_list(f, r.x, y, r.w);
      y += weight_.list_height(f);
    }
    y += weight_.row_height();
    const float above = y;
    y += weight_.full_height() + strands_;
    const float money_top = y;
    paint_strands(f, r.x, above, money_top);  // they lie under both blocks
    weight_.paint(f, r.x, above);
    money_.paint(f, r.x, money_top);
    weight_.add_regions(f, id_, r.x, above);
    money_.add_regions(f, id_, r.x, money_top);
    y += money_.full_height() + money_.row_height();
    money_.paint_title(f, r.x, y + f.px(style::grid), r.w);
    y += money_.title_height(f);
    if (full_) money_.paint_list(f, r.x, y, r.w);
  }

 private:
  void paint_strands(Frame& f, float x, float above, float money_top) {
    const std::size_t n = std::min(weight_.size(), money_.size()) - 1;  // not the rests
    for (std::size_t i = 0; i < n; ++i) {
      if (weight_.slab(i).empty() && money_.slab(i).empty()) continue;
      float a0 = 0, a1 = 0, b0 = 0, b1 = 0;
      weight_.span_at(i, 0.95F, a0, a1);
      money_.span_at(i, 0.3F, b0, b1);
      const LookColours& c = f.colours().of(weight_.label(i).look);
      const bool is_pale = weight_.label(i).look > Look::secondary;
      const Colour fill = with_alpha(is_pale ? c.mark : c.fill, is_pale ? 52 : 84), line = c.edge;
      constexpr int steps = 14;
      const float from = above + weight_.full_height() * 0.97F;
      const bool ends = money_.slab(i).empty();
      const float to = money_top + (ends ? -f.px(style::gap)
                                         : std::max(money_.edge_at(i, b0 + 1, true),
                                                    money_.edge_at(i, b1 - 1, true)));
      for (int k = 0; k < steps; ++k) {
        const float t0 = static_cast<float>(k) / steps, t1 = static_cast<float>(k + 1) / steps;
        const float y0 = from + (to - from) * t0, y1 = from + (to - from) * t1;
        const ImVec2 p0(x + eased(a0, b0, t0), y0), p1(x + eased(a1, b1, t0), y0);
        const ImVec2 p2(x + eased(a1, b1, t1), y1), p3(x + eased(a0, b0, t1), y1);
        const ImDrawListFlags flags = f.draw()->Flags;
        f.draw()->Flags &= ~ImDrawListFlags_AntiAliasedFill;  // no seams between the steps
        f.draw()->AddQuadFilled(p0, p1, p2, p3, fill);
        f.draw()->Flags = flags;
        f.draw()->AddLine(p0, p3, line, f.px(style::hair));
        f.draw()->AddLine(p1, p2, line, f.px(style::hair));
      }
    }
  }

  PieceBlock weight_, money_;
  std::uint32_t id_;
  float strands_ = 0;
  bool full_;
};

std::optional<std::size_t> touched_slab(Frame& f, int node, std::uint32_t id, const Piece& piece,
                                        const std::string& sentence) {
  const auto slab = std::ranges::find(piece.slabs, true, &Slab::lit);
  const bool none = slab == piece.slabs.end() && !piece.rest_lit;
  const auto lit = static_cast<std::size_t>(slab - piece.slabs.begin());
  return parts::touched_region(f, node, id, sentence, none ? std::nullopt : std::optional(lit));
}

}  // namespace

void piece_picture(Kit& kit, std::string_view path, const Piece& piece,
                   const PieceOptions& options) {
  Frame& f = kit.frame();
  const std::uint32_t id = Kit::id_of(path);
  Piece drawn = piece;
  if (!options.titled) {
    drawn.title.clear();
    drawn.whole.clear();
  }
  const int i = f.add_painter(std::make_unique<OnePiece>(f, drawn, id, options.size));
  f.node(i).stretch = true;
  f.describe(i, AccessKind::image, id, PieceBlock::sentence_of(piece));
}

std::optional<std::size_t> touched_piece(Kit& kit, std::string_view path, const Piece& piece) {
  Frame& f = kit.frame();
  const std::uint32_t id = Kit::id_of(path);
  const int i = f.add_painter(std::make_unique<TouchedPiece>(f, piece, id));
  f.node(i).stretch = true;
  return touched_slab(f, i, id, piece, PieceBlock::sentence_of(piece));
}

std::optional<std::size_t> weight_and_money(Kit& kit, std::string_view path, const Piece& weight,
                                            const Piece& money, PieceSize size) {
  Frame& f = kit.frame();
  const std::uint32_t id = Kit::id_of(path);
  const bool full = size == PieceSize::full;
  auto painter = std::make_unique<TwoPieces>(f, full ? weight : with_one_label(weight),
                                             full ? money : with_one_label(money), id, full);
  const int i = f.add_painter(std::move(painter));
  return touched_slab(
      f, i, id, weight,
      parts::joined(PieceBlock::sentence_of(weight), " ", PieceBlock::sentence_of(money)));
}

}  // namespace tallyblock
