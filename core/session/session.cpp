#include "session.h"

#include "core/session/inside/incoming.h"
#include "core/session/inside/money.h"
#include "core/session/inside/piles.h"
#include "core/session/inside/steps.h"
#include "facts.h"

namespace tallyblock {
namespace {

// What the cost of the primary part still needs, in the order a person would supply it.
void list_needs(Figures& figures) {
  const auto& whole = figures.incoming.as_purchased;
  const bool weighed = whole && whole->value() > Mass();
  if (!weighed && !figures.cost) figures.needs.push_back(Code::need_whole_weight);
  if (!figures.price_known) figures.needs.push_back(Code::need_price);
  if (!(figures.primary.value() > Mass())) figures.needs.push_back(Code::need_primary);
  if (figures.cost && !(*figures.cost > Money()))
    figures.needs.push_back(Code::need_price_not_zero);
}

}  // namespace

Figures figures_of(const EntrySet& set, const std::vector<std::string>& left_out) {
  Figures figures;
  const Facts facts(set);
  describe(facts, figures);
  weigh_in(facts, figures);
  figures.doubts = facts.doubts();
  PileTable table = weigh_piles(facts, figures);
  balance_steps(facts, table, figures);
  total_weights(table, figures);
  count_money(facts, table, figures);
  judge_targets(facts, table, figures);
  judge_eye_calls(facts, figures);
  doubt_entries(facts, table, left_out, figures);
  doubt_incoming(facts, figures);
  doubt_balance(facts, table, figures);
  list_needs(figures);
  figures.piles = std::move(table.piles);
  return figures;
}

std::optional<Measured> left_of(const Figures& figures, const PileFigures& pile, Process process,
                                const std::string& but) {
  if (!pile.weight_known) return std::nullopt;
  Measured left = pile.weighed - pile.carried - pile.from_apart;
  for (const StepFigures& step : figures.steps) {
    if (step.from_pile != pile.key || step.key == but || !step.taken) continue;
    if (step.process == Process::cooking && process != Process::cooking) continue;
    left -= *step.taken;
  }
  return left.value() > Mass::grams(1e-6) ? left : Measured();
}

const TubFigures* tub_named(const Figures& figures, const std::string& key) {
  for (const TubFigures& tub : figures.tubs) {
    if (tub.key == key) return &tub;
  }
  return nullptr;
}

const PileFigures* pile_named(const Figures& figures, const std::string& key) {
  for (const PileFigures& pile : figures.piles) {
    if (pile.key == key) return &pile;
  }
  return nullptr;
}

const TargetFigures* target_of(const Figures& figures, const std::string& pile) {
  for (const TargetFigures& target : figures.targets) {
    if (target.pile == pile) return &target;
  }
  return nullptr;
}

}  // namespace tallyblock
