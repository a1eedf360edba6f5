// Host over the page: clock, randomness, files, other windows (web/app/host.h says what each does).
#pragma once
#include <optional>
#include <string>
#include <utility>

#include "web/app/host.h"

namespace tallyblock {

class BridgeHost final : public Host {
 public:
  std::int64_t utc_ms() override;
  int offset_minutes() override;
  std::int64_t monotonic_ms() override;
  std::string random_id(int length) override;
  Locale locale() override { return locale_; }
  void set_locale(Locale locale) { locale_ = std::move(locale); }
  void offer_file(const std::string& name, const std::string& mime,
                  const std::string& bytes) override;
  // Drawn when the frames of the gesture are built (wasm_main.cpp).
  void offer_picture(const std::string& name, const PictureOrder& order) override;
  struct Picture {
    std::string name;
    PictureOrder order;
  };
  std::optional<Picture> take_picture() { return std::exchange(picture_, std::nullopt); }
  void pick_file() override;
  void ask_persist() override;
  void adopt_update() override;
  void take_over() override;
  void announce(const std::string& text) override;
  void keep_awake(bool on) override;
  void tell_others() override;
  void wake_after(std::int64_t ms) override;

 private:
  Locale locale_;
  std::optional<Picture> picture_;
};

}  // namespace tallyblock
