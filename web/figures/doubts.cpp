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

std::optional<Mass> not_all_weighed(const Figures& figures) {
  constexpr double much = 0.1;  // of the piece; a choice of ours, no source
  const auto& whole = figures.incoming.as_purchased;
  const auto found = std::ranges::find(figures.doubts, Code::doubt_loss_high, &Doubt::code);
  if (!whole || found == figures.doubts.end()) return std::nullopt;
  const Mass missing = found->amount.value_or(Mass());
  return missing > whole->value() * much ? std::optional(missing) : std::nullopt;
}

}  // namespace tallyblock
