#include "json_text.h"

#include <algorithm>
#include <utility>

namespace tallyblock {
namespace {

bool key_before(const Json& value, std::string_view key) { return value.key < key; }

// Length of the well-formed UTF-8 sequence at `at` (Unicode 15, table 3-7), 0 if there is none.
std::size_t utf8_length(std::string_view bytes, std::size_t at) {
  const auto byte = [&](std::size_t i) {
    return at + i < bytes.size() ? static_cast<unsigned char>(bytes[at + i]) : 0u;
  };
  const auto tail = [&](std::size_t i) { return (byte(i) & 0xC0u) == 0x80u; };
  const unsigned lead = byte(0);
  if (lead < 0x80) return 1;
  if (lead < 0xC2) return 0;
  if (lead < 0xE0) return tail(1) ? 2 : 0;
  if (lead < 0xF0) {
    const unsigned low = lead == 0xE0 ? 0xA0 : 0x80;
    const unsigned high = lead == 0xED ? 0x9F : 0xBF;
    return byte(1) >= low && byte(1) <= high && tail(2) ? 3 : 0;
  }
  if (lead < 0xF5) {
    const unsigned low = lead == 0xF0 ? 0x90 : 0x80;
    const unsigned high = lead == 0xF4 ? 0x8F : 0xBF;
    return byte(1) >= low && byte(1) <= high && tail(2) && tail(3) ? 4 : 0;
  }
  return 0;
}

void append_string(std::string_view text, std::string& out) {
  constexpr std::string_view hex = "0123456789abcdef";
  out += '"';
  for (const char c : text) {
    switch (c) {
      case '"': out += "\\\""; break;
      case '\\': out += "\\\\"; break;
      case '\b': out += "\\b"; break;
      case '\f': out += "\\f"; break;
      case '\n': out += "\\n"; break;
      case '\r': out += "\\r"; break;
      case '\t': out += "\\t"; break;
      default:
        if (const auto code = static_cast<unsigned char>(c); code < 0x20) {
          out += "\\u00";
          out += hex[code >> 4];
          out += hex[code & 15];
        } else {
          out += c;
        }
    }
  }
  out += '"';
}

void append_children(const Json& value, std::string& out) {
  bool first = true;
  for (const Json& child : value.children) {
    if (!first) out += ',';
    first = false;
    if (value.type == Json::Type::object) {
      append_string(child.key, out);
      out += ':';
    }
    append_canonical(child, out);
  }
}

}  // namespace

Json Json::of(Type type) {
  Json value;
  value.type = type;
  return value;
}

Json Json::string(std::string_view text) {
  Json value = of(Type::string);
  value.text = text;
  return value;
}

Json Json::number(std::int64_t number) {
  Json value = of(Type::integer);
  value.integer = number;
  value.text = std::to_string(number);
  return value;
}

Json Json::truth(bool truth) {
  Json value = of(Type::boolean);
  value.integer = truth ? 1 : 0;
  return value;
}

const Json* Json::member(std::string_view name) const {
  if (type != Type::object) return nullptr;
  const auto found = std::lower_bound(children.begin(), children.end(), name, key_before);
  return found != children.end() && found->key == name ? &*found : nullptr;
}

void Json::set(std::string_view name, Json value) {
  value.key = name;
  const auto found = std::lower_bound(children.begin(), children.end(), name, key_before);
  if (found != children.end() && found->key == name) {
    *found = std::move(value);
  } else {
    children.insert(found, std::move(value));
  }
}

void Json::remove(std::string_view name) {
  const auto found = std::lower_bound(children.begin(), children.end(), name, key_before);
  if (found != children.end() && found->key == name) children.erase(found);
}

std::optional<Problem> text_problem(std::string_view bytes) {
  for (std::size_t at = 0; at < bytes.size();) {
    const std::size_t length = bytes[at] == '\0' ? 0 : utf8_length(bytes, at);
    if (length == 0) return Problem{Code::file_not_text, Place::at_byte(at), {}};
    at += length;
  }
  return std::nullopt;
}

void append_canonical(const Json& value, std::string& out) {
  switch (value.type) {
    case Json::Type::null: out += "null"; break;
    case Json::Type::boolean: out += value.integer != 0 ? "true" : "false"; break;
    case Json::Type::integer:
    case Json::Type::number: out += value.text; break;
    case Json::Type::string: append_string(value.text, out); break;
    case Json::Type::array:
      out += '[';
      append_children(value, out);
      out += ']';
      break;
    case Json::Type::object:
      out += '{';
      append_children(value, out);
      out += '}';
      break;
  }
}

std::string canonical_text(const Json& value) {
  std::string out;
  append_canonical(value, out);
  return out;
}

}  // namespace tallyblock
