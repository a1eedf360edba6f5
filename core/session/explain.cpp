// A loss that cannot be, or that is large: the doubt, and which single slip would explain it.
//
// A slip explains a gap if putting it right, alone, would leave a likely loss. For a negative loss
// that is one between nothing (but for twice the standard uncertainty) and the session's limit; at
// most three of each kind are told, the one that leaves least loss first. A high loss is also what an
// unweighed pile looks like, and many readings could be stretched to fill it; so less may be left, a
// loss as cutting really leaves it (kMostRealLoss, or the limit if that is lower, and twice the
// standard uncertainty); a weight like the others on its pile is taken for right; a tare is taken
// twice once or every time; and where more than three slips of a kind would do, none of it is told.
#include <algorithm>
#include <cmath>

#include "core/session/inside/incoming.h"
#include "core/session/inside/steps.h"

namespace tallyblock {
namespace {

constexpr std::size_t kMostOfAKind = 3;
// Measured cutting tests left 0.2 to 1.4 % of the weight (REPORT.md, "How some cases are read").
constexpr double kMostRealLoss = 0.014;

struct Slip {
  Mass leaves;  // loss after putting it right
  Doubt doubt;
};

struct UnitSlip {
  WeightStyle style;          // as typed
  double factor;              // what was meant / what was typed
  std::string_view from, to;  // unit names; empty: the decimal mark slipped
};
constexpr UnitSlip kUnitSlips[] = {
    {WeightStyle::ounces, 1.0 / kGramsPerOunce, "oz", "g"},
    {WeightStyle::grams, kGramsPerOunce, "g", "oz"},
    {WeightStyle::kilograms, kGramsPerPound / 1000.0, "kg", "lb"},
    {WeightStyle::pounds, 1000.0 / kGramsPerPound, "lb", "kg"},
    {WeightStyle::ounces, kGramsPerPound / kGramsPerOunce, "oz", "lb"},
    {WeightStyle::pounds, kGramsPerOunce / kGramsPerPound, "lb", "oz"},
};
constexpr double kMarkSlips[] = {0.1, 10.0, 0.001, 1000.0};

class Explainer {
 public:
  Explainer(const Facts& facts, const PileTable& table, Figures& figures, const StepFigures& step,
            Mass input, const Measured& loss)
      : facts_(facts),
        table_(table),
        figures_(figures),
        step_(step),
        loss_(loss.value()),
        high_(loss.value() > Mass()),
        limit_share_(figures.settings.loss_limit) {
    lowest_ = -2.0 * loss.uncertainty() - Mass::grams(1e-6);
    if (high_) limit_share_ = std::min(limit_share_, kMostRealLoss);
    highest_ = limit_share_ * input;
    if (high_) highest_ += 2.0 * loss.uncertainty();
    for (std::size_t p = 0; p < table.piles.size(); ++p) {
      if (table.piles[p].step != step.key || table.piles[p].by_difference) continue;
      for (const std::size_t i : table.of_pile[p]) {
        const Contribution& c = table.contributions[i];
        if (c.counts && c.reading != nullptr && c.parent == kNoPlace) readings_.push_back(&c);
      }
    }
  }

  void tell() {
    // with a coarse scale a loss over the limit may still be a likely one
    if (high_ && loss_ <= highest_) return;
    missed_tares();
    finish();
    tares_taken_twice();
    finish();
    unit_slips();
    finish();
    repeated();
    finish();
    wrong_sign();
    finish();
  }

 private:
  // Whether putting the slip right, which gives back `back`, leaves a likely loss. A slip in the
  // step's input moves the limit, too.
  bool fits(Mass back, Mass more_limit = {}) const {
    return loss_ + back >= lowest_ && loss_ + back <= highest_ + more_limit;
  }

  void note(Mass back, Code code, std::vector<EntryId> entries, Args args) {
    slips_.push_back({loss_ + back,
                      Doubt{code, "step " + step_.key, std::move(entries), std::move(args), back}});
  }

  Arg pile_of(const Contribution& c) const { return Arg::name(table_.piles[c.pile].name); }

  void finish() {
    std::stable_sort(slips_.begin(), slips_.end(), [](const Slip& a, const Slip& b) {
      return std::fabs(a.leaves.in_grams()) < std::fabs(b.leaves.in_grams());
    });
    if (slips_.size() > kMostOfAKind) slips_.resize(high_ ? 0 : kMostOfAKind);
    for (Slip& slip : slips_) figures_.doubts.push_back(std::move(slip.doubt));
    slips_.clear();
  }

  void missed_tares() {
    std::vector<EntryId> untared;
    for (const Contribution* c : readings_)
      if (!c->tared && c->reading->habit != Habit::taken_off) untared.push_back(c->entry->id);
    for (const TubFigures& tub : figures_.tubs) {
      for (std::size_t n = 1; n <= untared.size(); ++n) {
        const Mass back = static_cast<double>(n) * tub.tare.mass;
        if (loss_ + back > highest_) break;
        if (!fits(back)) continue;
        std::vector<EntryId> entries;
        if (tub.defined_by) entries.push_back(*tub.defined_by);
        if (n == untared.size()) entries.insert(entries.end(), untared.begin(), untared.end());
        note(back, Code::doubt_explain_tare, std::move(entries),
             {Arg::name(tub.name), Arg::count(n), Arg::typed(tub.tare.text)});
        break;
      }
    }
  }

  // The scale was zeroed with the tub on it, and its tare was taken off once more.
  void tares_taken_twice() {
    for (const TubFigures& tub : figures_.tubs) {
      std::vector<EntryId> tared;
      for (const Contribution* c : readings_)
        if (c->tared && c->reading->tub == tub.key) tared.push_back(c->entry->id);
      // Once, or every time: some number of tares fills nearly any gap.
      for (const std::size_t n : {std::size_t{1}, tared.size()}) {
        const Mass back = -static_cast<double>(n) * tub.tare.mass;
        if (n == 0 || n > tared.size() || !fits(back)) continue;
        std::vector<EntryId> entries;
        if (tub.defined_by) entries.push_back(*tub.defined_by);
        if (n == tared.size()) entries.insert(entries.end(), tared.begin(), tared.end());
        note(back, Code::doubt_explain_tare_twice, std::move(entries),
             {Arg::name(tub.name), Arg::count(n), Arg::typed(tub.tare.text)});
        break;
      }
    }
    for (const Contribution* c : readings_) {
      if (!c->reading->tare || !c->reading->tub.empty()) continue;
      const TypedMass& tare = *c->reading->tare;
      if (!fits(-tare.mass)) continue;
      note(-tare.mass, Code::doubt_explain_tare_twice, {c->entry->id},
           {pile_of(*c), Arg::count(1), Arg::typed(tare.text)});
    }
  }

  void unit_slips() {
    if (high_) sort_weights();
    for (const Contribution* c : readings_) {
      const double sign = c->reading->habit == Habit::taken_off ? -1.0 : 1.0;
      usual_ = high_ ? usual_beside(*c) : Mass();
      try_units(c->entry->id, pile_of(*c), c->reading->weight, -sign, false);
    }
    usual_ = Mass();
    if (step_.key == "main") {
      for (const Entry* entry : facts_.winners("incoming:")) {
        const auto* weight = std::get_if<body::IncomingWeight>(&entry->body);
        if (weight != nullptr && carries_balance(weight->which))
          try_units(entry->id, word_of(weight->which), weight->weight, 1.0, true);
      }
    } else if (const auto* body = facts_.find<body::Step>("step:" + step_.key)) {
      if (body->weight)
        try_units(facts_.winner("step:" + step_.key)->id, Arg::name(step_.name), *body->weight, 1.0,
                  true);
    }
  }

  // The middle one of the other weights on the pile of a reading; 0 if it lies there alone.
  Mass usual_beside(const Contribution& reading) const {
    const std::vector<Mass>& all = weights_.at(reading.pile);
    if (all.size() < 2) return {};
    const auto own = static_cast<std::size_t>(
        std::lower_bound(all.begin(), all.end(), size_of(reading)) - all.begin());
    const std::size_t middle = (all.size() - 1) / 2;
    return all[middle < own ? middle : middle + 1];
  }

  static Mass size_of(const Contribution& c) {
    const Mass mass = c.reading->weight.mass;
    return mass < Mass() ? -mass : mass;
  }

  void sort_weights() {
    for (const Contribution* c : readings_) weights_[c->pile].push_back(size_of(*c));
    for (auto& [pile, weights] : weights_) std::sort(weights.begin(), weights.end());
  }

  // A weight like those beside it is right; a slip put right moves it towards them.
  bool nearer_usual(Mass typed, double factor) const {
    const double off = std::fabs(typed.in_grams()) / usual_.in_grams();
    if (!std::isfinite(off) || off <= 0.0) return true;
    return std::fabs(std::log(off * factor)) < std::fabs(std::log(off));
  }

  bool carries_balance(Incoming which) const {
    const IncomingFigures& in = figures_.incoming;
    if (in.drained) return which == Incoming::drained;
    if (in.received) return which == Incoming::received;
    return which == Incoming::invoice;
  }

  // `effect`: change of the loss for one gram more of this weight.
  void try_units(const EntryId& id, const Arg& name, const TypedMass& typed, double effect,
                 bool is_input) {
    const double limit_share = is_input ? limit_share_ : 0.0;
    for (const UnitSlip& slip : kUnitSlips) {
      if (slip.style != typed.style) continue;
      const Mass back = effect * (slip.factor - 1.0) * typed.mass;
      if (!fits(back, limit_share * back) || !nearer_usual(typed.mass, slip.factor)) continue;
      std::string meant = typed.text;
      const std::size_t unit = meant.rfind(slip.from);
      if (unit != std::string::npos) meant.replace(unit, slip.from.size(), slip.to);
      note(back, Code::doubt_explain_unit, {id}, {name, Arg::typed(typed.text), Arg::typed(meant)});
    }
    for (const double factor : kMarkSlips) {
      const Mass back = effect * (factor - 1.0) * typed.mass;
      if (!fits(back, limit_share * back) || !nearer_usual(typed.mass, factor)) continue;
      note(
          back, Code::doubt_explain_unit, {id},
          {name, Arg::typed(typed.text), Arg::typed(meant_text(factor * typed.mass, typed.style))});
    }
  }

  static std::string meant_text(Mass meant, WeightStyle style) {
    if (style == WeightStyle::grams)
      return mass_text(meant, style, meant < Mass::grams(1000.0) ? 1 : 0);
    return mass_text(meant, style, style == WeightStyle::kilograms ? 3 : 2);
  }

  void repeated() {
    std::map<std::pair<std::size_t, double>, std::vector<const Contribution*>> alike;
    for (const Contribution* c : readings_)
      alike[{c->pile, c->net.value().in_grams()}].push_back(c);
    for (const auto& [key, same] : alike) {
      const Mass one = Mass::grams(key.second);
      for (std::size_t n = 1; n < same.size(); ++n) {
        if (!fits(static_cast<double>(n) * one)) continue;
        std::vector<EntryId> entries;
        for (const Contribution* c : same) entries.push_back(c->entry->id);
        note(static_cast<double>(n) * one, Code::doubt_explain_repeated, std::move(entries),
             {pile_of(*same.front()), Arg::typed(same.front()->reading->weight.text)});
        break;
      }
    }
  }

  // A weight that was taken from the pile, not laid on it.
  void wrong_sign() {
    for (const Contribution* c : readings_) {
      const Habit habit = c->reading->habit;
      if (habit != Habit::taken_off && habit != Habit::increment) continue;
      const Mass back = 2.0 * c->net.value();
      if (!fits(back)) continue;
      note(back, Code::doubt_explain_sign, {c->entry->id},
           {pile_of(*c), Arg::typed(c->reading->weight.text)});
    }
  }

  const Facts& facts_;
  const PileTable& table_;
  Figures& figures_;
  const StepFigures& step_;
  Mass loss_, lowest_, highest_;
  bool high_;
  Mass usual_;          // beside the reading in question; 0: nothing to compare with
  double limit_share_;  // of the step's input
  std::vector<const Contribution*> readings_;
  std::map<std::size_t, std::vector<Mass>> weights_;  // of each pile, sorted
  std::vector<Slip> slips_;
};

bool is_negative(const Measured& loss) {
  return loss.value() < -2.0 * loss.uncertainty() - Mass::grams(1e-6);
}

// The loss to judge: what is missing while something lies on the board, else the loss.
const std::optional<Measured>& judged(const StepFigures& step) {
  if (step.missing_now && step.on_board && step.on_board->value() > Mass() &&
      !step.read_since_on_board)
    return step.missing_now;
  if (step.loss && !is_negative(*step.loss) && step.missing_now && is_negative(*step.missing_now))
    return step.missing_now;
  return step.unweighed;
}

// A pile by difference closes the balance by itself, but it cannot weigh less than nothing.
std::optional<Measured> by_difference_below(const StepFigures& step, const PileTable& table) {
  for (const PileFigures& pile : table.piles)
    if (pile.by_difference && pile.weight_known && pile.step == step.key && pile.counted &&
        is_negative(pile.weighed))
      return pile.weighed;
  return std::nullopt;
}

void doubt_step(const Facts& facts, const PileTable& table, Figures& figures,
                const StepFigures& step) {
  std::optional<Measured> loss = by_difference_below(step, table);
  if (!loss && step.loss) loss = judged(step);
  if (!loss || !step.input) return;
  const Arg name = said_name(step);
  const Mass limit = figures.settings.loss_limit * step.input->value();
  if (is_negative(*loss)) {
    figures.doubts.push_back({Code::doubt_loss_negative,
                              "step " + step.key,
                              {},
                              {name, -loss->value(), 2.0 * loss->uncertainty()},
                              -loss->value()});
    Explainer(facts, table, figures, step, step.input->value(), *loss).tell();
  } else if (loss->value() > limit + Mass::grams(1e-6) && step.input->value() > Mass()) {
    figures.doubts.push_back({Code::doubt_loss_high,
                              "step " + step.key,
                              {},
                              {name, loss->value(), Arg::share(loss->value() / step.input->value()),
                               Arg::share(figures.settings.loss_limit)},
                              loss->value()});
    Explainer(facts, table, figures, step, step.input->value(), *loss).tell();
  }
}

}  // namespace

void doubt_balance(const Facts& facts, const PileTable& table, Figures& figures) {
  for (const StepFigures& step : figures.steps) {
    if (step.process != Process::breakdown || !step.input) continue;
    bool has_outputs = false;
    for (std::size_t p = 0; p < table.piles.size(); ++p)
      has_outputs |= table.piles[p].step == step.key && !table.of_pile[p].empty();
    if (has_outputs) doubt_step(facts, table, figures, step);
  }
}

}  // namespace tallyblock
