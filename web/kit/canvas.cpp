#include "canvas.h"

namespace tallyblock {
namespace {

// As smooth as the library draws by itself.
constexpr float curve_tolerance = 1.25F, circle_error = 0.3F;

ImFontAtlas* atlas() { return ImGui::GetIO().Fonts; }

}  // namespace

Canvas::Canvas() {
  shared_.FontAtlas = atlas();
  shared_.CurveTessellationTol = curve_tolerance;
  shared_.SetCircleTessellationMaxError(circle_error);
  shared_.InitialFlags = ImDrawListFlags_AntiAliasedLines | ImDrawListFlags_AntiAliasedLinesUseTex |
                         ImDrawListFlags_AntiAliasedFill;
  ImFontAtlasAddDrawListSharedData(atlas(), &shared_);
}

Canvas::~Canvas() { ImFontAtlasRemoveDrawListSharedData(atlas(), &shared_); }

void Canvas::begin(float width, float height) {
  const int last = atlas()->Builder != nullptr ? atlas()->Builder->FrameCount : 0;
  ImFontAtlasUpdateNewFrame(atlas(), last + 1, true);
  ImFontAtlasUpdateDrawListsSharedData(atlas());
  size_ = ImVec2(width, height);
  shared_.ClipRectFullscreen = ImVec4(0, 0, width, height);
  list_._ResetForNewFrame();
  list_.PushTexture(atlas()->TexRef);
  list_.PushClipRect(ImVec2(), size_);
}

void Canvas::end() {
  ImVector<ImTextureData*>& textures = ImGui::GetPlatformIO().Textures;
  textures.resize(0);
  for (ImTextureData* texture : atlas()->TexList) {
    texture->RefCount = 1;  // a renderer that loses its device lets go of those used once
    textures.push_back(texture);
  }
  data_.Clear();
  data_.Valid = true;
  data_.DisplaySize = size_;
  data_.FramebufferScale = ImVec2(1, 1);
  data_.Textures = &textures;
  data_.AddDrawList(&list_);
}

}  // namespace tallyblock
