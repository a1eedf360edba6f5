// Boxes, texts and swatches onto Dear ImGui's draw list; rectangles into the list of what is there.
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "frame.h"
#include "texture.h"

namespace tallyblock {
namespace {

ImVec2 top_left(const Rect& r) { return {r.x, r.y}; }
ImVec2 bottom_right(const Rect& r) { return {r.right(), r.bottom()}; }

void draw_swatch(const Frame& f, const Node& n) {
  // A small block with the cut corner of the piece.
  const Rect& r = n.r;
  const float c = r.w * 0.3F;
  const Point shape[] = {{r.x, r.y},
                         {r.right() - c, r.y},
                         {r.right(), r.y + c},
                         {r.right(), r.bottom()},
                         {r.x, r.bottom()}};
  const LookColours& colours = f.colours().of(n.pile);
  fill_texture(f.draw(), shape, colours, n.pile, n.variant, f.px(1), true);
  outline(f.draw(), shape, n.border != 0 ? n.border : colours.edge,
          f.px(n.border != 0 ? style::ring : style::edge));
}

}  // namespace

void Frame::draw_surface(const Node& n) const {
  Rect r = n.r;
  if (n.edge) {  // bars reach under the insets of the screen
    if (r.y <= in.insets.top + 1) {
      r.h += r.y;
      r.y = 0;
    }
    if (r.bottom() >= in.height - in.insets.bottom - 1) r.h = in.height - r.y;
    if (r.x <= in.insets.left + 1) {
      r.w += r.x;
      r.x = 0;
    }
    if (r.right() >= in.width - in.insets.right - 1) r.w = in.width - r.x;
  }
  if (n.ground != 0) draw()->AddRectFilled(top_left(r), bottom_right(r), n.ground, n.corner);
  if (n.border != 0 && n.border_w > 0) {
    const float half = n.border_w / 2;
    draw()->AddRect(ImVec2(r.x + half, r.y + half), ImVec2(r.right() - half, r.bottom() - half),
                    n.border, std::max(0.0F, n.corner - half), 0, n.border_w);
  }
}

void Frame::finish_access(int i, const Rect& clip) {
  const Node& n = node(i);
  if (n.access < 0) return;
  AccessNode& a = access[static_cast<std::size_t>(n.access)];
  a.x = n.r.x;
  a.y = n.r.y;
  a.w = n.r.w;
  a.h = n.r.h;
  const Rect seen = intersect(n.r, clip);
  // The page lays a real input over a text box: only while nothing would stick out.
  const float least = a.kind == AccessKind::textbox ? n.r.h - 1 : std::min(n.r.h - 1, px(24));
  a.visible = seen.w > 0 && seen.h > 0 && seen.h >= least;
}

// Not there in this frame.
void Frame::leave_out(int i) {
  if (const int at = node(i).access; at >= 0) {
    AccessNode& a = access[static_cast<std::size_t>(at)];
    a.visible = false;
    a.x = a.y = a.w = a.h = 0;
  }
  for (int c = node(i).first; c >= 0; c = node(c).next) leave_out(c);
}

void Frame::draw_node(int i, const Rect& clip) {
  const Node& n = node(i);
  if (squeezed && n.gives_way) return leave_out(i);
  const Rect seen = intersect(n.r, clip);
  const bool shown = seen.h > 0 && seen.w > 0;
  finish_access(i, clip);
  if (n.target) targets.push_back({n.id, n.r, clip, n.enabled});
  if (shown) {
    switch (n.part) {
      case Part::text: {
        const int box = n.look.stand_in ? node(n.parent).access : -1;
        if (box < 0 || !access[static_cast<std::size_t>(box)].visible) draw_lines(n);
        break;
      }
      case Part::swatch: draw_swatch(*this, n); break;
      case Part::painter: painters[static_cast<std::size_t>(n.painter)]->paint(*this, n.r); break;
      case Part::gap:
        if (n.ground != 0) draw()->AddRectFilled(top_left(n.r), bottom_right(n.r), n.ground);
        break;
      case Part::box: draw_surface(n); break;
    }
  }
  if (n.part != Part::box) return;
  const bool clips = n.scroll && shown;
  if (clips) draw()->PushClipRect(top_left(seen), bottom_right(seen), true);
  const Rect inner = n.scroll ? seen : clip;
  for (int c = n.first; c >= 0; c = node(c).next) draw_node(c, inner);
  if (!clips) return;
  draw()->PopClipRect();
  // A bar at the edge says how far along one is, and that there is more.
  const float most = n.content - n.r.h;
  if (most <= 1) return;
  const auto s = std::find_if(scrolls.begin(), scrolls.end(),
                              [&](const ScrollState& o) { return o.id == n.id; });
  const float thumb = std::max(px(32), n.r.h * n.r.h / n.content);
  const float at = s == scrolls.end() ? 0 : s->offset / most;
  const float x = n.r.right() - px(5), y = n.r.y + (n.r.h - thumb) * at;
  draw()->AddRectFilled(ImVec2(x, y), ImVec2(x + px(3), y + thumb), colours().edge, px(1.5F));
}

void Frame::draw_all() {
  draw()->AddRectFilled(ImVec2(0, 0), ImVec2(in.width, in.height), colours().page);
  targets.clear();
  regions.clear();
  const Rect screen = {0, 0, in.width, in.height};
  draw_node(0, screen);
  if (in.focused == 0) return;
  for (const Target& t : targets) {
    if (t.id != in.focused) continue;
    const float out = px(style::ring_gap) + px(style::ring) / 2;
    draw()->PushClipRect(top_left(t.clip), bottom_right(t.clip), false);
    draw()->AddRect(ImVec2(t.r.x - out, t.r.y - out), ImVec2(t.r.right() + out, t.r.bottom() + out),
                    colours().ring, px(style::corner) + out, 0, px(style::ring));
    draw()->PopClipRect();
  }
}

}  // namespace tallyblock
