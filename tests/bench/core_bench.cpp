// How long the core takes: the same source natively and, compiled by Emscripten, under Node.
//
// Prints one JSON object: medians in milliseconds over the repeats. Only an optimised build means
// anything.
#include <cstdio>
#include <string>
#include <vector>

#include "core/entries/codec.h"
#include "core/report/report.h"
#include "tests/core/random_session.h"
#include "timing.h"

namespace {

using namespace tallyblock;
using tallyblock::bench::median_ms;
using tallyblock::testing::RandomOptions;
using tallyblock::testing::RandomSession;

RandomSession session_of(unsigned entries, unsigned seed) {
  RandomOptions options;
  options.entries = entries;
  return RandomSession(seed, options);
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
  std::printf(
      "{\"entries\":%zu,\"figures_of_ms\":%.4f,\"figures_and_report_ms\":%.4f,"
      "\"read_session_ms\":%.4f,\"session_bytes\":%zu,\"log_sessions\":%zu,\"log_entries\":%zu,"
      "\"log_figures_ms\":%.3f}\n",
      big.size(), figures, report, read, bytes.size(), log.size(), log_entries, whole_log);
  return 0;
}
