// What App says of itself, and what it holds while it loads and between acts.
#pragma once
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/entries/entry.h"
#include "store.h"
#include "web/words/part.h"

namespace tallyblock {

enum class SaveState { nothing_yet, saving, kept, failed };

// Catalogue key of the sentence for a status that is not ok, e.g. "trouble.quota".
std::string_view trouble_key(StoreStatus status);

// One line at the bottom of the screen with an optional undo, replaced by the next.
struct Notice {
  std::string key;  // catalogue key
  std::vector<std::string> args;
  bool can_undo = false;
  bool is_error = false;
  bool stays = false;       // until it is closed: no act takes its place
  std::string binned = {};  // the session that undo takes out of the bin again
};

// How many pieces a weight is like, if one weighs `one`; 1 where it is like one or cannot be told. Nobody cuts
// three quarters beside the target.
unsigned like_several(Mass weight, Mass one);

// How long a text typed into the box `id` may be, in bytes of UTF-8.
std::size_t most_bytes(const std::string& id);

// What a start has loaded so far.
struct Starting {
  std::vector<Record> app, index, bin;
  int waiting = 0;
  StoreStatus status = StoreStatus::ok;
  bool first = true;  // at start, not after another window kept something
};

// How to take an act on the open session back: entries to void.
struct UndoStep {
  std::vector<EntryId> entries;
  std::string pile = {};  // the chosen one before a move chose another
};

// An act that is put off until its part of the program is here.
struct Later {
  AppPart part;
  std::string what;
  std::function<void()> act;
};

// What waits with a piece, or with the list (""), until it is looked at again.
struct Waiting {
  std::optional<Notice> notice;
  std::vector<UndoStep> undo;
};

}  // namespace tallyblock
