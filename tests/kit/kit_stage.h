// A kit without a browser: a Dear ImGui context, the font, frames, and fingers.
//
// The font is Inter Medium of the distribution (fonts-inter), or the file named by TALLYBLOCK_FONT.
#pragma once
#include <imgui.h>

#include <cstdlib>
#include <fstream>
#include <functional>
#include <iterator>
#include <string>

#include "render_png.h"
#include "web/kit/frame.h"
#include "web/kit/kit.h"

namespace tallyblock::test {

inline std::string font_bytes() {
  const char* named = std::getenv("TALLYBLOCK_FONT");
  std::ifstream file(named != nullptr ? named : "/usr/share/fonts/opentype/inter/Inter-Medium.otf",
                     std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

class Stage {
 public:
  using Screen = std::function<void(Kit&)>;

  Stage() : context_(ImGui::CreateContext()) {
    ImGui::GetIO().BackendFlags |= ImGuiBackendFlags_RendererHasTextures;
    ImGui::GetIO().IniFilename = nullptr;
    static const std::string font = font_bytes();
    has_font = Kit::load_font(font.data(), static_cast<int>(font.size()));
    kit = std::make_unique<Kit>();
  }
  ~Stage() {
    kit.reset();
    for (ImTextureData* t : ImGui::GetPlatformIO().Textures) {
      t->SetTexID(ImTextureID_Invalid);
      t->SetStatus(ImTextureStatus_Destroyed);
    }
    ImGui::DestroyContext(context_);
  }
  Stage(const Stage&) = delete;
  Stage& operator=(const Stage&) = delete;

  void size(float css_w, float css_h, float ratio = 1, float text = 1) {
    in.width = css_w * ratio;
    in.height = css_h * ratio;
    in.ratio = ratio;
    in.text_scale = text;
  }
  // One frame with what has happened since the last.
  const AccessList& frame(const Screen& screen) {
    in.now_ms += 16;
    kit->begin(in);
    in.pointers.clear();
    in.keys.clear();
    in.activated.clear();
    in.texts.clear();
    in.wheel_x = in.wheel_y = 0;
    screen(*kit);
    const AccessList& list = kit->end();
    serve_textures(kit->drawn());
    return list;
  }
  // Frames until nothing waits and nothing moves; how many.
  int settle(const Screen& screen, int most = 400) {
    int n = 0;
    do {
      frame(screen);
      ++n;
    } while (kit->wants_frame() && n < most);
    return n;
  }
  void pointer(PointerKind kind, float x, float y, std::int64_t after_ms = 12) {
    in.now_ms += after_ms;
    in.pointers.push_back({kind, 1, x, y, true, in.now_ms});
  }
  void tap(const AccessNode& n) {
    pointer(PointerKind::down, n.x + n.w / 2, n.y + n.h / 2);
    pointer(PointerKind::up, n.x + n.w / 2, n.y + n.h / 2);
  }
  static const AccessNode* find(const AccessList& list, std::string_view path) {
    for (const AccessNode& n : list) {
      if (n.id == Kit::id_of(path)) return &n;
    }
    return nullptr;
  }

  FrameInput in;
  std::unique_ptr<Kit> kit;
  bool has_font = false;

 private:
  ImGuiContext* context_;
};

}  // namespace tallyblock::test
