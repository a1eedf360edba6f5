// Simulated cooks cutting simulated pieces: how many portions fall within tolerance by four ways of
// deciding where to cut.
//
// A piece has a true weight per millimetre; somebody measures its faces with a ruler, at a few places,
// with an error in each. A cook cuts exp(habit) times the thickness asked, and the knife misses by so many
// millimetres. Weights are read to the scale's division. The ways get the same piece, cook and noise:
//   equal   blocks of equal thickness, as many as there are targets in the weight, one after the other
//   blocks  the marks of the plan, each set from the last face: errors add up
//   scored  the marks of the plan, all scored before the first cut: they do not
//   guide   the guide, with what it believes of cook and piece before the first cut
//   oracle  knows the true piece and the habit, and cuts for the most expected portions; knows neither the
//           noise of the next cut nor the slips
// Advice or a mark that is ignored is a cut as thick as an equal share, whichever way the others are set.
// A slip is in what was typed, once a piece, and nobody answers when it is asked about.
// Random numbers are made here from mt19937_64, so a seed means the same everywhere. Pieces, cooks and
// slips are inventions of ours, no source.
#pragma once
#include <array>
#include <cstddef>
#include <cstdint>

namespace tallyblock::bench {

enum class Form { bulging, tail, even, bent };
enum class Slip { none, ten_times, lost_digit, hundred_more, swapped };

struct Scenario {
  const char* name;
  Form form = Form::bulging;
  int places = 3;           // where the faces were measured, evenly
  double measure_mm = 1.5;  // error of each width and depth
  double knife_mm = 1.0;    // error of each cut
  double habit_sd = 0.03;   // of the cooks, log
  double drift = 0.0;       // of the habit, a cut
  double wander = 0.0;      // its random change from cut to cut, log sd
  double ignored = 0.0;     // share of the advice that is not followed: as thick as an equal share
  double lean_mm = 0.0;     // a face stands off by so much beside where it was cut, mm sd
  Slip slip = Slip::none;
  bool two_kinds = false;
  bool evenly = false;  // the guide was told that it changes evenly
};

inline constexpr std::array<Scenario, 19> kScenarios = {{
    {"bulging loin"},
    {.name = "the same, no error of the ruler", .measure_mm = 0.0},
    {.name = "tail, measured at 2 places", .form = Form::tail, .places = 2},
    {.name = "tail, measured at 3 places", .form = Form::tail, .places = 3},
    {.name = "tail, measured at 5 places", .form = Form::tail, .places = 5},
    {.name = "an even taper, measured at 2 places", .form = Form::even, .places = 2},
    {.name = "the same, and said to be even", .form = Form::even, .places = 2, .evenly = true},
    {.name = "bent axis", .form = Form::bent},
    {.name = "habit drifting 1 % a cut", .drift = 0.01},
    {.name = "habit wandering 2 % a cut", .wander = 0.02},
    {.name = "advice ignored one time in five", .ignored = 0.2},
    {.name = "a weight ten times too large", .slip = Slip::ten_times},
    {.name = "a digit lost", .slip = Slip::lost_digit},
    {.name = "a hundred too much", .slip = Slip::hundred_more},
    {.name = "two digits swapped", .slip = Slip::swapped},
    {.name = "a heavy hand, 8 %", .habit_sd = 0.08},
    {.name = "a rough knife, 2 mm", .knife_mm = 2.0},
    {.name = "faces that lean", .lean_mm = 1.5},
    {.name = "two kinds of portions", .two_kinds = true},
}};

struct Outcome {
  std::size_t pieces = 0;
  std::size_t possible = 0;  // portions at full weight
  std::size_t equal = 0, blocks = 0, scored = 0, guide = 0, oracle = 0;
  double surprise =
      0.0;  // sum of squared standard scores of weights against what the guide expected
  std::size_t stated = 0;

  Outcome& operator+=(const Outcome& other);
};

// Piece `number` of a seed, cut in all ways.
Outcome simulate(const Scenario& scenario, std::uint64_t seed, std::size_t number);

// Advice asked for so far: how often, and processor time, in milliseconds.
struct AdviceTime {
  std::size_t count = 0;
  double total_ms = 0.0, longest_ms = 0.0;
};
AdviceTime advice_time();

}  // namespace tallyblock::bench
