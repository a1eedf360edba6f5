// Fields of the small JSON objects the app keeps for itself, read without trust.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/json/json_text.h"

namespace tallyblock::kept {

// An object, or an empty one where the text is none.
Json object_from(std::string_view text);

std::string text(const Json& object, std::string_view key, std::string_view otherwise = {});
std::int64_t whole(const Json& object, std::string_view key, std::int64_t otherwise = 0);
bool truth(const Json& object, std::string_view key, bool otherwise = false);
std::vector<std::string> texts(const Json& object, std::string_view key);
// Figures for a list: kept with 9 significant digits at most, in text.
std::optional<double> figure(const Json& object, std::string_view key);

void put(Json& object, std::string_view key, std::string_view value);
void put(Json& object, std::string_view key, std::int64_t value);
void put_truth(Json& object, std::string_view key, bool value);
void put(Json& object, std::string_view key, const std::vector<std::string>& values);
void put(Json& object, std::string_view key, const std::optional<double>& value);

}  // namespace tallyblock::kept
