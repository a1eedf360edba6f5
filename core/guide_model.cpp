#include "guide_model.h"

#include <algorithm>
#include <cmath>

namespace tallyblock {
namespace {

constexpr std::size_t kKnots = 25;
constexpr int kPanels = 8;            // integration steps over a block
constexpr double kTotalNoise = 1e-3;  // the total weight as an observation, log
constexpr double kRulerNoise = 1e-4;  // keeps the covariance well conditioned

}  // namespace

GuideModel::GuideModel(const Shape& shape, const CookPrior& cook, const ShapePrior& prior)
    : shape_(shape), cook_(cook), size_(kKnots + 1) {
  const double length = shape.length().in_millimetres();
  spacing_ = length / (kKnots - 1);
  mean_.assign(size_, 0.0);
  covariance_.assign(size_ * size_, 0.0);
  const double reach = prior.correlation.in_millimetres();
  for (std::size_t i = 0; i < kKnots; ++i) {
    for (std::size_t j = 0; j < kKnots; ++j) {
      const double apart = (static_cast<double>(i) - static_cast<double>(j)) * spacing_ / reach;
      covariance_[i * size_ + j] = prior.area_sd * prior.area_sd * std::exp(-0.5 * apart * apart) +
                                   (i == j ? kRulerNoise * kRulerNoise : 0.0);
    }
  }
  mean_.back() = cook.habit;
  covariance_.back() = cook.habit_sd * cook.habit_sd;
  squares_ = cook.scatter * cook.scatter * cook.scatter_weight;
  counted_ = cook.scatter_weight;
  for (const Station& station : shape.stations()) {
    std::vector<double> row(size_, 0.0);
    const Between knots = between(station.at.in_millimetres());
    row[knots.left] = 1.0 - knots.share;
    row[knots.left + 1] = knots.share;
    update(row, 0.0, prior.station_sd * prior.station_sd);
  }
  // The whole weight is known: the deviations average to nothing, weighted by the area.
  std::vector<double> row(size_, 0.0);
  double sum = 0.0;
  for (std::size_t i = 0; i < kKnots; ++i) {
    const double edge = i == 0 || i + 1 == kKnots ? 0.5 : 1.0;
    row[i] = edge * shape.grams_per_mm(Length::millimetres(static_cast<double>(i) * spacing_));
    sum += row[i];
  }
  for (double& weight : row) weight /= sum;
  update(row, 0.0, kTotalNoise * kTotalNoise);
  rescale();
}

GuideModel::Between GuideModel::between(double at) const {
  const double place = std::clamp(at / spacing_, 0.0, static_cast<double>(kKnots - 1));
  const auto left = std::min(static_cast<std::size_t>(place), kKnots - 2);
  return {left, place - static_cast<double>(left)};
}

double GuideModel::end_of(double from, double thickness) const {
  return std::min(from + thickness * std::exp(habit()), shape_.length().in_millimetres());
}

double GuideModel::deviation(double at) const {
  const Between knots = between(at);
  return mean_[knots.left] * (1.0 - knots.share) + mean_[knots.left + 1] * knots.share;
}

double GuideModel::grams_per_mm(double at) const {
  return scale_ * shape_.grams_per_mm(Length::millimetres(at)) * std::exp(deviation(at));
}

double GuideModel::grams_between(double from, double to) const {
  const int panels = std::max(kPanels, static_cast<int>((to - from) / 4.0));
  const double h = (to - from) / panels;
  double sum = 0.0;
  for (int i = 0; i < panels; ++i) {  // Gauss-Legendre, two points a panel
    const double middle = from + (i + 0.5) * h;
    const double off = h / (2.0 * std::sqrt(3.0));
    sum += grams_per_mm(middle - off) + grams_per_mm(middle + off);
  }
  return sum * h / 2.0;
}

void GuideModel::rescale() {
  scale_ = 1.0;
  scale_ = shape_.mass().in_grams() / grams_between(0.0, shape_.length().in_millimetres());
}

double GuideModel::place_of(double grams) const {
  double low = 0.0;
  double high = shape_.length().in_millimetres();
  if (grams >= shape_.mass().in_grams()) return high;
  double x = shape_.at_mass(Mass::grams(grams)).in_millimetres();
  for (int i = 0; i < 30 && high - low > 1e-6; ++i) {
    const double error = grams_between(0.0, x) - grams;
    (error > 0.0 ? high : low) = x;
    const double next = x - error / grams_per_mm(x);
    if (std::abs(next - x) < 1e-7) break;
    x = next > low && next < high ? next : (low + high) / 2.0;
  }
  return x;
}

// How the log weight of a block depends on the knots under it and on the habit.
GuideModel::Row GuideModel::row_of(double from, double thickness) const {
  Row row;
  row.weights.assign(size_, 0.0);
  const double to = end_of(from, thickness);
  const double h = (to - from) / kPanels;
  double sum = 0.0;
  for (int i = 0; i < kPanels; ++i) {
    const double at = from + (i + 0.5) * h;
    const double grams = grams_per_mm(at) * h;
    const Between knots = between(at);
    row.weights[knots.left] += grams * (1.0 - knots.share);
    row.weights[knots.left + 1] += grams * knots.share;
    sum += grams;
  }
  for (double& weight : row.weights) weight /= sum;
  row.habit_gain = grams_per_mm(to) * (to - from) / sum;
  row.weights.back() = row.habit_gain;
  return row;
}

double GuideModel::variance(const Row& row) const {
  double sum = 0.0;
  for (std::size_t i = 0; i < size_; ++i) {
    for (std::size_t j = 0; j < size_; ++j) {
      sum += row.weights[i] * covariance_[i * size_ + j] * row.weights[j];
    }
  }
  return sum;
}

void GuideModel::update(const std::vector<double>& row, double innovation, double noise) {
  std::vector<double> gain(size_, 0.0);
  double total = noise;
  for (std::size_t i = 0; i < size_; ++i) {
    for (std::size_t j = 0; j < size_; ++j) gain[i] += covariance_[i * size_ + j] * row[j];
    total += row[i] * gain[i];
  }
  for (std::size_t i = 0; i < size_; ++i) mean_[i] += gain[i] * innovation / total;
  for (std::size_t i = 0; i < size_; ++i) {
    for (std::size_t j = 0; j < size_; ++j) {
      covariance_[i * size_ + j] -= gain[i] * gain[j] / total;
    }
  }
}

double GuideModel::scatter() const { return std::sqrt(squares_ / counted_); }

double GuideModel::habit_sd() const { return std::sqrt(std::max(0.0, covariance_.back())); }

void GuideModel::observe_block(double from, double thickness, double grams, double division) {
  const Row row = row_of(from, thickness);
  const double to = end_of(from, thickness);
  const double innovation = std::log(grams / grams_between(from, to));
  const double reading = division / (grams * std::sqrt(6.0));
  const double known = variance(row) + reading * reading;
  const double knife = scatter() * row.habit_gain;
  // What the shape and the habit do not explain is the knife's; shrunk to the prior.
  const double share = knife * knife / (known + knife * knife);
  const double knife_part = share * innovation;
  squares_ +=
      (knife_part * knife_part + (1.0 - share) * knife * knife) / (row.habit_gain * row.habit_gain);
  counted_ += 1.0;
  update(row.weights, innovation, knife * knife + reading * reading);
  rescale();
}

void GuideModel::observe_face(double at, double ratio) {
  std::vector<double> row(size_, 0.0);
  const Between knots = between(at);
  row[knots.left] = 1.0 - knots.share;
  row[knots.left + 1] = knots.share;
  update(row, std::log(ratio) - deviation(at), 0.03 * 0.03);
  rescale();
}

double GuideModel::spread_of_next(double from, double thickness) const {
  const Row row = row_of(from, thickness);
  const double knife = scatter() * row.habit_gain;
  return std::sqrt(variance(row) + knife * knife);
}

}  // namespace tallyblock
