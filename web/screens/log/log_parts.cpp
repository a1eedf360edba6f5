#include "log_parts.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <utility>

#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr std::string_view kNothing = "-";

std::string taken_off(std::string_view& text) {
  const std::size_t end = std::min(text.find(' '), text.size());
  const std::string_view word = text.substr(0, end);
  text.remove_prefix(std::min(end + 1, text.size()));
  return word == kNothing ? std::string() : std::string(word);
}

std::string or_nothing(const std::string& text) {
  return text.empty() ? std::string(kNothing) : text;
}

}  // namespace

LogPlace place_in_log(const std::string& panel) {
  std::string_view rest = panel;
  LogPlace at;
  at.line = taken_off(rest);
  if (std::string figure = taken_off(rest); !figure.empty()) at.figure = std::move(figure);
  at.piece = taken_off(rest);
  at.act = taken_off(rest);
  return at;
}

void go_in_log(Ui& ui, const LogPlace& to) {
  ask::open_panel(ui.app, or_nothing(to.line) + ' ' + or_nothing(to.figure) + ' ' +
                              or_nothing(to.piece) + ' ' + or_nothing(to.act));
}

show::Style style_of(const LogPiece& piece, const show::Style& reader) {
  show::Style style = reader;
  if (!piece.currency.empty()) style.currency = piece.currency;
  return style;
}

std::string day_of(const LogPiece& piece, const show::Style& style) {
  if (piece.first.utc_ms == 0) return say("show.no-date");
  using namespace std::chrono;
  const sys_time<milliseconds> local{
      milliseconds(piece.first.utc_ms + std::int64_t{piece.first.offset_minutes} * 60000)};
  const year_month_day ymd{floor<days>(local)};
  return say(style.month_first ? "log.day-month-first" : "log.day",
             {std::to_string(static_cast<unsigned>(ymd.day())),
              say("show.month-" + std::to_string(static_cast<unsigned>(ymd.month())))});
}

std::string when_of(const LogPiece& piece, const show::Style& style) {
  return show::date(piece.first.utc_ms, piece.first.offset_minutes, style);
}

std::string value_words(LogFigure figure, double value, const show::Style& style) {
  switch (figure) {
    case LogFigure::portions: {
      // A spread has a digit more than the scale.
      show::Style finer = style;
      ++finer.weight_decimals;
      return show::mass(Mass::grams(value), finer);
    }
    case LogFigure::eye_call: return say("log.points", {show::number(100.0 * value, 1, style)});
    case LogFigure::cost:
      return show::money_figures(
          PricePerMass::of(Money::units(value), MassUnit::gram).per(style.price_unit), style);
    case LogFigure::minutes: return show::minutes(value, style);
    default: return show::percent(value, style);
  }
}

std::string figure_word(LogFigure figure) { return say("log." + std::string(name_of(figure))); }

std::string name_of_line(const Ui& ui, const LogLine& line) {
  std::string name = line.name.empty() ? say("sessions.untitled") : line.name;
  const SessionCard* card = ui.app.shelf().card(line.members.back().session);
  return card != nullptr && card->sample ? say("sample.title", {name}) : name;
}

const LogPiece* piece_in(const LogLine& line, const LogGroup& group, const std::string& piece) {
  for (const std::size_t m : group.members) {
    if (line.members[m].session == piece) return &line.members[m];
  }
  return nullptr;
}

const LogPiece* piece_before(const LogLine& line, const LogGroup& group, const std::string& piece) {
  const LogPiece* found = nullptr;
  for (const std::size_t m : group.members) {
    const LogPiece& one = line.members[m];
    if (one.session == piece) return found;
    if (one.board && one.primary > Mass()) found = &one;
  }
  return nullptr;
}

const LogGroup& group_with(const LogLine& line, const std::string& piece) {
  const auto holds = [&](const LogGroup& group) {
    return std::ranges::any_of(group.members,
                               [&](std::size_t m) { return line.members[m].session == piece; });
  };
  const auto found = std::ranges::find_if(line.groups, holds);
  return found == line.groups.end() ? latest_group(line) : *found;
}

}  // namespace tallyblock
