#include "core/report/log_report.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <limits>
#include <set>

#include "core/json/json_text.h"
#include "log_make.h"

namespace tallyblock::testing {
namespace {

Json json_of(const std::string& report) {
  const Result<Json> json = parse_json(report, 16);
  EXPECT_TRUE(json) << report;
  return json ? *json : Json::object();
}
// The member, or a null where there is none.
Json at(const Json& object, const std::string& key) {
  const Json* member = object.member(key);
  EXPECT_NE(member, nullptr) << key;
  return member == nullptr ? Json{} : *member;
}
double number_in(const Json& object, const std::string& key) {
  return std::strtod(at(object, key).text.c_str(), nullptr);
}

// Two lines, one with everything: 14 pieces, an outlier, a start of another specification, portions, a call.
std::vector<LogPiece> kitchen() {
  std::vector<LogPiece> pieces;
  for (std::size_t i = 0; i < 14; ++i) {
    LogPiece piece = nth_piece(i, {i % 2 == 0 ? 0.69 : 0.7, 0.1, 0.01});
    piece.portions = LogPortions{12, 11, Mass::grams(150.0), Mass::grams(151.0), Mass::grams(3.0)};
    piece.eye_call = LogEyeCall{{0.7, 0.0, 0.2, 0.1}, 0.02, 0.01};
    piece.labour = Money::units(7.0);
    pieces.push_back(piece);
  }
  pieces[13] = nth_piece(13, {0.6, 0.2, 0.01});
  for (std::size_t i = 20; i < 24; ++i) pieces.push_back(nth_piece(i, {}, "others"));
  pieces[15].start = true;
  pieces[15].specification = pieces[16].specification = "Chain on";
  return pieces;
}
const LogOrderAsked kForty{{40, Mass::grams(150.0)}, 0.9, 1, {}};

void gather(const Json& value, std::set<std::string>& keys) {
  for (const Json& child : value.children) {
    if (value.type == Json::Type::object) keys.insert(child.key);
    if (child.key != "shares_per_g") gather(child, keys);
  }
}

TEST(LogReport, ReportMdExplainsEveryKey) {
  const std::string page = file_bytes("core/report/REPORT.md");
  const std::string log = page.substr(page.find("# The report of several sessions"));
  std::set<std::string> keys;
  gather(json_of(log_json(log_lines(kitchen()), kForty)), keys);
  EXPECT_GT(keys.size(), 90U) << "else much was not looked at";
  for (const std::string& key : keys) {
    EXPECT_NE(log.find('`' + key + '`'), std::string::npos) << key;
  }
}

TEST(LogReport, HoldsWhatTheLinesHold) {
  const std::vector<LogLine> lines = log_lines(kitchen());
  const Json all = at(json_of(log_json(lines, kForty)), "lines");
  ASSERT_EQ(all.children.size(), 2U);
  const Json line = all.children[1];
  EXPECT_EQ(at(line, "line").text, "loins");
  EXPECT_EQ(at(line, "members").children.size(), 14U);
  const Json figures = at(at(line, "groups").children.at(0), "figures");
  ASSERT_EQ(figures.children.size(), kLogFigures.size() + 1);
  for (std::size_t i = 0; i < kLogFigures.size(); ++i) {
    EXPECT_EQ(at(figures.children[i], "figure").text, name_of(kLogFigures[i]));
  }
  const LogSeries prime = series_of(lines[1], lines[1].groups[0], LogFigure::prime);
  const Json chart = at(figures.children[2], "chart");
  EXPECT_EQ(at(chart, "stage").text, "settled");
  EXPECT_EQ(number_in(at(chart, "limits"), "lower"), prime.chart->limits->lower);
  EXPECT_EQ(number_in(figures.children[2], "median"), *prime.median);
  ASSERT_EQ(at(chart, "signals").children.size(), 1U);
  EXPECT_EQ(at(at(chart, "signals").children[0], "kind").text, "beyond-limit");
  EXPECT_EQ(number_in(at(chart, "signals").children[0], "first"), 13.0);
  const Json order = at(at(line, "order"), "order");
  EXPECT_EQ(number_in(order, "pieces"),
            double(log_order(lines[1], lines[1].groups[0], kForty).order->pieces));
}

TEST(LogReport, SaysWhatChangedBetweenTheLastTwo) {
  const Json line = at(json_of(log_json(log_lines(kitchen()))), "lines").children.at(1);
  const Json changed = at(line, "changed");
  EXPECT_EQ(number_in(changed, "first"), 12.0);
  EXPECT_EQ(number_in(changed, "second"), 13.0);
  EXPECT_EQ(at(changed, "why").text, "compared");
  EXPECT_EQ(at(changed, "parted").text, "parted");
  const Json parts = at(changed, "parts");
  double sum = 0.0;
  for (const Json& share : at(parts, "shares_per_g").children) {
    sum += std::strtod(share.text.c_str(), nullptr);
  }
  EXPECT_NEAR(sum, number_in(changed, "difference_per_g"), 1e-12);
  EXPECT_EQ(at(line, "order").type, Json::Type::null) << "none was asked for";
  const Json waste = at(line, "waste_as_usual");
  EXPECT_NEAR(number_in(waste, "usual"), 0.1, 1e-12);
  EXPECT_NEAR(number_in(waste, "was"), 0.2, 1e-12);
}

TEST(LogReport, OfOnePieceAllKeysAreThere) {
  LogPiece bare;
  bare.session = bare.line = kSession;
  const Json line = at(json_of(log_json(log_lines({bare}), kForty)), "lines").children.at(0);
  for (const char* absent : {"name", "changed", "waste_as_usual"}) {
    EXPECT_EQ(at(line, absent).type, Json::Type::null) << absent;
  }
  const Json full = at(json_of(log_json(log_lines(kitchen()), kForty)), "lines").children.at(0);
  ASSERT_EQ(line.children.size(), full.children.size());
  for (std::size_t i = 0; i < line.children.size(); ++i) {
    EXPECT_EQ(line.children[i].key, full.children[i].key);
  }
  const Json usable = at(at(line, "groups").children.at(0), "figures").children.at(0);
  EXPECT_EQ(at(at(usable, "chart"), "stage").text, "nothing");
  EXPECT_TRUE(at(json_of(log_json({})), "lines").children.empty());
}

TEST(LogReport, IsTheSameWhateverTheOrderOfPieces) {
  std::vector<LogPiece> pieces = kitchen();
  const std::string expected = log_json(log_lines(pieces), kForty);
  for (std::size_t by = 1; by < pieces.size(); ++by) {
    std::rotate(pieces.begin(), pieces.begin() + 1, pieces.end());
    ASSERT_EQ(log_json(log_lines(pieces), kForty), expected);
  }
}

TEST(LogReport, AFigureThatIsNoNumberIsNull) {
  LogPiece piece = nth_piece(0);
  piece.waste_u = std::numeric_limits<double>::quiet_NaN();
  const Json line = at(json_of(log_json(log_lines({piece}))), "lines").children.at(0);
  EXPECT_EQ(at(at(line, "members").children.at(0), "waste_ratio_u").type, Json::Type::null);
}

}  // namespace
}  // namespace tallyblock::testing
