#include "texture.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "vec.h"

namespace tallyblock {
namespace {

struct Bounds {
  float left = 1e9F, top = 1e9F, right = -1e9F, bottom = -1e9F;
};

Bounds bounds_of(std::span<const Point> shape) {
  Bounds b;
  for (const Point p : shape) {
    b.left = std::min(b.left, p.x);
    b.right = std::max(b.right, p.x);
    b.top = std::min(b.top, p.y);
    b.bottom = std::max(b.bottom, p.y);
  }
  return b;
}

float turn(std::span<const Point> shape) {
  float twice = 0;
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const Point a = shape[i], b = shape[(i + 1) % shape.size()];
    twice += a.x * b.y - b.x * a.y;
  }
  return twice < 0 ? -1.0F : 1.0F;
}

// Cuts the segment to the convex polygon, kept `inset` away from its edges; false: nothing is left.
bool cut(std::span<const Point> shape, float sign, Point& a, Point& b, float inset) {
  float from = 0, to = 1;
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const Point p = shape[i], q = shape[(i + 1) % shape.size()];
    const float ex = q.x - p.x, ey = q.y - p.y, len = std::hypot(ex, ey);
    if (len < 1e-4F) continue;
    const float nx = -ey / len * sign, ny = ex / len * sign;  // towards the inside
    const float da = (a.x - p.x) * nx + (a.y - p.y) * ny - inset;
    const float db = (b.x - p.x) * nx + (b.y - p.y) * ny - inset;
    if (da < 0 && db < 0) return false;
    if (da < 0) from = std::max(from, da / (da - db));
    if (db < 0) to = std::min(to, da / (da - db));
  }
  if (from >= to) return false;
  const Point d = {b.x - a.x, b.y - a.y};
  b = {a.x + d.x * to, a.y + d.y * to};
  a = {a.x + d.x * from, a.y + d.y * from};
  return true;
}

struct Pen {
  ImDrawList* draw;
  std::span<const Point> shape;
  float sign;
  Bounds in;
  Colour colour;
  float width;

  // Parallel lines dx : dy, a distance apart.
  void lines(float dx, float dy, float apart) const {
    const float len = std::hypot(dx, dy);
    const Point along = {dx / len, dy / len}, across = {-along.y, along.x};
    const float reach = std::hypot(in.right - in.left, in.bottom - in.top);
    const Point mid = {(in.left + in.right) / 2, (in.top + in.bottom) / 2};
    // Anchored to the page, not to the shape, so that a growing slab uncovers its texture.
    const float at = mid.x * across.x + mid.y * across.y;
    for (float d = std::floor((at - reach / 2) / apart) * apart - at; d < reach / 2; d += apart) {
      Point a = {mid.x + across.x * d - along.x * reach, mid.y + across.y * d - along.y * reach};
      Point b = {mid.x + across.x * d + along.x * reach, mid.y + across.y * d + along.y * reach};
      if (cut(shape, sign, a, b, 0)) draw->AddLine(vec(a), vec(b), colour, width);
    }
  }

  void dots(float apart, float radius) const {
    const auto first_row = static_cast<int>(std::floor(in.top / apart));
    for (int row = first_row; static_cast<float>(row) * apart < in.bottom + apart; ++row) {
      const float y = static_cast<float>(row) * apart;
      const float shift = (row % 2 != 0) ? apart * 0.58F : 0;
      const float wide = apart * 1.16F;
      for (float x = std::floor(in.left / wide) * wide + shift; x < in.right; x += wide) {
        Point a = {x - radius, y}, b = {x + radius, y};
        if (cut(shape, sign, a, b, radius) && b.x - a.x > radius * 1.2F) {
          draw->AddNgonFilled(ImVec2((a.x + b.x) / 2, y), radius, colour, 6);
        }
      }
    }
  }

  void waves(float apart, float length) const {
    const float high = apart * 0.24F;
    const float step = length / 6;
    for (float y = std::floor(in.top / apart) * apart; y < in.bottom + apart; y += apart) {
      for (float x = std::floor(in.left / step) * step; x < in.right; x += step) {
        Point a = {x, y + high * std::sin(x / length * 6.2832F)};
        Point b = {x + step, y + high * std::sin((x + step) / length * 6.2832F)};
        if (cut(shape, sign, a, b, 0)) draw->AddLine(vec(a), vec(b), colour, width);
      }
    }
  }
};

}  // namespace

void fill_texture(ImDrawList* draw, std::span<const Point> shape, const LookColours& colours,
                  Look look, std::uint8_t variant, float scale, bool fine) {
  if (shape.size() < 3) return;
  draw->PathClear();
  for (const Point p : shape) draw->PathLineTo(vec(p));
  draw->PathFillConvex(colours.fill);
  const float by = scale * (fine ? 0.72F : 1.0F);
  const Pen pen = {draw, shape, turn(shape), bounds_of(shape), colours.mark, 1.4F * by};
  const bool other = variant % 2 == 1;
  const float wider = variant >= 2 ? 1.5F : 1.0F;
  switch (look) {
    case Look::primary: pen.lines(other ? -0.22F : 0.22F, -1, 11 * by * wider); break;
    case Look::secondary: pen.lines(1, other ? 1.0F : -1.0F, 8.5F * by * wider); break;
    case Look::usable_trim:
      pen.dots((other ? 6.0F : 8.0F) * by * wider, (other ? 1.3F : 1.9F) * by);
      break;
    case Look::unusable_trim:
      pen.lines(1, other ? -0.5F : -1.0F, 9 * by * wider);
      pen.lines(1, other ? 0.5F : 1.0F, 9 * by * wider);
      break;
    case Look::loss: pen.waves(9 * by * wider, 18 * by); break;
    case Look::unweighed: break;
  }
}

void outline(ImDrawList* draw, std::span<const Point> shape, Colour colour, float width) {
  draw->PathClear();
  for (const Point p : shape) draw->PathLineTo(vec(p));
  draw->PathStroke(colour, ImDrawFlags_Closed, width);
}

void dashed_outline(ImDrawList* draw, std::span<const Point> shape, Colour colour, float width,
                    float dash) {
  float phase = 0;  // distance into the current dash and gap
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const Point a = shape[i], b = shape[(i + 1) % shape.size()];
    const float len = std::hypot(b.x - a.x, b.y - a.y);
    float at = 0;
    while (at < len) {
      const bool on = phase < dash;
      const float step = std::max(0.05F, std::min(len - at, (on ? dash : dash * 1.7F) - phase));
      if (on) {
        const float t0 = at / len, t1 = (at + step) / len;
        draw->AddLine(ImVec2(a.x + (b.x - a.x) * t0, a.y + (b.y - a.y) * t0),
                      ImVec2(a.x + (b.x - a.x) * t1, a.y + (b.y - a.y) * t1), colour, width);
      }
      at += step;
      phase += step;
      if (phase >= dash * 1.7F - 0.01F) phase = 0;
    }
  }
}

}  // namespace tallyblock
