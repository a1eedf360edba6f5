// Lists of many rows: which of them are built, and how high the others are.
#include <algorithm>
#include <cmath>
#include <utility>

#include "frame.h"

namespace tallyblock {
namespace {

constexpr float high_row = 104;    // CSS px
constexpr std::size_t few = 30;    // so many are always built
constexpr int most_unsettled = 4;  // frames in a row
constexpr std::size_t around = 2;  // rows beside those near what is seen

}  // namespace

float Frame::rows_height(const ListState& list, std::size_t from, std::size_t to) const {
  if (from >= to) return 0;
  float h = px(style::gap) * static_cast<float>(to - from - 1);
  for (std::size_t i = from; i < to; ++i) h += list.height(i);
  return h;
}

// As of the last layout; null: nothing of it scrolled then.
const ScrollArea* Frame::area_of(const ListState& list) const {
  const auto found = std::find_if(areas.begin(), areas.end(),
                                  [&](const ScrollArea& area) { return area.id == list.area; });
  return found == areas.end() ? nullptr : &*found;
}

// Opens its box and decides by the scroll offset of this frame what is seen of it.
std::size_t Frame::open_list(std::uint32_t id, std::size_t count) {
  auto found = std::find_if(lists.begin(), lists.end(),
                            [&](const ListState& list) { return list.id == id; });
  if (found == lists.end()) {
    lists.emplace_back();
    found = lists.end() - 1;
    found->id = id;
    found->focused = static_cast<std::size_t>(-1);
  }
  ListState& list = *found;
  list.area = Kit::id_of("page");
  for (const int o : open) {
    if (!page_scrolls && node(o).scroll) list.area = node(o).id;
  }
  list.node = open_box(Flow::down);
  list.used = true;
  if (list.width != in.width || list.type != type(1)) {
    list.heights.clear();
    list.guess = 0;
    list.width = in.width;
    list.type = type(1);
  }
  list.heights.resize(count, 0);
  const bool known = list.guess > 0;
  if (!known) list.guess = type(high_row);  // rather too much: no place is taken for beyond the end
  const ScrollArea* area = area_of(list);
  const float view = area == nullptr ? in.height : area->view.h;
  const float from = scroll_state(list.area).offset - list.top;  // seen, from the list's top
  const float gap = px(style::gap);
  list.anchor = list.first = list.last = 0;
  float y = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const float h = list.height(i) + gap;
    if (y + h <= from && known) list.anchor = i + 1;
    if (y + h <= from - view / 2) list.first = i + 1;
    if (y < from + view * 1.5F) list.last = i + 1;
    y += h;
  }
  list.first -= std::min(list.first, around);
  list.last = std::min(std::max(list.last, list.first) + around, count);
  if (count <= few) {
    list.first = 0;
    list.last = count;
  }
  return static_cast<std::size_t>(found - lists.begin());
}

// The heights as measured; what is seen stays where it is when one above it was guessed wrong.
void Frame::learn_heights() {
  guessing = false;
  for (ListState& list : lists) {
    if (!list.used) continue;
    float moved = 0, sum = 0;
    int rows = 0;
    const bool fresh = std::none_of(list.heights.begin(), list.heights.end(),
                                    [](float height) { return height > 0; });
    for (const BuiltRow& built : built_rows) {
      if (&lists[built.list] != &list) continue;
      const float now = std::max(1.0F, std::floor(node(built.node).natural));
      float& height = list.heights[built.row];
      if (built.row < list.anchor) moved += now - list.height(built.row);
      height = now;
      sum += now;
      ++rows;
    }
    if (moved != 0) scroll_state(list.area).offset += moved;
    if (!fresh || rows == 0) continue;
    list.guess = std::floor(sum / static_cast<float>(rows));
    guessing = guessing || list.heights.size() > few;
  }
}

// Where each list has come to stand. What is seen and was not built asks for another frame.
void Frame::look_at_lists() {
  bool whole = !guessing;
  for (ListState& list : lists) {
    if (!list.used) continue;
    const Rect at = node(list.node).r;
    const ScrollArea* area = area_of(list);
    if (area == nullptr) {  // the page has begun to scroll as a whole, or ceased to
      whole = false;
      continue;
    }
    list.top = at.y - area->view.y + scroll_state(area->id).offset;
    const Rect seen = intersect(at, area->view);
    if (seen.h <= 0) continue;
    const float gap = px(style::gap);
    const float first = at.y + rows_height(list, 0, list.first);
    const float last = at.y + rows_height(list, 0, list.last);
    if (list.first > 0 && first > seen.y + gap) whole = false;
    if (list.last < list.heights.size() && last < seen.bottom() - gap) whole = false;
  }
  unsettled = whole || unsettled >= most_unsettled ? 0 : unsettled + 1;
}

// ---- walking one

Kit::Rows::Rows(Kit& kit, std::string_view path, std::size_t count)
    : frame_(kit.frame_.get()), list_(frame_->open_list(Kit::id_of(path), count)), count_(count) {}

Kit::Rows::~Rows() {
  end_row();
  skip(count_);
  frame_->close_box();
}

void Kit::Rows::end_row() {
  if (!std::exchange(open_, false)) return;
  frame_->close_box();
  ListState& list = frame_->lists[list_];
  if (list.focused == at_) list.focused = static_cast<std::size_t>(-1);
  for (std::size_t i = access_; i < frame_->access_used; ++i) {
    AccessNode& a = frame_->access[i];
    a.position = static_cast<std::uint32_t>(at_ + 1);
    a.set_size = static_cast<std::uint32_t>(count_);
    if (a.id == frame_->in.focused) list.focused = at_;
  }
}

// The room of rows that are not built.
void Kit::Rows::skip(std::size_t to) {
  if (to > told_) {
    const float height = frame_->rows_height(frame_->lists[list_], told_, to);
    frame_->node(frame_->add(Part::gap)).least_h = height;
  }
  told_ = std::max(told_, to);
}

bool Kit::Rows::next() {
  end_row();
  const ListState& list = frame_->lists[list_];
  std::size_t next = std::max(told_, list.first);
  if (list.focused >= told_ && list.focused < next) next = list.focused;
  if (next >= list.last) next = list.focused >= next ? list.focused : count_;
  if (next >= count_) return false;
  skip(next);
  at_ = next;
  told_ = next + 1;
  access_ = frame_->access_used;
  open_ = true;
  const int node = frame_->open_box(Flow::down);
  frame_->built_rows.push_back({list_, next, node});
  return true;
}

}  // namespace tallyblock
