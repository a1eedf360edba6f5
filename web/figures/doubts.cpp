#include "doubts.h"

#include "names.h"
#include "web/words/words.h"

namespace tallyblock {

// The first step has no name of its own: it is the piece.
std::string doubt_words(const Figures& figures, const show::Style& style, const Doubt& doubt) {
  Problem problem{doubt.code, doubt.where, show::typed(doubt.args, style)};
  // What is told in a tile too has the digits of the tile.
  const bool of_loss =
      doubt.code == Code::doubt_loss_high || doubt.code == Code::doubt_loss_negative;
  if (of_loss && doubt.amount && problem.args.size() > 1) {
    problem.args[1] = show::mass(*doubt.amount, style);
  }
  if (doubt.code == Code::doubt_net_cost_negative) {
    if (const auto cost = show::cost_shown(figures, style)) {
      problem.args = {show::money_figures(cost->net, style)};
    }
  }
  if (!problem.args.empty() && problem.args.front() == "main") {
    problem.args.front() = title_of(figures);
  }
  return say(problem);
}

}  // namespace tallyblock
