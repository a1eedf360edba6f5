#include "spread.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "frame.h"
#include "texture.h"

namespace tallyblock {
namespace {

class Strip final : public Painter {
 public:
  explicit Strip(const SpreadDrawing& spread) : s_(spread) {
    // The band takes a third of the width at least, so that its neighbourhood is seen.
    reach_ = 1.5F * s_.tolerance;
    for (const float value : s_.values) {
      if (std::isfinite(value)) reach_ = std::max(reach_, 1.05F * std::abs(value - s_.target));
    }
    reach_ = std::min(reach_, 4 * s_.tolerance);
  }

  float height(Frame& f, float) override {
    words_ = f.type(style::type_small) * style::line_text;
    return f.px(style::spread_height) + words_ + f.px(style::grid);
  }

  void paint(Frame& f, const Rect& r) override {
    if (!(s_.tolerance > 0) || !std::isfinite(reach_)) return;
    const Palette& p = f.colours();
    const float high = f.px(style::spread_height), bottom = r.y + high;
    const float low = x(r, s_.target - s_.tolerance), up = x(r, s_.target + s_.tolerance);
    f.draw()->AddRectFilled(ImVec2(low, r.y), ImVec2(up, bottom), p.good_ground);
    f.draw()->AddRect(ImVec2(low, r.y), ImVec2(up, bottom), p.edge, 0, 0, f.px(style::edge));
    f.draw()->AddLine(ImVec2(r.x, bottom), ImVec2(r.right(), bottom), p.edge, f.px(style::edge));
    const float target = x(r, s_.target);
    f.draw()->AddLine(ImVec2(target, r.y), ImVec2(target, bottom), p.ink, f.px(style::edge));
    paint_values(f, r, bottom);
    // The limits' labels stand apart from the target's, however close the limits are.
    const float size = f.type(style::type_small);
    const float clear = f.text_width(s_.target_label, size) / 2 + f.px(style::grid);
    const float low_half = f.text_width(s_.low_label, size) / 2;
    const float high_half = f.text_width(s_.high_label, size) / 2;
    label(f, r, s_.low_label, std::min(low, target - clear - low_half), bottom, p.quiet);
    label(f, r, s_.high_label, std::max(up, target + clear + high_half), bottom, p.quiet);
    label(f, r, s_.target_label, target, bottom, p.ink);
  }

 private:
  float x(const Rect& r, float value) const {
    const float share = std::clamp((value - s_.target) / reach_, -1.0F, 1.0F);
    return r.x + r.w / 2 + share * (r.w / 2 - 8);
  }

  // Equal weights stand above each other; those out of tolerance are turned.
  void paint_values(const Frame& f, const Rect& r, float bottom) const {
    const LookColours& c = f.colours().of(Look::primary);
    const float size = f.px(style::spread_mark), step = size * 2.2F;
    std::vector<float> taken;
    for (const float value : s_.values) {
      if (!std::isfinite(value)) continue;
      const float at = x(r, value);
      const auto below = std::count_if(
          taken.begin(), taken.end(), [&](float other) { return std::abs(other - at) < 2 * size; });
      taken.push_back(at);
      const float y = std::max(r.y + size, bottom - size * 1.6F - step * static_cast<float>(below));
      const bool off = std::abs(value - s_.target) > s_.tolerance * 1.000001F;
      if (off) {
        const Point shape[] = {{at, y - size}, {at + size, y}, {at, y + size}, {at - size, y}};
        fill_texture(f.draw(), shape, f.colours().of(Look::unusable_trim), Look::unweighed, 0, 1);
        outline(f.draw(), shape, f.colours().ink, f.px(style::edge));
      } else {
        f.draw()->AddNgonFilled(ImVec2(at, y), size, c.fill, 12);
        f.draw()->AddNgon(ImVec2(at, y), size, c.edge, 12, f.px(style::edge));
      }
    }
  }

  void label(const Frame& f, const Rect& r, std::string_view text, float at, float top,
             Colour colour) const {
    const float size = f.type(style::type_small), w = f.text_width(text, size);
    const float left = std::clamp(at - w / 2, r.x, std::max(r.x, r.right() - w));
    f.draw_text(left, top + f.px(style::grid), text, size, colour);
  }

  SpreadDrawing s_;
  float reach_ = 1, words_ = 0;
};

}  // namespace

void spread_strip(Kit& kit, std::string_view path, const SpreadDrawing& spread) {
  Frame& f = kit.frame();
  const int i = f.add_painter(std::make_unique<Strip>(spread));
  f.describe(i, AccessKind::image, Kit::id_of(path), spread.name);
}

}  // namespace tallyblock
