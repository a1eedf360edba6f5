// What a frame draws on: one draw list of Dear ImGui, the font atlas kept up to date, and the draw data
// that a renderer takes. Nothing else of the library's own frame is used: no windows, no input.
//
// Needs a current Dear ImGui context as long as it lives: that holds the font atlas and the list of
// textures which renderers read. The context need not be initialized.
#pragma once
#include <imgui.h>
#include <imgui_internal.h>

namespace tallyblock {

class Canvas {
 public:
  Canvas();
  ~Canvas();
  Canvas(const Canvas&) = delete;
  Canvas& operator=(const Canvas&) = delete;

  // An empty list, cut off at the edges; sizes in physical pixels.
  void begin(float width, float height);
  void end();
  ImDrawList* list() { return &list_; }
  ImDrawData* data() { return &data_; }  // of the last frame that has ended

 private:
  ImDrawListSharedData shared_;
  ImDrawList list_{&shared_};
  ImDrawData data_;
  ImVec2 size_;
};

}  // namespace tallyblock
