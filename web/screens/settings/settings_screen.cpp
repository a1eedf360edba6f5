// What new sessions start with, and how the app looks on this device.
#include <array>
#include <string_view>

#include "web/screens/choices.h"
#include "web/screens/screen_list.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr std::array<std::string_view, 3> kThemes = {"system", "light", "dark"};
constexpr std::array<std::string_view, 2> kHands = {"right", "left"};
constexpr std::array<std::string_view, 2> kClocks = {"24", "12"};
constexpr std::array<std::string_view, 2> kDates = {"day-first", "month-first"};

void body_of_settings(Ui& ui) {
  const AppSettings& now = ui.app.shelf().settings;
  const auto choose = [&](const char* key, std::string_view words,
                          std::span<const std::string_view> values, const std::string& value) {
    const std::string picked =
        setting_choice(ui, std::string("settings/") + key, words, values, value);
    if (!picked.empty()) ask::set_setting(ui.app, key, picked);
  };
  auto body = ui.kit.scroll("settings/body");
  auto measure = ui.kit.measure();
  ui.kit.heading(say("settings.title"), 1, "settings/title");
  ui.kit.heading(say("settings.device"), 2);
  choose("theme", "settings.theme", kThemes, now.theme);
  choose("hand", "settings.hand", kHands, now.hand);
  choose("date", "settings.date", kDates, now.date);
  choose("clock", "settings.clock", kClocks, now.clock);
  choose("decimal-mark", "settings.decimal-mark", kDecimalMarks, now.decimal_mark);
  text_field(ui, "default:person", "settings.person", "settings.person-hint");
  ui.kit.heading(say("settings.defaults"), 2);
  ui.kit.paragraph(say("settings.defaults-what"), Tone::quiet);
  choose("unit", "settings.unit", kUnits, now.unit);
  choose("price-unit", "settings.price-unit", kPriceUnits, now.price_unit);
  choose("currency", "settings.currency", kCurrencies, now.currency);
  text_field(ui, "default:currency", "settings.other-currency", "settings.other-currency-hint");
  auto grid = ui.kit.grid(2, 144);
  field(ui, {FieldKind::default_division, ""}, show::typed(now.division, ui.style));
  field(ui, {FieldKind::default_loss_limit, ""}, show::typed(now.loss_limit, ui.style));
  field(ui, {FieldKind::default_wage, ""}, show::typed(now.wage, ui.style));
}

}  // namespace

void settings_screen(Ui& ui) {
  going_about(ui, {Screen::sessions});
  warnings(ui);
  over_keypad(ui, body_of_settings);
}

}  // namespace tallyblock
