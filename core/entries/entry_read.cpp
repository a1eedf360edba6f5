// From stored text to entries: the fields of the kind (kinds.h), then those all kinds share.
#include <string>
#include <utility>

#include "codec.h"
#include "entry_fields.h"
#include "kinds.h"

namespace tallyblock {

bool kinds::is_setting(std::string_view key, std::string_view value) {
  if (key == "currency") return is_currency(value);
  if (key == "division") return parse_mass(value, key).ok();
  if (key == "unit") return is_in(kEntryUnits, value);
  if (key == "wage") return parse_number(value, key).ok();
  if (key == "loss-limit") return parse_percent(value, key).ok();
  if (key == "tolerance") return value == "imps" || parse_mass(value, key, Sign::zero_or_more).ok();
  if (key == "price-unit") return is_in(kShownPriceUnits, value);
  if (key == "decimal-mark") return is_in(kDecimalMarks, value);
  return true;
}

namespace {

std::optional<Role> from_name(std::string_view name, Role) { return role_from(name); }
std::optional<Habit> from_name(std::string_view name, Habit) { return habit_from(name); }
std::optional<Incoming> from_name(std::string_view name, Incoming) { return incoming_from(name); }
std::optional<Process> from_name(std::string_view name, Process) { return process_from(name); }
std::optional<PriceBasis> from_name(std::string_view name, PriceBasis) {
  return price_basis_from(name);
}

// Fills a body from the fields of its object.
class ReadFields {
 public:
  explicit ReadFields(FieldReader& reader) : reader_(reader) {}

  void name(std::string_view field, std::string& out) { out = reader_.name(field); }
  void optional_name(std::string_view field, std::string& out) {
    out = reader_.optional_name(field);
  }
  void long_text(std::string_view field, std::string& out) { out = reader_.long_text(field); }
  void optional_long_text(std::string_view field, std::string& out) {
    out = reader_.optional_long_text(field);
  }
  void key(std::string_view field, std::string& out) { out = reader_.key(field); }
  void optional_key(std::string_view field, std::string& out) {
    if (reader_.has(field)) out = reader_.key(field);
  }
  void pile(std::string_view field, std::string& out) { key(field, out); }
  void pile_ever(std::string_view field, std::string& out) { key(field, out); }
  void tub(std::string_view field, std::string& out) { optional_key(field, out); }
  void step(std::string& out) { out = reader_.key_or("step", "main"); }
  void priced(std::string_view field, std::string& out) {
    out = reader_.name(field);
    const bool of_pile = out.starts_with("pile:") && is_key(std::string_view(out).substr(5));
    must(field, [&] { return out == "piece" || out == "ready-cut" || of_pile; });
  }

  void entry(const char*, std::string_view field, EntryId& out) { out = reader_.id(field); }
  void optional_entry(const char*, std::string_view field, std::optional<EntryId>& out) {
    out = reader_.optional_id(field);
  }
  void entries(const char*, std::string_view field, std::vector<EntryId>& out) {
    out = reader_.optional_ids(field);
  }

  void mass(std::string_view field, TypedMass& out, Sign sign = Sign::positive_only) {
    out = reader_.mass(field, sign);
  }
  void optional_mass(std::string_view field, std::optional<TypedMass>& out,
                     Sign sign = Sign::positive_only) {
    out = reader_.optional_mass(field, sign);
  }
  void division(TypedMass& out) { out = reader_.division(); }
  void length(std::string_view field, TypedLength& out) { out = reader_.length(field); }
  void optional_length(std::string_view field, std::optional<TypedLength>& out) {
    out = reader_.optional_length(field);
  }
  void number(std::string_view field, TypedNumber& out, Sign sign) {
    out = reader_.number(field, [sign](std::string_view text, std::string_view where) {
      return parse_number(text, where, sign);
    });
  }
  void percent(std::string_view field, TypedNumber& out) {
    out = reader_.number(field, parse_percent);
  }
  void optional_percent(std::string_view field, std::optional<TypedNumber>& out) {
    out = reader_.optional_number(field, parse_percent);
  }
  void optional_minutes(std::string_view field, std::optional<TypedNumber>& out) {
    out = reader_.optional_number(field, parse_minutes);
  }

  template <class Enum>
  void choice(std::string_view field, Enum& out) {
    out =
        reader_.choice<Enum>(field, [](std::string_view text) { return from_name(text, Enum{}); });
  }
  template <class Set>
  void one_of(std::string_view field, std::string& out, const Set& set, bool needed) {
    if (!needed && !reader_.has(field)) return;
    out = reader_.name(field);
    must(field, [&] { return kinds::is_in(set, out); });
  }
  void either(std::string_view field, bool& out, std::string_view yes, std::string_view no) {
    const std::string said = reader_.name(field);
    must(field, [&] { return said == yes || said == no; });
    out = said == yes;
  }
  void integer(std::string_view field, std::int64_t& out, std::int64_t least, std::int64_t most) {
    out = reader_.integer(field, least, most);
  }
  template <class Whole>
  void optional_integer(std::string_view field, std::optional<Whole>& out, std::int64_t least,
                        std::int64_t most) {
    if (const auto whole = reader_.optional_integer(field, least, most)) {
      out = static_cast<Whole>(*whole);
    }
  }
  void count(unsigned& out) { out = reader_.count(); }
  void truth(std::string_view field, bool& out) { out = reader_.truth(field); }
  void flag(std::string_view field, bool& out) { out = reader_.has(field) && reader_.truth(field); }

  template <class Condition>
  void must(std::string_view field, Condition holds) {
    if (!reader_.problem() && !holds()) reader_.refuse(Code::file_field_value, field);
  }
  template <class Condition>
  void one_at_least(std::string_view field, Condition holds) {
    if (!reader_.problem() && !holds()) reader_.refuse(Code::file_field_missing, field);
  }
  void later(int, bool) {}

 private:
  FieldReader& reader_;
};

Entry unreadable(Entry entry, std::string kind, const Problem& problem) {
  entry.time = {};
  entry.by.reset();
  entry.replaces.clear();
  entry.body = body::Unknown{std::move(kind), problem};
  return entry;
}

template <class Held>
Body read_as(FieldReader& reader) {
  Body body(std::in_place_type<Held>);
  ReadFields fields(reader);
  Kind<Held>::fields(fields, *std::get_if<Held>(&body));
  return body;
}

struct ReadsKind {
  std::string_view kind;
  Body (*read)(FieldReader&);
};
template <std::size_t... I>
constexpr auto readers_of(std::index_sequence<I...>) {
  return std::array{ReadsKind{Kind<std::variant_alternative_t<I, Body>>::name,
                              read_as<std::variant_alternative_t<I, Body>>}...};
}
// Of every kind but Unknown, which stands last.
constexpr auto kReaders = readers_of(std::make_index_sequence<std::variant_size_v<Body> - 1>());

// The body of a known kind, absent for a kind this code does not know.
std::optional<Body> read_body(std::string_view kind, FieldReader& fields) {
  for (const ReadsKind& known : kReaders) {
    if (known.kind == kind) return known.read(fields);
  }
  return std::nullopt;
}

}  // namespace

Result<Entry> entry_from(const Json& object, Strictness strictness) {
  if (object.type != Json::Type::object)
    return Problem{Code::file_field_type, "entry", {Arg::code("entry")}};
  Entry entry;
  append_canonical(object, entry.text);
  if (entry.text.size() > kMaxEntryBytes) {
    return Problem{
        Code::file_too_big, "entry", {Arg::count(entry.text.size()), Arg::count(kMaxEntryBytes)}};
  }
  FieldReader fields(object);
  entry.id = fields.id("id");
  entry.seq =
      static_cast<std::uint64_t>(fields.integer("seq", 1, static_cast<std::int64_t>(kMaxSeq)));
  std::string kind = fields.key("kind");
  if (const auto& problem = fields.problem()) return *problem;
  entry.time.utc_ms = fields.integer("t", 0, kMaxUtcMs);
  entry.time.offset_minutes = static_cast<int>(fields.integer("tz", -kMaxOffset, kMaxOffset));
  entry.by = fields.optional_id("by");
  entry.replaces = fields.optional_ids("replaces");
  std::optional<Body> body = read_body(kind, fields);
  if (const auto& problem = fields.problem()) {
    if (strictness == Strictness::strict) return *problem;
    return unreadable(std::move(entry), std::move(kind), *problem);
  }
  entry.body = body ? *std::move(body) : Body(body::Unknown{std::move(kind), std::nullopt});
  return entry;
}

namespace {

// Two levels less than a file: the entry stands in its list of entries.
Result<Entry> decode(std::string_view text, Strictness strictness) {
  if (text.size() > kMaxEntryBytes) {
    return Problem{
        Code::file_too_big, "entry", {Arg::count(text.size()), Arg::count(kMaxEntryBytes)}};
  }
  const Result<Json> object = parse_json(text, kMaxDepth - 2);
  if (!object) return object.problem();
  return entry_from(*object, strictness);
}

}  // namespace

Result<Entry> decode_entry_strict(std::string_view text) {
  return decode(text, Strictness::strict);
}
Result<Entry> decode_entry_lenient(std::string_view text) {
  return decode(text, Strictness::lenient);
}

Result<Entry> checked(Entry entry) { return decode_entry_strict(sealed(std::move(entry)).text); }

}  // namespace tallyblock
