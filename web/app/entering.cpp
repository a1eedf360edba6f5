// What is entered into the open session, and how it is taken back; new sessions.
#include <algorithm>
#include <utility>

#include "rooms.h"
#include "web/app/acts/acts_of_money.h"
#include "web/app/acts/acts_of_piles.h"
#include "web/figures/sentence.h"
#include "web/words/words.h"

namespace tallyblock {

Writing Rooms::writing_into(const OpenSession& session) const {
  return tallyblock::writing_into(session, writer_id,
                                  stamp_in(session, host.utc_ms(), host.offset_minutes()));
}

// Precondition: a session is open.
Writing Rooms::writing() const {
  Writing out = writing_into(*desk.session());
  const EntryId who = keypad.person();
  if (desk.session()->set.find(who) != nullptr) out.by = who;
  return out;
}

std::optional<Act> Rooms::enter(Made made) {
  if (!made.problem) made.problem = std::move(made.writing.problem);
  if (made.problem) {
    refuse(*std::move(made.problem));
    return std::nullopt;
  }
  const std::vector<Entry>& entries = made.writing.made;
  if (entries.empty()) {
    if (made.notice.key.empty() || made.notice.can_undo) return std::nullopt;
    notices.now = std::move(made.notice);  // why not
    changed();
    return std::nullopt;
  }
  Act act;
  desk.enter(entries);
  const OpenSession& open = *desk.session();
  for (const Entry& entry : entries) act.enter(open.id, entry);
  shelf.put(card_of(open), act);
  desk.can_undo(entries);
  notices.say(std::move(made.notice));
  if (std::holds_alternative<body::Void>(entries.front().body)) {
    keypad.draft.selected.clear();
    keypad.leave_gone_tub(open);
  }
  // What is weighed next would lie nowhere.
  std::string& pile = keypad.draft.pile;
  if (!pile.empty() && pile_named(open.figures, pile) == nullptr) pile.clear();
  return act;
}

bool Rooms::put(Made made) {
  std::optional<Act> act = enter(std::move(made));
  if (!act) return false;
  keep(*std::move(act));
  return true;
}

void Rooms::undo() {
  if (!may_write()) return;
  std::vector<UndoStep>& steps = desk.undo();
  // What was taken out in another way meanwhile would be undone without effect.
  while (!steps.empty() && all_void(*desk.session(), steps.back().entries)) steps.pop_back();
  if (steps.empty()) return tell("notice.nothing-to-undo");
  const UndoStep step = steps.back();
  steps.pop_back();  // before the undoing itself comes: a full list loses none by it
  auto act = enter(void_all(writing(), step.entries, {"notice.undone", {}, false, false}));
  if (!act) return steps.push_back(step);
  steps.pop_back();  // the undoing itself
  if (!step.pile.empty() && keypad.draft.digits.empty()) keypad.draft.pile = step.pile;
  keep(*std::move(act));
}

// The piece that is open, the settings, the bin.
void Rooms::write_all_again() {
  if (!ready || !keeper.writer()) return;
  Act act;
  shelf.put_settings(act);
  act.put(Area::app, "erased", ids_to_json(shelf.erased));
  for (const auto& [session, when] : shelf.bin) act.put(Area::bin, session, std::to_string(when));
  if (desk.any_entries()) {
    const OpenSession& open = *desk.session();
    for (const Entry* entry : open.set.in_order()) act.enter(open.id, *entry);
    if (std::string head = head_to_json(open); !head.empty()) {
      act.put(Area::entries, open.id + "/head", std::move(head));
    }
    shelf.put(card_of(open), act);
  }
  keep(std::move(act));
}

void Rooms::begin_session(OpenSession session, const Writing& writing, const std::string& notice) {
  if (writing.problem) return tell_error("notice.refused", {show::problem(*writing.problem, {})});
  keeper.hold(true);
  pause_before_leaving();
  Act act;
  for (const Entry& entry : writing.made) {
    act.enter(session.id, entry);
    session.set.insert(entry);
  }
  refresh(session);
  shelf.put(card_of(session), act);
  show(std::move(session));
  keypad.draft.person = writing.by ? to_text(*writing.by) : "";
  tell(notice);
  keeper.hold(false);
  keep(std::move(act));
}

void Rooms::show(OpenSession session) {
  pause_before_leaving();
  notices.leave(keypad.place());
  desk.lay(std::move(session));
  keypad.begin(*desk.session());
  notices.going_on();
  notices.come_to(keypad.place());
  changed_draft();
}

void Rooms::pause_before_leaving() {
  if (keypad.draft.timer_started_ms != 0 || keypad.draft.timer_gathered_ms != 0) pause_timer();
}

// The time so far becomes an entry; while entries are refused it is gathered for later.
void Rooms::pause_timer() {
  constexpr std::int64_t most_ms = 10'000ll * 60 * 1000;
  Draft& draft = keypad.draft;
  const bool none = draft.timer_started_ms == 0 && draft.timer_gathered_ms == 0;
  if (desk.session() == nullptr || none) return;
  const bool doubtful = watch.doubtful(draft, host);
  draft.timer_gathered_ms = std::min(timer_ms(), most_ms);
  draft.timer_started_ms = 0;
  const std::int64_t ms = draft.timer_gathered_ms;
  if (ms == 0 || !may_write()) return changed_draft();
  if (auto act = enter(timed(*desk.session(), writing(), ms))) {
    draft.timer_gathered_ms = 0;
    keep(*std::move(act));
  }
  if (doubtful) tell_error("notice.timer-clock");
}

}  // namespace tallyblock
