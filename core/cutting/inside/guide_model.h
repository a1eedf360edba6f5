// The model behind the guide: log face area at knots along the piece, the cook's habit, and how far the
// last face stands off. Internal to the guide. Positions mm, masses g, all deviations natural logarithms.
//
// Linear-Gaussian. The faces the shape was made from were measured with an error each (ShapePrior); away
// from them the area may depart, smoothly: a short wave and a long one. The habit wanders from cut to
// cut. A face that leans, or is not cut where it was marked, makes its block heavier and the next one
// lighter by the same: the last face's offset is part of the state. The update is robust: an innovation
// counts as if it were at most 2.5 of its standard deviations; and innovations that are larger or smaller
// than stated widen or narrow what is stated (`surprise_`), each as at most 4.
#pragma once
#include <cstddef>
#include <vector>

#include "core/cutting/guide.h"

namespace tallyblock {

inline double squared(double x) { return x * x; }

// What one model holds of the cook and the piece.
struct GuideCase {
  double leaning = 0.5;   // sd of where a face stands beside its mark, of how far the knife misses
  double wander = 0.01;   // how much the habit changes from one cut to the next
  double slope_sd = 0.0;  // of a steady change of it, a cut
  // Between two faces that differ: the share of the way up to which it keeps the larger size (0: it changes
  // evenly); sd of what the log area in the middle is besides, of the log ratio of the two.
  double keeps = 0.0, taper = 0.12;
  double rough = 1.0;  // how much the area departs away from measured faces, of what the prior says
};

class GuideModel {
 public:
  GuideModel(const Shape& shape, const CookPrior& cook, const ShapePrior& prior,
             const GuideCase& what);

  // A block asked `thickness` thick at `from` weighed `grams`; division of the scale in grams.
  // The log likelihood of that weight.
  double observe_block(double from, double thickness, double grams, double division);
  // A block that was cut, and of which nothing is learned: the habit may have wandered, and how the face
  // stands is not known.
  void pass_block();
  // Another face shows than the last cut made.
  void forget_face();
  // The face at `at` has the area `ratio` times what the stations say. The log likelihood of that.
  double observe_face(double at, double ratio);
  // Variance of what a measured face there would show (log area), the ruler's error within it.
  double face_variance(double at) const;

  double habit() const { return mean_[habit_at]; }
  double habit_sd() const;
  double scatter() const;
  // How far the last face stands beyond where its weight says, mm: to be added to the next thickness.
  double face_off() const { return mean_[face_at]; }
  // Corrected grams per mm, scaled so that the whole piece weighs what it weighs.
  double grams_per_mm(double at) const;
  double grams_between(double from, double to) const;
  // Where the near face stands when `grams` have been cut off.
  double place_of(double grams) const;
  // Where a block ends that was asked `thickness` thick.
  double end_of(double from, double thickness) const;
  // Log standard deviation expected of the weight of the next block.
  double spread_of_next(double from, double thickness) const;
  double deviation(double at) const;  // log area against the stations

 private:
  static constexpr std::size_t knots = 25;
  static constexpr std::size_t habit_at = knots;
  static constexpr std::size_t face_at = knots + 1;
  static constexpr std::size_t next_at = knots + 2;   // the face that the next cut makes
  static constexpr std::size_t slope_at = knots + 3;  // by how much the habit changes a cut
  static constexpr std::size_t size = knots + 4;

  using Row = std::vector<double>;
  // Between which knots a place lies: the left one, and how far from it (0 to 1).
  struct Between {
    std::size_t left = 0;
    double share = 0.0;
  };
  // How the log weight of a block depends on the state, and on the log thickness.
  struct BlockRow {
    Row row;
    double gain = 0.0;       // 0: the piece ends with it
    double next_face = 0.0;  // variance of where the face stands that is made, mm2
  };
  Between between(double at) const;
  Row row_at(double at) const;
  BlockRow block_row(double from, double thickness) const;
  double variance(const BlockRow& block) const;
  double knife_mm() const { return knife_of(scatter()).in_millimetres(); }
  void update(const Row& row, double innovation, double noise);
  void allow_for_taper();
  void forget(std::size_t index, double variance);
  void turn_face();
  void rescale();

  Shape shape_;
  CookPrior cook_;
  ShapePrior prior_;
  GuideCase case_;
  double spacing_ = 1.0;
  double scale_ = 1.0;
  double mean_[size] = {};
  std::vector<double> covariance_;  // row-major, square
  double squares_ = 0.0;            // scatter estimate: weighted squares and their count
  double counted_ = 0.0;
  double surprise_ = 0.0;  // squared innovations over their variance, and their count
  double surprised_ = 0.0;
};

}  // namespace tallyblock
