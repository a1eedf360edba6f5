// App's files out: a session or everything.
#include <algorithm>
#include <utility>

#include "app.h"
#include "core/base/sorted.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr std::string_view kJson = "application/json";
constexpr std::string_view kJsonLines = "application/jsonl";

struct Backup {
  std::string bytes;
  std::size_t lines = 0, binned = 0, unreadable = 0;
};

void finish(Backup& backup, const std::string& lines) {
  backup.bytes = backup_header(backup.lines) + lines;
}

void add_lines(const SessionFile& file, Backup& backup, std::string& lines) {
  for (const std::string& part : write_session_parts(file)) {
    lines += part + '\n';
    ++backup.lines;
  }
}

Backup backup_of(const std::vector<Record>& records,
                 const std::map<std::string, std::int64_t>& bin) {
  Backup out;
  std::string lines;
  for (std::size_t at = 0; at < records.size();) {
    const std::string id = records[at].key.substr(0, records[at].key.find('/'));
    const std::string prefix = id + '/';
    std::vector<Record> own;
    for (; at < records.size() && records[at].key.substr(0, prefix.size()) == prefix; ++at) {
      own.push_back(records[at]);
    }
    if (own.empty()) {
      ++at;
      ++out.unreadable;
    } else if (bin.contains(id)) {
      ++out.binned;
    } else {
      const OpenSession session = session_from(id, own);
      out.unreadable += session.unreadable;
      add_lines(file_of(session), out, lines);
    }
  }
  finish(out, lines);
  return out;
}

}  // namespace

void App::offer(const OpenSession& session, bool with_names) {
  SessionFile file = file_of(session);
  if (!with_names) file = without_names(std::move(file));
  const std::string name = file_name_of(card_of(session));
  const std::vector<std::string> parts = write_session_parts(file);
  if (parts.size() == 1) return host_.offer_file(name, std::string(kJson), parts.front());
  Backup whole;  // too large for one session file
  std::string lines;
  add_lines(file, whole, lines);
  finish(whole, lines);
  host_.offer_file(name + 'l', std::string(kJsonLines), whole.bytes);
  tell(form_of("notice.export-parted", static_cast<double>(parts.size())),
       {std::to_string(parts.size())});
}

void App::export_session_now(const std::string& session, bool with_names) {
  if (open_ && open_->id == session) return offer(*open_, with_names);
  fetch(session, [this, with_names](StoreStatus status, const OpenSession& found) {
    // What waits to be saved is in memory even where the store does not answer.
    if (found.set.empty()) {
      return tell_error(
          "notice.not-exported",
          {status == StoreStatus::ok ? say("notice.not-there") : say(trouble_key(status))});
    }
    offer(found, with_names);
  });
}

void App::export_backup_now() {
  load(Area::entries, "", [this](StoreStatus status, const std::vector<Record>& records) {
    std::vector<Record> all = with_pending(Area::entries, "", records);
    if (status != StoreStatus::ok && open_) {  // at least what is in memory
      for (const Entry* entry : open_->set.in_order()) {
        all.push_back({entry_key(open_->id, entry->id), entry->text});
      }
      heap_sort(all, [](const Record& a, const Record& b) { return a.key < b.key; });
    }
    const std::string day = day_text(host_.utc_ms(), host_.offset_minutes());
    const Backup backup = backup_of(all, bin_);
    if (backup.lines > 0) {
      host_.offer_file("tallyblock-backup-" + day + ".jsonl", std::string(kJsonLines),
                       backup.bytes);
    }
    if (status != StoreStatus::ok)
      return tell_error("notice.backup-partial", {say(trouble_key(status))});
    if (backup.unreadable + backup.binned > 0) {
      const std::vector<std::string> left_out = {std::to_string(backup.binned),
                                                 std::to_string(backup.unreadable)};
      if (backup.unreadable > 0) return tell_error("notice.backup-without", left_out);
      return tell("notice.backup-without", left_out);
    }
    if (backup.lines == 0) tell("notice.nothing-to-export");
  });
}

}  // namespace tallyblock
