// The face of the piece from the end.
#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "build_parts.h"
#include "cut_drawing.h"
#include "cut_plot.h"
#include "texture.h"

namespace tallyblock {
namespace {

constexpr int kAlongWidth = 48;  // along the width of the face

bool is_face(const CutFaceShape& face) {
  const auto known = [](float mm) { return std::isfinite(mm) && mm > 0 && mm < 1e5F; };
  return known(face.width) && known(face.depth) && std::isfinite(face.exponent);
}

// Across at which to draw the edge: denser at the sides, where an oval turns.
float across_at(int step) {
  return -std::cos(3.14159265F * static_cast<float>(step) / static_cast<float>(kAlongWidth));
}

class FromTheEnd final : public Painter {
 public:
  FromTheEnd(const CutFaceShape& face, bool small) : face_(face), small_(small) {}

  float height(Frame& f, float width) override {
    if (!is_face(face_)) return 0;
    const float size = f.type(style::type_small), arm = f.px(style::tick_long + style::grid);
    below_ = arm + std::ceil(size * style::line_text);
    beside_ = arm + f.px(style::grid) + std::ceil(f.text_width(face_.depth_label, size));
    const float share = small_ ? style::face_height_small : style::face_height;
    const float most = std::max(f.px(style::face_height_least), f.in.height * share);
    scale_ = std::min((width - beside_ - f.px(style::grid)) / face_.width, most / face_.depth);
    scale_ = std::max(scale_, 1e-6F);
    // A number may be higher than a flat face.
    band_ = std::max(std::ceil(face_.depth * scale_), std::ceil(tag_height(f)));
    return band_ + 2 * f.px(style::gap) + below_;
  }

  void paint(Frame& f, const Rect& r) override {
    if (!is_face(face_)) return;
    const float w = face_.width * scale_, h = face_.depth * scale_;
    const Rect box = {std::round(r.x + std::max(f.px(2), (r.w - w - beside_) / 2)),
                      r.y + f.px(style::gap) + (band_ - h) / 2, w, h};
    paint_pieces(f, box);
    paint_measures(f, r, box);
  }

 private:
  void paint_pieces(const Frame& f, const Rect& box) const {
    const Palette& p = f.colours();
    const LookColours& look = p.of(Look::primary);
    const auto cells = face_cells(face_, box.w, box.h);
    const std::vector<float> shares = shares_of(face_.split_at);
    const float kerf = f.px(style::kerf);
    for (std::size_t i = 0; i < cells.size(); ++i) {
      std::vector<Point> shape;
      const float left = shares[i] * box.w, right = shares[i + 1] * box.w;
      for (const CutPoint& c : cells[i]) {  // the knife takes its width from both sides
        const float inset = std::clamp(c.x, left + (i == 0 ? 0 : kerf / 2),
                                       right - (i + 1 == cells.size() ? 0 : kerf / 2));
        shape.push_back({box.x + inset, box.y + c.y});
      }
      fill_texture(f.draw(), shape, look, Look::primary, 0, f.px(1));
      outline(f.draw(), shape, look.edge, f.px(style::edge));
      if (i < face_.piece_labels.size() && cells.size() > 1)
        number(f, face_.piece_labels[i], box.x + (left + right) / 2, box.y + box.h / 2,
               right - left - kerf);
      if (i > 0) split_line(f, box, box.x + left);
    }
  }

  // Beyond the face at both ends, so that it reads as a cut.
  static void split_line(const Frame& f, const Rect& box, float x) {
    const Palette& p = f.colours();
    const float out = f.px(style::gap) - 1, dash = f.px(style::dash);
    for (float y = box.y - out; y < box.bottom() + out; y += 2 * dash) {
      f.draw()->AddLine(ImVec2(x, y), ImVec2(x, std::min(y + dash, box.bottom() + out)), p.ink,
                        f.px(style::edge));
    }
  }

  static float tag_height(const Frame& f) { return f.type(style::type_body) * style::line_text; }

  static void number(const Frame& f, const std::string& label, float x, float y, float room) {
    const float size = f.type(style::type_body), pad = f.px(style::grid);
    const float w = f.text_width(label, size) + 2 * pad, h = std::ceil(tag_height(f));
    if (w > room) return;
    f.draw()->AddRectFilled(ImVec2(x - w / 2, y - h / 2), ImVec2(x + w / 2, y + h / 2),
                            f.colours().raised, f.px(style::corner_small));
    f.draw_text(x - w / 2 + pad, y - size / 2, label, size, f.colours().ink);
  }

  // Width below and depth beside, each along a line from end to end.
  void paint_measures(const Frame& f, const Rect& r, const Rect& box) const {
    const Palette& p = f.colours();
    const float size = f.type(style::type_small), thin = f.px(style::edge), arm = f.px(style::tick);
    const auto line = [&](float ax, float ay, float bx, float by) {
      f.draw()->AddLine(ImVec2(ax, ay), ImVec2(bx, by), p.edge, thin);
    };
    const float y = box.bottom() + f.px(style::tick_long) + f.px(style::gap);
    line(box.x, y, box.right(), y);
    line(box.x, y - arm, box.x, y + arm);
    line(box.right(), y - arm, box.right(), y + arm);
    const float w = f.text_width(face_.width_label, size);
    f.draw_text(std::clamp(box.x + (box.w - w) / 2, r.x, std::max(r.x, r.right() - w)),
                y + f.px(style::grid), face_.width_label, size, p.ink);
    const float x = box.right() + f.px(style::tick_long);
    line(x, box.y, x, box.bottom());
    line(x - arm, box.y, x + arm, box.y);
    line(x - arm, box.bottom(), x + arm, box.bottom());
    f.draw_text(x + f.px(style::gap), box.y + (box.h - size) / 2, face_.depth_label, size, p.ink);
  }

  CutFaceShape face_;
  bool small_;
  float below_ = 0, beside_ = 0, band_ = 0, scale_ = 1;
};

}  // namespace

float face_height(float exponent, float across) {
  const auto power = [](double x, double n) { return std::exp(n * std::log(x)); };  // of 0: 0
  const double x = std::min(std::abs(across), 1.0F), n = exponent;
  if (exponent <= 0) return 1;
  return static_cast<float>(power(std::max(0.0, 1 - power(x, n)), 1 / n));
}

std::vector<std::vector<CutPoint>> face_cells(const CutFaceShape& face, float w, float h) {
  if (!is_face(face)) return {};
  const std::vector<float> shares = shares_of(face.split_at);
  std::vector<std::vector<CutPoint>> cells;
  for (std::size_t i = 0; i + 1 < shares.size(); ++i) {
    const float from = 2 * shares[i] - 1, to = 2 * shares[i + 1] - 1;
    std::vector<float> across = {from};
    for (int k = 1; k < kAlongWidth; ++k) {
      if (across_at(k) > from + 1e-4F && across_at(k) < to - 1e-4F) across.push_back(across_at(k));
    }
    across.push_back(to);
    std::vector<CutPoint> cell;
    cell.reserve(2 * across.size());
    const auto point = [&](float a, float side) {
      return CutPoint{(a + 1) / 2 * w, h / 2 * (1 + side * face_height(face.exponent, a))};
    };
    for (const float a : across) cell.push_back(point(a, -1));
    for (std::size_t k = across.size(); k-- > 0;) {
      if (face_height(face.exponent, across[k]) > 0) cell.push_back(point(across[k], 1));
    }
    cells.push_back(std::move(cell));
  }
  return cells;
}

void cut_face(Kit& kit, std::string_view path, const CutFaceShape& face, bool small) {
  Frame& f = kit.frame();
  const int i = f.add_painter(std::make_unique<FromTheEnd>(face, small));
  f.describe(i, AccessKind::image, Kit::id_of(path), face.name);
}

}  // namespace tallyblock
