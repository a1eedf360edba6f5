// Files out: a session or everything.
#include <utility>

#include "porter.h"

namespace tallyblock {
namespace {

constexpr std::string_view kJson = "application/json";
constexpr std::string_view kJsonLines = "application/jsonl";

void finish(Backup& backup, const std::string& lines) {
  backup.bytes = backup_header(backup.lines) + lines;
}

void add_lines(const SessionFile& file, Backup& backup, std::string& lines) {
  for (const std::string& part : write_session_parts(file)) {
    lines += part + '\n';
    ++backup.lines;
  }
}

}  // namespace

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

Parcel parcel_of(const OpenSession& session, bool with_names) {
  SessionFile file = file_of(session);
  if (!with_names) file = without_names(std::move(file));
  const std::string name = file_name_of(card_of(session));
  const std::vector<std::string> parts = write_session_parts(file);
  if (parts.size() == 1) return {name, std::string(kJson), parts.front()};
  Backup whole;  // too large for one session file
  std::string lines;
  add_lines(file, whole, lines);
  finish(whole, lines);
  return {name + 'l', std::string(kJsonLines), std::move(whole.bytes), parts.size()};
}

Parcel parcel_of(const Backup& backup, const std::string& day) {
  return {"tallyblock-backup-" + day + ".jsonl", std::string(kJsonLines), backup.bytes};
}

}  // namespace tallyblock
