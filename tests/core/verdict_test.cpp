#include "core/cutting/verdict.h"

#include <gtest/gtest.h>

#include <cmath>

#include "plan_make.h"

namespace tallyblock {
namespace {

// 200 +/- 10 g, and 150 +/- 8 g.
const std::vector<PortionSpec> kTwo = {portions(200, 10), portions(150, 8)};

Verdict judged(double grams, std::size_t asked = 0, const std::vector<unsigned>& left = {},
               double grams_per_mm = 5.0) {
  return judge_block(kTwo, asked, Mass::grams(grams), left, grams_per_mm);
}

TEST(Verdict, BothLimitsCountAsWithin) {
  for (const double grams : {190.0, 200.0, 210.0, 190.0 - 5e-10, 210.0 + 5e-10}) {
    const Verdict verdict = judged(grams);
    EXPECT_EQ(verdict.fate, Fate::keep) << grams;
    EXPECT_EQ(verdict.spec, 0U);
    EXPECT_DOUBLE_EQ(verdict.off.in_grams(), grams - 200.0);
    EXPECT_EQ(verdict.trim, Mass());
  }
  EXPECT_EQ(judged(190.0 - 1e-8).fate, Fate::lesser_pile);
  EXPECT_EQ(judged(210.0 + 1e-8).fate, Fate::trim);
}

// 0.4 - 0.3 is a little more than 0.1 in doubles.
TEST(Verdict, TheDustOfASubtractionDoesNotMoveALimit) {
  EXPECT_EQ(judge_block({portions(0.3, 0.1)}, 0, Mass::grams(0.4), {}, 0.0).fate, Fate::keep);
  EXPECT_EQ(judge_block({portions(200, 0)}, 0, Mass::grams(200), {}, 0.0).fate, Fate::keep);
  EXPECT_EQ(judge_block({portions(200, 0)}, 0, Mass::grams(201), {}, 0.0).fate, Fate::trim);
}

TEST(Verdict, AboveTheLimitItIsTrimmedToItsTargetNotToTheLimit) {
  const Verdict verdict = judged(225);
  EXPECT_EQ(verdict.fate, Fate::trim);
  EXPECT_EQ(verdict.spec, 0U);
  EXPECT_EQ(verdict.off, Mass::grams(25));
  EXPECT_EQ(verdict.trim, Mass::grams(25));
  EXPECT_NEAR(verdict.trim_thickness.in_millimetres(), 5.0, 1e-12);
}

TEST(Verdict, TheThicknessToTrimIsNothingWhereTheFaceIsNotKnown) {
  for (const double grams_per_mm : {0.0, -5.0, std::nan("")}) {
    const Verdict verdict = judged(225, 0, {}, grams_per_mm);
    EXPECT_EQ(verdict.trim, Mass::grams(25)) << grams_per_mm;
    EXPECT_EQ(verdict.trim_thickness, Length()) << grams_per_mm;
  }
}

TEST(Verdict, BelowTheLimitItGoesToALesserPile) {
  for (const double grams : {189.0, 20.0, 0.0}) {
    const Verdict verdict = judged(grams);
    EXPECT_EQ(verdict.fate, Fate::lesser_pile) << grams;
    EXPECT_EQ(verdict.spec, 0U);
    EXPECT_EQ(verdict.off, Mass::grams(grams - 200.0));
    EXPECT_EQ(verdict.trim, Mass());
    EXPECT_EQ(verdict.trim_thickness, Length());
  }
}

TEST(Verdict, AWeightThatIsNoNumberTrimsNothing) {
  const Verdict verdict = judged(std::nan(""));
  EXPECT_EQ(verdict.fate, Fate::lesser_pile);
  EXPECT_EQ(verdict.trim, Mass());
}

// Light for the one, right for the other; and the other way round: it is not trimmed then.
TEST(Verdict, ItMayBeOneOfAnotherSpec) {
  const Verdict light = judged(142);
  EXPECT_EQ(light.fate, Fate::other_spec);
  EXPECT_EQ(light.spec, 1U);
  EXPECT_EQ(light.off, Mass::grams(-8));
  const Verdict heavy = judged(204, 1);
  EXPECT_EQ(heavy.fate, Fate::other_spec);
  EXPECT_EQ(heavy.spec, 0U);
  EXPECT_EQ(heavy.off, Mass::grams(4));
  EXPECT_EQ(heavy.trim, Mass());
}

TEST(Verdict, AnotherSpecTakesItOnlyWhileItIsWanted) {
  EXPECT_EQ(judged(152, 0, {3, 0}).fate, Fate::lesser_pile);
  EXPECT_EQ(judged(204, 1, {0, 3}).fate, Fate::trim);
  EXPECT_EQ(judged(204, 1, {0, 3}).trim, Mass::grams(54));
  EXPECT_EQ(judged(152, 0, {0, 1}).fate, Fate::other_spec);
  EXPECT_EQ(judged(200, 0, {0, 0}).fate, Fate::keep) << "it was asked for";
}

// 195 g is within both; the target of the other is nearer.
TEST(Verdict, TheSpecThatWasAskedComesFirst) {
  const std::vector<PortionSpec> near = {portions(195, 10), portions(200, 10)};
  const Verdict verdict = judge_block(near, 1, Mass::grams(195), {5, 0}, 5.0);
  EXPECT_EQ(verdict.fate, Fate::keep);
  EXPECT_EQ(verdict.spec, 1U);
  EXPECT_EQ(verdict.off, Mass::grams(-5));
}

}  // namespace
}  // namespace tallyblock
