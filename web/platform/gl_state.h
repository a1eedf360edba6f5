// Answers for the OpenGL back end's questions about the state of the context.
//
// Before each frame the stock back end asks for some 25 values, to put them back afterwards. In a
// browser each question waits for the graphics process: together 70 % of the frame's time. This
// app draws only through that back end, so the answers are known: whatever it finds, it left.
//
// This header is included by force before imgui_impl_opengl3.cpp and by nothing else; it redirects
// the calls of that one file. Questions without a known answer (limits of the device, the result
// of compiling a shader) still go to the driver.
//
// Does not do: tell the truth to code that binds its own textures, buffers, programs or blending.
// Such code must put the defaults back before the back end draws.
#pragma once

#include <GLES3/gl3.h>

#include <cstdio>

namespace tallyblock::gl_state {

// Writes the value of `name` to `values`: four integers for GL_VIEWPORT and GL_SCISSOR_BOX, one
// otherwise.
void get_integers(GLenum name, GLint* values);

// Blending, face culling, depth, stencil and scissor tests are all off between frames.
GLboolean is_enabled(GLenum capability);

// What the driver calls itself is not shown and changes nothing on WebGL 2.
const GLubyte* get_string(GLenum name);

// Sets and remembers, so that `get_integers` can answer.
void viewport(GLint x, GLint y, GLsizei width, GLsizei height);
void scissor(GLint x, GLint y, GLsizei width, GLsizei height);

}  // namespace tallyblock::gl_state

#ifndef TALLYBLOCK_GL_STATE_PLAIN
// Nobody reads what it prints when a shader is refused; the page says that there are no graphics.
#define fprintf(...) static_cast<void>(0)
#define glGetIntegerv ::tallyblock::gl_state::get_integers
#define glIsEnabled ::tallyblock::gl_state::is_enabled
#define glGetString ::tallyblock::gl_state::get_string
#define glViewport ::tallyblock::gl_state::viewport
#define glScissor ::tallyblock::gl_state::scissor
#endif
