#include "kept_json.h"

#include <cmath>

#include "core/base/decimal.h"

namespace tallyblock::kept {
namespace {

constexpr int kDepth = 8;

const Json* member(const Json& object, std::string_view key, Json::Type type) {
  const Json* found = object.member(key);
  return found != nullptr && found->type == type ? found : nullptr;
}

}  // namespace

Json object_from(std::string_view text) {
  Result<Json> read = parse_json(text, kDepth);
  if (!read || read->type != Json::Type::object) return Json::object();
  return std::move(read.value());
}

std::string text(const Json& object, std::string_view key, std::string_view otherwise) {
  const Json* found = member(object, key, Json::Type::string);
  return found != nullptr ? found->text : std::string(otherwise);
}

std::int64_t whole(const Json& object, std::string_view key, std::int64_t otherwise) {
  const Json* found = member(object, key, Json::Type::integer);
  return found != nullptr ? found->integer : otherwise;
}

bool truth(const Json& object, std::string_view key, bool otherwise) {
  const Json* found = member(object, key, Json::Type::boolean);
  return found != nullptr ? found->integer != 0 : otherwise;
}

std::vector<std::string> texts(const Json& object, std::string_view key) {
  std::vector<std::string> out;
  const Json* found = member(object, key, Json::Type::array);
  if (found == nullptr) return out;
  for (const Json& item : found->children) {
    if (item.type == Json::Type::string) out.push_back(item.text);
  }
  return out;
}

std::optional<double> figure(const Json& object, std::string_view key) {
  const Json* found = member(object, key, Json::Type::string);
  if (found == nullptr || found->text.empty()) return std::nullopt;
  const ReadDecimal read = read_decimal(found->text);
  if (read.used != found->text.size() || !std::isfinite(read.value)) return std::nullopt;
  return read.value;
}

void put(Json& object, std::string_view key, std::string_view value) {
  object.set(key, Json::string(value));
}
void put(Json& object, std::string_view key, std::int64_t value) {
  object.set(key, Json::number(value));
}
void put_truth(Json& object, std::string_view key, bool value) {
  object.set(key, Json::truth(value));
}
void put(Json& object, std::string_view key, const std::vector<std::string>& values) {
  Json list = Json::array();
  for (const std::string& value : values) list.children.push_back(Json::string(value));
  object.set(key, std::move(list));
}
void put(Json& object, std::string_view key, const std::optional<double>& value) {
  if (!value || !std::isfinite(*value)) return;
  object.set(key, Json::string(general_digits(*value, 9)));
}

}  // namespace tallyblock::kept
