// parse_json: nlohmann-json does the lexing, the values are built here without recursion.
#ifndef JSON_NOEXCEPTION
#define JSON_NOEXCEPTION
#endif
#include <algorithm>
#include <nlohmann/json.hpp>
#include <utility>

#include "core/base/sorted.h"
#include "json_text.h"

namespace tallyblock {
namespace {

// Exception id of nlohmann-json for a number beyond a double; nothing is thrown, it is handed over.
constexpr int kNumberOutOfRange = 406;

class Builder final : public nlohmann::json_sax<nlohmann::json> {
 public:
  explicit Builder(int max_depth) : max_depth_(max_depth) {}

  bool null() override { return add(Json{}) != nullptr; }
  bool boolean(bool value) override { return add(Json::truth(value)) != nullptr; }
  bool number_integer(number_integer_t value) override {
    return add(Json::number(value)) != nullptr;
  }
  bool number_unsigned(number_unsigned_t value) override {
    if (value <= static_cast<number_unsigned_t>(INT64_MAX)) {
      return number_integer(static_cast<number_integer_t>(value));
    }
    return number_as_written(std::to_string(value));
  }
  bool number_float(number_float_t, const string_t& written) override {
    return number_as_written(written);
  }
  bool string(string_t& value) override { return add(Json::string(value)) != nullptr; }
  bool binary(binary_t&) override { return false; }

  bool start_object(std::size_t) override { return open(Json::object()); }
  bool start_array(std::size_t) override { return open(Json::array()); }
  bool end_array() override {
    open_.pop_back();
    return true;
  }
  bool key(string_t& value) override {
    key_ = std::move(value);
    return true;
  }
  bool end_object() override {
    std::vector<Json>& members = open_.back()->children;
    heap_sort(members, [](const Json& a, const Json& b) { return a.key < b.key; });
    const auto twice =
        std::adjacent_find(members.begin(), members.end(),
                           [](const Json& a, const Json& b) { return a.key == b.key; });
    if (twice != members.end()) {
      const bool fits = !twice->key.empty() && twice->key.size() <= 40;
      const std::string shown = fits ? twice->key : "object";
      return refuse({Code::file_field_value, shown, {Arg::code(shown)}});
    }
    open_.pop_back();
    return true;
  }
  bool parse_error(std::size_t position, const std::string&,
                   const nlohmann::detail::exception& error) override {
    const Code code = error.id == kNumberOutOfRange ? Code::file_field_value : Code::file_not_json;
    return refuse({code, Place::at_byte(position), {}});
  }

  Result<Json> take() {
    if (problem_) return std::move(*problem_);
    return std::move(root_);
  }
  bool refuse(Problem problem) {
    if (!problem_) problem_ = std::move(problem);
    return false;
  }

 private:
  // The place of the new value, null if there are too many. A pointer to an open value stays good:
  // its parent gets no other child before it is closed.
  Json* add(Json value) {
    if (++values_ > kMaxJsonValues) {
      refuse({Code::file_too_many, "file", {Arg::count(kMaxJsonValues)}});
      return nullptr;
    }
    if (open_.empty()) {
      root_ = std::move(value);
      return &root_;
    }
    Json& parent = *open_.back();
    if (parent.type == Json::Type::object) value.key = std::move(key_);
    parent.children.push_back(std::move(value));
    return &parent.children.back();
  }
  bool number_as_written(std::string text) {
    Json value;
    value.type = Json::Type::number;
    value.text = std::move(text);
    return add(std::move(value)) != nullptr;
  }
  bool open(Json value) {
    if (static_cast<int>(open_.size()) >= max_depth_) {
      return refuse({Code::file_too_deep, "file", {Arg::number(max_depth_)}});
    }
    Json* place = add(std::move(value));
    if (place) open_.push_back(place);
    return place != nullptr;
  }

  int max_depth_;
  std::size_t values_ = 0;
  Json root_;
  std::string key_;
  std::vector<Json*> open_;
  std::optional<Problem> problem_;
};

}  // namespace

Result<Json> parse_json(std::string_view text, int max_depth) {
  if (auto problem = text_problem(text)) return *std::move(problem);
  Builder builder(max_depth);
  const bool read = nlohmann::json::sax_parse(text.data(), text.data() + text.size(), &builder);
  if (!read) builder.refuse({Code::file_not_json, "file", {}});
  return builder.take();
}

}  // namespace tallyblock
