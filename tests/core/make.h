// Short ways of making typed values and entries in tests. A text that cannot be read gives an empty
// value, which no test takes for a good one: checked() refuses it.
#pragma once
#include <cstdint>
#include <fstream>
#include <iterator>
#include <string>
#include <utility>
#include <vector>

#include "core/entries/codec.h"
#include "core/entries/entry_set.h"

namespace tallyblock::testing {

template <class Value>
Value value_or_empty(const Result<Value>& result) {
  return result ? result.value() : Value{};
}
inline TypedMass mass(const std::string& text) {
  return value_or_empty(parse_mass(text, "weight", Sign::any));
}
inline TypedNumber number(const std::string& text) {
  return value_or_empty(parse_number(text, "amount", Sign::any));
}
inline TypedNumber percent(const std::string& text) {
  return value_or_empty(parse_percent(text, "share"));
}
inline TypedNumber minutes(const std::string& text) {
  return value_or_empty(parse_minutes(text, "minutes"));
}
inline TypedLength length(const std::string& text) {
  return value_or_empty(parse_length(text, "mark"));
}

// About `grams`, at most as many, in one of five ways of writing.
inline std::string weight_text(unsigned grams, unsigned way) {
  const unsigned ounces = grams * 100 / 2835;  // rounded down
  const std::string kilograms = std::to_string(grams / 1000);
  const std::string thousandths = std::to_string(1000 + grams % 1000).substr(1);
  if (way == 1) return kilograms + '.' + thousandths + " kg";
  if (way == 2) return kilograms + ',' + thousandths + " kg";
  if (way == 3 && ounces >= 17) {
    return std::to_string(ounces / 16 - 1) + " lb " + std::to_string(15 - ounces % 3) + " 1/2 oz";
  }
  if (way == 4 && grams >= 20) return std::to_string(grams * 2 / 1000) + ".02 lb";
  return std::to_string(grams) + " g";
}

inline constexpr const char* kWriterA = "aaaaaaaaaa";
inline constexpr const char* kWriterB = "bbbbbbbbbb";
inline constexpr const char* kSession = "0123456789abcdefghjk";

// A sealed entry at 2025-10-09, local time two hours ahead.
inline Entry entry(EntryId id, std::uint64_t seq, Body body, std::vector<EntryId> replaces = {}) {
  Entry made;
  made.id = std::move(id);
  made.seq = seq;
  made.time = {1760000000000, 120};
  made.replaces = std::move(replaces);
  made.body = std::move(body);
  return sealed(std::move(made));
}
inline Entry reading(EntryId id, std::uint64_t seq, const std::string& weight,
                     const std::string& pile = "portions") {
  body::Reading body;
  body.pile = pile;
  body.weight = mass(weight);
  body.division = mass("1 g");
  return entry(std::move(id), seq, std::move(body));
}
inline EntrySet set_of(const std::vector<Entry>& entries) {
  EntrySet set;
  for (const Entry& each : entries) set.insert(each);
  return set;
}

// The bytes of a file of the source tree, empty if it cannot be read.
inline std::string file_bytes(const std::string& path_in_tree) {
  std::ifstream in(std::string(TALLYBLOCK_SOURCE_DIR) + "/" + path_in_tree, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

}  // namespace tallyblock::testing
