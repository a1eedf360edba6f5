#include "parts.h"

#include <algorithm>
#include <span>

#include "web/app/shelf/defaults.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

std::string key_of(Screen screen) { return "go." + std::string(name_of(screen)); }

struct BarPlace {
  Screen screen;
  const char* key;
};

// At which place of the bar a screen is.
Screen place_of(Screen screen) {
  switch (screen) {
    case Screen::share: return Screen::details;
    case Screen::bin:
    case Screen::about: return Screen::settings;
    default: return screen;
  }
}

void failed_save(Ui& ui) {
  auto panel = ui.kit.panel(Ground::bad);
  const std::string trouble(trouble_key(ui.app.keeper().trouble()));
  ui.kit.status("trouble/text",
                say("save.failed-because", {trouble.empty() ? trouble : say(trouble)}), Tone::bad);
  auto row = ui.kit.row();
  if (ui.kit.button("trouble/retry", say("save.retry"))) ask::retry_save(ui.app);
  if (ui.app.session() != nullptr && ui.kit.button("trouble/export", say("save.export"))) {
    ask::export_session(ui.app, ui.app.session()->id, true);
  }
}

// Where a missing figure is entered: a field, or a screen when there is none.
struct WhereEntered {
  Field field;
  Screen screen = Screen::result;
};

std::optional<WhereEntered> entered_at(const Figures& figures, Code code) {
  switch (code) {
    case Code::need_whole_weight: return WhereEntered{{FieldKind::drained, ""}, Screen::result};
    case Code::need_price: return WhereEntered{{FieldKind::price_per_mass, ""}, Screen::result};
    case Code::need_ready_cut_price:
      return WhereEntered{{FieldKind::ready_cut, ""}, Screen::result};
    case Code::need_ready_cut_pieces:
      return WhereEntered{{FieldKind::ready_cut_pieces, ""}, Screen::result};
    case Code::need_piece_weight:
      return WhereEntered{{FieldKind::ready_cut_piece, ""}, Screen::result};
    case Code::need_wage: return WhereEntered{{FieldKind::wage, ""}, Screen::result};
    case Code::need_minutes: return WhereEntered{{FieldKind::minutes, ""}, Screen::result};
    case Code::need_target: {
      const std::string pile = first_primary(figures);
      if (pile.empty()) return WhereEntered{{}, Screen::details};
      return WhereEntered{{FieldKind::target, pile}, Screen::result};
    }
    case Code::need_primary:
    case Code::need_usable:
    case Code::need_readings: return WhereEntered{{}, Screen::weigh};
    default: return std::nullopt;
  }
}

}  // namespace

std::string first_primary(const Figures& figures) {
  const auto found = std::ranges::find(figures.piles, Role::primary, &PileFigures::role);
  return found == figures.piles.end() ? std::string() : found->key;
}

bool bar_on_top(const Ui& ui) { return ui.kit.wide() && ui.kit.low() && !ui.kit.broad(); }

void way_back(Ui& ui) {
  if (ui.kit.button("go.sessions", say("go.sessions"), {.kind = ButtonKind::quiet})) {
    ask::go(ui.app, Screen::sessions);
  }
}

void top(Ui& ui, std::string_view title, const std::string& path) {
  if (bar_on_top(ui)) return ui.kit.heading(title, 1, path);
  auto bar = ui.kit.top_bar();
  if (needs_session(ui.draft().screen)) way_back(ui);
  ui.kit.heading(title, 2, path);
}

void places_bar(Ui& ui, Screen now) {
  const bool of_piece = needs_session(now) && ui.app.session() != nullptr;
  auto bar = bar_on_top(ui) ? ui.kit.top_bar() : ui.kit.bottom_bar();
  if (of_piece && bar_on_top(ui)) way_back(ui);
  constexpr BarPlace of_pieces[] = {
      {Screen::sessions, "go.sessions"}, {Screen::log, "go.log"}, {Screen::settings, "go.more"}};
  constexpr BarPlace of_one[] = {{Screen::weigh, "go.weigh"},
                                 {Screen::cut, "go.cut"},
                                 {Screen::result, "go.result"},
                                 {Screen::details, "go.more"}};
  for (const BarPlace& place : of_piece ? std::span<const BarPlace>(of_one) : of_pieces) {
    const bool here = place_of(now) == place.screen;
    const std::string path = "place." + std::string(name_of(place.screen));
    if (!ui.kit.place(path, say(place.key), here)) continue;
    // Of what is open over a place the place itself is the way out.
    if (now != place.screen) ask::go(ui.app, place.screen);
    if (here && place.screen != Screen::cut) ask::open_panel(ui.app, "");
  }
}

void warnings(Ui& ui) {
  if (save_state(ui.app) == SaveState::failed) failed_save(ui);
  if (!ui.app.keeper().writer()) {
    auto panel = ui.kit.panel(Ground::warn);
    ui.kit.status("writer/text", say("writer.other"), Tone::warn);
    if (ui.kit.button("writer/take", say("writer.take"))) ask::take_over(ui.app);
  }
  if (ui.app.page().update_waiting) {
    auto panel = ui.kit.panel(Ground::good);
    ui.kit.status("update/text", say("update.waiting"), Tone::normal);
    if (ui.kit.button("update/adopt", say("update.adopt"))) ask::adopt_update(ui.app);
  }
}

bool is_about_weighing(std::string_view key) {
  constexpr std::string_view keys[] = {
      "notice.weighed",      "notice.taken-off", "notice.choose-pile", "notice.moved",
      "notice.counted-anew", "notice.anew",      "notice.new-session"};
  return std::ranges::find(keys, key) != std::end(keys);
}

void notice(Ui& ui) {
  const auto& notice = ui.app.notice();
  if (!notice) return;
  // What was weighed is said, and undone, on the board; under an open keypad there is no room.
  const bool on_board =
      ui.draft().screen == Screen::weigh || ui.draft().field.kind == FieldKind::block;
  if (!on_board && (is_about_weighing(notice->key) || ui.draft().field.kind != FieldKind::none) &&
      !notice->is_error) {
    return;
  }
  const std::string undo = say("notice.undo"), close = say("notice.close");
  NoticeOptions options;
  if (notice->can_undo) options.undo = undo;
  options.close = close;
  options.is_error = notice->is_error;
  switch (ui.kit.notice_bar("notice", say(notice->key, notice->args), options)) {
    case NoticeTap::undo: ask::undo(ui.app); break;
    case NoticeTap::close: ask::dismiss_notice(ui.app); break;
    case NoticeTap::none: break;
  }
}

std::string save_words(const App& app) {
  switch (save_state(app)) {
    case SaveState::nothing_yet: return say("save.nothing-yet");
    case SaveState::saving: return say("save.saving");
    case SaveState::kept: return say("save.kept");
    case SaveState::failed: return say("save.failed");
  }
  return {};
}

Look look_of(Role role) {
  switch (role) {
    case Role::primary: return Look::primary;
    case Role::secondary: return Look::secondary;
    case Role::usable_trim: return Look::usable_trim;
    case Role::unusable_trim: return Look::unusable_trim;
  }
  return Look::primary;
}

void figure_lines(Ui& ui, const explain::Lines& lines, FigureSize size) {
  const bool small = size == FigureSize::small;
  auto cells = ui.kit.grid(small ? 2 : 3, small ? 150 : 220);
  for (const explain::Line& line : lines) {
    FigureOptions options;
    options.size = size;
    options.unit = line.unit;
    options.explain = line.sentence;
    std::string missing;
    if (!line.known()) {
      options.tone = Tone::quiet;
      if (!line.needs.empty()) missing = say(key_of(line.needs.front()));
      options.doubt = missing;
    }
    const std::string value = line.known() ? line.value : say("show.not-yet");
    ui.kit.figure("figure/" + line.id, line.label, value, options);
  }
}

void needs(Ui& ui, const std::string& path, const std::vector<Code>& codes) {
  std::vector<Code> said;
  for (const Code code : codes) {
    if (std::ranges::find(said, code) != said.end()) continue;
    said.push_back(code);
    const std::string sentence = say(key_of(code));
    const auto place = entered_at(ui.figures(), code);
    const std::string at = path + "/" + std::string(key_of(code));
    if (!place) {
      ui.kit.paragraph(sentence, Tone::quiet, at);
      continue;
    }
    const std::string go =
        place->field.kind == FieldKind::none ? say(key_of(place->screen)) : say("needs.enter");
    if (ui.kit.button(at, sentence, {.detail = go})) {
      if (place->field.kind == FieldKind::none) {
        ask::go(ui.app, place->screen);
      } else {
        ask::edit(ui.app, place->field);
      }
    }
  }
}

void add_pile_buttons(Ui& ui, const std::string& path) {
  auto grid = ui.kit.grid(2, 144);
  for (const DefaultPile& pile : kDefaultPiles) {
    const std::string key(pile.key);
    if (pile_named(ui.figures(), key) != nullptr) continue;
    const std::string role = say("role." + std::string(name_of(pile.role)));
    std::string at = path;
    at += '/';
    at += key;
    if (ui.kit.button(at, default_name(pile), {.detail = role})) {
      ask::add_pile(ui.app, pile.role, default_name(pile), std::string(pile.use));
      ask::open_panel(ui.app, "");
    }
  }
}

void doubts(Ui& ui, const std::string& path, std::string_view where) {
  std::size_t at = 0;
  for (const Doubt& doubt : ui.figures().doubts) {
    ++at;
    if (!where.empty() && doubt.where != where) continue;
    const std::string sentence = doubt_words(ui.figures(), ui.style, doubt);
    auto panel = ui.kit.panel(Ground::warn);
    ui.kit.paragraph(sentence, Tone::warn, path + "/" + std::to_string(at));
  }
}

}  // namespace tallyblock
