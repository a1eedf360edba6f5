// Picked files on their way into the app, and what one pick of them has brought.
#pragma once
#include <cstddef>
#include <cstdint>
#include <deque>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "cards.h"
#include "core/entries/codec.h"
#include "core/entries/rescue.h"

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

// All of an import: files as they come, sessions that wait, what came of them.
struct Importing {
  std::map<std::string, IncomingFile> files;  // of which a part is still to come
  std::deque<SessionFile> waiting;
  bool busy = false;                 // what is here of the next ones is being read
  std::size_t picked = 0, read = 0;  // files of this pick
  bool stopped = false;              // by the person
  std::vector<std::string> refused;  // sentences, at most kMostRefused
  ImportTotals totals;
  bool going_on() const { return busy || !waiting.empty() || (!stopped && read < picked); }
};
inline constexpr std::size_t kMostRefused = 1000;

// Cards that could not be read or are of an earlier version are made again, a few at a time.
struct Remaking {
  std::deque<std::string> sessions;
  std::size_t damaged = 0;  // could not be read
  bool busy = false;
};

// A session as it is stored.
struct Fetched {
  StoreStatus status = StoreStatus::ok;
  OpenSession session;
};

}  // namespace tallyblock
