// Grammar and escapes: RFC 8259. Well-formed UTF-8: Unicode Standard 15.0, table 3-7.
#include "core/json/json_text.h"

#include <gtest/gtest.h>

#include <random>

#include "make.h"

namespace tallyblock::testing {
namespace {

constexpr int kDepth = 8;

std::string again(std::string_view text) {
  const Result<Json> json = parse_json(text, kDepth);
  EXPECT_TRUE(json) << text;
  return json ? canonical_text(*json) : std::string();
}
Problem problem_of(std::string_view text, int depth = kDepth) {
  const Result<Json> json = parse_json(text, depth);
  EXPECT_FALSE(json) << text.substr(0, 80);
  return json ? Problem{} : json.problem();
}

TEST(JsonText, CanonicalKeysStandByByteWithoutSpaces) {
  EXPECT_EQ(
      again("\t{ \"b\" : [ 1 , true ] ,\r\n\"a\":null, \"B\" :{}, \"\":false,\"\xC3\xA4\":0}"),
      "{\"\":false,\"B\":{},\"a\":null,\"b\":[1,true],\"\xC3\xA4\":0}");
}

// RFC 8259, section 7: a solidus may be escaped; U+1D11E as a pair of surrogates.
TEST(JsonText, CanonicalTextHasOnlyTheEscapesThatJsonDemands) {
  EXPECT_EQ(again(R"("\u0041\/\u00e9\uD834\uDD1E\u007f")"), "\"A/\xC3\xA9\xF0\x9D\x84\x9E\x7F\"");
  EXPECT_EQ(again(R"("\u0022\u005C\u0008\u000C\u000A\u000D\u0009")"), R"("\"\\\b\f\n\r\t")");
  EXPECT_EQ(again(R"("\u0000\u001F\u000b")"), R"("\u0000\u001f\u000b")");
}

TEST(JsonText, NumbersStayAsWrittenAndIntegersKeepEveryDigit) {
  for (const char* text : {"0", "-1", "9007199254740993", "9223372036854775807",
                           "-9223372036854775808", "1.50", "-0.0", "1E5", "2e-03", "1e-400"}) {
    EXPECT_EQ(again(text), text);
  }
  EXPECT_EQ(again("-0"), "0");
  EXPECT_EQ(parse_json("-9223372036854775808", 1)->integer, INT64_MIN);
  EXPECT_EQ(parse_json("1e2", 1)->type, Json::Type::number);
}

TEST(JsonText, AnIntegerBeyond64BitsIsANumberWithItsDigits) {
  for (const char* text : {"9223372036854775808", "18446744073709551615", "18446744073709551616",
                           "-9223372036854775809"}) {
    const Result<Json> json = parse_json(text, 1);
    ASSERT_TRUE(json) << text;
    EXPECT_EQ(json->type, Json::Type::number) << text;
    EXPECT_EQ(canonical_text(*json), text);
  }
}

TEST(JsonText, NumbersBeyondADoubleAreRefused) {
  const std::string digits(400, '9');
  for (const std::string& text : {std::string("1e400"), std::string("-1e309"), digits}) {
    EXPECT_EQ(problem_of("[" + text + "]").code, Code::file_field_value) << text;
  }
  EXPECT_EQ(again("1.7976931348623157e308"), "1.7976931348623157e308");
}

TEST(JsonText, WhatTheGrammarDoesNotHaveIsRefused) {
  for (const char* text :
       {"",          " ",           "[1,]",        "{\"a\":1,}", "{\"a\"}", "{a:1}",
        "{1:1}",     "{'a':1}",     "[1 2]",       "{} {}",      "[1",      "\"a",
        "01",        "+1",          ".5",          "1.",         "1e",      "-",
        "0x10",      "NaN",         "Infinity",    "nul",        "True",    "\"\\x41\"",
        "\"\\u12\"", "\"\\ud834\"", "\"\\udd1e\"", "\"a\nb\"",   "// a\n1", "[1]]"}) {
    const Problem problem = problem_of(text);
    EXPECT_EQ(problem.code, Code::file_not_json) << text;
    EXPECT_EQ(text_of(problem.where).substr(0, 5), "byte ") << text;
  }
}

TEST(JsonText, TheSameKeyTwiceIsRefusedHoweverItIsWritten) {
  for (const char* text : {R"({"a":1,"b":2,"a":1})", R"({"a":1,"\u0061":1})", R"({"":1,"":2})",
                           R"([{"x":{"b":1,"c":{},"b":[]}}])"}) {
    EXPECT_EQ(problem_of(text).code, Code::file_field_value) << text;
  }
  EXPECT_EQ(problem_of(R"({"a":1,"a":1})").where, "a");
  EXPECT_EQ(problem_of(R"({"":1,"":2})").where, "object");
  EXPECT_EQ(again(R"([{"a":1},{"a":{"a":2}},{"A":3}])"), R"([{"a":1},{"a":{"a":2}},{"A":3}])");
}

TEST(JsonText, TheOutermostLevelCountsAsOne) {
  EXPECT_TRUE(parse_json("[{}]", 2));
  EXPECT_EQ(problem_of("[{}]", 1), (Problem{Code::file_too_deep, "file", {Arg::number(1)}}));
  EXPECT_TRUE(parse_json("7", 0));
  EXPECT_EQ(problem_of("[]", 0).code, Code::file_too_deep);
  EXPECT_TRUE(parse_json("[[],[],[[]]]", 3)) << "what is closed no longer counts";
}

TEST(JsonText, AMillionLevelsAreRefusedWithoutRecursion) {
  const std::string brackets(1000000, '[');
  EXPECT_EQ(problem_of(brackets, 32).code, Code::file_too_deep);
}

TEST(JsonText, OneValueOverTheLimitIsTooMany) {
  std::string text = "[";
  for (std::size_t i = 2; i < kMaxJsonValues; ++i) text += "0,";
  EXPECT_TRUE(parse_json(text + "0]", 1));
  EXPECT_EQ(problem_of(text + "0,0]", 1),
            (Problem{Code::file_too_many, "file", {Arg::count(500000)}}));
}

TEST(TextProblem, NamesTheFirstByteThatIsNotUtf8) {
  EXPECT_EQ(text_problem("kg \xFF"), (Problem{Code::file_not_text, Place::at_byte(3), {}}));
  EXPECT_EQ(text_problem(std::string_view("ab\0c", 4)),
            (Problem{Code::file_not_text, Place::at_byte(2), {}}));
  EXPECT_EQ(text_problem("\xC3\xA4\xC3"), (Problem{Code::file_not_text, Place::at_byte(2), {}}));
  EXPECT_EQ(problem_of("\"\xC3\x28\"").code, Code::file_not_text);
}

// The first and the last of every length, and what lies just outside.
TEST(TextProblem, EveryWellFormedSequenceIsTextAndItsNeighboursAreNot) {
  for (const char* good :
       {"", "\x01", "\x7F", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF", "\xEE\x80\x80",
        "\xEF\xBF\xBF", "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"}) {
    EXPECT_FALSE(text_problem(good)) << ::testing::PrintToString(good);
  }
  for (const char* bad : {"\x80", "\xBF", "\xC1\xBF", "\xC2\x7F", "\xDF\xC0", "\xE0\x9F\xBF",
                          "\xED\xA0\x80", "\xEF\xBF", "\xF0\x8F\xBF\xBF", "\xF4\x90\x80\x80",
                          "\xF5\x80\x80\x80", "\xF0\x90\x80\xC0"}) {
    EXPECT_TRUE(text_problem(bad)) << ::testing::PrintToString(bad);
  }
}

TEST(Json, MembersAreFoundReplacedAndTakenOutByName) {
  Json object = Json::object();
  for (const char* name : {"m", "z", "a", ""}) object.set(name, Json::string(name));
  object.set("m", Json::number(-3));
  EXPECT_EQ(canonical_text(object), R"({"":"","a":"a","m":-3,"z":"z"})");
  ASSERT_NE(object.member("m"), nullptr);
  EXPECT_EQ(object.member("m")->integer, -3);
  EXPECT_EQ(object.member("b"), nullptr);
  object.remove("a");
  object.remove("not there");
  EXPECT_EQ(canonical_text(object), R"({"":"","m":-3,"z":"z"})");
}

TEST(Json, OnlyAnObjectHasMembers) {
  const Result<Json> list = parse_json(R"([{"a":1}])", kDepth);
  ASSERT_TRUE(list);
  EXPECT_EQ(list->member("a"), nullptr);
  EXPECT_EQ(list->member(""), nullptr);
  EXPECT_EQ(Json::string("a").member("a"), nullptr);
}

Json random_json(std::mt19937& random, int depth) {
  static constexpr const char* kTexts[] = {"",       "a",        "\"", "\\u0041",
                                           "\n\x1F", "\xC3\xA4", "/",  "\x7F"};
  const auto kind = random() % (depth > 0 ? 6 : 4);
  if (kind == 0) return {};
  if (kind == 1) return Json::truth(random() % 2 == 0);
  if (kind == 2) return Json::number(static_cast<std::int64_t>(random()) - 2147483648);
  if (kind == 3) return Json::string(kTexts[random() % 8]);
  Json made = kind == 4 ? Json::array() : Json::object();
  for (auto i = random() % 5; i > 0; --i) {
    Json child = random_json(random, depth - 1);
    if (kind == 5) {
      made.set(kTexts[random() % 8], std::move(child));
    } else {
      made.children.push_back(std::move(child));
    }
  }
  return made;
}

TEST(JsonText, CanonicalTextReadAndWrittenAgainIsTheSame) {
  std::mt19937 random(8);
  for (int i = 0; i < 500; ++i) {
    const std::string text = canonical_text(random_json(random, 4));
    EXPECT_EQ(again(text), text);
  }
  for (const char* name : {"every-kind", "future-minor", "small-lb-oz"}) {
    const std::string golden = file_bytes("tests/golden/" + std::string(name) + ".json");
    ASSERT_FALSE(golden.empty()) << name;
    EXPECT_EQ(again(golden), golden) << name;
  }
}

}  // namespace
}  // namespace tallyblock::testing
