// The program comes in two parts (shell/tools/parts.mjs). Until the second is here only the list of
// pieces can be used; what else is asked for is put off and done then, in its order.
//
// Each act is handed over as a function of its own, so that no ...now() becomes part of its caller: the
// hand-over is where the second part begins. Natively the program is whole from the start.
#include <algorithm>
#include <utility>

#include "app.h"

namespace tallyblock {

void App::begin_in_parts() { whole_ = false; }

void App::on_whole() {
  if (whole_) return;
  whole_ = true;
  part_failed_ = false;
  changed();
  const std::vector<Later> due = std::move(later_);
  later_.clear();
  for (const Later& later : due) later.act();
  go_on_in_background();
}

void App::on_part_failed() {
  part_failed_ = true;
  changed();
}

void App::when_whole(std::string_view what, std::function<void()> act) {
  if (whole_) return act();
  // Pressed again while waiting, it is still wanted once.
  const bool again = std::ranges::any_of(later_, [&](const Later& l) { return l.what == what; });
  if (again && !what.empty()) return;
  later_.push_back({std::string(what), std::move(act)});
  changed();
}

void App::new_session() {
  when_whole("new", [this] { new_session_now(); });
}

void App::same_again(const std::string& session) {
  when_whole("again " + session, [this, session] { same_again_now(session); });
}

void App::load_sample() {
  when_whole("sample", [this] { load_sample_now(); });
}

void App::stop_import() {
  when_whole("stop", [this] { stop_import_now(); });
}

void App::export_session(const std::string& session, bool with_names) {
  when_whole("export " + session,
             [this, session, with_names] { export_session_now(session, with_names); });
}

void App::export_backup() {
  when_whole("backup", [this] { export_backup_now(); });
}

void App::on_file(const std::string& name, const std::string& bytes, bool last_piece) {
  when_whole("", [this, name, bytes, last_piece] { on_file_now(name, bytes, last_piece); });
}

void App::undo() {
  if (!rooms_.may_act()) return;
  if (notice() && !notice()->binned.empty()) {  // needs nothing of the second part
    const std::string session = notice()->binned;
    return rooms_.take_from_bin(session);
  }
  when_whole("undo", [this] { undo_now(); });
}

void App::rebuild_from(std::vector<Record> all) {
  when_whole("", [this, all = std::move(all)] { rebuild_from_now(all); });
}

// What goes on by itself: after a start, after each thing that was kept, while files come. Nobody waits for it;
// it is handed over as acts are, since it is in the second part.
void App::go_on_in_background() {
  if (!whole_ || phase_ != Phase::ready) return;
  if (!porter().waiting.empty()) {
    when_whole("", [this] { import_next_now(); });
  }
  if (!shelf().remake.sessions.empty()) {
    when_whole("", [this] { make_cards_now(); });
  }
}

void App::fetch(const std::string& session, const Opened& then) {
  when_whole("", [this, session, then] { fetch_now(session, then); });
}

}  // namespace tallyblock
