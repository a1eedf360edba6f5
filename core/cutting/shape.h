// The cleaned piece as stations along its length, and the weight up to any place.
//
// Width and depth run linearly between stations, the fill of the face too (1 rectangle, pi/4
// ellipse; constant unless said). The face area is then a polynomial in the position (quadratic for a
// constant fill) and the volume up to x has a closed form. With the weight M known only the shape
// matters: m(x) = M V(x) / V(L); a constant fill and the density cancel. With M unknown a density is
// needed and the result is an estimate (`estimated`).
// Lengths mm, masses g. Errors: Problem (plan_*), naming the station.
// Does not: bent pieces, holes; ends beyond the first and last station.
#pragma once
#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "core/base/problem.h"
#include "core/base/units.h"

namespace tallyblock {

struct Station {
  Length at;          // from the first face, strictly increasing, first one 0
  Length width;       // across, > 0
  Length depth;       // board to top, > 0
  double fill = 1.0;  // face area / (width x depth), 0.5 to 1
};

class Shape {
 public:
  // At least two stations, over at most 3 m. mass absent: density (g/cm3) is used and the result is an estimate.
  static Result<Shape> from(std::vector<Station> stations, std::optional<Mass> mass,
                            double density_g_per_cm3 = 1.06);
  Length length() const;
  Mass mass() const { return mass_; }
  bool estimated() const { return estimated_; }
  double face_area_mm2(Length x) const;
  Length width(Length x) const;
  Length depth(Length x) const;
  double fill(Length x) const;
  Mass mass_to(Length x) const;         // weight from 0 to x, clamped to the piece
  Length at_mass(Mass m) const;         // inverse of mass_to, within 1e-9 mm
  double grams_per_mm(Length x) const;  // dm/dx
  const std::vector<Station>& stations() const { return stations_; }

 private:
  struct Place {
    std::size_t segment;
    double offset;  // mm from the segment's start
    double share;   // of the segment's length
  };
  Shape() = default;
  Place place(Length x) const;

  std::vector<Station> stations_;
  std::vector<std::array<double, 4>> area_;  // per segment, coefficients in mm
  std::vector<double> volume_to_;            // mm3 up to each station
  Mass mass_;
  double grams_per_mm3_ = 0.0;
  bool estimated_ = false;
};

}  // namespace tallyblock
