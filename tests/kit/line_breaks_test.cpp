// Texts broken into lines, in letters of one width.
#include "web/kit/line_breaks.h"

#include <gtest/gtest.h>

#include <limits>
#include <string>

namespace tallyblock::test {
namespace {

using Lines = std::vector<std::string_view>;

Lines lines_of(std::string_view text, float width) {
  Lines lines;
  break_lines(
      text, width, [](std::string_view part) { return static_cast<float>(part.size()); }, lines);
  return lines;
}

TEST(LineBreaks, ABlankFirstIsNoLineAndNoEnd) {
  EXPECT_EQ(lines_of(" Loin", 10), Lines{"Loin"});
  EXPECT_EQ(lines_of("  Loin end", 4), (Lines{"Loin", "end"}));
}

TEST(LineBreaks, OnlyBlanksAreNoLine) {
  EXPECT_EQ(lines_of(" ", 10), Lines{});
  EXPECT_EQ(lines_of("   \n ", 0), Lines{});
  EXPECT_EQ(lines_of("", 10), Lines{});
}

TEST(LineBreaks, FallBetweenWordsAndBlanksAroundThemAreNotDrawn) {
  EXPECT_EQ(lines_of("trim for stock", 8), (Lines{"trim for", "stock"}));
  EXPECT_EQ(lines_of("trim   for   stock  ", 6), (Lines{"trim", "for", "stock"}));
}

TEST(LineBreaks, ALineEndEndsTheLine) {
  EXPECT_EQ(lines_of("one\ntwo three", 20), (Lines{"one", "two three"}));
}

TEST(LineBreaks, AWordTooWideIsBrokenInsideAFigureIsNot) {
  EXPECT_EQ(lines_of("tenderloin", 4), (Lines{"tend", "erlo", "in"}));
  EXPECT_EQ(lines_of("1,234.56", 4), Lines{"1,234.56"});
  EXPECT_EQ(lines_of(std::string(50, '8'), 20).size(), 3U);  // longer than any figure
}

TEST(LineBreaks, AFigureGoesAlongWithItsUnit) {
  EXPECT_EQ(lines_of("from 79.1 % to 83.3 %. If", 20), (Lines{"from 79.1 % to", "83.3 %. If"}));
  EXPECT_EQ(lines_of("weigh 12 g", 8), (Lines{"weigh", "12 g"}));
  EXPECT_EQ(lines_of("83.3 %", 4), (Lines{"83.3", "%"}));  // there is nothing before it
  EXPECT_EQ(lines_of("piece 12 34", 8), (Lines{"piece 12", "34"}));
}

TEST(LineBreaks, AnyWidthGivesAnEnd) {
  EXPECT_EQ(lines_of("abc de", 0), (Lines{"a", "b", "c", "d", "e"}));
  EXPECT_EQ(lines_of("abc de", -5), (Lines{"a", "b", "c", "d", "e"}));
  EXPECT_EQ(lines_of("abc de", std::numeric_limits<float>::quiet_NaN()), Lines{"abc de"});
  EXPECT_EQ(lines_of("abc de", std::numeric_limits<float>::infinity()), Lines{"abc de"});
}

TEST(LineBreaks, BytesOfOneCharacterStayTogetherAndInvalidOnesAreTakenToo) {
  EXPECT_EQ(lines_of("\u8089\u8089", 1), (Lines{"\u8089", "\u8089"}));
  EXPECT_EQ(lines_of("\x80\xff\xc3", 1), (Lines{"\x80", "\xff", "\xc3"}));
}

}  // namespace
}  // namespace tallyblock::test
