// What the guide holds possible of the cook and the knife: several models side by side, weighed by how well
// each foretold the blocks so far (Bayesian model averaging). Internal to the guide. Units as in guide_model.h.
//
// Of the piece: it changes evenly between two faces that differ, or keeps its size and falls off late; it
// is as its faces say, or departs from them. Of the cook: a steady hand; faces that lean (what one block
// gains the next one loses); a hand that wanders; one that drifts. What is asked of them is the mean over all, by weight.
#pragma once
#include <vector>

#include "guide_model.h"

namespace tallyblock {

class GuideBeliefs {
 public:
  GuideBeliefs(const Shape& shape, const CookPrior& cook, const ShapePrior& prior);

  void observe_block(double from, double thickness, double grams, double division);
  void pass_block();
  void forget_face();
  void observe_face(double at, double ratio);

  double habit() const;
  double habit_sd() const;
  double scatter() const;
  double face_off() const;
  double grams_per_mm(double at) const;
  double grams_between(double from, double to) const;
  double place_of(double grams) const;
  double end_of(double from, double thickness) const;
  // Log standard deviation of the next block, with what the models differ by.
  double spread_of_next(double from, double thickness) const;
  // The same, if width and depth at `at` were measured first.
  double spread_if_measured(double at, double from, double thickness) const;
  double deviation(double at) const;

 private:
  struct Belief {
    GuideModel model;
    double log_weight;
    double weight;
  };
  void weigh();
  double spread(double from, double thickness, double differing) const;
  double mean(double (GuideModel::*of)() const) const;
  double mean(double (GuideModel::*of)(double) const, double x) const;
  double mean(double (GuideModel::*of)(double, double) const, double x, double y) const;
  std::vector<Belief> beliefs_;
};

}  // namespace tallyblock
