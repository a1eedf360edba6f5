#include "access_sender.h"

#include <bit>
#include <string>
#include <string_view>

#include "page.h"

namespace tallyblock {
namespace {

constexpr double least_apart_ms = 100;

// A text box is seen: the page's input must move with the field drawn below it.
bool shows_text_box(const AccessList& list) {
  for (const AccessNode& n : list) {
    if (n.kind == AccessKind::textbox && n.visible) return true;
  }
  return false;
}

// FNV-1a, 64 bits.
class Hash {
 public:
  void add(std::uint64_t number) {
    for (unsigned shift = 0; shift < 64; shift += 8) byte((number >> shift) & 0xFFU);
  }
  void add(float number) { add(std::uint64_t{std::bit_cast<std::uint32_t>(number)}); }
  void add(std::string_view text) {
    for (const char c : text) byte(static_cast<unsigned char>(c));
    byte(0xFF);  // in no UTF-8 text: tells "ab","c" from "a","bc"
  }
  std::uint64_t value() const { return value_ == 0 ? 1 : value_; }

 private:
  void byte(std::uint64_t b) { value_ = (value_ ^ b) * 1099511628211ULL; }
  std::uint64_t value_ = 14695981039346656037ULL;
};

std::uint64_t hash_of(const AccessList& list) {
  Hash hash;
  for (const AccessNode& n : list) {
    hash.add(std::uint64_t{n.id});
    hash.add(n.label);
    hash.add(n.value);
    hash.add(n.hint);
    for (const float px : {n.x, n.y, n.w, n.h}) hash.add(px);
    hash.add(std::uint64_t{static_cast<std::uint8_t>(n.kind)} | std::uint64_t{n.pressed} << 8U |
             std::uint64_t{n.expanded} << 16U | std::uint64_t{n.level} << 24U |
             std::uint64_t{n.max_length} << 32U | std::uint64_t{n.enabled} << 48U |
             std::uint64_t{n.multiline} << 49U | std::uint64_t{n.visible} << 50U);
    hash.add(std::uint64_t{n.position} | std::uint64_t{n.set_size} << 32U);
  }
  return hash.value();
}

}  // namespace

void AccessSender::send(const AccessList& list, bool at_rest, double ms) {
  const std::uint64_t hash = hash_of(list);
  if (hash == sent_hash_) return;
  if (!at_rest && ms - sent_ms_ < least_apart_ms && !shows_text_box(list)) return;
  sent_hash_ = hash;
  sent_ms_ = ms;
  page::access(access_text(list));
}

}  // namespace tallyblock
