// What a line of the log may say about n pieces in the order they were cut: nothing yet, dots, a
// provisional chart, limits and signals.
//
//   n = 1      nothing to compare yet            2   the difference, no mean
//   3 to 5     median, smallest, largest; the next lies between with chance (n - 1) / (n + 1)
//   6 to 11    mean +/- 2.66 x mean moving range of all: provisional, no signal
//   8 on       the last four against the first four
//   12 on      the first 12 fix centre and limits for good; signals; a slope may be asked for
//
// Individuals chart: NIST/SEMATECH e-Handbook 6.3.2.2, where 3 / d2 = 3 / 1.128 = 2.6596; 2.66 is the
// textbooks' rounding (exactly 2.65868, d2 = 2 / sqrt(pi)). Eight on one side: the Western Electric
// rule, e-Handbook 6.3.2. All four above all four: 1 / C(8, 4), own derivation for exchangeable
// values. Any unit; nothing is rounded. A new start is made by giving the values from there on.
// Does not: choose which pieces may be compared; correct for looking again after every piece.
#pragma once
#include <cstddef>
#include <optional>
#include <vector>

namespace tallyblock {

enum class LogStage { nothing, one, two, few, provisional, settled };
// By n alone: 0, 1, 2, 3 to 5, 6 to 11, 12 on.
LogStage log_stage(std::size_t n);

// 3 to 5.
struct FewSeen {
  double median = 0.0;
  double smallest = 0.0;
  double largest = 0.0;
  double chance_next_between = 0.0;
};

// 6 on.
struct ChartLimits {
  std::size_t from = 0;  // the first so many values fix them: all up to 11, then 12
  double centre = 0.0;
  double mean_moving_range = 0.0;  // above 0
  double lower = 0.0;
  double upper = 0.0;
};

// 12 on. A value is beyond a limit, or on one side of the centre, when it is so by more than 1e-9 of
// the half-width: what differs by less was computed, not weighed. A value at the centre ends a run.
// The twelve are judged by the limits that they fix, too.
enum class ChartSignalKind { beyond_limit, eight_on_one_side };
struct ChartSignal {
  ChartSignalKind kind = ChartSignalKind::beyond_limit;
  std::size_t first = 0;  // positions from 0; a run is one signal, as long as it lasts
  std::size_t last = 0;
  bool above = false;
};

// 8 on. "By luck" is the chance of each of the two clear answers if nothing changed, 1 / 70: of
// either one of them 1 / 35. Equal values are no clear change.
enum class LastFour { all_above, all_below, no_clear_change };
struct LastAgainstFirst {
  LastFour answer = LastFour::no_clear_change;
  double by_luck = 1.0 / 70.0;
};

// Everything the words are chosen from; each member is there only at its stage.
struct LogChart {
  std::size_t n = 0;
  LogStage stage = LogStage::nothing;
  std::optional<double> difference;  // 2: second less first
  std::optional<FewSeen> few;
  std::optional<ChartLimits> limits;  // absent too where all that fix them are alike
  std::optional<LastAgainstFirst> last_four;
  std::vector<ChartSignal> signals;  // beyond a limit, then runs, each in order
};
// Absent with a value that is not finite or so large that the figures are not.
std::optional<LogChart> log_chart(const std::vector<double>& values);

}  // namespace tallyblock
