// Where to split lengthwise for equal long pieces.
//
// An oval face's equal-weight long pieces are not equally wide. A face of fill f between 1/2 and 1 is
// taken as the superellipse |2x/w|^n + |2y/d|^n = 1 of that fill (n = 2: ellipse, f = pi/4; n large:
// rectangle, f = 1), cut by k - 1 planes square to the width. For an ellipse in thirds the middle
// piece is 26.5 % of the width, the outer ones 36.7 %.
#pragma once
#include <optional>
#include <vector>

#include "shape.h"

namespace tallyblock {

// k - 1 positions as fractions of the width (0 to 1), increasing; 1 <= k <= 8.
std::vector<double> split_fractions(double fill, int k);
// Width of the narrowest of the k long pieces as a fraction of the width.
double narrowest_fraction(double fill, int k);

// The exponent n of the superellipse of that fill, clamped to 1/2 (n = 1); 0 for a rectangle.
double superellipse_exponent(double fill);

struct Limits {
  std::optional<Length> thickness_min, thickness_max;
  std::optional<Length> least_min;  // least dimension of a block not below
};

}  // namespace tallyblock
