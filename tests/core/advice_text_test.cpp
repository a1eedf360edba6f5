#include "core/cutting/advice_text.h"

#include <gtest/gtest.h>

#include <cmath>

namespace tallyblock {
namespace {

TEST(AdviceText, IsReadBackFromTheTextOfACut) {
  const CutAdvice advice =
      advice_from("k=3; pile=portions;long-piece=left ; thickness=42 mm; new=1");
  EXPECT_EQ(advice.k, 3);
  EXPECT_EQ(advice.pile, "portions");
  EXPECT_EQ(advice.long_piece, "left");
  ASSERT_TRUE(advice.thickness);
  EXPECT_NEAR(advice.thickness->in_millimetres(), 42.0, 1e-9);
  EXPECT_EQ(advice_from("k=9; pile=Two Words; sections").k, 1);
  EXPECT_EQ(advice_from("k=9; pile=Two Words; sections").pile, "");
}

TEST(AdviceText, ReadsBackAsTheRulerShowsIt) {
  const CutAdvice advice{3, "portions", "left", Length::millimetres(41.6), Mass::grams(172.7)};
  const std::string text = advice_text(advice, LengthUnit::millimetre);
  EXPECT_EQ(text, "k=3; pile=portions; long-piece=left; thickness=42 mm; expected=173 g");
  EXPECT_EQ(advice_from(text).k, 3);
  EXPECT_EQ(advice_from(text).pile, "portions");
  EXPECT_EQ(advice_from(text).long_piece, "left");
  EXPECT_EQ(advice_from(text).thickness, Length::millimetres(42));
  const CutAdvice bare{1, "", "", Length::of(1.3, LengthUnit::inch), {}};
  EXPECT_EQ(advice_text(bare, LengthUnit::inch), "k=1; thickness=1 5/16 in");
  EXPECT_EQ(advice_from(advice_text(bare, LengthUnit::inch)).thickness,
            Length::of(1.3125, LengthUnit::inch));
}

TEST(AdviceText, SaysWhichPortionsOfASliceAreForAnotherKind) {
  const CutAdvice advice{.k = 3, .pile = "large", .other = "small", .counted = 2};
  const std::string text = advice_text(advice, LengthUnit::millimetre);
  EXPECT_EQ(text, "k=3; pile=large; counted=2; other=small");
  EXPECT_EQ(advice_from(text).other, "small");
  EXPECT_EQ(advice_from(text).counted, 2);
  EXPECT_EQ(advice_from("k=3; pile=large; counted=0; other=Two Words").other, "");
}

// All that is read back of an advice, but for the thickness.
void expect_same(const CutAdvice& got, const CutAdvice& wanted, const std::string& text) {
  EXPECT_EQ(got.k, wanted.k) << text;
  EXPECT_EQ(got.pile, wanted.pile) << text;
  EXPECT_EQ(got.long_piece, wanted.long_piece) << text;
  EXPECT_EQ(got.other, wanted.other) << text;
  EXPECT_EQ(got.counted, wanted.counted) << text;
  EXPECT_EQ(got.thickness.has_value(), wanted.thickness.has_value()) << text;
}

TEST(AdviceText, EveryAdviceReadsBackInEitherRuler) {
  const std::string longest(40, 'p');
  for (const LengthUnit ruler :
       {LengthUnit::millimetre, LengthUnit::centimetre, LengthUnit::inch}) {
    const Length step =
        ruler == LengthUnit::inch ? Length::of(1.0 / 16, ruler) : Length::millimetres(1);
    for (int i = 1; i <= 400; ++i) {
      CutAdvice advice{1 + i % 4, i % 3 == 0 ? "" : longest};
      if (i % 5 == 0) advice.long_piece = "left-2";
      if (i % 7 == 0) advice.expected = Mass::grams(i);
      if (i % 2 == 0) {
        advice.other = "small";
        advice.counted = 1 + i % 3;
      }
      if (i % 11 != 0) advice.thickness = step * i;
      const std::string text = advice_text(advice, ruler);
      const CutAdvice back = advice_from(text);
      expect_same(back, advice, text);
      if (advice.thickness && back.thickness) {
        EXPECT_NEAR(back.thickness->in_millimetres(), advice.thickness->in_millimetres(), 1e-9)
            << text;
      }
    }
  }
}

TEST(AdviceText, WhatIsForPeopleIsNotReadBack) {
  const CutAdvice advice{.k = 2, .pile = "", .expected = Mass::grams(199.6)};
  const std::string text = advice_text(advice, LengthUnit::millimetre);
  EXPECT_EQ(text, "k=2; expected=200 g");
  EXPECT_FALSE(advice_from(text).expected);
}

TEST(AdviceText, WrongValuesAndOtherFormsArePassedOver) {
  const std::string nul("k\0=2", 4);
  for (const std::string& plan : {std::string(),
                                  std::string(";;; ; "),
                                  std::string("="),
                                  std::string("=2"),
                                  std::string("k"),
                                  std::string("k="),
                                  std::string("k=0"),
                                  std::string("k=5"),
                                  std::string("k=-1"),
                                  std::string("k=2.0"),
                                  std::string("k=12"),
                                  std::string("K=2"),
                                  std::string("k==2"),
                                  std::string("counted=0"),
                                  std::string("counted=4"),
                                  std::string("pile="),
                                  std::string("pile=Trim"),
                                  "pile=" + std::string(41, 'p'),
                                  "other=" + std::string(99999, 'p'),
                                  std::string("long-piece=a b"),
                                  std::string("thickness=0 mm"),
                                  std::string("thickness=42"),
                                  std::string("thickness=-4 mm"),
                                  std::string("thickness=11 m"),
                                  std::string("thickness=?"),
                                  std::string("k 2 pile portions"),
                                  std::string("\xFF\xFE=\xFF"),
                                  nul}) {
    expect_same(advice_from(plan), CutAdvice{}, plan.substr(0, 60));
  }
}

TEST(AdviceText, AWrongPartLeavesTheOthersGood) {
  const CutAdvice advice =
      advice_from("mood=blue;k=3;;pile=Two Words; thickness = 1 1/2 in ;other=b");
  EXPECT_EQ(advice.k, 3);
  EXPECT_EQ(advice.pile, "");
  EXPECT_EQ(advice.other, "b");
  ASSERT_TRUE(advice.thickness);
  EXPECT_NEAR(advice.thickness->in_millimetres(), 38.1, 1e-9);
}

TEST(AdviceText, AThicknessThatIsNoLengthIsNotReadBack) {
  for (const double wrong : {std::nan(""), HUGE_VAL, -HUGE_VAL, 0.2, 1e9}) {
    const CutAdvice advice{.k = 2, .pile = "", .thickness = Length::millimetres(wrong)};
    const CutAdvice back = advice_from(advice_text(advice, LengthUnit::millimetre));
    EXPECT_EQ(back.k, 2) << wrong;
    EXPECT_FALSE(back.thickness) << wrong;
  }
}

}  // namespace
}  // namespace tallyblock
