// Whether a pile can go on: what other steps and transfers have left of it. No screen offers more.
#pragma once
#include <algorithm>

#include "core/session/session.h"

namespace tallyblock {

// Something was taken of the pile and nothing is left for a further step of that process. A pile on
// which nothing lies yet can go on: the weight comes later.
inline bool nothing_left(const Figures& figures, const PileFigures& pile, Process process) {
  const auto left = left_of(figures, pile, process);
  if (!left || left->value() > Mass()) return false;
  const auto takes = [&](const StepFigures& step) {
    const bool apart = step.process == Process::cooking && process != Process::cooking;
    return step.from_pile == pile.key && !apart;
  };
  return pile.carried.value() > Mass() || std::ranges::any_of(figures.steps, takes);
}

}  // namespace tallyblock
