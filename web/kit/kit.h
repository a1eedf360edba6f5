// The widget kit: every widget call draws, lays out and registers role, name and value at once.
//
// How a frame goes: begin(input) decides, against what the person saw (the rectangles of the frame
// before), which ONE thing was tapped, typed or activated; the screen then calls widgets in reading
// order, and a widget returns true in the frame in which it was tapped; end() lays all of it out,
// draws it and hands over the list of what is on screen. Anything that came in besides waits for the
// next frame: call frames while is_waiting(), so quick taps all count, in their order.
//
// Layout: a frame is a tree of boxes. A box is an object that stays open until it goes out of scope:
//     { auto bar = kit.top_bar(); kit.heading("On the board"); }
//     { auto body = kit.scroll("weigh/body");
//       { auto r = kit.row({1, 2}); kit.button("a", "A"); kit.button("b", "B"); }   // shares 1 : 2
//     }
// Children of a column stand below each other, 8 px apart, and take the whole width; children of a
// row take its width by shares and are equally high; children of a grid are equal cells. A scroll area
// takes the height that is left. When too little is left (small screen, large text) the whole page
// scrolls instead: nothing is ever cut off. Screens hold no pixel arithmetic.
//
// Ids are paths ("weigh/pile/portions"), hashed; the same path is the same element in every frame.
// Paths within one frame are unique. Headings and paragraphs may go without.
//
// Units: FrameInput, AccessNode and the drawn frame are physical pixels; style.h is CSS pixels and
// the only place where sizes stand. Texts are UTF-8 without markup and are copied by the call.
// Errors: none. A widget called outside begin/end is ignored. Texts are wrapped to fit, then set one
// step smaller; digits are never cut.
// Not implemented: right-to-left text, dragging, horizontal scrolling, hover help.
#pragma once
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "access.h"
#include "look.h"

struct ImDrawData;

namespace tallyblock {

// ---- what comes in -----------------------------------------------------------------------------

enum class PointerKind : std::uint8_t { down = 0, move = 1, up = 2, cancel = 3 };

struct PointerEvent {
  PointerKind kind{};
  int pointer = 0;
  float x = 0, y = 0;  // physical px
  bool touch = true;
  std::int64_t ms = 0;
};

// As BRIDGE.md names them: "0".."9", ".", ",", "/", " ", "-", "Backspace", "Enter", "Escape".
struct KeyPress {
  std::string key;
  bool shift = false;
};

struct TextChange {
  std::uint32_t id = 0;
  std::string text;
  bool done = false;  // the box was left
};

struct Insets {
  float top = 0, right = 0, bottom = 0, left = 0;  // physical px
};

struct FrameInput {
  float width = 360, height = 640;  // physical px
  float ratio = 1;                  // physical px per CSS px
  float text_scale = 1;             // the system's text size, 1 to 2
  bool dark = false;
  bool reduced_motion = false;
  bool left_hand = false;
  Insets insets;
  float keyboard_height = 0;  // covered by the system's keyboard, physical px
  std::int64_t now_ms = 0;
  // What happened since the last frame, each in its order.
  std::vector<PointerEvent> pointers;
  float wheel_x = 0, wheel_y = 0;  // physical px, positive: content moves up
  std::vector<KeyPress> keys;
  std::vector<std::uint32_t> activated;
  std::uint32_t focused = 0;  // element with DOM focus, 0: none
  std::vector<TextChange> texts;
};

// ---- options of the widgets --------------------------------------------------------------------

enum class Tone : std::uint8_t { normal, quiet, strong, good, warn, bad };

enum class ButtonKind : std::uint8_t {
  primary,  // the one next step, at most one on a screen
  plain,
  quiet,  // words only, still a full target
};

enum class ButtonSize : std::uint8_t {
  usual,
  large_words,
  large,  // and more height
};

struct ButtonOptions {
  ButtonKind kind = ButtonKind::plain;
  std::string_view detail = {};  // second line
  ButtonSize size = ButtonSize::usual;
  bool enabled = true;
  std::optional<bool> pressed = {};   // a toggle, and whether it is on
  std::optional<bool> expanded = {};  // opens something below it
  std::string_view name = {};         // for screen readers, when the label is not enough alone
};

enum class FigureSize : std::uint8_t {
  small,  // in a list of figures
  medium,
  key,   // the figure that matters now
  huge,  // the one answer of a screen
};

struct FigureOptions {
  FigureSize size = FigureSize::medium;
  Tone tone = Tone::normal;
  std::string_view unit = {};   // set smaller behind the value
  std::string_view doubt = {};  // said below, always visible
  std::string_view name = {};   // for who does not see it, where there is no label
  // One sentence with its own numbers: then the figure is a target that shows or hides it.
  std::string_view explain = {};
};

struct TileOptions {
  Look look = Look::primary;
  std::uint8_t variant = 0;      // tells piles of one kind apart, counts from 0
  std::string_view weight = {};  // running weight with unit
  std::string_view share = {};   // of the whole
  std::string_view note = {};    // e.g. "8 pieces", "by difference"
  std::string_view word = {};    // the same beside the weight of a compact tile: "in 8"
  std::string_view act = {};     // said, not shown: what a tap does now
  bool chosen = false, enabled = true;
  // On a narrow screen: texture as a band at the side, name and weight; the share is left to the picture.
  bool compact = false;
  bool wanted = false;  // a pile is to be chosen: it stands out
};

struct DisplayOptions {
  std::string_view unit = {};
  std::string_view hint = {};     // quiet, when there are no digits yet
  std::string_view problem = {};  // why the digits were not taken
  bool active = true;             // the keypad types here
  bool opens = false;             // a target
  bool done = false;              // the digits are entered: shown until the next one is typed
  std::string_view note = {};     // below the label
  std::string_view said = {};     // told at once to who does not see it, e.g. that it is saved
};

struct KeypadOptions {
  char decimal = '.';      // as shown; the key is always "."
  bool fractions = false;  // adds "/" and "space" (1 1/2 oz)
  bool minus = false;
  std::vector<std::string_view> marks = {};  // keys typed into the digits: "lb", "oz"
  std::vector<std::string_view> units = {};  // units to choose from; the key is "unit:kg"
  std::string_view unit = {};                // the chosen one
  std::string_view enter_label = {};         // e.g. "Weigh in"; empty: no enter key
  std::string_view enter_detail = {};        // e.g. the chosen pile
  std::optional<Look> enter_look = {};       // texture of the chosen pile, shown on the enter key
  std::uint8_t enter_variant = 0;
  bool enter_enabled = true;
  int turn = 0;       // may grow in this turn (may_grow) ...
  float grow_by = 0;  // ... by so many px a row
  // A key above the enter key, e.g. how the next reading is weighed; the key is "side".
  std::string_view side_label = {}, side_name = {};
  bool side_open = false;
  // Names for screen readers of the keys that are signs.
  std::string_view back_name = "Delete last digit", decimal_name = "Decimal mark",
                   space_name = "Space", slash_name = "Fraction bar";
  std::string_view back_label = "Back";  // words on the keys
  std::string_view space_label = "Space", minus_label = "Minus";
};

struct TextBoxOptions {
  std::string_view hint = {};
  bool multiline = false;
  bool enabled = true;
  std::uint16_t max_length = 200;
};

struct TableColumn {
  std::string_view title;
  bool number = false;  // aligned at the decimal mark
};

struct TableRow {
  std::vector<std::string> cells;  // as many as columns; empty: not known
  std::optional<Look> look = {};   // texture swatch before the first cell
  std::uint8_t variant = 0;
  bool total = false;  // set apart by a line above
  bool quiet = false;
};

struct ListRowOptions {
  std::string_view detail = {};
  std::string_view value = {};   // at the right, as a figure
  std::string_view action = {};  // a button behind; and a second one
  std::string_view action2 = {};
  bool opens = false;         // the row itself is a target
  bool folds = false;         // what it opens stands below it, and `chosen` says that it is open
  std::string_view act = {};  // what tapping the row does, for who does not see it
  bool chosen = false;
  bool struck = false;  // voided: quiet, line through the value
  std::optional<Look> look = {};
  std::uint8_t variant = 0;
};

struct ChapterOptions {
  std::string_view value = {};  // large, at the right
  Tone tone = Tone::normal;     // of the value
  bool open = false;
};

enum class RowTap : std::uint8_t { none, row, action, action2 };

struct NoticeOptions {
  std::string_view undo = {};   // label of the undo button; empty: none
  std::string_view close = {};  // label of the button that puts it away
  bool is_error = false;
};

enum class NoticeTap : std::uint8_t { none, undo, close };

struct RowOptions {
  float stack_below = 0;  // below each other when narrower than this many px at normal text size
  bool hand_side_last =
      false;  // for a left-handed cook the last child stands left; reading order stays
};

enum class Ground : std::uint8_t { none, raised, sunk, warn, bad, good };

class Frame;  // the boxes of one frame (frame.h); for widgets written outside the kit

// ---- the kit -----------------------------------------------------------------------------------

class Kit {
 public:
  // An open box; closes when it goes out of scope.
  class [[nodiscard]] Box {
   public:
    explicit Box(Kit& kit) : kit_(&kit) {}
    Box(Box&& other) noexcept : kit_(other.kit_) { other.kit_ = nullptr; }
    Box(const Box&) = delete;
    Box& operator=(const Box&) = delete;
    Box& operator=(Box&&) = delete;
    ~Box() {
      if (kit_ != nullptr) kit_->close_box();
    }

   private:
    Kit* kit_;
  };

  // A list of many rows, a box that stays open while it is walked: only rows near what is seen and the one
  // with the focus are built; the others keep their room.
  //     for (auto rows = kit.rows("bin/rows", cards.size()); rows.next();) row(cards[rows.at()]);
  // Each row stands in a column of its own. A height that is not known yet is guessed; what is seen stays.
  class [[nodiscard]] Rows {
   public:
    Rows(Kit& kit, std::string_view path, std::size_t count);
    Rows(const Rows&) = delete;
    Rows& operator=(const Rows&) = delete;
    ~Rows();
    bool next();  // on to the next row to build; false: there is none
    std::size_t at() const { return at_; }

   private:
    void skip(std::size_t to);
    void end_row();
    Frame* frame_;
    std::size_t list_, count_, at_ = 0;
    std::size_t told_ = 0;  // rows built or skipped
    std::size_t access_ = 0;
    bool open_ = false;
  };

  // Needs a current Dear ImGui context.
  Kit();
  ~Kit();
  Kit(const Kit&) = delete;
  Kit& operator=(const Kit&) = delete;

  // The font of all texts, copied. False: not a font. Once, before the first frame.
  static bool load_font(const void* bytes, int length);

  // A graphics back end's own "new frame" comes before begin(). After end(), drawn() is the frame.
  void begin(const FrameInput& input);
  const AccessList& end();
  ImDrawData* drawn();  // for a renderer of Dear ImGui's; valid until the next begin()
  // Something moves, waits in the queue or was just tapped. False: the next frame would be the same.
  // Moving needs time to pass (now_ms); what is_waiting() only needs the next frame, at once.
  bool wants_frame() const;
  bool is_waiting() const;

  // ---- what the frame is like
  bool wide() const;   // landscape: two things beside each other, little height
  bool broad() const;  // tablet, desktop, wall: room for two columns and more
  bool low() const;    // less height than a common phone held upright
  bool least() const;  // less than the smallest phone that all keys are laid out for
  bool left_hand() const;
  bool dark() const;
  // A key that no keypad has taken, e.g. "Escape".
  bool key_pressed(std::string_view key) const;
  float content_height() const;  // all of the frame that has ended needs, physical px
  static std::uint32_t id_of(std::string_view path);

  // ---- boxes
  Box column();
  // A share of 0: as wide as its content. Stands below each other when it does not fit.
  Box row(std::initializer_list<float> shares, const RowOptions& options = {});
  Box row() { return row({}); }  // equal shares
  // As many equal columns as fit with cells of min_cell px (at normal text size), at most max_columns.
  Box grid(int max_columns, float min_cell = 144);
  Box panel(Ground ground = Ground::raised);  // a column on its own ground
  // A row at the top edge; its buttons are snug. Rigid: they stay beside each other, whatever it takes.
  Box top_bar(bool rigid = false);
  Box bottom_bar();                   // a row at the bottom edge
  Box scroll(std::string_view path);  // a column that scrolls
  Box scroll_if_short(
      std::string_view path);  // a column; it scrolls while the page is too high for it
  Rows rows(std::string_view path, std::size_t count) { return Rows(*this, path, count); }
  // The content of the page, no wider than comfortable to read; centred on broad screens.
  Box measure();
  // The box that is open may become higher before what fills does, those with an earlier turn (1 to 6)
  // first: by so many px, each row of a grid by so many.
  void may_grow(int turn, float by);
  void may_grow_to(int turn, float height);  // up to so many px, whatever it holds
  void may_give_way();        // the box that is open is gone while the page is too high
  void space(int steps = 1);  // 8 px each
  void fill();                // takes the height that is left
  void line();

  // Position of a scroll area in px at ratio 1, to be kept and restored.
  float scroll_of(std::string_view path) const;
  void set_scroll(std::string_view path, float px);
  // Brings an element into view in this frame, and once more in the next: what is asked for in this one may
  // have left less room.
  void scroll_to(std::string_view path);

  // ---- words
  void heading(std::string_view text, int level = 1, std::string_view path = {});
  // A small heading that takes one line, and no room where it does not fit into one: it is heard anyway.
  void caption(std::string_view text, std::string_view path);
  void paragraph(std::string_view text, Tone tone = Tone::normal, std::string_view path = {});
  void status(std::string_view path, std::string_view text, Tone tone = Tone::quiet);  // live
  void figure(std::string_view path, std::string_view label, std::string_view value,
              const FigureOptions& options = {});

  // ---- things to tap
  bool button(std::string_view path, std::string_view label, const ButtonOptions& options = {});
  void link(std::string_view path, std::string_view label, std::string_view page);
  // The index just chosen, or -1. Each option's path is path + "/" + its index.
  int choice(std::string_view path, std::string_view label,
             const std::vector<std::string_view>& options, int chosen);
  bool tile(std::string_view path, std::string_view name, const TileOptions& options = {});
  RowTap list_row(std::string_view path, std::string_view title,
                  const ListRowOptions& options = {});
  // One line of few: its name, a large figure, and that what is behind it opens below.
  bool chapter(std::string_view path, std::string_view title, const ChapterOptions& options);
  NoticeTap notice_bar(std::string_view path, std::string_view text,
                       const NoticeOptions& options = {});

  // A place of the bar at the bottom: `current` is filled.
  bool place(std::string_view path, std::string_view label, bool current);

  // ---- typing
  // True: tapped, the keypad should type here.
  bool keypad_display(std::string_view path, std::string_view label, std::string_view digits,
                      const DisplayOptions& options = {});
  // The key just pressed, by finger or keyboard, in the words of ask::key plus "enter" and "unit:...";
  // empty: none. Paths of the keys: path + "/" + key. Valid until end().
  std::string_view keypad(std::string_view path, const KeypadOptions& options = {});
  // What was typed since the last frame, if anything.
  std::optional<TextChange> text_box(std::string_view path, std::string_view label,
                                     std::string_view value, const TextBoxOptions& options = {});

  // ---- numbers in columns
  void table(std::string_view path, std::string_view label, const std::vector<TableColumn>& columns,
             const std::vector<TableRow>& rows);
  void swatch(std::string_view path, std::string_view label, Look look, std::uint8_t variant = 0);

  // For widgets in files of their own (piece_picture.h).
  Frame& frame() { return *frame_; }

 private:
  friend class Box;
  void close_box();
  std::unique_ptr<Frame> frame_;
};

}  // namespace tallyblock
