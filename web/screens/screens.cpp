#include "screens.h"

#include "screen_list.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

using Draw = void (*)(Ui&);

// In the order of enum Screen.
constexpr Draw kScreens[] = {sessions_screen, weigh_screen, result_screen,
                             details_screen,  share_screen, settings_screen,
                             bin_screen,      about_screen, cut_screen};
static_assert(static_cast<std::size_t>(Screen::cut) + 1 == std::size(kScreens));

bool needs_session(Screen screen) {
  return screen == Screen::weigh || screen == Screen::result || screen == Screen::details ||
         screen == Screen::share || screen == Screen::cut;
}

std::string body_of(Screen screen) { return std::string(name_of(screen)) + "/body"; }

show::Style style_now(const App& app) {
  const AppSettings& s = app.settings();
  show::Style style = app.session() != nullptr
                          ? show::style_of(app.session()->figures.settings)
                          : show::style_from(s.unit, s.price_unit, s.currency, s.division);
  style.mark = mark_of(s);
  style.month_first = s.date == "month-first";
  style.twelve_hours = s.clock == "12";
  return style;
}

void waiting(Ui& ui, std::string_view key) {
  auto body = ui.kit.scroll("waiting/body");
  ui.kit.heading(say("sessions.title"), 1, "waiting/title");
  ui.kit.status("waiting/text", say(key), Tone::normal);
}

// The screen is in the second part of the program, which is on its way.
void waiting_for_part(Ui& ui) {
  going_about(ui, {Screen::sessions});
  waiting(ui, ui.app.part_failed() ? "waiting.part-failed" : "waiting.part");
}

void unreadable(Ui& ui) {
  auto body = ui.kit.scroll("waiting/body");
  ui.kit.heading(say("sessions.title"), 1, "waiting/title");
  const std::string_view trouble = trouble_key(ui.app.trouble());
  ui.kit.status("waiting/text",
                say("waiting.unreadable", {trouble.empty() ? std::string() : say(trouble)}),
                Tone::bad);
  if (ui.kit.button("waiting/again", say("waiting.again"))) ui.app.start();
}

}  // namespace

struct Screens::Inside {
  explicit Inside(App& a) : app(a) {}

  // The scroll position is the person's place too: kept, and put back where the screen changes.
  void place_before(Screen screen) {
    if (app.phase() != App::Phase::ready || (shown && *shown == screen)) return;
    const bool back = shown && screen == Screen::sessions;  // a long list is where it was left
    if (!back) kit.set_scroll(body_of(screen), shown ? 0.0F : app.draft().scroll);
    shown = screen;
  }
  void place_after(Screen screen) {
    if (!shown || *shown != screen || kit.wants_frame()) return;
    const float now = kit.scroll_of(body_of(screen));
    if (now != app.draft().scroll) app.set_scroll(now);
  }

  App& app;
  Kit kit;
  AccessList list;
  std::shared_ptr<CuttingCache> cutting;
  std::optional<Screen> shown;
  std::uint64_t drawn = 0;  // App's revision in the last frame
  bool first = true;
  bool is_dark = false;
};

Screens::Screens(App& app) : inside_(std::make_unique<Inside>(app)) {}
Screens::~Screens() = default;

void Screens::frame(const FrameInput& input) {
  Inside& in = *inside_;
  const AppSettings& settings = in.app.settings();
  FrameInput now = input;
  if (settings.theme != "system") now.dark = settings.theme == "dark";
  now.left_hand = settings.hand == "left";
  in.is_dark = now.dark;
  in.drawn = in.app.revision();
  in.first = false;

  Screen screen = in.app.draft().screen;
  if (needs_session(screen) && in.app.session() == nullptr) screen = Screen::sessions;
  in.place_before(screen);
  in.kit.begin(now);
  Ui ui{in.kit, in.app, style_now(in.app), in.cutting};
  const bool ready = in.app.phase() == App::Phase::ready && in.app.opening().empty();
  const bool elsewhere = screen != Screen::sessions;
  // Once the second part has failed, whatever waits for it says so.
  const bool waits =
      in.app.part_failed() ? elsewhere || in.app.waits_for_part() : elsewhere && ready;
  if (!in.app.whole() && waits) {
    waiting_for_part(ui);
  } else if (in.app.phase() == App::Phase::loading) {
    waiting(ui, "waiting.loading");
  } else if (in.app.phase() == App::Phase::unreadable) {
    unreadable(ui);
  } else if (!in.app.opening().empty()) {
    waiting(ui, "waiting.opening");
  } else {
    kScreens[static_cast<std::size_t>(screen)](ui);
  }
  in.list = in.kit.end();
  in.place_after(screen);
}

const AccessList& Screens::access() const { return inside_->list; }

bool Screens::wants_frame() const {
  return inside_->first || inside_->kit.wants_frame() || inside_->app.revision() != inside_->drawn;
}

Kit& Screens::kit() { return inside_->kit; }

bool Screens::dark() const { return inside_->is_dark; }

}  // namespace tallyblock
