#include "bridge_store.h"

#include <optional>

#include "page.h"

namespace tallyblock {
namespace {

void put_part(std::string& out, std::string_view part) {
  const std::size_t size = part.size();
  for (unsigned shift = 0; shift < 32; shift += 8) {
    out += static_cast<char>((size >> shift) & 0xFFU);
  }
  out += part;
}

// Takes a length and as many bytes from the front of `bytes`.
std::optional<std::string_view> take_part(std::string_view& bytes) {
  if (bytes.size() < 4) return std::nullopt;
  std::size_t size = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    size |= static_cast<std::size_t>(static_cast<unsigned char>(bytes[i])) << (8 * i);
  }
  bytes.remove_prefix(4);
  if (bytes.size() < size) return std::nullopt;
  const std::string_view part = bytes.substr(0, size);
  bytes.remove_prefix(size);
  return part;
}

}  // namespace

void frame_ops(const Transaction& transaction, std::string& out) {
  out.clear();
  for (const Op& op : transaction) {
    out += static_cast<char>(op.what);
    out += static_cast<char>(op.area);
    put_part(out, op.key);
    put_part(out, op.bytes);
  }
}

std::vector<Record> unframe_records(std::string_view bytes) {
  std::vector<Record> records;
  while (!bytes.empty()) {
    const auto key = take_part(bytes);
    const auto value = key ? take_part(bytes) : std::nullopt;
    if (!value) break;
    records.push_back({std::string(*key), std::string(*value)});
  }
  return records;
}

void BridgeStore::commit(std::uint32_t token, const Transaction& transaction) {
  frame_ops(transaction, framed_);
  page::store_commit(token, framed_);
}

void BridgeStore::load(std::uint32_t token, Area area, const std::string& prefix) {
  page::store_load(token, static_cast<int>(area), prefix);
}

}  // namespace tallyblock
