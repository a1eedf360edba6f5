// What becomes one transaction.
#pragma once
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/entries/entry.h"
#include "notice.h"
#include "web/app/store.h"

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

  void put(Area area, std::string key, std::string bytes) {
    ops.push_back({Op::What::put, area, std::move(key), std::move(bytes)});
  }
  void erase(Area area, std::string key) {
    ops.push_back({Op::What::erase, area, std::move(key), ""});
  }
  void enter(const std::string& session, const Entry& entry) {
    std::string key = entry_key(session, entry.id);
    unsaved.push_back(key);
    put(Area::entries, std::move(key), entry.text);
  }
};

}  // namespace tallyblock
