// JSON text in and out, guarded for files from anywhere.
//
// Reading refuses, as a Problem: bytes that are not UTF-8 or hold a NUL, text that is not JSON,
// nesting over a limit (without recursion), the same key twice in one object, numbers beyond a
// double, more than kMaxJsonValues values. Canonical text: object keys sorted by byte, no spaces,
// strings in UTF-8 with only the escapes JSON demands (short forms where there are some, else
// \u00xx), integers in plain digits, other numbers as they were written. Reading canonical text and
// writing it again gives the same bytes (RFC 8259 for the grammar; the canonical form is our own).
#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/problem.h"

namespace tallyblock {

inline constexpr std::size_t kMaxJsonValues = 500000;

struct Json {
  enum class Type { null, boolean, integer, number, string, array, object };

  Type type = Type::null;
  std::string key;             // its name within an object, else empty
  std::string text;            // a string's characters; a number as written
  std::int64_t integer = 0;    // an integer's value (Type::number beyond int64); boolean: 0 or 1
  std::vector<Json> children;  // of an array in order, of an object sorted by key

  static Json object() { return of(Type::object); }
  static Json array() { return of(Type::array); }
  static Json string(std::string_view text);
  static Json number(std::int64_t number);
  static Json truth(bool truth);

  // The member of that name, or null if there is none or this is no object.
  const Json* member(std::string_view name) const;
  // Adds or takes the place of a member, keeping the order of keys.
  void set(std::string_view name, Json value);
  void remove(std::string_view name);

 private:
  static Json of(Type type);
};

// The problem of bytes that cannot be text of ours: Code::file_not_text, where = the byte.
std::optional<Problem> text_problem(std::string_view bytes);

// `max_depth` counts the outermost array or object as 1. Problems: file_not_text, file_not_json
// (where = the byte), file_too_deep, file_too_many, file_field_value (a key twice: where = the key, or
// "object" where it is empty or over 40 bytes; a number too large: where = the byte).
Result<Json> parse_json(std::string_view text, int max_depth);

std::string canonical_text(const Json& value);
void append_canonical(const Json& value, std::string& out);

}  // namespace tallyblock
