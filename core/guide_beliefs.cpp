#include "guide_beliefs.h"

#include <algorithm>
#include <cmath>

namespace tallyblock {
namespace {

// Choices of ours, no source.
struct Hand {
  double weight;
  double leaning, wander, slope_sd;
};
constexpr Hand kHands[] = {
    {0.45, 0.5, 0.01, 0.0},
    {0.25, 1.5, 0.01, 0.0},
    {0.15, 0.5, 0.025, 0.0},
    {0.15, 0.5, 0.01, 0.01},
};
struct Taper {
  double weight;
  double late, sd;
};
constexpr Taper kTapers[] = {{0.7, 0.0, 0.06}, {0.3, 0.4, 0.4}};
constexpr double kDiffer = 1.1;  // areas of two faces: below it is one face all along

bool tapers(const Shape& shape) {
  double least = 1e300, most = 0.0;
  for (const Station& station : shape.stations()) {
    const double area = shape.face_area_mm2(station.at);
    least = std::min(least, area);
    most = std::max(most, area);
  }
  return most > kDiffer * least;
}

}  // namespace

GuideBeliefs::GuideBeliefs(const Shape& shape, const CookPrior& cook, const ShapePrior& prior) {
  const bool one_shape = prior.evenly || !tapers(shape);
  for (const Taper& taper : kTapers) {
    if (one_shape && taper.late > 0.0) continue;
    for (const Hand& hand : kHands) {
      CookPrior own_cook = cook;
      own_cook.wander = hand.wander;
      own_cook.slope_sd = hand.slope_sd;
      ShapePrior own = prior;
      own.leaning = hand.leaning;
      own.late = taper.late;
      own.taper = taper.sd;
      beliefs_.push_back(
          {GuideModel(shape, own_cook, own), std::log(hand.weight * taper.weight), 0.0});
    }
  }
  weigh();
}

void GuideBeliefs::weigh() {
  double most = -1e300, sum = 0.0;
  for (const Belief& belief : beliefs_) most = std::max(most, belief.log_weight);
  for (Belief& belief : beliefs_) {
    belief.log_weight -= most;
    belief.weight = std::exp(belief.log_weight);
    sum += belief.weight;
  }
  for (Belief& belief : beliefs_) belief.weight /= sum;
}

void GuideBeliefs::observe_block(double from, double thickness, double grams, double division) {
  for (Belief& belief : beliefs_) {
    belief.log_weight += belief.model.observe_block(from, thickness, grams, division);
  }
  weigh();
}

void GuideBeliefs::pass_block() {
  for (Belief& belief : beliefs_) belief.model.pass_block();
}
void GuideBeliefs::forget_face() {
  for (Belief& belief : beliefs_) belief.model.forget_face();
}
void GuideBeliefs::observe_face(double at, double ratio) {
  for (Belief& belief : beliefs_) belief.log_weight += belief.model.observe_face(at, ratio);
  weigh();
}

double GuideBeliefs::habit() const {
  return mean([](const GuideModel& m) { return m.habit(); });
}
double GuideBeliefs::habit_sd() const {
  const double middle = habit();
  return std::sqrt(mean([&](const GuideModel& m) {
    return std::pow(m.habit_sd(), 2) + std::pow(m.habit() - middle, 2);
  }));
}
double GuideBeliefs::scatter() const {
  return mean([](const GuideModel& m) { return m.scatter(); });
}
double GuideBeliefs::face_off() const {
  return mean([](const GuideModel& m) { return m.face_off(); });
}
double GuideBeliefs::grams_per_mm(double at) const {
  return mean([&](const GuideModel& m) { return m.grams_per_mm(at); });
}
double GuideBeliefs::grams_between(double from, double to) const {
  return mean([&](const GuideModel& m) { return m.grams_between(from, to); });
}
double GuideBeliefs::place_of(double grams) const {
  return mean([&](const GuideModel& m) { return m.place_of(grams); });
}
double GuideBeliefs::end_of(double from, double thickness) const {
  return mean([&](const GuideModel& m) { return m.end_of(from, thickness); });
}
double GuideBeliefs::deviation(double at) const {
  return mean([&](const GuideModel& m) { return m.deviation(at); });
}

double GuideBeliefs::spread_of_next(double from, double thickness) const {
  return spread(from, thickness, 1.0);
}

// What the models differ by in the next block, they differ by in the face as well: it goes by the share that the
// face tells of it, as if all of it were linear and normal.
double GuideBeliefs::spread_if_measured(double at, double from, double thickness) const {
  const double middle = deviation(at);
  const double apart =
      mean([&](const GuideModel& m) { return std::pow(m.deviation(at) - middle, 2); });
  const double own = mean([&](const GuideModel& m) { return m.face_variance(at); });
  GuideBeliefs measured = *this;
  for (Belief& belief : measured.beliefs_) {
    belief.model.observe_face(at, std::exp(belief.model.deviation(at)));
  }
  return measured.spread(from, thickness, own / (own + apart));
}

// `differing`: the share that counts of what the models differ by.
double GuideBeliefs::spread(double from, double thickness, double differing) const {
  const double middle = grams_between(from, end_of(from, thickness));
  return std::sqrt(mean([&](const GuideModel& m) {
    const double own = m.grams_between(from, m.end_of(from, thickness));
    return std::pow(m.spread_of_next(from, thickness), 2) +
           differing * std::pow(std::log(own / middle), 2);
  }));
}

}  // namespace tallyblock
