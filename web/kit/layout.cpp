// Boxes get their sizes: widths from above, heights from below, then their places.
#include <algorithm>
#include <cmath>
#include <utility>

#include "frame.h"

namespace tallyblock {

Rect intersect(const Rect& a, const Rect& b) {
  const float x = std::max(a.x, b.x), y = std::max(a.y, b.y);
  return {x, y, std::max(0.0F, std::min(a.right(), b.right()) - x),
          std::max(0.0F, std::min(a.bottom(), b.bottom()) - y)};
}

float Frame::margin() const {
  return px(in.width / in.ratio >= style::broad_from ? style::margin_broad : style::margin);
}

namespace {
// The page's margin goes around what stands directly in a page box, not around bars and areas.
bool keeps_margin(const Node& parent, const Node& child) {
  return parent.page && !child.page && !child.scroll && !child.scroll_short && !child.edge &&
         child.part != Part::gap;
}
}  // namespace

float Frame::natural_width(int i) {
  const Node& n = node(i);
  float w = 0;
  switch (n.part) {
    case Part::text:
      return std::ceil(text_width(n.text, n.look.size) +
                       (n.suffix.empty()
                            ? 0
                            : n.suffix_size * 0.4F + text_width(n.suffix, n.suffix_size))) +
             1;
    case Part::swatch: return n.least_w;
    case Part::gap: return 0;
    case Part::painter: return n.least_w;
    case Part::box: break;
  }
  for (int c = n.first; c >= 0; c = node(c).next) {
    const float cw = natural_width(c);
    w = n.flow == Flow::across ? w + cw + (c == n.first ? 0 : n.gap) : std::max(w, cw);
  }
  return std::max(n.least_w, w + 2 * n.pad_x);
}

// As narrow as it may become, its words one step smaller.
float Frame::least_width(int i) {
  const Node& n = node(i);
  float w = 0;
  if (n.part == Part::text) {
    if (n.look.figure)
      return natural_width(i) * (n.look.least > 0 ? n.look.least : style::shrink_step);
    return std::ceil(word_width(n.text, n.look.size) * style::shrink_step);
  }
  if (n.part != Part::box) return natural_width(i);
  for (int c = n.first; c >= 0; c = node(c).next) {
    const float cw = least_width(c);
    w = n.flow == Flow::across && n.rigid ? w + cw + (c == n.first ? 0 : n.gap) : std::max(w, cw);
  }
  return std::max(n.least_w, w + 2 * n.pad_x);
}

float Frame::measure(int i, float width) {
  Node& n = node(i);
  if (n.scroll_short) n.scroll = is_short || page_scrolls;
  if (n.gives_way && squeezed) return n.natural = n.r.h = 0;
  if (n.most_w > 0) width = std::min(width, n.most_w);
  n.r.w = width;
  switch (n.part) {
    case Part::text: n.natural = fit_text(n, width); break;
    case Part::swatch:
      n.natural = n.least_h;
      n.r.w = n.least_w;
      break;
    case Part::gap:
      n.natural = n.least_h;
      n.grows = n.fill;
      break;
    case Part::painter:
      n.natural = painters[static_cast<std::size_t>(n.painter)]->height(*this, width);
      break;
    case Part::box: {
      const float inner = n.flow == Flow::down    ? measure_down(n, width)
                          : n.flow == Flow::cells ? measure_cells(n, width)
                                                  : measure_across(n, width);
      n.content = inner;
      n.grows = n.fill;
      for (int c = n.first; c >= 0; c = node(c).next) n.grows = n.grows || node(c).grows;
      n.natural = std::max(n.least_h, inner);
      if (n.turn > 0 && n.flow != Flow::cells)
        n.room = n.grow_to > 0 ? std::max(0.0F, n.grow_to - n.natural) : n.grow_by;
      if (n.scroll) {
        n.grows = !page_scrolls;
        if (!page_scrolls) n.natural = std::min(inner, px(style::scroll_least));
      }
      break;
    }
  }
  n.r.h = n.natural;
  return n.natural;
}

// Bars and scroll areas of a page touch; what is in a scroll area has its own distance.
float Frame::gap_between(const Node& n, int a, int b) {
  if (b < 0 || (squeezed && node(a).gives_way)) return 0;
  const auto reaches_edge = [&](int i) {
    return node(i).edge || node(i).scroll || node(i).scroll_short || node(i).page;
  };
  if (n.page && reaches_edge(a) && reaches_edge(b)) return 0;
  return n.gap;
}

float Frame::measure_down(Node& n, float width) {
  float h = 2 * n.pad_y;
  const float inner = width - 2 * n.pad_x;
  for (int c = n.first; c >= 0; c = node(c).next) {
    const float side = keeps_margin(n, node(c)) ? margin() : 0;
    h += std::floor(measure(c, inner - 2 * side)) + gap_between(n, c, node(c).next);
  }
  return h;
}

// Gives the children of a row their widths; false if they do not fit beside each other.
bool Frame::share_out(Node& n, float inner) {
  float left = inner - n.gap * static_cast<float>(std::max(0, n.children - 1));
  float total = 0;
  for (int c = n.first; c >= 0; c = node(c).next) {
    Node& k = node(c);
    if (k.share > 0) {
      total += k.share;
    } else {
      left -= k.r.w = std::min(natural_width(c), inner);
    }
  }
  bool fits = left >= 0;
  for (int c = n.first; c >= 0; c = node(c).next) {
    Node& k = node(c);
    if (total <= 0 && n.edge && left > 0) {  // a bar of words only uses its whole width
      k.r.w += std::floor(left / static_cast<float>(n.children));
    }
    if (k.share <= 0) continue;
    k.r.w = std::floor(left * k.share / total);
    if (k.part != Part::gap && !n.rigid && k.r.w + 0.5F < least_width(c)) fits = false;
  }
  return fits || n.rigid;
}

float Frame::measure_across(Node& n, float width) {
  const float inner = width - 2 * n.pad_x;
  const bool asked = n.stack_below > 0 && inner < type(n.stack_below);
  n.stacked = asked || !share_out(n, inner);
  if (n.stacked && n.edge && n.snug) {  // a bar of words: two abreast take half the height
    n.flow = Flow::cells;
    n.columns = 2;
    return measure_cells(n, width);
  }
  if (n.stacked) return measure_down(n, width);
  float h = 0;
  for (int c = n.first; c >= 0; c = node(c).next)
    h = std::max(h, measure(c, std::max(1.0F, node(c).r.w)));
  return h + 2 * n.pad_y;
}

// As few rows as hold the words whole; all cells are alike. From two rows on the lines to the lower
// ones run down lanes between the columns.
float Frame::measure_columns(Node& n, float inner) {
  float least = 0, w = inner, h = 0;
  for (int c = n.first; c >= 0; c = node(c).next) least = std::max(least, natural_width(c));
  int columns = std::max(1, n.children), rows = 1;
  for (;; --columns) {
    rows = (n.children + columns - 1) / columns;
    columns = (n.children + rows - 1) / rows;
    n.lane = rows > 1 ? std::max(n.gap, px(style::lane) * static_cast<float>(rows)) : n.gap;
    const float all = inner - n.lane * static_cast<float>(rows > 1 ? columns : columns - 1);
    w = std::max(1.0F, std::floor(all / static_cast<float>(columns)));
    if (w >= least || columns == 1) break;
  }
  n.shares_n = rows;  // kept for placing
  for (int c = n.first; c >= 0; c = node(c).next) h = std::max(h, std::floor(measure(c, w)));
  for (int c = n.first; c >= 0; c = node(c).next) node(c).r.h = h;
  return (h + n.gap) * static_cast<float>(rows) - n.gap + 2 * n.pad_y;
}

float Frame::measure_cells(Node& n, float width) {
  const float inner = width - 2 * n.pad_x;
  if (n.by_column) return measure_columns(n, inner);
  const float cell = type(n.cell);
  int columns =
      std::clamp(static_cast<int>((inner + n.gap) / (cell + n.gap)), 1, std::max(1, n.columns));
  columns = std::clamp(columns, 1, std::max(1, n.children));
  float least = 0, w = inner;
  for (int c = n.first; c >= 0; c = node(c).next) least = std::max(least, least_width(c));
  for (;; --columns) {
    w = std::floor((inner - n.gap * static_cast<float>(columns - 1)) / static_cast<float>(columns));
    if (w >= least || columns == 1) break;
  }
  n.shares_n = columns;  // kept for placing
  n.room = 0;
  // The cells of a row are equally high.
  float total = 2 * n.pad_y;
  for (int c = n.first; c >= 0;) {
    const int first = c;
    float h = 0;
    for (int k = 0; k < columns && c >= 0; ++k, c = node(c).next) h = std::max(h, measure(c, w));
    h = std::floor(h);
    for (int k = first; k != c; k = node(k).next) node(k).r.h = h;
    n.room += n.grow_by;
    total += h + (c >= 0 ? n.gap : 0);
  }
  return total;
}

// ---- places -----------------------------------------------------------------------------------

// What has a turn takes what it may of the height that is left, the earlier turn first; `room` becomes what
// it got. Returns what was taken.
float Frame::take_turns(Node& n, float extra) {
  float taken = 0;
  if (is_short) extra = 0;  // what scrolls has it
  for (int turn = 1; turn <= kTurns; ++turn) {
    for (int c = n.first; c >= 0; c = node(c).next) {
      Node& k = node(c);
      if (k.turn != turn) continue;
      k.room = std::floor(std::clamp(extra - taken, 0.0F, k.room));
      taken += k.room;
    }
  }
  return taken;
}

void Frame::place_down(Node& n, float height) {
  float y = n.r.y + n.pad_y;
  float extra = height - n.content;
  int takers = 0, stretchers = 0;
  for (int c = n.first; c >= 0; c = node(c).next) {
    if (squeezed && node(c).gives_way) continue;
    takers += node(c).grows ? 1 : 0;
    stretchers += node(c).stretch ? 1 : 0;
  }
  if (n.scroll) {
    y -= scroll_state(n.id).offset;
    extra = 0;
  } else if (n.middle && takers + stretchers == 0) {
    y += std::max(0.0F, extra / 2);
  }
  if (!n.scroll) extra -= take_turns(n, extra);
  for (int c = n.first; c >= 0; c = node(c).next) {
    Node& k = node(c);
    float h = k.natural;
    if (k.turn > 0 && !n.scroll) h += k.room;
    if (squeezed && k.gives_way) continue;
    if (extra > 0 && takers > 0 && k.grows) h += extra / static_cast<float>(takers);
    if (extra > 0 && takers == 0 && k.stretch) h += extra / static_cast<float>(stretchers);
    const float side = keeps_margin(n, k) ? margin() : 0;
    float x = n.r.x + n.pad_x + side;
    const float room = n.r.w - 2 * n.pad_x - 2 * side;
    if ((k.most_w > 0 || (k.part == Part::swatch && n.middle)) && room > k.r.w)
      x += std::floor((room - k.r.w) / 2);
    place(c, x, y, std::floor(h));
    y += std::floor(h) + gap_between(n, c, k.next);
  }
}

void Frame::place_across(Node& n) {
  float x = n.reversed ? n.r.right() - n.pad_x : n.r.x + n.pad_x;
  for (int c = n.first; c >= 0; c = node(c).next) {
    Node& k = node(c);
    const float h = n.r.h - 2 * n.pad_y;
    if (n.reversed) x -= k.r.w;
    if (k.part == Part::swatch) {
      place(c, x, n.r.y + n.pad_y + std::max(0.0F, (h - k.natural) / 2), k.natural);
    } else {
      place(c, x, n.r.y + n.pad_y, h);
    }
    x += n.reversed ? -n.gap : k.r.w + n.gap;
  }
}

void Frame::place_columns(Node& n) {
  int row = 0;
  float x = n.r.x + n.pad_x, y = n.r.y + n.pad_y;
  for (int c = n.first; c >= 0; c = node(c).next) {
    const Rect r = node(c).r;
    place(c, x, y, r.h);
    y += r.h + n.gap;
    if (++row < n.shares_n) continue;
    row = 0;
    y = n.r.y + n.pad_y;
    x += r.w + n.lane;
  }
}

void Frame::place_cells(Node& n) {
  if (n.by_column) return place_columns(n);
  int column = 0;
  const int columns = std::max(1, n.shares_n);
  const int rows = std::max(1, (n.children + columns - 1) / columns);
  const float more = n.turn > 0 ? std::max(0.0F, n.r.h - n.content) / static_cast<float>(rows) : 0;
  float x = n.r.x + n.pad_x, y = n.r.y + n.pad_y;
  for (int c = n.first; c >= 0; c = node(c).next) {
    Rect r = node(c).r;
    r.h += std::floor(more);
    place(c, x, y, r.h);
    x += r.w + n.gap;
    if (++column < columns) continue;
    column = 0;
    x = n.r.x + n.pad_x;
    y += r.h + n.gap;
  }
}

void Frame::place(int i, float x, float y, float height) {
  Node& n = node(i);
  n.r.x = x;
  n.r.y = y;
  n.r.h = height;
  if (n.part != Part::box) return;
  if (n.scroll) {
    areas.push_back({n.id, n.r, std::max(0.0F, n.content - height)});
    ScrollState& s = scroll_state(n.id);
    if (!guessing) s.offset = std::clamp(s.offset, 0.0F, areas.back().most);
  }
  if (n.flow == Flow::cells) {
    place_cells(n);
  } else if (n.flow == Flow::across && !n.stacked) {
    place_across(n);
  } else {
    place_down(n, height);
  }
}

// The root is the page. When its content is higher than the screen, the page itself scrolls and
// everything in it takes the height it needs.
void Frame::lay_out() {
  Node& root = node(0);
  const float x = in.insets.left, y = in.insets.top;
  const float w = in.width - in.insets.left - in.insets.right;
  const float h = in.height - y - std::max(in.insets.bottom, in.keyboard_height);
  page_scrolls = squeezed = is_short = false;
  root.scroll = false;
  const auto too_high = [&] {
    lines.clear();
    return measure(0, w) > h;
  };
  for (bool* step : {&squeezed, &is_short, &page_scrolls}) {
    if (!too_high()) break;
    *step = true;
  }
  if (page_scrolls) {
    squeezed = is_short = false;
    too_high();
    root.scroll = true;
  }
  learn_heights();
  areas.clear();
  place(0, x, y, h);
  if (wanted_in_view != 0) {
    reveal(wanted_in_view);
    areas.clear();
    place(0, x, y, h);
    wanted_in_view = std::exchange(wanted_next, 0);
  }
  look_at_lists();
}

void Frame::reveal(std::uint32_t id) {
  for (const Node& n : nodes) {
    if (n.id != id || n.part == Part::gap || n.scroll) continue;
    Rect r = n.r;
    for (int p = n.parent; p >= 0; p = node(p).parent) {
      if (!node(p).scroll) continue;
      const Rect view = node(p).r;
      const float room = px(style::gap + style::ring + style::ring_gap);
      float by = 0;
      if (r.bottom() + room > view.bottom()) by = r.bottom() + room - view.bottom();
      if (r.y - by < view.y + room) by = r.y - view.y - room;
      ScrollState& s = scroll_state(node(p).id);
      const float most = std::max(0.0F, node(p).content - view.h);
      const float to = std::clamp(s.offset + by, 0.0F, most);
      r.y -= to - s.offset;
      s.offset = to;
      s.velocity = 0;
    }
    return;
  }
}

}  // namespace tallyblock
