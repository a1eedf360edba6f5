// The pieces of a line drawn, and what may be said of so many: no more than their number allows.
#include <algorithm>
#include <cmath>

#include "log_parts.h"
#include "web/kit/log_drawing.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr std::size_t kMostDrawn = 30;

std::string count_words(std::string_view key, std::size_t n) {
  return say(form_of(key, static_cast<double>(n)), {std::to_string(n)});
}

// One sentence or two of the chart, each a paragraph.
class Said {
 public:
  Said(Ui& ui, const LogLine& line, const LogSeries& series, const show::Style& style)
      : ui_(ui), line_(line), series_(series), style_(style) {}

  void all() {
    const std::size_t n = series_.entered.size();
    if (series_.points.empty()) {
      return put(series_.figure == LogFigure::portions   ? "log.no-spread"
                 : series_.figure == LogFigure::eye_call ? "log.no-guess"
                                                         : "log.no-figure",
                 {});
    }
    if (n == 0 || !series_.chart) return put("log.none-counts", {});
    const LogChart& chart = *series_.chart;
    switch (chart.stage) {
      case LogStage::nothing: return put("log.none-counts", {});
      case LogStage::one: return put("log.one", {});
      case LogStage::two: return two(chart.difference.value_or(0.0));
      case LogStage::few: return few(n, chart);
      case LogStage::provisional: provisional(n, chart); break;
      case LogStage::settled: settled(n, chart); break;
    }
    if (chart.last_four) last_four(chart.last_four->answer);
  }

 private:
  bool is_share() const {
    return series_.figure != LogFigure::portions && series_.figure != LogFigure::cost;
  }
  std::string value(double v) const { return value_words(series_.figure, v, style_); }
  // No share is below nothing or above the whole, no spread below nothing.
  std::string limit(double v) const {
    const double most = is_share() ? 1.0 : v;
    return value(series_.figure == LogFigure::missing ? v
                                                      : std::clamp(v, 0.0, std::max(most, 0.0)));
  }
  std::string day(std::size_t position) const {
    return day_of(line_.members[series_.points[series_.entered[position]].member], style_);
  }
  double at(std::size_t position) const { return series_.points[series_.entered[position]].value; }

  void put(std::string_view key, const std::vector<std::string>& args, Tone tone = Tone::normal) {
    ui_.kit.paragraph(say(key, args), tone, "log/said/" + std::to_string(++said_));
  }

  void two(double difference) {
    // Between shares of a whole there are points, not per cent.
    const auto words = [&](double v) {
      return is_share() ? value_words(LogFigure::eye_call, v, style_) : value(v);
    };
    const std::string shown = words(std::fabs(difference));
    if (words(0.0) == shown) return put("log.two-same", {});
    put(difference > 0.0 ? "log.two-more" : "log.two-less", {shown});
  }

  void few(std::size_t n, const LogChart& chart) {
    if (!chart.few) return;
    const FewSeen& seen = *chart.few;
    if (seen.smallest == seen.largest)
      return put("log.few-same", {std::to_string(n), value(seen.median)});
    put("log.few", {std::to_string(n), value(seen.median), value(seen.smallest),
                    value(seen.largest), show::percent(seen.chance_next_between, style_)});
  }

  void provisional(std::size_t n, const LogChart& chart) {
    if (!chart.limits) return put("log.few-same", {std::to_string(n), value(at(0))});
    put("log.provisional", {std::to_string(n), value(chart.limits->centre),
                            limit(chart.limits->lower), limit(chart.limits->upper)});
  }

  void settled(std::size_t n, const LogChart& chart) {
    if (!chart.limits) return put("log.few-same", {std::to_string(n), value(at(0))});
    put("log.settled", {std::to_string(n), value(chart.limits->centre), limit(chart.limits->lower),
                        limit(chart.limits->upper)});
    for (const ChartSignal& signal : chart.signals) {
      if (signal.kind == ChartSignalKind::beyond_limit) {
        put(signal.above ? "log.beyond-above" : "log.beyond-below",
            {day(signal.first), value(at(signal.first))}, Tone::warn);
      } else {
        put(signal.above ? "log.run-above" : "log.run-below",
            {std::to_string(signal.last - signal.first + 1), day(signal.first), day(signal.last)},
            Tone::warn);
      }
    }
    if (chart.signals.empty()) put("log.no-signal", {});
  }

  void last_four(LastFour answer) {
    switch (answer) {
      case LastFour::all_above: return put("log.four-above", {});
      case LastFour::all_below: return put("log.four-below", {});
      case LastFour::no_clear_change: return put("log.four-unclear", {}, Tone::quiet);
    }
  }

  Ui& ui_;
  const LogLine& line_;
  const LogSeries& series_;
  const show::Style& style_;
  int said_ = 0;
};

MarkFill fill_of(LogMark mark) {
  switch (mark) {
    case LogMark::solid: return MarkFill::solid;
    case LogMark::half: return MarkFill::half;
    case LogMark::hollow: return MarkFill::hollow;
  }
  return MarkFill::hollow;
}

void put_levels(const LogSeries& series, const show::Style& style, LogDrawing& drawing) {
  if (!series.chart) return;
  const auto level = [&](double value) {
    return MarkLevel{static_cast<float>(value), value_words(series.figure, value, style)};
  };
  const LogChart& chart = *series.chart;
  if (chart.few) drawing.centre = level(chart.few->median);
  if (!chart.limits) return;
  drawing.centre = level(chart.limits->centre);
  drawing.lower = level(chart.limits->lower);
  drawing.upper = level(chart.limits->upper);
  drawing.provisional = chart.stage == LogStage::provisional;
}

}  // namespace

void say_chart(Ui& ui, const LogLine& line, const LogSeries& series, const show::Style& style) {
  Said(ui, line, series, style).all();
  if (!series.points.empty()) ui.kit.paragraph(say("log.key"), Tone::quiet, "log/key");
  const std::size_t left = series.points.size() - series.entered.size();
  if (left > 0 && !series.entered.empty()) {
    ui.kit.paragraph(count_words("log.not-counted", left), Tone::quiet, "log/not-counted");
  }
  if (series.points.size() > kMostDrawn) {
    ui.kit.paragraph(count_words("log.older", series.points.size() - kMostDrawn), Tone::quiet,
                     "log/older");
  }
}

void draw_series(Ui& ui, const LogLine& line, const LogSeries& series, const LogPlace& at,
                 const show::Style& style) {
  if (series.points.empty()) return;
  const std::size_t from =
      series.points.size() > kMostDrawn ? series.points.size() - kMostDrawn : 0;
  LogDrawing drawing;
  std::string values;
  for (std::size_t p = from; p < series.points.size(); ++p) {
    const LogPoint& point = series.points[p];
    const LogPiece& piece = line.members[point.member];
    PieceMark mark;
    mark.value = static_cast<float>(point.value);
    mark.low = static_cast<float>(point.low);
    mark.high = static_cast<float>(point.high);
    mark.fill = fill_of(piece.mark);
    mark.open = piece.open;
    mark.lit = piece.session == at.piece;
    const std::size_t last = p == 0 ? 0 : series.points[p - 1].member;
    mark.parted = p > from && std::ranges::any_of(line.ticks, [&](const LogTick& tick) {
                    return tick.kind != LogTickKind::specification && tick.member > last &&
                           tick.member <= point.member;
                  });
    drawing.marks.push_back(mark);
    const std::string shown = value_words(series.figure, point.value, style);
    values = values.empty() ? shown : say("result.and", {values, shown});
  }
  put_levels(series, style, drawing);
  const auto day = [&](std::size_t p) {
    return day_of(line.members[series.points[p].member], style);
  };
  drawing.first_label = day(from);
  if (series.points.size() - from > 1) drawing.last_label = day(series.points.size() - 1);
  drawing.name = say("log.picture", {figure_word(series.figure), name_of_line(ui, line), values});
  const auto touched = log_drawing(ui.kit, "log/drawing", drawing);
  if (!touched || from + *touched >= series.points.size()) return;
  const std::string& piece = line.members[series.points[from + *touched].member].session;
  LogPlace to = at;
  to.piece = piece == at.piece ? "" : piece;
  go_in_log(ui, to);
}

}  // namespace tallyblock
