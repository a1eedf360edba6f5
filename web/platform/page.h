// What the program asks of the page: one function per line of BRIDGE.md, "Program -> page".
//
// Texts and bytes go out as views into this memory that the page reads during the call; those it
// keeps are copied here (storeCommit, offerFile). Nothing is answered from inside a call.
#pragma once
#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace tallyblock::page {

void store_commit(std::uint32_t token, std::string_view framed_ops);
void store_load(std::uint32_t token, int area, std::string_view prefix);
void access(std::string_view list);
void want_frame();
// The first frame that shows the person's data has been drawn.
void ready();
void offer_file(std::string_view name, std::string_view mime, std::string_view bytes);
// Four bytes a pixel, the top row first.
void offer_picture(std::string_view name, int width, int height,
                   std::span<const std::uint8_t> pixels);
void pick_file();
void ask_persist();
void adopt_update();
void take_over();
void announce(std::string_view text);
void keep_awake(bool on);
void tell_others();
void wake_after(double ms);
// `ground`: the page's colour as "#rrggbb".
void theme(bool dark, std::string_view ground);

// Of the device
double utc_ms();
int offset_minutes();
void random_bytes(std::uint8_t* bytes, int length);

// The build of this program's own script; compared with the page's.
bool is_build(std::string_view build);

}  // namespace tallyblock::page
