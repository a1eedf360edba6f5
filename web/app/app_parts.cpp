// The program comes in parts (web/platform/parts.txt). What is asked for before its part is here is put off
// and done then; what is of one part in the order in which it was asked for.
//
// Each act is handed over as a function of its own, so that no ...now() becomes part of its caller: the
// hand-over is where a part begins. Natively the program is whole from the start.
#include <algorithm>
#include <utility>

#include "app.h"

namespace tallyblock {

void App::begin_in_parts() { here_ = AppPart::first; }

void App::on_part(AppPart part) {
  if (has(part)) return;
  here_ = part;
  part_failed_ = false;
  changed();
  std::vector<Later> due = std::move(later_);
  later_.clear();
  for (Later& later : due) {
    if (has(later.part)) {
      later.act();
    } else {
      later_.push_back(std::move(later));
    }
  }
  go_on_in_background();
}

void App::on_part_failed() {
  part_failed_ = true;
  changed();
}

void App::when_here(AppPart part, std::string_view what, std::function<void()> act) {
  if (has(part)) return act();
  // Pressed again while waiting, it is still wanted once.
  const bool again = std::ranges::any_of(later_, [&](const Later& l) { return l.what == what; });
  if (again && !what.empty()) return;
  later_.push_back({part, std::string(what), std::move(act)});
  changed();
}

void App::new_session() {
  when_here(AppPart::board, "new", [this] { new_session_now(); });
}

void App::same_again(const std::string& session) {
  when_here(AppPart::board, "again " + session, [this, session] { same_again_now(session); });
}

void App::load_sample(bool of_log) {
  when_here(AppPart::office, of_log ? "sample log" : "sample",
            [this, of_log] { load_sample_now(of_log); });
}

void App::stop_import() {
  when_here(AppPart::office, "stop", [this] { stop_import_now(); });
}

void App::export_session(const std::string& session, bool with_names) {
  when_here(AppPart::office, "export " + session,
            [this, session, with_names] { export_session_now(session, with_names); });
}

void App::export_backup() {
  when_here(AppPart::office, "backup", [this] { export_backup_now(); });
}

void App::share_picture(bool of_list, bool with_people) {
  when_here(AppPart::office, "picture",
            [this, of_list, with_people] { share_picture_now(of_list, with_people); });
}

void App::read_log() {
  when_here(AppPart::log, "log", [this] { read_log_now(); });
}

void App::set_line(const std::string& session, const std::string& line, bool start) {
  when_here(AppPart::log, "", [this, session, line, start] { set_line_now(session, line, start); });
}

void App::on_file(const std::string& name, const std::string& bytes, bool last_piece) {
  when_here(AppPart::office, "",
            [this, name, bytes, last_piece] { on_file_now(name, bytes, last_piece); });
}

void App::undo() {
  if (!rooms_.may_act()) return;
  const std::optional<Notice>& said = notice();
  if (said && !said->binned.empty()) {  // needs nothing of a later part
    const std::string session = said->binned;
    return rooms_.take_from_bin(session);
  }
  when_here(AppPart::board, "undo", [this] { undo_now(); });
}

void App::rebuild_from(std::vector<Record> all) {
  when_here(AppPart::board, "", [this, all = std::move(all)] { rebuild_from_now(all); });
}

// What goes on by itself: after a start, after each thing that was kept, while files come. Nobody waits for it;
// it is handed over as acts are, since it is in later parts.
void App::go_on_in_background() {
  if (phase_ != Phase::ready) return;
  if (!porter().waiting.empty()) import_next();
  if (!shelf().remake.sessions.empty()) make_cards();
  if (log() != nullptr) make_log();
}

void App::import_next() {
  if (has(AppPart::office)) when_here(AppPart::office, "", [this] { import_next_now(); });
}

void App::make_cards() {
  if (has(AppPart::board)) when_here(AppPart::board, "", [this] { make_cards_now(); });
}

void App::make_log() {
  if (has(AppPart::log)) when_here(AppPart::log, "", [this] { make_log_now(); });
}

void App::fetch(const std::string& session, const Opened& then) {
  when_here(AppPart::board, "", [this, session, then] { fetch_now(session, then); });
}

}  // namespace tallyblock
