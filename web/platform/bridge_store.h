// Store over the page's IndexedDB (shell/storage.js). Framing as in BRIDGE.md.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "web/app/store.h"

namespace tallyblock {

class BridgeStore final : public Store {
 public:
  void commit(std::uint32_t token, const Transaction& transaction) override;
  void load(std::uint32_t token, Area area, const std::string& prefix) override;

 private:
  std::string framed_;  // kept for its storage
};

// u8 what, u8 area, u32le key length, key, u32le value length, value; repeated. Replaces `out`.
void frame_ops(const Transaction& transaction, std::string& out);

// u32le key length, key, u32le value length, value; repeated. Stops at the first record that is not
// whole (the page never sends one).
std::vector<Record> unframe_records(std::string_view bytes);

}  // namespace tallyblock
