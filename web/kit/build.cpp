// Adding boxes, texts and descriptions to the frame.
#include <imgui.h>

#include <algorithm>

#include "canvas.h"
#include "frame.h"

namespace tallyblock {

std::uint32_t Kit::id_of(std::string_view path) {
  std::uint32_t hash = 2166136261U;  // FNV-1a
  for (const char c : path) hash = (hash ^ static_cast<unsigned char>(c)) * 16777619U;
  return hash == 0 ? 1 : hash;
}

int Frame::add(Part part) {
  const int i = static_cast<int>(nodes.size());
  nodes.emplace_back();
  Node& n = nodes.back();
  n.part = part;
  n.parent = open.empty() ? -1 : open.back();
  if (n.parent >= 0) {
    Node& p = node(n.parent);
    if (p.shares_n > 0)
      n.share = shares[static_cast<std::size_t>(p.shares_at) +
                       static_cast<std::size_t>(p.children % p.shares_n)];
    ++p.children;
    if (p.last >= 0) {
      node(p.last).next = i;
    } else {
      p.first = i;
    }
    p.last = i;
  }
  return i;
}

int Frame::open_box(Flow flow) {
  const int i = add(Part::box);
  node(i).flow = flow;
  node(i).gap = px(style::gap);
  open.push_back(i);
  return i;
}

void Frame::close_box() {
  if (open.size() > 1) open.pop_back();
}

int Frame::add_text(std::string_view text, const TextLook& look) {
  const int i = add(Part::text);
  node(i).text = arena.keep(text);
  node(i).look = look;
  return i;
}

int Frame::add_swatch(Look look, std::uint8_t variant, bool small) {
  const int i = add(Part::swatch);
  Node& n = node(i);
  n.pile = look;
  n.variant = variant;
  n.share = 0;
  n.least_w = px(small ? style::swatch_small : style::swatch_w);
  n.least_h = px(small ? style::swatch_small : style::swatch_h);
  return i;
}

int Frame::add_painter(std::unique_ptr<Painter> painter) {
  const int i = add(Part::painter);
  node(i).painter = static_cast<int>(painters.size());
  painters.push_back(std::move(painter));
  return i;
}

AccessNode& Frame::describe(int i, AccessKind kind, std::uint32_t id, std::string_view label,
                            std::string_view value) {
  if (access_used == access.size()) access.emplace_back();
  AccessNode& a = access[access_used];
  a.id = id;
  a.kind = kind;
  a.label.assign(label);
  a.value.assign(value);
  a.enabled = a.visible = true;
  a.pressed = a.expanded = 2;
  a.level = 0;
  a.multiline = false;
  a.max_length = 200;
  a.position = a.set_size = 0;
  a.hint.clear();
  node(i).access = static_cast<int>(access_used++);
  if (node(i).id == 0) node(i).id = id;
  return a;
}

bool Frame::make_target(int i, std::uint32_t id, bool enabled) {
  Node& n = node(i);
  n.id = id;
  n.target = true;
  n.enabled = enabled;
  n.least_h = std::max(n.least_h, px(style::target));
  n.least_w = std::max(n.least_w, px(style::target));
  if (n.parent >= 0 && node(n.parent).snug) n.share = 0;
  return enabled && is_tapped(id);
}

std::uint32_t Frame::unnamed(std::string_view text) {
  std::uint32_t hash = Kit::id_of(text);
  const AccessNode* end = access.data() + access_used;
  while (std::any_of(static_cast<const AccessNode*>(access.data()), end,
                     [&](const AccessNode& a) { return a.id == hash; })) {
    hash = hash * 16777619U + 1;
  }
  return hash;
}

Colour Frame::ink(Tone tone) const {
  const Palette& p = colours();
  switch (tone) {
    case Tone::quiet: return p.quiet;
    case Tone::good: return p.good;
    case Tone::warn: return p.warn;
    case Tone::bad: return p.bad;
    case Tone::normal:
    case Tone::strong: break;
  }
  return p.ink;
}

ImDrawList* Frame::draw() const { return canvas->list(); }

const std::vector<double>& Frame::moving(std::uint32_t id, const std::vector<double>& to) {
  auto m =
      std::find_if(motions.begin(), motions.end(), [&](const Motion& o) { return o.id == id; });
  if (m == motions.end()) {
    motions.push_back({id, to, to, in.now_ms});
    m = motions.end() - 1;
  }
  const auto passed = static_cast<float>(in.now_ms - m->start);
  const float t = in.reduced_motion ? 1 : std::clamp(passed / style::motion_ms, 0.0F, 1.0F);
  const double eased = 1 - static_cast<double>((1 - t) * (1 - t));
  if (m->to.size() != to.size()) {  // other slabs: nothing to move from
    m->from = m->to = to;
  }
  motion_now.resize(to.size());
  for (std::size_t i = 0; i < to.size(); ++i) {
    motion_now[i] = m->from[i] + (m->to[i] - m->from[i]) * eased;
  }
  if (m->to != to) {
    m->from = motion_now;
    m->to = to;
    m->start = in.now_ms;
    if (in.reduced_motion) motion_now = to;
    is_moving = is_moving || !in.reduced_motion;
  } else if (t < 1 && m->from != m->to) {
    is_moving = true;
  }
  return motion_now;
}

}  // namespace tallyblock
