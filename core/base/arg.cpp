#include "arg.h"

namespace tallyblock {

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
