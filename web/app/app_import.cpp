// App's files in: sessions, backups, rescue files.
//
// A file comes in pieces. A session file is collected, checked as a whole and refused as a whole; a
// backup is read line by line and a rescue file record by record; some sessions together are one act.
// Importing is the union of what is here and what is in the file; entries that differ under one id are
// both kept and said (rule 4). A session from the bin, or erased before, is restored and said (rule 15).
#include <algorithm>
#include <iterator>
#include <memory>
#include <set>
#include <utility>

#include "app.h"
#include "web/figures/sentence.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr std::size_t kFirstBytes = 4096;

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

}  // namespace

void App::import_file() { host_.pick_file(); }

void App::on_files(std::size_t count) {
  if (!in_.going_on()) in_ = {};
  in_.stopped = false;
  in_.picked += count;
  changed();
}

void App::stop_import_now() {
  in_.stopped = true;
  in_.waiting.clear();
  in_.files.clear();
  tell_import();
}

void App::forget_refused() {
  in_.refused.clear();
  changed();
}

void App::on_file_now(const std::string& name, const std::string& bytes, bool last_piece) {
  if (last_piece) ++in_.read;
  if (!in_.stopped) {
    IncomingFile& file = in_.files[name];
    if (!file.begun) {
      file.begun = true;
      file.refused = !may_act();
      if (file.refused) note_refused(say("import.refused", {shown_name(name), say(why_not())}));
    }
    if (!file.refused) take_piece(file, shown_name(name), bytes, last_piece);
    if (last_piece) in_.files.erase(name);
  }
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
                       {Arg::count(file.bytes.size()), Arg::count(kMaxSessionBytes)}});
    file.bytes.clear();
  }
  if (last && !file.refused) end_file(file, name);
}

void App::end_file(IncomingFile& file, const std::string& name) {
  const bool again = !in_.totals.files.insert(file.sum).second;
  if (again) in_.totals.twice = name;
  if (file.kind == FileKind::session && !again) {
    std::vector<Result<SessionFile>> one;
    one.push_back(read_session(file.bytes));
    const bool no_entries = one.front() && one.front()->entries.empty();
    if (!no_entries) file.found += take_sessions(std::move(one), name);
  } else if (file.kind == FileKind::backup) {
    file.found += take_sessions(file.backup.finish(), name);
  } else if (file.kind == FileKind::rescue) {
    file.found += take_sessions(file.rescue.finish(), name);
    in_.totals.damaged += file.rescue.damaged();
  }
  if (file.found == 0 && !again) in_.totals.empty = name;
  if (file.found == 0 || again) tell_import();
}

// How many there were, good or bad.
std::size_t App::take_sessions(std::vector<Result<SessionFile>> sessions, const std::string& name) {
  const std::size_t count = sessions.size();
  for (Result<SessionFile>& session : sessions) {
    if (session) {
      in_.waiting.push_back(std::move(session.value()));
    } else {
      refuse_file(name, session.problem());
    }
  }
  go_on_in_background();
  return count;
}

void App::refuse_file(const std::string& name, const Problem& problem) {
  refused(say("import.refused", {name, show::problem(problem, {})}));
}

void App::note_refused(const std::string& sentence) {
  ++in_.totals.refused;
  in_.totals.refusal = sentence;
  if (in_.refused.size() < kMostRefused) in_.refused.push_back(sentence);
}

// Said at once, and again with what is being kept meanwhile.
void App::refused(const std::string& sentence) {
  note_refused(sentence);
  if (!queue_.empty()) queue_.back().when_kept = import_notice();
  tell_error("import.report", import_notice().args);
}

// What is here of the next ones is read, then their union with it is one act. The next ones wait for
// it to be kept, unless saving fails.
void App::import_next_now() {
  constexpr std::size_t most_acts = 2, most_sessions = 24, most_entries = 1500;
  const bool saving = trouble_ == StoreStatus::ok && queue_.size() >= most_acts;
  if (in_.busy || in_.waiting.empty() || saving || !why_not().empty()) return;
  in_.busy = true;
  const auto files = std::make_shared<std::vector<SessionFile>>();
  std::set<std::string> sessions;
  std::size_t entries = 0;
  while (!in_.waiting.empty() && sessions.size() < most_sessions && entries < most_entries) {
    if (!sessions.insert(in_.waiting.front().session).second) break;  // after what is being read
    entries += in_.waiting.front().entries.size();
    files->push_back(std::move(in_.waiting.front()));
    in_.waiting.pop_front();
  }
  std::vector<std::string> ids;
  for (const SessionFile& file : *files) ids.push_back(file.session);
  fetch_some(ids, [this, files](std::vector<Fetched>& here, bool stale) {
    import_batch(*files, here, stale);
  });
}

void App::import_batch(std::vector<SessionFile>& files, std::vector<Fetched>& here, bool stale) {
  in_.busy = false;
  if (in_.stopped) return tell_import();
  if (stale || !why_not().empty()) {
    in_.waiting.insert(in_.waiting.begin(), std::make_move_iterator(files.begin()),
                       std::make_move_iterator(files.end()));
    return go_on_in_background();
  }
  Act act;
  bool any = false;
  for (std::size_t i = 0; i < files.size(); ++i) {
    const bool in_memory = open_ && open_->id == files[i].session;
    if (!in_memory && here[i].status != StoreStatus::ok) {
      refused(say("import.not-read", {say(trouble_key(here[i].status))}));
    } else {
      any = true;
      import_into(in_memory ? *open_ : std::move(here[i].session), files[i], act);
    }
  }
  if (!act.ops.empty()) {
    act.when_kept = import_notice();
    enqueue(std::move(act));
  } else if (any) {
    tell_import();
  }
  go_on_in_background();
}

// Counts what a file holds against what is here and gives the entries to put; of two texts under one
// id both are put.
std::vector<Entry> App::missing_here(OpenSession& session, const SessionFile& file, Act& act) {
  std::vector<Entry> fresh;
  for (const Entry& entry : file.entries) {
    if (std::holds_alternative<body::Unknown>(entry.body)) ++in_.totals.unknown;
    const Entry* here = session.set.find(entry.id);
    if (here == nullptr) {
      ++in_.totals.added;
      fresh.push_back(entry);
    } else if (here->text == entry.text) {
      ++in_.totals.known;
    } else {
      ++in_.totals.conflicting;
      const bool loses = here->text < entry.text;
      const std::string& lost = loses ? entry.text : here->text;
      act.ops.push_back(
          {Op::What::put, Area::entries, entry_key(session.id, entry.id) + copy_mark(lost), lost});
      if (loses) {
        session.set.insert(entry);  // remembers the conflict
      } else {
        fresh.push_back(entry);
      }
    }
  }
  return fresh;
}

void App::import_into(OpenSession session, const SessionFile& file, Act& act) {
  const bool was_here = !session.set.empty();
  if (notice_ && notice_->stays)
    notice_.reset();  // it was there to be read when the file was picked
  const std::size_t before = act.ops.size();
  const std::vector<Entry> fresh = missing_here(session, file, act);
  const std::string head_before = head_to_json(session);
  in_.totals.sessions.insert(session.id);
  session.left_out = was_here ? in_both(session.left_out, file.left_out) : file.left_out;
  session.minor = std::max(session.minor, file.minor);
  if (session.extra.empty()) session.extra = file.extra;
  const std::string head = head_to_json(session);
  const bool binned = bin_.contains(session.id);
  const auto erased = std::find(erased_.begin(), erased_.end(), session.id);
  if (binned || erased != erased_.end()) ++in_.totals.restored;
  if (binned) set_bin(session.id, false, act);
  if (erased != erased_.end()) {
    erased_.erase(erased);
    act.ops.push_back({Op::What::put, Area::app, "erased", ids_to_json(erased_)});
  }
  if (head != head_before) {
    const Op::What what = head.empty() ? Op::What::erase : Op::What::put;
    act.ops.push_back({what, Area::entries, session.id + "/head", head});
  }
  if (fresh.empty() && act.ops.size() == before) return;
  put_into(session, fresh, act);
  if (open_ && open_->id == session.id) *open_ = std::move(session);
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
  const std::size_t sessions = in_.totals.sessions.size();
  if (sessions > 0) {
    add(say(form_of("import.many", static_cast<double>(sessions)),
            {std::to_string(sessions), std::to_string(in_.totals.added),
             std::to_string(in_.totals.known), std::to_string(in_.totals.conflicting),
             std::to_string(in_.totals.unknown)}));
  }
  if (in_.totals.restored > 0) add(say("import.restored", {std::to_string(in_.totals.restored)}));
  if (!in_.totals.twice.empty()) add(say("import.twice", {in_.totals.twice}));
  if (!in_.totals.empty.empty()) add(say("import.empty", {in_.totals.empty}));
  if (in_.totals.damaged > 0) add(say("import.damaged", {std::to_string(in_.totals.damaged)}));
  if (in_.totals.refused > 1) add(say("import.refused-many", {std::to_string(in_.totals.refused)}));
  if (in_.totals.refused > 0) add(in_.totals.refusal);
  return {"import.report", {line}, false, in_.totals.refused > 0};
}

}  // namespace tallyblock
