#include "log_lines.h"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

#include "core/base/finite.h"
#include "core/base/sorted.h"
#include "core/formulas/statistics.h"
#include "core/log/inside/costed.h"

namespace tallyblock {
namespace {

constexpr std::size_t kFewestForMedian = 3;

bool is_earlier(const LogPiece& a, const LogPiece& b) {
  return std::tie(a.first.utc_ms, a.session) < std::tie(b.first.utc_ms, b.session);
}

void group_members(LogLine& line) {
  for (std::size_t i = 0; i < line.members.size(); ++i) {
    const std::string& text = line.members[i].specification;
    auto group = std::ranges::find(line.groups, text, &LogGroup::specification);
    if (group == line.groups.end()) group = line.groups.insert(group, LogGroup{text, {}});
    group->members.push_back(i);
  }
}

void mark_ticks(LogLine& line) {
  std::optional<Mass> target;
  for (std::size_t i = 0; i < line.members.size(); ++i) {
    const LogPiece& piece = line.members[i];
    if (i > 0 && piece.specification != line.members[i - 1].specification) {
      line.ticks.push_back({LogTickKind::specification, i});
    }
    if (piece.portions) {
      if (target && *target != piece.portions->target) {
        line.ticks.push_back({LogTickKind::target, i});
      }
      target = piece.portions->target;
    }
    if (piece.start) {
      line.ticks.push_back({LogTickKind::start, i});
      line.from = i;
    }
  }
}

std::int64_t latest(const LogLine& line) { return line.members.back().first.utc_ms; }

// What of a piece a figure is, without a place or whether it enters.
std::optional<LogPoint> between(double value, double other) {
  if (!std::isfinite(value) || !std::isfinite(other)) return std::nullopt;
  return LogPoint{0, value, std::fmin(value, other), std::fmax(value, other), false};
}

std::optional<LogPoint> exactly(const std::optional<double>& value) {
  return value ? between(*value, *value) : std::nullopt;
}

Mass may_be_anywhere(const LogPiece& piece) {
  return std::max(Mass(), piece.missing.value_or(Mass()));
}

std::optional<LogPoint> share_point(const LogPiece& piece, Mass part) {
  if (!piece.board) return std::nullopt;
  return between(part / *piece.board, (part + may_be_anywhere(piece)) / *piece.board);
}

std::optional<LogPoint> cost_point(const LogPiece& piece, const std::optional<PricePerMass>& cost) {
  if (!cost || !(piece.primary > Mass())) return std::nullopt;
  const Mass most = piece.primary + may_be_anywhere(piece);
  return between(cost->per(MassUnit::gram), ((*cost * piece.primary) / most).per(MassUnit::gram));
}

std::optional<double> portions_s(const LogPiece& piece) {
  if (!piece.portions || !piece.portions->s) return std::nullopt;
  return piece.portions->s->in_grams();
}

std::optional<LogPoint> point_of(const LogPiece& piece, LogFigure figure, const LogPrices* at) {
  switch (figure) {
    case LogFigure::usable: return share_point(piece, piece.usable);
    case LogFigure::waste: return share_point(piece, piece.waste);
    case LogFigure::prime: return share_point(piece, piece.prime);
    case LogFigure::portions: return exactly(portions_s(piece));
    case LogFigure::eye_call: return piece.eye_call ? exactly(piece.eye_call->error) : std::nullopt;
    case LogFigure::missing:
      if (!piece.board || !piece.missing) return std::nullopt;
      return exactly(*piece.missing / *piece.board);
    case LogFigure::cost:
      return cost_point(piece, at != nullptr ? cost_at(piece, *at) : piece.cost_per_portions);
    case LogFigure::minutes: return piece.cook.empty() ? std::nullopt : exactly(piece.minutes);
  }
  return std::nullopt;
}

// What two points must have in common; "" where nothing.
std::string condition_of(const LogPiece& piece, LogFigure figure, const LogPrices* at) {
  if (figure == LogFigure::cost && at == nullptr) return piece.currency;
  return figure == LogFigure::minutes ? piece.cook : std::string();
}

bool may_enter(const LogLine& line, std::size_t member) {
  const LogPiece& piece = line.members[member];
  return member >= line.from && !piece.open && piece.mark != LogMark::hollow;
}

}  // namespace

std::vector<LogLine> log_lines(std::vector<LogPiece> pieces) {
  heap_sort(pieces, is_earlier);
  std::map<std::string, LogLine> by_key;
  for (LogPiece& piece : pieces) {
    LogLine& line = by_key[piece.line];
    if (!line.members.empty() && line.members.back() == piece) continue;
    line.members.push_back(std::move(piece));
  }
  std::vector<LogLine> out;
  for (auto& [key, line] : by_key) {
    line.key = key;
    for (const LogPiece& piece : line.members) {
      if (!piece.name.empty()) line.name = piece.name;
    }
    group_members(line);
    mark_ticks(line);
    out.push_back(std::move(line));
  }
  heap_sort(out, [](const LogLine& a, const LogLine& b) {
    return latest(a) != latest(b) ? latest(a) > latest(b) : a.key < b.key;
  });
  return out;
}

const LogGroup& latest_group(const LogLine& line) {
  return *std::ranges::find(line.groups, line.members.back().specification,
                            &LogGroup::specification);
}

std::vector<std::size_t> comparable(const LogLine& line, const LogGroup& group) {
  std::vector<std::size_t> out;
  for (const std::size_t member : group.members) {
    if (may_enter(line, member)) out.push_back(member);
  }
  return out;
}

std::string_view name_of(LogFigure figure) {
  switch (figure) {
    case LogFigure::usable: return "usable";
    case LogFigure::waste: return "waste";
    case LogFigure::prime: return "prime";
    case LogFigure::portions: return "portions";
    case LogFigure::eye_call: return "eye-call";
    case LogFigure::missing: return "missing";
    case LogFigure::cost: return "cost";
    case LogFigure::minutes: return "minutes";
  }
  return "";
}

std::optional<LogPrices> prices_of(const LogPiece& piece) {
  if (!piece.cost || !piece.bought) return std::nullopt;
  const auto price = ratio_of(piece.cost->in_units(), piece.bought->in_grams());
  if (!price) return std::nullopt;
  LogPrices out{PricePerMass::of(Money::units(*price), MassUnit::gram), {}};
  for (const LogPile& pile : piece.piles) {
    if (pile.value) out.values[pile.key] = *pile.value;
  }
  return out;
}

std::optional<PricePerMass> cost_at(const LogPiece& piece, const LogPrices& prices) {
  if (!piece.board || !piece.bought) return std::nullopt;
  CostedPiece costed;
  costed.price = prices.price * (*piece.bought / *piece.board);
  for (const PileOfCost& pile : piles_of_cost(piece)) {
    const auto value = prices.values.find(pile.cause);
    costed.piles.emplace_back(
        PileShare{pile.share, value == prices.values.end() ? PricePerMass() : value->second});
  }
  return cost_of_portions(costed);
}

LogSeries series_of(const LogLine& line, const LogGroup& group, LogFigure figure,
                    const LogPrices* at) {
  LogSeries out;
  out.figure = figure;
  for (const std::size_t member : group.members) {
    if (auto point = point_of(line.members[member], figure, at)) {
      point->member = member;
      point->enters = may_enter(line, member);
      out.points.push_back(*point);
      out.only = condition_of(line.members[member], figure, at);
    }
  }
  std::erase_if(out.points, [&](const LogPoint& point) {
    return condition_of(line.members[point.member], figure, at) != out.only;
  });
  std::vector<double> values;
  for (std::size_t i = 0; i < out.points.size(); ++i) {
    if (!out.points[i].enters) continue;
    out.entered.push_back(i);
    values.push_back(out.points[i].value);
  }
  if (values.size() >= kFewestForMedian) out.median = spread_of(values).median;
  out.chart = log_chart(values);
  return out;
}

}  // namespace tallyblock
