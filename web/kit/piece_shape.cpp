#include "piece_shape.h"

#include <algorithm>
#include <cmath>

namespace tallyblock {
namespace {

double u_of(Point p) { return static_cast<double>(p.x) + cut_lean * static_cast<double>(p.y); }

Point point(double x, double y) { return {static_cast<float>(x), static_cast<float>(y)}; }

// A corner made soft: two points near it in place of it, and one between.
void soft_corner(std::vector<Point>& out, Point before, Point corner, Point after, double size) {
  const auto towards = [&](Point to) {
    const double dx = static_cast<double>(to.x - corner.x),
                 dy = static_cast<double>(to.y - corner.y);
    const double len = std::hypot(dx, dy), t = std::min(0.45, size / len);
    return point(static_cast<double>(corner.x) + dx * t, static_cast<double>(corner.y) + dy * t);
  };
  const Point a = towards(before), b = towards(after);
  for (const double t : {0.0, 0.25, 0.5, 0.75, 1.0}) {
    const double s = 1 - t;
    out.push_back(
        point(s * s * static_cast<double>(a.x) + 2 * s * t * static_cast<double>(corner.x) +
                  t * t * static_cast<double>(b.x),
              s * s * static_cast<double>(a.y) + 2 * s * t * static_cast<double>(corner.y) +
                  t * t * static_cast<double>(b.y)));
  }
}

// One side of a cut of a convex polygon.
std::vector<Point> half(std::span<const Point> shape, double u, bool keep_left) {
  std::vector<Point> out;
  out.reserve(shape.size() + 2);
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const Point a = shape[i], b = shape[(i + 1) % shape.size()];
    const double da = keep_left ? u - u_of(a) : u_of(a) - u,
                 db = keep_left ? u - u_of(b) : u_of(b) - u;
    if (da >= 0) out.push_back(a);
    if ((da > 0 && db < 0) || (da < 0 && db > 0)) {
      const double t = da / (da - db);
      out.push_back(point(static_cast<double>(a.x) + static_cast<double>(b.x - a.x) * t,
                          static_cast<double>(a.y) + static_cast<double>(b.y - a.y) * t));
    }
  }
  return out;
}

struct LeftPart {
  double area = 0, height = 0;  // of the part left of a cut, and of the cut
};

// The same as area_of(half(...)), without making the polygon.
LeftPart left_of(std::span<const Point> shape, double u) {
  double twice = 0, first_x = 0, first_y = 0, last_x = 0, last_y = 0, top = 1e30, bottom = -1e30;
  bool any = false;
  const auto corner = [&](double x, double y) {
    if (any) {
      twice += last_x * y - x * last_y;
    } else {
      first_x = x;
      first_y = y;
      any = true;
    }
    last_x = x;
    last_y = y;
  };
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const Point a = shape[i], b = shape[(i + 1) % shape.size()];
    const double ax = static_cast<double>(a.x), ay = static_cast<double>(a.y);
    const double da = u - u_of(a), db = u - u_of(b);
    if (da >= 0) corner(ax, ay);
    if ((da > 0 && db < 0) || (da < 0 && db > 0)) {
      const double t = da / (da - db);
      const double x = ax + (static_cast<double>(b.x) - ax) * t,
                   y = ay + (static_cast<double>(b.y) - ay) * t;
      corner(x, y);
      top = std::min(top, y);
      bottom = std::max(bottom, y);
    }
  }
  twice += last_x * first_y - first_x * last_y;
  return {std::abs(twice) / 2, std::max(0.0, bottom - top)};
}

}  // namespace

bool has_area(double value) { return std::isfinite(value) && value > 0; }

std::vector<Point> piece_outline(double width, double height) {
  std::vector<Point> out;
  const double rx = std::min(height * 0.62, width * 0.3);
  constexpr int steps = 28;
  constexpr double half_turn = 3.14159265358979;
  constexpr double fullness = 2.0 / 2.3;  // between an ellipse and a box
  for (int i = 0; i <= steps; ++i) {      // from the bottom around the left end to the top
    const double t = half_turn * (0.5 + static_cast<double>(i) / steps);
    const double c = -std::cos(t), s = std::sin(t);
    const auto full = [](double x) {
      return std::exp(fullness * std::log(std::abs(x)));
    };  // of 0: 0
    const double y = height / 2 * (1 + (s < 0 ? -1 : 1) * full(s));
    out.push_back(point(rx - rx * full(c), y));
  }
  const Point top_left = out.back(), bottom_left = out.front();
  const double cut = std::min(height * 0.5, width * 0.2);
  const Point shoulder = point(width - cut, height * 0.035), nose = point(width, height * 0.5);
  const Point heel = point(width - height * 0.05, height * 0.975);
  const double soft = height * 0.07;
  soft_corner(out, top_left, shoulder, nose, soft);
  soft_corner(out, shoulder, nose, heel, soft);
  soft_corner(out, nose, heel, bottom_left, soft);
  return out;
}

double area_of(std::span<const Point> shape) {
  double twice = 0;
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const Point a = shape[i], b = shape[(i + 1) % shape.size()];
    twice += static_cast<double>(a.x) * static_cast<double>(b.y) -
             static_cast<double>(b.x) * static_cast<double>(a.y);
  }
  return std::abs(twice) / 2;
}

std::vector<Point> between_cuts(std::span<const Point> shape, double u0, double u1) {
  return half(half(shape, u0, false), u1, true);
}

// Newton's method, kept between bounds that hold the answer: the area grows with u by the height of
// the cut (x = u - cut_lean * y has determinant 1).
double cut_for_area(std::span<const Point> shape, double area) {
  double low = 1e30, high = -1e30;
  for (const Point p : shape) {
    low = std::min(low, u_of(p));
    high = std::max(high, u_of(p));
  }
  const double whole = area_of(shape);
  double u = low + (high - low) * std::clamp(area / whole, 0.0, 1.0);
  for (int i = 0; i < 40; ++i) {
    const LeftPart left = left_of(shape, u);
    const double off = area - left.area;
    if (std::abs(off) < whole * 1e-9) break;
    (off > 0 ? low : high) = u;
    const double next = left.height > 0 ? u + off / left.height : low - 1;
    u = next > low && next < high ? next : (low + high) / 2;
  }
  return u;
}

std::vector<std::vector<Point>> cut_into_slabs(std::span<const Point> shape,
                                               std::span<const double> values, double whole,
                                               std::vector<double>* at) {
  double sum = 0, first = 1e30, last = -1e30;
  for (const double v : values) sum += has_area(v) ? v : 0;
  for (const Point p : shape) {
    first = std::min(first, u_of(p));
    last = std::max(last, u_of(p));
  }
  const double full = std::max(has_area(whole) ? whole : 0, sum), total = area_of(shape);
  std::vector<std::vector<Point>> slabs;
  double left = first, done = 0;
  if (at != nullptr) at->clear();
  for (const double v : values) {
    if (at != nullptr) at->push_back(left);
    if (!has_area(v)) {
      slabs.emplace_back();
      continue;
    }
    done += v;
    const double right =
        done >= full * (1 - 1e-9) ? last : cut_for_area(shape, total * done / full);
    slabs.push_back(between_cuts(shape, left, right));
    left = right;
  }
  if (at != nullptr) at->push_back(left);
  const bool has_rest = full - sum > full * 1e-6 || sum <= 0;
  slabs.push_back(has_rest ? between_cuts(shape, left, last) : std::vector<Point>());
  return slabs;
}

std::vector<std::vector<Point>> beyond_the_whole(std::span<const Point> shape,
                                                 std::span<const double> values, double whole) {
  double sum = 0;
  for (const double v : values) sum += has_area(v) ? v : 0;
  std::vector<std::vector<Point>> parts = cut_into_slabs(shape, values, whole);
  const bool over = has_area(whole) && sum > whole * (1 + 1e-6);
  const double at = over ? cut_for_area(shape, area_of(shape) * whole / sum) : 0;
  for (std::vector<Point>& part : parts) {
    part = over && part.size() > 2 ? between_cuts(part, at, 1e9) : std::vector<Point>();
    if (part.size() < 3 || area_of(part) < 1e-6 * area_of(shape)) part.clear();
  }
  return parts;
}

}  // namespace tallyblock
