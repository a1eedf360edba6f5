#include "guide.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "aim.h"
#include "core/cutting/inside/guide_beliefs.h"
#include "core/cutting/inside/plan_worth.h"
#include "core/typed/slips.h"

namespace tallyblock {
namespace {

constexpr double kLeastRest = 0.5;  // mm: less is no piece
constexpr double kRoom = 0.01;  // of the whole piece: so much may more be weighed than was there

// Of one block by itself: what it is expected to be worth, less its weight as remainder.
Mass best_aim(const PlanInput& input, std::size_t kind, double log_sd) {
  constexpr int steps = 40;
  const PortionSpec& spec = input.specs[kind];
  const PortionWorth worth(input.specs, input.remainder_value, kAskedFor);
  const double target = spec.target.in_grams(), tolerance = spec.tolerance.in_grams();
  return Mass::grams(weight_of_most(
      target - tolerance, target + tolerance, steps,
      [&](double grams) { return worth.of(kind, grams, grams * log_sd) - worth.surplus(grams); }));
}

}  // namespace

Guide::Guide(PlanInput input) : input_(std::move(input)) {}
Guide::Guide(Guide&&) noexcept = default;
Guide& Guide::operator=(Guide&&) noexcept = default;
Guide::~Guide() = default;

Result<Guide> Guide::start(PlanInput input, CookPrior cook, ShapePrior prior, Mass division) {
  const Result<Plan> first = plan(input);
  if (!first) return first.problem();
  return begin(std::move(input), cook, prior, division);
}

Guide Guide::begin(PlanInput input, CookPrior cook, ShapePrior prior, Mass division) {
  Guide guide(std::move(input));
  guide.model_ = std::make_unique<GuideBeliefs>(guide.input_.shape, cook, prior);
  guide.cut_.assign(guide.input_.specs.size(), 0);
  const Length front = guide.input_.trim_front;
  guide.remaining_ = guide.input_.shape.mass() - guide.input_.shape.mass_to(front);
  guide.division_ = division;
  return guide;
}

double Guide::habit() const { return model_->habit(); }
double Guide::habit_sd() const { return model_->habit_sd(); }
double Guide::scatter() const { return model_->scatter(); }

Expectation Guide::expected(Length asked, int k) const {
  const double from = face_now();
  const double to = model_->end_of(from, asked.in_millimetres());
  const double end = input_.shape.length().in_millimetres();
  if (!(asked.in_millimetres() > 0.0) || end - from < kLeastRest) return {};
  const double each = model_->grams_between(from, to) / k;
  const double reading = division_.in_grams() / (each * std::sqrt(6.0));
  const double unequal = k > 1 ? k * input_.scatter.split : 0.0;
  return {Mass::grams(each),
          std::hypot(model_->spread_of_next(from, asked.in_millimetres()), reading, unequal)};
}

bool Guide::believes(const TypedWeight& typed, Length asked, int k) const {
  const Expectation from = expected(asked, k);
  const double grams = typed.weight.in_grams();
  if (!(grams > 0.0) || !(from.each.in_grams() > 0.0)) return false;
  const double room = kRoom * input_.shape.mass().in_grams() + division_.in_grams();
  if (grams > remaining_.in_grams() + room) return false;
  return surprise(grams, from.each.in_grams() * typed.portions, from.log_sd) <= kImprobable;
}

bool Guide::looks_like_a_slip(const TypedWeight& typed, Length asked, int k) const {
  const Expectation from = expected(asked, k);
  if (!(from.each.in_grams() > 0.0) || believes(typed, asked, k)) return false;
  if (typed.weight > remaining_) return true;
  if (typed.decimals < 0) return false;
  return !likely_meant(typed.weight.in_grams() / typed.unit_grams, typed.decimals,
                       from.each.in_grams() * typed.portions / typed.unit_grams, from.log_sd)
              .empty();
}

void Guide::block(const CutBlock& block) {
  if (!(block.weight.in_grams() > 0.0) || !(block.asked.in_millimetres() > 0.0)) return;
  const double from = face_now();
  const Expectation expectation = expected(block.asked, block.k);
  const bool known = expectation.each.in_grams() > 0.0;
  Mass off = block.weight;
  if (known && !block.sure &&
      (block.doubtful ||
       looks_like_a_slip({block.weight, static_cast<unsigned>(block.k)}, block.asked, block.k))) {
    off = expectation.each * static_cast<double>(block.k);
    model_->pass_block();
  } else if (known) {
    model_->observe_block(from, block.asked.in_millimetres(), block.weight.in_grams(),
                          division_.in_grams());
    ++weighed_;
  }
  take_off(off, from);
  if (block.spec < cut_.size()) {
    if (block.kept.empty()) cut_[block.spec] += static_cast<unsigned>(block.k);
    count(block.kept);
  }
}

void Guide::count(const std::vector<unsigned>& kept) {
  for (std::size_t s = 0; s < std::min(kept.size(), cut_.size()); ++s) cut_[s] += kept[s];
}

void Guide::removed(Mass weight, const std::vector<unsigned>& kept) {
  if (!(weight.in_grams() > 0.0)) return;
  take_off(weight, face_now());
  model_->forget_face();
  count(kept);
}

void Guide::unweighed(Length asked, const std::vector<unsigned>& kept) {
  if (!(asked.in_millimetres() > 0.0)) return;
  const double from = face_now();
  const double to = model_->end_of(from, asked.in_millimetres());
  take_off(Mass::grams(model_->grams_between(from, to)), from);
  model_->pass_block();
  count(kept);
}

double Guide::face_now() const {
  return model_->place_of((input_.shape.mass() - remaining_).in_grams());
}

void Guide::take_off(Mass weight, double from) {
  remaining_ -= weight;
  const double sawn = input_.saw.in_millimetres();
  if (sawn > 0.0) remaining_ -= Mass::grams(sawn * model_->grams_per_mm(from));
  if (remaining_.in_grams() < 0.0) remaining_ = Mass();
}

Verdict Guide::verdict(std::size_t spec, Mass weight, int k) const {
  std::vector<unsigned> left;
  for (std::size_t s = 0; s < input_.specs.size(); ++s) {
    const auto& wanted = input_.specs[s].wanted;
    left.push_back(!wanted ? 1U : *wanted > cut_[s] ? *wanted - cut_[s] : 0U);
  }
  const double from = face_now();
  return judge_block(input_.specs, spec, weight, left, model_->grams_per_mm(from) / std::max(k, 1));
}

void Guide::reweighed(Mass remaining) {
  if (remaining.in_grams() >= 0.0 && remaining <= input_.shape.mass()) {
    remaining_ = remaining;
    model_->forget_face();
  }
}

void Guide::face(const MeasuredFace& face) {
  const double at = face_now();
  const Length place = Length::millimetres(at);
  const double expected = (input_.shape.width(place) / Length::millimetres(1.0)) *
                          (input_.shape.depth(place) / Length::millimetres(1.0));
  const double seen = face.width.in_millimetres() * face.depth.in_millimetres();
  if (seen > 0.0) model_->observe_face(at, seen / expected);
}

// What is left, as a piece of its own: the stations' shape with the area corrected by the model.
PlanInput Guide::rest_of_piece(double from) const {
  PlanInput rest = input_;
  const double end = input_.shape.length().in_millimetres();
  std::vector<Station> stations;
  const int pieces = std::max(1, static_cast<int>((end - from) / 20.0));
  for (int i = 0; i <= pieces; ++i) {
    const double at = from + (end - from) * i / pieces;
    const Length place = Length::millimetres(at);
    const double grow = std::exp(model_->deviation(at) / 2.0);
    stations.push_back({Length::millimetres(i == 0 ? 0.0 : at - from),
                        input_.shape.width(place) * grow, input_.shape.depth(place) * grow,
                        input_.shape.fill(place)});
  }
  auto shape = Shape::from(std::move(stations), remaining_);
  if (shape) rest.shape = *shape;
  rest.trim_front = Length();
  rest.scatter.knife = knife_of(scatter());
  for (std::size_t s = 0; s < rest.specs.size(); ++s) {
    auto& wanted = rest.specs[s].wanted;
    if (wanted) wanted = *wanted > cut_[s] ? *wanted - cut_[s] : 0U;
  }
  return rest;
}

double Guide::farthest_from_measures(double from) const {
  double middle = from, longest = 0.0, last = from;
  for (const Station& station : input_.shape.stations()) {
    const double at = station.at.in_millimetres();
    if (at - last > longest) {
      longest = at - last;
      middle = (at + last) / 2.0;
    }
    last = std::max(last, at);
  }
  return middle;
}

Guide::Advice Guide::advice() const {
  Advice advice;
  const double end = input_.shape.length().in_millimetres();
  const double from = face_now();
  advice.stands_at = Length::millimetres(from);
  advice.done = true;
  if (end - from < kLeastRest || !(remaining_.in_grams() > 0.0)) return advice;
  PlanInput rest = rest_of_piece(from);
  std::optional<Plan> found = plan_or_nothing(rest);
  if (rest.k_yields && !found) {
    rest.k_only.reset();
    found = plan_or_nothing(rest);
  }
  if (!found) return advice;
  advice.done = false;
  advice.rest = *found;
  const PlannedBlock& block = found->blocks.front();
  advice.k = block.k;
  advice.spec = block.spec;
  for (const unsigned count : found->portions) advice.left += count;
  const PortionSpec& spec = rest.specs[block.spec];
  advice.target = spec.target;
  const double there = rest.shape.length().in_millimetres();
  const auto thickness_for = [&](Mass each) {
    const Length thick = rest.shape.at_mass(each * static_cast<double>(block.k));
    const double asked = (thick.in_millimetres() + model_->face_off()) * std::exp(-model_->habit());
    return std::clamp(asked, std::min(1.0, there), there);
  };
  advice.face_off = Length::millimetres(model_->face_off());
  const double log_sd = model_->spread_of_next(from, thickness_for(spec.target));
  advice.expected = aim_for(rest, *found, log_sd);
  advice.next = Length::millimetres(thickness_for(advice.expected));
  const double now = expected(advice.next, advice.k).log_sd;
  advice.scatter = advice.expected * now;
  const double thick = advice.next.in_millimetres(), unmeasured = farthest_from_measures(from);
  advice.measure_at = Length::millimetres(unmeasured);
  const double spared = std::pow(model_->spread_of_next(from, thick), 2) -
                        std::pow(model_->spread_if_measured(unmeasured, from, thick), 2);
  const PortionWorth worth(rest.specs, rest.remainder_value, 0.0);
  const auto within = [&](double of_target) {
    const double grams = spec.target.in_grams();
    return worth.within(block.spec, grams, grams * of_target);
  };
  advice.within = within(now);
  advice.within_if_measured = within(std::sqrt(std::max(0.0, now * now - std::max(0.0, spared))));
  return advice;
}

// The weight that the next block is best aimed at: with one kind of portion that of most expected worth
// in the row of blocks that is left, where there is enough for all that were asked for the best for this block;
// with several kinds what the plan gives it.
Mass Guide::aim_for(const PlanInput& rest, const Plan& found, double log_sd) const {
  const PlannedBlock& block = found.blocks.front();
  const PortionSpec& spec = rest.specs[block.spec];
  const auto k = static_cast<double>(block.k);
  if (rest.specs.size() > 1) return block.each;
  const Mass sawn = rest.shape.mass_to(rest.saw) * static_cast<double>(found.blocks.size() - 1);
  const Mass usable = rest.shape.mass_to(rest.shape.length() - rest.trim_back) - sawn;
  if (spec.wanted && usable >= spec.target * static_cast<double>(*spec.wanted)) {
    return best_aim(rest, block.spec, log_sd);
  }
  const double asked = spec.wanted ? 1.0 + kAskedFor : 1.0;
  const double rest_value = (rest.remainder_value * spec.target).in_units();
  const double worth =
      rest_value > 0.0 ? rest_value / (spec.value.in_units() * asked) : kUnpricedRemainder;
  const RowOfBlocks row(spec.target * k, spec.tolerance * k, log_sd, worth, usable);
  const Mass aim = row.aim(usable) / k;
  if (aim > spec.target + spec.tolerance) return spec.target;  // to be trimmed as it is
  return aim > Mass() ? std::max(aim, spec.target - spec.tolerance) : spec.target;
}

}  // namespace tallyblock
