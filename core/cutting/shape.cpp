#include "shape.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace tallyblock {
namespace {

// Coefficients of the face area (cubic in the distance from the segment's start) and its integral.
std::array<double, 4> area_polynomial(const Station& a, const Station& b) {
  const double h = (b.at - a.at).in_millimetres();
  const double w0 = a.width.in_millimetres();
  const double d0 = a.depth.in_millimetres();
  const double w1 = (b.width - a.width).in_millimetres() / h;
  const double d1 = (b.depth - a.depth).in_millimetres() / h;
  const double f1 = (b.fill - a.fill) / h;
  const double q0 = w0 * d0;
  const double q1 = w0 * d1 + w1 * d0;
  const double q2 = w1 * d1;
  return {a.fill * q0, a.fill * q1 + f1 * q0, a.fill * q2 + f1 * q1, f1 * q2};
}

double integral_to(const std::array<double, 4>& c, double s) {
  return s * (c[0] + s * (c[1] / 2.0 + s * (c[2] / 3.0 + s * c[3] / 4.0)));
}

double value_at(const std::array<double, 4>& c, double s) {
  return c[0] + s * (c[1] + s * (c[2] + s * c[3]));
}

// Its number, from 1.
Arg ordinal(std::size_t index) { return Arg::number(static_cast<double>(index + 1)); }

std::optional<Problem> trouble_with(const std::vector<Station>& stations) {
  if (stations.size() < 2) return Problem{Code::plan_few_stations, "stations", {}};
  if (stations.front().at.in_millimetres() != 0.0) {
    return Problem{Code::plan_first_station, "station", {}};
  }
  for (std::size_t i = 0; i < stations.size(); ++i) {
    const Station& s = stations[i];
    const bool sized = s.width.in_millimetres() > 0.0 && s.depth.in_millimetres() > 0.0 &&
                       std::isfinite(s.width.in_millimetres() * s.depth.in_millimetres());
    if (!sized) return Problem{Code::plan_station_zero, "station", {ordinal(i)}};
    const bool filled = s.fill >= 0.5 && s.fill <= 1.0;
    if (!filled) return Problem{Code::plan_station_fill, "station", {ordinal(i)}};
    if (i > 0 && !(s.at > stations[i - 1].at)) {
      return Problem{Code::plan_stations_cross, "station", {ordinal(i), ordinal(i - 1)}};
    }
    if (!(s.at.in_millimetres() <= 3'000.0))
      return Problem{Code::plan_too_long, "station", {ordinal(i)}};
  }
  return std::nullopt;
}

}  // namespace

Result<Shape> Shape::from(std::vector<Station> stations, std::optional<Mass> mass,
                          double density_g_per_cm3) {
  if (auto problem = trouble_with(stations)) return *problem;
  if (mass && !(mass->in_grams() > 0.0)) return Problem{Code::plan_no_weight, "piece-weight", {}};
  Shape shape;
  shape.stations_ = std::move(stations);
  double volume = 0.0;
  shape.volume_to_.push_back(0.0);
  for (std::size_t i = 0; i + 1 < shape.stations_.size(); ++i) {
    const auto c = area_polynomial(shape.stations_[i], shape.stations_[i + 1]);
    const double h = (shape.stations_[i + 1].at - shape.stations_[i].at).in_millimetres();
    volume += integral_to(c, h);
    shape.area_.push_back(c);
    shape.volume_to_.push_back(volume);
  }
  shape.estimated_ = !mass.has_value();
  shape.mass_ = mass.value_or(Mass::grams(volume * density_g_per_cm3 / 1000.0));
  shape.grams_per_mm3_ = shape.mass_.in_grams() / volume;
  return shape;
}

Length Shape::length() const { return stations_.back().at; }

Shape::Place Shape::place(Length x) const {
  const double at = std::clamp(x.in_millimetres(), 0.0, length().in_millimetres());
  std::size_t i = 0;
  while (i + 1 < area_.size() && stations_[i + 1].at.in_millimetres() <= at) ++i;
  const double s = at - stations_[i].at.in_millimetres();
  const double h = (stations_[i + 1].at - stations_[i].at).in_millimetres();
  return {i, s, s / h};
}

double Shape::face_area_mm2(Length x) const {
  const Place p = place(x);
  return value_at(area_[p.segment], p.offset);
}

Length Shape::width(Length x) const {
  const Place p = place(x);
  return stations_[p.segment].width * (1.0 - p.share) + stations_[p.segment + 1].width * p.share;
}

Length Shape::depth(Length x) const {
  const Place p = place(x);
  return stations_[p.segment].depth * (1.0 - p.share) + stations_[p.segment + 1].depth * p.share;
}

double Shape::fill(Length x) const {
  const Place p = place(x);
  return stations_[p.segment].fill * (1.0 - p.share) + stations_[p.segment + 1].fill * p.share;
}

Mass Shape::mass_to(Length x) const {
  const Place p = place(x);
  return Mass::grams((volume_to_[p.segment] + integral_to(area_[p.segment], p.offset)) *
                     grams_per_mm3_);
}

double Shape::grams_per_mm(Length x) const { return face_area_mm2(x) * grams_per_mm3_; }

// The area is positive, so the volume rises strictly: Newton steps kept inside a shrinking bracket.
Length Shape::at_mass(Mass m) const {
  const double volume = std::clamp(m.in_grams() / grams_per_mm3_, 0.0, volume_to_.back());
  std::size_t i = 0;
  while (i + 1 < area_.size() && volume_to_[i + 1] <= volume) ++i;
  const double start = stations_[i].at.in_millimetres();
  double low = 0.0;
  double high = (stations_[i + 1].at - stations_[i].at).in_millimetres();
  const double wanted = volume - volume_to_[i];
  double s = high * wanted / (volume_to_[i + 1] - volume_to_[i]);
  for (int step = 0; step < 60 && high - low > 1e-11; ++step) {
    const double error = integral_to(area_[i], s) - wanted;
    (error > 0.0 ? high : low) = s;
    const double next = s - error / value_at(area_[i], s);
    if (std::abs(next - s) < 1e-12) break;
    s = next > low && next < high ? next : (low + high) / 2.0;
  }
  return Length::millimetres(start + s);
}

}  // namespace tallyblock
