// App's log: read when it is first opened, from what is kept beside the cards; what is missing there is made of
// the entries, a few pieces at a time.
#include <utility>

#include "app.h"
#include "web/app/logbook/logbook.h"
#include "web/words/words.h"

namespace tallyblock {

void App::read_log_now() {
  const std::string keys(kLogKeys);
  if (!rooms_.log) rooms_.log = std::make_shared<Logbook>();
  Logbook& log = *rooms_.log;
  if (log.known) return look_at_log();
  if (std::exchange(log.asked, true)) return;
  rooms_.keeper.load(
      Area::index, keys, [this, keys](StoreStatus status, const std::vector<Record>& records) {
        rooms_.log->asked = false;
        // What could not be read is made again.
        const bool read = status == StoreStatus::ok;
        rooms_.log->take(
            keeper().with_pending(Area::index, keys, read ? records : std::vector<Record>()));
        look_at_log();
      });
}

void App::look_at_log() {
  Logbook& log = *rooms_.log;
  log.of_acts = keeper().acts();
  log.stale = false;
  log.unread = 0;
  Act act;
  log.look(shelf().cards, act);
  log.derive(shelf().cards);
  if (keeper().writer() && !act.ops.empty()) {
    rooms_.keeper.add_made(std::move(act));
    rooms_.send();
  }
  changed();
  go_on_in_background();
}

// So few at a time that no touch waits for them, and none while something waits to be kept.
void App::make_log_now() {
  constexpr std::size_t most = 4;
  Logbook& log = *rooms_.log;
  if (log.busy || log.to_make.empty()) return;
  // What cannot be saved now waits in memory, and is read from there.
  const bool saves = keeper().trouble() == StoreStatus::ok && !keeper().memory_only();
  if (saves && !keeper().idle()) return;
  log.busy = true;
  std::vector<std::string> ids;
  while (!log.to_make.empty() && ids.size() < most) {
    ids.push_back(std::move(log.to_make.front()));
    log.to_make.pop_front();
  }
  fetch_some(ids, [this](const std::vector<Fetched>& all, bool stale) {
    Logbook& book = *rooms_.log;
    book.busy = false;
    if (stale) return look_at_log();
    Act act;
    for (const auto& [status, found] : all) {
      const SessionCard* card = shelf().card(found.id);
      if (status != StoreStatus::ok) ++book.unread;
      if (status != StoreStatus::ok || card == nullptr) continue;
      book.put(desk().is_open(found.id) ? *session() : found, *card, act);
    }
    if (book.to_make.empty()) book.derive(shelf().cards);
    if (keeper().writer() && !act.ops.empty()) {
      rooms_.keeper.add_made(std::move(act));
      rooms_.send();
    }
    changed();
    go_on_in_background();
  });
}

// An entry of a piece that need not be the open one.
void App::set_line_now(const std::string& session, const std::string& line, bool start) {
  if (!rooms_.log || !rooms_.may_act()) return;
  const auto enter = [this, line, start](StoreStatus status, const OpenSession& found) {
    if (status != StoreStatus::ok)
      return rooms_.tell_error("notice.not-opened", {say(trouble_key(status))});
    if (found.set.empty() || !rooms_.may_act()) return;
    OpenSession piece = desk().is_open(found.id) ? *this->session() : found;
    Writing writing = rooms_.writing_into(piece);
    writing.add_fact(piece, body::Line{line, start});
    if (writing.problem) return rooms_.refuse(*writing.problem);
    Act act;
    for (const Entry& entry : writing.made) {
      act.enter(piece.id, entry);
      piece.set.insert(entry);
    }
    refresh(piece);
    const SessionCard card = card_of(piece);
    rooms_.shelf.put(card, act);
    rooms_.log->put(piece, card, act);
    if (desk().is_open(piece.id)) rooms_.desk.lay(std::move(piece));
    act.when_kept = Notice{"notice.line-set", {}, false, false};
    rooms_.keep(std::move(act));
    look_at_log();
  };
  if (desk().is_open(session)) return enter(StoreStatus::ok, OpenSession(*this->session()));
  fetch(session, enter);
}

}  // namespace tallyblock
