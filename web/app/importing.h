// Picked files on their way into the app, and what one pick of them has brought.
#pragma once
#include <cstddef>
#include <set>
#include <string>

#include "core/codec.h"
#include "core/rescue.h"

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

}  // namespace tallyblock
