// tallyblock_guide_bench [PIECES] [SEED]: the table of core/CUTTING.md, 10,000 pieces of seed 1 unless
// said. The pieces are shared out evenly between the three severities.
#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>

#include "tests/bench/guide_sim.h"

namespace {

using namespace tallyblock::bench;

double percent(std::size_t part, std::size_t whole) {
  return 100.0 * static_cast<double>(part) / static_cast<double>(std::max<std::size_t>(1, whole));
}

void report(const Severity& severity, const std::array<Outcome, kCooks.size()>& cooks) {
  Outcome all;
  double worst = 1e9;
  for (const Outcome& cook : cooks) {
    all += cook;
    for (const std::size_t good : cook.guide) {
      worst = std::min(worst, percent(good, cook.possible) - percent(cook.first, cook.possible));
    }
  }
  std::printf("| %s | %zu | %zu | %.1f | %.1f |", severity.name, all.pieces, all.possible,
              percent(all.equal, all.possible), percent(all.first, all.possible));
  for (std::size_t p = 0; p < kPriors.size(); ++p) {
    std::printf(" %.1f (%.0f) |", percent(all.guide[p], all.possible), 100.0 * all.closes(p));
  }
  std::printf(" %.1f | %+.1f |\n", percent(all.oracle, all.possible), worst);
}

}  // namespace

int main(int count, char** words) {
  const std::size_t pieces = count > 1 ? std::strtoull(words[1], nullptr, 10) : 10'000;
  const std::uint64_t seed = count > 2 ? std::strtoull(words[2], nullptr, 10) : 1;
  std::printf(
      "| severity | pieces | portions | equal | first plan | guide | prior halved | prior "
      "doubled | oracle | worst cook |\n|---|---|---|---|---|---|---|---|---|---|\n");
  for (std::size_t s = 0; s < kSeverities.size(); ++s) {
    std::array<Outcome, kCooks.size()> cooks;
    for (std::size_t number = s; number < pieces; number += kSeverities.size()) {
      cooks[number % kCooks.size()] += simulate(kSeverities[s], seed, number);
    }
    report(kSeverities[s], cooks);
  }
  const AdviceTime time = advice_time();
  std::printf("\nadvice: %zu times, %.2f ms of processor time on average, %.1f ms at most\n",
              time.count, time.total_ms / static_cast<double>(std::max<std::size_t>(1, time.count)),
              time.longest_ms);
  return 0;
}
