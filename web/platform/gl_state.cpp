#define TALLYBLOCK_GL_STATE_PLAIN
#include "gl_state.h"

#include <algorithm>
#include <array>

namespace tallyblock::gl_state {
namespace {

using Box = std::array<GLint, 4>;

Box last_viewport{};
Box last_scissor{};

}  // namespace

void get_integers(GLenum name, GLint* values) {
  switch (name) {
    case GL_MAJOR_VERSION: *values = 3; return;
    case GL_MINOR_VERSION:
    case GL_CURRENT_PROGRAM:
    case GL_TEXTURE_BINDING_2D:
    case GL_SAMPLER_BINDING:
    case GL_ARRAY_BUFFER_BINDING:
    case GL_ELEMENT_ARRAY_BUFFER_BINDING:
    case GL_PIXEL_UNPACK_BUFFER_BINDING:
    case GL_VERTEX_ARRAY_BINDING: *values = 0; return;
    case GL_ACTIVE_TEXTURE: *values = GL_TEXTURE0; return;
    case GL_BLEND_SRC_RGB:
    case GL_BLEND_SRC_ALPHA: *values = GL_ONE; return;
    case GL_BLEND_DST_RGB:
    case GL_BLEND_DST_ALPHA: *values = GL_ZERO; return;
    case GL_BLEND_EQUATION_RGB:
    case GL_BLEND_EQUATION_ALPHA: *values = GL_FUNC_ADD; return;
    case GL_VIEWPORT: std::ranges::copy(last_viewport, values); return;
    case GL_SCISSOR_BOX: std::ranges::copy(last_scissor, values); return;
    default: glGetIntegerv(name, values);
  }
}

GLboolean is_enabled(GLenum) { return GL_FALSE; }

const GLubyte* get_string(GLenum name) {
  return reinterpret_cast<const GLubyte*>(name == GL_VERSION ? "OpenGL ES 3.0" : "");
}

void viewport(GLint x, GLint y, GLsizei width, GLsizei height) {
  last_viewport = {x, y, width, height};
  glViewport(x, y, width, height);
}

void scissor(GLint x, GLint y, GLsizei width, GLsizei height) {
  last_scissor = {x, y, width, height};
  glScissor(x, y, width, height);
}

}  // namespace tallyblock::gl_state
