#include "rescue.h"

#include <algorithm>
#include <cstdint>
#include <optional>
#include <utility>

#include "core/base/sorted.h"
#include "core/entries/inside/first_line.h"
#include "core/json/json_text.h"
#include "entry_fields.h"

namespace tallyblock {
namespace {

constexpr std::string_view kRescueFormat = "tallyblock-rescue";
constexpr std::size_t kMaxFirstLine = 4096;
constexpr std::size_t kMaxRecordPart = std::size_t{16} * 1024 * 1024;
constexpr std::size_t kLeastRecord = 9;  // area and two lengths
constexpr std::size_t kMostTexts = 16;   // under one id
constexpr std::size_t kCheckLength = 9;
constexpr std::string_view kArea = "entries";

std::size_t u32le(std::string_view bytes, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = 4; i-- > 0;) value = value << 8 | static_cast<unsigned char>(bytes[at + i]);
  return value;
}

std::optional<std::uint32_t> from_hex(std::string_view digits) {
  std::uint32_t value = 0;
  for (const char c : digits) {
    const bool small = c >= 'a' && c <= 'f';
    if (!small && (c < '0' || c > '9')) return std::nullopt;
    value = value << 4 | static_cast<std::uint32_t>(small ? c - 'a' + 10 : c - '0');
  }
  return value;
}

// Without its check value; nothing if that is not the right one.
std::optional<std::string_view> payload_of(const std::string& key, std::string_view stored) {
  if (stored.size() < kCheckLength || stored[stored.size() - kCheckLength] != '\n') return stored;
  const std::string_view payload = stored.substr(0, stored.size() - kCheckLength);
  std::string whole(kArea);
  whole.append("\n").append(key).append("\n").append(payload);
  if (from_hex(stored.substr(payload.size() + 1)) != crc32(whole)) return std::nullopt;
  return payload;
}

// What a session file says besides its entries, as the app keeps it; nothing if it cannot be read.
bool read_head(std::string_view text, SessionFile& file) {
  const Result<Json> head = parse_json(text, kMaxDepth);
  if (!head || head->type != Json::Type::object) return false;
  if (const Json* minor = head->member("minor"); minor && minor->type == Json::Type::integer) {
    file.minor = static_cast<int>(std::clamp<std::int64_t>(minor->integer, 0, 1'000'000));
  }
  if (const Json* kinds = head->member("left_out"); kinds && kinds->type == Json::Type::array) {
    file.left_out.clear();
    for (const Json& kind : kinds->children) {
      if (kind.type != Json::Type::string || !is_key(kind.text)) continue;
      if (file.left_out.size() < kMaxLeftOut) file.left_out.push_back(kind.text);
    }
    heap_sort(file.left_out);
    file.left_out.erase(std::unique(file.left_out.begin(), file.left_out.end()),
                        file.left_out.end());
  }
  const Json* extra = head->member("extra");
  if (extra && extra->type == Json::Type::string && parse_json(extra->text, kMaxDepth)) {
    file.extra = extra->text;
  }
  return true;
}

}  // namespace

std::vector<Result<SessionFile>> RescueReader::feed(std::string_view piece) {
  Results out;
  if (dead_) return out;
  pending_ += piece;
  if (header_seen_ || take_first_line(out)) take_records(out);
  return out;
}

std::vector<Result<SessionFile>> RescueReader::finish() {
  Results out;
  if (dead_) return out;
  if (!header_seen_) {
    out.emplace_back(
        Problem{pending_.empty() ? Code::file_empty : Code::file_not_ours, "file", {}});
  } else {
    end_session(out);
    if (found_ != promised_ || !pending_.empty()) {
      out.emplace_back(
          Problem{Code::file_changed, "records", {Arg::count(promised_), Arg::count(found_)}});
    }
  }
  dead_ = true;
  return out;
}

bool RescueReader::take_first_line(Results& out) {
  const std::size_t end = pending_.find('\n');
  if (end == std::string::npos && pending_.size() <= kMaxFirstLine) return false;
  const Result<std::size_t> promised = promised_by(
      std::string_view(pending_).substr(0, std::min(end, kMaxFirstLine)), kRescueFormat, "records");
  if (!promised) {
    dead_ = true;
    out.emplace_back(promised.problem());
    return false;
  }
  promised_ = *promised;
  header_seen_ = true;
  pending_.erase(0, end + 1);
  return true;
}

void RescueReader::take_records(Results& out) {
  const std::string bytes = std::exchange(pending_, {});
  const std::string_view all = bytes;
  std::size_t at = 0;
  while (all.size() - at >= kLeastRecord) {
    const std::size_t key_length = u32le(all, at + 1);
    const std::size_t value_at = at + 5 + std::min(key_length, kMaxRecordPart);
    const std::size_t value_length = value_at + 4 <= all.size() ? u32le(all, value_at) : 0;
    if (key_length > kMaxRecordPart || value_length > kMaxRecordPart) {
      end_session(out);
      dead_ = true;
      out.emplace_back(
          Problem{Code::file_changed, "records", {Arg::count(promised_), Arg::count(found_)}});
      return;
    }
    const std::size_t end = value_at + 4 + value_length;
    if (end > all.size()) break;
    ++found_;
    if (all[at] == 0) {
      take_entry(std::string(all.substr(at + 5, key_length)),
                 all.substr(value_at + 4, value_length), out);
    }
    at = end;
  }
  pending_ = all.substr(at);
}

void RescueReader::take_entry(const std::string& key, std::string_view stored, Results& out) {
  const std::string session = key.substr(0, key.find('/'));
  bool good = is_drawn_id(session, kSessionIdLength) && key.size() > session.size();
  if (good) {
    if (session != session_) end_session(out);
    session_ = session;
    const std::optional<std::string_view> payload = payload_of(key, stored);
    good = payload && keep(key.substr(session.size() + 1), *payload);
  }
  if (good) {
    damaged_.erase(key);
    good_.insert(key);
  } else if (!good_.contains(key)) {
    damaged_.insert(key);
  }
}

bool RescueReader::keep(const std::string& rest, std::string_view payload) {
  if (rest == "head") return read_head(payload, head_);
  Result<Entry> entry = decode_entry_lenient(payload);
  if (!entry) return false;
  for (auto& layer : layers_) {
    const auto [place, fresh] = layer.try_emplace(entry->id, *entry);
    if (fresh || place->second.text == entry->text) return true;
  }
  if (layers_.size() == kMostTexts) return false;
  layers_.emplace_back().emplace(entry->id, *entry);
  return true;
}

void RescueReader::end_session(Results& out) {
  for (auto& layer : layers_) {
    SessionFile file = head_;
    file.session = session_;
    for (auto& [id, entry] : layer) file.entries.push_back(std::move(entry));
    heap_sort(file.entries, before);
    out.emplace_back(std::move(file));
  }
  layers_.clear();
  head_ = {};
}

}  // namespace tallyblock
