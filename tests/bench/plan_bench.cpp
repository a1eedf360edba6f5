// How long a plan takes: the same source natively and, compiled as the app is, in a browser.
//
// Prints one JSON object: means in milliseconds over the repeats, for one portion spec (knife, saw) and
// for two, three and four bounded ones.
#include <algorithm>
#include <cstdio>
#include <vector>

#include "core/cutting/plan.h"
#include "timing.h"

namespace {

using namespace tallyblock;

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
  return input;
}

double plan_ms(const PlanInput& input) {
  return bench::mean_ms(25, [&] { return plan(input)->blocks.size(); });
}

}  // namespace

int main() {
  PlanInput sawn = loin({});
  sawn.saw = Length::millimetres(2);
  std::printf(
      "{\"plan_ms\":%.2f,\"plan_saw_ms\":%.2f,\"plan_two_ms\":%.1f,\"plan_three_ms\":%.1f,"
      "\"plan_four_ms\":%.1f}\n",
      plan_ms(loin({})), plan_ms(sawn), plan_ms(loin({12, 10})), plan_ms(loin({12, 10, 10})),
      plan_ms(loin({12, 10, 10, 6})));
  return 0;
}
