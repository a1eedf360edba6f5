// Where a reading stands in the figures.
#pragma once
#include "core/session.h"

namespace tallyblock {

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
