#include "cutting_events.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "advice_text.h"
#include "slips.h"

namespace tallyblock {
namespace {

std::size_t spec_of(const std::vector<PortionSpec>& specs, const std::string& pile) {
  std::size_t place = 0;
  while (place < specs.size() && specs[place].name != pile) ++place;
  return place;
}

// The unit a weight was typed in, and how many decimals.
struct TypedScale {
  double unit_grams = 1.0;
  int decimals = 0;
};
TypedScale scale_of(const body::Reading* reading) {
  if (reading == nullptr) return {};
  TypedScale scale;
  switch (reading->weight.style) {
    case WeightStyle::grams: break;
    case WeightStyle::kilograms: scale.unit_grams = 1000.0; break;
    case WeightStyle::ounces: scale.unit_grams = Mass::of(1.0, MassUnit::ounce).in_grams(); break;
    default: scale.unit_grams = Mass::of(1.0, MassUnit::pound).in_grams();
  }
  const std::string& text = reading->weight.text;
  const std::size_t mark = text.find_first_of(".,");
  for (std::size_t i = mark + 1; mark != std::string::npos && i < text.size(); ++i) {
    if (text[i] < '0' || text[i] > '9') break;
    ++scale.decimals;
  }
  return scale;
}

}  // namespace

CuttingEvents::CuttingEvents(const Facts& facts, const Figures& figures, const std::string& step)
    : figures_(figures), step_(step) {
  for (const PileFigures& pile : figures.piles) {
    if (pile.step != step) continue;
    for (const ReadingLine& line : pile.lines) {
      const bool one = line.habit == Habit::piece || line.habit == Habit::taken_off;
      if (one && !line.is_void && !line.outvoted && line.net > Mass()) {
        const Entry* entry = facts.find(line.id);
        const auto* reading = entry == nullptr ? nullptr : std::get_if<body::Reading>(&entry->body);
        readings_[line.id] = {pile.key, line.net, line.count, reading};
      }
    }
  }
  for (const Entry* entry : facts.counted()) {
    if (const auto* cut = std::get_if<body::Cut>(&entry->body); cut && cut->step == step) {
      cuts_[entry->id] = events_.size();
      events_.push_back({entry, advice_from(cut->plan).long_piece, {}});
    } else {
      gather(*entry);
    }
  }
}

void CuttingEvents::gather(const Entry& entry) {
  if (const auto* reading = std::get_if<body::Reading>(&entry.body)) {
    const auto found = readings_.find(entry.id);
    if (found == readings_.end()) return;
    const auto cut = reading->cut ? cuts_.find(*reading->cut) : cuts_.end();
    if (cut != cuts_.end()) {
      events_[cut->second].weighed.push_back(found->second);
      return;
    }
    const bool portion = target_of(figures_, found->second.pile) != nullptr;
    if (portion) events_.push_back({&entry, {}, {found->second}});
  } else if (const auto* face = std::get_if<body::Face>(&entry.body)) {
    if (face->step == step_) events_.push_back({&entry, face->long_piece, {}});
  } else if (const auto* rest = std::get_if<body::Remainder>(&entry.body)) {
    if (rest->step == step_) events_.push_back({&entry, {}, {}});
  } else if (const auto* end = std::get_if<body::CutClosed>(&entry.body)) {
    const auto cut = cuts_.find(end->cut);
    if (cut != cuts_.end()) events_[cut->second].closed = true;
  }
}

// Into a pile that has no target, and less than half of one: so light no portion is that fell short.
bool CuttingEvents::is_trim(const Weighed& weighed, const std::vector<PortionSpec>& specs,
                            std::size_t spec) const {
  if (spec >= specs.size() || spec_of(specs, weighed.pile) < specs.size()) return false;
  return weighed.net < specs[spec].target * 0.5;
}

// Improbable, not said to be right, and likely after one slip of the keys; or more than there was.
bool CuttingEvents::looks_like_a_slip(const Weighed& weighed, const Guide& guide,
                                      const CutLine& line) {
  constexpr double unequal = 0.05;  // log sd between the long pieces of one block
  const bool asked_about = weighed.reading != nullptr && weighed.reading->sure;
  const Expectation from = guide.expected(*line.asked, line.k);
  if (asked_about || !(from.each.in_grams() > 0.0)) return false;
  const double expected = from.each.in_grams() * weighed.count;
  const double sd = line.k > 1 ? std::hypot(from.log_sd, unequal) : from.log_sd;
  if (surprise(weighed.net.in_grams(), expected, sd) <= kImprobable) return false;
  if (weighed.net > guide.remaining() * 1.02) return true;
  const TypedScale scale = scale_of(weighed.reading);
  return !likely_meant(weighed.net.in_grams() / scale.unit_grams, scale.decimals,
                       expected / scale.unit_grams, sd)
              .empty();
}

// The spec is that of the pile the first portion went to, else the advised one, else the first.
CutLine CuttingEvents::line_of(const Event& event, const std::vector<PortionSpec>& specs) const {
  CutLine line;
  line.id = event.entry->id;
  line.closed = event.closed;
  std::size_t spec = specs.size();
  if (const auto* cut = std::get_if<body::Cut>(&event.entry->body)) {
    const CutAdvice advice = advice_from(cut->plan);
    line.asked = advice.thickness;
    if (cut->mark) line.asked = cut->mark->length;
    line.k = advice.k;
    spec = spec_of(specs, advice.pile);
  }
  for (const Weighed& weighed : event.weighed) {
    if (is_trim(weighed, specs, spec)) continue;
    for (unsigned i = 0; i < weighed.count; ++i) {
      line.portions.push_back(weighed.net / static_cast<double>(weighed.count));
    }
    if (spec == specs.size()) spec = spec_of(specs, weighed.pile);
  }
  line.spec = spec < specs.size() ? spec : 0;
  return line;
}

void CuttingEvents::apply(const Event& event, const std::vector<PortionSpec>& specs, Guide* guide,
                          CuttingObject& object) const {
  if (const auto* face = std::get_if<body::Face>(&event.entry->body)) {
    if (guide != nullptr) guide->face({face->width.length, face->depth.length});
    return;
  }
  if (const auto* rest = std::get_if<body::Remainder>(&event.entry->body)) {
    if (guide != nullptr) guide->reweighed(rest->weight.mass);
    return;
  }
  CutLine line = line_of(event, specs);
  Mass sum;
  unsigned kept = 0;
  Mass trimmed;
  bool doubtful = false;
  for (const Mass portion : line.portions) sum += portion;
  for (const Weighed& weighed : event.weighed) {
    if (is_trim(weighed, specs, line.spec)) {
      trimmed += weighed.net;
      continue;
    }
    if (guide != nullptr && line.asked)
      doubtful = doubtful || looks_like_a_slip(weighed, *guide, line);
    if (spec_of(specs, weighed.pile) == line.spec) kept += weighed.count;
  }
  if (guide != nullptr) {
    for (const Mass portion : line.portions) {
      line.verdicts.push_back(guide->verdict(line.spec, portion));
    }
    const auto seen = static_cast<int>(line.portions.size());
    const bool whole = seen >= line.k;
    const Mass all = seen > 0 && !whole ? sum * (static_cast<double>(line.k) / seen) : sum;
    const Mass weight = all + trimmed;
    if (seen == 0) {
      if (line.asked) guide->unweighed(*line.asked, line.k, line.spec);
    } else if (line.asked) {
      guide->block({*line.asked, line.k, weight, line.spec, kept, !doubtful, doubtful});
    } else {
      guide->removed(weight, line.spec, kept);
    }
  }
  object.cuts.push_back(std::move(line));
}

void CuttingEvents::run(PlanInput input, const CookPrior& cook, CuttingObject& object) const {
  object.remaining = input.shape.mass();
  const std::vector<PortionSpec> specs = input.specs;
  std::optional<Guide> started;
  if (object.plan) {
    started = Guide::begin(std::move(input), cook, {}, figures_.settings.division.mass);
  }
  Guide* guide = started ? &*started : nullptr;
  for (const Event& event : events_) {
    if (event.long_piece == object.long_piece) apply(event, specs, guide, object);
  }
  if (guide == nullptr) return;
  object.advice = guide->advice();
  object.remaining = guide->remaining();
  object.cook = guide->record();
}

void CuttingEvents::take_elsewhere(const std::string& long_piece,
                                   std::vector<PortionSpec>& specs) const {
  for (const Event& event : events_) {
    if (event.long_piece == long_piece) continue;
    for (const Weighed& weighed : event.weighed) {
      const std::size_t spec = spec_of(specs, weighed.pile);
      if (spec == specs.size()) continue;
      std::optional<unsigned>& wanted = specs[spec].wanted;
      if (wanted) wanted = *wanted - std::min(*wanted, weighed.count);
    }
  }
}

}  // namespace tallyblock
