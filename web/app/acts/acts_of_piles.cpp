#include "acts_of_piles.h"

#include <algorithm>
#include <set>
#include <utility>

#include "web/app/acts/guided.h"
#include "web/app/desk/left.h"
#include "web/app/desk/line_of.h"
#include "web/app/shelf/defaults.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

// The piles a further step begins with. What comes of a pile counts as that pile did, no higher.
std::vector<const DefaultPile*> outputs_of(Process process, Role from) {
  const DefaultPile* trim = default_pile("usable-trim");
  const DefaultPile* first = from == Role::primary     ? default_pile("portions")
                             : from == Role::secondary ? default_pile("second-cuts")
                                                       : trim;
  if (process != Process::breakdown) return {first};
  if (first == trim) return {trim, default_pile("unusable-trim")};
  return {first, trim, default_pile("unusable-trim")};
}

using Keys = std::set<std::string>;

// Readings are asked for apart: where they lie counts, not where they were first laid.
bool is_about(const Body& body, const Keys& steps, const Keys& piles) {
  if (const auto* b = std::get_if<body::Step>(&body)) return steps.contains(b->key);
  if (const auto* b = std::get_if<body::Remainder>(&body)) return steps.contains(b->step);
  if (const auto* b = std::get_if<body::Checkpoint>(&body)) return steps.contains(b->step);
  if (const auto* b = std::get_if<body::Pile>(&body)) return piles.contains(b->key);
  if (const auto* b = std::get_if<body::ByDifference>(&body)) return piles.contains(b->pile);
  if (const auto* b = std::get_if<body::Target>(&body)) return piles.contains(b->pile);
  if (const auto* b = std::get_if<body::Transfer>(&body)) {
    return piles.contains(b->from_pile) || piles.contains(b->to_pile);
  }
  const auto* price = std::get_if<body::Price>(&body);
  return price != nullptr && price->of.starts_with("pile:") && piles.contains(price->of.substr(5));
}

// Known uses have a key of their own, others a key made of the name; never one that was used.
std::string fresh_key(const OpenSession& open, const body::Pile& like, const std::string& fresh) {
  std::string wanted;
  for (const DefaultPile& pile : kDefaultPiles) {
    if (default_name(pile) == like.name) wanted = pile.key;
    if (wanted.empty() && !like.use.empty() && pile.use == like.use && like.name.empty())
      wanted = pile.key;
  }
  if (wanted.empty()) wanted = slug_of(like.name).substr(0, 32);
  if (wanted.empty()) wanted = "pile-" + fresh;
  Keys taken;
  for (const Entry* entry : open.set.in_order()) {
    if (const auto* pile = std::get_if<body::Pile>(&entry->body)) taken.insert(pile->key);
  }
  std::string key = wanted;
  for (int n = 2; taken.contains(key); ++n) key = wanted + '-' + std::to_string(n);
  return key;
}

// The live entries that are about a step: itself, its piles, what lies on them, and the steps that
// go on from them.
std::vector<EntryId> all_of_step(const OpenSession& open, const std::string& step) {
  const LiveView live(open.set);
  Keys steps{step}, piles;
  for (bool grown = true; grown;) {
    const std::size_t before = steps.size() + piles.size();
    for (const Entry* entry : live.entries()) {
      const auto* pile = std::get_if<body::Pile>(&entry->body);
      if (pile != nullptr && steps.contains(pile->step)) piles.insert(pile->key);
      const auto* next = std::get_if<body::Step>(&entry->body);
      if (next != nullptr && piles.contains(next->from_pile)) steps.insert(next->key);
    }
    grown = steps.size() + piles.size() > before;
  }
  std::set<EntryId> lying;
  for (const PileFigures& pile : open.figures.piles) {
    if (!piles.contains(pile.key)) continue;
    for (const ReadingLine& line : pile.lines) lying.insert(line.id);
  }
  std::vector<EntryId> ids;
  for (const Entry* entry : live.entries()) {
    if (is_about(entry->body, steps, piles) || lying.contains(entry->id)) ids.push_back(entry->id);
  }
  return ids;
}

Made in_place(const OpenSession& open, Writing to, Body body, Notice notice) {
  to.add_fact(open, std::move(body));
  return {std::move(to), std::move(notice)};
}

}  // namespace

// ---- piles

Made add_pile(const OpenSession& open, Writing to, const body::Pile& like,
              const std::string& fresh) {
  body::Pile pile = like;
  pile.key = fresh_key(open, like, fresh);
  const DefaultPile* known = default_pile(pile.key);
  if (pile.name.empty() && known != nullptr) pile.name = default_name(*known);
  const std::string shown = pile.name;
  to.add(std::move(pile));
  return {std::move(to), done("notice.pile-added", {shown})};
}

Made use_set(const OpenSession& open, Writing to, const std::string& key) {
  const auto set = std::ranges::find(kPileSets, key, &PileSet::key);
  if (set == std::end(kPileSets)) return {};
  for (const PileFigures& pile : open.figures.piles) {
    const bool stays =
        std::ranges::find(set->piles, pile.key, &DefaultPile::key) != set->piles.end();
    if (stays || pile.step != kMainStep || !pile.lines.empty()) continue;
    body::Pile like;  // however often it was named
    like.key = pile.key;
    for (const EntryId& id : all_of(open, like)) to.add(body::Void{id});
  }
  for (const DefaultPile& pile : set->piles) {
    body::Pile wanted{std::string(pile.key), std::string(kMainStep), set_name(*set, pile),
                      pile.role, std::string(pile.use)};
    const auto* now = latest(open, wanted);
    const bool there = now != nullptr && now->name == wanted.name && now->role == wanted.role &&
                       now->use == wanted.use;
    if (!there) to.add_fact(open, std::move(wanted));
  }
  if (to.made.empty()) return {};
  return {std::move(to), done("notice.use-set", {say("set." + key)})};
}

Made set_pile_role(const OpenSession& open, Writing to, const std::string& pile, Role role) {
  body::Pile like;
  like.key = pile;
  const auto* now = latest(open, like);
  if (now == nullptr || now->role == role) return {};
  body::Pile changed = *now;
  changed.role = role;
  return in_place(open, std::move(to), std::move(changed),
                  done("notice.pile-role", {now->name, say("role." + std::string(name_of(role)))}));
}

Made set_by_difference(const OpenSession& open, Writing to, const std::string& pile, bool on) {
  const PileFigures* figures = pile_named(open.figures, pile);
  if (figures == nullptr) return {};
  return in_place(open, std::move(to), body::ByDifference{pile, on},
                  done(on ? "notice.by-difference" : "notice.weighed-again", {figures->name}));
}

Made move_reading(const OpenSession& open, Writing to, const EntryId& id,
                  const std::string& to_pile) {
  const PileFigures* pile = pile_named(open.figures, to_pile);
  if (pile == nullptr || open.set.find(id) == nullptr) return {};
  return in_place(open, std::move(to), body::Move{id, to_pile}, done("notice.moved", {pile->name}));
}

// ---- taking back

Made void_all(Writing to, const std::vector<EntryId>& ids, Notice notice) {
  if (ids.empty()) return {};
  for (const EntryId& id : ids) to.add(body::Void{id});
  return {std::move(to), std::move(notice)};
}

Made void_entry(const OpenSession& open, Writing to, const EntryId& id) {
  if (open.set.find(id) == nullptr) return {};
  const LiveView live(open.set);
  std::vector<EntryId> ids = with_what_it_replaced(open, id);
  for (const EntryId& trim : trims_of(open, id)) ids.push_back(trim);
  std::erase_if(ids, [&](const EntryId& each) { return live.is_void(each); });
  return void_all(std::move(to), ids, done("notice.voided"));
}

Made restore_entry(const OpenSession& open, Writing to, const EntryId& id) {
  const LiveView live(open.set);
  std::vector<EntryId> voids;
  for (const EntryId& each : with_what_it_replaced(open, id)) {
    for (const EntryId& taking_out : live.voids_of(each)) voids.push_back(taking_out);
  }
  return void_all(std::move(to), voids, done("notice.restored"));
}

bool all_void(const OpenSession& open, const std::vector<EntryId>& ids) {
  const LiveView live(open.set);
  return std::ranges::all_of(ids, [&](const EntryId& id) { return live.is_void(id); });
}

// ---- tubs, steps, quality, settings

Made add_tub(const OpenSession& open, Writing to, const std::string& name,
             const std::string& fresh) {
  const Settings& settings = open.figures.settings;
  const std::string unit = settings.unit == "lb-oz" ? "lb" : settings.unit;
  body::Tub tub;
  tub.key = "tub-" + fresh;
  tub.name =
      name.empty() ? say("tub.numbered", {std::to_string(open.figures.tubs.size() + 1)}) : name;
  tub.tare = TypedMass{"0 " + unit, Mass(), WeightStyle::grams};
  tub.division = settings.division;
  const std::string shown = tub.name;
  to.add(std::move(tub));
  return {std::move(to), done("notice.tub-added", {shown})};
}

Made break_down(const OpenSession& open, Writing to, const std::string& pile,
                const std::string& name, Process process, const std::string& fresh) {
  const PileFigures* from = pile_named(open.figures, pile);
  if (from == nullptr) return {};
  if (nothing_left(open.figures, *from, process)) {
    const bool cooked = !nothing_left(open.figures, *from, Process::other);
    return refused(cooked ? "notice.all-cooked" : "notice.nothing-left", {from->name});
  }
  const std::string key = "step-" + fresh;
  to.add(body::Step{key, name, process, pile, std::nullopt, open.figures.settings.division});
  for (const DefaultPile* output : outputs_of(process, from->role)) {
    body::Pile made = made_of(*output, key + '-' + std::string(output->key), key);
    if (process != Process::breakdown) {
      made.name = name;
      made.role = from->role;
    }
    to.add(std::move(made));
  }
  return {std::move(to), done("notice.broken-down", {from->name})};
}

Made take_out_step(const OpenSession& open, Writing to, const std::string& step) {
  std::string name = step;
  for (const StepFigures& s : open.figures.steps) {
    if (s.key == step && !s.name.empty()) name = s.name;
  }
  return void_all(std::move(to), all_of_step(open, step), done("notice.step-out", {name}));
}

Made usual_tolerance(const OpenSession& open, Writing to, const std::string& pile) {
  body::Target target{pile, {}, std::nullopt};
  const auto* now = latest(open, target);
  if (now == nullptr || !now->tolerance) return {};
  target.weight = now->weight;
  return in_place(open, std::move(to), std::move(target), done("notice.usual-tolerance"));
}

Made set_quality(const OpenSession& open, Writing to, const std::string& check, bool pass) {
  return in_place(open, std::move(to), body::Quality{check, pass},
                  done("notice.quality",
                       {say("quality." + check), say(pass ? "quality.pass" : "quality.fail")}));
}

Made set_session_setting(const OpenSession& open, Writing to, const std::string& key,
                         const std::string& value) {
  return in_place(open, std::move(to), body::Setting{key, value},
                  done("notice.setting-changed", {say("setting." + key)}));
}

}  // namespace tallyblock
