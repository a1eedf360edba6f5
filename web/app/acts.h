// What becomes one transaction, and the entries it is made of.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "app_parts.h"
#include "core/base/problem.h"
#include "core/entries/entry.h"
#include "store.h"

namespace tallyblock {

// "<session>/<entry id>", under which it is stored.
inline std::string entry_key(const std::string& session, const EntryId& id) {
  return session + '/' + to_text(id);
}

// One act: what is put into one transaction, in the order of acts.
struct Act {
  Transaction ops;
  std::vector<std::string> unsaved;  // keys of its entries
  std::string draft;                 // as it was when the act was done; kept with it
  std::optional<Notice> when_kept;
  bool told = false;  // that saving it failed
};

// Entries of one act, numbered and checked before any is let into the session.
struct Writing {
  std::string writer;
  std::uint32_t counter = 0;
  std::uint64_t seq = 0;
  Stamp time;
  std::optional<EntryId> by;
  std::vector<Entry> made;
  std::optional<Problem> problem;
  EntryId add(Body body, std::vector<EntryId> replaces = {});
};

}  // namespace tallyblock
