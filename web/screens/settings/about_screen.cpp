// What it is, cautions, and how the figures are made.
#include <array>
#include <string_view>

#include "web/screens/screen_list.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr std::array<std::string_view, 4> kCautions = {"caution.local-codes", "caution.knife",
                                                       "caution.hands", "caution.phone"};
constexpr std::array<std::string_view, 8> kFigures = {
    "about.ap-ep",   "about.balance", "about.yield-test", "about.credit",
    "about.factors", "about.labour",  "about.portions",   "about.rounding"};
constexpr std::array<std::string_view, 5> kConventions = {
    "about.convention-base", "about.convention-labour", "about.convention-portions",
    "about.convention-price", "about.convention-uncertainty"};

template <std::size_t N>
void paragraphs(Ui& ui, const std::array<std::string_view, N>& keys) {
  const std::string factor = show::factor(1.0 / 0.7, ui.style);  // 30 % lost
  for (const std::string_view key : keys) ui.kit.paragraph(say(key, {factor}));
}

}  // namespace

void about_screen(Ui& ui) {
  top(ui, say("about.title"), "about/title");
  warnings(ui);
  {
    auto body = ui.kit.scroll("about/body");
    auto measure = ui.kit.measure();
    ui.kit.paragraph(say("sessions.what"));
    ui.kit.heading(say("sessions.caution"), 2);
    paragraphs(ui, kCautions);
    ui.kit.heading(say("about.figures"), 2);
    paragraphs(ui, kFigures);
    ui.kit.heading(say("about.conventions"), 2);
    paragraphs(ui, kConventions);
    ui.kit.heading(say("about.keeping"), 2);
    ui.kit.paragraph(say("about.keeping-what"));
    if (ui.app.page().online_only) ui.kit.paragraph(say("notice.online-only"));
    ui.kit.heading(say("about.notices"), 2);
    ui.kit.paragraph(say("about.notices-what"));
    ui.kit.link("about/notices", say("about.notices-link"), "notices.txt");
    ui.kit.paragraph(
        say("about.format", {std::to_string(kFormatMajor), std::to_string(kFormatMinor)}),
        Tone::quiet);
  }
  notice(ui);
}

}  // namespace tallyblock
