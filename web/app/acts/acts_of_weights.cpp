// What becomes of the digits, one function for each field: facts and weights. Money is in acts_of_money.cpp,
// which function is whose in fields.h.
#include <ranges>

#include "web/app/desk/line_of.h"
#include "web/words/words.h"
#include "work.h"

namespace tallyblock {
namespace {

constexpr std::string_view kCleaned = "cleaned";

// The subject of the field, else the first step.
std::string step_of(const Field& field) {
  return field.subject.empty() ? kMainStep : field.subject;
}

// No more than is left of the pile, as far as its readings tell; `but` is the step that asks. The sentence
// that says so, if it is more.
std::optional<Notice> takes_too_much(const Work& w, const std::string& key, const TypedMass& mass,
                                     Process process, const std::string& but) {
  const PileFigures* pile = pile_named(w.figures(), key);
  if (pile == nullptr) return std::nullopt;
  const auto left = left_of(w.figures(), *pile, process, but);
  if (!left || mass.mass <= left->value() + 2.0 * left->uncertainty() + Mass::grams(1e-6))
    return std::nullopt;
  if (!(left->value() > Mass())) return refused("notice.nothing-left", {pile->name});
  return refused("notice.more-than-left",
                 {pile->name, as_shown(w.settings, shown_mass(left->value(), w.figures().settings)),
                  as_shown(w.settings, mass.text)});
}

}  // namespace

// The names of their fields are those of the weights.
Made commit_incoming(Work& w) {
  const auto which = incoming_from(name_of(w.field().kind));
  const auto mass = typed_mass(w);
  if (!which) return {};
  if (!mass) return mass.problem();
  body::IncomingWeight weight{*which, *mass, w.figures().settings.division, w.draft().count};
  return fact(w, std::move(weight), mass->text);
}

Made commit_remainder(Work& w) {
  const auto mass = typed_mass(w);
  if (!mass) return mass.problem();
  return fact(w, body::Remainder{step_of(w.field()), *mass, w.figures().settings.division},
              mass->text);
}

Made commit_checkpoint(Work& w) {
  const auto mass = typed_mass(w);
  if (!mass) return mass.problem();
  body::Checkpoint cleaned{step_of(w.field()), std::string(kCleaned), *mass,
                           w.figures().settings.division};
  return fact(w, std::move(cleaned), mass->text);
}

Made commit_division(Work& w) {
  const auto mass = typed_mass(w);
  if (!mass) return mass.problem();
  return fact(w, body::Setting{"division", mass->text}, mass->text);
}

Made commit_target(Work& w) {
  const auto mass = typed_mass(w);
  if (!mass) return mass.problem();
  body::Target target{w.field().subject, *mass, std::nullopt};
  if (const auto* now = latest(w.open(), target)) target.tolerance = now->tolerance;
  return fact(w, std::move(target), mass->text);
}

Made commit_tolerance(Work& w) {
  const auto mass = typed_mass(w);
  if (!mass) return mass.problem();
  body::Target target{w.field().subject, {}, *mass};
  const auto* now = latest(w.open(), target);
  if (now == nullptr)
    return Problem{Code::need_target, std::string(name_of(FieldKind::target)), {}};
  target.weight = now->weight;
  return fact(w, std::move(target), mass->text);
}

Made commit_tub_tare(Work& w) {
  const auto mass = typed_mass(w);
  if (!mass) return mass.problem();
  body::Tub tub{w.field().subject, "", *mass, w.figures().settings.division};
  if (const auto* now = latest(w.open(), tub)) tub.name = now->name;
  return fact(w, std::move(tub), mass->text);
}

Made commit_step_weight(Work& w) {
  const auto mass = typed_mass(w);
  if (!mass) return mass.problem();
  for (const auto& step : std::views::reverse(w.figures().steps)) {
    if (step.from_pile != w.field().subject) continue;
    body::Step like;
    like.key = step.key;
    const auto* now = latest(w.open(), like);
    if (now == nullptr) continue;
    if (auto no = takes_too_much(w, step.from_pile, *mass, step.process, step.key)) return *no;
    body::Step weighed = *now;
    weighed.weight = *mass;
    weighed.division = w.figures().settings.division;
    return fact(w, std::move(weighed), mass->text);
  }
  return refused("notice.no-step");
}

Made commit_transfer(Work& w) {
  const auto mass = typed_mass(w);
  if (!mass) return mass.problem();
  const std::string& from = w.field().subject;
  const std::string& to = w.draft().pile;
  if (to.empty() || to == from) return Notice{"notice.choose-other-pile", {}};
  if (auto no = takes_too_much(w, from, *mass, Process::other, {})) return *no;
  return one(w, body::Transfer{from, to, *mass, w.figures().settings.division},
             done("notice.carried", {as_shown(w.settings, mass->text), pile_name(w.open(), from),
                                     pile_name(w.open(), to)}));
}

}  // namespace tallyblock
