// What is done with all that is saved, what new sessions start with, and how the app looks on this device.
#include <algorithm>
#include <array>
#include <string_view>

#include "web/screens/beginning.h"
#include "web/screens/choices.h"
#include "web/screens/screen_list.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr std::array<std::string_view, 3> kThemes = {"system", "light", "dark"};
constexpr std::array<std::string_view, 2> kHands = {"right", "left"};
constexpr std::array<std::string_view, 2> kClocks = {"24", "12"};
constexpr std::array<std::string_view, 2> kDates = {"day-first", "month-first"};

void sample(Ui& ui) {
  const bool here = std::ranges::any_of(ui.app.shelf().cards, &SessionCard::sample);
  const std::string detail = say(here ? "more.remove-sample-detail" : "more.load-sample-detail");
  if (!ui.kit.button("more/sample", say(here ? "more.remove-sample" : "more.load-sample"),
                     {.detail = detail})) {
    return;
  }
  if (here) {
    ask::remove_sample(ui.app);
  } else {
    begin_sample(ui);
  }
}

// What comes of a file is seen in the list.
void files(Ui& ui) {
  const bool any = !ui.app.shelf().cards.empty();
  auto grid = ui.kit.grid(3, 144);
  if (ui.kit.button("more/import", say("more.import"))) {
    ask::import_file(ui.app);
    ask::go(ui.app, Screen::sessions);
  }
  if (any && ui.kit.button("more/backup", say("more.backup"))) {
    ask::export_backup(ui.app);
  }
  if (any && ui.kit.button("more/picture", say("more.picture"))) {
    ask::share_picture(ui.app, true, false);
  }
  const bool people = std::ranges::any_of(
      ui.app.shelf().cards, [](const SessionCard& card) { return !card.people.empty(); });
  if (people && ui.kit.button("more/picture-people", say("more.picture-people"))) {
    ask::share_picture(ui.app, true, true);
  }
  sample(ui);
  if (any && !ui.app.page().is_protected.value_or(false) &&
      ui.kit.button("more/protect", say("more.protect"))) {
    ask::protect(ui.app);
  }
  if (ui.kit.button("go.bin", say("go.bin"))) ask::go(ui.app, Screen::bin);
  if (ui.kit.button("go.about", say("go.about"))) {
    ask::go(ui.app, Screen::about);
  }
}

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
  files(ui);
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
  top(ui, say("settings.title"), "settings/title");
  warnings(ui);
  over_keypad(ui, body_of_settings);
}

}  // namespace tallyblock
