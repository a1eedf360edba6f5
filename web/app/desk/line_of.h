// Where things stand in a session.
#pragma once
#include "core/session/session.h"

namespace tallyblock {

// The step in which the knife is guided.
inline constexpr const char* kMainStep = "main";

// The line of a reading, wherever it was moved to; null: it has none.
inline const ReadingLine* line_of(const Figures& figures, const EntryId& id) {
  for (const PileFigures& pile : figures.piles) {
    for (const ReadingLine& line : pile.lines) {
      if (line.id == id) return &line;
    }
  }
  return nullptr;
}

}  // namespace tallyblock
