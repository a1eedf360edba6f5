#include "bridge_host.h"

#include <emscripten/emscripten.h>

#include <string_view>

#include "page.h"

namespace tallyblock {

std::int64_t BridgeHost::utc_ms() { return static_cast<std::int64_t>(page::utc_ms()); }

int BridgeHost::offset_minutes() { return page::offset_minutes(); }

std::int64_t BridgeHost::monotonic_ms() { return static_cast<std::int64_t>(emscripten_get_now()); }

std::string BridgeHost::random_id(int length) {
  // 32 letters: five bits of each random byte choose one, all equally likely.
  static constexpr std::string_view letters = "0123456789abcdefghjkmnpqrstvwxyz";
  static_assert(letters.size() == 32);
  std::string id(static_cast<std::size_t>(length), '0');
  page::random_bytes(reinterpret_cast<std::uint8_t*>(id.data()), length);
  for (char& c : id) c = letters[static_cast<unsigned char>(c) & 31U];
  return id;
}

void BridgeHost::offer_file(const std::string& name, const std::string& mime,
                            const std::string& bytes) {
  page::offer_file(name, mime, bytes);
}

void BridgeHost::offer_picture(const std::string& name, const PictureOrder& order) {
  picture_ = Picture{name, order};
  page::want_frame();
}

void BridgeHost::pick_file() { page::pick_file(); }
void BridgeHost::ask_persist() { page::ask_persist(); }
void BridgeHost::adopt_update() { page::adopt_update(); }
void BridgeHost::take_over() { page::take_over(); }
void BridgeHost::announce(const std::string& text) { page::announce(text); }
void BridgeHost::keep_awake(bool on) { page::keep_awake(on); }
void BridgeHost::tell_others() { page::tell_others(); }
void BridgeHost::wake_after(std::int64_t ms) { page::wake_after(static_cast<double>(ms)); }

}  // namespace tallyblock
