// Frames, boxes and what lasts.
#include "kit.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "canvas.h"
#include "frame.h"

namespace tallyblock {

Kit::Kit() : frame_(std::make_unique<Frame>()) { frame_->canvas = std::make_unique<Canvas>(); }
Kit::~Kit() = default;

bool Kit::load_font(const void* bytes, int length) {
  // A font starts with 00010000 (TrueType) or OTTO (PostScript outlines).
  if (bytes == nullptr || length < 64) return false;
  const auto* head = static_cast<const unsigned char*>(bytes);
  const bool truetype = head[0] == 0 && head[1] == 1 && head[2] == 0 && head[3] == 0;
  if (!truetype && std::memcmp(head, "OTTO", 4) != 0) return false;
  void* copy = ImGui::MemAlloc(static_cast<std::size_t>(length));
  std::memcpy(copy, bytes, static_cast<std::size_t>(length));
  return ImGui::GetIO().Fonts->AddFontFromMemoryTTF(copy, length, style::type_body) != nullptr;
}

void Kit::begin(const FrameInput& input) {
  Frame& f = *frame_;
  f.canvas->begin(std::max(1.0F, input.width), std::max(1.0F, input.height));
  f.is_moving = false;
  f.in.reduced_motion = input.reduced_motion;
  f.scale = {input.ratio, std::clamp(input.text_scale, 1.0F, 2.0F)};
  f.take_in(input);
  // Kept without the lists of what happened, which are in the queue now.
  f.in.width = input.width;
  f.in.height = input.height;
  f.in.ratio = input.ratio;
  f.in.text_scale = f.scale.text;
  f.in.dark = input.dark;
  f.in.left_hand = input.left_hand;
  f.in.insets = input.insets;
  f.in.keyboard_height = input.keyboard_height;
  f.in.now_ms = input.now_ms;
  f.in.focused = input.focused;
  f.advance_scrolls();
  f.nodes.clear();
  f.open.clear();
  f.shares.clear();
  f.painters.clear();
  f.built_rows.clear();
  for (ListState& list : f.lists) list.used = false;
  f.arena.clear();
  f.access_used = 0;
  f.running = true;
  const int root = f.open_box(Flow::down);
  f.node(root).page = true;
  f.node(root).id = id_of("page");
}

const AccessList& Kit::end() {
  Frame& f = *frame_;
  if (!f.running) return f.access;
  f.open.clear();
  f.access.resize(f.access_used);
  f.lay_out();
  f.draw_all();
  f.canvas->end();
  f.running = false;
  return f.access;
}

ImDrawData* Kit::drawn() { return frame_->canvas->data(); }

bool Kit::is_waiting() const {
  return frame_->acted || frame_->unsettled > 0 || !frame_->queue.empty();
}
bool Kit::wants_frame() const { return is_waiting() || frame_->is_moving; }

// ---- what the frame is like

bool Kit::wide() const {
  const FrameInput& in = frame_->in;
  return in.width > in.height && in.width / in.ratio / in.text_scale >= style::wide_from;
}

bool Kit::low() const {
  const FrameInput& in = frame_->in;
  return in.height / in.ratio / in.text_scale < style::low_below;
}

bool Kit::least() const {
  const FrameInput& in = frame_->in;
  return in.height / in.ratio / in.text_scale < style::least_height;
}

bool Kit::broad() const {
  const FrameInput& in = frame_->in;
  const float by = in.ratio * in.text_scale;
  return in.width / by >= style::broad_from && in.height / by >= style::broad_height;
}

bool Kit::left_hand() const { return frame_->in.left_hand; }
bool Kit::dark() const { return frame_->in.dark; }
bool Kit::key_pressed(std::string_view key) const {
  return !key.empty() && frame_->key == key && frame_->keypad_key.empty();
}

float Kit::content_height() const {
  return frame_->nodes.empty() ? 0 : std::ceil(frame_->nodes.front().natural);
}

// ---- boxes

void Kit::close_box() { frame_->close_box(); }

Kit::Box Kit::column() {
  frame_->open_box(Flow::down);
  return Box(*this);
}

Kit::Box Kit::row(std::initializer_list<float> shares, const RowOptions& options) {
  Frame& f = *frame_;
  const int i = f.open_box(Flow::across);
  Node& n = f.node(i);
  n.shares_at = static_cast<int>(f.shares.size());
  n.shares_n = static_cast<int>(shares.size());
  f.shares.insert(f.shares.end(), shares.begin(), shares.end());
  n.stack_below = options.stack_below;
  n.reversed = options.hand_side_last && f.in.left_hand;
  return Box(*this);
}

Kit::Box Kit::grid(int max_columns, float min_cell) {
  Frame& f = *frame_;
  const int i = f.open_box(Flow::cells);
  f.node(i).columns = max_columns;
  f.node(i).cell = min_cell;
  return Box(*this);
}

Kit::Box Kit::panel(Ground ground) {
  Frame& f = *frame_;
  const Palette& p = f.colours();
  const int i = f.open_box(Flow::down);
  Node& n = f.node(i);
  n.pad_x = n.pad_y = f.px(style::pad);
  n.corner = f.px(style::corner);
  const Colour grounds[] = {0, p.raised, p.sunk, p.warn_ground, p.bad_ground, p.good_ground};
  n.ground = grounds[static_cast<int>(ground)];
  if (ground == Ground::none) n.pad_x = n.pad_y = 0;
  if (ground == Ground::raised) {
    n.border = p.edge_soft;
    n.border_w = f.px(style::hair);
  }
  return Box(*this);
}

namespace {
int open_bar(Frame& f) {
  for (const int o : f.open) f.node(o).page = true;
  const int i = f.open_box(Flow::across);
  Node& n = f.node(i);
  n.edge = true;
  n.pad_x = f.margin();
  n.least_h = f.px(style::target);
  n.ground = f.colours().raised;
  return i;
}
}  // namespace

Kit::Box Kit::top_bar(bool rigid) {
  const int i = open_bar(*frame_);
  frame_->node(i).snug = true;
  frame_->node(i).rigid = rigid;
  return Box(*this);
}

Kit::Box Kit::bottom_bar() {
  open_bar(*frame_);
  return Box(*this);
}

Kit::Box Kit::scroll(std::string_view path) {
  Frame& f = *frame_;
  for (const int o : f.open) f.node(o).page = true;
  const int i = f.open_box(Flow::down);
  Node& n = f.node(i);
  n.scroll = true;
  n.id = id_of(path);
  n.pad_x = f.margin();
  n.pad_y = f.px(style::gap);
  return Box(*this);
}

Kit::Box Kit::scroll_if_short(std::string_view path) {
  Box box = scroll(path);
  Node& n = frame_->node(frame_->open.back());
  n.scroll = false;
  n.scroll_short = true;
  return box;
}

Kit::Box Kit::measure() {
  Frame& f = *frame_;
  const int i = f.open_box(Flow::down);
  f.node(i).most_w = f.type(style::measure);
  return Box(*this);
}

void Kit::may_grow(int turn, float by) {
  Node& n = frame_->node(frame_->open.back());
  n.turn = static_cast<std::uint8_t>(turn);
  n.grow_by = frame_->px(by);
}

void Kit::may_grow_to(int turn, float height) {
  may_grow(turn, 0);
  frame_->node(frame_->open.back()).grow_to = frame_->px(height);
}

void Kit::may_give_way() { frame_->node(frame_->open.back()).gives_way = true; }

void Kit::space(int steps) {
  Frame& f = *frame_;
  // The gaps of the box stand on both sides of it already.
  const int i = f.add(Part::gap);
  f.node(i).least_h = f.px(style::gap) * static_cast<float>(std::max(0, steps - 1));
}

void Kit::fill() {
  Frame& f = *frame_;
  f.node(f.add(Part::gap)).fill = true;
}

void Kit::line() {
  Frame& f = *frame_;
  Node& n = f.node(f.add(Part::gap));
  n.least_h = f.px(style::hair);
  n.ground = f.colours().edge_soft;
}

float Kit::scroll_of(std::string_view path) const {
  const std::uint32_t id = id_of(path);
  for (const ScrollState& s : frame_->scrolls) {
    if (s.id == id) return s.offset / frame_->scale.ratio;
  }
  return 0;
}

void Kit::set_scroll(std::string_view path, float px) {
  ScrollState& s = frame_->scroll_state(id_of(path));
  s.offset = std::max(0.0F, px * frame_->scale.ratio);
  s.velocity = 0;
}

void Kit::scroll_to(std::string_view path) {
  frame_->wanted_in_view = frame_->wanted_next = id_of(path);
}

}  // namespace tallyblock
