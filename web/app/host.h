// What the app asks of the device besides storage. The app holds no clock and no randomness.
#pragma once
#include <cstdint>
#include <string>

namespace tallyblock {

// The habits of the person's language and region, as the device knows them.
struct Locale {
  std::string region;  // two capitals of ISO 3166, e.g. "US"; empty if not known
  bool decimal_comma = false, twelve_hours = false, month_first = false;
};

// What is drawn as a picture to be shared: the open piece, or the list of all.
struct PictureOrder {
  bool of_list = false, with_people = false;
};

class Host {
 public:
  virtual ~Host() = default;
  virtual std::int64_t utc_ms() = 0;
  virtual int offset_minutes() = 0;         // local time = UTC + offset
  virtual std::int64_t monotonic_ms() = 0;  // for timers
  // For what a first start begins with.
  virtual Locale locale() { return {}; }
  // `length` characters of [0-9a-hjkmnp-tv-z], uniformly random.
  virtual std::string random_id(int length) = 0;
  // Hand a finished file to the person: share sheet, save picker or download, in that order.
  // Must be called inside the person's own gesture. Never answered.
  virtual void offer_file(const std::string& name, const std::string& mime,
                          const std::string& bytes) = 0;
  // Draw that as a PNG file and hand it over in the same way.
  virtual void offer_picture(const std::string& name, const PictureOrder& order) = 0;
  // Ask for one or more files; each comes back through App::on_file (in pieces for large ones).
  virtual void pick_file() = 0;
  // Ask the browser not to evict what is stored; answered through App::on_protected(bool).
  virtual void ask_persist() = 0;
  // Adopt the waiting version (reloads the page).
  virtual void adopt_update() = 0;
  // Take the pen from another window.
  virtual void take_over() = 0;
  // Speak `text` politely to a screen reader.
  virtual void announce(const std::string& text) = 0;
  // Keep the screen awake while true (best effort).
  virtual void keep_awake(bool on) = 0;
  // Tell other windows that something was kept.
  virtual void tell_others() = 0;
  // Call App::on_timer once after `ms`.
  virtual void wake_after(std::int64_t ms) = 0;
};

}  // namespace tallyblock
