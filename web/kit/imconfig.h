// How Dear ImGui is compiled for Tallyblock, in the browser and in native tests alike.
// Left out: whatever the app does not show or do, so that it is not downloaded either.
#pragma once

#define IMGUI_DISABLE_OBSOLETE_FUNCTIONS
#define IMGUI_DISABLE_DEMO_WINDOWS
#define IMGUI_DISABLE_DEBUG_TOOLS

// The font is handed over as bytes; nothing is read from or written to files, and no other program
// is started.
#define IMGUI_DISABLE_DEFAULT_FONT
#define IMGUI_DISABLE_FILE_FUNCTIONS
#define IMGUI_DISABLE_DEFAULT_SHELL_FUNCTIONS
#define IMGUI_DISABLE_WIN32_FUNCTIONS

// In the browser the library formats nothing (web/platform/imgui_absent.cpp), and all that its OpenGL
// back end ever scans is a version number: the first whole number of the text.
#ifdef __EMSCRIPTEN__
#define IMGUI_DISABLE_DEFAULT_FORMAT_FUNCTIONS
#include <cstdarg>
#include <cstdio>
inline int tallyblock_first_number(const char* text, const char* format, ...) {
  while (*text != 0 && (*text < '0' || *text > '9')) ++text;
  int number = 0;
  for (; *text >= '0' && *text <= '9'; ++text) number = number * 10 + (*text - '0');
  va_list outputs;
  va_start(outputs, format);
  *va_arg(outputs, int*) = number;
  va_end(outputs);
  return 1;
}
#define sscanf tallyblock_first_number
#endif
