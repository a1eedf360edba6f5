#include "doubts.h"

#include <algorithm>

#include "names.h"
#include "sentence.h"
#include "web/words/words.h"

namespace tallyblock {

std::string doubt_words(const Figures& figures, const show::Style& style, const Doubt& doubt) {
  std::vector<std::string> args = show::args(doubt.args, style);
  // What is told in a tile too has the digits of the tile.
  const bool of_loss =
      doubt.code == Code::doubt_loss_high || doubt.code == Code::doubt_loss_negative;
  if (of_loss && doubt.amount && args.size() > 1) args[1] = show::mass(*doubt.amount, style);
  if (doubt.code == Code::doubt_net_cost_negative) {
    if (const auto cost = show::cost_shown(figures, style)) {
      args = {show::money_figures(cost->net, style)};
    }
  }
  for (std::size_t i = 0; i < args.size(); ++i) {
    if (doubt.args[i].kind() == Arg::Kind::piece) args[i] = title_of(figures);
  }
  return say(show::sentence_key(doubt.code, doubt.args), args);
}

std::optional<Mass> left_to_weigh(const Figures& figures) {
  if (figures.steps.empty()) return std::nullopt;
  const StepFigures& step = figures.steps.front();
  if (!step.loss) return std::nullopt;  // not weighed in, or a pile is by difference
  return step.loss->value();
}

bool is_said_all_weighed(const Figures& figures) {
  const auto said = figures.settings.all.find(std::string(kAllWeighed));
  return said != figures.settings.all.end() && said->second == "yes";
}

bool all_is_weighed(const Figures& figures) {
  if (is_said_all_weighed(figures)) return true;
  const auto left = left_to_weigh(figures);
  if (!left) return !figures.steps.empty() && figures.steps.front().input.has_value();
  const bool begun = figures.steps.front().outputs.value() > Mass();
  const auto much = std::ranges::find(figures.doubts, Code::doubt_loss_high, &Doubt::code);
  return begun && much == figures.doubts.end();
}

std::optional<Mass> not_all_weighed(const Figures& figures) {
  const auto left = left_to_weigh(figures);
  if (!left || *left <= Mass() || all_is_weighed(figures)) return std::nullopt;
  return left;
}

}  // namespace tallyblock
