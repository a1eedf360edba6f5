// Rounding, named, at the place where a figure is shown. Nothing in the core rounds before.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace tallyblock {

// Weights compared with a limit: a difference of no more, in grams, comes from computing.
inline constexpr double kGuardGrams = 1e-9;

// `value` rounded to `decimals` places (0 to 9, clamped), ties to even. A value within 1e-9 of the
// spacing of a tie, or within 4 units in the last place of the double, counts as the tie, so that
// 2.675 typed and computed agree. Rule: ASTM E29, NIST SP 811 B.7.1 (from memory). A value too large
// to have such decimals is returned unchanged; a non-finite one gives 0.
double round_half_even(double value, int decimals);

// The same with ties away from zero, as a till does: for every amount of money that is shown.
double round_half_up(double value, int decimals);

// Fixed-point text of round_half_even(value, decimals): "-1234.50", with a '.' and no grouping,
// never "-0.00"; "?" for a non-finite value, so "nan" or "inf" is never shown.
std::string fixed_text(double value, int decimals);

// Smallest multiple of `step` not below `value` (value >= 0, step > 0); a value within 1e-9 of a
// multiple (relative to their ratio, at least to 1) counts as that multiple. `value` itself if the
// step is not above 0 or too small to matter.
double round_up_to(double value, double step);

// Largest-remainder method: whole cents (or units of 10^-decimals) for `parts` that add up to the total,
// which is rounded first: round_half_up(sum of the exact parts), or `total` units where that is shown
// already (the sum rounded down or up). Each is within one unit of its exact part. Remainders equal
// to 1e-9 unit are ties and go to the earlier part. Negative parts allowed. Returned in units of
// 10^-decimals. All zero if a part is not finite or the sizes add up to over 9e15 units.
// Source: Hamilton's method of largest remainders.
std::vector<std::int64_t> shares_that_add_up(const std::vector<double>& parts, int decimals,
                                             std::optional<std::int64_t> total = std::nullopt);

}  // namespace tallyblock
