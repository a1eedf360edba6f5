// The exported functions of BRIDGE.md: the page's events become FrameInput and acts of App.
//
// One program per page, made by tb_start and never ended. Strings and bytes handed in were allocated
// with malloc and are freed here. Coordinates are physical pixels, times milliseconds of the page's
// monotonic clock.
#include <emscripten/emscripten.h>

#include <algorithm>
#include <cstdlib>
#include <memory>
#include <string>
#include <string_view>
#include <utility>

#include "access_sender.h"
#include "bridge_host.h"
#include "bridge_store.h"
#include "page.h"
#include "surface.h"
#include "web/app/app.h"
#include "web/kit/kit.h"
#include "web/kit/palette.h"
#include "web/screens/screens.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr int storage_schema = 2;  // as in shell/storage.js
constexpr int most_frames_at_once = 6;

enum Started : int { started = 0, other_build = 1, no_graphics = 2, no_font = 3 };

struct Free {
  void operator()(char* bytes) const { std::free(bytes); }
};

// Bytes from the page: owned.
class Given {
 public:
  Given(char* bytes, int length) : bytes_(bytes), length_(static_cast<std::size_t>(length)) {}
  std::string_view view() const { return {bytes_.get(), length_}; }
  std::string text() const { return std::string(view()); }

 private:
  std::unique_ptr<char, Free> bytes_;
  std::size_t length_;
};

struct Program {
  BridgeStore store;
  BridgeHost host;
  App app{store, host};
  Screens screens{app};
  AccessSender access;
};

FrameInput input;
Surface surface;
Program* program = nullptr;  // lives as long as the page
Locale locale;               // told before the start
bool is_writer = true;
bool is_protected = false;
bool was_ready = false;
int theme_told = -1;
double shown_ms = -1e9;  // when a message last asked for a frame
bool frame_due = false;  // one that was put off
bool is_built = false;   // the next frame is built already, and only to be drawn

bool has_input() {
  return !input.pointers.empty() || !input.keys.empty() || !input.activated.empty() ||
         !input.texts.empty() || input.wheel_x != 0.0F || input.wheel_y != 0.0F;
}

// One frame of the screens, not drawn.
void build_frame(double ms) {
  surface.begin_frame();
  input.now_ms = static_cast<std::int64_t>(ms);
  input.left_hand = program->app.shelf().settings.hand == "left";
  program->screens.frame(input);
  input.pointers.clear();
  input.keys.clear();
  input.activated.clear();
  input.texts.clear();
  input.wheel_x = input.wheel_y = 0.0F;
}

// Something is no longer as it was built.
void changed() {
  is_built = false;
  page::want_frame();
}

// A picture to be shared is drawn beside the screen, within the person's own gesture too.
void send_picture(const std::string& name, const PictureOrder& order) {
  surface.begin_frame();
  ImDrawData* drawn = program->screens.picture(order);
  const auto pixels = surface.pixels(drawn, palette(program->screens.dark()).page);
  constexpr int width = Screens::picture_width;
  page::offer_picture(name, width, static_cast<int>(pixels.size()) / 4 / width, pixels);
}

// Called by their place alone, so that they need not be here from the start (parts.txt); each says which it is,
// or they would be merged into one, and that be called straight.
void send_piece(const BridgeHost::Picture& wanted) {
  send_picture(wanted.name, {false, wanted.order.with_people});
}
void send_list(const BridgeHost::Picture& wanted) {
  send_picture(wanted.name, {true, wanted.order.with_people});
}
constexpr void (*kSend[])(const BridgeHost::Picture&) = {send_piece, send_list};

// Drawing it may move letters in the font's texture: true, the frame must be built anew.
bool share_picture() {
  const auto wanted = program->host.take_picture();
  if (!wanted) return false;
  kSend[wanted->order.of_list ? 1 : 0](*wanted);
  return true;
}

// Acts on what came in within the person's own gesture; what it came to is drawn with the next frame.
void act_now() {
  if (program == nullptr) return;
  for (int i = 0; i < most_frames_at_once; ++i) {
    build_frame(emscripten_get_now());
    if (!program->screens.wants_frame()) break;
  }
  page::want_frame();
  is_built = !share_picture();
}

void tell_theme() {
  const bool dark = program->screens.dark();
  if (theme_told == static_cast<int>(dark)) return;
  theme_told = static_cast<int>(dark);
  static constexpr std::string_view digits = "0123456789abcdef";
  const Colour ground = palette(dark).page;
  std::string hex = "#";
  for (unsigned shift = 0; shift < 24; shift += 8) {
    hex += digits[(ground >> (shift + 4U)) & 15U];
    hex += digits[(ground >> shift) & 15U];
  }
  page::theme(dark, hex);
}

StoreStatus status_of(int number) {
  return number >= 0 && number <= static_cast<int>(StoreStatus::read_newer)
             ? static_cast<StoreStatus>(number)
             : StoreStatus::aborted;
}

// After an answer or a message: show what it changed. Files that come in are shown now and then: a frame
// for each would take longer than they do.
template <typename Act>
void tell(Act act) {
  constexpr double apart_ms = 400;
  if (program == nullptr) return;
  act(program->app);
  const double now = emscripten_get_now();
  if (program->app.porter().going_on() && now - shown_ms < apart_ms) {
    is_built = false;
    if (!std::exchange(frame_due, true)) page::wake_after(apart_ms);
    return;
  }
  shown_ms = now;
  frame_due = false;
  changed();
}

int start(std::string_view font, std::string_view build, int schema) {
  if (!page::is_build(build) || schema != storage_schema) return other_build;
  if (!surface.open()) return no_graphics;
  if (!Kit::load_font(font.data(), static_cast<int>(font.size()))) return no_font;
  program = new Program;
  program->host.set_locale(locale);
  program->app.begin_in_parts();
  program->app.on_role(is_writer);
  if (is_protected) program->app.on_protected(true);
  program->app.start();
  changed();
  return started;
}

int frame(double ms) {
  if (share_picture() || !is_built) build_frame(ms);
  is_built = false;
  surface.draw(program->screens.kit().drawn(), palette(program->screens.dark()).page);
  const bool more = program->screens.wants_frame();
  tell_theme();
  program->access.send(program->screens.access(), !more, ms);
  // An open piece waits for the board: where that fails, its sentence is what there is to show.
  if (!was_ready && (program->app.phase() != App::Phase::loading || program->app.part_failed())) {
    was_ready = true;
    page::ready();
  }
  return more ? 1 : 0;
}

}  // namespace
}  // namespace tallyblock

using namespace tallyblock;

extern "C" {

EMSCRIPTEN_KEEPALIVE void tb_environment(float w, float h, float ratio, float text_scale, int dark,
                                         int reduced_motion, float top, float right, float bottom,
                                         float left, int /*standalone*/, float keyboard_height) {
  input.width = w;
  input.height = h;
  input.ratio = ratio;
  input.text_scale = text_scale;
  input.dark = dark != 0;
  input.reduced_motion = reduced_motion != 0;
  input.insets = {top, right, bottom, left};
  input.keyboard_height = keyboard_height;
  if (program != nullptr) changed();
}

EMSCRIPTEN_KEEPALIVE int tb_start(char* font, int font_length, char* build, int build_length,
                                  int schema) {
  const Given font_bytes(font, font_length);
  const Given build_text(build, build_length);
  return start(font_bytes.view(), build_text.view(), schema);
}

EMSCRIPTEN_KEEPALIVE void tb_pointer(int kind, int pointer, float x, float y, int touch,
                                     double ms) {
  input.pointers.push_back(
      {static_cast<PointerKind>(kind), pointer, x, y, touch != 0, static_cast<std::int64_t>(ms)});
  if (kind == static_cast<int>(PointerKind::up))
    act_now();
  else
    changed();
}

EMSCRIPTEN_KEEPALIVE void tb_wheel(float dx, float dy) {
  input.wheel_x += dx;
  input.wheel_y += dy;
  changed();
}

EMSCRIPTEN_KEEPALIVE void tb_key(char* key, int length, int shift) {
  input.keys.push_back({Given(key, length).text(), shift != 0});
  act_now();
}

EMSCRIPTEN_KEEPALIVE void tb_activate(std::uint32_t id) {
  input.activated.push_back(id);
  act_now();
}

EMSCRIPTEN_KEEPALIVE void tb_focus(std::uint32_t id, int on) {
  if (on != 0)
    input.focused = id;
  else if (input.focused == id)
    input.focused = 0;
  changed();
}

EMSCRIPTEN_KEEPALIVE void tb_text(std::uint32_t id, char* text, int length, int done) {
  input.texts.push_back({id, Given(text, length).text(), done != 0});
  if (done == 0) {
    changed();
    return;
  }
  if (program != nullptr) program->access.send_again();
  act_now();
}

EMSCRIPTEN_KEEPALIVE int tb_frame(double ms) { return program == nullptr ? 0 : frame(ms); }

EMSCRIPTEN_KEEPALIVE void tb_commit_done(std::uint32_t token, int status) {
  tell([&](App& app) { app.on_commit(token, status_of(status)); });
}

EMSCRIPTEN_KEEPALIVE void tb_load_done(std::uint32_t token, int status, char* bytes, int length) {
  const Given given(bytes, length);
  tell([&](App& app) { app.on_load(token, status_of(status), unframe_records(given.view())); });
}

EMSCRIPTEN_KEEPALIVE void tb_files(int count) {
  tell([&](App& app) { app.on_files(static_cast<std::size_t>(std::max(count, 0))); });
}

// Sessions that were read and wait to be kept; -1: no more files are wanted.
EMSCRIPTEN_KEEPALIVE int tb_importing() {
  if (program == nullptr) return -1;
  const Porter& in = program->app.porter();
  return in.stopped ? -1 : static_cast<int>(in.waiting.size());
}

EMSCRIPTEN_KEEPALIVE void tb_file(char* name, int name_length, char* bytes, int length, int last) {
  const Given name_text(name, name_length);
  const Given piece(bytes, length);
  tell([&](App& app) { app.on_file(name_text.text(), piece.text(), last != 0); });
}

EMSCRIPTEN_KEEPALIVE void tb_protected(int granted) {
  is_protected = granted != 0;
  tell([&](App& app) { app.on_protected(granted != 0); });
}

EMSCRIPTEN_KEEPALIVE void tb_locale(char* region, int length, int decimal_comma, int twelve_hours,
                                    int month_first) {
  locale = {Given(region, length).text(), decimal_comma != 0, twelve_hours != 0, month_first != 0};
  spell_as(locale.region);
}

EMSCRIPTEN_KEEPALIVE void tb_words(char* packed, int length) {
  add_words(Given(packed, length).text());
  if (program != nullptr) changed();
}

EMSCRIPTEN_KEEPALIVE void tb_role(int writer) {
  is_writer = writer != 0;
  tell([&](App& app) { app.on_role(is_writer); });
}

EMSCRIPTEN_KEEPALIVE void tb_others_changed() {
  tell([](App& app) { app.on_others_changed(); });
}

EMSCRIPTEN_KEEPALIVE void tb_offline(int works) {
  tell([&](App& app) { app.on_offline(works != 0); });
}

EMSCRIPTEN_KEEPALIVE void tb_update_waiting() {
  tell([](App& app) { app.on_update_waiting(); });
}

EMSCRIPTEN_KEEPALIVE void tb_news(int news, int count) {
  if (news < 1 || news > static_cast<int>(StoreNews::copied) || count < 0) return;
  tell([&](App& app) {
    app.on_store_news(static_cast<StoreNews>(news), static_cast<std::size_t>(count));
  });
}

// The part of the program by its number that is here; 0: the next one could not be had.
EMSCRIPTEN_KEEPALIVE void tb_part(int here) {
  if (here < 0 || here > static_cast<int>(kParts.back())) return;
  tell([&](App& app) {
    here != 0 ? app.on_part(static_cast<AppPart>(here)) : app.on_part_failed();
  });
}

EMSCRIPTEN_KEEPALIVE void tb_hidden() {
  if (program == nullptr) return;
  if (has_input()) build_frame(emscripten_get_now());
  program->app.on_hidden();
}

EMSCRIPTEN_KEEPALIVE void tb_shown() {
  tell([](App& app) { app.on_shown(); });
}

EMSCRIPTEN_KEEPALIVE void tb_timer() {
  tell([](App& app) { app.on_timer(); });
}

EMSCRIPTEN_KEEPALIVE void tb_context_lost() { surface.lost(); }

EMSCRIPTEN_KEEPALIVE void tb_context_restored() {
  surface.restored();
  changed();
}

}  // extern "C"
