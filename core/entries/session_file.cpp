// Session files: writing, reading in the order of checks that codec.h states.
#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "codec.h"
#include "core/base/sorted.h"
#include "entry_fields.h"

namespace tallyblock {
namespace {

constexpr std::string_view kSessionFormat = "tallyblock-session";
constexpr std::array<std::string_view, 7> kHeaderFields = {"check", "entries", "format", "left_out",
                                                           "major", "minor",   "session"};
constexpr std::int64_t kMaxSessionMajor = 1000000;

bool is_header_field(std::string_view name) {
  return std::find(kHeaderFields.begin(), kHeaderFields.end(), name) != kHeaderFields.end();
}

// `header` is the object without "entries" and "check"; the entries are joined in as they stand.
std::string canonical_with_entries(const Json& header, const std::vector<std::string_view>& texts) {
  std::string out = "{";
  bool entries_written = false;
  const auto write_entries = [&] {
    if (out.size() > 1) out += ',';
    out += "\"entries\":[";
    for (std::size_t i = 0; i < texts.size(); ++i) {
      if (i > 0) out += ',';
      out += texts[i];
    }
    out += ']';
    entries_written = true;
  };
  for (const Json& member : header.children) {
    if (!entries_written && member.key > "entries") write_entries();
    if (out.size() > 1) out += ',';
    append_canonical(Json::string(member.key), out);
    out += ':';
    append_canonical(member, out);
  }
  if (!entries_written) write_entries();
  return out += '}';
}

Json header_json(const SessionFile& file, int minor) {
  Json header = Json::object();
  if (!file.extra.empty()) {
    const Result<Json> extra = parse_json(file.extra, kMaxDepth);
    if (extra && extra->type == Json::Type::object) header = *extra;
  }
  for (const std::string_view name : kHeaderFields) header.remove(name);
  Json left_out = Json::array();
  for (const std::string& kind : file.left_out) left_out.children.push_back(Json::string(kind));
  header.set("format", Json::string(kSessionFormat));
  if (!left_out.children.empty()) header.set("left_out", std::move(left_out));
  header.set("major", Json::number(kFormatMajor));
  header.set("minor", Json::number(minor));
  header.set("session", Json::string(file.session));
  return header;
}

bool could_not_be_read(const Entry& entry) {
  const auto* unknown = std::get_if<body::Unknown>(&entry.body);
  return unknown && unknown->problem;
}

Problem in_entry(Problem problem, std::size_t index) {
  const double place = static_cast<double>(index + 1);
  if (problem.where.field == "entry") problem.where.field.clear();
  problem.where.entry = index + 1;
  if (problem.code != Code::file_too_big) problem.args.push_back(Arg::number(place));
  return problem;
}

std::optional<Problem> read_entries(const Json& list, Strictness strictness, SessionFile& file) {
  if (list.children.size() > kMaxEntries) {
    return Problem{Code::file_too_many, "entries", {Arg::count(kMaxEntries)}};
  }
  file.entries.reserve(list.children.size());
  for (std::size_t i = 0; i < list.children.size(); ++i) {
    Result<Entry> entry = entry_from(list.children[i], strictness);
    if (!entry) return in_entry(entry.problem(), i);
    file.entries.push_back(std::move(entry.value()));
  }
  std::vector<const EntryId*> ids;
  ids.reserve(file.entries.size());
  for (const Entry& entry : file.entries) ids.push_back(&entry.id);
  heap_sort(ids, [](auto* a, auto* b) { return *a < *b; });
  const auto twice =
      std::adjacent_find(ids.begin(), ids.end(), [](auto* a, auto* b) { return *a == *b; });
  if (twice != ids.end())
    return Problem{Code::file_duplicate_id, "entries", {Arg::code(to_text(**twice))}};
  heap_sort(file.entries, before);
  return std::nullopt;
}

// The kinds of "left_out", sorted, each once.
std::vector<std::string> read_left_out(const Json& object, FieldReader& fields) {
  std::vector<std::string> kinds;
  const Json* list = object.member("left_out");
  if (!list) return kinds;
  if (list->type != Json::Type::array) fields.refuse(Code::file_field_type, "left_out");
  if (list->children.size() > kMaxLeftOut) fields.refuse(Code::file_field_value, "left_out");
  for (const Json& item : list->children) {
    if (item.type != Json::Type::string) fields.refuse(Code::file_field_type, "left_out");
    if (!is_key(item.text)) fields.refuse(Code::file_field_value, "left_out");
    kinds.push_back(item.text);
  }
  heap_sort(kinds);
  kinds.erase(std::unique(kinds.begin(), kinds.end()), kinds.end());
  return kinds;
}

// Format, major version and check, in this order: a later major version may check differently.
std::optional<Problem> envelope_problem(Json& object) {
  const Json* format = object.member("format");
  if (!format || format->type != Json::Type::string || format->text != kSessionFormat) {
    return Problem{Code::file_not_ours, "format", {}};
  }
  FieldReader fields(object);
  const std::int64_t major = fields.integer("major", 1, kMaxSessionMajor);
  if (fields.problem()) return fields.problem();
  if (major > kFormatMajor) {
    return Problem{Code::file_newer_major,
                   "major",
                   {Arg::number(static_cast<double>(major)), Arg::number(kFormatMajor)}};
  }
  const std::string check = fields.name("check");
  if (fields.problem()) return fields.problem();
  object.remove("check");
  if (check != hex8(crc32(canonical_text(object)))) return Problem{Code::file_changed, "check", {}};
  return std::nullopt;
}

std::string extra_of(const Json& object) {
  Json extra = Json::object();
  for (const Json& member : object.children) {
    if (!is_header_field(member.key)) extra.children.push_back(member);
  }
  return extra.children.empty() ? std::string() : canonical_text(extra);
}

std::optional<Problem> size_problem(std::string_view bytes) {
  if (bytes.size() > kMaxSessionBytes) {
    return Problem{
        Code::file_too_big, "file", {Arg::count(bytes.size()), Arg::count(kMaxSessionBytes)}};
  }
  if (bytes.find_first_not_of(" \t\r\n") == std::string_view::npos) {
    return Problem{Code::file_empty, "file", {}};
  }
  return std::nullopt;
}

}  // namespace

std::string hex8(std::uint32_t value) {
  std::string text(8, '0');
  for (std::size_t i = 8; i-- > 0; value >>= 4) text[i] = "0123456789abcdef"[value & 15u];
  return text;
}

std::string write_session(const SessionFile& file) {
  std::vector<Entry> fresh;  // those without text yet
  std::vector<const Entry*> ordered;
  ordered.reserve(file.entries.size());
  fresh.reserve(file.entries.size());
  int minor = file.minor;
  for (const Entry& entry : file.entries) {
    minor = std::max(minor, minor_of(entry));
    if (could_not_be_read(entry)) minor = std::max(minor, kFormatMinor + 1);
    if (entry.text.empty()) fresh.push_back(sealed(entry));
    ordered.push_back(entry.text.empty() ? &fresh.back() : &entry);
  }
  heap_sort(ordered, [](const Entry* a, const Entry* b) { return before(*a, *b); });
  std::vector<std::string_view> texts;
  texts.reserve(ordered.size());
  for (const Entry* entry : ordered) texts.push_back(entry->text);

  Json header = header_json(file, minor);
  std::string checked_text = canonical_with_entries(header, texts);
  const std::string check = hex8(crc32(checked_text));
  header.set("check", Json::string(check));
  return canonical_with_entries(header, texts);
}

std::vector<std::string> write_session_parts(const SessionFile& file) {
  const std::size_t all = file.entries.size();
  for (std::size_t each = std::clamp<std::size_t>(all, 1, kMaxEntries);; each = (each + 1) / 2) {
    std::vector<std::string> out;
    std::size_t largest = 0;
    for (std::size_t at = 0; at == 0 || at < all; at += each) {
      SessionFile part = file;
      const auto from = file.entries.begin() + static_cast<std::ptrdiff_t>(at);
      part.entries.assign(from, from + static_cast<std::ptrdiff_t>(std::min(each, all - at)));
      out.push_back(write_session(part));
      largest = std::max(largest, out.back().size());
    }
    if (largest <= kMaxSessionBytes || each == 1) return out;
  }
}

Result<SessionFile> read_session(std::string_view bytes) {
  if (auto problem = size_problem(bytes)) return *std::move(problem);
  Result<Json> parsed = parse_json(bytes, kMaxDepth);
  if (!parsed) return parsed.problem();
  Json& object = parsed.value();
  if (auto problem = envelope_problem(object)) return *std::move(problem);

  SessionFile file;
  FieldReader fields(object);
  file.minor = static_cast<int>(fields.integer("minor", 0, kMaxSessionMajor));
  file.session = fields.name("session");
  if (!is_drawn_id(file.session, kSessionIdLength))
    fields.refuse(Code::file_field_value, "session");
  file.left_out = read_left_out(object, fields);
  const Json* entries = fields.member("entries", Json::Type::array);
  if (entries == nullptr || fields.problem()) return fields.problem().value_or(Problem{});
  const bool newer = file.minor > kFormatMinor;
  if (auto problem =
          read_entries(*entries, newer ? Strictness::lenient : Strictness::strict, file)) {
    return *std::move(problem);
  }
  file.extra = extra_of(object);
  return file;
}

SessionFile without_names(SessionFile file) {
  std::erase_if(file.entries, [](const Entry& entry) {
    const std::string_view kind = kind_name(entry.body);
    return kind == "person" || kind == "note";
  });
  for (const char* kind : {"note", "person"}) file.left_out.emplace_back(kind);
  heap_sort(file.left_out);
  file.left_out.erase(std::unique(file.left_out.begin(), file.left_out.end()), file.left_out.end());
  return file;
}

}  // namespace tallyblock
