// A session in memory: its entries, what follows from them, and how it is stored.
//
// A head holds what a session file says besides its entries: kinds left out on purpose, minor version,
// unknown fields.
#pragma once
#include <string>
#include <vector>

#include "core/entries/codec.h"
#include "core/entries/entry_set.h"
#include "core/session/session.h"
#include "web/app/store.h"

namespace tallyblock {

struct OpenSession {
  std::string id;
  EntrySet set;
  Figures figures;  // of all entries, kept or not
  std::vector<std::string> left_out;
  bool sample = false;
  int minor = 0;               // of the file it came from
  std::string extra;           // unknown fields of that file
  std::size_t unreadable = 0;  // stored records that are no entries; left where they are
};

// Reads the records of one session: entries, copies and the head.
OpenSession session_from(const std::string& id, const std::vector<Record>& records);
// Figures, sample mark: after entries were added.
void refresh(OpenSession& session);
SessionFile file_of(const OpenSession& session);
// "" when there is nothing to say.
std::string head_to_json(const OpenSession& session);

}  // namespace tallyblock
