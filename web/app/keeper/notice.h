// What the app says of itself in one line.
#pragma once
#include <string>
#include <vector>

namespace tallyblock {

// One line at the bottom of the screen with an optional undo, replaced by the next.
struct Notice {
  std::string key;  // catalogue key
  std::vector<std::string> args;
  bool can_undo = false;
  bool is_error = false;
  bool stays = false;       // until it is closed: no act takes its place
  std::string binned = {};  // the session that undo takes out of the bin again
};

}  // namespace tallyblock
