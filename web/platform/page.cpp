#include "page.h"

#include <emscripten/em_js.h>

// clang-format off
extern "C" {
EM_JS(void, js_store_commit, (unsigned token, const char* p, int n), {
  Module["page"]["storeCommit"](token, HEAPU8.slice(p, p + n));
});
EM_JS(void, js_store_load, (unsigned token, int area, const char* p, int n), {
  Module["page"]["storeLoad"](token, area, HEAPU8.subarray(p, p + n));
});
EM_JS(void, js_access, (const char* p, int n), {
  Module["page"]["access"](HEAPU8.subarray(p, p + n));
});
EM_JS(void, js_want_frame, (), { Module["page"]["wantFrame"](); });
EM_JS(void, js_ready, (), { Module["page"]["ready"](); });
EM_JS(void, js_offer_file,
      (const char* name, int name_n, const char* mime, int mime_n, const char* p, int n), {
  Module["page"]["offerFile"](HEAPU8.subarray(name, name + name_n),
                              HEAPU8.subarray(mime, mime + mime_n), HEAPU8.slice(p, p + n));
});
EM_JS(void, js_offer_picture, (const char* name, int name_n, int w, int h, const std::uint8_t* p), {
  Module["page"]["offerPicture"](HEAPU8.subarray(name, name + name_n), w, h,
                                 HEAPU8.slice(p, p + 4 * w * h));
});
EM_JS(void, js_pick_file, (), { Module["page"]["pickFile"](); });
EM_JS(void, js_ask_persist, (), { Module["page"]["askPersist"](); });
EM_JS(void, js_adopt_update, (), { Module["page"]["adoptUpdate"](); });
EM_JS(void, js_take_over, (), { Module["page"]["takeOver"](); });
EM_JS(void, js_announce, (const char* p, int n), {
  Module["page"]["announce"](HEAPU8.subarray(p, p + n));
});
EM_JS(void, js_keep_awake, (int on), { Module["page"]["keepAwake"](!!on); });
EM_JS(void, js_tell_others, (), { Module["page"]["tellOthers"](); });
EM_JS(void, js_wake_after, (double ms), { Module["page"]["wakeAfter"](ms); });
EM_JS(void, js_theme, (int dark, const char* p, int n), {
  Module["page"]["theme"](!!dark, HEAPU8.subarray(p, p + n));
});
EM_JS(double, js_utc_ms, (), { return Date.now(); });
EM_JS(int, js_offset_minutes, (), { return -new Date().getTimezoneOffset(); });
EM_JS(void, js_random_bytes, (std::uint8_t* p, int n), {
  crypto.getRandomValues(HEAPU8.subarray(p, p + n));
});
// The site builder puts the build id into this script as it does into the page's.
EM_JS(int, js_is_build, (const char* p, int n), {
  return String.fromCharCode.apply(null, HEAPU8.subarray(p, p + n)) === "@BUILD_ID@" ? 1 : 0;
});
}
// clang-format on

namespace tallyblock::page {
namespace {

int length(std::string_view text) { return static_cast<int>(text.size()); }

}  // namespace

void store_commit(std::uint32_t token, std::string_view framed_ops) {
  js_store_commit(token, framed_ops.data(), length(framed_ops));
}
void store_load(std::uint32_t token, int area, std::string_view prefix) {
  js_store_load(token, area, prefix.data(), length(prefix));
}
void access(std::string_view list) { js_access(list.data(), length(list)); }
void want_frame() { js_want_frame(); }
void ready() { js_ready(); }
void offer_file(std::string_view name, std::string_view mime, std::string_view bytes) {
  js_offer_file(name.data(), length(name), mime.data(), length(mime), bytes.data(), length(bytes));
}
void offer_picture(std::string_view name, int width, int height,
                   std::span<const std::uint8_t> pixels) {
  js_offer_picture(name.data(), length(name), width, height, pixels.data());
}
void pick_file() { js_pick_file(); }
void ask_persist() { js_ask_persist(); }
void adopt_update() { js_adopt_update(); }
void take_over() { js_take_over(); }
void announce(std::string_view text) { js_announce(text.data(), length(text)); }
void keep_awake(bool on) { js_keep_awake(on ? 1 : 0); }
void tell_others() { js_tell_others(); }
void wake_after(double ms) { js_wake_after(ms); }
void theme(bool dark, std::string_view ground) {
  js_theme(dark ? 1 : 0, ground.data(), length(ground));
}
double utc_ms() { return js_utc_ms(); }
int offset_minutes() { return js_offset_minutes(); }
void random_bytes(std::uint8_t* bytes, int count) { js_random_bytes(bytes, count); }
bool is_build(std::string_view build) { return js_is_build(build.data(), length(build)) != 0; }

}  // namespace tallyblock::page
