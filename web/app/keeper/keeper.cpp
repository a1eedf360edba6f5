#include "keeper.h"

#include <algorithm>
#include <utility>

namespace tallyblock {
namespace {

constexpr std::int64_t kFirstRetryMs = 1'000;
constexpr int kMostDoublings = 6;  // up to 64 s

bool is_final(StoreStatus status) {
  return status == StoreStatus::newer || status == StoreStatus::not_writer;
}

void apply(const Op& op, Area area, const std::string& prefix,
           std::map<std::string, std::string>& records) {
  if (op.area != area) return;
  if (op.what == Op::What::erase_prefix) {
    for (auto at = records.lower_bound(op.key);
         at != records.end() && at->first.starts_with(op.key);) {
      at = records.erase(at);
    }
  } else if (op.key.starts_with(prefix) && !(prefix.empty() && op.key.starts_with('~'))) {
    if (op.what == Op::What::put) records[op.key] = op.bytes;
    if (op.what == Op::What::erase) records.erase(op.key);
  }
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

// ---- loads

void Keeper::load(Area area, const std::string& prefix, Loaded then) {
  const std::uint32_t token = ++last_token_;
  loads_.emplace(token, std::move(then));
  store_.load(token, area, prefix);
}

bool Keeper::on_load(std::uint32_t token, StoreStatus status, const std::vector<Record>& records) {
  const auto found = loads_.find(token);
  if (found == loads_.end()) return false;
  const Loaded then = std::move(found->second);
  loads_.erase(found);
  if (status == StoreStatus::read_newer) {
    newer_ = true;
    status = StoreStatus::ok;
  }
  then(status, records);
  return true;
}

std::vector<Record> Keeper::with_pending(Area area, const std::string& prefix,
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

// ---- the queue

void Keeper::add(Act act) {
  ++acts_;
  unsaved_.insert(act.unsaved.begin(), act.unsaved.end());
  queue_.push_back(std::move(act));
  draft_dirty_ = true;
}

void Keeper::add_made(Act act) { queue_.push_back(std::move(act)); }

bool Keeper::may_send() const {
  if (in_flight() || holding_ || !writer_) return false;
  if (trouble_ == StoreStatus::newer) return false;  // until it is asked for: retry_now()
  return !queue_.empty() || draft_dirty_;
}

void Keeper::send(std::string draft) {
  Transaction ops;
  in_flight_ = {++last_token_, queue_.empty()};
  if (queue_.size() <= 1) draft_dirty_ = false;
  if (!queue_.empty()) {
    Act& act = queue_.front();
    if (queue_.size() == 1 || act.draft.empty()) act.draft = std::move(draft);
    draft = act.draft;
    ops = act.ops;
  }
  ops.push_back({Op::What::put, Area::app, "draft", std::move(draft)});
  store_.commit(in_flight_.token, ops);
}

Keeper::Answer Keeper::on_commit(std::uint32_t token, StoreStatus status) {
  if (token == 0 || token != in_flight_.token) return {};
  const bool of_draft = std::exchange(in_flight_, {}).of_draft;
  Answer answer{true, of_draft, {}, false};
  if (status != StoreStatus::ok) {
    if (of_draft || queue_.size() == 1) draft_dirty_ = true;
    return answer;
  }
  retry_ = {};
  if (!of_draft) {
    answer.kept = std::move(queue_.front());
    queue_.pop_front();
    for (const std::string& key : answer.kept->unsaved) unsaved_.erase(key);
    anything_kept_ = true;
  }
  if (queue_.empty() && trouble_ != StoreStatus::ok) {
    trouble_ = StoreStatus::ok;
    answer.again = true;
  }
  return answer;
}

bool Keeper::fail(StoreStatus status, bool of_draft, bool ready) {
  if (status == StoreStatus::not_writer) writer_ = false;
  const bool shown = !of_draft || is_final(status);
  if (!shown || (status == StoreStatus::not_writer && queue_.empty())) return false;
  bool news = trouble_ != status;
  trouble_ = status;
  if (!of_draft && ready && !queue_.empty()) {
    news = news || !std::exchange(queue_.front().told, true);
  }
  return news;
}

bool Keeper::wait_after(StoreStatus status, std::int64_t monotonic_ms) {
  if (is_final(status)) return false;
  retry_.at = monotonic_ms + (kFirstRetryMs << std::min(retry_.attempts, kMostDoublings));
  ++retry_.attempts;
  return true;
}

bool Keeper::say_when_kept(const Notice& notice) {
  if (queue_.empty()) return false;
  queue_.back().when_kept = notice;
  return true;
}

// ---- what is known of saving

void Keeper::begin_afresh() {
  retry_ = {};
  if (queue_.empty()) trouble_ = newer_ ? StoreStatus::newer : StoreStatus::ok;
}

void Keeper::keep_in_memory() {
  trouble_ = StoreStatus::unavailable;
  memory_only_ = true;
}

SaveState Keeper::state(bool any_entries) const {
  if (!queue_.empty()) return trouble_ == StoreStatus::ok ? SaveState::saving : SaveState::failed;
  return any_entries || anything_kept_ ? SaveState::kept : SaveState::nothing_yet;
}

// ---- trying again

bool Keeper::retry_due(std::int64_t monotonic_ms) {
  if (!retry_.at || monotonic_ms < *retry_.at) return false;
  retry_.at.reset();
  return true;
}

void Keeper::retry_now() {
  retry_ = {};
  if (trouble_ == StoreStatus::newer && !all_kept()) {
    trouble_ = StoreStatus::ok;  // said again if it is still so
  }
}

// ---- the pen

bool Keeper::set_writer(bool writer) {
  const bool took = writer && !writer_;
  writer_ = writer;
  if (took && trouble_ == StoreStatus::not_writer) trouble_ = StoreStatus::ok;
  if (!writer && !queue_.empty()) trouble_ = StoreStatus::not_writer;
  return took;
}

std::string_view Keeper::why_not() const {
  if (trouble_ == StoreStatus::newer) return "trouble.newer";
  return writer_ ? "" : "notice.not-writer";
}

}  // namespace tallyblock
