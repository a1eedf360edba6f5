#include "access.h"

#include <cmath>
#include <cstdlib>

namespace tallyblock {
namespace {

constexpr char between_fields = '\x1f';
constexpr char between_nodes = '\x1e';

void field(std::string& out, const std::string& text) {
  for (const char c : text) {
    out += c == between_fields || c == between_nodes ? ' ' : c;
  }
  out += between_fields;
}

void field(std::string& out, unsigned long number) { field(out, std::to_string(number)); }

// Whole pixels: the elements need no more, and the text stays the same while nothing moves.
void field(std::string& out, float px) { field(out, std::to_string(std::lround(px))); }

}  // namespace

std::string access_text(const AccessList& list) {
  std::string out;
  out.reserve(list.size() * 96);
  for (const AccessNode& n : list) {
    if (!out.empty()) out += between_nodes;
    field(out, static_cast<unsigned long>(n.id));
    field(out, static_cast<unsigned long>(n.kind));
    field(out, n.label);
    field(out, n.value);
    field(out, n.x);
    field(out, n.y);
    field(out, n.w);
    field(out, n.h);
    field(out, static_cast<unsigned long>(n.enabled));
    field(out, static_cast<unsigned long>(n.pressed));
    field(out, static_cast<unsigned long>(n.expanded));
    field(out, static_cast<unsigned long>(n.level));
    field(out, static_cast<unsigned long>(n.multiline));
    field(out, static_cast<unsigned long>(n.visible));
    field(out, static_cast<unsigned long>(n.max_length));
    field(out, static_cast<unsigned long>(n.position));
    field(out, static_cast<unsigned long>(n.set_size));
    field(out, n.hint);
    out.pop_back();
  }
  return out;
}

}  // namespace tallyblock
