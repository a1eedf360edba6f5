#include "core/cutting/shape.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

namespace tallyblock {
namespace {

Station at(double x, double width, double depth, double fill = 1.0) {
  return {Length::millimetres(x), Length::millimetres(width), Length::millimetres(depth), fill};
}

Shape shape_of(std::vector<Station> stations, double grams) {
  return *Shape::from(std::move(stations), Mass::grams(grams));
}

double grams_to(const Shape& shape, double x) {
  return shape.mass_to(Length::millimetres(x)).in_grams();
}

// Solid geometry, textbook formulas.
TEST(Shape, CylinderWeighsInProportionToItsLength) {
  const Shape shape =
      shape_of({at(0, 80, 80, std::numbers::pi / 4), at(400, 80, 80, std::numbers::pi / 4)}, 2000);
  EXPECT_NEAR(grams_to(shape, 100), 500.0, 1e-9);
  EXPECT_NEAR(shape.at_mass(Mass::grams(1250)).in_millimetres(), 250.0, 1e-9);
}

// Frustum of a cone, radii R and r: V = pi h (R^2 + R r + r^2) / 3.
TEST(Shape, FrustumOfAConeHasItsTextbookVolume) {
  const double pi = std::numbers::pi;
  const auto shape =
      Shape::from({at(0, 100, 100, pi / 4), at(300, 60, 60, pi / 4)}, std::nullopt, 1.0);
  ASSERT_TRUE(shape.ok());
  EXPECT_TRUE(shape->estimated());
  const double volume_mm3 = pi * 300.0 * (50.0 * 50 + 50.0 * 30 + 30.0 * 30) / 3.0;
  EXPECT_NEAR(shape->mass().in_grams(), volume_mm3 / 1000.0, 1e-9);
}

// Wedge: depth runs out linearly, so the first half of the length holds three quarters of the weight.
TEST(Shape, WedgeHoldsThreeQuartersInItsThickHalf) {
  const Shape shape = shape_of({at(0, 100, 60), at(200, 100, 1e-9)}, 1000);
  EXPECT_NEAR(grams_to(shape, 100), 750.0, 1e-6);
}

// Loin eye areas of published size classes (77.4 to 103.2 cm2) at 1,066.4 kg/m3, the density that the
// USDA SR28 composition of lean strip loin gives near 1 C (component equations): g per mm of thickness.
TEST(Shape, GramsPerMillimetreFollowFromFaceAreaAndDensity) {
  const double areas[] = {77.4, 83.9, 90.3, 96.8, 103.2};
  const double grams[] = {8.25, 8.95, 9.63, 10.32, 11.01};
  for (int i = 0; i < 5; ++i) {
    const double side = std::sqrt(areas[i] * 100.0);
    const auto shape = Shape::from({at(0, side, side), at(100, side, side)}, std::nullopt, 1.0664);
    EXPECT_NEAR(shape->grams_per_mm(Length::millimetres(50)), areas[i] * 0.10664, 1e-9);
    EXPECT_NEAR(shape->grams_per_mm(Length::millimetres(50)), grams[i], 0.0051);
  }
}

TEST(Shape, InverseFindsThePlaceOfEveryWeight) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> side(20.0, 200.0), fill(0.5, 1.0), gap(5.0, 200.0);
  for (int round = 0; round < 200; ++round) {
    std::vector<Station> stations;
    double x = 0.0;
    for (int i = 0; i < 2 + round % 4; ++i, x += gap(random)) {
      stations.push_back(at(x, side(random), side(random), fill(random)));
    }
    const Shape shape = shape_of(stations, 3000);
    EXPECT_NEAR(grams_to(shape, shape.length().in_millimetres()), 3000.0, 1e-8);
    for (int i = 0; i <= 20; ++i) {
      const Length place = shape.length() * (i / 20.0);
      EXPECT_NEAR(shape.at_mass(shape.mass_to(place)).in_millimetres(), place.in_millimetres(),
                  1e-8);
    }
  }
}

TEST(Shape, AConstantFillCancelsWhenTheWeightIsKnown) {
  const Shape box = shape_of({at(0, 90, 50), at(150, 120, 70), at(310, 60, 40)}, 2400);
  const Shape oval =
      shape_of({at(0, 90, 50, 0.8), at(150, 120, 70, 0.8), at(310, 60, 40, 0.8)}, 2400);
  for (int x = 0; x <= 310; x += 31) EXPECT_NEAR(grams_to(box, x), grams_to(oval, x), 1e-9);
}

TEST(Shape, InchesAndMillimetresGiveTheSameCurve) {
  const auto in = [](double v) { return Length::of(v, LengthUnit::inch); };
  const Shape inches =
      *Shape::from({{in(0), in(4), in(2)}, {in(12), in(3), in(2)}}, Mass::of(5.0, MassUnit::pound));
  const Shape metric = shape_of({at(0, 101.6, 50.8), at(304.8, 76.2, 50.8)}, 2267.96185);
  EXPECT_NEAR(grams_to(inches, 100), grams_to(metric, 100), 1e-9);
}

TEST(Shape, RefusesStationsThatCannotBeAPiece) {
  const Mass m = Mass::grams(1000);
  EXPECT_EQ(Shape::from({at(0, 50, 50)}, m).problem().code, Code::plan_few_stations);
  EXPECT_EQ(Shape::from({at(5, 50, 50), at(90, 50, 50)}, m).problem().code,
            Code::plan_first_station);
  EXPECT_EQ(Shape::from({at(0, 0, 50), at(90, 50, 50)}, m).problem().code, Code::plan_station_zero);
  EXPECT_EQ(Shape::from({at(0, 50, 50), at(90, 50, 50), at(80, 50, 50)}, m).problem().code,
            Code::plan_stations_cross);
  EXPECT_EQ(Shape::from({at(0, 50, 50, 0.2), at(90, 50, 50)}, m).problem().code,
            Code::plan_station_fill);
  EXPECT_EQ(Shape::from({at(0, 50, 50), at(90, 50, 50)}, Mass()).problem().code,
            Code::plan_no_weight);
  EXPECT_EQ(Shape::from({at(0, 50, 50), at(20000, 50, 50)}, m).problem().code, Code::plan_too_long);
}

}  // namespace
}  // namespace tallyblock
