// The lines of the log: which pieces belong together, which of them are compared, and what may be said.
//
// A line is all pieces of one line key, in the order of their first time, then of their session's id; a piece of no
// known time stands before the others. Within a line pieces are compared only under one specification
// text, letter for letter (none is one, too): these are its groups, whether or not others lie between.
//
// A point is what one piece puts into the chart of one figure. It enters chart and median unless the piece is
// hollow or open (log_piece.h) or lies before the last start of its line. Costs are points only in the currency, and
// minutes only of the cook, of the latest piece of the group that has the figure.
// Of a share the value is the low end: what was weighed. What is missing may have gone anywhere, so the
// share lies between x / B and (x + missing) / B, missing below 0 counted as 0; a cost lies between
// N / (primary + missing) and N / primary, and of these the latter was weighed.
//
//   usable, waste, prime   shares of B (prime: primary and secondary)
//   portions               s of the portions weighed one by one, grams; from two portions on
//   eye_call               error, a share
//   missing                share of B; below 0 where a little more was weighed than there was
//   cost                   per gram of portions, by-products credited, labour apart
//   minutes                as entered; only where one cook is named
//
// Stages, limits and signals: core/formulas/chart.h. Nothing is rounded.
// Does not: compare lines; ask why.
#pragma once
#include <array>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/formulas/chart.h"
#include "log_piece.h"

namespace tallyblock {

// One specification of a line.
struct LogGroup {
  std::string specification;
  std::vector<std::size_t> members;  // places in LogLine::members, in order
};

// What is marked in the drawing between a piece and the one before it.
enum class LogTickKind { specification, target, start };
struct LogTick {
  LogTickKind kind{};
  std::size_t member = 0;  // the first piece of the new
  friend bool operator==(const LogTick&, const LogTick&) = default;
};

struct LogLine {
  std::string key;
  std::string name;  // of the latest piece that has one
  std::vector<LogPiece> members;
  std::vector<LogGroup> groups;  // by their first member
  std::vector<LogTick> ticks;    // in order; a target is compared with the last one stated
  std::size_t from = 0;          // place of the last start: earlier pieces enter nothing
};

// Each session once; a copy that is all alike counts once. Any order gives the same. The line with the latest piece
// comes first, then by key.
std::vector<LogLine> log_lines(std::vector<LogPiece> pieces);
// The group of the latest piece. Precondition: the line has members.
const LogGroup& latest_group(const LogLine& line);
// Places of the members of a group that enter, whatever the figure.
std::vector<std::size_t> comparable(const LogLine& line, const LogGroup& group);

enum class LogFigure { usable, waste, prime, portions, eye_call, missing, cost, minutes };
inline constexpr std::array kLogFigures = {
    LogFigure::usable,   LogFigure::waste,   LogFigure::prime, LogFigure::portions,
    LogFigure::eye_call, LogFigure::missing, LogFigure::cost,  LogFigure::minutes};
// "usable", ..., "eye-call", ...: names of reports.
std::string_view name_of(LogFigure figure);

// One price and one set of values for all pieces of a line, so that costs differ by the cutting alone.
struct LogPrices {
  PricePerMass price;                          // per weight bought
  std::map<std::string, PricePerMass> values;  // pile key -> value; others are worth nothing
};
// Those of one piece; absent without what was paid or bought.
std::optional<LogPrices> prices_of(const LogPiece& piece);
// Cost per weight of portions at those prices, labour apart; absent without B, weight bought or portions.
std::optional<PricePerMass> cost_at(const LogPiece& piece, const LogPrices& prices);

struct LogPoint {
  std::size_t member = 0;  // place in LogLine::members
  double value = 0.0;      // what was weighed: one of the ends
  double low = 0.0, high = 0.0;
  bool enters = false;
};
struct LogSeries {
  LogFigure figure{};
  std::string only;                  // the currency or the cook that the points are of; else ""
  std::vector<LogPoint> points;      // of members that have the figure, in order
  std::vector<std::size_t> entered;  // position in the chart -> place in `points`
  std::optional<double> median;      // of what entered, from three on
  std::optional<LogChart> chart;     // of what entered, in order; absent as log_chart()
};
// `at`: cost at one price and one set of values; the currency is then no matter.
LogSeries series_of(const LogLine& line, const LogGroup& group, LogFigure figure,
                    const LogPrices* at = nullptr);

}  // namespace tallyblock
