// The outside world's memory, as the app sees it: four areas of key -> bytes, one transaction per act.
//
// A transaction is all or nothing. "ok" is answered only when it has COMPLETED (in the browser: the
// IndexedDB transaction's complete event under strict durability), never earlier. Implementations:
// web/platform (browser), tests/web/faulty_store.h (in memory, fails on command).
#pragma once
#include <cstdint>
#include <string>
#include <vector>

namespace tallyblock {

// entries: "<session>/<entry id>" -> canonical entry text; "<session>/<entry id>~<crc-32>" -> a copy
// of that entry with another text (rule 4); "<session>/head" -> what a session file says besides its
// entries (cards.h). index: session id -> summary (rebuildable).
// Of index also "~log/<session id>", what the log knows of it: keys that begin with ~ are loaded by a prefix that
// begins so, not by the empty one, so that a start does not wait for them.
// app: "draft", "settings", "erased" -> JSON. bin: session id -> when it was put there (decimal ms).
enum class Area : std::uint8_t { entries = 0, index = 1, app = 2, bin = 3 };

struct Op {
  enum class What : std::uint8_t { put = 0, erase = 1, erase_prefix = 2 };
  What what = What::put;
  Area area = Area::entries;
  std::string key;
  std::string bytes;
};
using Transaction = std::vector<Op>;

// Values cross the bridge: frozen.
enum class StoreStatus : std::uint8_t {
  ok = 0,
  quota = 1,        // the device is full
  aborted = 2,      // the transaction was rolled back
  closed = 3,       // the connection died and could not be reopened
  timeout = 4,      // no answer within 10 s; may or may not have been kept
  blocked = 5,      // another window holds an older version open
  newer = 6,        // stored by a newer version of the app
  not_writer = 7,   // another window has the pen
  unavailable = 8,  // no storage here (private mode or forbidden)
  read_newer = 9,   // of a load: stored by a newer version, and read all the same
};

// What a store tells the person of its own accord. Values cross the bridge: frozen.
enum class StoreNews : std::uint8_t {
  back = 1,     // so many pieces were missing and came back from the second store
  mended = 2,   // so many records were damaged and came back from there
  damaged = 3,  // so many are damaged and nowhere else: they do not count
  wiped = 4,    // nothing is left, though something was stored here once
  cleared = 5,  // what was stored was taken away while the app was open: write it again
  copied = 6,   // so many pieces were missing in the second store and are there again
};

struct Record {
  std::string key;
  std::string bytes;
};

class Store {
 public:
  virtual ~Store() = default;
  // Answered once by App::on_commit(token, status), never from inside this call.
  virtual void commit(std::uint32_t token, const Transaction& transaction) = 0;
  // Records whose key starts with `prefix`, sorted by key; answered once by App::on_load.
  virtual void load(std::uint32_t token, Area area, const std::string& prefix) = 0;
};

}  // namespace tallyblock
