#include "guide_model.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/base/power.h"

namespace tallyblock {
namespace {

constexpr int kPanels = 8;             // integration steps over a block
constexpr double kTotalNoise = 2e-3;   // the total weight as an observation, log
constexpr double kRulerNoise = 1e-4;   // keeps the covariance well conditioned
constexpr double kNoCut = 0.5;         // mm
constexpr double kClip = 2.5;          // innovations count up to so many standard deviations
constexpr double kMostSurprise = 4.0;  // and so many for the spread that is stated
constexpr double kMostHabit =
    0.35;                          // nobody cuts 40 % thicker or thinner than asked, cut after cut
constexpr double kRounded = 1.5;   // how gently it begins to fall off: 1 a kink, 2 a parabola
constexpr double kKeepsSd = 0.15;  // how far off the share may be up to which it keeps its size
constexpr double kLeastCutScatter = 0.005, kMostCutScatter = 0.15;
constexpr double kPatience = 1.1;  // the stated spread is believed like so many innovations

}  // namespace

GuideModel::GuideModel(const Shape& shape, const CookPrior& cook, const ShapePrior& prior,
                       const GuideCase& what)
    : shape_(shape), cook_(cook), prior_(prior), case_(what) {
  const double length = shape.length().in_millimetres();
  spacing_ = length / (knots - 1);
  covariance_.assign(size * size, 0.0);
  const double reach = prior.correlation.in_millimetres();
  for (std::size_t i = 0; i < knots; ++i) {
    for (std::size_t j = 0; j < knots; ++j) {
      const double apart = (static_cast<double>(i) - static_cast<double>(j)) * spacing_ / reach;
      covariance_[i * size + j] =
          squared(what.rough * prior.area_sd) * std::exp(-0.5 * squared(apart)) +
          squared(what.rough * prior.bulge_sd) *
              std::exp(-0.5 * squared(apart * reach / prior.bulge.in_millimetres())) +
          (i == j ? squared(kRulerNoise) : 0.0);
    }
  }
  allow_for_taper();
  mean_[habit_at] = std::clamp(cook.habit, -kMostHabit, kMostHabit);
  forget(habit_at, squared(cook.habit_sd));
  forget(slope_at, squared(what.slope_sd));
  squares_ = squared(cook.scatter) * cook.scatter_weight;
  counted_ = cook.scatter_weight;
  surprise_ = surprised_ = kPatience;
  for (const Station& station : shape.stations()) {
    const Row row = row_at(station.at.in_millimetres());
    update(row, -deviation(station.at.in_millimetres()), squared(prior.station_sd));
  }
  // The whole weight is known: the deviations average to nothing, weighted by the area.
  Row row(size, 0.0);
  double sum = 0.0;
  for (std::size_t i = 0; i < knots; ++i) {
    const double edge = i == 0 || i + 1 == knots ? 0.5 : 1.0;
    row[i] = edge * shape.grams_per_mm(Length::millimetres(static_cast<double>(i) * spacing_));
    sum += row[i];
  }
  for (double& weight : row) weight /= sum;
  update(row, 0.0, squared(kTotalNoise));
  rescale();
}

GuideModel::Between GuideModel::between(double at) const {
  const double place = std::clamp(at / spacing_, 0.0, static_cast<double>(knots - 1));
  const auto left = std::min(static_cast<std::size_t>(place), knots - 2);
  return {left, place - static_cast<double>(left)};
}

GuideModel::Row GuideModel::row_at(double at) const {
  Row row(size, 0.0);
  const Between place = between(at);
  row[place.left] = 1.0 - place.share;
  row[place.left + 1] = place.share;
  return row;
}

double GuideModel::end_of(double from, double thickness) const {
  const double end = shape_.length().in_millimetres();
  if (thickness >= end - from - kNoCut) return end;  // what is left is not cut
  return std::clamp(from + thickness * std::exp(habit()) - face_off(), std::min(from + 1e-3, end),
                    end);
}

double GuideModel::deviation(double at) const {
  const Between place = between(at);
  return mean_[place.left] * (1.0 - place.share) + mean_[place.left + 1] * place.share;
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

// Between two faces that differ a piece may keep its size for long and fall off late, or early.
void GuideModel::allow_for_taper() {
  const std::vector<Station>& faces = shape_.stations();
  for (std::size_t f = 0; f + 1 < faces.size(); ++f) {
    const Length from = faces[f].at, to = faces[f + 1].at;
    const double first = shape_.face_area_mm2(from), last = shape_.face_area_mm2(to);
    const double ratio = std::log(std::min(first, last) / std::max(first, last));
    const double apart = (to - from) / prior_.bulge;
    const double sd =
        case_.taper * -ratio * 1.5 * apart / (1.0 + apart);  // less in a short stretch
    // Log area beyond that of the stations where it keeps the larger size up to the share `keeps`.
    const auto beyond = [&](double share, double keeps) {
      const double along = power_of(std::max(0.0, (share - keeps) / (1.0 - keeps)), kRounded);
      const double evenly = std::log(1.0 + (std::exp(ratio / 2.0) - 1.0) * share);
      return 2.0 * (std::log(1.0 + (std::exp(ratio / 2.0) - 1.0) * along) - evenly);
    };
    double wave[3][knots] = {};
    for (std::size_t i = 0; i < knots; ++i) {
      const double at = static_cast<double>(i) * spacing_;
      const double share = (at - from.in_millimetres()) / (to - from).in_millimetres();
      if (share <= 0.0 || share >= 1.0) continue;
      wave[0][i] = sd * std::sin(std::numbers::pi * share);
      wave[1][i] = sd * std::sin(2.0 * std::numbers::pi * share) / 2.0;
      if (!(case_.keeps > 0.0)) continue;
      const double off = first > last ? share : 1.0 - share;
      mean_[i] += beyond(off, case_.keeps);
      wave[2][i] =
          (beyond(off, case_.keeps + kKeepsSd) - beyond(off, case_.keeps - kKeepsSd)) / 2.0;
    }
    for (const auto& one : wave) {
      for (std::size_t i = 0; i < knots; ++i) {
        for (std::size_t j = 0; j < knots; ++j) covariance_[i * size + j] += one[i] * one[j];
      }
    }
  }
}

GuideModel::BlockRow GuideModel::block_row(double from, double thickness) const {
  BlockRow block{Row(size, 0.0)};
  Row& row = block.row;
  const double to = end_of(from, thickness);
  const double h = (to - from) / kPanels;
  double sum = 0.0;
  for (int i = 0; i < kPanels; ++i) {
    const double at = from + (i + 0.5) * h;
    const double grams = grams_per_mm(at) * h;
    const Between place = between(at);
    row[place.left] += grams * (1.0 - place.share);
    row[place.left + 1] += grams * place.share;
    sum += grams;
  }
  for (double& weight : row) weight /= sum;
  row[face_at] = -grams_per_mm(from) / sum;
  if (to >= shape_.length().in_millimetres()) return block;  // the last block takes no cut
  const double far = grams_per_mm(to) / sum;                 // log weight per mm of the far face
  block.gain = far * thickness * std::exp(habit());
  row[habit_at] = block.gain;
  row[next_at] = far;
  block.next_face = squared(case_.leaning * knife_mm());
  return block;
}

// With what the face that is made may stand off.
double GuideModel::variance(const BlockRow& block) const {
  const Row& row = block.row;
  double sum = squared(row[next_at]) * block.next_face;
  for (std::size_t i = 0; i < size; ++i) {
    if (row[i] == 0.0) continue;
    for (std::size_t j = 0; j < size; ++j) sum += row[i] * covariance_[i * size + j] * row[j];
  }
  return sum;
}

void GuideModel::update(const Row& row, double innovation, double noise) {
  double gain[size] = {};
  double total = noise;
  for (std::size_t i = 0; i < size; ++i) {
    for (std::size_t j = 0; j < size; ++j) gain[i] += covariance_[i * size + j] * row[j];
    total += row[i] * gain[i];
  }
  for (std::size_t i = 0; i < size; ++i) mean_[i] += gain[i] * innovation / total;
  for (std::size_t i = 0; i < size; ++i) {
    for (std::size_t j = 0; j < size; ++j) covariance_[i * size + j] -= gain[i] * gain[j] / total;
  }
  mean_[habit_at] = std::clamp(mean_[habit_at], -kMostHabit, kMostHabit);
}

// Nothing is known of that part of the state but a variance.
void GuideModel::forget(std::size_t index, double variance) {
  for (std::size_t i = 0; i < size; ++i) {
    covariance_[index * size + i] = covariance_[i * size + index] = 0.0;
  }
  covariance_[index * size + index] = variance;
}

// The face that was made is the last one now, and the habit may have wandered.
void GuideModel::turn_face() {
  const double own = covariance_[next_at * size + next_at];
  forget(face_at, 0.0);
  for (std::size_t i = 0; i < size; ++i) {
    covariance_[face_at * size + i] = covariance_[i * size + face_at] =
        covariance_[next_at * size + i];
  }
  covariance_[face_at * size + face_at] = own;
  mean_[face_at] = mean_[next_at];
  mean_[next_at] = 0.0;
  forget(next_at, 0.0);
  mean_[habit_at] += mean_[slope_at];
  for (std::size_t i = 0; i < size; ++i) {
    covariance_[habit_at * size + i] += covariance_[slope_at * size + i];
  }
  for (std::size_t i = 0; i < size; ++i) {
    covariance_[i * size + habit_at] += covariance_[i * size + slope_at];
  }
  covariance_[habit_at * size + habit_at] += squared(case_.wander);
}

double GuideModel::scatter() const {
  return std::clamp(std::sqrt(squares_ / counted_), kLeastCutScatter, kMostCutScatter);
}

double GuideModel::habit_sd() const {
  return std::sqrt(std::max(0.0, covariance_[habit_at * size + habit_at]));
}

double GuideModel::observe_block(double from, double thickness, double grams, double division) {
  const BlockRow block = block_row(from, thickness);
  const double expected = grams_between(from, end_of(from, thickness));
  const double reading = division / (grams * std::sqrt(6.0));
  const double share_of_cut = block.gain * kUsualBlock.in_millimetres() / thickness;
  const double knife = scatter() * share_of_cut;
  const double known = variance(block) + squared(reading);
  const double own = known + squared(knife);
  double innovation = std::log(grams / expected);
  const double likelihood =
      -0.5 * std::min(squared(innovation) / own, squared(kClip)) - 0.5 * std::log(own);
  surprise_ += std::min(squared(innovation) / own, squared(kMostSurprise));
  surprised_ += 1.0;
  const double clip = kClip * std::sqrt(own);
  innovation = std::clamp(innovation, -clip, clip);
  // What the shape and the habit do not explain is the knife's; shrunk to the prior.
  const double share = squared(knife) / own;
  if (block.gain > 0.0) {
    squares_ +=
        (squared(share * innovation) + (1.0 - share) * squared(knife)) / squared(share_of_cut);
    counted_ += 1.0;
  }
  forget(next_at, block.next_face);
  update(block.row, innovation, squared(knife) + squared(reading));
  turn_face();
  rescale();
  return likelihood;
}

void GuideModel::pass_block() {
  forget(next_at, squared((1.0 + case_.leaning) * knife_mm()));
  turn_face();
}

void GuideModel::forget_face() {
  mean_[face_at] = 0.0;
  forget(face_at, 0.0);
}

double GuideModel::face_variance(double at) const {
  const Row row = row_at(at);
  double sum = squared(prior_.station_sd);
  for (std::size_t i = 0; i < knots; ++i) {
    for (std::size_t j = 0; j < knots; ++j) sum += row[i] * covariance_[i * size + j] * row[j];
  }
  return sum;
}

double GuideModel::observe_face(double at, double ratio) {
  const double innovation = std::log(ratio) - deviation(at), own = face_variance(at);
  update(row_at(at), innovation, squared(prior_.station_sd));
  rescale();
  return -0.5 * std::min(squared(innovation) / own, squared(kClip)) - 0.5 * std::log(own);
}

double GuideModel::spread_of_next(double from, double thickness) const {
  const BlockRow block = block_row(from, thickness);
  const double knife = knife_mm() / thickness * block.gain;
  return std::sqrt((variance(block) + squared(knife)) * surprise_ / surprised_);
}

}  // namespace tallyblock
