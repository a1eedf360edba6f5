#include "report_json.h"

#include <cmath>
#include <cstdio>
#include <cstdlib>

namespace tallyblock {

// Fifteen digits always read back equal if a text of fifteen or fewer does; else sixteen or seventeen.
std::string shortest(double value) {
  if (!std::isfinite(value)) return "null";
  if (value == 0.0) return "0";
  char text[40];
  for (int digits = 15; digits <= 17; ++digits) {
    std::snprintf(text, sizeof text, "%.*g", digits, value);
    if (std::strtod(text, nullptr) == value) break;
  }
  return text;
}

void ReportWriter::begin(std::string_view key) {
  if (!first_) out_ += ',';
  first_ = false;
  if (key.data() == nullptr) return;  // none was given; "" is one
  quote(key);
  out_ += ':';
}

void ReportWriter::quote(std::string_view value) {
  out_ += '"';
  for (const char c : value) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out_ += '\\';
      out_ += c;
    } else if (byte < 0x20) {
      char escaped[8];
      std::snprintf(escaped, sizeof escaped, "\\u%04x", static_cast<unsigned>(byte));
      out_ += escaped;
    } else {
      out_ += c;
    }
  }
  out_ += '"';
}

void ReportWriter::open(std::string_view key, char bracket) {
  begin(key);
  out_ += bracket;
  first_ = true;
}

void ReportWriter::close(char bracket) {
  out_ += bracket;
  first_ = false;
}

void ReportWriter::text(std::string_view key, std::string_view value) {
  begin(key);
  quote(value);
}

void ReportWriter::text_or_null(std::string_view key, std::string_view value) {
  value.empty() ? null(key) : text(key, value);
}

void ReportWriter::number(std::string_view key, double value) {
  begin(key);
  out_ += shortest(value);
}

void ReportWriter::whole(std::string_view key, long long value) {
  begin(key);
  out_ += std::to_string(value);
}

void ReportWriter::truth(std::string_view key, bool value) {
  begin(key);
  out_ += value ? "true" : "false";
}

void ReportWriter::null(std::string_view key) {
  begin(key);
  out_ += "null";
}

void ReportWriter::number(std::string_view key, const std::optional<double>& value) {
  value ? number(key, *value) : null(key);
}

void ReportWriter::mass(std::string_view key, const std::optional<Mass>& value) {
  value ? number(key, value->in_grams()) : null(key);
}

void ReportWriter::money(std::string_view key, const std::optional<Money>& value) {
  value ? number(key, value->in_units()) : null(key);
}

void ReportWriter::price(std::string_view key, const std::optional<PricePerMass>& value) {
  value ? number(key, value->per(MassUnit::gram)) : null(key);
}

void ReportWriter::measured(std::string_view name, const std::optional<Measured>& value) {
  const std::string key(name);
  value ? mass(key + "_g", value->value()) : null(key + "_g");
  value ? mass(key + "_u_g", value->uncertainty()) : null(key + "_u_g");
}

}  // namespace tallyblock
