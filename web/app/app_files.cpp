// App's files: a session or everything out, sessions and backups in.
//
// A file comes in pieces. A session file is collected, checked as a whole and refused as a whole; a
// backup is read line by line and a rescue file record by record, every session an act of its own. Importing is the union of what is here
// and what is in the file; entries that differ under one id are both kept and said (rule 4). A session
// from the bin, or erased before, is restored and said (rule 15).
#include <algorithm>
#include <utility>

#include "app.h"
#include "core/sorted.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr std::size_t kFirstBytes = 4096;
constexpr std::string_view kJson = "application/json";
constexpr std::string_view kJsonLines = "application/jsonl";

std::string key_in(const std::string& session, const EntryId& id) {
  return session + '/' + to_text(id);
}

std::string copy_mark(const std::string& text) {
  static constexpr char digits[] = "0123456789abcdef";
  std::uint32_t sum = crc32(text);
  std::string out(8, '0');
  for (std::size_t at = 8; at-- > 0; sum >>= 4) out[at] = digits[sum & 15u];
  return '~' + out;
}

// Kinds left out of both: what one copy holds, the union holds.
std::vector<std::string> in_both(const std::vector<std::string>& a,
                                 const std::vector<std::string>& b) {
  std::vector<std::string> out;
  for (const std::string& kind : a) {
    if (std::find(b.begin(), b.end(), kind) != b.end()) out.push_back(kind);
  }
  return out;
}

// A file's name as it is shown: from elsewhere it may hold anything.
std::string shown_name(std::string name) {
  for (char& c : name) {
    if (static_cast<unsigned char>(c) < 0x20) c = ' ';
  }
  const std::size_t from = name.find_first_not_of(' ');
  if (from == std::string::npos) return std::string(say("import.no-name"));
  return name.substr(from, name.find_last_not_of(' ') + 1 - from);
}

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

// ---- out

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
  tell("notice.export-parted", {std::to_string(parts.size())});
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
        all.push_back({key_in(open_->id, entry->id), entry->text});
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

// ---- in

void App::import_file() {
  totals_ = {};
  host_.pick_file();
}

void App::on_file_now(const std::string& name, const std::string& bytes, bool last_piece) {
  IncomingFile& file = files_[name];
  if (!file.begun) {
    file.begun = true;
    file.refused = !may_act();
  }
  if (!file.refused) take_piece(file, shown_name(name), bytes, last_piece);
  if (last_piece) files_.erase(name);
  changed();
}

// A file of many sessions is read as it comes; what else it may be is collected.
std::vector<Result<SessionFile>> App::read_piece(IncomingFile& file, const std::string& bytes) {
  if (file.kind == FileKind::backup) return file.backup.feed(bytes);
  if (file.kind == FileKind::rescue) return file.rescue.feed(bytes);
  file.bytes += bytes;
  return {};
}

void App::take_piece(IncomingFile& file, const std::string& name, const std::string& bytes,
                     bool last) {
  file.sum += std::to_string(crc32(bytes)) + '-' + std::to_string(bytes.size()) + ' ';
  file.found += take_sessions(read_piece(file, bytes), name);
  if (file.kind == FileKind::other && (last || file.bytes.size() >= kFirstBytes)) {
    file.kind = kind_of_file(std::string_view(file.bytes).substr(0, kFirstBytes));
    // whatever else it is, reading it says what is wrong
    if (file.kind == FileKind::other) file.kind = FileKind::session;
    file.found += take_sessions(read_piece(file, std::exchange(file.bytes, {})), name);
  }
  if (file.kind == FileKind::session && file.bytes.size() > kMaxSessionBytes) {
    file.refused = true;
    refuse_file(name, {Code::file_too_big,
                       "file",
                       {std::to_string(file.bytes.size()), std::to_string(kMaxSessionBytes)}});
    file.bytes.clear();
  }
  if (last && !file.refused) end_file(file, name);
}

void App::end_file(IncomingFile& file, const std::string& name) {
  const bool again = !totals_.files.insert(file.sum).second;
  if (again) totals_.twice = name;
  if (file.kind == FileKind::session && !again) {
    std::vector<Result<SessionFile>> one;
    one.push_back(read_session(file.bytes));
    const bool no_entries = one.front() && one.front()->entries.empty();
    if (!no_entries) file.found += take_sessions(std::move(one), name);
  } else if (file.kind == FileKind::backup) {
    file.found += take_sessions(file.backup.finish(), name);
  } else if (file.kind == FileKind::rescue) {
    file.found += take_sessions(file.rescue.finish(), name);
    totals_.damaged += file.rescue.damaged();
  }
  if (file.found == 0 && !again) totals_.empty = name;
  if (file.found == 0 || again) tell_import();
}

// How many there were, good or bad.
std::size_t App::take_sessions(std::vector<Result<SessionFile>> sessions, const std::string& name) {
  const std::size_t count = sessions.size();
  for (Result<SessionFile>& session : sessions) {
    if (session) {
      imports_.push_back(std::move(session.value()));
    } else {
      refuse_file(name, session.problem());
    }
  }
  import_next();
  return count;
}

void App::refuse_file(const std::string& name, const Problem& problem) {
  ++totals_.refused;
  totals_.refusal = say("import.refused", {name, say(problem)});
  tell_error("import.report", import_notice().args);
}

// One session at a time: what is here of it is fetched, then the union is one act.
void App::import_next() {
  if (importing_ || imports_.empty()) return;
  importing_ = true;
  const SessionFile file = std::move(imports_.front());
  imports_.pop_front();
  fetch(file.session, [this, file](StoreStatus status, const OpenSession& found) {
    importing_ = false;
    const bool in_memory = open_ && open_->id == file.session;
    if (!in_memory && status != StoreStatus::ok) {
      ++totals_.refused;
      totals_.refusal = say("import.not-read", {say(trouble_key(status))});
      tell_error("import.report", import_notice().args);
    } else if (may_act()) {
      import_into(in_memory ? *open_ : found, file);
    }
    import_next();
  });
}

// Counts what a file holds against what is here and gives the entries to put; of two texts under one
// id both are put.
std::vector<Entry> App::missing_here(OpenSession& session, const SessionFile& file, Act& act) {
  std::vector<Entry> fresh;
  for (const Entry& entry : file.entries) {
    if (std::holds_alternative<body::Unknown>(entry.body)) ++totals_.unknown;
    const Entry* here = session.set.find(entry.id);
    if (here == nullptr) {
      ++totals_.added;
      fresh.push_back(entry);
    } else if (here->text == entry.text) {
      ++totals_.known;
    } else {
      ++totals_.conflicting;
      const bool loses = here->text < entry.text;
      const std::string& lost = loses ? entry.text : here->text;
      act.ops.push_back(
          {Op::What::put, Area::entries, key_in(session.id, entry.id) + copy_mark(lost), lost});
      if (loses) {
        session.set.insert(entry);  // remembers the conflict
      } else {
        fresh.push_back(entry);
      }
    }
  }
  return fresh;
}

void App::import_into(OpenSession session, const SessionFile& file) {
  const bool was_here = !session.set.empty();
  if (notice_ && notice_->stays)
    notice_.reset();  // it was there to be read when the file was picked
  Act act;
  const std::vector<Entry> fresh = missing_here(session, file, act);
  const std::string head_before = head_to_json(session);
  totals_.sessions.insert(session.id);
  session.left_out = was_here ? in_both(session.left_out, file.left_out) : file.left_out;
  session.minor = std::max(session.minor, file.minor);
  if (session.extra.empty()) session.extra = file.extra;
  const std::string head = head_to_json(session);
  const bool binned = bin_.contains(session.id);
  const auto erased = std::find(erased_.begin(), erased_.end(), session.id);
  if (binned || erased != erased_.end()) ++totals_.restored;
  if (binned) set_bin(session.id, false, act);
  if (erased != erased_.end()) {
    erased_.erase(erased);
    act.ops.push_back({Op::What::put, Area::app, "erased", ids_to_json(erased_)});
  }
  if (head != head_before) {
    const Op::What what = head.empty() ? Op::What::erase : Op::What::put;
    act.ops.push_back({what, Area::entries, session.id + "/head", head});
  }
  if (!fresh.empty() || !act.ops.empty()) {
    put_into(session, fresh, act);
    act.when_kept = import_notice();
    if (open_ && open_->id == session.id) *open_ = std::move(session);
    return enqueue(std::move(act));
  }
  tell_import();
}

// At once, or after what is being saved.
void App::tell_import() {
  if (!queue_.empty()) {
    queue_.back().when_kept = import_notice();
    return;
  }
  notice_ = import_notice();
  changed();
}

// All that one pick of files has brought, in one line.
Notice App::import_notice() const {
  std::string line;
  const auto add = [&](const std::string& part) { line += (line.empty() ? "" : " ") + part; };
  const std::size_t sessions = totals_.sessions.size();
  if (sessions > 0) {
    add(say(sessions == 1 ? "import.one" : "import.many",
            {std::to_string(sessions), std::to_string(totals_.added), std::to_string(totals_.known),
             std::to_string(totals_.conflicting), std::to_string(totals_.unknown)}));
  }
  if (totals_.restored > 0) add(say("import.restored", {std::to_string(totals_.restored)}));
  if (!totals_.twice.empty()) add(say("import.twice", {totals_.twice}));
  if (!totals_.empty.empty()) add(say("import.empty", {totals_.empty}));
  if (totals_.damaged > 0) add(say("import.damaged", {std::to_string(totals_.damaged)}));
  if (totals_.refused > 1) add(say("import.refused-many", {std::to_string(totals_.refused)}));
  if (totals_.refused > 0) add(totals_.refusal);
  return {"import.report", {line}, false, totals_.refused > 0};
}

}  // namespace tallyblock
