// App's life after loading: who has the pen, where the person is, the timer's wakes.
#include "app.h"

#include <algorithm>
#include <utility>

namespace tallyblock {
namespace {

bool needs_session(Screen screen) {
  return screen == Screen::weigh || screen == Screen::result || screen == Screen::details ||
         screen == Screen::share || screen == Screen::cut;
}

constexpr std::int64_t kMinuteMs = 60'000;
constexpr std::int64_t kLongestUnseenMs = std::int64_t{12} * 60 * kMinuteMs;

}  // namespace

App::App(Store& store, Host& host) : store_(store), host_(host) {}

// Loading is over, or there is nothing to load from.
void App::be_ready() {
  if (!open_) {
    draft_.session.clear();
    if (needs_session(draft_.screen)) draft_.screen = Screen::sessions;
  }
  phase_ = Phase::ready;
  timer_seen_ms_ = host_.monotonic_ms();
  watch_timer();
  changed();
  arm();
  send();
  go_on_in_background();
}

// ---- other windows, and the page

void App::on_role(bool writer) {
  const bool took = writer && !writer_;
  writer_ = writer;
  if (took && trouble_ == StoreStatus::not_writer) trouble_ = StoreStatus::ok;
  if (took && phase_ == Phase::ready) {
    load_everything(false);
    draft_dirty_ = true;
  }
  if (!writer && !queue_.empty()) trouble_ = StoreStatus::not_writer;
  changed();
  send();
  go_on_in_background();
}

void App::on_others_changed() {
  if (phase_ == Phase::ready) load_everything(false);
}

void App::on_protected(bool granted) {
  protected_ = granted;
  // told before the start: known already, not an answer
  if (phase_ == Phase::loading) return;
  tell(granted ? "notice.protected" : "notice.not-protected");
}

void App::on_update_waiting() {
  update_waiting_ = true;
  changed();
}

void App::on_offline(bool works) {
  online_only_ = !works;
  if (online_only_ && !notice_) tell("notice.online-only");
  changed();
}

void App::on_hidden() { send(); }

void App::on_shown() {
  changed();
  arm();
  if (trouble_ != StoreStatus::ok || phase_ == Phase::unreadable) retry_save();
}

void App::on_timer() {
  if (draft_.timer_started_ms != 0) changed();
  watch_timer();
  if (retry_at_ && host_.monotonic_ms() >= *retry_at_) {
    retry_at_.reset();
    if (phase_ == Phase::unreadable) {
      load_everything(true);
    } else if (reload_due_) {
      load_everything(false);
    }
    send();
  }
  arm();
}

// Asks to be woken for the next thing that is due.
void App::arm() {
  std::optional<std::int64_t> due;
  if (retry_at_) due = std::max<std::int64_t>(*retry_at_ - host_.monotonic_ms(), 0);
  if (draft_.timer_started_ms != 0) {
    const std::int64_t minute = kMinuteMs - timer_ms() % kMinuteMs;
    due = due ? std::min(*due, minute) : minute;
  }
  if (due) host_.wake_after(*due);
}

// ---- going about

void App::changed_draft() {
  changed();
  draft_dirty_ = true;
  send();
}

void App::go(Screen screen) {
  if (needs_session(screen) && !open_) screen = Screen::sessions;
  if (screen == draft_.screen) return;
  going_on();
  if (draft_.screen == Screen::weigh) draft_.held = draft_.field;
  put_aside();
  leave_place();
  draft_.screen = screen;
  come_to_place();
  draft_.field = {};
  draft_.panel.clear();
  draft_.selected.clear();
  draft_.scroll = 0.0F;
  draft_.count = 1;
  forget_asked();
  field_problem_.reset();
  if (screen == Screen::weigh) go_to_default_field();
  changed_draft();
}

// The field that was left, else weighing in while the whole piece was not weighed, else a reading.
void App::go_to_default_field() {
  const bool weighed_in = open_ && open_->figures.incoming.on_the_board;
  draft_.field = draft_.held.kind != FieldKind::none
                     ? std::exchange(draft_.held, Field{})
                     : Field{weighed_in ? FieldKind::reading : FieldKind::drained, ""};
  take_up();
}

std::string App::place() const {
  return open_ && needs_session(draft_.screen) ? open_->id : std::string();
}

// What failed is said wherever one goes.
void App::leave_place() {
  if (!notice_ || notice_->is_error || notice_->stays) return;
  waits_[place()].notice = std::exchange(notice_, std::nullopt);
}

void App::come_to_place() {
  const auto found = waits_.find(place());
  if (notice_ || found == waits_.end()) return;
  notice_ = std::exchange(found->second.notice, std::nullopt);
}

void App::open_panel(const std::string& panel) {
  if (draft_.panel == panel) return;
  draft_.panel = panel;
  changed_draft();
}

void App::select(const std::string& entry) {
  if (draft_.selected == entry) return;
  draft_.selected = entry;
  changed_draft();
}

void App::set_scroll(float scroll) {
  draft_.scroll = scroll;
  draft_dirty_ = true;  // kept with the next change, or when the page is hidden
}

void App::going_on() {
  if (notice_ && !notice_->can_undo && !notice_->is_error && !notice_->stays) notice_.reset();
}

void App::dismiss_notice() {
  notice_.reset();
  changed();
}

std::vector<SessionCard> App::binned() const { return binned_; }

EntryId App::person() const { return entry_id_from(draft_.person).value_or(EntryId{}); }

// The clock goes on while the device sleeps, but not back, and not for half a day unseen.
bool App::timer_doubtful() const {
  if (draft_.timer_started_ms == 0) return false;
  const std::int64_t by_clock = host_.utc_ms() - draft_.timer_started_ms;
  const std::int64_t unseen = by_clock - (host_.monotonic_ms() - timer_seen_ms_);
  return unseen < -kMinuteMs || unseen > kLongestUnseenMs;
}

std::int64_t App::timer_ms() const {
  if (draft_.timer_started_ms == 0) return draft_.timer_gathered_ms;
  const std::int64_t since = timer_doubtful() ? host_.monotonic_ms() - timer_seen_ms_
                                              : host_.utc_ms() - draft_.timer_started_ms;
  return draft_.timer_gathered_ms + std::max<std::int64_t>(since, 0);
}

void App::watch_timer() {
  if (!timer_doubtful() || std::exchange(timer_told_, true)) return;
  tell_error("notice.timer-clock");
}

void App::show_session(OpenSession session) {
  pause_before_leaving();
  opening_.clear();
  const std::string unit = session.figures.settings.unit;
  // Nothing was weighed into a pile yet: the first weight is a portion's.
  std::string first_pile;
  const auto& piles = session.figures.piles;
  const auto portions = std::ranges::find(piles, Role::primary, &PileFigures::role);
  const bool begun =
      std::ranges::any_of(piles, [](const PileFigures& pile) { return !pile.lines.empty(); });
  if (!begun && portions != piles.end()) first_pile = portions->key;
  std::string by;
  for (const Entry* entry : session.set.in_order()) {
    if (entry->by) by = to_text(*entry->by);
  }
  leave_place();
  // What is on screen may still look at the one before during this frame.
  if (open_) {
    waits_[open_->id].undo = std::move(undo_);
    *open_ = std::move(session);
  } else {
    open_ = std::make_unique<OpenSession>(std::move(session));
  }
  undo_ = std::exchange(waits_[open_->id].undo, {});
  Draft fresh;
  fresh.screen = draft_.screen;
  fresh.session = open_->id;
  fresh.unit = unit;
  fresh.pile = first_pile;
  fresh.person = by;
  fresh.sliced = draft_.sliced;
  fresh.scored = std::move(draft_.scored);
  draft_ = std::move(fresh);
  field_problem_.reset();
  draft_.screen = Screen::sessions;
  go(Screen::weigh);
}

void App::leave_session() {
  leave_place();
  if (open_) waits_[open_->id].undo = std::exchange(undo_, {});
  open_.reset();
  Draft fresh;
  fresh.sliced = draft_.sliced;
  fresh.scored = std::move(draft_.scored);
  draft_ = std::move(fresh);
  come_to_place();
  field_problem_.reset();
  changed_draft();
}

}  // namespace tallyblock
