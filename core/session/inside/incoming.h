// The incoming weights and what follows from them. Internal to the session figures.
#pragma once
#include "core/session/facts.h"

namespace tallyblock {

// "invoice weight" in a doubt: a word of the catalogue.
inline Arg word_of(Incoming which) { return Arg::word("incoming." + std::string(name_of(which))); }

// Fills figures.incoming. See IncomingFigures for which weight carries what.
void weigh_in(const Facts& facts, Figures& figures);

// Contradictions: drained, or drained + packaging + purge, above received by more than two standard
// uncertainties; drained or received above invoice by more than that and the loss limit (two scales
// need not agree to the division).
void doubt_incoming(const Facts& facts, Figures& figures);

}  // namespace tallyblock
