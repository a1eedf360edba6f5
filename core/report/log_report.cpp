#include "log_report.h"

#include "core/log/log_changes.h"
#include "core/report/inside/report_json.h"

namespace tallyblock {
namespace {

constexpr std::size_t kTwo = 2;

std::string_view name_of_mark(LogMark mark) {
  return mark == LogMark::solid ? "solid" : mark == LogMark::half ? "half" : "hollow";
}

std::string_view name_of_tick(LogTickKind kind) {
  if (kind == LogTickKind::specification) return "specification";
  return kind == LogTickKind::target ? "target" : "start";
}

std::string_view name_of_stage(LogStage stage) {
  switch (stage) {
    case LogStage::nothing: return "nothing";
    case LogStage::one: return "one";
    case LogStage::two: return "two";
    case LogStage::few: return "few";
    case LogStage::provisional: return "provisional";
    case LogStage::settled: return "settled";
  }
  return "";
}

std::string_view name_of_last_four(LastFour answer) {
  if (answer == LastFour::all_above) return "all-above";
  return answer == LastFour::all_below ? "all-below" : "no-clear-change";
}

std::string_view name_of_parted(NotParted why) {
  switch (why) {
    case NotParted::parted: return "parted";
    case NotParted::first_has_no_portions: return "first-has-no-portions";
    case NotParted::second_has_no_portions: return "second-has-no-portions";
    case NotParted::a_mixture_has_none: return "a-mixture-has-none";
    case NotParted::too_many_causes: return "too-many-causes";
  }
  return "";
}

long long whole_of(std::size_t number) { return static_cast<long long>(number); }

void write_places(ReportWriter& w, std::string_view key, const std::vector<std::size_t>& places) {
  w.open_array(key);
  for (const std::size_t place : places) w.whole({}, whole_of(place));
  w.close_array();
}

void write_spread(ReportWriter& w, const Spread& spread) {
  w.whole("n", whole_of(spread.n));
  w.number("mean", spread.mean);
  w.number("median", spread.median);
  w.number("smallest", spread.smallest);
  w.number("largest", spread.largest);
  w.number("s", spread.s);
}

// null, or an object with what `members` writes.
template <class Value, class Members>
void write_if(ReportWriter& w, std::string_view key, const std::optional<Value>& value,
              Members members) {
  if (!value) return w.null(key);
  w.open_object(key);
  members(*value);
  w.close_object();
}

void write_member(ReportWriter& w, const LogPiece& piece) {
  w.text("session", piece.session);
  w.whole("utc_ms", piece.first.utc_ms);
  w.text_or_null("name", piece.name);
  w.truth("start", piece.start);
  w.text("mark", name_of_mark(piece.mark));
  w.truth("open", piece.open);
  w.text_or_null("cook", piece.cook);
  w.text_or_null("next", piece.next);
  w.mass("board_g", piece.board);
  w.mass("missing_g", piece.missing);
  w.number("usable_ratio_u", piece.usable_u);
  w.number("waste_ratio_u", piece.waste_u);
  w.number("prime_ratio_u", piece.prime_u);
  w.truth("count_fixed", piece.count_fixed);
  write_if(w, "portions", piece.portions, [&](const LogPortions& portions) {
    w.whole("n", whole_of(portions.n));
    w.whole("within", whole_of(portions.within));
    w.mass("target_g", portions.target);
    w.mass("mean_g", portions.mean);
    w.mass("s_g", portions.s);
  });
  write_if(w, "eye_call", piece.eye_call, [&](const LogEyeCall& call) {
    w.open_array("called");
    for (const double share : call.called) w.number({}, share);
    w.close_array();
    w.number("error", call.error);
    w.number("bias", call.bias);
  });
}

void write_chart(ReportWriter& w, const LogChart& chart) {
  w.whole("n", whole_of(chart.n));
  w.text("stage", name_of_stage(chart.stage));
  w.number("difference", chart.difference);
  write_if(w, "few", chart.few, [&](const FewSeen& few) {
    w.number("median", few.median);
    w.number("smallest", few.smallest);
    w.number("largest", few.largest);
    w.number("chance_next_between", few.chance_next_between);
  });
  write_if(w, "limits", chart.limits, [&](const ChartLimits& limits) {
    w.whole("from_first", whole_of(limits.from));
    w.number("centre", limits.centre);
    w.number("mean_moving_range", limits.mean_moving_range);
    w.number("lower", limits.lower);
    w.number("upper", limits.upper);
  });
  write_if(w, "last_four", chart.last_four, [&](const LastAgainstFirst& last) {
    w.text("answer", name_of_last_four(last.answer));
    w.number("by_luck", last.by_luck);
  });
  w.objects("signals", chart.signals, [&](const ChartSignal& signal) {
    const bool beyond = signal.kind == ChartSignalKind::beyond_limit;
    w.text("kind", beyond ? "beyond-limit" : "eight-on-one-side");
    w.whole("first", whole_of(signal.first));
    w.whole("last", whole_of(signal.last));
    w.truth("above", signal.above);
  });
}

void write_series(ReportWriter& w, std::string_view figure, const LogSeries& series) {
  w.text("figure", figure);
  w.text_or_null("only", series.only);
  w.objects("points", series.points, [&](const LogPoint& point) {
    w.whole("member", whole_of(point.member));
    w.number("value", point.value);
    w.number("low", point.low);
    w.number("high", point.high);
    w.truth("enters", point.enters);
  });
  w.number("median", series.median);
  write_if(w, "chart", series.chart, [&](const LogChart& chart) { write_chart(w, chart); });
}

void write_group(ReportWriter& w, const LogLine& line, const LogGroup& group) {
  w.text_or_null("specification", group.specification);
  write_places(w, "members", group.members);
  write_places(w, "comparable", comparable(line, group));
  w.open_array("figures");
  const auto put = [&](std::string_view name, const LogSeries& series) {
    w.open_object();
    write_series(w, name, series);
    w.close_object();
  };
  for (const LogFigure figure : kLogFigures) {
    put(name_of(figure), series_of(line, group, figure));
  }
  if (const auto prices = prices_of(line.members[group.members.back()])) {
    put("cost-at-last-prices", series_of(line, group, LogFigure::cost, &*prices));
  }
  w.close_array();
}

void write_change(ReportWriter& w, const LogLine& line, const LogGroup& group) {
  if (group.members.size() < kTwo) return w.null("changed");
  const std::size_t first = *(group.members.end() - std::ptrdiff_t{kTwo});
  const std::size_t second = group.members.back();
  const LogChange change = log_change(line.members[first], line.members[second]);
  const CostDifference cost = change.difference.value_or(CostDifference{});
  w.open_object("changed");
  w.whole("first", whole_of(first));
  w.whole("second", whole_of(second));
  w.text("why", name_of(change.why));
  w.text_or_null("parted", change.difference ? name_of_parted(cost.why) : "");
  w.truth("with_labour", change.with_labour);
  w.price("first_per_g", cost.first);
  w.price("second_per_g", cost.second);
  w.price("difference_per_g", cost.difference);
  w.number("least_portions", change.difference ? std::optional(cost.least_portions) : std::nullopt);
  write_if(w, "parts", cost.parts, [&](const CostParts& parts) {
    w.price("price_per_g", parts.price);
    w.price("values_per_g", parts.values);
    w.price("labour_per_g", parts.labour);
    w.open_object("shares_per_g");
    for (std::size_t i = 0; i < parts.shares.size() && i < change.causes.size(); ++i) {
      w.price(change.causes[i], parts.shares[i]);
    }
    w.close_object();
  });
  w.close_object();
}

void write_usual_waste(ReportWriter& w, const LogLine& line, const LogGroup& group) {
  const auto usual = series_of(line, group, LogFigure::waste).median;
  const LogPiece& last = line.members[group.members.back()];
  write_if(w, "waste_as_usual", usual ? waste_as_usual(last, *usual) : std::nullopt,
           [&](const WasteAsUsual& waste) {
             w.number("usual", waste.usual);
             w.number("was", waste.was);
             w.price("cost_per_g", waste.cost);
             w.price("would_be_per_g", waste.would_be);
           });
}

void write_pack_order(ReportWriter& w, const PackOrder& order) {
  w.whole("packs", whole_of(order.packs));
  w.whole("pieces", whole_of(order.pieces));
  w.mass("bought_g", order.bought);
  w.mass("needed_g", order.needed);
  w.mass("counted_on_g", order.counted_on);
  w.mass("expected_g", order.expected);
  w.mass("left_g", order.left);
  w.whole("portions_left", whole_of(order.portions_left));
  w.money("cost", order.cost);
}

void write_order(ReportWriter& w, const LogOrder& order) {
  w.whole("n", whole_of(order.n));
  w.mass("usual_piece_g", order.usual_piece);
  write_if(w, "piece_grams", order.piece_grams, [&](const Spread& s) { write_spread(w, s); });
  write_if(w, "grams_each", order.grams_each, [&](const Spread& s) { write_spread(w, s); });
  w.mass("smallest_g", order.smallest);
  w.price("price_per_g", order.price);
  w.text_or_null("currency", order.currency);
  write_if(w, "order", order.order, [&](const PackOrder& o) { write_pack_order(w, o); });
}

}  // namespace

std::string log_json(const std::vector<LogLine>& lines, const std::optional<LogOrderAsked>& asked) {
  ReportWriter w;
  w.open_object();
  w.whole("log_version", 1);
  w.objects("lines", lines, [&](const LogLine& line) {
    const LogGroup& latest = latest_group(line);
    w.text("line", line.key);
    w.text_or_null("name", line.name);
    w.objects("members", line.members, [&](const LogPiece& piece) { write_member(w, piece); });
    w.whole("from", whole_of(line.from));
    w.objects("ticks", line.ticks, [&](const LogTick& tick) {
      w.text("kind", name_of_tick(tick.kind));
      w.whole("member", whole_of(tick.member));
    });
    w.objects("groups", line.groups, [&](const LogGroup& group) { write_group(w, line, group); });
    write_change(w, line, latest);
    write_usual_waste(w, line, latest);
    write_if(w, "order", asked,
             [&](const LogOrderAsked& ask) { write_order(w, log_order(line, latest, ask)); });
  });
  w.close_object();
  return w.json();
}

}  // namespace tallyblock
