// The porter: files in and out.
//
// A file comes in pieces. A session file is collected, checked as a whole and refused as a whole; a
// backup is read line by line and a rescue file record by record; some sessions together are one act.
// Importing is the union of what is here and what is in the file; entries that differ under one id are
// both kept and said (rule 4). A session from the bin, or erased before, is restored and said (rule 15).
#pragma once
#include <cstddef>
#include <cstdint>
#include <deque>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "core/entries/codec.h"
#include "core/entries/rescue.h"
#include "web/app/shelf/shelf.h"

namespace tallyblock {

struct IncomingFile {
  std::string bytes;  // of a session file; of another, while its kind is not known
  BackupReader backup;
  RescueReader rescue;
  FileKind kind = FileKind::other;
  bool begun = false, refused = false;
  std::size_t found = 0;  // sessions and problems
  std::string sum;        // of the bytes so far
};

struct ImportTotals {
  std::set<std::string> sessions;  // ids
  std::set<std::string> files;     // by what they hold, to know one that is picked twice
  std::size_t added = 0, known = 0, conflicting = 0, unknown = 0, restored = 0;
  std::size_t refused = 0, damaged = 0;
  std::string twice, empty;  // names of such files
  std::string refusal;       // the sentence of the last file refused
};
inline constexpr std::size_t kMostRefused = 1000;

// Files as they come, sessions that wait, what came of them.
struct Porter {
  std::map<std::string, IncomingFile> files;  // of which a part is still to come
  std::deque<SessionFile> waiting;
  bool busy = false;                 // what is here of the next ones is being read
  std::size_t picked = 0, read = 0;  // files of this pick
  bool stopped = false;              // by the person
  std::vector<std::string> refused;  // sentences, at most kMostRefused
  ImportTotals totals;

  bool going_on() const { return busy || !waiting.empty() || (!stopped && read < picked); }
  void expect(std::size_t count);  // so many were picked and come in turn
  void stop();                     // what is not imported yet is not wanted any more

  // A piece of a file; it begins only where nothing is in the way.
  bool begins(const std::string& name) const { return !stopped && !files.contains(name); }
  enum class News { none, empty, refused };  // what of it is to be said
  News take(const std::string& name, const std::string& bytes, bool last_piece,
            std::string_view why_not);
  void refuse(const std::string& sentence);

  // So many sessions that they make one act, no two of one id.
  std::vector<SessionFile> next();
  void take_back(std::vector<SessionFile> batch);  // what is stored has changed meanwhile
  // The union of a session as it is here and as it is in the file, put into the act. False: nothing is new.
  bool unite(OpenSession& session, const SessionFile& file, Shelf& shelf, Act& act);
  // All that one pick of files has brought, in one line.
  Notice report() const;

 private:
  News take_piece(IncomingFile& file, const std::string& name, const std::string& bytes, bool last);
  News end(IncomingFile& file, const std::string& name);
  void take_sessions(IncomingFile& file, std::vector<Result<SessionFile>> sessions,
                     const std::string& name);
  void refuse(const std::string& name, const Problem& problem);
  std::vector<Entry> missing(OpenSession& session, const SessionFile& file, Act& act);
};

// ---- out

// A file to be handed over.
struct Parcel {
  std::string name, mime, bytes;
  std::size_t parts = 1;  // too large for one session file: in so many
};
Parcel parcel_of(const OpenSession& session, bool with_names);

struct Backup {
  std::string bytes;
  std::size_t lines = 0, binned = 0, unreadable = 0;
};
Backup backup_of(const std::vector<Record>& records,
                 const std::map<std::string, std::int64_t>& bin);
Parcel parcel_of(const Backup& backup, const std::string& day);

}  // namespace tallyblock
