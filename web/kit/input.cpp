// What happened, one thing per frame, judged against what the person saw.
#include <algorithm>
#include <cmath>
#include <ranges>

#include "frame.h"

namespace tallyblock {
namespace {
constexpr float wheel_step_most = 400;  // CSS px per event, against wild devices
}

// Order within a frame's input: pointers, wheel, keys, activations, texts. Each kind keeps its order.
void Frame::take_in(const FrameInput& input) {
  for (const PointerEvent& e : input.pointers) {
    Happening& h = queue.emplace_back();
    h.what = Happening::What::pointer;
    h.pointer = e;
  }
  if (input.wheel_x != 0 || input.wheel_y != 0) {
    Happening& h = queue.emplace_back();
    h.what = Happening::What::wheel;
    h.dx = input.wheel_x;
    h.dy = input.wheel_y;
  }
  for (const KeyPress& k : input.keys) {
    Happening& h = queue.emplace_back();
    h.what = Happening::What::key;
    h.key = k;
  }
  for (const std::uint32_t id : input.activated) {
    Happening& h = queue.emplace_back();
    h.what = Happening::What::activate;
    h.id = id;
  }
  for (const TextChange& t : input.texts) {
    Happening& h = queue.emplace_back();
    h.what = Happening::What::text;
    h.text = t;
  }
  tapped = 0;
  tapped_at.reset();
  key.clear();
  keypad_key.clear();
  typed = {};
  acted = false;
  if (input.focused != focus_before) {
    focus_before = input.focused;
    if (input.focused != 0) wanted_in_view = input.focused;
  }
  while (!queue.empty() && !acted) {
    const Happening h = std::move(queue.front());
    queue.pop_front();
    handle(h);
  }
}

void Frame::handle(const Happening& h) {
  switch (h.what) {
    case Happening::What::pointer:
      if (h.pointer.kind == PointerKind::down) pointer_down(h.pointer);
      if (h.pointer.kind == PointerKind::move) pointer_move(h.pointer);
      if (h.pointer.kind == PointerKind::up) pointer_up(h.pointer);
      if (h.pointer.kind == PointerKind::cancel && h.pointer.pointer == finger) {
        finger_down = is_scrolling = false;
        pressed = held_scroll = 0;
      }
      break;
    case Happening::What::wheel: {
      const float most = px(wheel_step_most);
      const std::uint32_t id = scroll_at(mouse_x, mouse_y, h.dy);
      if (id != 0) scroll_state(id).offset += std::clamp(h.dy, -most, most);
      clamp_scrolls();
      break;
    }
    case Happening::What::key:
      key = h.key.key;
      acted = true;
      break;
    case Happening::What::activate:
      for (const Target& t : targets) {
        if (t.id == h.id && t.enabled) {
          tapped = h.id;
          acted = true;
        }
      }
      break;
    case Happening::What::text:
      // A later state of the same box makes the earlier one needless.
      if (!h.text.done && !queue.empty() && queue.front().what == Happening::What::text &&
          queue.front().text.id == h.text.id) {
        break;
      }
      typed = h.text;
      acted = true;
      break;
    case Happening::What::nothing: break;
  }
}

const Target* Frame::target_at(float x, float y) const {
  for (const Target& t : std::views::reverse(targets)) {
    if (t.r.contains(x, y) && t.clip.contains(x, y)) return &t;
  }
  return nullptr;
}

// The innermost area under the point which can still go in this direction (0: any that can scroll).
std::uint32_t Frame::scroll_at(float x, float y, float direction) const {
  for (const auto& a : std::views::reverse(areas)) {
    const bool under = x < 0 ? true : a.view.contains(x, y);
    if (!under || a.most <= 0) continue;
    float offset = 0;
    for (const ScrollState& s : scrolls) {
      if (s.id == a.id) offset = s.offset;
    }
    if (direction > 0 && offset >= a.most) continue;
    if (direction < 0 && offset <= 0) continue;
    return a.id;
  }
  return 0;
}

ScrollState& Frame::scroll_state(std::uint32_t id) {
  for (ScrollState& s : scrolls) {
    if (s.id == id) return s;
  }
  scrolls.push_back({id});
  return scrolls.back();
}

void Frame::clamp_scrolls() {
  for (const ScrollArea& a : areas) {
    ScrollState& s = scroll_state(a.id);
    const float to = std::clamp(s.offset, 0.0F, a.most);
    if (to != s.offset) s.velocity = 0;
    s.offset = to;
  }
}

// ---- fingers ----------------------------------------------------------------------------------

void Frame::pointer_down(const PointerEvent& e) {
  if (!e.touch) {
    mouse_x = e.x;
    mouse_y = e.y;
  }
  if (finger_down && e.pointer != finger) return;  // one finger at a time
  finger = e.pointer;
  finger_down = true;
  is_scrolling = false;
  start_x = e.x;
  start_y = last_y = e.y;
  samples.clear();
  samples.push_back({e.y, e.ms});
  bool was_flying = false;
  for (ScrollState& s : scrolls) {
    was_flying = was_flying || s.velocity != 0;
    s.velocity = 0;
  }
  const Target* t = target_at(e.x, e.y);
  pressed = t != nullptr && t->enabled && !was_flying ? t->id : 0;
  held_scroll = scroll_at(e.x, e.y, 0);
}

void Frame::pointer_move(const PointerEvent& e) {
  if (!e.touch) {
    mouse_x = e.x;
    mouse_y = e.y;
  }
  if (!finger_down || e.pointer != finger) return;
  const float slop = px(style::slop);
  if (!is_scrolling && std::abs(e.y - start_y) > slop && e.touch) {
    const std::uint32_t id = scroll_at(start_x, start_y, start_y - e.y);
    if (id != 0) {
      held_scroll = id;
      is_scrolling = true;
      pressed = 0;
      last_y = start_y + (e.y > start_y ? slop : -slop);
    }
  }
  if (!is_scrolling) {
    const Target* t = target_at(e.x, e.y);
    const bool far = std::abs(e.x - start_x) > slop || std::abs(e.y - start_y) > slop;
    if (far && (t == nullptr || t->id != pressed)) pressed = 0;
    return;
  }
  scroll_state(held_scroll).offset += last_y - e.y;
  clamp_scrolls();
  last_y = e.y;
  samples.push_back({e.y, e.ms});
  while (samples.size() > 2 &&
         static_cast<float>(e.ms - samples.front().ms) > style::velocity_window_ms) {
    samples.erase(samples.begin());
  }
}

void Frame::pointer_up(const PointerEvent& e) {
  if (!finger_down || e.pointer != finger) return;
  pointer_move(e);
  finger_down = false;
  if (is_scrolling) {
    is_scrolling = false;
    const auto ms = static_cast<float>(samples.back().ms - samples.front().ms);
    if (ms > 0 && !in.reduced_motion) {
      const float v = (samples.front().y - samples.back().y) / ms * 1000;
      if (std::abs(v) > px(style::fling_least)) scroll_state(held_scroll).velocity = v;
    }
  } else if (pressed != 0) {
    const Target* t = target_at(e.x, e.y);
    const bool near =
        std::abs(e.x - start_x) <= px(style::slop) && std::abs(e.y - start_y) <= px(style::slop);
    if (near || (t != nullptr && t->id == pressed)) {
      tapped = pressed;
      tapped_at = Spot{e.x, e.y};
      acted = true;
    }
  }
  pressed = held_scroll = 0;
}

void Frame::advance_scrolls() {
  const auto dt = static_cast<float>(std::clamp<std::int64_t>(in.now_ms - last_ms, 0, 100));
  last_ms = in.now_ms;
  for (ScrollState& s : scrolls) {
    if (s.velocity == 0) continue;
    if (in.reduced_motion) {
      s.velocity = 0;
      continue;
    }
    const float decay = std::exp(-dt / style::inertia_ms);
    s.offset += s.velocity * (style::inertia_ms / 1000) * (1 - decay);
    s.velocity *= decay;
    if (std::abs(s.velocity) < px(style::fling_least)) s.velocity = 0;
    is_moving = is_moving || s.velocity != 0;
  }
  clamp_scrolls();
}

}  // namespace tallyblock
