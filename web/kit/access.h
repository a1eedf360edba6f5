// The accessibility list: what the frame shows, in reading order, for the parallel DOM.
//
// The widget kit fills it in the same call that draws. Coordinates are physical pixels of the canvas.
// The shell keeps one real element per node (same id = same element), over the canvas; activating it
// by keyboard or assistive technology is the same as tapping the widget. Text boxes are real, visible
// inputs at the node's rectangle.
#pragma once
#include <cstdint>
#include <string>
#include <vector>

namespace tallyblock {

enum class AccessKind : std::uint8_t {
  heading = 0,  // level 1..3
  button = 1,   // pressed: 0 no, 1 yes, 2 not a toggle; expanded likewise
  textbox = 2,  // value is its text
  value = 3,    // a figure: label and value
  text = 4,     // a paragraph
  status = 5,   // a live line
  image = 6,    // label describes it
  link = 7,     // opens a static page of this site (value: path), e.g. notices.txt
};

struct AccessNode {
  std::uint32_t id = 0;  // stable across frames
  AccessKind kind = AccessKind::text;
  std::string label;
  std::string value;
  float x = 0, y = 0, w = 0, h = 0;
  bool enabled = true;
  std::uint8_t pressed = 2;
  std::uint8_t expanded = 2;
  std::uint8_t level = 0;
  bool multiline = false;  // textbox
  bool visible = true;     // false: scrolled away; stays in the DOM, off screen
  std::uint16_t max_length = 200;
  std::uint32_t position = 0;  // of its row in a list, from 1; 0: in none
  std::uint32_t set_size = 0;  // how many rows that list has, built or not
  std::string hint;            // textbox: what is typed there, for as long as it is empty
};

using AccessList = std::vector<AccessNode>;

// Flat text for the bridge: nodes separated by \x1e, fields by \x1f, in the order of the struct.
std::string access_text(const AccessList& list);

}  // namespace tallyblock
