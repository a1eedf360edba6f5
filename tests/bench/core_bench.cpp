// How long the core takes: the same source natively and, compiled by Emscripten, under Node.
//
// Prints one JSON object: medians in milliseconds over the repeats. Only an optimised build means
// anything.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <string>
#include <vector>

#include "core/codec.h"
#include "core/plan.h"
#include "core/report.h"
#include "tests/core/random_session.h"

namespace {

using namespace tallyblock;
using tallyblock::testing::RandomOptions;
using tallyblock::testing::RandomSession;

volatile std::size_t kept_result = 0;  // so that no work is optimised away

template <class Work>
double median_ms(int repeats, Work work) {
  std::vector<double> times;
  for (int i = 0; i < repeats; ++i) {
    const auto start = std::chrono::steady_clock::now();
    kept_result = kept_result + work();
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
    times.push_back(took.count());
  }
  std::sort(times.begin(), times.end());
  return times[times.size() / 2];
}

RandomSession session_of(unsigned entries, unsigned seed) {
  RandomOptions options;
  options.entries = entries;
  return RandomSession(seed, options);
}

// An invented loin of 600 mm and 6 kg; portions of so many kinds, of each so many wanted.
PlanInput loin(const std::vector<unsigned>& wanted) {
  const auto mm = [](double v) { return Length::millimetres(v); };
  PlanInput input{*Shape::from({{mm(0), mm(125), mm(80), 0.85}, {mm(600), mm(100), mm(65), 0.85}},
                               Mass::grams(6000))};
  constexpr double targets[] = {170, 190, 150, 210};
  for (std::size_t i = 0; i < std::max<std::size_t>(1, wanted.size()); ++i) {
    PortionSpec spec{"", Mass::grams(targets[i]), Mass::grams(7), {}, Money::units(1)};
    if (!wanted.empty()) spec.wanted = wanted[i];
    input.specs.push_back(spec);
  }
  input.few_gaps = true;  // as at the board
  return input;
}

double plan_ms(const PlanInput& input) {
  return median_ms(9, [&] { return plan(input)->blocks.size(); });
}

}  // namespace

int main() {
  const RandomSession session = session_of(500, 7);
  const EntrySet big = session.set();
  const std::string bytes = write_session(session.file());
  std::vector<EntrySet> log;
  std::size_t log_entries = 0;
  for (unsigned seed = 0; seed < 1000; ++seed) {
    log.push_back(session_of(40, seed).set());
    log_entries += log.back().size();
  }
  const double figures = median_ms(101, [&] { return figures_of(big).piles.size(); });
  const double report = median_ms(31, [&] { return report_json(figures_of(big)).size(); });
  const double read = median_ms(31, [&] {
    const auto file = read_session(bytes);
    return file ? file->entries.size() : 0;
  });
  const double whole_log = median_ms(9, [&] {
    std::size_t piles = 0;
    for (const EntrySet& set : log) piles += figures_of(set).piles.size();
    return piles;
  });
  PlanInput sawn = loin({});
  sawn.saw = Length::millimetres(2);
  std::printf(
      "{\"entries\":%zu,\"figures_of_ms\":%.4f,\"figures_and_report_ms\":%.4f,"
      "\"read_session_ms\":%.4f,\"session_bytes\":%zu,\"log_sessions\":%zu,\"log_entries\":%zu,"
      "\"log_figures_ms\":%.3f,\"plan_ms\":%.2f,\"plan_saw_ms\":%.2f,\"plan_two_ms\":%.1f,"
      "\"plan_three_ms\":%.1f,\"plan_four_ms\":%.1f}\n",
      big.size(), figures, report, read, bytes.size(), log.size(), log_entries, whole_log,
      plan_ms(loin({})), plan_ms(sawn), plan_ms(loin({12, 10})), plan_ms(loin({12, 10, 10})),
      plan_ms(loin({12, 10, 10, 6})));
  return 0;
}
