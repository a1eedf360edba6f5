// Entries and session files to and from text.
//
// Canonical text of an entry: JSON, UTF-8, keys sorted, no spaces, unknown fields kept. decode then
// encode gives the same bytes. A session file is one JSON object:
//   {"check":"<crc-32, 8 hex>","entries":[...sorted by order...],"format":"tallyblock-session",
//    "left_out":["note","person"],"major":1,"minor":0,"session":"<id>"}
// with every unknown field of the object kept too. "check" is CRC-32 (ISO-HDLC) of the canonical
// text of the same object without "check": any flipped bit is noticed. A backup is JSON Lines: a
// first line {"format":"tallyblock-backup","major":1,"minor":0,"sessions":N}, then one session file
// per line, so that it is read in pieces. Sizes are checked before anything is parsed.
//
// Every kind, field and limit is in FORMAT.md. Problems of a field (file_field_missing, _type,
// _value): args {0} = the field, {1} = the place of the entry in the file from 1, where there is one;
// where = the field and the entry. Others: file_too_big {0} = bytes, {1} = limit; file_too_deep
// and file_too_many {0} = limit; file_newer_major {0} = the file's, {1} = ours; file_duplicate_id
// {0} = the id; file_changed of a backup {0} = how many were promised, {1} = found. In a backup `where`
// has the line.
#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/problem.h"
#include "entry.h"

namespace tallyblock {

inline constexpr std::size_t kMaxSessionBytes = std::size_t{2} * 1024 * 1024;
inline constexpr std::size_t kMaxEntryBytes = std::size_t{64} * 1024;
inline constexpr std::size_t kMaxEntries = 20000;
inline constexpr std::size_t kMaxLeftOut = 40;  // kinds named in left_out
inline constexpr int kMaxDepth = 32;
inline constexpr int kFormatMajor = 1;
inline constexpr int kFormatMinor = 4;
// The least minor version whose page FORMAT.md knows every kind of `entry`: 1 for station,
// plan-limits, wanted, long-piece and face, 2 for cut-closed, 3 for a price for so many pieces or a weight
// that is sure, 4 for line and a note for the next piece, else 0. A file says no more than it needs.
int minor_of(const Entry& entry);

// Fills entry.text from its other fields (Unknown bodies keep the text they came with). Checks
// nothing: what a person entered goes through checked().
Entry sealed(Entry entry);
// Sealed and read back strictly: an entry that can be stored, exported and imported again, or the
// problem of the field that prevents it.
Result<Entry> checked(Entry entry);

// One stored entry; unknown kinds and fields are kept. Strict: any problem of a known kind's fields is
// the result's problem.
Result<Entry> decode_entry_strict(std::string_view text);
// Lenient, for what this device stored before: known kind with unreadable fields becomes Unknown
// with the problem, provided id, seq and kind can be read (its time, writer and what it replaces are
// then left empty; its text keeps them).
Result<Entry> decode_entry_lenient(std::string_view text);

struct SessionFile {
  std::string session;                // id: 20 characters, same alphabet as writers
  std::vector<Entry> entries;         // sorted by order
  std::vector<std::string> left_out;  // kinds omitted on purpose when names were stripped
  int minor = 0;
  std::string extra;  // canonical JSON object of unknown header fields, "" if none
};

// The bytes of a session file: canonical text, entries in order. The minor version written is the
// least that its kinds need, at least file.minor, and at least one more than kFormatMinor if an entry could not be read here (it came from a later minor
// version), so that what is written can be read again. The text may exceed kMaxSessionBytes when the
// set has grown too large: the caller compares.
std::string write_session(const SessionFile& file);
// The same as one or more session files of one session, each of which can be read again: parted where it
// has grown over kMaxSessionBytes or kMaxEntries. Their union is the whole.
std::vector<std::string> write_session_parts(const SessionFile& file);
// Strict, but for the entries of a newer minor version, which are read leniently. On success the
// entries are in order, ids unique. Checked in this turn: size, text, JSON, format, major version,
// check, the rest.
Result<SessionFile> read_session(std::string_view bytes);

enum class FileKind { session, backup, rescue, other };
// A guess from the first bytes (4 KB are enough), to choose between read_session, BackupReader and
// RescueReader (rescue.h).
FileKind kind_of_file(std::string_view first_bytes);

// Omits person and note entries and edits nothing else; `by` fields stay and point nowhere.
SessionFile without_names(SessionFile file);

// Reads a backup piece by piece: feed() any number of times, then finish(). Each complete line gives
// a session or a problem naming the line; a line that is too long is skipped without being held. A
// first line that is no backup header gives one problem and nothing more. finish() adds file_changed
// (where = "backup", args = {sessions promised, lines found}) if their number differs.
class BackupReader {
 public:
  std::vector<Result<SessionFile>> feed(std::string_view piece);
  std::vector<Result<SessionFile>> finish();

 private:
  void end_line(std::vector<Result<SessionFile>>& out);
  std::optional<Problem> header_problem(std::string_view line);

  std::string pending_;
  std::size_t line_ = 0;
  std::size_t skipped_ = 0;  // bytes of a line that is too long
  std::size_t promised_ = 0, found_ = 0;
  bool header_seen_ = false;
  bool dead_ = false;
};
// The first line of a backup, with its newline; then write_session() + '\n' per session.
std::string backup_header(std::size_t sessions);

// CRC-32/ISO-HDLC (check value of "123456789" is cbf43926).
std::uint32_t crc32(std::string_view bytes);
// Eight digits, as check values are written in files: "cbf43926".
std::string hex8(std::uint32_t value);

}  // namespace tallyblock
