#include "porter.h"

#include <algorithm>
#include <iterator>
#include <utility>

#include "web/figures/sentence.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr std::size_t kFirstBytes = 4096;

std::string copy_mark(const std::string& text) { return '~' + hex8(crc32(text)); }

// Kinds left out of both: what one copy holds, the union holds.
std::vector<std::string> in_both(const std::vector<std::string>& a,
                                 const std::vector<std::string>& b) {
  std::vector<std::string> out;
  for (const std::string& kind : a) {
    if (std::ranges::find(b, kind) != b.end()) out.push_back(kind);
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

// A file of many sessions is read as it comes; what else it may be is collected.
std::vector<Result<SessionFile>> read_piece(IncomingFile& file, const std::string& bytes) {
  if (file.kind == FileKind::backup) return file.backup.feed(bytes);
  if (file.kind == FileKind::rescue) return file.rescue.feed(bytes);
  file.bytes += bytes;
  return {};
}

}  // namespace

void Porter::expect(std::size_t count) {
  if (!going_on()) *this = {};
  stopped = false;
  picked += count;
}

void Porter::stop() {
  stopped = true;
  waiting.clear();
  files.clear();
}

// ---- as files come

Porter::News Porter::take(const std::string& name, const std::string& bytes, bool last_piece,
                          std::string_view why_not) {
  if (last_piece) ++read;
  if (stopped) return News::none;
  News news = News::none;
  IncomingFile& file = files[name];
  if (!file.begun) {
    file.begun = true;
    file.refused = !why_not.empty();
    if (file.refused) refuse(say("import.refused", {shown_name(name), say(why_not)}));
  }
  if (!file.refused) news = take_piece(file, shown_name(name), bytes, last_piece);
  if (last_piece) files.erase(name);
  return news;
}

Porter::News Porter::take_piece(IncomingFile& file, const std::string& name,
                                const std::string& bytes, bool last) {
  const std::size_t before = totals.refused;
  file.sum += std::to_string(crc32(bytes)) + '-' + std::to_string(bytes.size()) + ' ';
  take_sessions(file, read_piece(file, bytes), name);
  if (file.kind == FileKind::other && (last || file.bytes.size() >= kFirstBytes)) {
    file.kind = kind_of_file(std::string_view(file.bytes).substr(0, kFirstBytes));
    // whatever else it is, reading it says what is wrong
    if (file.kind == FileKind::other) file.kind = FileKind::session;
    take_sessions(file, read_piece(file, std::exchange(file.bytes, {})), name);
  }
  if (file.kind == FileKind::session && file.bytes.size() > kMaxSessionBytes) {
    file.refused = true;
    refuse(name, {Code::file_too_big,
                  "file",
                  {Arg::count(file.bytes.size()), Arg::count(kMaxSessionBytes)}});
    file.bytes.clear();
  }
  const News news = last && !file.refused ? end(file, name) : News::none;
  return totals.refused > before ? News::refused : news;
}

Porter::News Porter::end(IncomingFile& file, const std::string& name) {
  const bool again = !totals.files.insert(file.sum).second;
  if (again) totals.twice = name;
  if (file.kind == FileKind::session && !again) {
    std::vector<Result<SessionFile>> one;
    one.push_back(read_session(file.bytes));
    const bool no_entries = one.front() && one.front()->entries.empty();
    if (!no_entries) take_sessions(file, std::move(one), name);
  } else if (file.kind == FileKind::backup) {
    take_sessions(file, file.backup.finish(), name);
  } else if (file.kind == FileKind::rescue) {
    take_sessions(file, file.rescue.finish(), name);
    totals.damaged += file.rescue.damaged();
  }
  if (file.found == 0 && !again) totals.empty = name;
  return file.found == 0 || again ? News::empty : News::none;
}

void Porter::take_sessions(IncomingFile& file, std::vector<Result<SessionFile>> sessions,
                           const std::string& name) {
  file.found += sessions.size();
  for (Result<SessionFile>& session : sessions) {
    if (session) {
      waiting.push_back(std::move(session.value()));
    } else {
      refuse(name, session.problem());
    }
  }
}

void Porter::refuse(const std::string& name, const Problem& problem) {
  refuse(say("import.refused", {name, show::problem(problem, {})}));
}

void Porter::refuse(const std::string& sentence) {
  ++totals.refused;
  totals.refusal = sentence;
  if (refused.size() < kMostRefused) refused.push_back(sentence);
}

// ---- into the sessions

std::vector<SessionFile> Porter::next() {
  constexpr std::size_t most_sessions = 24, most_entries = 1500;
  std::vector<SessionFile> batch;
  std::set<std::string> sessions;
  std::size_t entries = 0;
  while (!waiting.empty() && sessions.size() < most_sessions && entries < most_entries) {
    if (!sessions.insert(waiting.front().session).second) break;  // after what is being read
    entries += waiting.front().entries.size();
    batch.push_back(std::move(waiting.front()));
    waiting.pop_front();
  }
  return batch;
}

void Porter::take_back(std::vector<SessionFile> batch) {
  waiting.insert(waiting.begin(), std::make_move_iterator(batch.begin()),
                 std::make_move_iterator(batch.end()));
}

// Counts what a file holds against what is here and gives the entries to put; of two texts under one
// id both are put.
std::vector<Entry> Porter::missing(OpenSession& session, const SessionFile& file, Act& act) {
  std::vector<Entry> fresh;
  for (const Entry& entry : file.entries) {
    if (std::holds_alternative<body::Unknown>(entry.body)) ++totals.unknown;
    const Entry* here = session.set.find(entry.id);
    if (here == nullptr) {
      ++totals.added;
      fresh.push_back(entry);
    } else if (here->text == entry.text) {
      ++totals.known;
    } else {
      ++totals.conflicting;
      const bool loses = here->text < entry.text;
      const std::string& lost = loses ? entry.text : here->text;
      act.put(Area::entries, entry_key(session.id, entry.id) + copy_mark(lost), lost);
      if (loses) {
        session.set.insert(entry);  // remembers the conflict
      } else {
        fresh.push_back(entry);
      }
    }
  }
  return fresh;
}

bool Porter::unite(OpenSession& session, const SessionFile& file, Shelf& shelf, Act& act) {
  const bool was_here = !session.set.empty();
  const std::size_t before = act.ops.size();
  const std::vector<Entry> fresh = missing(session, file, act);
  const std::string head_before = head_to_json(session);
  totals.sessions.insert(session.id);
  session.left_out = was_here ? in_both(session.left_out, file.left_out) : file.left_out;
  session.minor = std::max(session.minor, file.minor);
  if (session.extra.empty()) session.extra = file.extra;
  const std::string head = head_to_json(session);
  const bool binned = shelf.in_bin(session.id);
  if (binned) shelf.set_bin(session.id, false, 0, act);
  const bool erased = shelf.forget_erased(session.id, act);
  if (binned || erased) ++totals.restored;
  if (head != head_before) {
    const Op::What what = head.empty() ? Op::What::erase : Op::What::put;
    act.ops.push_back({what, Area::entries, session.id + "/head", head});
  }
  if (fresh.empty() && act.ops.size() == before) return false;
  for (const Entry& entry : fresh) {
    act.enter(session.id, entry);
    session.set.insert(entry);
  }
  refresh(session);
  shelf.put(card_of(session), act);
  return true;
}

Notice Porter::report() const {
  std::string line;
  const auto add = [&](const std::string& part) { line += (line.empty() ? "" : " ") + part; };
  const std::size_t sessions = totals.sessions.size();
  if (sessions > 0) {
    add(say(form_of("import.many", static_cast<double>(sessions)),
            {std::to_string(sessions), std::to_string(totals.added), std::to_string(totals.known),
             std::to_string(totals.conflicting), std::to_string(totals.unknown)}));
  }
  if (totals.restored > 0) add(say("import.restored", {std::to_string(totals.restored)}));
  if (!totals.twice.empty()) add(say("import.twice", {totals.twice}));
  if (!totals.empty.empty()) add(say("import.empty", {totals.empty}));
  if (totals.damaged > 0) add(say("import.damaged", {std::to_string(totals.damaged)}));
  if (totals.refused > 1) add(say("import.refused-many", {std::to_string(totals.refused)}));
  if (totals.refused > 0) add(totals.refusal);
  return {"import.report", {line}, false, totals.refused > 0};
}

}  // namespace tallyblock
