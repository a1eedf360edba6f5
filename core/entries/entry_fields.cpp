#include "entry_fields.h"

#include <algorithm>
#include <utility>

namespace tallyblock {
namespace {

bool has_controls(std::string_view text, bool lines) {
  return std::any_of(text.begin(), text.end(), [lines](char c) {
    const auto code = static_cast<unsigned char>(c);
    const bool line_end = lines && c == '\n';
    return (code < 0x20 && !line_end) || code == 0x7F;
  });
}

}  // namespace

void FieldReader::refuse(Code code, std::string_view field) {
  if (!problem_) problem_ = Problem{code, field, {Arg::code(field)}};
}

const Json* FieldReader::member(std::string_view field, Json::Type type) {
  const Json* found = object_.member(field);
  if (!found) {
    refuse(Code::file_field_missing, field);
  } else if (found->type != type) {
    refuse(Code::file_field_type, field);
    return nullptr;
  }
  return found;
}

std::optional<std::string> FieldReader::string(std::string_view field, std::size_t limit,
                                               bool lines) {
  const Json* found = member(field, Json::Type::string);
  if (!found) return std::nullopt;
  if (found->text.size() <= limit && !has_controls(found->text, lines)) return found->text;
  refuse(Code::file_field_value, field);
  return std::nullopt;
}

std::string FieldReader::name(std::string_view field) {
  return string(field, kMaxNameBytes, false).value_or("");
}
std::string FieldReader::optional_name(std::string_view field) {
  return has(field) ? name(field) : std::string();
}
std::string FieldReader::long_text(std::string_view field) {
  return string(field, kMaxNoteBytes, true).value_or("");
}
std::string FieldReader::optional_long_text(std::string_view field) {
  return has(field) ? long_text(field) : std::string();
}

std::string FieldReader::key(std::string_view field) {
  std::optional<std::string> text = string(field, kMaxNameBytes, false);
  if (text && !is_key(*text)) refuse(Code::file_field_value, field);
  return std::move(text).value_or("");
}
std::string FieldReader::key_or(std::string_view field, std::string_view fallback) {
  return has(field) ? key(field) : std::string(fallback);
}

std::int64_t FieldReader::integer(std::string_view field, std::int64_t least, std::int64_t most) {
  const Json* found = object_.member(field);
  // An integer beyond 64 bits is of the right type and out of bounds.
  const bool beyond = found && found->type == Json::Type::number &&
                      found->text.find_first_not_of("-0123456789") == std::string::npos;
  if (!beyond) found = member(field, Json::Type::integer);
  if (!found) return least;
  if (!beyond && found->integer >= least && found->integer <= most) return found->integer;
  refuse(Code::file_field_value, field);
  return least;
}
std::optional<std::int64_t> FieldReader::optional_integer(std::string_view field,
                                                          std::int64_t least, std::int64_t most) {
  if (!has(field)) return std::nullopt;
  return integer(field, least, most);
}
unsigned FieldReader::count() {
  return static_cast<unsigned>(optional_integer("count", 1, kMaxCount).value_or(1));
}

bool FieldReader::truth(std::string_view field) {
  const Json* found = member(field, Json::Type::boolean);
  return found && found->integer != 0;
}

EntryId FieldReader::id(std::string_view field) {
  const Json* found = member(field, Json::Type::string);
  std::optional<EntryId> value = found ? entry_id_from(found->text) : std::nullopt;
  if (found && !value) refuse(Code::file_field_value, field);
  return std::move(value).value_or(EntryId{});
}
std::optional<EntryId> FieldReader::optional_id(std::string_view field) {
  if (!has(field)) return std::nullopt;
  return id(field);
}

std::vector<EntryId> FieldReader::optional_ids(std::string_view field) {
  std::vector<EntryId> ids;
  const Json* found = has(field) ? member(field, Json::Type::array) : nullptr;
  if (!found) return ids;
  if (found->children.size() > kMaxIds) refuse(Code::file_field_value, field);
  for (const Json& item : found->children) {
    if (problem_) break;
    std::optional<EntryId> value = entry_id_from(item.text);
    if (item.type != Json::Type::string) {
      refuse(Code::file_field_type, field);
    } else if (!value) {
      refuse(Code::file_field_value, field);
    } else {
      ids.push_back(*std::move(value));
    }
  }
  return ids;
}

TypedMass FieldReader::mass(std::string_view field, Sign sign) {
  const auto parse = [sign](std::string_view text, std::string_view where) {
    return parse_mass(text, where, sign);
  };
  return typed<TypedMass>(field, parse).value_or(TypedMass{});
}
std::optional<TypedMass> FieldReader::optional_mass(std::string_view field, Sign sign) {
  if (!has(field)) return std::nullopt;
  return mass(field, sign);
}
TypedMass FieldReader::division() { return has("division") ? mass("division") : TypedMass{}; }
TypedLength FieldReader::length(std::string_view field) {
  return typed<TypedLength>(field, parse_length).value_or(TypedLength{});
}
std::optional<TypedLength> FieldReader::optional_length(std::string_view field) {
  if (!has(field)) return std::nullopt;
  return typed<TypedLength>(field, parse_length);
}

}  // namespace tallyblock
