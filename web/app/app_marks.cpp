// Acts on the open session besides typed figures: piles, voids, moves, steps, people, the timer.
#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "app.h"
#include "defaults.h"
#include "left.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr std::int64_t kMostTimedMs = 10'000ll * 60 * 1000;

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

}  // namespace

// ---- piles

// Known uses have a key of their own, others a key made of the name; never one that was used.
std::string App::fresh_pile_key(std::string_view use, const std::string& name) const {
  std::string wanted;
  for (const DefaultPile& pile : kDefaultPiles) {
    if (default_name(pile) == name) wanted = pile.key;
    if (wanted.empty() && !use.empty() && pile.use == use && name.empty()) wanted = pile.key;
  }
  if (wanted.empty()) wanted = slug_of(name).substr(0, 32);
  if (wanted.empty()) wanted = "pile-" + host_.random_id(6);
  std::set<std::string> taken;
  for (const Entry* entry : open_->set.in_order()) {
    if (const auto* pile = std::get_if<body::Pile>(&entry->body)) taken.insert(pile->key);
  }
  std::string key = wanted;
  for (int n = 2; taken.contains(key); ++n) key = wanted + '-' + std::to_string(n);
  return key;
}

// A new pile lies in the step of the chosen pile, or in the first.
void App::add_pile(Role role, const std::string& name, const std::string& use, bool main) {
  if (!may_write()) return;
  body::Pile pile;
  pile.key = fresh_pile_key(use, name);
  const PileFigures* chosen = pile_named(open_->figures, draft_.pile);
  if (chosen != nullptr && !main) pile.step = chosen->step;
  const DefaultPile* known = default_pile(pile.key);
  pile.name = name.empty() && known != nullptr ? default_name(*known) : name;
  pile.role = role;
  pile.use = use;
  const std::string key = pile.key, shown = pile.name;
  Writing writing = this->writing();
  writing.add(std::move(pile));
  put(std::move(writing), {"notice.pile-added", {shown}, true, false}, [&] { draft_.pile = key; });
}

void App::set_pile_role(const std::string& pile, Role role) {
  if (!may_write()) return;
  body::Pile like;
  like.key = pile;
  const auto* now = latest<body::Pile>(like);
  if (now == nullptr || now->role == role) return;
  body::Pile changed_pile = *now;
  changed_pile.role = role;
  const std::string name = now->name;
  Writing writing = this->writing();
  writing.add(std::move(changed_pile), live_of(like));
  put(std::move(writing),
      {"notice.pile-role", {name, say("role." + std::string(name_of(role)))}, true, false});
}

void App::set_by_difference(const std::string& pile, bool on) {
  if (!may_write()) return;
  const PileFigures* figures = pile_named(open_->figures, pile);
  if (figures == nullptr) return;
  body::ByDifference mark{pile, on};
  std::vector<EntryId> replaces = live_of(mark);
  Writing writing = this->writing();
  const std::string name = figures->name;
  writing.add(std::move(mark), std::move(replaces));
  put(std::move(writing),
      {on ? "notice.by-difference" : "notice.weighed-again", {name}, true, false});
}

// ---- taking back

// Voiding a corrected fact means the fact, not only its last correction.
std::vector<EntryId> App::with_what_it_replaced(const EntryId& id) const {
  std::vector<EntryId> ids{id};
  for (std::size_t at = 0; at < ids.size(); ++at) {
    const Entry* entry = open_->set.find(ids[at]);
    if (entry == nullptr) continue;
    for (const EntryId& before : entry->replaces) {
      if (std::find(ids.begin(), ids.end(), before) == ids.end()) ids.push_back(before);
    }
  }
  return ids;
}

// With a tub that is taken out go its choice and the digits for it, also those put aside.
void App::leave_gone_tub() {
  const auto gone = [this](const std::string& key) {
    return tub_named(open_->figures, key) == nullptr;
  };
  if (gone(draft_.tub)) draft_.tub.clear();
  if (draft_.held.kind == FieldKind::tub_tare && gone(draft_.held.subject)) {
    draft_.aside.erase(aside_key(draft_.held));
    draft_.held = {};
  }
  if (draft_.field.kind != FieldKind::tub_tare || !gone(draft_.field.subject)) return;
  draft_.digits.clear();
  draft_.field = {};
  field_problem_.reset();
  if (draft_.screen == Screen::weigh) go_to_default_field();
}

bool App::void_all(const std::vector<EntryId>& ids, Notice notice, bool undoable) {
  Writing writing = this->writing();
  for (const EntryId& id : ids) writing.add(body::Void{id});
  if (!put(std::move(writing), std::move(notice), [this] {
        draft_.selected.clear();
        leave_gone_tub();
      })) {
    return false;
  }
  if (!undoable) undo_.pop_back();
  return true;
}

void App::void_entry(const EntryId& id) {
  if (!may_write() || open_->set.find(id) == nullptr) return;
  const LiveView live(open_->set);
  std::vector<EntryId> ids = with_what_it_replaced(id);
  for (const EntryId& trim : trims_of(id)) ids.push_back(trim);
  ids.erase(std::remove_if(ids.begin(), ids.end(),
                           [&](const EntryId& each) { return live.is_void(each); }),
            ids.end());
  if (!ids.empty()) void_all(ids, {"notice.voided", {}, true, false}, true);
}

void App::restore_entry(const EntryId& id) {
  if (!may_write()) return;
  const LiveView live(open_->set);
  std::vector<EntryId> voids;
  for (const EntryId& each : with_what_it_replaced(id)) {
    for (const EntryId& taking_out : live.voids_of(each)) voids.push_back(taking_out);
  }
  if (!voids.empty()) void_all(voids, {"notice.restored", {}, true, false}, true);
}

void App::move_reading(const EntryId& id, const std::string& to_pile) {
  if (!may_write() || open_->set.find(id) == nullptr) return;
  const PileFigures* to = pile_named(open_->figures, to_pile);
  if (to == nullptr) return;
  body::Move move{id, to_pile};
  std::vector<EntryId> replaces = live_of(move);
  const std::string name = to->name;
  Writing writing = this->writing();
  writing.add(std::move(move), std::move(replaces));
  put(std::move(writing), {"notice.moved", {name}, true, false}, [this, to_pile] {
    draft_.selected.clear();
    draft_.panel.clear();
    // What was moved tells which pile is being filled.
    if (!draft_.digits.empty()) return;
    undo_.back().pile = draft_.pile;
    fill_next(to_pile);
  });
}

void App::undo_now() {
  if (!may_write()) return;
  const LiveView live(open_->set);
  // What was taken out in another way meanwhile would be undone without effect.
  const auto is_out = [&](const EntryId& id) { return live.is_void(id); };
  while (!undo_.empty() && std::ranges::all_of(undo_.back().entries, is_out)) undo_.pop_back();
  if (undo_.empty()) return tell("notice.nothing-to-undo");
  const UndoStep step = undo_.back();
  undo_.pop_back();
  if (!void_all(step.entries, {"notice.undone", {}, false, false}, false)) {
    undo_.push_back(step);
  } else if (!step.pile.empty() && draft_.digits.empty()) {
    draft_.pile = step.pile;
  }
}

// ---- tubs, steps, quality, settings

void App::add_tub(const std::string& name) {
  if (!may_write()) return;
  const Settings& settings = open_->figures.settings;
  const std::string unit = settings.unit == "lb-oz" ? "lb" : settings.unit;
  body::Tub tub;
  tub.key = "tub-" + host_.random_id(6);
  tub.name =
      name.empty() ? say("tub.numbered", {std::to_string(open_->figures.tubs.size() + 1)}) : name;
  tub.tare = TypedMass{"0 " + unit, Mass(), WeightStyle::grams};
  tub.division = settings.division;
  const std::string key = tub.key, shown = tub.name;
  Writing writing = this->writing();
  writing.add(std::move(tub));
  put(std::move(writing), {"notice.tub-added", {shown}, true, false}, [&] {
    // Added beside the keypad, it is for what is weighed now.
    if (draft_.screen == Screen::weigh) draft_.tub = key;
    draft_.field = {FieldKind::tub_tare, key};
    draft_.digits.clear();
  });
}

void App::break_down(const std::string& pile, const std::string& name, Process process) {
  const PileFigures* from = may_write() ? pile_named(open_->figures, pile) : nullptr;
  if (from == nullptr) return;
  if (nothing_left(open_->figures, *from, process)) {
    const bool cooked = !nothing_left(open_->figures, *from, Process::other);
    return tell_error(cooked ? "notice.all-cooked" : "notice.nothing-left", {from->name});
  }
  const std::string key = "step-" + host_.random_id(6);
  Writing writing = this->writing();
  writing.add(body::Step{key, name, process, pile, std::nullopt, open_->figures.settings.division});
  std::string first;
  for (const DefaultPile* output : outputs_of(process, from->role)) {
    body::Pile made = made_of(*output, key + '-' + std::string(output->key), key);
    if (process != Process::breakdown) {
      made.name = name;
      made.role = from->role;
    }
    if (first.empty()) first = made.key;
    writing.add(std::move(made));
  }
  put(std::move(writing),
      {"notice.broken-down", {pile_named(open_->figures, pile)->name}, true, false},
      [&] { draft_.pile = first; });
}

// The live entries that are about a step: itself, its piles, what lies on them, and the steps that
// go on from them.
std::vector<EntryId> App::all_of_step(const std::string& step) const {
  const LiveView live(open_->set);
  std::set<std::string> steps{step}, piles;
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
  for (const PileFigures& pile : open_->figures.piles) {
    if (!piles.contains(pile.key)) continue;
    for (const ReadingLine& line : pile.lines) lying.insert(line.id);
  }
  std::vector<EntryId> ids;
  for (const Entry* entry : live.entries()) {
    if (is_about(entry->body, steps, piles) || lying.contains(entry->id)) ids.push_back(entry->id);
  }
  return ids;
}

void App::take_out_step(const std::string& step) {
  if (!may_write()) return;
  const std::vector<EntryId> ids = all_of_step(step);
  std::string name = step;
  for (const StepFigures& s : open_->figures.steps) {
    if (s.key == step && !s.name.empty()) name = s.name;
  }
  const std::string pile = draft_.pile;
  if (ids.empty() || !void_all(ids, {"notice.step-out", {name}, true, false}, true)) return;
  if (pile_named(open_->figures, pile) != nullptr) return;
  undo_.back().pile = pile;
  draft_.pile.clear();
  changed_draft();
}

// The tolerance that is usual for a portion of that weight, instead of one of its own.
void App::usual_tolerance(const std::string& pile) {
  if (!may_write()) return;
  body::Target target{pile, {}, std::nullopt};
  const auto* now = latest<body::Target>(target);
  if (now == nullptr || !now->tolerance) return;
  target.weight = now->weight;
  std::vector<EntryId> replaces = live_of(target);
  Writing writing = this->writing();
  writing.add(std::move(target), std::move(replaces));
  put(std::move(writing), {"notice.usual-tolerance", {}, true, false});
}

void App::set_quality(const std::string& check, bool pass) {
  if (!may_write()) return;
  body::Quality quality{check, pass};
  std::vector<EntryId> replaces = live_of(quality);
  Writing writing = this->writing();
  writing.add(std::move(quality), std::move(replaces));
  put(std::move(writing), {"notice.quality",
                           {say("quality." + check), say(pass ? "quality.pass" : "quality.fail")},
                           true,
                           false});
}

void App::set_session_setting(const std::string& key, const std::string& value) {
  if (!may_write()) return;
  if (!valid_setting(key, value)) return tell_error("notice.setting-refused", {value});
  body::Setting setting{key, value};
  std::vector<EntryId> replaces = live_of(setting);
  Writing writing = this->writing();
  writing.add(std::move(setting), std::move(replaces));
  put(std::move(writing), {"notice.setting-changed", {say("setting." + key)}, true, false}, [&] {
    if (key == "unit") draft_.unit = value;
    if (draft_.text_field == key) clear_text();
  });
}

// ---- people and time

void App::set_person(const EntryId& person) {
  if (!open_) return;
  const Entry* entry = open_->set.find(person);
  const auto* body = entry == nullptr ? nullptr : std::get_if<body::Person>(&entry->body);
  if (body == nullptr) return;
  draft_.person = to_text(person);
  tell("notice.person", {body->name});
  changed_draft();
}

void App::timer_start() {
  if (!open_ || draft_.timer_started_ms != 0) return;
  draft_.timer_started_ms = std::max<std::int64_t>(host_.utc_ms(), 1);
  timer_seen_ms_ = host_.monotonic_ms();
  timer_told_ = false;
  changed_draft();
  arm();
}

// The time so far becomes an entry; while entries are refused it is gathered for later.
void App::timer_pause() {
  if (!open_ || (draft_.timer_started_ms == 0 && draft_.timer_gathered_ms == 0)) return;
  const bool doubtful = timer_doubtful();
  draft_.timer_gathered_ms = std::min(timer_ms(), kMostTimedMs);
  draft_.timer_started_ms = 0;
  const std::int64_t ms = draft_.timer_gathered_ms;
  if (ms == 0 || !may_write()) return changed_draft();
  Writing writing = this->writing();
  writing.add(body::Labour{std::nullopt, ms});
  const double before = open_->figures.minutes;
  const double all = before + static_cast<double>(ms) / 60'000;
  Notice notice{"notice.timed", {std::to_string((ms + 30'000) / 60'000)}, true, false};
  if (before > 0.0) {
    notice.key = "notice.timed-more";
    notice.args.push_back(std::to_string(std::lround(all)));
  }
  put(std::move(writing), std::move(notice), [this] { draft_.timer_gathered_ms = 0; });
  if (doubtful) tell_error("notice.timer-clock");
}

void App::pause_before_leaving() {
  if (draft_.timer_started_ms != 0 || draft_.timer_gathered_ms != 0) timer_pause();
}

}  // namespace tallyblock
