// App's saving: one ordered queue of acts, one strict transaction each.
//
// The front of the queue is in flight or waiting to be tried again; nothing overtakes it, so that what
// is kept is always a state the person has seen. Every transaction carries the draft as it was when
// the act was done (the present one, if nothing was done since), so that a restart finds the act with
// its screen or neither. The draft alone is saved only while no act waits; its failures are retried and
// not shown. All operations are puts of fixed contents or erasures: trying again what may have been
// kept changes nothing.
#include <algorithm>
#include <utility>

#include "app.h"

namespace tallyblock {
namespace {

constexpr std::int64_t kFirstRetryMs = 1'000;
constexpr int kMostDoublings = 6;  // up to 64 s
constexpr std::size_t kMostUndo = 50;
constexpr std::int64_t kClocksDifferMs =
    std::int64_t{10} * 60'000;        // of two devices that share a session
constexpr int kMostOffset = 14 * 60;  // minutes from UTC

bool is_final(StoreStatus status) {
  return status == StoreStatus::newer || status == StoreStatus::not_writer;
}

void place_card(std::vector<SessionCard>& cards, const SessionCard& card) {
  const auto same = std::find_if(cards.begin(), cards.end(),
                                 [&](const SessionCard& other) { return other.id == card.id; });
  if (same != cards.end()) cards.erase(same);
  const auto at = std::find_if(cards.begin(), cards.end(), [&](const SessionCard& other) {
    return other.started_ms < card.started_ms ||
           (other.started_ms == card.started_ms && other.id > card.id);
  });
  cards.insert(at, card);
}

}  // namespace

std::string_view trouble_key(StoreStatus status) {
  switch (status) {
    case StoreStatus::ok: return "trouble.ok";
    case StoreStatus::quota: return "trouble.quota";
    case StoreStatus::aborted: return "trouble.aborted";
    case StoreStatus::closed: return "trouble.closed";
    case StoreStatus::timeout: return "trouble.timeout";
    case StoreStatus::blocked: return "trouble.blocked";
    case StoreStatus::newer: return "trouble.newer";
    case StoreStatus::not_writer: return "trouble.not-writer";
    case StoreStatus::unavailable: return "trouble.unavailable";
    case StoreStatus::read_newer: return "trouble.newer";
  }
  return "trouble.aborted";
}

// ---- what is shown of it

SaveState App::save_state() const {
  if (!queue_.empty()) return trouble_ == StoreStatus::ok ? SaveState::saving : SaveState::failed;
  if (open_ && !open_->set.empty()) return SaveState::kept;
  return anything_kept_ ? SaveState::kept : SaveState::nothing_yet;
}

bool App::is_kept(const EntryId& id) const {
  return open_ && open_->set.find(id) != nullptr && !unsaved_.contains(entry_key(open_->id, id));
}

std::size_t App::unsaved() const { return unsaved_.size(); }

void App::tell(std::string key, std::vector<std::string> args, bool can_undo) {
  notice_ = Notice{std::move(key), std::move(args), can_undo, false};
  changed();
}

void App::tell_error(std::string key, std::vector<std::string> args) {
  notice_ = Notice{std::move(key), std::move(args), false, true};
  changed();
}

// ---- may anything be done

// The sentence's key, or "": it may.
std::string_view App::why_not() const {
  if (trouble_ == StoreStatus::newer) return "trouble.newer";
  return writer_ ? "" : "notice.not-writer";
}

bool App::may_act() {
  if (phase_ != Phase::ready) return false;
  if (why_not().empty()) return true;
  tell_error(std::string(why_not()));
  return false;
}

bool App::may_write() { return open_ && may_act(); }

// ---- the queue

void App::enqueue(Act act) {
  ++acts_;
  act.draft = draft_to_json(draft_);
  unsaved_.insert(act.unsaved.begin(), act.unsaved.end());
  queue_.push_back(std::move(act));
  draft_dirty_ = true;
  changed();
  send();
}

void App::send() {
  if (in_flight_ != 0 || holding_ || !writer_ || phase_ != Phase::ready) return;
  if (trouble_ == StoreStatus::newer) return;  // until it is asked for: retry_save()
  if (queue_.empty() && !draft_dirty_) return;
  Transaction ops;
  draft_in_flight_ = queue_.empty();
  if (queue_.size() <= 1) draft_dirty_ = false;
  std::string draft = draft_to_json(draft_);
  if (!queue_.empty()) {
    Act& act = queue_.front();
    if (queue_.size() == 1 || act.draft.empty()) act.draft = std::move(draft);
    draft = act.draft;
    ops = act.ops;
  }
  ops.push_back({Op::What::put, Area::app, "draft", std::move(draft)});
  in_flight_ = ++last_token_;
  store_.commit(in_flight_, ops);
}

void App::on_commit(std::uint32_t token, StoreStatus status) {
  if (token == 0 || token != in_flight_) return;
  in_flight_ = 0;
  if (status != StoreStatus::ok) {
    if (draft_in_flight_ || queue_.size() == 1) draft_dirty_ = true;
    return failed(status, draft_in_flight_);
  }
  attempts_ = 0;
  retry_at_.reset();
  if (!draft_in_flight_) {
    const Act act = std::move(queue_.front());
    queue_.pop_front();
    for (const std::string& key : act.unsaved) unsaved_.erase(key);
    anything_kept_ = true;
    if (act.when_kept && (!notice_ || !notice_->stays)) notice_ = act.when_kept;
    host_.tell_others();
  }
  if (queue_.empty() && trouble_ != StoreStatus::ok) {
    trouble_ = StoreStatus::ok;
    if (!notice_ || notice_->is_error) tell("notice.kept-again");
  }
  changed();
  if (adopt_when_kept_ && queue_.empty() && !draft_dirty_) {
    adopt_when_kept_ = false;
    return host_.adopt_update();
  }
  send();
  go_on_in_background();
}

// A transaction or the loading at start failed.
void App::failed(StoreStatus status, bool of_draft) {
  if (status == StoreStatus::not_writer) writer_ = false;
  const bool shown = !of_draft || is_final(status);
  if (shown && (status != StoreStatus::not_writer || !queue_.empty())) {
    bool news = trouble_ != status;
    trouble_ = status;
    if (!of_draft && phase_ == Phase::ready && !queue_.empty()) {
      news = news || !std::exchange(queue_.front().told, true);
    }
    if (news) tell_error(std::string(trouble_key(status)));
  }
  if (adopt_when_kept_) {
    adopt_when_kept_ = false;
    tell_error("notice.update-unsaved");
  }
  changed();
  go_on_in_background();  // what was read does not wait for it
  if (is_final(status)) return;
  retry_at_ = host_.monotonic_ms() + (kFirstRetryMs << std::min(attempts_, kMostDoublings));
  ++attempts_;
  arm();
}

void App::retry_save() {
  attempts_ = 0;
  retry_at_.reset();
  if (phase_ == Phase::unreadable) return load_everything(true);
  if (reload_due_) load_everything(false);
  if (trouble_ == StoreStatus::newer && (!queue_.empty() || draft_dirty_)) {
    trouble_ = StoreStatus::ok;  // said again if it is still so
  }
  send();
}

void App::take_over() { host_.take_over(); }

void App::protect() { host_.ask_persist(); }

void App::adopt_update() {
  if (!queue_.empty() || in_.going_on()) return tell_error("notice.update-unsaved");
  if (draft_dirty_ || in_flight_ != 0) {
    if (writer_ && phase_ == Phase::ready) {
      adopt_when_kept_ = true;
      return send();
    }
  }
  host_.adopt_update();
}

// ---- entries

EntryId Writing::add(Body body, std::vector<EntryId> replaces) {
  Entry entry;
  entry.id = {writer, counter++};
  entry.seq = seq++;
  entry.time = time;
  entry.by = by;
  entry.replaces = std::move(replaces);
  entry.body = std::move(body);
  Result<Entry> whole = checked(std::move(entry));
  if (!whole) {
    if (!problem) problem = whole.problem();
    return {};
  }
  EntryId id = whole->id;
  made.push_back(std::move(whole.value()));
  return id;
}

Writing App::writing_into(const OpenSession& session) const {
  Writing out;
  out.writer = writer_id_;
  out.counter = session.set.next_counter(writer_id_);
  out.seq = session.set.next_seq();
  out.time = stamp_in(session);
  return out;
}

// A clock that cannot be right gives no time: before 1970, after 9999, or set back since an entry.
Stamp App::stamp_in(const OpenSession& session) const {
  Stamp out{host_.utc_ms(), std::clamp(host_.offset_minutes(), -kMostOffset, kMostOffset)};
  if (out.utc_ms < 0 || out.utc_ms > kMaxUtcMs) out.utc_ms = 0;
  for (const Entry* entry : session.set.in_order()) {
    if (entry->time.utc_ms > out.utc_ms + kClocksDifferMs) out.utc_ms = 0;
  }
  return out;
}

// Precondition: a session is open.
Writing App::writing() const {
  Writing out = writing_into(*open_);
  const EntryId who = person();
  if (open_->set.find(who) != nullptr) out.by = who;
  return out;
}

// Lets the entries into the open session and into the queue; undo takes them back.
bool App::put(Writing writing, Notice notice, const std::function<void()>& after) {
  if (writing.problem) return refuse(*writing.problem);
  if (writing.made.empty()) return false;
  Act act;
  put_into(*open_, writing.made, act);
  UndoStep step;
  for (const Entry& entry : writing.made) step.entries.push_back(entry.id);
  undo_.push_back(std::move(step));
  if (undo_.size() > kMostUndo) undo_.erase(undo_.begin());
  if (!notice_ || !notice_->stays) notice_ = std::move(notice);
  if (after) after();
  enqueue(std::move(act));
  return true;
}

void App::put_into(OpenSession& session, const std::vector<Entry>& made, Act& act) {
  for (const Entry& entry : made) {
    std::string key = entry_key(session.id, entry.id);
    act.unsaved.push_back(key);
    act.ops.push_back({Op::What::put, Area::entries, std::move(key), entry.text});
    session.set.insert(entry);
  }
  refresh(session);
  put_card(card_of(session), act);
}

void App::put_card(const SessionCard& card, Act& act) {
  act.ops.push_back({Op::What::put, Area::index, card.id, card_to_json(card)});
  place_card(bin_.contains(card.id) ? binned_ : cards_, card);
}

}  // namespace tallyblock
