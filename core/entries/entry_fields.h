// Reads the fields of one stored entry, keeping the first problem it meets.
//
// A field with a problem gives a default, so that a kind is read top to bottom and the problem asked for
// once. Limits are those of FORMAT.md. Internal to the codec.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/json/json_text.h"
#include "entry.h"
#include "kinds.h"

namespace tallyblock {

inline constexpr std::size_t kMaxNameBytes = 200;
inline constexpr std::size_t kMaxNoteBytes = 4000;
inline constexpr std::size_t kMaxIds = 5000;
inline constexpr std::int64_t kMaxOffset = std::int64_t{14} * 60;  // minutes from UTC, either way

class FieldReader {
 public:
  // Keeps a reference: `object` must outlive the reader.
  explicit FieldReader(const Json& object) : object_(object) {}
  const std::optional<Problem>& problem() const { return problem_; }
  void refuse(Code code, std::string_view field);

  std::string name(std::string_view field);           // one line, may be empty
  std::string optional_name(std::string_view field);  // absent: empty
  std::string long_text(std::string_view field);      // lines allowed
  std::string optional_long_text(std::string_view field);
  std::string key(std::string_view field);
  std::string key_or(std::string_view field, std::string_view fallback);
  std::int64_t integer(std::string_view field, std::int64_t least, std::int64_t most);
  std::optional<std::int64_t> optional_integer(std::string_view field, std::int64_t least,
                                               std::int64_t most);
  unsigned count();  // "count", absent: 1
  bool truth(std::string_view field);
  EntryId id(std::string_view field);
  std::optional<EntryId> optional_id(std::string_view field);
  std::vector<EntryId> optional_ids(std::string_view field);

  TypedMass mass(std::string_view field, Sign sign = Sign::positive_only);
  std::optional<TypedMass> optional_mass(std::string_view field, Sign sign = Sign::positive_only);
  TypedMass division();  // "division", absent: empty text
  TypedLength length(std::string_view field);
  std::optional<TypedLength> optional_length(std::string_view field);
  // One of the parsers of typed.h.
  template <class Parse>
  TypedNumber number(std::string_view field, Parse parse) {
    return typed<TypedNumber>(field, parse).value_or(TypedNumber{});
  }
  template <class Parse>
  std::optional<TypedNumber> optional_number(std::string_view field, Parse parse) {
    if (!has(field)) return std::nullopt;
    return typed<TypedNumber>(field, parse);
  }
  // A name out of a closed set; `from` is one of role_from, habit_from, ...
  template <class Enum>
  Enum choice(std::string_view field, std::optional<Enum> (*from)(std::string_view)) {
    const std::optional<std::string> text = string(field, kMaxNameBytes, false);
    const std::optional<Enum> value = text ? from(*text) : std::nullopt;
    if (text && !value) refuse(Code::file_field_value, field);
    return value.value_or(Enum{});
  }

  // The member, if there is one of that type; else null, and the problem is noted.
  const Json* member(std::string_view field, Json::Type type);
  bool has(std::string_view field) const { return object_.member(field) != nullptr; }

 private:
  std::optional<std::string> string(std::string_view field, std::size_t limit, bool lines);

  template <class Value, class Parse>
  std::optional<Value> typed(std::string_view field, Parse parse) {
    const std::optional<std::string> text = string(field, kMaxNameBytes, false);
    if (!text) return std::nullopt;
    Result<Value> value = parse(*text, field);
    if (value) return std::move(value.value());
    refuse(Code::file_field_value, field);
    return std::nullopt;
  }

  const Json& object_;
  std::optional<Problem> problem_;
};

enum class Strictness { strict, lenient };
// As decode_entry_strict and decode_entry_lenient (codec.h), from parsed JSON.
Result<Entry> entry_from(const Json& object, Strictness strictness);

}  // namespace tallyblock
