// One frame of the kit: its boxes, its texts, what can be hit, and what lasts between frames.
//
// Widgets build nodes (build.cpp, widgets*.cpp), layout.cpp measures and places them, draw.cpp draws
// them, input.cpp decides what was tapped. All numbers are physical pixels. Vectors keep their
// storage from frame to frame.
#pragma once
#include <cstdint>
#include <deque>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "arena.h"
#include "kit.h"
#include "palette.h"
#include "style.h"

struct ImFont;
struct ImDrawList;

namespace tallyblock {

class Canvas;

struct Rect {
  float x = 0, y = 0, w = 0, h = 0;
  float right() const { return x + w; }
  float bottom() const { return y + h; }
  bool contains(float px, float py, float slack = 0) const {
    return px >= x - slack && px < right() + slack && py >= y - slack && py < bottom() + slack;
  }
};
Rect intersect(const Rect& a, const Rect& b);

// A drawing with a height of its own: the piece picture, a table.
class Painter {
 public:
  virtual ~Painter() = default;
  virtual float height(Frame& frame, float width) = 0;
  virtual void paint(Frame& frame, const Rect& rect) = 0;
};

enum class Part : std::uint8_t { box, text, swatch, painter, gap };
enum class Flow : std::uint8_t { down, across, cells };
enum class Align : std::uint8_t { left, middle, right };

inline constexpr int kTurns = 6;  // Node::turn

struct TextLook {
  float size = 16;
  Colour colour = 0;
  Align align = Align::left;
  bool figure = false;  // digits: one line, made smaller rather than broken
  bool middle = false;  // in the middle of its height
  bool struck = false;
  bool tight = false;     // little between its lines
  bool single = false;    // one line or none
  float least = 0;        // a figure: as small as this by its size, where it must; 0: as all others
  bool dotted = false;    // explains itself when tapped
  bool stand_in = false;  // only while the page's own text box is not over it
  bool caret = false;     // a bar behind it: typing goes here
};

struct Node {
  Part part = Part::box;
  Flow flow = Flow::down;
  int parent = -1, first = -1, last = -1, next = -1;
  Rect r;
  float natural = 0;  // height without extra
  // box
  float gap = 0, pad_x = 0, pad_y = 0, least_h = 0, least_w = 0, most_w = 0;
  float share = 1;  // of a row's width; 0: as wide as its content
  int shares_at = 0, shares_n = 0, children = 0;
  int columns = 0;
  float cell = 0, stack_below = 0;
  bool by_column = false;  // cells fill a column first, with a lane for lines right of each
  float lane = 0;          // its width
  bool stacked = false, rigid = false, reversed = false;
  bool scroll = false, edge = false;  // edge: a bar, reaches the side of the page
  bool page = false;  // holds bars or scroll areas: others in it keep the page margin
  bool fill = false, grows = false;  // takes the height left; holds something that does
  bool stretch = false;              // takes the height left in its own box only
  std::uint8_t turn = 0;      // may become higher before what grows does; 1 first, 0 not at all
  float grow_by = 0;          // then: by how much at most; cells: each of their rows
  float grow_to = 0;          // instead: up to this height
  float room = 0;             // so much it may grow by (layout)
  bool gives_way = false;     // not there while the page is too high
  bool scroll_short = false;  // scrolls while the page is too high
  bool middle = false;        // content in the middle of the height
  bool snug = false;          // a row whose targets are as wide as their words
  float content = 0;          // scroll: height of what is inside
  // surface
  Colour ground = 0, border = 0;
  float border_w = 0, corner = 0;
  // text
  std::string_view text, suffix;
  TextLook look;
  float suffix_size = 0;
  int lines_at = 0, lines_n = 0;
  float type = 0;  // size after fitting
  float units =
      0;  // of the letters of a figure that is too wide, smaller than its digits; 0: alike
  // swatch, painter
  Look pile = Look::primary;
  std::uint8_t variant = 0;
  int painter = -1;
  // what it is
  std::uint32_t id = 0;
  int access = -1;
  bool target = false, enabled = true;
};

// What could be hit in the last frame.
struct Target {
  std::uint32_t id = 0;
  Rect r, clip;
  bool enabled = true;
};
// Part of a target, as drawn last.
struct Region {
  std::uint32_t id = 0;  // of the target
  std::size_t index = 0;
  Rect r;
};
struct ScrollArea {
  std::uint32_t id = 0;
  Rect view;
  float most = 0;  // furthest offset
};

// What lasts between frames.
struct ScrollState {
  std::uint32_t id = 0;
  float offset = 0, velocity = 0;  // px, px per second
};
struct Spot {
  float x = 0, y = 0;
};
struct Happening {
  enum class What : std::uint8_t { nothing, pointer, wheel, key, activate, text } what{};
  PointerEvent pointer;
  float dx = 0, dy = 0;
  KeyPress key;
  std::uint32_t id = 0;
  TextChange text;
};
// A list of many rows (Kit::Rows).
struct ListState {
  std::uint32_t id = 0;
  float width = 0, type = 0;   // for which the heights are true
  float guess = 0;             // height of a row that was never built
  std::vector<float> heights;  // 0: not known
  std::uint32_t area = 0;      // scrolls it
  float top = 0;               // where it begins in there
  std::size_t focused = 0;     // row with the focus, beyond the last: none
  // of this frame
  bool used = false;
  int node = -1;
  std::size_t first = 0, last = 0;  // rows that are built around what is seen
  std::size_t anchor = 0;           // rows before it are above what is seen

  float height(std::size_t row) const { return heights[row] > 0 ? heights[row] : guess; }
};
struct BuiltRow {
  std::size_t list = 0, row = 0;
  int node = -1;
};
// A picture's amounts as last drawn, to move from there to the new ones.
struct Motion {
  std::uint32_t id = 0;
  std::vector<double> from, to;
  std::int64_t start = 0;
};

class Frame {
 public:
  // ---- drawing and words, for painters
  const Palette& colours() const { return palette(in.dark); }
  float px(float css) const { return scale.px(css); }
  float type(float css) const { return scale.type(css); }
  float text_width(std::string_view text, float size) const;
  float line_width(const Node& n, std::string_view line) const;  // as it is fitted
  void draw_text(float x, float y, std::string_view text, float size, Colour colour) const;
  float ascent(float size) const;
  float word_width(std::string_view text, float size) const;  // of the widest word
  // Breaks text into lines no wider than width (line_breaks.h); appends to lines, returns how many.
  int wrap(std::string_view text, float size, float width);
  // Values on their way from the last ones to these; equal to them when nothing moves.
  const std::vector<double>& moving(std::uint32_t id, const std::vector<double>& to);
  ImDrawList* draw() const;

  // ---- building (build.cpp)
  int add(Part part);
  Node& node(int i) { return nodes[static_cast<std::size_t>(i)]; }
  int open_box(Flow flow);
  void close_box();
  int add_text(std::string_view text, const TextLook& look);
  int add_swatch(Look look, std::uint8_t variant, bool small);
  int add_painter(std::unique_ptr<Painter> painter);
  AccessNode& describe(int i, AccessKind kind, std::uint32_t id, std::string_view label,
                       std::string_view value = {});
  // Makes a box a target; true if it was tapped.
  bool make_target(int i, std::uint32_t id, bool enabled);
  bool is_tapped(std::uint32_t id) const { return id != 0 && tapped == id; }
  bool is_pressed(std::uint32_t id) const { return id != 0 && pressed == id; }
  std::uint32_t unnamed(std::string_view text);  // id of a text without a path
  Colour ink(Tone tone) const;

  // ---- layout (layout.cpp)
  float natural_width(int i);
  float least_width(int i);
  float measure(int i, float width);
  void place(int i, float x, float y, float height);
  void lay_out();
  void reveal(std::uint32_t id);

  // ---- lists of many (rows.cpp)
  std::size_t open_list(std::uint32_t id, std::size_t count);
  const ScrollArea* area_of(const ListState& list) const;
  float rows_height(const ListState& list, std::size_t from, std::size_t to) const;
  void learn_heights();
  void look_at_lists();
  float margin() const;

  // ---- input (input.cpp)
  void take_in(const FrameInput& input);
  void advance_scrolls();
  ScrollState& scroll_state(std::uint32_t id);
  void clamp_scrolls();

  // ---- drawing (draw.cpp)
  void draw_all();
  void draw_node(int i, const Rect& clip);
  void leave_out(int i);
  void finish_access(int i, const Rect& clip);

  FrameInput in;
  style::Scale scale;
  bool running = false;

  std::vector<Node> nodes;
  std::vector<int> open;
  std::vector<float> shares;
  std::vector<std::string_view> lines;
  std::vector<std::unique_ptr<Painter>> painters;
  Arena arena;
  AccessList access;
  std::size_t access_used = 0;
  std::uint32_t unnamed_count = 0;
  bool page_scrolls = false;
  bool squeezed = false;  // the page was too high: what gives way is gone ...
  bool is_short = false;  // ... and what scrolls then does

  std::vector<Target> targets;
  std::vector<Region> regions;
  std::vector<ScrollArea> areas;
  std::vector<ScrollState> scrolls;
  std::vector<std::uint32_t> explained;  // figures that show their sentence
  std::vector<ListState> lists;
  std::vector<BuiltRow> built_rows;
  int unsettled = 0;      // frames in a row that did not build all that is seen
  bool guessing = false;  // a list of this frame has no heights yet
  std::vector<Motion> motions;
  std::vector<double> motion_now;
  std::deque<Happening> queue;

  // the one thing of this frame
  std::uint32_t tapped = 0;
  std::optional<Spot> tapped_at;  // none: pressed by its id
  std::string key;
  TextChange typed;
  std::string keypad_key;

  // fingers
  std::uint32_t pressed = 0, held_scroll = 0;
  int finger = -1;
  bool finger_down = false, is_scrolling = false;
  float start_x = 0, start_y = 0, last_y = 0;
  float mouse_x = -1, mouse_y = -1;
  struct Sample {
    float y;
    std::int64_t ms;
  };
  std::vector<Sample> samples;
  std::int64_t last_ms = 0;
  bool is_moving = false, acted = false;
  std::uint32_t focus_before = 0, wanted_in_view = 0;
  std::uint32_t wanted_next = 0;  // in view also in the frame after
  std::unique_ptr<Canvas> canvas;

 private:
  void handle(const Happening& h);
  void pointer_down(const PointerEvent& e);
  void pointer_move(const PointerEvent& e);
  void pointer_up(const PointerEvent& e);
  const Target* target_at(float x, float y) const;
  std::uint32_t scroll_at(float x, float y, float direction) const;
  float fit_text(Node& n, float width);
  float measure_down(Node& n, float width);
  float measure_across(Node& n, float width);
  float measure_cells(Node& n, float width);
  float measure_columns(Node& n, float inner);
  float gap_between(const Node& n, int a, int b);
  bool share_out(Node& n, float inner);
  float take_turns(Node& n, float extra);
  void place_down(Node& n, float height);
  void place_across(Node& n);
  void place_cells(Node& n);
  void place_columns(Node& n);
  void draw_surface(const Node& n) const;
  void draw_figure(const Node& n, float x, float y, std::string_view text) const;
  void draw_lines(const Node& n) const;
};

}  // namespace tallyblock
