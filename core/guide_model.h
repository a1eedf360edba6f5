// The linear-Gaussian model behind the guide: log face area at knots along the piece, and the habit.
// Internal to the guide. Positions mm, masses g, all deviations natural logarithms.
#pragma once
#include <cstddef>
#include <vector>

#include "guide.h"

namespace tallyblock {

class GuideModel {
 public:
  GuideModel(const Shape& shape, const CookPrior& cook, const ShapePrior& prior);

  // A block asked `thickness` thick at `from` weighed `grams`; division of the scale in grams.
  void observe_block(double from, double thickness, double grams, double division);
  // The face at `at` has the area `ratio` times what the stations say.
  void observe_face(double at, double ratio);

  double habit() const { return mean_.back(); }
  double habit_sd() const;
  double scatter() const;
  // Corrected grams per mm, scaled so that the whole piece weighs what it weighs.
  double grams_per_mm(double at) const;
  double grams_between(double from, double to) const;
  // Where the near face stands when `grams` have been cut off.
  double place_of(double grams) const;
  // Log standard deviation expected of the weight of the next block.
  double spread_of_next(double from, double thickness) const;
  double deviation(double at) const;  // log area against the stations

 private:
  struct Row {
    std::vector<double> weights;  // knots, then habit
    double habit_gain = 1.0;
  };
  // Between which knots a place lies: the left one, and how far from it (0 to 1).
  struct Between {
    std::size_t left = 0;
    double share = 0.0;
  };
  Between between(double at) const;
  double end_of(double from, double thickness) const;  // of a block asked so thick, mm
  Row row_of(double from, double thickness) const;
  double variance(const Row& row) const;
  void update(const std::vector<double>& row, double innovation, double noise);
  void rescale();

  Shape shape_;
  CookPrior cook_;
  double spacing_ = 1.0;
  double scale_ = 1.0;
  std::vector<double> mean_;        // knots, then habit
  std::vector<double> covariance_;  // row-major, square
  std::size_t size_ = 0;
  double squares_ = 0.0;  // scatter estimate: weighted squares and their count
  double counted_ = 0.0;
};

}  // namespace tallyblock
