#include "surface.h"

#include <GLES3/gl3.h>
#include <emscripten/html5_webgl.h>
#include <imgui.h>
#include <imgui_impl_opengl3.h>
#include <imgui_internal.h>

namespace tallyblock {

bool Surface::open() {
  // Not CreateContext: the windows, settings and inputs that it prepares are not used, nor downloaded.
  ImGui::SetCurrentContext(IM_NEW(ImGuiContext)(nullptr));
  EmscriptenWebGLContextAttributes wanted;
  emscripten_webgl_init_context_attributes(&wanted);
  wanted.majorVersion = 2;
  wanted.alpha = wanted.depth = wanted.stencil = wanted.antialias = false;
  wanted.enableExtensionsByDefault = false;
  const EMSCRIPTEN_WEBGL_CONTEXT_HANDLE context =
      emscripten_webgl_create_context("#canvas", &wanted);
  if (context <= 0) return false;
  return emscripten_webgl_make_context_current(context) == EMSCRIPTEN_RESULT_SUCCESS &&
         ImGui_ImplOpenGL3_Init("#version 300 es");
}

void Surface::begin_frame() {
  if (!is_lost_) ImGui_ImplOpenGL3_NewFrame();
}

void Surface::draw(ImDrawData* data, std::uint32_t ground) {
  if (is_lost_) return;
  const auto channel = [ground](unsigned shift) {
    return static_cast<float>((ground >> shift) & 0xFFU) / 255.0F;
  };
  glClearColor(channel(0), channel(8), channel(16), 1.0F);
  glClear(GL_COLOR_BUFFER_BIT);
  ImGui_ImplOpenGL3_RenderDrawData(data);
}

std::vector<std::uint8_t> Surface::pixels(ImDrawData* data, std::uint32_t ground) {
  const auto width = static_cast<GLsizei>(data->DisplaySize.x);
  const auto height = static_cast<GLsizei>(data->DisplaySize.y);
  GLuint frame = 0, store = 0;
  glGenFramebuffers(1, &frame);
  glGenRenderbuffers(1, &store);
  glBindFramebuffer(GL_FRAMEBUFFER, frame);
  glBindRenderbuffer(GL_RENDERBUFFER, store);
  glRenderbufferStorage(GL_RENDERBUFFER, GL_RGBA8, width, height);
  glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_RENDERBUFFER, store);
  std::vector<std::uint8_t> out;
  if (!is_lost_ && glCheckFramebufferStatus(GL_FRAMEBUFFER) == GL_FRAMEBUFFER_COMPLETE) {
    draw(data, ground);
    const std::size_t row = static_cast<std::size_t>(width) * 4;
    std::vector<std::uint8_t> drawn(row * static_cast<std::size_t>(height));
    glReadPixels(0, 0, width, height, GL_RGBA, GL_UNSIGNED_BYTE, drawn.data());
    out.reserve(drawn.size());
    for (std::size_t below = drawn.size(); below > 0; below -= row) {  // its bottom row is first
      const auto from = drawn.begin() + static_cast<std::ptrdiff_t>(below - row);
      out.insert(out.end(), from, from + static_cast<std::ptrdiff_t>(row));
    }
  }
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  glDeleteRenderbuffers(1, &store);
  glDeleteFramebuffers(1, &frame);
  return out;
}

void Surface::lost() { is_lost_ = true; }

void Surface::restored() {
  // What the old context held is gone with it; the back end makes it anew in the next frame.
  ImGui_ImplOpenGL3_DestroyDeviceObjects();
  is_lost_ = false;
}

}  // namespace tallyblock
