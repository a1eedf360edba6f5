// Why there is no plan: what contradicts itself, which limit stands in the way, what would work.
// Internal to the planner. Sentences: web/words, keys "plan.*"; what would work is in whole mm, g or %.
#pragma once
#include <functional>
#include <optional>

#include "core/cutting/plan.h"

namespace tallyblock {

// What makes the input meaningless whatever the piece; absent for an input that may be planned.
std::optional<Problem> contradiction(const PlanInput& input);

// For an input without any portion: the one limit that stands in the way and its nearest value that
// works (args: the limit, what works), else the limits together, else the tolerance. `feasible` says
// whether an input has a portion at all; it is asked some ten times.
Problem why_nothing(const PlanInput& input, const std::function<bool(const PlanInput&)>& feasible);

}  // namespace tallyblock
