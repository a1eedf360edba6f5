// The checking window: everything derived from a session as one JSON object.
//
// Grams, currency units, currency units per gram, plain ratios, full double precision (shortest text
// that reads back equal); uncertainties are standard (k = 1); absent figures are null. Keys are
// documented in REPORT.md and frozen once released.
#pragma once
#include <string>

#include "core/cutting/cutting.h"
#include "core/session/session.h"

namespace tallyblock {

// `cutting` as cutting_of() gives it for the same entries; absent: no key of it has an element.
std::string report_json(const Figures& figures, const std::vector<CuttingView>& cutting = {});

}  // namespace tallyblock
