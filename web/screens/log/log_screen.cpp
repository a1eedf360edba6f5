// The log: the lines that pieces form, then one line: a figure of its pieces drawn, what may be said of so many,
// the pieces, and what can be done with one of them.
#include <algorithm>

#include "log_parts.h"
#include "web/app/logbook/logbook.h"
#include "web/screens/screen_list.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

void reading(Ui& ui) {
  const Logbook* log = ui.app.log();
  const bool fresh =
      log != nullptr && log->known && !log->stale && log->of_acts == ui.app.keeper().acts();
  if (!fresh) ask::read_log(ui.app);
  if (log == nullptr) return;
  if (log->unread > 0) {
    ui.kit.status("log/unread", say("log.unread", {std::to_string(log->unread)}), Tone::bad);
  }
  if (log->to_make.empty()) return;
  ui.kit.status("log/reading", say("log.reading", {std::to_string(log->to_make.size())}));
}

void lines_page(Ui& ui) {
  auto body = ui.kit.scroll("log/body");
  ui.kit.heading(say("log.title"), 1, "log/title");
  reading(ui);
  if (ui.app.log() == nullptr) return;
  const Logbook& log = *ui.app.log();
  const bool whole = log.known && log.to_make.empty() && log.unread == 0;
  if (whole && log.lines.empty()) ui.kit.paragraph(say("log.none"), Tone::normal, "log/none");
  ui.kit.paragraph(say("log.what"), Tone::quiet, "log/what");
  for (auto rows = ui.kit.rows("log/lines", log.lines.size()); rows.next();) {
    const LogLine& line = log.lines[rows.at()];
    const std::size_t n = line.members.size();
    const std::string detail =
        say("log.of-line", {say(form_of("log.pieces", static_cast<double>(n)), {std::to_string(n)}),
                            when_of(line.members.back(), ui.style)});
    const LogSeries usable = series_of(line, latest_group(line), LogFigure::usable);
    const std::string value =
        usable.median
            ? say("log.usable-of", {value_words(LogFigure::usable, *usable.median, ui.style)})
            : std::string();
    if (ui.kit.list_row("log/line/" + line.key, name_of_line(ui, line),
                        {.detail = detail, .value = value, .opens = true}) != RowTap::none) {
      go_in_log(ui, {.line = line.key});
    }
  }
  const bool several =
      std::ranges::any_of(log.lines, [](const LogLine& line) { return line.members.size() > 2; });
  if (whole && !several &&
      ui.kit.button("log/sample", say("log.sample"), {.detail = say("log.sample-what")})) {
    ask::load_sample(ui.app, true);
  }
}

// Portions stand for their share where so many were wanted.
bool is_fixed(const LogLine& line, const LogGroup& group) {
  return std::ranges::any_of(group.members,
                             [&](std::size_t m) { return line.members[m].count_fixed; });
}

void figures_choice(Ui& ui, const LogLine& line, const LogGroup& group, const LogPlace& at) {
  auto grid = ui.kit.grid(3, 100);
  for (const LogFigure figure : kLogFigures) {
    if (figure == LogFigure::minutes) continue;  // speed with a knife is never compared
    const bool chosen = name_of(figure) == at.figure;
    if (figure == LogFigure::prime && !is_fixed(line, group) && !chosen) continue;
    const std::string name(name_of(figure));
    if (!ui.kit.button("log/figure/" + name, figure_word(figure), {.pressed = chosen})) continue;
    LogPlace to = at;
    to.figure = name;
    go_in_log(ui, to);
  }
}

LogFigure figure_in(const LogPlace& at) {
  const auto found =
      std::ranges::find(kLogFigures, at.figure, [](LogFigure f) { return name_of(f); });
  return found == kLogFigures.end() ? LogFigure::usable : *found;
}

std::string mark_words(const LogPiece& piece) {
  std::string words = say(piece.mark == LogMark::solid  ? "log.mark-solid"
                          : piece.mark == LogMark::half ? "log.mark-half"
                                                        : "log.mark-hollow");
  if (piece.open) words = say("log.row", {words, say("log.open")});
  if (piece.start) words = say("log.row", {words, say("log.new-start")});
  return words;
}

std::string range_words(const LogSeries& series, const LogPoint& point, const show::Style& style) {
  const std::string low = value_words(series.figure, point.low, style);
  const std::string high = value_words(series.figure, point.high, style);
  return low == high ? low : say("log.between", {low, high});
}

void tie_choice(Ui& ui, const LogLine& line, const LogPlace& at) {
  ui.kit.paragraph(say("log.tie-which"), Tone::normal, "log/tie-which");
  for (const LogLine& other : ui.app.log()->lines) {
    if (other.key == line.key) continue;
    if (ui.kit.button("log/tie/" + other.key, name_of_line(ui, other),
                      {.detail = when_of(other.members.back(), ui.style)})) {
      ask::set_line(ui.app, at.piece, other.key, false);
      go_in_log(ui, {.line = other.key, .figure = at.figure, .piece = at.piece});
    }
  }
}

// What can be done with the piece that is chosen.
void acts_of_piece(Ui& ui, const LogLine& line, const LogGroup& group, const LogPiece& piece,
                   const LogPlace& at) {
  auto panel = ui.kit.panel(Ground::sunk);
  ui.kit.heading(when_of(piece, ui.style), 3, "log/chosen");
  ui.kit.paragraph(mark_words(piece), Tone::quiet, "log/chosen/what");
  if (!piece.next.empty()) {
    ui.kit.paragraph(say("log.next", {piece.next}), Tone::normal, "log/chosen/next");
  }
  LogPlace to = at;
  if (at.act == "tie") tie_choice(ui, line, at);
  auto grid = ui.kit.grid(2, 144);
  if (ui.kit.button("log/open", say("log.open-piece"))) ask::open(ui.app, piece.session);
  if (piece_before(line, group, piece.session) != nullptr &&
      ui.kit.button("log/compare", say("log.compare"))) {
    to.act = "changed";
    go_in_log(ui, to);
  }
  if (ui.kit.button("log/start", say(piece.start ? "log.unset-start" : "log.set-start"))) {
    ask::set_line(ui.app, piece.session, line.key, !piece.start);
  }
  // The first of a line is what the line is called by.
  if (piece.session != line.key && ui.kit.button("log/part", say("log.part"))) {
    ask::set_line(ui.app, piece.session, piece.session, false);
    go_in_log(ui, {.line = at.line, .figure = at.figure});
  }
  if (ui.app.log()->lines.size() > 1 && at.act != "tie" &&
      ui.kit.button("log/tie", say("log.tie"))) {
    to.act = "tie";
    go_in_log(ui, to);
  }
}

void pieces_of(Ui& ui, const LogLine& line, const LogGroup& group, const LogSeries& series,
               const LogPlace& at) {
  if (line.groups.size() > 1) {
    const std::string& trim = group.specification;
    ui.kit.heading(trim.empty() ? say("log.no-trim") : say("log.trim", {trim}), 3);
  }
  for (std::size_t back = group.members.size(); back > 0; --back) {
    const std::size_t m = group.members[back - 1];
    const LogPiece& piece = line.members[m];
    const auto point = std::ranges::find(series.points, m, &LogPoint::member);
    const std::string value = point == series.points.end()
                                  ? std::string()
                                  : range_words(series, *point, style_of(piece, ui.style));
    std::string marks = mark_words(piece);
    if (piece.name != line.name && !piece.name.empty()) marks = say("log.row", {piece.name, marks});
    const bool chosen = piece.session == at.piece;
    if (ui.kit.list_row("log/piece/" + piece.session, when_of(piece, ui.style),
                        {.detail = marks,
                         .value = value,
                         .opens = true,
                         .folds = true,
                         .act = say("log.opens"),
                         .chosen = chosen}) != RowTap::none) {
      LogPlace to = at;
      to.piece = chosen ? "" : piece.session;
      to.act.clear();
      go_in_log(ui, to);
    }
    if (chosen) acts_of_piece(ui, line, group, piece, at);
  }
}

void line_page(Ui& ui, const LogLine& line, const LogPlace& at) {
  auto body = ui.kit.scroll("log/body");
  auto measure = ui.kit.measure();
  ui.kit.heading(name_of_line(ui, line), 1, "log/title");
  reading(ui);
  const LogGroup& shown = group_with(line, at.piece);
  figures_choice(ui, line, shown, at);
  const LogFigure figure = figure_in(at);
  const LogSeries series = series_of(line, shown, figure);
  show::Style style = style_of(line.members[shown.members.back()], ui.style);
  if (figure == LogFigure::cost && !series.only.empty()) style.currency = series.only;
  ui.kit.paragraph(figure == LogFigure::cost ? say("log.what-cost", {show::price_unit_name(style)})
                                             : say("log.what-" + std::string(name_of(figure))),
                   Tone::quiet, "log/what");
  draw_series(ui, line, series, at, style);
  say_chart(ui, line, series, style);
  if (figure == LogFigure::cost && !series.only.empty() &&
      std::ranges::any_of(shown.members,
                          [&](std::size_t m) { return line.members[m].currency != series.only; })) {
    ui.kit.paragraph(say("log.other-currency"), Tone::quiet, "log/other-currency");
  }
  ui.kit.heading(say("log.list"), 2);
  pieces_of(ui, line, shown, series, at);
  for (const LogGroup& other : line.groups) {
    if (&other != &shown) pieces_of(ui, line, other, series_of(line, other, figure), at);
  }
  if (ui.kit.button("log/all", say("log.all"))) ask::open_panel(ui.app, "");
}

}  // namespace

void log_screen(Ui& ui) {
  warnings(ui);
  const LogPlace at = place_in_log(ui.panel());
  const Logbook* log = ui.app.log();
  const LogLine* line = at.line.empty() || log == nullptr ? nullptr : log->line(at.line);
  if (line == nullptr || line->members.empty()) {
    lines_page(ui);
  } else if (at.act == "changed") {
    changed_page(ui, *line, at);
  } else {
    line_page(ui, *line, at);
  }
  notice(ui);
}

}  // namespace tallyblock
