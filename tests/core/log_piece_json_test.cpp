#include "core/log/log_piece_json.h"

#include <gtest/gtest.h>

#include <limits>

#include "core/json/json_text.h"
#include "log_make.h"
#include "random_session.h"

namespace tallyblock::testing {
namespace {

LogPiece full() {
  LogPiece piece = nth_piece(7, {2.0 / 3.0, 0.1, 0.013});
  piece.start = piece.count_fixed = true;
  piece.specification = "Chain off,\nfat \"5 mm\"";
  piece.next = "K\xC3\xA4lter";
  piece.usable_u = 1e-5 / 3.0;
  piece.waste_u = 2e-5;
  piece.prime_u = 1e-300;
  piece.portions =
      LogPortions{3, 2, Mass::grams(150.0), Mass::grams(152.0), Mass::grams(4.358898943540674)};
  piece.eye_call = LogEyeCall{{0.7, 0.04, 0.16, 0.1}, 0.03, -0.01};
  piece.pieces = 2;
  piece.labour = Money::units(7.1);
  return piece;
}

void expect_same(const LogPiece& piece) {
  const std::string text = log_piece_to_json(piece);
  const auto back = log_piece_from_json(text);
  ASSERT_TRUE(back) << text;
  EXPECT_EQ(*back, piece) << text;
  EXPECT_EQ(log_piece_to_json(*back), text);
}

TEST(LogPieceJson, ReadsBackAsTheSame) {
  expect_same(full());
  expect_same(nth_piece(0));
  LogPiece least;
  least.session = least.line = kSession;
  expect_same(least);
  expect_same(piece_of(loin()));
  for (std::uint32_t seed = 0; seed < 100; ++seed) {
    RandomOptions options;
    options.awkward = seed % 2 == 1;
    const RandomSession random(seed, options);
    expect_same(piece_of(random.set(), random.session()));
  }
}

TEST(LogPieceJson, EveryMemberIsInIt) {
  const std::string text = log_piece_to_json(full());
  const Result<Json> json = parse_json(text, 4);
  ASSERT_TRUE(json);
  std::string names;
  for (const Json& member : json->children) names += member.key + ' ';
  EXPECT_EQ(
      names,
      "b bo cf ck cl co cp cu ey l la m mi mn n nx p pc pl po pr pu s sp st t tz u uu v w wu ");
  // Each name changed makes another text that reads otherwise, or not at all.
  for (const Json& member : json->children) {
    Json less = *json;
    less.remove(member.key);
    const auto read = log_piece_from_json(canonical_text(less));
    EXPECT_FALSE(read && *read == full()) << member.key;
  }
}

TEST(LogPieceJson, NumbersThatAreNoneAreNeverWritten) {
  LogPiece piece = full();
  piece.minutes = std::numeric_limits<double>::infinity();
  piece.waste_u = std::numeric_limits<double>::quiet_NaN();
  const auto back = log_piece_from_json(log_piece_to_json(piece));
  ASSERT_TRUE(back);
  EXPECT_EQ(back->minutes, 0.0);
  EXPECT_EQ(back->waste_u, 0.0);
}

TEST(LogPieceJson, WhatIsMalformedIsNotRead) {
  const std::string text = log_piece_to_json(full());
  ASSERT_TRUE(log_piece_from_json(text));
  for (std::size_t cut = 0; cut < text.size(); ++cut) {
    ASSERT_FALSE(log_piece_from_json(text.substr(0, cut))) << cut;
  }
  const Json good = *parse_json(text, 4);
  const auto with = [&](std::string_view key, const std::string& value) {
    Json changed = good;
    changed.set(key, *parse_json("[" + value + "]", 5)->children.begin());
    return log_piece_from_json(canonical_text(changed)).has_value();
  };
  EXPECT_TRUE(with("mn", "20.5"));
  EXPECT_TRUE(with("later", "\"unknown\""));
  for (const auto& [key, value] : std::vector<std::pair<std::string, std::string>>{
           {"v", "2"},
           {"v", "0"},
           {"v", "\"1\""},
           {"s", "\"short\""},
           {"s", "5"},
           {"l", "\"Not a key\""},
           {"l", "null"},
           {"t", "-1"},
           {"t", "1.5"},
           {"tz", "841"},
           {"m", "3"},
           {"m", "\"solid\""},
           {"pc", "0"},
           {"cl", "1"},
           {"st", "\"yes\""},
           {"n", "7"},
           {"sp", "[]"},
           {"b", "\"5000\""},
           {"co", "null"},
           {"u", "true"},
           {"mn", "[]"},
           {"pl", "{}"},
           {"pl", "[]"},
           {"pl", "[[]]"},
           {"pl", "[\"x\"]"},
           {"po", "[1,2,3]"},
           {"po", "[1,2,3,4,5,6]"},
           {"po", "[1.5,1,3,4]"},
           {"po", "[-1,1,3,4]"},
           {"po", "[1,1,3,\"4\"]"},
           {"ey", "[0,0,0,0,0]"},
           {"ey", "7"},
           {"pl", R"([["a","A","display",0.5]])"},
           {"pl", R"([["A","A","primary",0.5]])"},
           {"pl", R"([["a","A","primary","0.5"]])"},
           {"pl", R"([["a","A","primary",0.5,null]])"}}) {
    EXPECT_FALSE(with(key, value)) << key << ' ' << value;
  }
  std::string beyond = text;
  beyond.replace(beyond.find("\"mn\":27"), 7, "\"mn\":1e999");
  EXPECT_FALSE(log_piece_from_json(beyond));
  EXPECT_FALSE(log_piece_from_json("[]"));
  EXPECT_FALSE(log_piece_from_json(std::string(kMaxLogPieceBytes, ' ') + text));
}

}  // namespace
}  // namespace tallyblock::testing
