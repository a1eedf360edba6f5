// The shape of the piece picture and its cuts: plain geometry, no drawing.
//
// The block lies on the board, seen from above: a rounded end left, a tapering back, a cut corner
// right. It is convex, so every slab is convex. Cuts are parallel and lean a little. Where they lie
// follows from the area up to them, found to better than 1e-6 of the whole.
// Units: any length; y downwards.
#pragma once
#include <span>
#include <vector>

#include "texture.h"

namespace tallyblock {

inline constexpr double cut_lean = 0.22;  // a cut moves right by this per unit upwards

// The outline for a block of this width and height, top left at 0, 0.
std::vector<Point> piece_outline(double width, double height);

double area_of(std::span<const Point> shape);

// The part between two cuts. A cut is named by u = x + cut_lean * y.
std::vector<Point> between_cuts(std::span<const Point> shape, double u0, double u1);

// Where the cut lies that leaves `area` of the shape on its left.
double cut_for_area(std::span<const Point> shape, double area);

// Slabs of these values, in order, out of a shape worth `whole`. Values that are zero, negative or not
// finite give an empty slab at their place. If the values sum to more than the whole, the shape is
// their sum. The last element is the rest of the whole (empty if there is none). `at` becomes the
// place of each cut: at[i] is the left cut of slab i.
std::vector<std::vector<Point>> cut_into_slabs(std::span<const Point> shape,
                                               std::span<const double> values, double whole,
                                               std::vector<double>* at = nullptr);

// Of each of those slabs the part that lies beyond the whole; all empty unless they sum to more. What is
// left of it is exactly as large as the whole.
std::vector<std::vector<Point>> beyond_the_whole(std::span<const Point> shape,
                                                 std::span<const double> values, double whole);

// What counts as an amount that can be drawn.
bool has_area(double value);

}  // namespace tallyblock
