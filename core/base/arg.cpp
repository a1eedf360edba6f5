#include "arg.h"

namespace tallyblock {

// Out of the header, and so are copies and ends of them: they are made in many places.
Arg::Arg(Kind kind, double value, int decimals)
    : value_(value), kind_(kind), decimals_(static_cast<std::uint8_t>(decimals)) {}
Arg::Arg(Kind kind, std::string_view text) : text_(text), kind_(kind) {}
Arg::Arg(const Arg&) = default;
Arg::Arg(Arg&&) noexcept = default;
Arg& Arg::operator=(const Arg&) = default;
Arg& Arg::operator=(Arg&&) noexcept = default;
Arg::~Arg() = default;

Place::Place(std::string_view f) : field(f) {}
Place::Place(const Place&) = default;
Place::Place(Place&&) noexcept = default;
Place& Place::operator=(const Place&) = default;
Place& Place::operator=(Place&&) noexcept = default;
Place::~Place() = default;

std::string text_of(const Place& place) {
  std::string text;
  const auto add = [&text](const std::string& part) {
    if (!text.empty()) text += ", ";
    text += part;
  };
  if (place.line > 0) add("line " + std::to_string(place.line));
  if (place.entry > 0) add("entry " + std::to_string(place.entry));
  if (place.byte) add("byte " + std::to_string(*place.byte));
  if (!place.field.empty()) add((place.entry > 0 ? "field " : "") + place.field);
  return text;
}

}  // namespace tallyblock
