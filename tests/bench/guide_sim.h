// Simulated cooks cutting simulated pieces: how many portions fall within tolerance by four ways of
// deciding where to cut.
//
// A piece has stations; its true face area departs from them smoothly (log area, a sum of random
// waves, nothing at the stations). A cook cuts exp(habit + noise) times the thickness asked. Weights
// are read to the scale's division. The four ways get the same piece, cook and noise:
//   equal  blocks of equal thickness, as many as the first plan has
//   first  the marks of the first plan, from the stations and the weight
//   guide  the guide, once for every prior: right, and wrong by a factor of two either way
//   oracle knows the true shape and the habit, not the noise of the next cut
// Random numbers are made here from mt19937_64, so a seed means the same everywhere. The pieces,
// cooks and severities are inventions of ours, no source.
#pragma once
#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace tallyblock::bench {

struct Severity {
  const char* name;
  double area_sd;  // log face area between stations
  double scatter;  // log sd of one cut
  double habit;    // log ratio of a cook of level 1
};
inline constexpr std::array<Severity, 3> kSeverities = {
    {{"mild", 0.04, 0.02, 0.02}, {"middle", 0.08, 0.03, 0.04}, {"hard", 0.12, 0.04, 0.06}}};
// Cooks by their habit, in multiples of the severity's.
inline constexpr std::array<double, 5> kCooks = {-1.5, -0.75, 0.0, 0.75, 1.5};
// What the guide believes of area, habit and scatter, in multiples of the truth.
inline constexpr std::array<double, 3> kPriors = {1.0, 0.5, 2.0};

struct Outcome {
  std::size_t pieces = 0;
  std::size_t possible = 0;  // portions of the first plans
  std::size_t equal = 0, first = 0, oracle = 0;
  std::array<std::size_t, kPriors.size()> guide{};

  Outcome& operator+=(const Outcome& other);
  // Share of the way from the first plan to the oracle.
  double closes(std::size_t prior) const;
};

// Piece `number` of a seed, cut in all ways by cook number % kCooks.size().
Outcome simulate(const Severity& severity, std::uint64_t seed, std::size_t number);

// Advice asked for so far: how often, and processor time, in milliseconds.
struct AdviceTime {
  std::size_t count = 0;
  double total_ms = 0.0, longest_ms = 0.0;
};
AdviceTime advice_time();

}  // namespace tallyblock::bench
