// App's loading: at the start the index, the app's own records and the open session, no more.
//
// What waits to be saved is laid over whatever is read, so that reading never shows a state older than
// the screen. A missing or damaged index is made again from all entries.
#include <memory>
#include <utility>

#include "app.h"
#include "web/app/logbook/logbook.h"
#include "web/app/shelf/defaults.h"

namespace tallyblock {
void App::start() {
  if (rooms_.writer_id.empty()) rooms_.writer_id = rooms_.host.random_id(10);
  load_everything(true);
}

void App::on_load(std::uint32_t token, StoreStatus status, const std::vector<Record>& records) {
  if (rooms_.keeper.on_load(token, status, records)) changed();
}

void App::load_everything(bool first) {
  if (starting_) {
    starting_->first = starting_->first || first;
    return;
  }
  starting_ = std::make_unique<Starting>();
  starting_->first = first;
  starting_->waiting = 3;
  const auto into = [this](std::vector<Record> Starting::* part) {
    return [this, part](StoreStatus status, const std::vector<Record>& records) {
      take_part((*starting_).*part, status, records);
    };
  };
  rooms_.keeper.load(Area::app, "", into(&Starting::app));
  rooms_.keeper.load(Area::index, "", into(&Starting::index));
  rooms_.keeper.load(Area::bin, "", into(&Starting::bin));
}

void App::take_part(std::vector<Record>& part, StoreStatus status,
                    const std::vector<Record>& records) {
  if (status != StoreStatus::ok) {
    starting_->status = status;
  } else {
    part = records;
  }
  if (--starting_->waiting == 0) take_records();
}

void App::take_records() {
  const std::unique_ptr<Starting> start = std::move(starting_);
  Keeper& keeper = rooms_.keeper;
  Shelf& shelf = rooms_.shelf;
  if (start->status == StoreStatus::unavailable && start->first) {
    keeper.keep_in_memory();
    shelf.settings = settings_for(rooms_.host.locale());
    rooms_.tell_error(std::string(trouble_key(start->status)));
    return be_ready();
  }
  if (start->status != StoreStatus::ok) return load_failed(start->status, start->first);
  reload_due_ = false;
  keeper.begin_afresh();
  if (keeper.stored_by_newer() && start->first) rooms_.tell_error("trouble.newer");
  shelf.settings = settings_for(rooms_.host.locale());  // until something is chosen
  const std::vector<Record> app = keeper.with_pending(Area::app, "", start->app);
  for (const Record& record : app) {
    if (record.key == "draft" && phase_ != Phase::ready)
      rooms_.keypad.draft = draft_from_json(record.bytes);
  }
  shelf.take_app_records(app);
  const bool any = shelf.take_cards(keeper.with_pending(Area::bin, "", start->bin),
                                    keeper.with_pending(Area::index, "", start->index));
  if (rooms_.log) rooms_.log->stale = true;  // the cards are others now
  if (!any) return rebuild_index();
  resume_session();
}

void App::load_failed(StoreStatus status, bool first) {
  if (first) phase_ = Phase::unreadable;
  reload_due_ = !first;
  failed(status, false);
}

void App::rebuild_index() {
  rooms_.keeper.load(Area::entries, "",
                     [this](StoreStatus status, const std::vector<Record>& records) {
                       if (status != StoreStatus::ok)
                         return load_failed(status, phase_ != Phase::ready);
                       std::vector<Record> all = keeper().with_pending(Area::entries, "", records);
                       if (!all.empty()) return rebuild_from(std::move(all));
                       rooms_.shelf.forget_cards();
                       resume_session();
                     });
}

void App::rebuild_from_now(const std::vector<Record>& all) {
  take_all_entries(all);
  resume_session();
}

void App::take_all_entries(const std::vector<Record>& records) {
  rooms_.shelf.forget_cards();
  Act act;
  for (std::size_t at = 0; at < records.size();) {
    const std::string id = records[at].key.substr(0, records[at].key.find('/'));
    std::vector<Record> own;
    while (at < records.size() && records[at].key.starts_with(id + '/'))
      own.push_back(records[at++]);
    if (own.empty()) {  // no key of ours
      ++at;
      continue;
    }
    rooms_.shelf.put(card_of(session_from(id, own)), act);
  }
  if (act.ops.empty()) return;
  rooms_.tell("notice.index-rebuilt", {std::to_string(act.ops.size())});
  rooms_.keeper.add_made(std::move(act));
}

// So few at a time that no touch waits for them, and none while something waits to be kept.
void App::make_cards_now() {
  constexpr std::size_t most = 4;
  Remaking& remake = rooms_.shelf.remake;
  const bool in_step = keeper().idle() && keeper().trouble() == StoreStatus::ok;
  if (remake.busy || remake.sessions.empty() || !in_step) return;
  remake.busy = true;
  std::vector<std::string> ids;
  while (!remake.sessions.empty() && ids.size() < most) {
    ids.push_back(std::move(remake.sessions.front()));
    remake.sessions.pop_front();
  }
  fetch_some(ids,
             [this](const std::vector<Fetched>& found, bool stale) { take_made(found, stale); });
}

void App::take_made(const std::vector<Fetched>& all, bool stale) {
  Shelf& shelf = rooms_.shelf;
  Remaking& remake = shelf.remake;
  remake.busy = false;
  if (stale) {
    for (const Fetched& one : all) remake.sessions.push_back(one.session.id);
    return go_on_in_background();
  }
  Act act;
  for (const auto& [status, found] : all) {
    if (status != StoreStatus::ok) continue;  // it has its turn at the next start
    if (found.set.empty() && found.unreadable == 0) {
      shelf.drop_card(found.id, act);
    } else {
      shelf.put(card_of(desk().is_open(found.id) ? *session() : found), act);
    }
  }
  if (remake.sessions.empty() && remake.damaged > 0) {
    act.when_kept = Notice{"notice.index-rebuilt", {std::to_string(remake.damaged)}};
  }
  if (keeper().writer() && !act.ops.empty()) return rooms_.keep(std::move(act));
  changed();
  go_on_in_background();
}

void App::resume_session() {
  if (phase_ == Phase::ready) return reload_open();
  if (draft().session.empty()) return be_ready();
  fetch(draft().session, [this](StoreStatus status, const OpenSession& found) {
    if (status != StoreStatus::ok) return load_failed(status, true);
    if (!found.set.empty() && !shelf().in_bin(found.id)) take_up(found);
    be_ready();
  });
}

// Another window kept something.
void App::reload_open() {
  if (session() != nullptr) {
    const std::string id = session()->id;
    fetch(id, [this, id](StoreStatus status, const OpenSession& found) {
      if (status != StoreStatus::ok) return load_failed(status, false);
      if (!desk().is_open(id)) return;
      if (found.set.empty() && !shelf().in_bin(id)) return rooms_.leave_session();
      rooms_.desk.merge(found);
    });
  }
  changed();
  go_on_in_background();
}

// The session that was open before the page was closed.
void App::take_up(const OpenSession& found) {
  rooms_.desk.lay(found);
  if (found.unreadable > 0) {
    rooms_.tell_error("notice.unreadable-entries", {std::to_string(found.unreadable)});
  }
  if (shelf().card(found.id) != nullptr) return;
  Act act;
  rooms_.shelf.put(card_of(found), act);
  rooms_.keeper.add_made(std::move(act));
}

void App::fetch_now(const std::string& session, Opened then) {
  const std::string prefix = session + '/';
  rooms_.keeper.load(
      Area::entries, prefix,
      [this, session, prefix, then = std::move(then)](StoreStatus status,
                                                      const std::vector<Record>& records) {
        // all there is waits in the queue
        if (keeper().memory_only()) status = StoreStatus::ok;
        then(status, session_from(session, keeper().with_pending(Area::entries, prefix, records)));
      });
}

// `then` once all are here, in the order asked for; stale: something was done meanwhile, so that they may
// not be what is stored any more.
void App::fetch_some(const std::vector<std::string>& sessions, const FetchedSome& then) {
  struct Some {
    std::vector<Fetched> all;
    std::size_t missing = 0;
    std::uint64_t begun = 0;
  };
  const auto some = std::make_shared<Some>();
  some->all.resize(sessions.size());
  some->missing = sessions.size();
  some->begun = keeper().acts();
  for (std::size_t i = 0; i < sessions.size(); ++i) {
    fetch(sessions[i], [this, some, i, then](StoreStatus status, const OpenSession& found) {
      some->all[i] = {status, found};
      if (--some->missing == 0) then(some->all, some->begun != keeper().acts());
    });
  }
}

}  // namespace tallyblock
