#include "cutting_events.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/cutting/advice_text.h"

namespace tallyblock {
namespace {

// A net weight as it was typed, where what was typed is one plain number and the net weight itself.
TypedWeight typed_of(const body::Reading& reading, Mass net) {
  TypedWeight typed{net, reading.count, 1.0, -1};
  const std::string& text = reading.weight.text;
  const bool plain = text.find_first_of(" /") == text.rfind(' ');  // "7.1 oz"
  if (!plain || std::abs((reading.weight.mass - net).in_grams()) > 1e-6) return typed;
  switch (reading.weight.style) {
    case WeightStyle::grams: break;
    case WeightStyle::kilograms: typed.unit_grams = grams_in(MassUnit::kilogram); break;
    case WeightStyle::ounces: typed.unit_grams = grams_in(MassUnit::ounce); break;
    case WeightStyle::pounds: typed.unit_grams = grams_in(MassUnit::pound); break;
    case WeightStyle::pounds_ounces: return typed;
  }
  const std::size_t mark = text.find_first_of(".,");
  typed.decimals = 0;
  for (std::size_t i = mark + 1; mark != std::string::npos && i < text.size(); ++i) {
    if (text[i] < '0' || text[i] > '9') break;
    ++typed.decimals;
  }
  return typed;
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
        if (reading == nullptr) continue;
        readings_[line.id] = {pile.key, line.net, line.count, reading->sure,
                              typed_of(*reading, line.net)};
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

// The spec is that of the advised pile, else of the pile the first portion went to, else the first. What
// lies in piles without a target beside all k portions was trimmed off them; else it is a portion that
// fell short.
CuttingEvents::Portions CuttingEvents::portions_of(const Event& event,
                                                   const std::vector<PortionSpec>& specs) const {
  Portions found;
  CutLine& line = found.line;
  line.id = event.entry->id;
  line.closed = event.closed;
  std::size_t spec = specs.size();
  CutAdvice advice;
  if (const auto* cut = std::get_if<body::Cut>(&event.entry->body)) {
    advice = advice_from(cut->plan);
    line.asked = advice.thickness;
    if (cut->mark) line.asked = cut->mark->length;
    line.k = advice.k;
    spec = spec_of(specs, advice.pile);
  }
  unsigned portions = 0;
  for (const Weighed& weighed : event.weighed) {
    const std::size_t own = spec_of(specs, weighed.pile);
    if (own < specs.size()) portions += weighed.count;
    if (spec == specs.size()) spec = own;
  }
  line.spec = spec < specs.size() ? spec : 0;
  // Portions beyond `counted` are meant for the other kind, in the order they are weighed in.
  const auto k = static_cast<unsigned>(line.k);
  const std::size_t other = spec_of(specs, advice.other);
  const bool two = other < specs.size();
  line.other = two ? other : line.spec;
  line.of_spec = two ? std::min(k, static_cast<unsigned>(advice.counted)) : k;
  unsigned of_spec = 0;
  for (const Weighed& weighed : event.weighed) {
    const std::size_t own = spec_of(specs, weighed.pile);
    const bool aside = own == specs.size();
    if (aside && portions >= k) {
      line.trimmed += weighed.net;
      continue;
    }
    if (aside) portions += weighed.count;
    found.counted.push_back(&weighed);
    for (unsigned i = 0; i < weighed.count; ++i) {
      const std::size_t meant = !aside ? own : of_spec < line.of_spec ? line.spec : line.other;
      if (meant == line.spec) ++of_spec;
      line.portions.push_back(weighed.net / static_cast<double>(weighed.count));
      line.meant.push_back(meant);
    }
  }
  const unsigned missing = k - std::min(static_cast<unsigned>(line.portions.size()), k);
  const bool turns = of_spec >= line.of_spec;
  line.next_spec = turns ? line.other : line.spec;
  line.of_next = turns ? missing : std::min(missing, line.of_spec - of_spec);
  return found;
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
  auto [line, counted] = portions_of(event, specs);
  Mass sum;
  std::vector<unsigned> kept(specs.size(), 0);
  for (const Mass portion : line.portions) sum += portion;
  for (const Weighed* weighed : counted) {
    const std::size_t own = spec_of(specs, weighed->pile);
    if (own < specs.size()) kept[own] += weighed->count;
  }
  if (guide != nullptr) {
    if (line.asked) {
      line.expected = guide->expected(*line.asked, line.k);
      line.doubtful = std::ranges::any_of(counted, [&](const Weighed* weighed) {
        return !weighed->sure && guide->looks_like_a_slip(weighed->typed, *line.asked, line.k);
      });
    }
    for (std::size_t i = 0; i < line.portions.size(); ++i) {
      line.verdicts.push_back(guide->verdict(line.meant[i], line.portions[i], line.k));
    }
    const auto seen = static_cast<int>(line.portions.size());
    const bool whole = seen >= line.k;
    const Mass all = seen > 0 && !whole ? sum * (static_cast<double>(line.k) / seen) : sum;
    const Mass weight = all + line.trimmed;
    if (seen == 0) {
      kept[line.spec] += line.of_spec;
      kept[line.other] += static_cast<unsigned>(line.k) - line.of_spec;
      if (line.asked) guide->unweighed(*line.asked, kept);
    } else if (line.asked) {
      guide->block({*line.asked, line.k, weight, line.spec, kept, !line.doubtful, line.doubtful});
    } else {
      guide->removed(weight, kept);
    }
  }
  object.cuts.push_back(std::move(line));
}

void CuttingEvents::run(PlanInput input, const CookPrior& cook, CuttingObject& object) const {
  object.remaining = input.shape.mass();
  const std::vector<PortionSpec> specs = input.specs;
  std::optional<Guide> started;
  if (object.plan) {
    ShapePrior prior;
    const auto taper = figures_.settings.all.find("taper");
    if (taper != figures_.settings.all.end() && taper->second == "even") prior.evenly = true;
    started = Guide::begin(std::move(input), cook, prior, figures_.settings.division.mass);
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
