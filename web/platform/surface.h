// The canvas: a WebGL 2 context and Dear ImGui's OpenGL back end on it.
//
// A lost context leaves everything else as it is: frames are built but not drawn until it is
// restored. The page owns the canvas's size; the viewport follows the frame's size.
#pragma once
#include <cstdint>
#include <vector>

struct ImDrawData;

namespace tallyblock {

class Surface {
 public:
  // Makes the Dear ImGui context too, as far as fonts and the back end need one. False: the browser
  // offers no WebGL 2.
  bool open();
  // Before each frame of the kit.
  void begin_frame();
  // Draws a frame of the kit on `ground` (0xAABBGGRR).
  void draw(ImDrawData* data, std::uint32_t ground);
  // The same into memory: four bytes a pixel, the top row first; empty where nothing can be drawn.
  std::vector<std::uint8_t> pixels(ImDrawData* data, std::uint32_t ground);
  void lost();
  void restored();

 private:
  bool is_lost_ = false;
};

}  // namespace tallyblock
