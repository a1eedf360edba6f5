// What is asked of an entry through the description of its kind: the key of its fact, the minor version
// of the format that it needs.
#include <algorithm>
#include <string>

#include "codec.h"
#include "entry_set.h"
#include "kinds.h"

namespace tallyblock {
namespace {

class KeyOfFact : public IgnoreFields {
 public:
  KeyOfFact(std::string_view kind, int parts) : text_(kind), left_(parts) {}
  const std::string& text() const { return text_; }

  void key(std::string_view, const std::string& text) { part(text); }
  void name(std::string_view, const std::string& text) { part(text); }
  void pile(std::string_view, const std::string& text) { part(text); }
  void pile_ever(std::string_view, const std::string& text) { part(text); }
  void priced(std::string_view, const std::string& text) { part(text); }
  void step(const std::string& text) { part(text); }
  void entry(const char*, std::string_view, const EntryId& id) { part(to_text(id)); }
  template <class Enum>
  void choice(std::string_view, Enum value) {
    part(name_of(value));
  }

 private:
  void part(std::string_view text) {
    if (left_-- > 0) text_.append(1, ':').append(text);
  }
  std::string text_;
  int left_;
};

struct MinorNeeded : IgnoreFields {
  int minor = 0;
  void later(int since, bool used) {
    if (used) minor = std::max(minor, since);
  }
};

}  // namespace

std::string fact_key(const Entry& entry) {
  if (std::holds_alternative<body::Person>(entry.body)) {
    return "person:" + to_text(entry.replaces.empty() ? entry.id : entry.replaces.front());
  }
  std::string key;
  with_kind(entry.body, [&](auto kind, const auto& held) {
    if (kind.parts < 0) return;
    KeyOfFact found(kind.name, kind.parts);
    kind.fields(found, held);
    key = found.text();
  });
  return key;
}

int minor_of(const Entry& entry) {
  MinorNeeded needed;
  with_kind(entry.body, [&](auto kind, const auto& held) {
    needed.minor = kind.minor;
    kind.fields(needed, held);
  });
  return needed.minor;
}

}  // namespace tallyblock
