// Every size of the design, and the only place where CSS pixels become physical ones.
//
// Sizes are CSS pixels at normal text size. Letters and what must hold them grow with ratio x text
// size; grounds, gaps, lines and the least target grow with the ratio alone, so that at 200 % the
// letters get the room.
#pragma once
#include <cmath>

namespace tallyblock::style {

// ---- type scale. Read at 65 cm on a common phone, 14 px subtend 9 minutes of arc, 16 the least that display
// ergonomics advises, 20 is comfortable, 28 subtend 18 (from memory): nothing is smaller than 16, names are
// 18, and a figure that is read while cutting is 28 or more.
inline constexpr float type_small = 16;  // second lines, labels
inline constexpr float type_body = 18;
inline constexpr float type_lead = 22;     // heading 2
inline constexpr float type_title = 28;    // heading 1, figures in tiles and lines, keypad
inline constexpr float type_key = 40;      // the figure that matters now
inline constexpr float type_display = 44;  // the digits being typed
inline constexpr float type_huge = 76;     // the one answer of the result
inline constexpr float key_figure_least = 28;
inline constexpr float line_text = 1.32F;  // line height by type size
inline constexpr float line_figure = 1.18F;
inline constexpr float line_tight = 1.12F;  // in targets whose height is scarce
inline constexpr float shrink_most = 0.6F;
inline constexpr float units_share = 0.64F;  // letters of a figure that is too wide, by its digits
inline constexpr float shrink_step = 0.86F;  // one step smaller when two lines do not hold it

// ---- spacing grid
inline constexpr float grid = 4;
inline constexpr float gap = 8;        // between targets
inline constexpr float pad = 12;       // inside targets and panels
inline constexpr float tight_pad = 2;  // above and below in targets whose height is scarce
inline constexpr float margin = 16;    // page edge; narrow screens
inline constexpr float margin_broad = 24;

// ---- targets
inline constexpr float target = 56;       // least height and width
inline constexpr float target_key = 56;   // keypad
inline constexpr float target_tile = 56;  // piles
inline constexpr float target_display = 64;
// By how much they may grow where height is left, a row; the display up to so much.
inline constexpr float grow_keys = 8, grow_keys_broad = 24, grow_tiles = 28, grow_display_to = 84,
                       grow_block = 400, grow_pictures = 72;
inline constexpr float target_large = 72;  // the way on from a list, within the thumb's reach
inline constexpr float swatch_w = 28, swatch_h = 40, swatch_small = 20, swatch_band = 14;

// ---- lines and corners
inline constexpr float hair = 1;
inline constexpr float edge = 1.5F;  // border of a target
inline constexpr float edge_chosen = 4;
inline constexpr float ring = 3, ring_gap = 2;  // keyboard focus
inline constexpr float corner = 6;              // targets, panels
inline constexpr float corner_small = 3;

// ---- scrolling and moving
inline constexpr float slop = 8;
inline constexpr float scroll_least = 64;  // less height than this: the page scrolls instead
inline constexpr float inertia_ms = 325;
inline constexpr float velocity_window_ms = 80;
inline constexpr float fling_least = 40;  // px per second below which a fling ends
inline constexpr float motion_ms = 140;

// ---- widths
inline constexpr float measure = 720;  // text no wider than this
inline constexpr float wide_from = 480;
inline constexpr float low_below = 720, least_height = 640;  // px of height
inline constexpr float broad_from = 840, broad_height = 480;
// On larger screens letters grow by the lesser of width and height over these, so much at most.
inline constexpr float grow_width = 860, grow_height = 640, grow_most = 1.8F;

// ---- a picture to be shared
inline constexpr float picture_ratio = 2;
inline constexpr int picture_passes = 8;

// ---- piece picture
inline constexpr float piece_height = 124, piece_height_small = 92, piece_height_slim = 48,
                       piece_height_tiny = 40, piece_height_most = 380;
inline constexpr float piece_aspect_most = 0.6F;
inline constexpr float piece_aspect = 0.28F, piece_aspect_small = 0.2F;  // height by width
inline constexpr float piece_low_screen = 480;
inline constexpr float piece_wide = 6.5F;  // width by height, at most
inline constexpr float piece_tiny_wide = 4.5F;
inline constexpr float slab_target = 40;    // a narrower slab is touched as if it were so wide
inline constexpr float kerf = 3.5F;         // between slabs
inline constexpr float piece_side = 0.11F;  // side face by height
// ---- the cleaned piece, measured and cut
inline constexpr float cut_height = 0.4F, cut_height_small = 0.22F;  // of the screen, at most
inline constexpr float cut_height_least = 40;
inline constexpr float face_height = 0.22F, face_height_small = 0.14F, face_height_least = 64;
inline constexpr float cut_nominal = 0.2F;       // width by length before anything is measured
inline constexpr float kerf_thin = 2.5F;         // between blocks to scale
inline constexpr float cut_side = 6;             // room left and right of the piece
inline constexpr float leader = 18;              // from the ruler down to the handles
inline constexpr float lane = 4;                 // between leaders beside a column of handles
inline constexpr float tick = 4, tick_long = 8;  // of the ruler
inline constexpr float knife = 6;                // half the width of the mark's head
inline constexpr float sign = 0.86F;             // what became of a block, by its number's size
inline constexpr float dash = 5;
inline constexpr float groove = 4.5F, groove_chosen = 7.5F;  // across the piece at a station
inline constexpr float tape = 1.5F, tape_chosen = 3.5F;      // the line in it
inline constexpr float knob = 3, knob_chosen = 4.5F;         // on the ruler
inline constexpr float knife_edge = 2.5F, knife_gap = 6;
inline constexpr float edge_state = 2;                       // of a block whose state is to be seen
inline constexpr float spread_height = 56, spread_mark = 5;  // portions against their target
inline constexpr float log_height = 168, log_mark = 8;       // pieces of a line
// Height of one of two low blocks by the screen's, at most.
inline constexpr float piece_pair = 0.075F, piece_pair_broad = 0.14F;
inline constexpr float strand_height_small = 28;
inline constexpr float strand_height = 72, strand_height_most = 150;

// CSS px -> physical px.
struct Scale {
  float ratio = 1, text = 1;
  // Distances are whole pixels, so that edges are sharp; thin lines keep their fraction.
  float px(float css) const { return css < grid ? css * ratio : std::floor(css * ratio + 0.5F); }
  // Whole physical pixels, so that the few sizes stay few in the glyph store.
  float type(float css) const { return std::floor(css * ratio * text + 0.5F); }
};

}  // namespace tallyblock::style
