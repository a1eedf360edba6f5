// The tree of steps and the balance of each. Internal to the session figures.
//
// input = sum of outputs + loss, per step. The purchase feeds "main"; every other step takes a weight
// from a pile, or all that is left of it. Steps no chain of piles connects with the purchase are
// worked out but not counted. Nor is cooking, and what goes on from it: it takes nothing away from its
// pile, whose raw weight stays in the yield test.
#pragma once
#include "piles.h"

namespace tallyblock {

// What a step is called in a doubt: the piece for the first one; a step without a name by its key.
inline Arg said_name(const StepFigures& step) {
  if (!step.name.empty()) return Arg::name(step.name);
  return step.key == "main" ? Arg::piece() : Arg::code(step.key);
}

// Fills figures.steps and, in the table, by-difference weights, taken_further, kept and counted.
void balance_steps(const Facts& facts, PileTable& table, Figures& figures);

// Loss doubts with what would explain them (explain.cpp), per step that has outputs.
void doubt_balance(const Facts& facts, const PileTable& table, Figures& figures);

// Entries that name a pile, step, tub, reading, cut, person or entry that is not there; kinds and
// entries that could not be read; copies in conflict; gaps in counters (references.cpp).
void doubt_entries(const Facts& facts, const PileTable& table,
                   const std::vector<std::string>& left_out, Figures& figures);

}  // namespace tallyblock
