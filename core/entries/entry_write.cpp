// From entries to their stored text: the fields all kinds share, then those of the kind (kinds.h).
#include <string>
#include <utility>

#include "codec.h"
#include "core/json/json_text.h"
#include "kinds.h"

namespace tallyblock {
namespace {

Json ids_json(const std::vector<EntryId>& ids) {
  Json list = Json::array();
  for (const EntryId& id : ids) list.children.push_back(Json::string(to_text(id)));
  return list;
}

// Sets the fields of a body in its object. A field that says no more than its absence is left out.
class WriteFields {
 public:
  explicit WriteFields(Json& out) : out_(out) {}

  void name(std::string_view field, const std::string& text) { set(field, text); }
  void optional_name(std::string_view field, const std::string& text) {
    if (!text.empty()) set(field, text);
  }
  void long_text(std::string_view field, const std::string& text) { set(field, text); }
  void optional_long_text(std::string_view field, const std::string& text) {
    optional_name(field, text);
  }
  void key(std::string_view field, const std::string& text) { set(field, text); }
  void optional_key(std::string_view field, const std::string& text) { optional_name(field, text); }
  void pile(std::string_view field, const std::string& text) { set(field, text); }
  void pile_ever(std::string_view field, const std::string& text) { set(field, text); }
  void tub(std::string_view field, const std::string& text) { optional_name(field, text); }
  void step(const std::string& key) {
    if (key != "main") set("step", key);
  }
  void priced(std::string_view field, const std::string& text) { set(field, text); }

  void entry(const char*, std::string_view field, const EntryId& id) { set(field, to_text(id)); }
  void optional_entry(const char*, std::string_view field, const std::optional<EntryId>& id) {
    if (id) set(field, to_text(*id));
  }
  void entries(const char*, std::string_view field, const std::vector<EntryId>& ids) {
    if (!ids.empty()) out_.set(field, ids_json(ids));
  }

  void mass(std::string_view field, const TypedMass& typed, Sign = Sign::any) {
    set(field, typed.text);
  }
  void optional_mass(std::string_view field, const std::optional<TypedMass>& typed,
                     Sign = Sign::any) {
    typed_text(field, typed);
  }
  void division(const TypedMass& typed) { optional_name("division", typed.text); }
  void length(std::string_view field, const TypedLength& typed) { set(field, typed.text); }
  void optional_length(std::string_view field, const std::optional<TypedLength>& typed) {
    typed_text(field, typed);
  }
  void number(std::string_view field, const TypedNumber& typed, Sign) { set(field, typed.text); }
  void percent(std::string_view field, const TypedNumber& typed) { set(field, typed.text); }
  void optional_percent(std::string_view field, const std::optional<TypedNumber>& typed) {
    typed_text(field, typed);
  }
  void optional_minutes(std::string_view field, const std::optional<TypedNumber>& typed) {
    typed_text(field, typed);
  }

  template <class Enum>
  void choice(std::string_view field, Enum value) {
    set(field, name_of(value));
  }
  template <class Set>
  void one_of(std::string_view field, const std::string& text, const Set&, bool) {
    optional_name(field, text);
  }
  void either(std::string_view field, bool truth, std::string_view yes, std::string_view no) {
    set(field, truth ? yes : no);
  }
  void integer(std::string_view field, std::int64_t whole, std::int64_t, std::int64_t) {
    out_.set(field, Json::number(whole));
  }
  template <class Whole>
  void optional_integer(std::string_view field, const std::optional<Whole>& whole, std::int64_t,
                        std::int64_t) {
    if (whole) out_.set(field, Json::number(*whole));
  }
  void count(unsigned pieces) {
    if (pieces != 1) out_.set("count", Json::number(pieces));
  }
  void truth(std::string_view field, bool truth) { out_.set(field, Json::truth(truth)); }
  void flag(std::string_view field, bool truth) {
    if (truth) out_.set(field, Json::truth(true));
  }

  template <class Condition>
  void must(std::string_view, Condition) {}
  template <class Condition>
  void one_at_least(std::string_view, Condition) {}
  void later(int, bool) {}

 private:
  void set(std::string_view field, std::string_view text) { out_.set(field, Json::string(text)); }
  template <class Typed>
  void typed_text(std::string_view field, const std::optional<Typed>& typed) {
    if (typed) set(field, typed->text);
  }

  Json& out_;
};

}  // namespace

Entry sealed(Entry entry) {
  // An entry this code cannot write keeps the text it came with.
  if (std::holds_alternative<body::Unknown>(entry.body) && !entry.text.empty()) return entry;
  Json object = Json::object();
  object.set("id", Json::string(to_text(entry.id)));
  object.set("seq", Json::number(static_cast<std::int64_t>(entry.seq)));
  object.set("t", Json::number(entry.time.utc_ms));
  object.set("tz", Json::number(entry.time.offset_minutes));
  object.set("kind", Json::string(kind_name(entry.body)));
  if (entry.by) object.set("by", Json::string(to_text(*entry.by)));
  if (!entry.replaces.empty()) object.set("replaces", ids_json(entry.replaces));
  WriteFields fields(object);
  visit_fields(fields, std::as_const(entry.body));
  entry.text = canonical_text(object);
  return entry;
}

}  // namespace tallyblock
