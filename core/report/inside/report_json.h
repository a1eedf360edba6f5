// A small writer of JSON for the report: keys in the order written, numbers in full.
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "core/base/measured.h"
#include "core/base/units.h"

namespace tallyblock {

// The shortest decimal text that reads back as the same double; "null" for what is no finite number.
std::string shortest(double value);

class ReportWriter {
 public:
  void open_object(std::string_view key = {}) { open(key, '{'); }
  void open_array(std::string_view key) { open(key, '['); }
  void close_object() { close('}'); }
  void close_array() { close(']'); }

  void text(std::string_view key, std::string_view value);
  void text_or_null(std::string_view key, std::string_view value);  // "" is null
  void number(std::string_view key, double value);
  void whole(std::string_view key, long long value);
  void truth(std::string_view key, bool value);
  void null(std::string_view key);

  void number(std::string_view key, const std::optional<double>& value);
  // Grams; currency units; currency units per gram.
  void mass(std::string_view key, const std::optional<Mass>& value);
  void money(std::string_view key, const std::optional<Money>& value);
  void price(std::string_view key, const std::optional<PricePerMass>& value);
  // Two members: <name>_g and <name>_u_g, its standard uncertainty.
  void measured(std::string_view name, const std::optional<Measured>& value);

  void whole(std::string_view key, const std::optional<unsigned>& value) {
    if (value) return whole(key, static_cast<long long>(*value));
    null(key);
  }
  // An array of objects, one for each element; `members` writes those of one.
  template <class Range, class Members>
  void objects(std::string_view key, const Range& range, Members members) {
    open_array(key);
    for (const auto& element : range) {
      open_object();
      members(element);
      close_object();
    }
    close_array();
  }

  const std::string& json() const { return out_; }

 private:
  void open(std::string_view key, char bracket);
  void close(char bracket);
  void begin(std::string_view key);
  void quote(std::string_view value);

  std::string out_;
  bool first_ = true;
};

}  // namespace tallyblock
