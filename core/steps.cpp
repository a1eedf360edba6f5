#include "steps.h"

#include <algorithm>

namespace tallyblock {
namespace {

class Balance {
 public:
  Balance(const Facts& facts, PileTable& table, Figures& figures)
      : facts_(facts), table_(table), figures_(figures) {}

  void run() {
    list_steps();
    piles_of_.resize(figures_.steps.size());
    takers_of_.resize(table_.piles.size());
    done_.assign(figures_.steps.size(), false);
    apart_.assign(figures_.steps.size(), false);
    for (std::size_t i = 0; i < table_.piles.size(); ++i) {
      const auto found = step_place_.find(table_.piles[i].step);
      table_.piles[i].counted = found != step_place_.end();
      if (found != step_place_.end()) piles_of_[found->second].push_back(i);
      if (found == step_place_.end()) table_.piles[i].kept = table_.piles[i].weighed;
    }
    for (std::size_t s = 1; s < figures_.steps.size(); ++s) {
      const std::size_t from = table_.find(figures_.steps[s].from_pile);
      if (from != kNoPlace) takers_of_[from].push_back(s);
    }
    figures_.steps.front().input = figures_.incoming.on_the_board;
    settle_from(0);
    for (std::size_t s = 1; s < figures_.steps.size(); ++s) settle_unreached(s);
    for (StepFigures& step : figures_.steps) read_on_the_way(step);
  }

 private:
  void list_steps() {
    figures_.steps.push_back({});
    figures_.steps.front().key = "main";
    step_place_["main"] = 0;
    bodies_.push_back(nullptr);
    for (const Entry* entry : facts_.in_order()) {
      const auto* named = std::get_if<body::Step>(&entry->body);
      if (named == nullptr || facts_.live().is_void(entry->id)) continue;
      const Entry* winner = facts_.winner("step:" + named->key);
      if (winner == nullptr) continue;
      const auto& body = std::get<body::Step>(winner->body);
      const auto [place, fresh] = step_place_.try_emplace(body.key, figures_.steps.size());
      if (fresh) {
        figures_.steps.push_back({});
        bodies_.push_back(winner);
      }
      StepFigures& step = figures_.steps[place->second];
      step.key = body.key;
      step.name = body.name;
      step.process = body.process;
      if (place->second != 0) step.from_pile = body.from_pile;
    }
  }

  // What a step said to take, if it said how much.
  std::optional<Measured> said_weight(std::size_t step) const {
    const auto& body = std::get<body::Step>(bodies_[step]->body);
    if (!body.weight) return std::nullopt;
    return Measured::reading(to_text(bodies_[step]->id), body.weight->mass,
                             facts_.division_of(body.division));
  }

  void settle_from(std::size_t root) {
    std::vector<std::size_t> open{root};
    for (std::size_t at = 0; at < open.size(); ++at) {
      settle(open[at]);
      for (const std::size_t pile : piles_of_[open[at]]) feed_takers(pile, open);
    }
  }

  void settle_unreached(std::size_t step) {
    if (done_[step]) return;
    figures_.steps[step].reached = false;
    figures_.steps[step].input = said_weight(step);
    settle(step);
    for (const std::size_t p : piles_of_[step]) {
      table_.piles[p].counted = false;
      table_.piles[p].kept = table_.piles[p].weighed - table_.carried_out[p];
    }
    const std::size_t from = table_.find(figures_.steps[step].from_pile);
    if (from == kNoPlace || !step_place_.contains(table_.piles[from].step)) return;
    figures_.doubts.push_back({Code::doubt_step_circular,
                               "step " + figures_.steps[step].key,
                               {bodies_[step]->id},
                               {shown_name(figures_.steps[step])},
                               {}});
  }

  static std::string shown_name(const StepFigures& step) {
    return step.name.empty() ? step.key : step.name;
  }

  void settle(std::size_t s) {
    done_[s] = true;
    StepFigures& step = figures_.steps[s];
    std::vector<Measured> outputs;
    std::vector<std::size_t> by_difference;
    for (const std::size_t p : piles_of_[s]) {
      add_carried_in(p, step);
      if (table_.piles[p].by_difference) {
        by_difference.push_back(p);
      } else {
        outputs.push_back(table_.piles[p].weighed);
      }
    }
    for (const std::size_t p : piles_of_[s]) {
      if (apart_[s]) table_.piles[p].counted = false;
    }
    step.outputs = sum_of(std::move(outputs));
    if (by_difference.size() == 1 && step.input) {
      PileFigures& pile = table_.piles[by_difference.front()];
      pile.weighed = *step.input - step.outputs;
      step.outputs += pile.weighed;
    } else {
      for (const std::size_t p : by_difference) table_.piles[p].weight_known = false;
    }
    if (by_difference.size() > 1) doubt_two(step, by_difference);
    if (!step.input) return;
    step.unweighed = *step.input - step.outputs;
    if (!by_difference.empty()) return;
    step.loss = step.unweighed;
    if (step.input->value() > Mass()) step.loss_share = step.loss->value() / step.input->value();
  }

  void doubt_two(const StepFigures& step, const std::vector<std::size_t>& piles) {
    Doubt doubt{Code::doubt_two_by_difference,
                "step " + step.key,
                {},
                {shown_name(step), std::to_string(piles.size())},
                {}};
    for (const std::size_t p : piles)
      if (const Entry* entry = facts_.winner("by-difference:" + table_.piles[p].key))
        doubt.entries.push_back(entry->id);
    figures_.doubts.push_back(std::move(doubt));
  }

  // Weight from a pile of another step comes in as input and lies on this pile.
  void add_carried_in(std::size_t pile, StepFigures& step) {
    for (const std::size_t i : table_.of_pile[pile]) {
      const Contribution& c = table_.contributions[i];
      if (c.counts && c.across && !c.outgoing && step.input) *step.input += c.net;
    }
  }

  void feed_takers(std::size_t p, std::vector<std::size_t>& open) {
    PileFigures& pile = table_.piles[p];
    Measured taken = table_.carried_out[p];
    std::vector<std::size_t> takes_the_rest, cooked;
    for (const std::size_t s : takers_of_[p]) {
      if (done_[s]) continue;
      apart_[s] = is_cooking(figures_.steps[s]) || !pile.counted;
      if (is_cooking(figures_.steps[s])) {
        cooked.push_back(s);
      } else if (const auto weight = said_weight(s)) {
        figures_.steps[s].input = weight;
        taken += *weight;
        open.push_back(s);
      } else {
        takes_the_rest.push_back(s);
      }
    }
    doubt_overdrawn(pile, taken, takes_the_rest);
    for (std::size_t i = 0; i < takes_the_rest.size(); ++i) {
      if (i == 0 && pile.weight_known) {
        figures_.steps[takes_the_rest[i]].input = pile.weighed - taken;
        taken = pile.weighed;
      }
      open.push_back(takes_the_rest[i]);
    }
    pile.taken_further = taken;
    if (pile.weight_known) pile.kept = pile.weighed - taken;
    for (const std::size_t s : cooked) {
      figures_.steps[s].input = said_weight(s);
      if (!figures_.steps[s].input && pile.weight_known) figures_.steps[s].input = pile.kept;
      open.push_back(s);
    }
  }

  // Cooking is a test beside the yield: the pile was bought, cut and priced raw and stays so.
  static bool is_cooking(const StepFigures& step) { return step.process == Process::cooking; }

  void doubt_overdrawn(const PileFigures& pile, const Measured& taken,
                       const std::vector<std::size_t>& takes_the_rest) {
    if (!pile.weight_known) return;
    const Measured excess = taken - pile.weighed;
    const bool over = excess.value() > 2.0 * excess.uncertainty() + Mass::grams(1e-6);
    if (!over && takes_the_rest.size() < 2) return;
    Doubt doubt{Code::doubt_taken_more_than_pile,
                "pile " + pile.key,
                {},
                {pile.name, shown_mass(over ? excess.value() : Mass(), figures_.settings)},
                over ? excess.value() : Mass()};
    for (const std::size_t s : takers_of_[table_.find(pile.key)])
      doubt.entries.push_back(bodies_[s]->id);
    figures_.doubts.push_back(std::move(doubt));
  }

  void read_on_the_way(StepFigures& step) {
    for (const Entry* entry : facts_.winners("checkpoint:" + step.key + ":")) {
      const auto* check = std::get_if<body::Checkpoint>(&entry->body);
      if (check == nullptr || check->step != step.key) continue;
      step.checkpoints[check->name] = Measured::reading(to_text(entry->id), check->weight.mass,
                                                        facts_.division_of(check->division));
    }
    const Entry* latest = nullptr;
    for (const Entry* entry : facts_.counted()) {
      const auto* remainder = std::get_if<body::Remainder>(&entry->body);
      if (remainder != nullptr && remainder->step == step.key) latest = entry;
    }
    if (latest == nullptr) return;
    const auto& remainder = std::get<body::Remainder>(latest->body);
    step.on_board = Measured::reading(to_text(latest->id), remainder.weight.mass,
                                      facts_.division_of(remainder.division));
    if (step.input && step.loss) {
      step.missing_now = *step.input - outputs_before(*latest, step) - *step.on_board;
      step.read_since_on_board = read_since_;
    }
  }

  // Outputs of a step at the time of a remainder reading.
  Measured outputs_before(const Entry& remainder, const StepFigures& step) {
    std::vector<Measured> parts;
    read_since_ = false;
    for (const std::size_t p : piles_of_[step_place_.at(step.key)]) {
      for (const std::size_t i : table_.of_pile[p]) {
        const Contribution& c = table_.contributions[i];
        if (!c.counts) continue;
        if (!before(*c.placed, remainder)) {
          read_since_ = true;
          continue;
        }
        const bool inside =
            c.parent != kNoPlace && before(*table_.contributions[c.parent].placed, remainder);
        if (c.across && c.outgoing) {
          if (inside) parts.push_back(c.net.scaled(-1.0));
        } else if (!inside) {
          parts.push_back(c.net);
        }
      }
    }
    return sum_of(std::move(parts));
  }

  const Facts& facts_;
  PileTable& table_;
  Figures& figures_;
  std::map<std::string, std::size_t, std::less<>> step_place_;
  std::vector<const Entry*> bodies_;  // the entry of each step; none for "main"
  std::vector<std::vector<std::size_t>> piles_of_, takers_of_;
  std::vector<bool> done_;
  std::vector<bool> apart_;  // cooking, and what goes on from it: worked out, not counted
  bool read_since_ = false;
};

}  // namespace

void balance_steps(const Facts& facts, PileTable& table, Figures& figures) {
  Balance(facts, table, figures).run();
}

}  // namespace tallyblock
