#include "tests/bench/guide_sim.h"

#include <algorithm>
#include <cmath>
#include <ctime>
#include <numbers>
#include <optional>
#include <random>

#include "core/guide.h"
#include "core/portions.h"

namespace tallyblock::bench {
namespace {

constexpr std::size_t kMostCuts = 60;
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

// The piece as it really is.
class TruePiece {
 public:
  TruePiece(const Shape& shape, std::vector<double> deviation, double grams)
      : shape_(shape), deviation_(std::move(deviation)) {
    scale_ = grams / grams_between(0.0, length());
  }
  double length() const { return shape_.length().in_millimetres(); }
  double grams_between(double from, double to) const {
    if (!(to > from)) return 0.0;
    const int panels = std::max(2, static_cast<int>((to - from) / 3.0));
    const double h = (to - from) / panels;
    double sum = 0.0;
    for (int i = 0; i < panels; ++i) {  // Gauss-Legendre, two points a panel
      const double middle = from + (i + 0.5) * h;
      const double off = h / (2.0 * std::numbers::sqrt3);
      sum += grams_per_mm(middle - off) + grams_per_mm(middle + off);
    }
    return sum * h / 2.0;
  }
  double place_after(double from, double grams) const {
    double low = from;
    double high = length();
    if (grams_between(from, high) <= grams) return high;
    for (int i = 0; i < 45; ++i) {
      const double middle = (low + high) / 2.0;
      (grams_between(from, middle) < grams ? low : high) = middle;
    }
    return (low + high) / 2.0;
  }

 private:
  double grams_per_mm(double x) const {
    const auto last = static_cast<double>(deviation_.size() - 1);
    const double place = std::clamp(x / length() * last, 0.0, last - 1e-6);
    const auto left = static_cast<std::size_t>(place);
    const double share = place - static_cast<double>(left);
    const double log_area = deviation_[left] * (1.0 - share) + deviation_[left + 1] * share;
    return scale_ * shape_.grams_per_mm(Length::millimetres(x)) * std::exp(log_area);
  }
  Shape shape_;
  std::vector<double> deviation_;
  double scale_ = 1.0;
};

// Random waves less their interpolation between the stations.
std::vector<double> smooth_deviation(Random& random, const std::vector<Station>& stations,
                                     double area_sd) {
  constexpr std::size_t kWaves = 10;
  constexpr std::size_t kPoints = 61;
  const double reach = random.uniform(70.0, 130.0);
  std::vector<double> wave, phase;
  for (std::size_t i = 0; i < kWaves; ++i) {
    wave.push_back(std::abs(random.normal()) / reach);
    phase.push_back(random.uniform(0.0, 2.0 * std::numbers::pi));
  }
  const auto height = [&](double x) {
    double sum = 0.0;
    for (std::size_t i = 0; i < kWaves; ++i) sum += std::cos(wave[i] * x + phase[i]);
    return sum * std::sqrt(2.0 / kWaves);
  };
  std::vector<double> deviation;
  for (std::size_t i = 0; i < kPoints; ++i) {
    const double x = stations.back().at.in_millimetres() * static_cast<double>(i) / (kPoints - 1);
    std::size_t s = 0;
    while (s + 2 < stations.size() && stations[s + 1].at.in_millimetres() <= x) ++s;
    const double left = stations[s].at.in_millimetres();
    const double right = stations[s + 1].at.in_millimetres();
    const double share = (x - left) / (right - left);
    deviation.push_back(area_sd *
                        (height(x) - (1.0 - share) * height(left) - share * height(right)));
  }
  return deviation;
}

struct Trial {
  PlanInput input;
  TruePiece piece;
  double habit = 0.0;
  double division = 1.0;
  std::vector<double> noise = {};  // one for each cut
  double target() const { return input.specs.front().target.in_grams(); }
  double tolerance() const { return input.specs.front().tolerance.in_grams(); }
  double cut_from(double at, double asked, std::size_t cut) const {
    return std::min(piece.length(), at + asked * std::exp(habit + noise[cut]));
  }
  bool within(double grams) const { return std::abs(grams - target()) <= tolerance(); }
};

Trial make_trial(const Severity& severity, std::uint64_t seed, std::size_t number) {
  Random random(seed * 1'000'003 + number);
  const double length = random.uniform(280.0, 600.0);
  const std::size_t count = 3 + random.below(2);
  const double width = random.uniform(60.0, 110.0);
  const double depth = random.uniform(45.0, 80.0);
  std::vector<Station> stations;
  for (std::size_t i = 0; i < count; ++i) {
    const double share = static_cast<double>(i) / static_cast<double>(count - 1);
    stations.push_back({Length::millimetres(length * share),
                        Length::millimetres(width * random.uniform(0.8, 1.15)),
                        Length::millimetres(depth * random.uniform(0.8, 1.15)), 0.85});
  }
  const double grams =
      std::round(Shape::from(stations, {})->mass().in_grams() * random.uniform(0.95, 1.05));
  const Shape shape = *Shape::from(stations, Mass::grams(grams));
  const Mass target = Mass::grams(std::round(grams / random.uniform(6.0, 22.0)));
  PlanInput input{shape};
  input.specs.push_back(
      {"", target, imps_portion_tolerance(target, WeightStyle::grams), {}, Money::units(1.0)});
  input.k_max = 1;
  input.few_gaps = true;  // as at the board
  Trial trial{std::move(input),
              TruePiece(shape, smooth_deviation(random, stations, severity.area_sd), grams)};
  trial.habit = severity.habit * kCooks[number % kCooks.size()];
  trial.division = std::array{1.0, 2.0, 5.0}[random.below(3)];
  for (std::size_t i = 0; i < kMostCuts; ++i) {
    trial.noise.push_back(severity.scatter * random.normal());
  }
  return trial;
}

// Cuts as `ask(place, cut)` says until it asks for nothing or the piece ends.
template <class Ask>
std::size_t cut_all(const Trial& trial, Ask ask) {
  double at = 0.0;
  std::size_t good = 0;
  for (std::size_t cut = 0; cut < kMostCuts && at < trial.piece.length(); ++cut) {
    const double asked = ask(at, cut);
    if (!(asked > 0.0)) break;
    const double next = trial.cut_from(at, asked, cut);
    if (trial.within(trial.piece.grams_between(at, next))) ++good;
    at = next;
  }
  return good;
}

std::size_t by_guide(const Trial& trial, const Severity& severity, double wrong) {
  CookPrior cook;
  cook.habit_sd = severity.habit * wrong;
  cook.scatter = severity.scatter * wrong;
  ShapePrior shape;
  shape.area_sd = severity.area_sd * wrong;
  Result<Guide> started = Guide::start(trial.input, cook, shape, Mass::grams(trial.division));
  if (!started) return 0;
  Guide& guide = started.value();
  double at = 0.0;
  std::size_t good = 0;
  for (std::size_t cut = 0; cut < kMostCuts && at < trial.piece.length(); ++cut) {
    const double before = processor_ms();
    const Guide::Advice advice = guide.advice();
    const double took = processor_ms() - before;
    ++timing.count;
    timing.total_ms += took;
    timing.longest_ms = std::max(timing.longest_ms, took);
    if (advice.done) break;
    const double next = trial.cut_from(at, advice.next.in_millimetres(), cut);
    const double grams = trial.piece.grams_between(at, next);
    if (trial.within(grams)) ++good;
    const double read = std::round(grams / trial.division) * trial.division;
    if (!(read > 0.0)) break;
    guide.block({advice.next, 1, Mass::grams(read), 0});
    at = next;
  }
  return good;
}

// The weight the oracle aims at with `left` on the board: the target, or an even share of what is
// short of one more portion.
double oracle_aim(const Trial& trial, double left) {
  const double least = trial.target() - trial.tolerance();
  double count = std::max(1.0, std::floor(left / trial.target()));
  if ((count + 1.0) * least <= left) count += 1.0;
  return std::clamp(left / count, least, trial.target());
}

}  // namespace

Outcome& Outcome::operator+=(const Outcome& other) {
  pieces += other.pieces;
  possible += other.possible;
  equal += other.equal;
  first += other.first;
  oracle += other.oracle;
  for (std::size_t p = 0; p < guide.size(); ++p) guide[p] += other.guide[p];
  return *this;
}

double Outcome::closes(std::size_t prior) const {
  if (oracle == first) return 0.0;
  return (static_cast<double>(guide[prior]) - static_cast<double>(first)) /
         (static_cast<double>(oracle) - static_cast<double>(first));
}

Outcome simulate(const Severity& severity, std::uint64_t seed, std::size_t number) {
  Outcome outcome;
  const Trial trial = make_trial(severity, seed, number);
  const Result<Plan> planned = plan(trial.input);
  if (!planned) return outcome;  // no portion of this target is in the piece
  const std::size_t count = planned->portions.front();
  const Shape& shape = trial.input.shape;
  const double grams = shape.mass().in_grams();
  const double aim = std::clamp(grams / static_cast<double>(count),
                                trial.target() - trial.tolerance(), trial.target());
  const double equal = trial.piece.length() / static_cast<double>(count);
  const auto mark = [&](std::size_t block) {
    return shape.at_mass(Mass::grams(aim * static_cast<double>(block))).in_millimetres();
  };
  outcome.pieces = 1;
  outcome.possible = count;
  outcome.equal =
      cut_all(trial, [&](double, std::size_t cut) { return cut < count ? equal : 0.0; });
  outcome.first = cut_all(trial, [&](double, std::size_t cut) {
    return cut < count ? mark(cut + 1) - mark(cut) : 0.0;
  });
  outcome.oracle = cut_all(trial, [&](double at, std::size_t) {
    const double left = trial.piece.grams_between(at, trial.piece.length());
    if (left < trial.target() - trial.tolerance() - 1e-9) return 0.0;
    return (trial.piece.place_after(at, oracle_aim(trial, left)) - at) * std::exp(-trial.habit);
  });
  for (std::size_t p = 0; p < kPriors.size(); ++p) {
    outcome.guide[p] = by_guide(trial, severity, kPriors[p]);
  }
  return outcome;
}

AdviceTime advice_time() { return timing; }

}  // namespace tallyblock::bench
