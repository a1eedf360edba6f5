// The yield to count on when buying again: one-sided lower prediction bound.
//
// From n comparable pieces with mean and sample s (n - 1), the mean yield of the next m pieces is,
// with the stated confidence, at least
//   mean - t(n-1) s sqrt(1/m + 1/n)
// where t(n-1) is the one-sided Student quantile. Assumes pieces drawn alike from one normal spread:
// one specification, one kitchen. Standard result for the mean of m future observations (own
// derivation); quantiles are checked against published tables in the tests. Nothing is rounded.
#pragma once
#include <cstddef>
#include <optional>

#include "portions.h"

namespace tallyblock {

// Value that Student's t with `degrees` >= 1 of freedom stays below with probability `confidence`;
// absent unless confidence is in (0, 1) and degrees >= 1. Relative error below 1e-9 for confidence
// in [0.001, 0.999]. More than 100,000 degrees count as 100,000 (t changes by less than 1e-5).
std::optional<double> student_t(double confidence, std::size_t degrees);

// Absent with fewer than 3 pieces, m = 0, or confidence outside [0.5, 1).
std::optional<double> lower_prediction_bound(const Spread& yields, std::size_t m,
                                             double confidence);

}  // namespace tallyblock
