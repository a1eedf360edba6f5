// Slips of the keys: what else a number may have been meant to be.
//
// Typed were whole units and decimals, as the scale shows them. Likely slips: the decimal mark a place too
// far either way, a digit lost or one too many, two neighbours swapped, the third digit from the right one off. Common practice, no source.
#pragma once
#include <cstddef>
#include <vector>

namespace tallyblock {

// Other numbers of the same form that one slip turns into `typed` (not negative, below 1e9), each once,
// `decimals` (0 to 3) digits after the mark. Without the number itself and without nought.
std::vector<double> before_a_slip(double typed, int decimals);

// Standard deviations from what was expected beyond which a weight is asked about, and within which
// another number is the likelier one.
inline constexpr double kImprobable = 4.0;
inline constexpr double kLikely = 2.0;
// How many standard deviations (logarithmic) `weight` is from `expected`; both above 0.
double surprise(double weight, double expected, double log_sd);
// Of the numbers before a slip those that are likely, the likeliest first (how common the slip is, and how near the
// number is to what was expected), `most` at most.
std::vector<double> likely_meant(double typed, int decimals, double expected, double log_sd,
                                 std::size_t most = 3);

}  // namespace tallyblock
