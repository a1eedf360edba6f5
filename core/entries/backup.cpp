// Backups: JSON Lines, read in pieces; kind_of_file; CRC-32.
#include <array>
#include <string>
#include <utility>

#include "codec.h"
#include "core/entries/inside/first_line.h"
#include "entry_fields.h"

namespace tallyblock {
namespace {

constexpr std::string_view kBackupFormat = "tallyblock-backup";
constexpr std::int64_t kMaxBackupMajor = 1000000;
constexpr std::int64_t kMaxCounted = 10000000;

bool is_blank(std::string_view line) {
  return line.find_first_not_of(" \t\r") == std::string_view::npos;
}

std::string without_spaces(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c != ' ' && c != '\t' && c != '\r' && c != '\n') out += c;
  }
  return out;
}

constexpr std::array<std::uint32_t, 256> crc_table() {
  std::array<std::uint32_t, 256> table{};
  for (std::uint32_t i = 0; i < 256; ++i) {
    std::uint32_t value = i;
    for (int bit = 0; bit < 8; ++bit) value = (value >> 1) ^ ((value & 1u) ? 0xEDB88320u : 0u);
    table[i] = value;
  }
  return table;
}
constexpr std::array<std::uint32_t, 256> kCrcTable = crc_table();

}  // namespace

std::uint32_t crc32(std::string_view bytes) {
  std::uint32_t value = 0xFFFFFFFFu;
  for (const char c : bytes) {
    value = (value >> 8) ^ kCrcTable[(value ^ static_cast<unsigned char>(c)) & 0xFFu];
  }
  return value ^ 0xFFFFFFFFu;
}

std::string backup_header(std::size_t sessions) {
  Json header = Json::object();
  header.set("format", Json::string(kBackupFormat));
  header.set("major", Json::number(kFormatMajor));
  header.set("minor", Json::number(kFormatMinor));
  header.set("sessions", Json::number(static_cast<std::int64_t>(sessions)));
  return canonical_text(header) + '\n';
}

FileKind kind_of_file(std::string_view first_bytes) {
  const std::string text = without_spaces(first_bytes);
  const std::string first_line = without_spaces(first_bytes.substr(0, first_bytes.find('\n')));
  if (first_line.find("\"format\":\"tallyblock-backup\"") != std::string::npos) {
    return FileKind::backup;
  }
  if (first_line.find("\"format\":\"tallyblock-rescue\"") != std::string::npos) {
    return FileKind::rescue;
  }
  // The format may stand after entries beyond the first bytes.
  const bool ours = text.starts_with("{\"check\":") || text.starts_with("{\"entries\":") ||
                    text.find("\"format\":\"tallyblock-session\"") != std::string::npos;
  return ours ? FileKind::session : FileKind::other;
}

std::vector<Result<SessionFile>> BackupReader::feed(std::string_view piece) {
  std::vector<Result<SessionFile>> out;
  while (!dead_ && !piece.empty()) {
    const std::size_t end = piece.find('\n');
    const std::string_view part = piece.substr(0, end);
    if (skipped_ > 0 || pending_.size() + part.size() > kMaxSessionBytes) {
      skipped_ += pending_.size() + part.size();
      pending_.clear();
    } else {
      pending_ += part;
    }
    if (end == std::string_view::npos) break;
    piece.remove_prefix(end + 1);
    end_line(out);
  }
  return out;
}

std::vector<Result<SessionFile>> BackupReader::finish() {
  std::vector<Result<SessionFile>> out;
  if (dead_) return out;
  end_line(out);
  if (!header_seen_ && !dead_) out.emplace_back(Problem{Code::file_empty, "file", {}});
  if (header_seen_ && found_ != promised_) {
    out.emplace_back(
        Problem{Code::file_changed, "backup", {Arg::count(promised_), Arg::count(found_)}});
  }
  dead_ = true;
  return out;
}

void BackupReader::end_line(std::vector<Result<SessionFile>>& out) {
  ++line_;
  const std::size_t skipped = std::exchange(skipped_, 0);
  const std::string line = std::exchange(pending_, {});
  if (skipped == 0 && is_blank(line)) return;
  if (!header_seen_) {
    std::optional<Problem> problem =
        skipped > 0 ? Problem{Code::file_not_ours, "format", {}} : header_problem(line);
    header_seen_ = !problem;
    dead_ = problem.has_value();
    if (!problem) return;
    problem->where.line = line_;
    out.emplace_back(*std::move(problem));
    return;
  }
  ++found_;
  if (skipped > 0) {
    Problem too_big{Code::file_too_big, {}, {Arg::count(skipped), Arg::count(kMaxSessionBytes)}};
    too_big.where.line = line_;
    out.emplace_back(std::move(too_big));
    return;
  }
  Result<SessionFile> session = read_session(line);
  if (session) {
    out.emplace_back(std::move(session));
    return;
  }
  Problem problem = session.problem();
  problem.where.line = line_;
  out.emplace_back(std::move(problem));
}

std::optional<Problem> BackupReader::header_problem(std::string_view line) {
  const Result<std::size_t> promised = promised_by(line, kBackupFormat, "sessions");
  if (!promised) return promised.problem();
  promised_ = *promised;
  return std::nullopt;
}

Result<std::size_t> promised_by(std::string_view line, std::string_view format,
                                std::string_view counted) {
  const Result<Json> parsed = parse_json(line, kMaxDepth);
  if (!parsed) return parsed.problem();
  FieldReader fields(*parsed);
  const Json* named = parsed->member("format");
  if (!named || named->type != Json::Type::string || named->text != format) {
    return Problem{Code::file_not_ours, "format", {}};
  }
  const std::int64_t major = fields.integer("major", 1, kMaxBackupMajor);
  if (!fields.problem() && major > kFormatMajor) {
    return Problem{Code::file_newer_major,
                   "major",
                   {Arg::number(static_cast<double>(major)), Arg::number(kFormatMajor)}};
  }
  const std::int64_t promised = fields.integer(counted, 0, kMaxCounted);
  if (const auto& problem = fields.problem(); problem) return *problem;
  return static_cast<std::size_t>(promised);
}

}  // namespace tallyblock
