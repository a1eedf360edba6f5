#include "screens.h"

#include <algorithm>

#include "screen_list.h"
#include "web/kit/style.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

struct OneScreen {
  void (*draw)(Ui&);
  AppPart part;  // of the program that draws it
};

// In the order of enum Screen.
constexpr OneScreen kScreens[] = {
    {sessions_screen, AppPart::first}, {weigh_screen, AppPart::board},
    {result_screen, AppPart::board},   {details_screen, AppPart::office},
    {share_screen, AppPart::office},   {settings_screen, AppPart::office},
    {bin_screen, AppPart::office},     {about_screen, AppPart::office},
    {cut_screen, AppPart::board},      {log_screen, AppPart::log}};
static_assert(static_cast<std::size_t>(Screen::log) + 1 == std::size(kScreens));

std::string body_of(Screen screen) { return std::string(name_of(screen)) + "/body"; }

void waiting(Ui& ui, std::string_view key) {
  auto body = ui.kit.scroll("waiting/body");
  ui.kit.heading(say("sessions.title"), 1, "waiting/title");
  ui.kit.status("waiting/text", say(key), Tone::normal);
}

// The screen is in a part of the program that is on its way.
void waiting_for_part(Ui& ui) {
  waiting(ui, ui.app.part_failed() ? "waiting.part-failed" : "waiting.part");
}

// Where the keypad stands open below a list, a small phone has no room for the bar besides.
bool hides_bar(const Ui& ui, Screen screen) {
  const FieldKind kind = ui.draft().field.kind;
  const bool typing =
      kind != FieldKind::none && kind != FieldKind::reading && kind != FieldKind::block;
  return typing && screen != Screen::weigh && ui.kit.low();
}

void with_bar(Ui& ui, Screen screen, void (*draw)(Ui&), bool hidden) {
  if (bar_on_top(ui)) places_bar(ui, screen);
  draw(ui);
  if (!bar_on_top(ui) && !hidden) places_bar(ui, screen);
}

void unreadable(Ui& ui) {
  auto body = ui.kit.scroll("waiting/body");
  ui.kit.heading(say("sessions.title"), 1, "waiting/title");
  const std::string_view trouble = trouble_key(ui.app.keeper().trouble());
  ui.kit.status("waiting/text",
                say("waiting.unreadable", {trouble.empty() ? std::string() : say(trouble)}),
                Tone::bad);
  if (ui.kit.button("waiting/again", say("waiting.again"))) ask::start_again(ui.app);
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

  // Of the open session, which looks at every reading: found anew only when the session has changed.
  show::Style style_now() {
    const AppSettings& s = app.shelf().settings;
    const OpenSession* session = app.session();
    if (session != nullptr && styled != app.desk().revision()) {
      styled = app.desk().revision();
      piece_style = show::style_of(session->figures);
    }
    show::Style style = session != nullptr
                            ? piece_style
                            : show::style_from(s.unit, s.price_unit, s.currency, s.division);
    style.mark = mark_of(s);
    style.month_first = s.date == "month-first";
    style.twelve_hours = s.clock == "12";
    return style;
  }

  App& app;
  Kit kit;
  AccessList list;
  CutSeen cut;
  std::unique_ptr<Kit> apart;  // of a picture
  show::Style piece_style;
  std::uint64_t styled = 0;  // the desk's revision that piece_style is of
  std::optional<Screen> shown;
  std::uint64_t drawn = 0;  // App's revision in the last frame
  bool first = true;
  bool is_dark = false;
};

Screens::Screens(App& app) : inside_(std::make_unique<Inside>(app)) {}
Screens::~Screens() = default;

void Screens::frame(const FrameInput& input) {
  Inside& in = *inside_;
  const AppSettings& settings = in.app.shelf().settings;
  FrameInput now = input;
  if (settings.theme != "system") now.dark = settings.theme == "dark";
  now.left_hand = settings.hand == "left";
  // Letters grow with the screen.
  const float by =
      std::min(now.width / style::grow_width, now.height / style::grow_height) / now.ratio;
  now.text_scale *= std::clamp(by, 1.0F, style::grow_most);
  in.is_dark = now.dark;
  in.drawn = in.app.revision();
  in.first = false;

  Screen screen = in.app.draft().screen;
  if (needs_session(screen) && in.app.session() == nullptr) screen = Screen::sessions;
  in.place_before(screen);
  in.app.begin_frame();
  in.kit.begin(now);
  Ui ui{in.kit, in.app, in.style_now(), in.cut};
  const bool ready = in.app.phase() == App::Phase::ready && in.app.opening().empty();
  const OneScreen& drawn = kScreens[static_cast<std::size_t>(screen)];
  const bool here = in.app.has(drawn.part);
  // Once a part has failed, whatever waits for it says so; while there is no board, that is all there is to see.
  const bool nothing_else = !in.app.has(AppPart::board) && in.app.waits_for_part();
  const bool waits = in.app.part_failed() ? !here || nothing_else : !here && ready;
  if (waits) {  // the way to the screens that are there stays open
    with_bar(ui, screen, waiting_for_part, false);
  } else if (in.app.phase() == App::Phase::loading) {
    waiting(ui, "waiting.loading");
  } else if (in.app.phase() == App::Phase::unreadable) {
    unreadable(ui);
  } else if (!in.app.opening().empty()) {
    waiting(ui, "waiting.opening");
  } else {
    with_bar(ui, screen, drawn.draw, hides_bar(ui, screen));
  }
  in.list = in.kit.end();
  in.place_after(screen);
  in.app.after_frame();
}

ImDrawData* Screens::picture(const PictureOrder& order) {
  Inside& in = *inside_;
  in.apart = std::make_unique<Kit>();
  FrameInput paper;
  paper.ratio = style::picture_ratio;
  paper.width = static_cast<float>(picture_width);
  paper.height = paper.width;
  paper.dark = in.is_dark;
  paper.reduced_motion = true;
  // How high it is is known when it is laid out; and with the height the blocks grow, up to a most.
  for (int pass = 0; pass < style::picture_passes; ++pass) {
    in.apart->begin(paper);
    Ui ui{*in.apart, in.app, in.style_now(), in.cut};
    if (order.of_list) {
      picture_of_list(ui, order.with_people);
    } else {
      picture_of_piece(ui, order.with_people);
    }
    in.apart->end();
    const float needed = in.apart->content_height();
    if (pass > 0 && needed <= paper.height) break;
    if (pass + 1 < style::picture_passes) paper.height = std::max(paper.width, needed);
  }
  return in.apart->drawn();
}

const AccessList& Screens::access() const { return inside_->list; }

bool Screens::wants_frame() const {
  return inside_->first || inside_->kit.wants_frame() || inside_->app.revision() != inside_->drawn;
}

Kit& Screens::kit() { return inside_->kit; }

Kit& Screens::picture_kit() { return *inside_->apart; }

bool Screens::dark() const { return inside_->is_dark; }

}  // namespace tallyblock
