#include "cutting.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "advice_text.h"
#include "core/cutting/inside/cutting_events.h"
#include "core/session/facts.h"
#include "ruler.h"

namespace tallyblock {
namespace {

// More are left out: no piece has them, and a spoiled file should not keep anyone waiting.
constexpr std::size_t kMostLongPieces = 16;
constexpr std::size_t kMostViews = 8;

// The last in order counts of two stations at one place.
std::vector<Station> stations_of(const Facts& facts, const std::string& step) {
  std::map<double, Station> places;
  for (const Entry* entry : facts.counted()) {
    const auto* b = std::get_if<body::Station>(&entry->body);
    if (b == nullptr || b->step != step) continue;
    const Length at = b->at ? b->at->length : Length();
    places[at.in_millimetres()] = {at, b->width.length, b->depth.length,
                                   b->fill ? b->fill->value : 1.0};
  }
  std::vector<Station> stations;
  stations.reserve(places.size());
  for (const auto& [at, station] : places) stations.push_back(station);
  return stations;
}

// What lies in a pile by readings that name a cut: blocks of the piece, wherever they were put.
Mass blocks_in(const Facts& facts, const PileFigures& pile) {
  Mass sum;
  for (const ReadingLine& line : pile.lines) {
    if (line.is_void || line.outvoted) continue;
    const Entry* entry = facts.find(line.id);
    const auto* reading = entry == nullptr ? nullptr : std::get_if<body::Reading>(&entry->body);
    if (reading != nullptr && reading->cut && facts.live().is_live(*reading->cut)) sum += line.net;
  }
  return sum;
}

// What was weighed into the pile since then by readings that name no cut.
Mass set_aside_since(const Facts& facts, const PileFigures& pile, const Entry& since) {
  Mass sum;
  for (const ReadingLine& line : pile.lines) {
    const Entry* entry = facts.find(line.id);
    if (line.is_void || line.outvoted || entry == nullptr || !before(since, *entry)) continue;
    const auto* reading = std::get_if<body::Reading>(&entry->body);
    if (reading != nullptr && !reading->cut) sum += line.net;
  }
  return sum;
}

// Of the piece that was measured. `ends`: of it, what was weighed into its piles after it was said how
// much of its ends is lost.
struct PieceWeight {
  std::optional<Mass> weight;
  Mass ends;
};

PieceWeight weight_of(const Facts& facts, const Figures& figures, const StepFigures& step,
                      const Entry* limits) {
  const auto cleaned = step.checkpoints.find("cleaned");
  if (cleaned != step.checkpoints.end()) return {cleaned->second.value(), {}};
  if (step.checkpoints.size() == 1) return {step.checkpoints.begin()->second.value(), {}};
  if (!step.input) return {};
  Mass weight = step.input->value(), ends;
  for (const PileFigures& pile : figures.piles) {
    if (pile.step != step.key || !pile.weight_known) continue;
    if (target_of(figures, pile.key) != nullptr) continue;
    weight -= pile.weighed.value() - blocks_in(facts, pile);
    if (limits != nullptr) ends += set_aside_since(facts, pile, *limits);
  }
  if (!(weight > Mass())) return {};
  return {weight, ends};
}

// With the ends that were taken off after it was measured: they are part of the shape, and the plan takes
// them off itself. No more than one and a half times what the shape has there: the rest was trimmed.
Mass with_its_ends(const Shape& shape, Mass ends, Length front, Length back) {
  constexpr double most = 1.5;
  const double share =
      (shape.mass_to(front) + shape.mass() - shape.mass_to(shape.length() - back)) / shape.mass();
  const bool has_ends = share > 0.0 && share < 0.9;
  if (!has_ends) return shape.mass();
  return shape.mass() + std::min(ends, shape.mass() * (most * share / (1.0 - share)));
}

// Of the purchase; without one, or for nothing, one unit a kilogram: a scale.
PricePerMass price_of(const Figures& figures) {
  const auto& whole = figures.incoming.as_purchased;
  const bool known = figures.price_known && figures.cost && whole && whole->value() > Mass();
  if (known && *figures.cost > Money()) return *figures.cost / whole->value();
  return PricePerMass::of(Money::units(1.0), MassUnit::kilogram);
}

// Of what is left over, a gram.
PricePerMass remainder_value_of(const Figures& figures) {
  const double whole = price_of(figures).per(MassUnit::gram);
  const double best = figures.price_known ? figures.miscut_value.per(MassUnit::gram) : 0.0;
  const double worth =
      best > 0.0 ? std::min(best, kMostRemainder * whole) : kUnpricedRemainder * whole;
  return PricePerMass::of(Money::units(worth), MassUnit::gram);
}

// Marks can only be set where the ruler has them.
Length grid_of(const Settings& settings) {
  return ruler_step(ruler_of(settings) == "in" ? LengthUnit::inch : LengthUnit::millimetre);
}

std::vector<PortionSpec> specs_of(const Facts& facts, const Figures& figures,
                                  const std::string& step) {
  std::vector<PortionSpec> specs;
  for (const TargetFigures& target : figures.targets) {
    const PileFigures* pile = pile_named(figures, target.pile);
    if (pile == nullptr || pile->step != step || specs.size() == 4) continue;
    PortionSpec spec{
        target.pile, target.target, target.tolerance, {}, price_of(figures) * target.target};
    if (const auto* wanted = facts.find<body::Wanted>("wanted:" + target.pile)) {
      spec.wanted = wanted->count;
    }
    specs.push_back(std::move(spec));
  }
  return specs;
}

std::optional<Length> length_of(const std::optional<TypedLength>& typed) {
  if (!typed) return std::nullopt;
  return typed->length;
}

void take_limits(const body::PlanLimits& from, PlanInput& input) {
  input.limits = {length_of(from.thickness_min), length_of(from.thickness_max),
                  length_of(from.least)};
  input.trim_front = length_of(from.trim_front).value_or(Length());
  input.trim_back = length_of(from.trim_back).value_or(Length());
  input.saw = length_of(from.saw).value_or(Length());
  input.k_max = static_cast<int>(from.k_max.value_or(4));
  if (from.k_only) {
    input.k_only = static_cast<int>(*from.k_only);
    input.k_max = std::max(input.k_max, *input.k_only);
  }
}

// A stretch of the piece, one of `of` parts of its width.
std::vector<Station> stretch(const Shape& shape, Length from, Length to, int of) {
  const auto at = [&](Length x) {
    const double share = narrowest_fraction(shape.fill(x), of);
    return Station{x - from, shape.width(x) * share, shape.depth(x), shape.fill(x)};
  };
  std::vector<Station> stations{at(from)};
  for (const Station& station : shape.stations()) {
    if (station.at > from && station.at < to) stations.push_back(at(station.at));
  }
  stations.push_back(at(to));
  return stations;
}

class StepCutting {
 public:
  StepCutting(const Facts& facts, const Figures& figures, const StepFigures& step)
      : facts_(facts), figures_(figures), step_(step), events_(facts, figures, step.key) {
    view_.step = step.key;
    view_.stations = stations_of(facts, step.key);
  }
  bool empty() const { return view_.stations.empty(); }

  CuttingView view() {
    view_.specs = specs_of(facts_, figures_, step_.key);
    const auto cook = figures_.settings.all.find("cook");
    if (cook != figures_.settings.all.end()) cook_ = cook_from_setting(cook->second);
    whole_piece();
    if (view_.input) long_pieces(*view_.input);
    view_.cook = known_;
    return std::move(view_);
  }

 private:
  void whole_piece() {
    CuttingObject object;
    const std::vector<const Entry*> limits = facts_.winners("plan-limits:" + step_.key);
    const PieceWeight piece =
        weight_of(facts_, figures_, step_, limits.empty() ? nullptr : limits.front());
    object.weight = piece.weight;
    Result<Shape> shape = Shape::from(view_.stations, object.weight);
    if (!shape) {
      object.problem = shape.problem();
      view_.objects.push_back(std::move(object));
      return;
    }
    PlanInput input{*shape};
    input.specs = view_.specs;
    input.remainder_value = remainder_value_of(figures_);
    input.grid = grid_of(figures_.settings);
    input.scatter.knife = knife_of(cook_.scatter);
    if (const auto* said = facts_.find<body::PlanLimits>("plan-limits:" + step_.key)) {
      take_limits(*said, input);
    }
    if (piece.ends > Mass()) {
      object.weight = with_its_ends(*shape, piece.ends, input.trim_front, input.trim_back);
      shape = Shape::from(view_.stations, object.weight);
      if (shape) input.shape = *shape;
    }
    object.to = shape->length();
    std::optional<Result<Plan>> found;
    if (!input.specs.empty()) found = split(input);
    view_.input = input;
    work_on(std::move(object), std::move(input), std::move(found));
  }

  // The plan of what `input` then is: with as many long pieces as were chosen, else as are worth most.
  std::optional<Result<Plan>> split(PlanInput& input) {
    Result<SplitPlans> plans = plans_by_split(input);
    if (!plans) return std::nullopt;
    const SplitPlans::One* taken = input.k_only ? nullptr : &plans->all[plans->best];
    for (const SplitPlans::One& one : plans->all) {
      view_.splits.push_back(option_of(one, &one == &plans->all[plans->best]));
      if (input.k_only && *input.k_only == one.k) taken = &one;
    }
    if (taken == nullptr) return std::nullopt;
    if (!input.k_only && taken->k > 0) {
      input.k_only = taken->k;
      input.k_yields = true;
    }
    return taken->plan;
  }

  static SplitOption option_of(const SplitPlans::One& one, bool best) {
    const std::vector<PlannedBlock>& blocks = one.plan.blocks;
    SplitOption option{one.k, one.plan.demanded, 0.0, {}, one.plan.worth, best};
    for (const double expected : one.plan.expected) option.expected += expected;
    for (const PlannedBlock& block : blocks) option.thickness += block.to - block.from;
    option.thickness = option.thickness / static_cast<double>(blocks.size());
    return option;
  }

  void long_pieces(const PlanInput& whole) {
    for (const Entry* entry : facts_.winners("long-piece:" + step_.key + ":")) {
      if (view_.objects.size() > kMostLongPieces) return;
      if (const auto* b = std::get_if<body::LongPiece>(&entry->body)) long_piece(*b, whole);
    }
  }

  void long_piece(const body::LongPiece& b, const PlanInput& whole) {
    CuttingObject object;
    object.long_piece = b.key;
    object.of = static_cast<int>(b.of);
    object.from = length_of(b.from).value_or(whole.trim_front);
    object.to = length_of(b.to).value_or(whole.shape.length() - whole.trim_back);
    object.weight = b.weight.mass;
    if (!(object.from < object.to && object.to <= whole.shape.length())) {
      object.problem =
          Problem{Code::plan_stations_cross, "long-piece", {Arg::number(2), Arg::number(1)}};
      view_.objects.push_back(std::move(object));
      return;
    }
    const Result<Shape> shape =
        Shape::from(stretch(whole.shape, object.from, object.to, object.of), b.weight.mass);
    if (!shape) {
      object.problem = shape.problem();
      view_.objects.push_back(std::move(object));
      return;
    }
    PlanInput input = whole;
    input.shape = *shape;
    input.trim_front = input.trim_back = Length();
    input.k_max = 1;
    input.k_only.reset();
    events_.take_elsewhere(b.key, input.specs);
    work_on(std::move(object), std::move(input));
  }

  // `known`: the plan of `input`, where it was made already.
  void work_on(CuttingObject object, PlanInput input, std::optional<Result<Plan>> known = {}) {
    Result<Plan> found = known ? *std::move(known) : plan(input);
    if (found) {
      object.plan = std::move(found.value());
    } else {
      object.problem = found.problem();
    }
    events_.run(std::move(input), cook_, object);
    // What one object showed of the cook is known before the next: they are one person's work.
    if (object.cook.cuts > 0) {
      const std::size_t before = known_.cuts;
      known_ = object.cook;
      known_.cuts += before;
      cook_ = {object.cook.habit, object.cook.habit_sd, object.cook.scatter,
               cook_.scatter_weight + static_cast<double>(object.cook.cuts)};
    }
    view_.objects.push_back(std::move(object));
  }

  const Facts& facts_;
  const Figures& figures_;
  const StepFigures& step_;
  CuttingEvents events_;
  CookPrior cook_;    // before the next object
  CookRecord known_;  // after all so far
  CuttingView view_;
};

}  // namespace

std::size_t spec_of(const std::vector<PortionSpec>& specs, const std::string& pile) {
  std::size_t place = 0;
  while (place < specs.size() && specs[place].name != pile) ++place;
  return place;
}

std::vector<CuttingView> cutting_of(const EntrySet& set, const Figures& figures) {
  std::vector<CuttingView> views;
  const Facts facts(set);
  for (const StepFigures& step : figures.steps) {
    if (views.size() == kMostViews) break;
    StepCutting cutting(facts, figures, step);
    if (!cutting.empty()) views.push_back(cutting.view());
  }
  return views;
}

}  // namespace tallyblock
