#include "guide_sim.h"

#include <algorithm>
#include <cmath>
#include <ctime>
#include <numbers>
#include <random>
#include <string>
#include <vector>

#include "core/cutting/aim.h"
#include "core/cutting/guide.h"
#include "core/formulas/portions.h"
#include "row_of_kinds.h"

namespace tallyblock::bench {
namespace {

constexpr std::size_t kMostCuts = 60;
constexpr double kDensity = 1.06e-3;  // g/mm3
AdviceTime timing;

double processor_ms() { return 1000.0 * static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

class Random {
 public:
  explicit Random(std::uint64_t seed) : engine_(seed) {}
  double uniform(double from, double to) {
    return from + (to - from) * static_cast<double>(engine_() >> 11) * 0x1p-53;
  }
  std::size_t below(std::size_t n) { return static_cast<std::size_t>(engine_() % n); }
  double normal() {  // Box-Muller
    const double radius = std::sqrt(-2.0 * std::log(1.0 - uniform(0.0, 1.0)));
    return radius * std::cos(2.0 * std::numbers::pi * uniform(0.0, 1.0));
  }

 private:
  std::mt19937_64 engine_;
};

// The piece as it really is: width, depth and weight per millimetre at every half millimetre.
class TruePiece {
 public:
  TruePiece(const Scenario& scenario, Random& random) : length_(random.uniform(380.0, 620.0)) {
    const double width = random.uniform(70.0, 110.0), depth = random.uniform(50.0, 80.0);
    const double bulge = random.uniform(0.05, 0.2), taper = random.uniform(-0.12, 0.12);
    const double tail_from = random.uniform(0.55, 0.75), tail_to = random.uniform(0.25, 0.45);
    const double bend = random.uniform(0.06, 0.16), bend_at = random.uniform(0.0, 6.28);
    const double fill = random.uniform(0.72, 0.9), fill_lean = random.uniform(-0.04, 0.04);
    double wave[4], phase[4];
    for (int i = 0; i < 4; ++i) {
      wave[i] = 2.0 * std::numbers::pi / random.uniform(90.0, 320.0);
      phase[i] = random.uniform(0.0, 6.28);
    }
    const auto count = static_cast<std::size_t>(2.0 * length_) + 1;
    double total = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
      const double x = static_cast<double>(i) / 2.0, share = x / length_;
      double size = 1.0 + taper * (share - 0.5);
      if (scenario.form == Form::tail) {
        const double along = std::clamp((share - tail_from) / (1.0 - tail_from), 0.0, 1.0);
        size *= 1.0 - tail_to * (1.0 - std::cos(along * std::numbers::pi / 2.0));
      } else if (scenario.form == Form::even) {
        size *= 1.0 - tail_to * share;
      } else {
        size *= 1.0 + bulge * (std::sin(std::numbers::pi * share) - 0.5) / 2.0;
      }
      double rough = 0.0;
      for (int w = 0; w < 4; ++w) rough += 0.0125 * std::sin(wave[w] * x + phase[w]);
      width_.push_back(width * size * (1.0 + rough));
      depth_.push_back(depth * size * (1.0 - 0.4 * rough));
      double area = width_.back() * depth_.back() * fill * (1.0 + fill_lean * (share - 0.5) * 2.0);
      if (scenario.form == Form::bent) {
        area *= 1.0 + bend * std::sin(1.5 * std::numbers::pi * share + bend_at);
      }
      total += area * kDensity / 2.0;
      to_.push_back(total);
    }
  }
  double length() const { return length_; }
  double grams() const { return to_.back(); }
  double width(double x) const { return width_[place(x)]; }
  double depth(double x) const { return depth_[place(x)]; }
  double grams_to(double x) const {
    const double at = std::clamp(2.0 * x, 0.0, static_cast<double>(to_.size() - 1));
    const auto left = std::min(static_cast<std::size_t>(at), to_.size() - 2);
    const double share = at - static_cast<double>(left);
    return to_[left] * (1.0 - share) + to_[left + 1] * share;
  }
  double grams_between(double from, double to) const {
    return std::max(0.0, grams_to(to) - grams_to(from));
  }
  double place_after(double from, double grams) const {
    const double wanted = grams_to(from) + grams;
    const auto found = std::ranges::lower_bound(to_, wanted);
    if (found == to_.end()) return length_;
    const auto right = static_cast<std::size_t>(found - to_.begin());
    if (right == 0) return 0.0;
    return 0.5 * (static_cast<double>(right - 1) +
                  (wanted - to_[right - 1]) / (to_[right] - to_[right - 1]));
  }

 private:
  std::size_t place(double x) const {
    return std::min(static_cast<std::size_t>(2.0 * x + 0.5), width_.size() - 1);
  }
  double length_;
  std::vector<double> width_, depth_, to_;
};

struct Trial {
  const Scenario& scenario;
  TruePiece piece;
  PlanInput input;
  double habit = 0.0;
  double division = 1.0;
  std::size_t slipped = 0;  // the cut whose weight is typed wrong
  std::vector<double> noise = {}, wandered = {}, lean = {}, ignored = {};
  const PortionSpec& spec(std::size_t s) const { return input.specs[s]; }
  double target() const { return spec(0).target.in_grams(); }
  double tolerance() const { return spec(0).tolerance.in_grams(); }
  double habit_of(std::size_t cut) const {
    return habit + scenario.drift * static_cast<double>(cut) + wandered[cut];
  }
  // Where the cut goes that was asked so thick; `last` is the lean of the face it was measured from.
  double cut_from(double at, double asked, std::size_t cut) const {
    const double thick = asked * std::exp(habit_of(cut)) + noise[cut] + lean[cut + 1] - lean[cut];
    return std::clamp(at + thick, at, piece.length());
  }
  double equal_share() const { return target() / piece.grams() * piece.length(); }
  bool ignores(std::size_t cut) const { return ignored[cut] < scenario.ignored; }
};

Shape measured(const Scenario& scenario, const TruePiece& piece, Random& random, Mass weight) {
  std::vector<Station> stations;
  for (int i = 0; i < scenario.places; ++i) {
    const double at = piece.length() * i / (scenario.places - 1);
    const auto ruler = [&](double true_mm) {
      return Length::millimetres(
          std::max(5.0, std::round(true_mm + scenario.measure_mm * random.normal())));
    };
    const Length width = ruler(piece.width(at)), depth = ruler(piece.depth(at));
    stations.push_back({Length::millimetres(std::round(at)), width, depth, 0.8});
  }
  return *Shape::from(stations, weight);
}

PortionSpec spec_of(double grams, std::optional<unsigned> wanted) {
  const Mass target = Mass::grams(grams);
  return {"", target, imps_portion_tolerance(target, WeightStyle::grams), wanted,
          Money::units(grams * 0.02)};
}

Trial make_trial(const Scenario& scenario, std::uint64_t seed, std::size_t number) {
  Random random(seed * 1'000'003 + number);
  TruePiece piece(scenario, random);
  const double target = std::round(random.uniform(140.0, 260.0));
  const Mass weight = Mass::grams(std::round(piece.grams()));
  PlanInput input{measured(scenario, piece, random, weight)};
  if (scenario.two_kinds) {
    const auto half = static_cast<unsigned>(piece.grams() / target / 2.0);
    const double small = std::round(target * random.uniform(0.6, 0.75));
    input.specs = {spec_of(target, half), spec_of(small, half)};
    input.remainder_value = PricePerMass::of(Money::units(4.0), MassUnit::kilogram);
  } else {
    input.specs = {spec_of(target, {})};
    input.remainder_value = PricePerMass::of(Money::units(5.0), MassUnit::kilogram);  // as unpriced
  }
  input.k_max = 1;
  Trial trial{scenario, std::move(piece), std::move(input)};
  trial.habit = scenario.habit_sd * random.normal();
  trial.division = std::array{1.0, 2.0, 5.0}[random.below(3)];
  if (scenario.slip != Slip::none) trial.division = 1.0;
  trial.slipped =
      random.below(static_cast<std::size_t>(std::max(2.0, 0.7 * trial.piece.grams() / target)));
  double wandered = 0.0;
  trial.lean.push_back(0.0);
  for (std::size_t i = 0; i < kMostCuts; ++i) {
    trial.noise.push_back(scenario.knife_mm * random.normal());
    wandered += scenario.wander * random.normal();
    trial.wandered.push_back(wandered);
    trial.lean.push_back(scenario.lean_mm * random.normal());
    trial.ignored.push_back(random.uniform(0.0, 1.0));
  }
  return trial;
}

// What is typed for `grams`.
double typed(const Trial& trial, double grams, std::size_t cut) {
  const double read = std::round(grams / trial.division) * trial.division;
  if (cut != trial.slipped) return read;
  std::string digits = std::to_string(static_cast<int>(read));
  switch (trial.scenario.slip) {
    case Slip::none: return read;
    case Slip::ten_times: return read * 10.0;
    case Slip::hundred_more: return read + 100.0;
    case Slip::lost_digit: digits.erase(cut % digits.size(), 1); break;
    case Slip::swapped: std::swap(digits[digits.size() - 1], digits[digits.size() - 2]); break;
  }
  return digits.empty() ? 0.0 : std::stod(digits);
}

// How many of each kind are there, none beyond what is wanted.
class Portions {
 public:
  explicit Portions(const Trial& trial) : trial_(trial), made_(trial.input.specs.size(), 0) {}
  void add(double grams) {
    for (std::size_t s = 0; s < made_.size(); ++s) {
      const PortionSpec& spec = trial_.spec(s);
      const bool wanted = !spec.wanted || made_[s] < *spec.wanted;
      if (wanted && std::abs(grams - spec.target.in_grams()) <= spec.tolerance.in_grams() + 1e-9) {
        ++made_[s];
        ++sum_;
        return;
      }
    }
  }
  std::size_t sum() const { return sum_; }
  // How many of each kind are still wanted.
  std::vector<unsigned> left() const {
    std::vector<unsigned> left;
    for (std::size_t s = 0; s < made_.size(); ++s) {
      left.push_back(trial_.spec(s).wanted.value_or(kMostCuts) - made_[s]);
    }
    return left;
  }

 private:
  const Trial& trial_;
  std::vector<unsigned> made_;
  std::size_t sum_ = 0;
};

// Cuts as `ask(place, cut, portions so far)` says until it asks for nothing or the piece ends.
template <class Ask>
std::size_t cut_all(const Trial& trial, Ask ask) {
  double at = 0.0;
  Portions portions(trial);
  for (std::size_t cut = 0; cut < kMostCuts && at < trial.piece.length() - 0.5; ++cut) {
    const double asked = ask(at, cut, portions);
    if (!(asked > 0.0)) break;
    const double next = trial.cut_from(at, asked, cut);
    portions.add(trial.piece.grams_between(at, next));
    at = next;
  }
  return portions.sum();
}

// At marks scored before the first cut; the habit has no part in it.
std::size_t cut_scored(const Trial& trial, const std::vector<PlannedBlock>& blocks) {
  const double end = trial.piece.length();
  const auto face = [&](Length mark, std::size_t cut) {
    const double at = mark.in_millimetres();
    if (at < 1.0) return 0.0;
    return at >= end - 1.0 ? end : std::clamp(at + trial.noise[cut] + trial.lean[cut], 0.0, end);
  };
  Portions portions(trial);
  double last = 0.0;
  for (std::size_t i = 0; i < blocks.size() && i + 1 < kMostCuts; ++i) {
    const double from = std::max(last, face(blocks[i].from, i));
    last = trial.ignores(i) ? trial.cut_from(from, trial.equal_share(), i)
                            : std::max(from, face(blocks[i].to, i + 1));
    portions.add(trial.piece.grams_between(from, last));
  }
  return portions.sum();
}

// Knows the true piece and the habit, and where the last face stands.
std::size_t cut_by_oracle(const Trial& trial, std::size_t count) {
  const Scenario& scenario = trial.scenario;
  const double length = trial.piece.length();
  const double mean = length / static_cast<double>(std::max<std::size_t>(1, count));
  const double scatter =
      std::hypot(scenario.knife_mm, 1.4 * scenario.lean_mm) / mean + scenario.wander;
  std::optional<RowOfBlocks> one;
  std::optional<RowOfKinds> several;
  if (scenario.two_kinds) {
    several.emplace(trial.input.specs, scatter, trial.piece.grams());
  } else {
    one.emplace(trial.spec(0).target, trial.spec(0).tolerance, scatter, 0.0,
                Mass::grams(trial.piece.grams()));
  }
  return cut_all(trial, [&](double at, std::size_t cut, const Portions& made) {
    const double left = trial.piece.grams_between(at, length);
    const double grams =
        one ? one->aim(Mass::grams(left)).in_grams() : several->aim(left, made.left());
    if (!(grams > 0.0)) return 0.0;
    const double to = trial.piece.place_after(at, grams);
    const double exact = to - at + trial.lean[cut];
    return to >= length ? 2.0 * exact : exact * std::exp(-trial.habit_of(cut));
  });
}

void by_guide(const Trial& trial, Outcome& outcome) {
  ShapePrior prior;
  prior.evenly = trial.scenario.evenly;
  Result<Guide> started = Guide::start(trial.input, {}, prior, Mass::grams(trial.division));
  if (!started) return;
  Guide& guide = started.value();
  double at = 0.0;
  Portions portions(trial);
  for (std::size_t cut = 0; cut < kMostCuts && at < trial.piece.length() - 0.5; ++cut) {
    const double before = processor_ms();
    const Guide::Advice advice = guide.advice();
    const double took = processor_ms() - before;
    ++timing.count;
    timing.total_ms += took;
    timing.longest_ms = std::max(timing.longest_ms, took);
    if (advice.done) break;
    const bool ignored = trial.ignores(cut);
    const double asked = ignored ? trial.equal_share() : std::round(advice.next.in_millimetres());
    const double next = trial.cut_from(at, asked, cut);
    const double grams = trial.piece.grams_between(at, next);
    portions.add(grams);
    const double read = typed(trial, grams, cut);
    if (!(read > 0.0)) break;
    const bool slip = cut == trial.slipped && trial.scenario.slip != Slip::none;
    if (!ignored && !slip && next < trial.piece.length() - 1.0) {
      const double z = (grams - advice.expected.in_grams()) / advice.scatter.in_grams();
      outcome.surprise += z * z;
      ++outcome.stated;
    }
    guide.block({Length::millimetres(ignored ? std::round(advice.next.in_millimetres()) : asked), 1,
                 Mass::grams(read), advice.spec});
    at = next;
  }
  outcome.guide = portions.sum();
}

}  // namespace

Outcome& Outcome::operator+=(const Outcome& other) {
  pieces += other.pieces;
  possible += other.possible;
  equal += other.equal;
  blocks += other.blocks;
  scored += other.scored;
  guide += other.guide;
  oracle += other.oracle;
  surprise += other.surprise;
  stated += other.stated;
  return *this;
}

Outcome simulate(const Scenario& scenario, std::uint64_t seed, std::size_t number) {
  Outcome outcome;
  const Trial trial = make_trial(scenario, seed, number);
  const Result<Plan> planned = plan(trial.input);
  if (!planned) return outcome;
  const double grams = trial.piece.grams();
  outcome.pieces = 1;
  if (scenario.two_kinds) {
    outcome.possible = 0;
    for (const PortionSpec& spec : trial.input.specs) outcome.possible += spec.wanted.value_or(0);
  } else {
    outcome.possible = static_cast<std::size_t>(grams / trial.target());
  }
  const std::size_t count = outcome.possible;
  const double equal = trial.piece.length() / static_cast<double>(count);
  outcome.equal = cut_all(
      trial, [&](double, std::size_t cut, const Portions&) { return cut < count ? equal : 0.0; });
  outcome.blocks = cut_all(trial, [&](double, std::size_t cut, const Portions&) {
    if (cut >= planned->blocks.size()) return 0.0;
    if (trial.ignores(cut)) return trial.equal_share();
    const Length before = cut > 0 ? planned->blocks[cut - 1].to : Length();
    return (planned->blocks[cut].to - before).in_millimetres();
  });
  outcome.scored = cut_scored(trial, planned->blocks);
  outcome.oracle = cut_by_oracle(trial, count);
  by_guide(trial, outcome);
  return outcome;
}

AdviceTime advice_time() { return timing; }

}  // namespace tallyblock::bench
