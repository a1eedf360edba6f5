// What is known of a person's cutting before the first cut: habit and scatter, carried on.
//
// Habit: log of the thickness cut over the thickness asked (+: cuts thick, so heavy). It differs a
// little from session to session (sd `kBetweenSessions`, a choice of ours). Scatter: log sd of one
// cut of a block as thick as `kUsualBlock`; a knife misses by millimetres, so a block twice as thick scatters
// half as much (`knife_of`). Each earlier session gives an estimate with its own uncertainty; they are weighed by precision
// and shrunk towards the defaults, which stand for a cook of whom nothing is known.
// Defaults are choices of ours, no source. Does not: know the tool or the cut.
#pragma once
#include <cstddef>
#include <string>
#include <vector>

#include "core/base/units.h"

namespace tallyblock {

inline constexpr double kBetweenSessions = 0.015;
inline constexpr Length kUsualBlock = Length::millimetres(36.0);
// By how much a knife misses (sd), of a cook with that scatter.
constexpr Length knife_of(double scatter) { return kUsualBlock * scatter; }

struct CookPrior {
  double habit = 0.0;  // log ratio
  double habit_sd = 0.04;
  double scatter = 0.026;       // log sd of one cut
  double scatter_weight = 4.0;  // how many cuts the prior scatter counts for
};

// What one earlier session showed.
struct CookRecord {
  double habit = 0.0;
  double habit_sd = 0.03;
  double scatter = 0.03;
  std::size_t cuts = 0;  // weighed cuts behind it; 0: the record is left out
};

// Records that are not finite, not positive where they must be, or out of proportion (habit or scatter from
// 1 on) are left out. No records: defaults.
CookPrior carried_prior(const std::vector<CookRecord>& records);

// The setting "cook" of a session: four numbers, see FORMAT.md. Anything else: the defaults.
CookPrior cook_from_setting(const std::string& text);
std::string cook_setting(const CookPrior& prior);

}  // namespace tallyblock
