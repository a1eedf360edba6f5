// What Dear ImGui's frame refers to and Tallyblock never reaches: its own widgets, tables, scrollbars
// and formatted text. The kit draws everything itself on the background draw list, so the library's
// widget and table files are left out of the app (CMakeLists.txt), which makes the download about a
// tenth smaller; these definitions stand in their place. None of them is called in a frame without
// library windows, except for the library's own hidden fallback window, for which doing nothing is
// right. Native tests link the full library.
#include <imgui.h>
#include <imgui_internal.h>

ImGuiInputTextState::ImGuiInputTextState() {}
ImGuiInputTextState::~ImGuiInputTextState() {}
void ImGuiMenuColumns::Update(float /*spacing*/, bool /*reappearing*/) {}

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

namespace ImGui {

bool ButtonBehavior(const ImRect& /*box*/, ImGuiID /*id*/, bool* hovered, bool* held,
                    ImGuiButtonFlags /*flags*/) {
  if (hovered != nullptr) *hovered = false;
  if (held != nullptr) *held = false;
  return false;
}
bool CloseButton(ImGuiID /*id*/, const ImVec2& /*at*/) { return false; }
bool CollapseButton(ImGuiID /*id*/, const ImVec2& /*at*/) { return false; }
void Scrollbar(ImGuiAxis /*axis*/) {}
bool Selectable(const char* /*label*/, bool /*selected*/, ImGuiSelectableFlags /*flags*/,
                const ImVec2& /*size*/) {
  return false;
}
void InputTextDeactivateHook(ImGuiID /*id*/) {}
void TextV(const char* /*format*/, va_list /*arguments*/) {}
void SeparatorText(const char* /*label*/) {}
void TreePop() {}
void EndTable() {}
void EndTabBar() {}
void EndMenuBar() {}
void EndColumns() {}
ImGuiMultiSelectIO* EndMultiSelect() { return nullptr; }
void TableSettingsAddSettingsHandler() {}
void TableGcCompactTransientBuffers(ImGuiTable* /*table*/) {}
void TableGcCompactTransientBuffers(ImGuiTableTempData* /*table*/) {}
void TableGcCompactSettings() {}

}  // namespace ImGui
