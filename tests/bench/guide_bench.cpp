// tallyblock_guide_bench [PIECES] [SEED] [WORDS]: the table of core/cutting/CUTTING.md, 400 pieces of seed 1 a row
// unless said; only the rows whose names hold these words.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

#include "guide_sim.h"

namespace {

using namespace tallyblock::bench;

double percent(std::size_t part, std::size_t whole) {
  return 100.0 * static_cast<double>(part) / static_cast<double>(std::max<std::size_t>(1, whole));
}

}  // namespace

int main(int count, char** words) {
  const std::size_t pieces = count > 1 ? std::strtoull(words[1], nullptr, 10) : 400;
  const std::uint64_t seed = count > 2 ? std::strtoull(words[2], nullptr, 10) : 1;
  std::printf(
      "| scenario | portions | equal | plan, block by block | plan, all scored first | guide | "
      "oracle | "
      "squared z |\n|---|---|---|---|---|---|---|---|\n");
  const std::string_view only = count > 3 ? words[3] : "";
  for (const Scenario& scenario : kScenarios) {
    if (std::string_view(scenario.name).find(only) == std::string_view::npos) continue;
    Outcome all;
    for (std::size_t number = 0; number < pieces; ++number) all += simulate(scenario, seed, number);
    std::printf("| %s | %zu | %.0f | %.0f | %.0f | %.0f | %.0f | %.2f |\n", scenario.name,
                all.possible, percent(all.equal, all.possible), percent(all.blocks, all.possible),
                percent(all.scored, all.possible), percent(all.guide, all.possible),
                percent(all.oracle, all.possible),
                all.surprise / static_cast<double>(std::max<std::size_t>(1, all.stated)));
    std::fflush(stdout);
  }
  const AdviceTime time = advice_time();
  std::printf("\nadvice: %zu times, %.2f ms of processor time on average, %.1f ms at most\n",
              time.count, time.total_ms / static_cast<double>(std::max<std::size_t>(1, time.count)),
              time.longest_ms);
  return 0;
}
