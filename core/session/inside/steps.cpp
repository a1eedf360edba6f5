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
    for (std::size_t i = 0; i < table_.piles.size(); ++i) {
      const auto found = step_place_.find(table_.piles[i].step);
      table_.piles[i].counted = false;
      if (found != step_place_.end()) piles_of_[found->second].push_back(i);
      if (found == step_place_.end()) table_.piles[i].kept = table_.piles[i].weighed;
    }
    for (std::size_t s = 1; s < figures_.steps.size(); ++s) {
      const std::size_t from = table_.find(figures_.steps[s].from_pile);
      if (from != kNoPlace) takers_of_[from].push_back(s);
    }
    find_counted();
    part_carried();
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

  // Counted is what a chain of piles connects with the purchase, but for cooking and all after it.
  void find_counted() {
    for (StepFigures& step : figures_.steps) step.counted = false;
    figures_.steps.front().counted = true;
    std::vector<std::size_t> open{0};
    for (std::size_t at = 0; at < open.size(); ++at) {
      for (const std::size_t p : piles_of_[open[at]]) {
        table_.piles[p].counted = true;
        for (const std::size_t s : takers_of_[p]) {
          if (figures_.steps[s].counted || is_cooking(figures_.steps[s])) continue;
          figures_.steps[s].counted = true;
          open.push_back(s);
        }
      }
    }
  }

  // Weight carried between a pile that counts and one that does not changes nothing of the first in
  // the yield test: like what is cooked it stays, and what comes from there does not come in.
  void part_carried() {
    carried_on_ = table_.carried_out;
    for (std::size_t p = 0; p < table_.piles.size(); ++p)
      table_.piles[p].carried = table_.carried_out[p];
    for (std::size_t i = 0; i + 1 < table_.contributions.size(); ++i) {
      const Contribution &given = table_.contributions[i], &taken = table_.contributions[i + 1];
      if (!given.counts || !given.across || !given.outgoing) continue;
      const bool from = table_.piles[given.pile].counted, to = table_.piles[taken.pile].counted;
      if (from && !to) carried_on_[given.pile] -= taken.net;
      if (to && !from) table_.piles[taken.pile].from_apart += taken.net;
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
    figures_.steps[step].taken = said_weight(step);
    figures_.steps[step].input = figures_.steps[step].taken;
    settle(step);
    for (const std::size_t p : piles_of_[step]) {
      table_.piles[p].kept = table_.piles[p].weighed - table_.carried_out[p];
    }
    const std::size_t from = table_.find(figures_.steps[step].from_pile);
    if (from == kNoPlace || !step_place_.contains(table_.piles[from].step)) return;
    figures_.doubts.push_back({Code::doubt_step_circular,
                               "step " + figures_.steps[step].key,
                               {bodies_[step]->id},
                               {said_name(figures_.steps[step])},
                               {}});
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
                {said_name(step), Arg::count(piles.size())},
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
    std::vector<std::size_t> onward, cooked;
    for (const std::size_t s : takers_of_[p]) {
      if (done_[s]) continue;
      (is_cooking(figures_.steps[s]) ? cooked : onward).push_back(s);
    }
    const Measured lent = pile.from_apart + (table_.carried_out[p] - carried_on_[p]);
    const Measured taken = share_out(p, table_.carried_out[p] + pile.from_apart, onward);
    pile.taken_further = taken - lent;
    if (pile.weight_known) pile.kept = pile.weighed - pile.taken_further - pile.from_apart;
    // What went on beyond the pile is doubted once, not again for its cooking tests.
    const bool over = pile.weight_known && taken.value() > pile.weighed.value();
    if (!cooked.empty()) share_out(p, over ? pile.weighed : taken, cooked);
    open.insert(open.end(), onward.begin(), onward.end());
    open.insert(open.end(), cooked.begin(), cooked.end());
  }

  // A step gets what it said to take. Of those that said nothing the first gets what is left of the
  // pile and the others nothing, so that no weight is counted twice. Gives all that is gone then.
  Measured share_out(std::size_t p, Measured gone, const std::vector<std::size_t>& takers) {
    const PileFigures& pile = table_.piles[p];
    std::vector<std::size_t> takes_the_rest;
    for (const std::size_t s : takers) {
      const std::optional<Measured> said = said_weight(s);
      figures_.steps[s].taken = said;
      if (said) {
        gone += *said;
      } else {
        takes_the_rest.push_back(s);
      }
    }
    if (pile.weight_known) {
      Measured left = pile.weighed - gone;
      if (left.value() < Mass::grams(1e-6)) left = {};
      doubt_overdrawn(p, gone, left, takers, takes_the_rest.size());
      for (const std::size_t s : takes_the_rest) {
        figures_.steps[s].taken = left;
        gone += left;
        left = {};
      }
    }
    for (const std::size_t s : takers) figures_.steps[s].input = figures_.steps[s].taken;
    return gone;
  }

  // Cooking is a test beside the yield: the pile was bought, cut and priced raw and stays so.
  static bool is_cooking(const StepFigures& step) { return step.process == Process::cooking; }

  // Beyond the pile is what was said above its weight, and what is left once for every step but the
  // first that takes all of it.
  void doubt_overdrawn(std::size_t p, const Measured& said, const Measured& left,
                       const std::vector<std::size_t>& takers, std::size_t take_the_rest) {
    const PileFigures& pile = table_.piles[p];
    const Measured over = said - pile.weighed;
    Mass excess;
    if (over.value() > 2.0 * over.uncertainty() + Mass::grams(1e-6)) excess = over.value();
    if (take_the_rest > 1) excess += static_cast<double>(take_the_rest - 1) * left.value();
    if (!(excess > Mass::grams(1e-6))) return;
    Doubt doubt{Code::doubt_taken_more_than_pile,
                "pile " + pile.key,
                {},
                {Arg::name(pile.name), excess},
                excess};
    for (const std::size_t s : takers) doubt.entries.push_back(bodies_[s]->id);
    for (const std::size_t i : table_.of_pile[p]) {
      const Contribution& c = table_.contributions[i];
      if (c.counts && c.across && c.outgoing) doubt.entries.push_back(c.entry->id);
    }
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
          parts.push_back(c.keeps - Measured::exact(c.still));
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
  std::vector<Measured>
      carried_on_;  // of each pile, but for what an uncounted one got of a counted
  bool read_since_ = false;
};

}  // namespace

void balance_steps(const Facts& facts, PileTable& table, Figures& figures) {
  Balance(facts, table, figures).run();
}

}  // namespace tallyblock
