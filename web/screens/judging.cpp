#include "judging.h"

#include <algorithm>

#include "web/screens/choices.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr std::array<std::string_view, 4> kChecks = {"membrane", "nerve", "gouges",
                                                     "lean-on-waste"};
constexpr std::array<std::string_view, 2> kPassFail = {"pass", "fail"};

}  // namespace

void trim_and_quality(Ui& ui) {
  const Figures& f = ui.figures();
  text_field(ui, "specification", "judging.specification", "judging.specification-hint", true);
  auto grid = ui.kit.grid(2, 240);
  for (const std::string_view check : kChecks) {
    const std::string key(check);
    const auto found = f.quality.find(key);
    const std::string_view now = found == f.quality.end() ? "" : found->second ? "pass" : "fail";
    const std::string picked =
        setting_choice(ui, "judging/" + key, "quality", kPassFail, now, "quality." + key);
    if (!picked.empty()) ask::set_quality(ui.app, key, picked == "pass");
  }
  // Others that came with a file are shown as they are.
  for (const auto& [check, passed] : f.quality) {
    if (std::ranges::find(kChecks, check) != kChecks.end()) continue;
    ui.kit.list_row("judging/other/" + check, check,
                    {.value = say(passed ? "quality.pass" : "quality.fail")});
  }
}

}  // namespace tallyblock
