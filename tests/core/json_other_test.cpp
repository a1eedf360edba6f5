// The reader of JSON against another one, nlohmann-json's: the same texts are taken, with the same values, and the
// others refused at the same byte.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>
#include <nlohmann/json.hpp>
#include <random>
#include <string>
#include <vector>

#include "core/json/json_text.h"

namespace tallyblock::testing {
namespace {

using Other = nlohmann::json;

// Notes the first thing that is wrong, and the way of the values before it.
struct Told final : nlohmann::json_sax<Other> {
  std::vector<std::string> way;
  std::size_t at = 0;
  bool beyond = false;

  bool null() override { return note("n"); }
  bool boolean(bool value) override { return note(value ? "t" : "f"); }
  bool number_integer(number_integer_t value) override { return note("i" + std::to_string(value)); }
  bool number_unsigned(number_unsigned_t value) override {
    return note((value <= INT64_MAX ? "i" : "d") + std::to_string(value));
  }
  bool number_float(number_float_t, const string_t& written) override {
    return note("d" + written);
  }
  bool string(string_t& value) override { return note("s" + value); }
  bool binary(binary_t&) override { return false; }
  bool start_object(std::size_t) override { return note("{"); }
  bool end_object() override { return note("}"); }
  bool start_array(std::size_t) override { return note("["); }
  bool end_array() override { return note("]"); }
  bool key(string_t& value) override { return note("k" + value); }
  bool parse_error(std::size_t position, const std::string&,
                   const nlohmann::detail::exception& error) override {
    at = position;
    beyond = error.id == 406;
    return false;
  }

 private:
  bool note(const std::string& text) {
    way.push_back(text);
    return true;
  }
};

void tell(const Json& value, std::vector<std::string>& way) {
  switch (value.type) {
    case Json::Type::null: way.emplace_back("n"); break;
    case Json::Type::boolean: way.emplace_back(value.integer != 0 ? "t" : "f"); break;
    case Json::Type::integer: way.push_back("i" + std::to_string(value.integer)); break;
    case Json::Type::number: way.push_back("d" + value.text); break;
    case Json::Type::string: way.push_back("s" + value.text); break;
    case Json::Type::array:
    case Json::Type::object:
      const bool object = value.type == Json::Type::object;
      way.emplace_back(object ? "{" : "[");
      for (const Json& child : value.children) {
        if (object) way.push_back("k" + child.key);
        tell(child, way);
      }
      way.emplace_back(object ? "}" : "]");
  }
}

// `sorted`: the keys of the text stand in order, as they do in ours.
void expect_the_same(const std::string& text, bool sorted = true) {
  if (text_problem(text)) return;
  Told told;
  const bool taken = Other::sax_parse(text.data(), text.data() + text.size(), &told);
  const Result<Json> ours = parse_json(text, 100);
  if (!ours && ours.problem().code == Code::file_field_value && !told.beyond)
    return;  // a key twice
  ASSERT_EQ(static_cast<bool>(ours), taken) << text;
  if (!taken) {
    const Code code = told.beyond ? Code::file_field_value : Code::file_not_json;
    ASSERT_EQ(ours.problem(), (Problem{code, Place::at_byte(told.at), {}})) << text;
  } else {
    std::vector<std::string> way;
    tell(*ours, way);
    if (!sorted) {
      std::ranges::sort(way);
      std::ranges::sort(told.way);
    }
    ASSERT_EQ(way, told.way) << text;
  }
}

std::vector<std::string> samples() {
  return {
      R"({"a":[1,-2,3.50,1e5,-0,0.0],"b":{"c":null,"d":true,"e":false},"f":"x\u00e9\ud834\udd1e\n\"\\/"})",
      " [ [ ] , { } , [ [ { \"k\" : [ 0 ] } ] ] , \"\" ]\r\n\t",
      "\xEF\xBB\xBF[1]",
      "\xEF\xBB\xA0[1]",
      "\xEF\xBD\xA0[1]",
      "18446744073709551615",
      "-9223372036854775808",
      "[9223372036854775808,-9223372036854775809,1e308,1E-400,1e309]",
      R"("\u0000\b\f\n\r\t\/ä€")",
      "[" + std::string(400, '9') + "]",
      "-",
      "",
  };
}

TEST(JsonOther, TheSameTextsAreTaken) {
  for (const std::string& text : samples()) expect_the_same(text);
}

TEST(JsonOther, WhereverATextEndsItIsRefusedAtTheSameByte) {
  for (const std::string& text : samples()) {
    for (std::size_t end = 0; end < text.size(); ++end) expect_the_same(text.substr(0, end));
  }
}

TEST(JsonOther, TheSameHoldsOfTextsWithSomethingWrong) {
  const std::string alphabet = "{}[],:\"\\/ \n\x01-+.eE0129ndrtufalsDd8\x7F";
  std::mt19937 random(1);
  const auto one_of = [&](std::size_t count) { return random() % count; };
  for (int i = 0; i < 60'000; ++i) {
    const std::vector<std::string> all = samples();
    std::string text = all[one_of(all.size())];
    for (std::size_t changes = 1 + one_of(3); changes > 0 && !text.empty(); --changes) {
      const std::size_t at = one_of(text.size());
      const char c = alphabet[one_of(alphabet.size())];
      switch (one_of(3)) {
        case 0: text[at] = c; break;
        case 1: text.insert(text.begin() + static_cast<std::ptrdiff_t>(at), c); break;
        default: text.erase(at, 1);
      }
    }
    expect_the_same(text, false);
  }
  for (int i = 0; i < 200'000; ++i) {  // and of what has no sense at all
    std::string text;
    for (std::size_t length = one_of(8); length > 0; --length)
      text += alphabet[one_of(alphabet.size())];
    expect_the_same(text, false);
  }
}

}  // namespace
}  // namespace tallyblock::testing
