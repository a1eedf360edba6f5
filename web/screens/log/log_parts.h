// What the log's screens share: where in the log one is, and how a figure of a piece is said.
#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/log/log_lines.h"
#include "web/screens/parts.h"

namespace tallyblock {

// The open panel of the log's screen: "LINE FIGURE PIECE ACT", each perhaps "-"; empty: all lines.
struct LogPlace {
  std::string line = {}, figure = "usable", piece = {}, act = {};
};
LogPlace place_in_log(const std::string& panel);
void go_in_log(Ui& ui, const LogPlace& to);

// A piece is money in its own currency; weights are in the reader's unit.
show::Style style_of(const LogPiece& piece, const show::Style& reader);
std::string day_of(const LogPiece& piece, const show::Style& style);   // "7 Sep"
std::string when_of(const LogPiece& piece, const show::Style& style);  // "7 Sep 2026, 09:40"
// "83.1 %", "6 g", "4.2 points", "43.37 €".
std::string value_words(LogFigure figure, double value, const show::Style& style);
std::string figure_word(LogFigure figure);
std::string name_of_line(const Ui& ui, const LogLine& line);  // it says where it is invented

// The group that the piece is in; of none the latest.
const LogGroup& group_with(const LogLine& line, const std::string& piece);
// Null: it is not of the group.
const LogPiece* piece_in(const LogLine& line, const LogGroup& group, const std::string& piece);
// The last one before it of which there is a cost to compare with, or null.
const LogPiece* piece_before(const LogLine& line, const LogGroup& group, const std::string& piece);
// What may be said of so many.
void say_chart(Ui& ui, const LogLine& line, const LogSeries& series, const show::Style& style);
void draw_series(Ui& ui, const LogLine& line, const LogSeries& series, const LogPlace& at,
                 const show::Style& style);

void changed_page(Ui& ui, const LogLine& line, const LogPlace& at);

}  // namespace tallyblock
