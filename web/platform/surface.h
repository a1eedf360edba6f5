// The canvas: a WebGL 2 context and Dear ImGui's OpenGL back end on it.
//
// A lost context leaves everything else as it is: frames are built but not drawn until it is
// restored. The page owns the canvas's size; the viewport follows Dear ImGui's display size.
#pragma once
#include <cstdint>

namespace tallyblock {

class Surface {
 public:
  // Needs a current Dear ImGui context. False: the browser offers no WebGL 2.
  bool open();
  // Before each Dear ImGui frame.
  void begin_frame();
  // Draws Dear ImGui's draw data on `ground` (0xAABBGGRR).
  void draw(std::uint32_t ground);
  void lost();
  void restored();

 private:
  bool is_lost_ = false;
};

}  // namespace tallyblock
