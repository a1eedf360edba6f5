#include "guide_beliefs.h"

#include <algorithm>
#include <cmath>

namespace tallyblock {
namespace {

// Choices of ours, no source.
struct Hand {
  double weight;
  double leaning, wander, slope_sd, rough;
};
constexpr Hand kHands[] = {
    {0.15, 0.5, 0.01, 0.0, 0.4}, {0.10, 0.5, 0.01, 0.0, 1.0},  {0.25, 1.5, 0.01, 0.0, 0.4},
    {0.20, 1.5, 0.01, 0.0, 1.0}, {0.15, 0.5, 0.025, 0.0, 1.0}, {0.15, 0.5, 0.01, 0.01, 1.0},
};
struct Taper {
  double weight;
  double keeps, sd;
};
constexpr Taper kTapers[] = {{0.65, 0.0, 0.06}, {0.35, 0.6, 0.18}};
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
    if (one_shape && taper.keeps > 0.0) continue;
    for (const Hand& hand : kHands) {
      const GuideCase what{hand.leaning, hand.wander, hand.slope_sd,
                           taper.keeps,  taper.sd,    hand.rough};
      beliefs_.push_back(
          {GuideModel(shape, cook, prior, what), std::log(hand.weight * taper.weight), 0.0});
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

// Plain loops over pointers to members: a template for each question would be several times the code.
double GuideBeliefs::mean(double (GuideModel::*of)() const) const {
  double sum = 0.0;
  for (const Belief& belief : beliefs_) sum += belief.weight * (belief.model.*of)();
  return sum;
}
double GuideBeliefs::mean(double (GuideModel::*of)(double) const, double x) const {
  double sum = 0.0;
  for (const Belief& belief : beliefs_) sum += belief.weight * (belief.model.*of)(x);
  return sum;
}
double GuideBeliefs::mean(double (GuideModel::*of)(double, double) const, double x,
                          double y) const {
  double sum = 0.0;
  for (const Belief& belief : beliefs_) sum += belief.weight * (belief.model.*of)(x, y);
  return sum;
}

double GuideBeliefs::habit() const { return mean(&GuideModel::habit); }
double GuideBeliefs::scatter() const { return mean(&GuideModel::scatter); }
double GuideBeliefs::face_off() const { return mean(&GuideModel::face_off); }
double GuideBeliefs::grams_per_mm(double at) const { return mean(&GuideModel::grams_per_mm, at); }
double GuideBeliefs::place_of(double grams) const { return mean(&GuideModel::place_of, grams); }
double GuideBeliefs::deviation(double at) const { return mean(&GuideModel::deviation, at); }
double GuideBeliefs::grams_between(double from, double to) const {
  return mean(&GuideModel::grams_between, from, to);
}
double GuideBeliefs::end_of(double from, double thickness) const {
  return mean(&GuideModel::end_of, from, thickness);
}

double GuideBeliefs::habit_sd() const {
  const double middle = habit();
  double sum = 0.0;
  for (const Belief& belief : beliefs_) {
    const GuideModel& m = belief.model;
    sum += belief.weight * (squared(m.habit_sd()) + squared(m.habit() - middle));
  }
  return std::sqrt(sum);
}

double GuideBeliefs::spread_of_next(double from, double thickness) const {
  return spread(from, thickness, 1.0);
}

// What the models differ by in the next block, they differ by in the face as well: it goes by the share that the
// face tells of it, as if all of it were linear and normal.
double GuideBeliefs::spread_if_measured(double at, double from, double thickness) const {
  const double middle = deviation(at);
  double apart = 0.0;
  GuideBeliefs measured = *this;
  for (Belief& belief : measured.beliefs_) {
    const double own = belief.model.deviation(at);
    apart += belief.weight * squared(own - middle);
    belief.model.observe_face(at, std::exp(own));
  }
  const double known = mean(&GuideModel::face_variance, at);
  return measured.spread(from, thickness, known / (known + apart));
}

// `differing`: the share that counts of what the models differ by.
double GuideBeliefs::spread(double from, double thickness, double differing) const {
  const double middle = grams_between(from, end_of(from, thickness));
  double sum = 0.0;
  for (const Belief& belief : beliefs_) {
    const GuideModel& m = belief.model;
    const double own = std::log(m.grams_between(from, m.end_of(from, thickness)) / middle);
    sum += belief.weight * (squared(m.spread_of_next(from, thickness)) + differing * squared(own));
  }
  return std::sqrt(sum);
}

}  // namespace tallyblock
