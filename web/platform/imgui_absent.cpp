// What Dear ImGui's context and font atlas refer to and Tallyblock never reaches: typed text and
// formatted names. The kit draws everything itself (web/kit/canvas.h), so the library's widget and table
// files are left out of the app (CMakeLists.txt), and of its own frame nothing is linked. Native tests
// link the full library.
#include <imgui.h>
#include <imgui_internal.h>

ImGuiInputTextState::ImGuiInputTextState() {}
ImGuiInputTextState::~ImGuiInputTextState() {}

#ifdef IMGUI_DISABLE_DEFAULT_FORMAT_FUNCTIONS
int ImFormatString(char* buffer, size_t size, const char* /*format*/, ...) {
  if (buffer != nullptr && size > 0) buffer[0] = 0;
  return 0;
}
int ImFormatStringV(char* buffer, size_t size, const char* /*format*/, va_list /*arguments*/) {
  if (buffer != nullptr && size > 0) buffer[0] = 0;
  return 0;
}
#endif
