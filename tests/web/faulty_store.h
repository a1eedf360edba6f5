// A Store in memory that fails on command, for tests of what survives.
//
// Requests are queued and take effect when they are answered by pump_one(), in order; with
// `at_once` a transaction takes effect when it is asked for and only its answer waits (a page killed in
// between finds it kept, though nobody was told). A failed transaction leaves nothing, except the
// timeout that was kept all the same.
#pragma once
#include <cstdint>
#include <deque>
#include <functional>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "web/app/app.h"
#include "web/app/shown.h"

namespace tallyblock::test {

using Contents = std::map<Area, std::map<std::string, std::string>>;

struct Fault {
  std::size_t from = 0;  // the operation that fails, counted from 1; 0: none
  StoreStatus status = StoreStatus::aborted;
  bool for_ever = false;      // that and every later one
  bool kept_anyway = false;   // a timeout whose transaction completed
  bool commits_only = false;  // loads are neither counted nor fail
};

class FaultyStore : public Store {
 public:
  Contents kept;
  bool at_once = false;
  std::size_t answers_left = SIZE_MAX;         // the page is killed after that many
  std::function<void(const Contents&)> watch;  // told of every state

  void set_fault(const Fault& fault) {
    fault_ = fault;
    operations_ = 0;
    load_failed_ = commit_failed_ = false;
  }
  std::size_t operations() const { return operations_; }  // since set_fault()
  bool load_failed() const { return load_failed_; }
  bool commit_failed() const { return commit_failed_; }
  bool idle() const { return waiting_.empty(); }

  void commit(std::uint32_t token, const Transaction& transaction) override {
    Request request;
    request.token = token;
    request.ops = transaction;
    request.status = next_status();
    commit_failed_ = commit_failed_ || request.status != StoreStatus::ok;
    if (at_once) take_effect(request);
    waiting_.push_back(std::move(request));
  }
  void load(std::uint32_t token, Area area, const std::string& prefix) override {
    Request request;
    request.token = token;
    request.is_load = true;
    request.area = area;
    request.prefix = prefix;
    request.status = fault_.commits_only ? StoreStatus::ok : next_status();
    load_failed_ = load_failed_ || request.status != StoreStatus::ok;
    waiting_.push_back(std::move(request));
  }

  // Answers the oldest request; false if there is none.
  bool pump_one(App& app) {
    if (waiting_.empty() || answers_left == 0) return false;
    --answers_left;
    Request request = std::move(waiting_.front());
    waiting_.pop_front();
    if (request.is_load) {
      app.on_load(request.token, request.status,
                  request.status == StoreStatus::ok ? found(request) : std::vector<Record>{});
      return true;
    }
    if (!at_once) take_effect(request);
    app.on_commit(request.token, request.status);
    return true;
  }

  // The page is gone: nobody is answered, what had no effect has none.
  void drop_waiting() { waiting_.clear(); }

 private:
  struct Request {
    std::uint32_t token = 0;
    bool is_load = false;
    Transaction ops;
    Area area = Area::entries;
    std::string prefix;
    StoreStatus status = StoreStatus::ok;
  };

  StoreStatus next_status() {
    ++operations_;
    const bool fails = fault_.from != 0 &&
                       (fault_.for_ever ? operations_ >= fault_.from : operations_ == fault_.from);
    return fails ? fault_.status : StoreStatus::ok;
  }

  void take_effect(const Request& request) {
    const bool kept_all_the_same = request.status == StoreStatus::timeout && fault_.kept_anyway;
    if (request.status != StoreStatus::ok && !kept_all_the_same) return;
    for (const Op& op : request.ops) {
      auto& area = kept[op.area];
      if (op.what == Op::What::put) area[op.key] = op.bytes;
      if (op.what == Op::What::erase) area.erase(op.key);
      if (op.what != Op::What::erase_prefix) continue;
      auto at = area.lower_bound(op.key);
      while (at != area.end() && at->first.compare(0, op.key.size(), op.key) == 0)
        at = area.erase(at);
    }
    if (watch) watch(kept);
  }

  std::vector<Record> found(const Request& request) {
    std::vector<Record> records;
    for (const auto& [key, bytes] : kept[request.area]) {
      const bool apart = request.prefix.empty() && key.starts_with('~');
      if (key.starts_with(request.prefix) && !apart) records.push_back({key, bytes});
    }
    return records;
  }

  std::deque<Request> waiting_;
  Fault fault_;
  std::size_t operations_ = 0;
  bool load_failed_ = false, commit_failed_ = false;
};

}  // namespace tallyblock::test
