// App's loading: at the start the index, the app's own records and the open session, no more.
//
// What waits to be saved is laid over whatever is read, so that reading never shows a state older than
// the screen. A missing or damaged index is made again from all entries.
#include <algorithm>
#include <cstdlib>
#include <memory>
#include <utility>

#include "app.h"
#include "core/base/sorted.h"
#include "defaults.h"

namespace tallyblock {
namespace {

bool starts_with(std::string_view text, std::string_view start) {
  return text.substr(0, start.size()) == start;
}

void apply(const Op& op, Area area, const std::string& prefix,
           std::map<std::string, std::string>& records) {
  if (op.area != area) return;
  if (op.what == Op::What::erase_prefix) {
    for (auto at = records.lower_bound(op.key);
         at != records.end() && starts_with(at->first, op.key);) {
      at = records.erase(at);
    }
  } else if (starts_with(op.key, prefix)) {
    if (op.what == Op::What::put) records[op.key] = op.bytes;
    if (op.what == Op::What::erase) records.erase(op.key);
  }
}

bool newer_first(const SessionCard& a, const SessionCard& b) {
  return a.started_ms != b.started_ms ? a.started_ms > b.started_ms : a.id < b.id;
}

}  // namespace

void App::start() {
  if (writer_id_.empty()) writer_id_ = host_.random_id(10);
  load_everything(true);
}

void App::load(Area area, const std::string& prefix, Loaded then) {
  const std::uint32_t token = ++last_token_;
  loads_.emplace(token, std::move(then));
  store_.load(token, area, prefix);
}

void App::on_load(std::uint32_t token, StoreStatus status, const std::vector<Record>& records) {
  const auto found = loads_.find(token);
  if (found == loads_.end()) return;
  const Loaded then = std::move(found->second);
  loads_.erase(found);
  if (status == StoreStatus::read_newer) {
    newer_ = true;
    status = StoreStatus::ok;
  }
  then(status, records);
  changed();
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
  load(Area::app, "", into(&Starting::app));
  load(Area::index, "", into(&Starting::index));
  load(Area::bin, "", into(&Starting::bin));
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
  if (start->status == StoreStatus::unavailable && start->first) {
    trouble_ = start->status;
    memory_only_ = true;
    settings_ = settings_for(host_.locale());
    tell_error(std::string(trouble_key(trouble_)));
    return be_ready();
  }
  if (start->status != StoreStatus::ok) return load_failed(start->status, start->first);
  attempts_ = 0;
  retry_at_.reset();
  reload_due_ = false;
  if (queue_.empty()) trouble_ = newer_ ? StoreStatus::newer : StoreStatus::ok;
  if (newer_ && start->first) tell_error("trouble.newer");
  take_app_records(*start);
  if (!take_cards(*start)) return rebuild_index();
  resume_session();
}

void App::load_failed(StoreStatus status, bool first) {
  if (first) phase_ = Phase::unreadable;
  reload_due_ = !first;
  failed(status, false);
}

void App::take_app_records(const Starting& start) {
  settings_ = settings_for(host_.locale());  // until something is chosen
  for (const Record& record : with_pending(Area::app, "", start.app)) {
    if (record.key == "draft" && phase_ != Phase::ready) draft_ = draft_from_json(record.bytes);
    if (record.key == "settings") settings_ = settings_from_json(record.bytes);
    if (record.key == "erased") erased_ = ids_from_json(record.bytes);
  }
}

// False if there is no index.
bool App::take_cards(const Starting& start) {
  bin_.clear();
  for (const Record& record : with_pending(Area::bin, "", start.bin)) {
    bin_[record.key] = std::strtoll(record.bytes.c_str(), nullptr, 10);
  }
  cards_.clear();
  binned_.clear();
  remake_ = {};
  const std::vector<Record> index = with_pending(Area::index, "", start.index);
  for (const Record& record : index) {
    auto card = card_from_json(record.key, record.bytes);
    if (!card) ++remake_.damaged;
    if (!card || card->version < kCardVersion) remake_.sessions.push_back(record.key);
    if (card) (bin_.contains(card->id) ? binned_ : cards_).push_back(*std::move(card));
  }
  heap_sort(cards_, newer_first);
  heap_sort(binned_, newer_first);
  return !index.empty();
}

void App::rebuild_index() {
  load(Area::entries, "", [this](StoreStatus status, const std::vector<Record>& records) {
    if (status != StoreStatus::ok) return load_failed(status, phase_ != Phase::ready);
    std::vector<Record> all = with_pending(Area::entries, "", records);
    if (!all.empty()) return rebuild_from(std::move(all));
    cards_.clear();
    binned_.clear();
    resume_session();
  });
}

void App::rebuild_from_now(const std::vector<Record>& all) {
  take_all_entries(all);
  resume_session();
}

void App::take_all_entries(const std::vector<Record>& records) {
  cards_.clear();
  binned_.clear();
  Act act;
  for (std::size_t at = 0; at < records.size();) {
    const std::string id = records[at].key.substr(0, records[at].key.find('/'));
    std::vector<Record> own;
    while (at < records.size() && starts_with(records[at].key, id + '/'))
      own.push_back(records[at++]);
    if (own.empty()) {  // no key of ours
      ++at;
      continue;
    }
    put_card(card_of(session_from(id, own)), act);
  }
  if (act.ops.empty()) return;
  tell("notice.index-rebuilt", {std::to_string(act.ops.size())});
  queue_.push_back(std::move(act));
}

// So few at a time that no touch waits for them, and none while something waits to be kept.
void App::make_cards_now() {
  constexpr std::size_t most = 4;
  const bool in_step = queue_.empty() && trouble_ == StoreStatus::ok;
  if (remake_.busy || remake_.sessions.empty() || !in_step) return;
  remake_.busy = true;
  std::vector<std::string> ids;
  while (!remake_.sessions.empty() && ids.size() < most) {
    ids.push_back(std::move(remake_.sessions.front()));
    remake_.sessions.pop_front();
  }
  fetch_some(ids,
             [this](const std::vector<Fetched>& found, bool stale) { take_made(found, stale); });
}

void App::take_made(const std::vector<Fetched>& all, bool stale) {
  remake_.busy = false;
  if (stale) {
    for (const Fetched& one : all) remake_.sessions.push_back(one.session.id);
    return go_on_in_background();
  }
  Act act;
  for (const auto& [status, found] : all) {
    if (status != StoreStatus::ok) continue;           // it has its turn at the next start
    if (found.set.empty() && found.unreadable == 0) {  // a card of nothing
      const auto is_it = [&id = found.id](const SessionCard& card) { return card.id == id; };
      std::erase_if(cards_, is_it);
      std::erase_if(binned_, is_it);
      act.ops.push_back({Op::What::erase, Area::index, found.id, ""});
    } else {
      put_card(card_of(open_ && open_->id == found.id ? *open_ : found), act);
    }
  }
  if (remake_.sessions.empty() && remake_.damaged > 0) {
    act.when_kept = Notice{"notice.index-rebuilt", {std::to_string(remake_.damaged)}};
  }
  if (writer_ && !act.ops.empty()) return enqueue(std::move(act));
  changed();
  go_on_in_background();
}

void App::resume_session() {
  if (phase_ == Phase::ready) {  // another window kept something
    if (open_) {
      const std::string id = open_->id;
      fetch(id, [this, id](StoreStatus status, const OpenSession& found) {
        if (status != StoreStatus::ok) return load_failed(status, false);
        if (!open_ || open_->id != id) return;
        if (found.set.empty() && !bin_.contains(id)) return leave_session();
        open_->set.merge(found.set);
        open_->left_out = found.left_out;
        refresh(*open_);
      });
    }
    changed();
    return go_on_in_background();
  }
  if (draft_.session.empty()) return be_ready();
  fetch(draft_.session, [this](StoreStatus status, const OpenSession& found) {
    if (status != StoreStatus::ok) return load_failed(status, true);
    if (!found.set.empty() && !bin_.contains(found.id)) {
      open_ = std::make_unique<OpenSession>(found);
      if (open_->unreadable > 0) {
        tell_error("notice.unreadable-entries", {std::to_string(open_->unreadable)});
      }
      const bool listed = std::any_of(cards_.begin(), cards_.end(),
                                      [&](const SessionCard& card) { return card.id == found.id; });
      if (!listed) {
        Act act;
        put_card(card_of(found), act);
        queue_.push_back(std::move(act));
      }
    }
    be_ready();
  });
}

// What the store would hold if everything waiting had been kept.
std::vector<Record> App::with_pending(Area area, const std::string& prefix,
                                      std::vector<Record> records) const {
  if (queue_.empty()) return records;
  std::map<std::string, std::string> by_key;
  for (Record& record : records) by_key[std::move(record.key)] = std::move(record.bytes);
  for (const Act& act : queue_) {
    for (const Op& op : act.ops) apply(op, area, prefix, by_key);
  }
  std::vector<Record> out;
  out.reserve(by_key.size());
  for (auto& [key, bytes] : by_key) out.push_back({key, std::move(bytes)});
  return out;
}

void App::fetch_now(const std::string& session, Opened then) {
  const std::string prefix = session + '/';
  load(Area::entries, prefix,
       [this, session, prefix, then = std::move(then)](StoreStatus status,
                                                       const std::vector<Record>& records) {
         if (memory_only_) status = StoreStatus::ok;  // all there is waits in the queue
         then(status, session_from(session, with_pending(Area::entries, prefix, records)));
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
  some->begun = acts_;
  for (std::size_t i = 0; i < sessions.size(); ++i) {
    fetch(sessions[i], [this, some, i, then](StoreStatus status, const OpenSession& found) {
      some->all[i] = {status, found};
      if (--some->missing == 0) then(some->all, some->begun != acts_);
    });
  }
}

}  // namespace tallyblock
