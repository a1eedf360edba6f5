// Several pieces as one JSON object: the lines of the log with all that may be said of them.
//
// As report.h: grams, currency units, plain ratios, full double precision; absent figures are null. Keys are
// documented in REPORT.md and frozen once released.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/log/log_lines.h"
#include "core/log/log_order.h"

namespace tallyblock {

// `asked`: what to order from each line; absent: no line has an order.
std::string log_json(const std::vector<LogLine>& lines,
                     const std::optional<LogOrderAsked>& asked = std::nullopt);

}  // namespace tallyblock
