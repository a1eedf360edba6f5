#include "rooms.h"

#include <algorithm>
#include <utility>

#include "web/app/shelf/sample.h"

namespace tallyblock {
namespace {

constexpr std::int64_t kWakeMs = 60'000;

}  // namespace

// ---- notices

void Notices::leave(const std::string& place) {
  if (!now || now->is_error || now->stays) return;
  waiting[place] = std::move(*now);
  now.reset();
}

void Notices::come_to(const std::string& place) {
  const auto found = waiting.find(place);
  if (now || found == waiting.end()) return;
  now = std::move(found->second);
  waiting.erase(found);
}

void Notices::going_on() {
  if (now && !now->can_undo && !now->is_error && !now->stays) now.reset();
}

void Notices::say(Notice notice) {
  if (!stays()) now = std::move(notice);
}

bool left_empty(const SessionCard& card, const Draft& draft) {
  if (!card.as_begun || card.id != draft.session) return card.as_begun;
  const bool timed = draft.timer_started_ms != 0 || draft.timer_gathered_ms != 0;
  return draft.digits.empty() && draft.aside.empty() && draft.text.empty() && !timed;
}

// ---- saying

void Rooms::changed_draft() {
  changed();
  keeper.draft_changed();
  send();
}

void Rooms::tell(std::string key, std::vector<std::string> args, bool can_undo) {
  notices.now = Notice{std::move(key), std::move(args), can_undo, false};
  changed();
}

void Rooms::tell_error(std::string key, std::vector<std::string> args) {
  notices.now = Notice{std::move(key), std::move(args), false, true};
  changed();
}

void Rooms::refuse(Problem problem) {
  keypad.problem = std::move(problem);
  changed();
}

bool Rooms::may_act() {
  if (!ready) return false;
  const std::string_view why_not = keeper.why_not();
  if (why_not.empty()) return true;
  tell_error(std::string(why_not));
  return false;
}

bool Rooms::may_write() { return desk.session() != nullptr && may_act(); }

// ---- keeping

void Rooms::keep(Act act) {
  act.draft = draft_to_json(keypad.draft);
  keeper.add(std::move(act));
  changed();
  send();
}

void Rooms::send() {
  if (ready && keeper.may_send()) keeper.send(draft_to_json(keypad.draft));
}

void Rooms::arm() {
  std::optional<std::int64_t> due;
  if (const auto retry = keeper.retry_at()) {
    due = std::max<std::int64_t>(*retry - host.monotonic_ms(), 0);
  }
  if (keypad.draft.timer_started_ms != 0) {
    const std::int64_t minute = kWakeMs - timer_ms() % kWakeMs;
    due = due ? std::min(*due, minute) : minute;
  }
  if (due) host.wake_after(*due);
}

// ---- going about

void Rooms::go(Screen screen) {
  if (needs_session(screen) && desk.session() == nullptr) screen = Screen::sessions;
  if (screen == keypad.draft.screen) return;
  notices.going_on();
  notices.leave(keypad.place());
  keypad.go(screen, desk.session());
  notices.come_to(keypad.place());
  changed_draft();
}

void Rooms::leave_session() {
  notices.leave(keypad.place());
  desk.clear();
  keypad.leave();
  notices.come_to(keypad.place());
  changed_draft();
}

void Rooms::watch_timer() {
  if (!watch.doubtful(keypad.draft, host) || std::exchange(watch.told, true)) return;
  tell_error("notice.timer-clock");
}

// ---- the list

void Rooms::put_in_bin(const std::string& session) {
  if (!may_act() || shelf.card(session) == nullptr) return;
  const std::string title = title_of(shelf.card(session));
  keeper.hold(true);
  if (desk.is_open(session)) leave_session();
  keeper.hold(false);
  Act act;
  shelf.set_bin(session, true, host.utc_ms(), act);
  tell("notice.binned", {title}, true);
  if (notices.now) notices.now->binned = session;
  keep(std::move(act));
}

void Rooms::take_from_bin(const std::string& session) {
  if (!may_act() || !shelf.in_bin(session)) return;
  const std::string title = title_of(shelf.binned_card(session));
  Act act;
  shelf.set_bin(session, false, 0, act);
  tell("notice.unbinned", {title});
  keep(std::move(act));
}

// Sample sessions that were worked on go to the bin, the others go for good: loading brings them back.
void Rooms::remove_sample() {
  if (!may_act()) return;
  Act act;
  keeper.hold(true);
  for (const SampleSize& size : kSampleSizes) {
    const std::string session(size.session);
    const SessionCard* card = shelf.card(session);
    if (card == nullptr) card = shelf.binned_card(session);
    if (card == nullptr) continue;
    const std::size_t loaded = size.entries + (card->decimal_mark == "." ? 0 : 1);
    const bool grown = card->entries != loaded;
    if (desk.is_open(session)) leave_session();
    if (!grown) {
      shelf.drop(session, act);
    } else if (!shelf.in_bin(session)) {
      shelf.set_bin(session, true, host.utc_ms(), act);
    }
  }
  keeper.hold(false);
  if (act.ops.empty()) return;
  act.when_kept = Notice{"notice.sample-removed", {}, false, false};
  keep(std::move(act));
}

void Rooms::caution_read() {
  if (!may_act()) return;
  shelf.settings.caution_seen = true;
  keep_settings();
}

void Rooms::keep_settings() {
  Act act;
  shelf.put_settings(act);
  keep(std::move(act));
}

// ---- what an import brought

void Rooms::tell_import() {
  if (keeper.say_when_kept(porter.report())) return;
  notices.now = porter.report();
  changed();
}

// Said at once, and again with what is being kept meanwhile.
void Rooms::tell_refused() {
  keeper.say_when_kept(porter.report());
  tell_error("import.report", porter.report().args);
}

}  // namespace tallyblock
