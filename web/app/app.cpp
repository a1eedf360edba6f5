// App's life after loading: who has the pen, what the page tells, what is asked for.
#include "app.h"

#include <utility>

namespace tallyblock {

App::App(Store& store, Host& host) : rooms_(store, host) {}

// Loading is over, or there is nothing to load from.
void App::be_ready() {
  Draft& draft = rooms_.keypad.draft;
  if (session() == nullptr) {
    draft.session.clear();
    if (needs_session(draft.screen)) draft.screen = Screen::sessions;
  }
  phase_ = Phase::ready;
  rooms_.ready = true;
  rooms_.watch.seen_ms = rooms_.host.monotonic_ms();
  rooms_.watch_timer();
  changed();
  rooms_.arm();
  rooms_.send();
  go_on_in_background();
}

// ---- what is asked for

void App::ask(const Asked& asked) {
  if (!in_frame_) return run(asked);
  asked_.push_back(asked);
}

void App::after_frame() {
  in_frame_ = false;
  for (const Asked& asked : std::exchange(asked_, {})) run(asked);
}

void App::run(const Asked& asked) {
  using What = Asked::What;
  switch (asked.what) {
    case What::go: return rooms_.go(static_cast<Screen>(asked.number));
    case What::open_panel:
      if (draft().panel == asked.one) return;
      rooms_.keypad.draft.panel = asked.one;
      return rooms_.changed_draft();
    case What::dismiss_notice: rooms_.notices.now.reset(); return changed();
    case What::undo: return undo();
    case What::new_session: return new_session();
    case What::same_again: return same_again(asked.one);
    case What::open: return open(asked.one);
    case What::put_in_bin: return rooms_.put_in_bin(asked.one);
    case What::take_from_bin: return rooms_.take_from_bin(asked.one);
    case What::load_sample: return load_sample(asked.number != 0);
    case What::remove_sample: return rooms_.remove_sample();
    case What::caution_read: return rooms_.caution_read();
    case What::export_session: return export_session(asked.one, asked.number != 0);
    case What::export_backup: return export_backup();
    case What::share_picture: return share_picture(!asked.one.empty(), asked.number != 0);
    case What::read_log: return read_log();
    case What::set_line: return set_line(asked.one, asked.two, asked.number != 0);
    case What::import_file: return rooms_.host.pick_file();
    case What::stop_import: return stop_import();
    case What::forget_refused: rooms_.porter.refused.clear(); return changed();
    case What::protect: return rooms_.host.ask_persist();
    case What::adopt_update: return adopt_update();
    case What::retry_save: return retry_save();
    case What::take_over: return rooms_.host.take_over();
    case What::start_again: return start();
    default: when_here(AppPart::board, "", [this, asked] { do_asked(rooms_, asked); });
  }
}

bool App::timer_doubtful() const { return rooms_.watch.doubtful(rooms_.keypad.draft, rooms_.host); }

void App::set_scroll(float scroll) {
  rooms_.keypad.draft.scroll = scroll;
  rooms_.keeper.draft_changed();  // kept with the next change, or when the page is hidden
}

// ---- other windows, and the page

void App::on_role(bool writer) {
  const bool took = rooms_.keeper.set_writer(writer);
  if (took && phase_ == Phase::ready) {
    load_everything(false);
    rooms_.keeper.draft_changed();
  }
  changed();
  rooms_.send();
  go_on_in_background();
}

void App::on_others_changed() {
  if (phase_ == Phase::ready) load_everything(false);
}

void App::on_protected(bool granted) {
  page_.is_protected = granted;
  // told before the start: known already, not an answer
  if (phase_ == Phase::loading) return;
  rooms_.tell(granted ? "notice.protected" : "notice.not-protected");
}

void App::on_update_waiting() {
  page_.update_waiting = true;
  changed();
}

void App::on_offline(bool works) {
  page_.online_only = !works;
  if (!works && !notice()) rooms_.tell("notice.online-only");
  changed();
}

void App::on_hidden() { rooms_.send(); }

void App::on_shown() {
  changed();
  rooms_.arm();
  if (keeper().trouble() != StoreStatus::ok || phase_ == Phase::unreadable) retry_save();
}

void App::on_timer() {
  if (draft().timer_started_ms != 0) changed();
  rooms_.watch_timer();
  if (rooms_.keeper.retry_due(rooms_.host.monotonic_ms())) {
    if (phase_ == Phase::unreadable) {
      load_everything(true);
    } else if (reload_due_) {
      load_everything(false);
    }
    rooms_.send();
  }
  rooms_.arm();
}

// ---- saving

void App::on_commit(std::uint32_t token, StoreStatus status) {
  const Keeper::Answer answer = rooms_.keeper.on_commit(token, status);
  if (!answer.ours) return;
  if (status != StoreStatus::ok) return failed(status, answer.of_draft);
  Notices& notices = rooms_.notices;
  if (answer.kept) {
    if (answer.kept->when_kept) notices.say(*answer.kept->when_kept);
    rooms_.host.tell_others();
  }
  // Trouble is over: that a file was made is old news then.
  const bool may_tell =
      !notices.now || notices.now->is_error || notices.now->key == "notice.handed-over";
  if (answer.again && may_tell) rooms_.tell("notice.kept-again");
  changed();
  if (page_.adopt_when_kept && keeper().all_kept()) {
    page_.adopt_when_kept = false;
    return rooms_.host.adopt_update();
  }
  rooms_.send();
  go_on_in_background();
}

// A transaction or the loading at start failed.
void App::failed(StoreStatus status, bool of_draft) {
  Keeper& keeper = rooms_.keeper;
  if (keeper.fail(status, of_draft, phase_ == Phase::ready)) {
    rooms_.tell_error(std::string(trouble_key(status)));
  }
  if (std::exchange(page_.adopt_when_kept, false)) rooms_.tell_error("notice.update-unsaved");
  changed();
  go_on_in_background();  // what was read does not wait for it
  if (keeper.wait_after(status, rooms_.host.monotonic_ms())) rooms_.arm();
}

void App::retry_save() {
  rooms_.keeper.retry_now();
  if (phase_ == Phase::unreadable) return load_everything(true);
  if (reload_due_) load_everything(false);
  rooms_.send();
}

void App::adopt_update() {
  const Keeper& keeper = rooms_.keeper;
  if (!keeper.idle() || porter().going_on()) return rooms_.tell_error("notice.update-unsaved");
  const bool saving = keeper.draft_waits() || keeper.in_flight();
  if (saving && keeper.writer() && phase_ == Phase::ready) {
    page_.adopt_when_kept = true;
    return rooms_.send();
  }
  rooms_.host.adopt_update();
}

}  // namespace tallyblock
