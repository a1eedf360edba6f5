// Entries that state no division: the session's setting, else the default, gives their uncertainty.
#include <gtest/gtest.h>

#include <cmath>

#include "core/report/report.h"
#include "session_builder.h"

namespace tallyblock {
namespace {

using testing::doubts_of;
using testing::pile_of;
using testing::SessionBuilder;
using testing::step_of;

constexpr double kOunce = 28.349523125;

// Standard uncertainty of n independent readings of division d: JCGM 100:2008, F.2.2.1.
double of_readings(double d, double n) { return d * std::sqrt(n / 12.0); }

SessionBuilder four_grams_over() {
  SessionBuilder s;
  s.unstated_division();
  s.whole("1000 g");
  s.pile("portions", Role::primary);
  s.read("portions", "1004 g");
  return s;
}

TEST(Division, AnEntryWithoutOneTakesTheSettingOfTheSession) {
  SessionBuilder s = four_grams_over();
  s.setting("division", "5 g");
  const Figures f = s.figures();
  EXPECT_NEAR(f.incoming.invoice->uncertainty().in_grams(), 1.443376, 1e-6);
  EXPECT_NEAR(f.loss->uncertainty().in_grams(), 2.041241, 1e-6);
  EXPECT_TRUE(f.doubts.empty());
  EXPECT_NE(report_json(f).find("\"division_from\":\"setting\""), std::string::npos);
}

TEST(Division, WithoutASettingItIsOneGramAndTheReportSaysSo) {
  const Figures f = four_grams_over().figures();
  EXPECT_NEAR(f.loss->uncertainty().in_grams(), of_readings(1.0, 2.0), 1e-12);
  EXPECT_EQ(doubts_of(f, Code::doubt_loss_negative).size(), 1u);
  EXPECT_NE(report_json(f).find("\"division_from\":\"default\""), std::string::npos);
}

TEST(Division, WithoutASettingItIsAnEighthOfAnOunceWhereTheSessionIsInOunces) {
  for (const char* unit : {"oz", "lb-oz"}) {
    SessionBuilder s = four_grams_over();
    s.setting("unit", unit);
    const Figures f = s.figures();
    EXPECT_NEAR(f.settings.division.mass.in_grams(), kOunce / 8.0, 1e-12) << unit;
    EXPECT_NEAR(f.loss->uncertainty().in_grams(), of_readings(kOunce / 8.0, 2.0), 1e-9) << unit;
  }
  SessionBuilder s = four_grams_over();
  s.setting("unit", "oz");
  s.setting("division", "2 g");
  EXPECT_NEAR(s.figures().loss->uncertainty().in_grams(), of_readings(2.0, 2.0), 1e-12);
}

TEST(Division, OneThatIsStatedStandsAgainstTheSetting) {
  SessionBuilder s;
  s.setting("division", "5 g");
  s.division("2 g");
  s.whole("1000 g");
  EXPECT_NEAR(s.figures().incoming.invoice->uncertainty().in_grams(), of_readings(2.0, 1.0), 1e-12);
}

TEST(Division, EveryKindOfWeightTakesTheSetting) {
  SessionBuilder s;
  s.setting("division", "6 g");
  s.unstated_division();
  s.whole("5 kg");
  s.pile("portions", Role::primary);
  s.pile("trim", Role::usable_trim);
  s.tub("blue", "200 g");
  s.read("portions", "3 kg");
  s.read("trim", "700 g", "blue");
  s.checkpoint("cleaned", "4.5 kg");
  s.remainder("1 kg");
  s.step("cook", Process::cooking, "portions", "1 kg");
  Figures f = s.figures();
  const double one = of_readings(6.0, 1.0);
  EXPECT_NEAR(step_of(f, "cook")->input->uncertainty().in_grams(), one, 1e-12);
  EXPECT_NEAR(step_of(f, "main")->checkpoints.at("cleaned").uncertainty().in_grams(), one, 1e-12);
  EXPECT_NEAR(step_of(f, "main")->on_board->uncertainty().in_grams(), one, 1e-12);
  EXPECT_NEAR(pile_of(f, "trim")->weighed.uncertainty().in_grams(), of_readings(6.0, 2.0), 1e-12);
  s.transfer("portions", "trim", "100 g");
  f = s.figures();
  EXPECT_NEAR(pile_of(f, "trim")->weighed.uncertainty().in_grams(), of_readings(6.0, 3.0), 1e-12);
}

TEST(Division, ATareWrittenIntoAReadingTakesTheSettingToo) {
  SessionBuilder s;
  s.setting("division", "6 g");
  s.unstated_division();
  s.whole("5 kg");
  s.pile("trim", Role::usable_trim);
  body::Reading reading;
  reading.pile = "trim";
  reading.habit = Habit::piece;
  reading.weight = TypedMass{"700 g", Mass::grams(700.0), WeightStyle::grams};
  reading.tare = TypedMass{"150 g", Mass::grams(150.0), WeightStyle::grams};
  s.add(reading);
  EXPECT_NEAR(pile_of(s.figures(), "trim")->weighed.uncertainty().in_grams(), of_readings(6.0, 2.0),
              1e-12);
}

}  // namespace
}  // namespace tallyblock
