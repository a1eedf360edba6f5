// App's acts on sessions that fetch one or begin one: new, same again, open, the sample.
#include <utility>

#include "app.h"
#include "web/app/acts/acts_of_sessions.h"
#include "web/app/shelf/sample.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

// A piece in work is gone on with; of one that is done the result is looked at.
Screen first_seen(const SessionCard* card) {
  const bool done = card != nullptr && !card->unweighed_grams && card->cost_per_primary_gram;
  return done ? Screen::result : Screen::weigh;
}

// What somebody noted for the next piece of the line, last.
std::string next_time_of(const OpenSession& session) {
  std::string text;
  for (const NoteLine& note : session.figures.notes) {
    if (note.next) text = note.text;
  }
  return text;
}

}  // namespace

void App::new_session_now() {
  if (!rooms_.may_act()) return;
  opening_.clear();  // what is being fetched does not take the board from it
  OpenSession session;
  session.id = rooms_.host.random_id(20);
  Writing writing = rooms_.writing_into(session);
  const std::string unfit = begin_session(rooms_.shelf.settings, writing);
  rooms_.begin_session(std::move(session), writing, "notice.new-session");
  if (!unfit.empty()) rooms_.tell_error("notice.unfit-settings", {unfit});
}

void App::same_again_now(const std::string& session) {
  if (!rooms_.may_act()) return;
  const auto begin = [this](StoreStatus status, const OpenSession& from) {
    if (status != StoreStatus::ok)
      return rooms_.tell_error("notice.not-opened", {say(trouble_key(status))});
    if (from.set.empty() || !rooms_.may_act()) return;
    opening_.clear();
    OpenSession next;
    next.id = rooms_.host.random_id(20);
    Writing writing = rooms_.writing_into(next);
    tallyblock::same_again(from, rooms_.shelf.settings, writing);
    const std::string next_time = from.sample ? std::string() : next_time_of(from);
    rooms_.begin_session(std::move(next), writing,
                         from.sample ? "notice.same-again-sample" : "notice.same-again");
    if (!next_time.empty()) rooms_.tell("notice.next-time", {next_time});
  };
  if (desk().is_open(session)) return begin(StoreStatus::ok, OpenSession(*this->session()));
  fetch(session, begin);
}

void App::open(const std::string& session) {
  if (phase_ != Phase::ready) return;
  if (desk().is_open(session)) return rooms_.go(first_seen(shelf().card(session)));
  opening_ = session;
  changed();
  fetch(session, [this, session](StoreStatus status, const OpenSession& found) {
    if (opening_ != session) return;  // another was asked for meanwhile
    opening_.clear();
    if (status != StoreStatus::ok) {
      return rooms_.tell_error("notice.not-opened", {say(trouble_key(status))});
    }
    if (found.set.empty()) return rooms_.tell_error("notice.not-there");
    rooms_.notices.going_on();
    rooms_.show(found);
    rooms_.go(first_seen(shelf().card(session)));
    if (found.unreadable > 0) {
      rooms_.tell_error("notice.unreadable-entries", {std::to_string(found.unreadable)});
    }
  });
}

void App::load_sample_now(bool of_log) {
  if (!rooms_.may_act()) return;
  Act act;
  Shelf& shelf = rooms_.shelf;
  const std::string& mark = shelf.settings.decimal_mark;
  for (const SessionFile& file : of_log ? sample_log(mark) : sample_sessions(mark)) {
    OpenSession session;
    session.id = file.session;
    if (shelf.in_bin(session.id)) shelf.set_bin(session.id, false, 0, act);
    if (shelf.card(session.id) != nullptr) continue;  // it may have grown since
    for (const Entry& entry : file.entries) {
      act.enter(session.id, entry);
      session.set.insert(entry);
    }
    refresh(session);
    shelf.put(card_of(session), act);
  }
  act.unsaved.clear();
  if (act.ops.empty()) return rooms_.tell("notice.sample-there");
  act.when_kept = Notice{"notice.sample-loaded", {}, false, false};
  rooms_.keep(std::move(act));
}

void App::undo_now() { rooms_.undo(); }

}  // namespace tallyblock
