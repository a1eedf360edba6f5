// The cleaned piece drawn to scale from above and from the end: where it is measured, split and cut.
//
// All lengths mm on the piece's own ruler, 0 at the first face. Texts are copied. Width runs straight
// between stations; the top face is true to scale both ways, the thin side face below it counts for
// nothing, as in the piece picture. A station whose width is not known lies on the line between its
// neighbours, and what depends on it is pale and dashed.
// Errors: what is no piece (no length, no station, numbers that are not finite, stations that do not
// follow each other) is not drawn at all; blocks, sections and splits that are not finite, lie
// outside or cross are left out one by one.
#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "kit.h"

namespace tallyblock {

struct CutStation {
  float at = 0, width = 0;  // width 0: not measured yet
  std::string label;        // on the handle, e.g. "300 mm"
  std::string detail;       // below it, e.g. "120 x 70"
  std::string place;        // for the caller
  std::string name;         // for screen readers, e.g. "Place 2 at 300 mm: 120 mm wide, 70 mm deep"
};

// Told apart without colour: planned is textured (pale as soon as another block is next), next is
// lit, larger in number and has the knife at its mark; then a tick, an arrow down, an arrow up, a
// broken outline with a question mark, an empty broken outline.
enum class CutState : std::uint8_t { planned, next, cut, short_, over, unweighed, taken_out };

struct CutBlockShape {
  float from = 0, to = 0;
  int k = 1;          // portions across
  std::string label;  // its number
  CutState state = CutState::planned;
};

struct CutSectionShape {
  float from = 0, to = 0;
  std::vector<float> split_at;  // fractions of the width, increasing, between 0 and 1
};

struct CutDrawing {
  float length = 0;
  std::vector<CutStation> stations;
  int chosen = -1;                        // the station the digits are for
  std::vector<CutSectionShape> sections;  // split lines along each
  std::vector<CutBlockShape> blocks;      // in order; a mark across at each end
  float cut_to = 0;                       // what lies before it is cut away: faint
  float trim_front = 0, trim_back = 0;    // ends lost, hatched
  std::string name;                       // said for who does not see it
  // Ruler reading at each block's `to`. The first, the last and the next one are always written, the
  // others where there is room.
  std::vector<std::string> marks;
  float tick = 10;    // between the ticks of the ruler, where there is room
  int long_tick = 5;  // so many ticks to a long one
};

struct CutDrawingOptions {
  bool handles = false;  // each station is a target below the drawing
  bool small = false;    // less height
};

// From above, in the whole width. The index of the station tapped, or -1.
int cut_drawing(Kit& kit, std::string_view path, const CutDrawing& drawing,
                const CutDrawingOptions& options = {});

struct CutFaceShape {
  float width = 0, depth = 0;
  float exponent = 0;                     // of the superellipse: 2 an ellipse, 0 a rectangle
  std::vector<float> split_at;            // fractions of the width
  std::string width_label, depth_label;   // with unit
  std::vector<std::string> piece_labels;  // one for each long piece
  std::string name;
};

// From the end, with the split lines.
void cut_face(Kit& kit, std::string_view path, const CutFaceShape& face, bool small = false);

// ---- for tests: what is drawn, without drawing it

struct CutPoint {
  float x = 0, y = 0;
};
// The outline from above in a box of w x h, true to scale, in the middle of the box; upper edge from
// left to right, then the lower one back. Empty: no piece.
std::vector<CutPoint> cut_outline(const CutDrawing& drawing, float w, float h);
// What the blocks and splits part it into, without the width of the cuts; outlines as above.
struct CutCell {
  int block = -1;  // -1: in no block
  bool trim = false;
  int long_piece = 0;
  std::vector<CutPoint> outline;
};
std::vector<CutCell> cut_cells(const CutDrawing& drawing, float w, float h);
// The long pieces seen from the end, in a box of w x h that the face fills.
std::vector<std::vector<CutPoint>> face_cells(const CutFaceShape& face, float w, float h);
// Half the height of the superellipse at `across` (-1 to 1), as a share of half the depth.
float face_height(float exponent, float across);

}  // namespace tallyblock
