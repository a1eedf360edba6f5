// What is written on the piece from above: numbers and signs of the blocks, the knife, the ruler.
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "cut_paint.h"

namespace tallyblock {

float FromAbove::block_width(const CutBlockShape& b) const {
  return (b.to - b.from) * plot_.scale();
}

// On a large screen all of them are larger, where they have room.
float FromAbove::number_size(const Frame& f) const {
  const float large = f.type(style::type_lead);
  const bool has_room = plot_.high() >= f.px(style::piece_height) && label_step(f, large) == 1;
  return has_room ? large : f.type(style::type_small);
}

float FromAbove::next_size(const Frame& f) const {
  const float large = f.type(style::type_lead);
  return number_size(f) < large ? large : f.type(style::type_title);
}

// The next block's number, larger, within its edges.
bool FromAbove::fits_inside(const Frame& f, const CutBlockShape& next) const {
  const float size = next_size(f), room = block_width(next) - 2 * f.px(style::ring);
  return f.text_width(next.label, size) + f.px(style::grid) <= room &&
         size * style::line_figure <= 2 * plot_.half((next.from + next.to) / 2) - f.px(style::grid);
}

// Every number, or every second, fifth, tenth: as many as have room beside each other.
std::size_t FromAbove::label_step(const Frame& f, float size) const {
  float widest = 0, all = 0, count = 0;
  bool inside = true;
  for (const CutBlockShape& b : d_.blocks) {
    if (!is_drawn(b)) continue;
    const float w = f.text_width(b.label, size) + f.px(style::grid);
    widest = std::max(widest, w);
    inside = inside && w <= block_width(b) - f.px(style::kerf_thin);
    all += block_width(b);
    count += 1;
  }
  if (inside || count <= 0) return 1;
  for (const std::size_t step : {2U, 5U, 10U, 20U, 50U}) {
    if (all / count * static_cast<float>(step) >= widest + f.px(style::grid)) return step;
  }
  return 100;
}

void FromAbove::paint_tags(const Frame& f) const {
  const float size = number_size(f);
  const std::size_t step = label_step(f, size);
  for (std::size_t i = 0; i < d_.blocks.size(); ++i) {
    if (static_cast<int>(i) == next_ || !is_drawn(d_.blocks[i])) continue;
    paint_tag(f, d_.blocks[i], step == 1 || (i + 1) % step == 0, size);
  }
}

// Number, and above it what became of the block; the sign goes before the number.
void FromAbove::paint_tag(const Frame& f, const CutBlockShape& b, bool with_label,
                          float size) const {
  const Palette& p = f.colours();
  const float line = size * style::line_figure;
  const float middle = (b.from + b.to) / 2, x = page_x(middle), room = block_width(b);
  const bool gone = b.state == CutState::planned && b.to <= plot_.cut_to() + 0.01F;
  const bool has_sign = b.state != CutState::planned && b.state != CutState::taken_out;
  const float sign = has_sign ? std::min(size * style::sign, room * 0.6F) : 0;
  float h = sign + (with_label ? line : 0);
  // Beyond its block a number may go only where nothing else is said.
  const bool planned = b.state == CutState::planned && !gone;
  const bool beside_next = next_ >= 0 && &b == &d_.blocks[static_cast<std::size_t>(next_)] + 1;
  const float w = f.text_width(b.label, size), pad = f.px(style::grid) / 2;
  const bool too_wide = w + pad > room && (!planned || beside_next);
  const bool too_high = has_sign && h + f.px(style::grid) > 2 * plot_.half(middle);
  if (too_wide || too_high) {
    with_label = false;
    h = sign;
  }
  float y = y_ - h / 2;
  if (has_sign) paint_sign(f, b.state, x, y + sign / 2, sign);
  if (!with_label) return;
  y += sign;
  const float first = page_x(0), last = page_x(plot_.length());
  const float left = std::clamp(x - w / 2, first, std::max(first, last - w));
  if (planned) {
    f.draw()->AddRectFilled(ImVec2(left - pad, y), ImVec2(left + w + pad, y + line), p.raised,
                            f.px(style::corner_small));
  }
  f.draw_text(left, y + (line - size) / 2, b.label, size, planned ? p.ink : p.quiet);
}

// A tick: within tolerance. An arrow down: short. An arrow up: over. A question mark: not weighed.
void FromAbove::paint_sign(const Frame& f, CutState state, float x, float y, float size) const {
  const Palette& p = f.colours();
  ImDrawList* draw = f.draw();
  const float s = size / 2;
  if (state == CutState::cut) {
    draw->PathClear();
    draw->PathLineTo(ImVec2(x - s * 0.8F, y + s * 0.05F));
    draw->PathLineTo(ImVec2(x - s * 0.2F, y + s * 0.65F));
    draw->PathLineTo(ImVec2(x + s * 0.85F, y - s * 0.65F));
    draw->PathStroke(p.good, 0, f.px(style::edge_state));
  } else if (state == CutState::unweighed) {
    const float type = f.type(style::type_small);
    f.draw_text(x - f.text_width("?", type) / 2, y - type / 2, "?", type, p.quiet);
  } else {
    const float down = state == CutState::short_ ? 1.0F : -1.0F, tip = y + s * 0.75F * down;
    const ImVec2 left(x - s * 0.85F, y + s * 0.05F * down), right(x + s * 0.85F, left.y);
    draw->AddTriangleFilled(left, down > 0 ? right : ImVec2(x, tip),
                            down > 0 ? ImVec2(x, tip) : right, p.warn);
    draw->AddLine(ImVec2(x, y - s * 0.8F * down), ImVec2(x, left.y), p.warn, s * 0.55F);
  }
}

// The knife at the next mark, and the number of the block it cuts off.
void FromAbove::paint_next(const Frame& f, const Rect& r) const {
  const Palette& p = f.colours();
  const CutBlockShape& b = d_.blocks[static_cast<std::size_t>(next_)];
  const float x = page_x(b.to), blade = f.px(style::knife), top = r.y + head_;
  const ImVec2 tip(x, top), foot(x, ruler_ + (has_ruler_ ? f.px(style::tick_long) : -1));
  f.draw()->AddLine(tip, foot, p.raised, f.px(style::knife_gap));
  f.draw()->AddLine(tip, foot, p.ink, f.px(style::knife_edge));
  const float left = std::max(r.x, x - blade), right = std::min(r.right(), x + blade);
  f.draw()->AddTriangleFilled(ImVec2(left, top - blade), ImVec2(right, top - blade),
                              ImVec2(x, top + f.px(1)), p.ink);
  const float size = next_size(f), line = size * style::line_figure;
  const float w = f.text_width(b.label, size), pad = f.px(style::grid);
  if (fits_inside(f, b)) {
    const float cx = page_x((b.from + b.to) / 2);
    f.draw()->AddRectFilled(ImVec2(cx - w / 2 - pad / 2, y_ - line / 2),
                            ImVec2(cx + w / 2 + pad / 2, y_ + line / 2), p.raised,
                            f.px(style::corner_small));
    f.draw_text(cx - w / 2, y_ - size / 2, b.label, size, p.ink);
    return;
  }
  const bool before = left - pad - w >= r.x;
  f.draw_text(before ? left - pad - w : right + pad, r.y + (head_ - line) / 2 + (line - size) / 2,
              b.label, size, p.ink);
}

void FromAbove::paint_ruler(const Frame& f) const {
  const Palette& p = f.colours();
  const float hair = f.px(style::hair), left = page_x(0), right = page_x(plot_.length());
  f.draw()->AddRectFilled(ImVec2(left, ruler_), ImVec2(right + hair, ruler_ + hair), p.edge);
  const float apart = d_.tick * plot_.scale();
  const int each = std::max(1, d_.long_tick);
  if (!(apart * static_cast<float>(each) >= f.px(style::grid))) return;
  const bool fine = apart >= f.px(style::grid);
  for (int i = 0; static_cast<float>(i) * d_.tick <= plot_.length() * 1.0001F; ++i) {
    const bool is_long = i % each == 0;
    if (!is_long && !fine) continue;
    const float x = page_x(static_cast<float>(i) * d_.tick);
    f.draw()->AddRectFilled(
        ImVec2(x, ruler_),
        ImVec2(x + hair, ruler_ + f.px(is_long ? style::tick_long : style::tick)), p.edge);
  }
}

// First, last and next in any case, pushed apart; then, from the left, whatever has room between.
std::vector<FromAbove::Reading> FromAbove::readings(const Frame& f, const Rect& r) const {
  const float size = f.type(style::type_small), gap = f.px(style::gap);
  std::vector<Reading> all, written;
  for (std::size_t n = 0; n < std::min(d_.marks.size(), d_.blocks.size()); ++n) {
    if (d_.marks[n].empty() || !is_drawn(d_.blocks[n])) continue;
    const float x = page_x(d_.blocks[n].to), w = f.text_width(d_.marks[n], size);
    all.push_back({n, x, std::clamp(x - w / 2, r.x, std::max(r.x, r.right() - w)), w});
  }
  if (all.empty()) return {};
  const auto is_next = [&](const Reading& m) { return static_cast<int>(m.block) == next_; };
  for (const Reading& m : all) {
    const bool end = m.block == all.front().block || m.block == all.back().block;
    if (end || is_next(m)) written.push_back(m);
  }
  float room = gap * static_cast<float>(written.size() - 1);
  for (const Reading& m : written) room += m.w;
  // Too narrow for three: the next one and the last one.
  if (written.size() > 2 && room > r.w) written.erase(written.begin());
  for (std::size_t i = 1; i < written.size(); ++i)
    written[i].left = std::max(written[i].left, written[i - 1].left + written[i - 1].w + gap);
  float end = r.right();
  for (std::size_t i = written.size(); i-- > 0; end = written[i].left - gap)
    written[i].left = std::max(r.x, std::min(written[i].left, end - written[i].w));
  for (const Reading& m : all) {
    std::size_t at = 0;
    while (at < written.size() && written[at].block < m.block) ++at;
    if (at < written.size() && written[at].block == m.block) continue;
    const bool after = at == 0 || written[at - 1].left + written[at - 1].w + gap <= m.left;
    const bool before = at == written.size() || m.left + m.w + gap <= written[at].left;
    if (after && before) written.insert(written.begin() + static_cast<std::ptrdiff_t>(at), m);
  }
  return written;
}

void FromAbove::paint_readings(const Frame& f, const Rect& r) const {
  const Palette& p = f.colours();
  const float size = f.type(style::type_small), ticks = ruler_ + f.px(style::tick_long);
  const float top = ticks + f.px(style::tick);
  bool first = true;
  for (const CutBlockShape& b : d_.blocks) {
    if (!is_drawn(b)) continue;
    for (const float at : {b.from, b.to}) {
      if (at == b.to || first) {
        f.draw()->AddLine(ImVec2(page_x(at), lower_edge(at) + side_), ImVec2(page_x(at), ruler_),
                          p.edge, f.px(style::hair));
      }
    }
    first = false;
  }
  for (const Reading& m : readings(f, r)) {
    const bool next = static_cast<int>(m.block) == next_;
    const float foot = std::clamp(m.x, m.left, m.left + m.w);
    f.draw()->AddLine(ImVec2(m.x, ruler_), ImVec2(m.x, ticks), p.ink, f.px(style::edge));
    f.draw()->AddLine(ImVec2(m.x, ticks), ImVec2(foot, top), p.ink, f.px(style::edge));
    f.draw_text(m.left, top, d_.marks[m.block], size, next || next_ < 0 ? p.ink : p.quiet);
  }
}

}  // namespace tallyblock
