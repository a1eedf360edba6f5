#include "log_drawing.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "build_parts.h"
#include "frame.h"

namespace tallyblock {
namespace {

bool is_drawn(const PieceMark& mark) {
  return std::isfinite(mark.low) && std::isfinite(mark.high) && std::isfinite(mark.value);
}

class Marks final : public Painter {
 public:
  Marks(const LogDrawing& drawing, std::uint32_t id) : d_(drawing), id_(id) {
    bool any = false;
    const auto reach = [&](float value) {
      least_ = any ? std::min(least_, value) : value;
      most_ = any ? std::max(most_, value) : value;
      any = true;
    };
    for (const PieceMark& mark : d_.marks) {
      if (!is_drawn(mark)) continue;
      reach(mark.low);
      reach(mark.high);
    }
    for (const auto* level : {&d_.centre, &d_.lower, &d_.upper}) {
      if (*level && std::isfinite((*level)->value)) reach((*level)->value);
    }
    // Room above and below, and for values that are all alike.
    const float room = std::max(0.08F * (most_ - least_), 0.01F * std::abs(most_) + 1e-6F);
    least_ -= room;
    most_ += room;
  }

  float height(Frame& f, float) override {
    const float words = f.type(style::type_small) * style::line_text;
    below_ = d_.first_label.empty() && d_.last_label.empty() ? 0 : words + f.px(style::grid);
    return f.px(style::log_height) + below_;
  }

  void paint(Frame& f, const Rect& r) override {
    const Palette& p = f.colours();
    Rect field{r.x, r.y, r.w - labels_width(f), r.h - below_};
    f.draw()->AddRectFilled(ImVec2(field.x, field.y), ImVec2(field.right(), field.bottom()),
                            p.raised, f.px(style::corner));
    paint_lit(f, field);
    paint_levels(f, field);
    paint_marks(f, field);
    f.draw()->AddRect(ImVec2(field.x, field.y), ImVec2(field.right(), field.bottom()), p.edge,
                      f.px(style::corner), 0, f.px(style::edge));
    const float size = f.type(style::type_small), top = field.bottom() + f.px(style::grid);
    f.draw_text(field.x, top, d_.first_label, size, p.quiet);
    f.draw_text(field.right() - f.text_width(d_.last_label, size), top, d_.last_label, size,
                p.quiet);
  }

 private:
  float labels_width(const Frame& f) const {
    float w = 0;
    for (const auto* level : {&d_.centre, &d_.lower, &d_.upper}) {
      if (*level) w = std::max(w, f.text_width((*level)->label, f.type(style::type_small)));
    }
    return w > 0 ? w + f.px(style::grid) : 0;
  }

  float y(const Rect& r, float value) const {
    return r.bottom() - (value - least_) / (most_ - least_) * r.h;
  }

  // The centre has its label before the limits; those too near to it are in the words below only.
  void paint_levels(const Frame& f, const Rect& r) const {
    const float centre = d_.centre ? y(r, d_.centre->value) : -1e9F;
    if (d_.centre) paint_level(f, r, *d_.centre, false, true);
    for (const auto& limit : {d_.lower, d_.upper}) {
      if (!limit) continue;
      const bool clear = std::abs(y(r, limit->value) - centre) >= f.type(style::type_small);
      paint_level(f, r, *limit, true, clear);
    }
  }

  void paint_level(const Frame& f, const Rect& r, const MarkLevel& level, bool limit,
                   bool labelled) const {
    if (!std::isfinite(level.value)) return;
    const Colour ink = limit ? f.colours().quiet : f.colours().ink;
    const float at = std::round(y(r, level.value)), dash = f.px(style::dash);
    const float step = limit && d_.provisional ? 2 * dash : r.w;
    for (float x = r.x; x < r.right(); x += step) {
      const float end = step < r.w ? std::min(x + dash, r.right()) : r.right();
      f.draw()->AddLine(ImVec2(x, at), ImVec2(end, at), ink, f.px(style::edge));
    }
    const float size = f.type(style::type_small);
    if (labelled) f.draw_text(r.right() + f.px(style::grid), at - size / 2, level.label, size, ink);
  }

  void paint_lit(const Frame& f, const Rect& r) const {
    const float step = r.w / static_cast<float>(std::max<std::size_t>(d_.marks.size(), 1));
    for (std::size_t i = 0; i < d_.marks.size(); ++i) {
      if (!d_.marks[i].lit) continue;
      const float x = r.x + step * static_cast<float>(i);
      f.draw()->AddRectFilled(ImVec2(x, r.y), ImVec2(x + step, r.bottom()), f.colours().chosen);
    }
  }

  void paint_marks(Frame& f, const Rect& r) const {
    const Palette& p = f.colours();
    const LookColours& c = p.of(Look::primary);
    const float step = r.w / static_cast<float>(std::max<std::size_t>(d_.marks.size(), 1));
    const float half = std::min(f.px(style::log_mark), step * 0.36F);
    const float line = f.px(style::edge);
    for (std::size_t i = 0; i < d_.marks.size(); ++i) {
      const PieceMark& mark = d_.marks[i];
      const Rect column{r.x + step * static_cast<float>(i), r.y, step, r.h};
      const float x = std::round(column.x + step / 2);
      f.regions.push_back({id_, i, column});
      if (mark.parted) {
        f.draw()->AddLine(ImVec2(column.x, r.bottom() - f.px(style::tick_long) * 2),
                          ImVec2(column.x, r.bottom()), p.accent, f.px(style::ring));
      }
      if (!is_drawn(mark)) continue;
      const float low = y(r, mark.low), high = y(r, mark.high);
      f.draw()->AddLine(ImVec2(x, low), ImVec2(x, high), p.ink, line);
      if (!mark.open && low - high > 2 * half) {
        f.draw()->AddLine(ImVec2(x - half, high), ImVec2(x + half, high), p.ink, line);
      }
      paint_mark(f, c, mark.fill, x, y(r, mark.value), half);
    }
  }

  // A block seen from its end.
  static void paint_mark(const Frame& f, const LookColours& c, MarkFill fill, float x, float y,
                         float half) {
    const ImVec2 a(x - half, y - half), b(x + half, y + half);
    f.draw()->AddRectFilled(a, b, f.colours().raised);
    if (fill == MarkFill::solid) f.draw()->AddRectFilled(a, b, c.fill);
    if (fill == MarkFill::half) f.draw()->AddRectFilled(ImVec2(a.x, y), b, c.fill);
    f.draw()->AddRect(a, b, c.edge, 0, 0, f.px(style::edge_state));
  }

  LogDrawing d_;
  std::uint32_t id_;
  float least_ = 0, most_ = 1, below_ = 0;
};

}  // namespace

std::optional<std::size_t> log_drawing(Kit& kit, std::string_view path, const LogDrawing& drawing) {
  Frame& f = kit.frame();
  const std::uint32_t id = Kit::id_of(path);
  const int i = f.add_painter(std::make_unique<Marks>(drawing, id));
  const auto lit = std::ranges::find(drawing.marks, true, &PieceMark::lit);
  return parts::touched_region(
      f, i, id, drawing.name,
      lit == drawing.marks.end()
          ? std::nullopt
          : std::optional(static_cast<std::size_t>(lit - drawing.marks.begin())));
}

}  // namespace tallyblock
