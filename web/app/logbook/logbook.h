// The logbook: what the log knows of each piece, kept beside the cards and made again where a card is newer.
//
// Nothing of it is read before somebody opens the log. A record is kept in Area::index under "~log/<session>" as
// "<entries> <last change, UTC ms>\n" and the piece as core/log/log_piece_json.h writes it.
#pragma once
#include <cstddef>
#include <cstdint>
#include <deque>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/log/log_lines.h"
#include "web/app/shelf/shelf.h"

namespace tallyblock {

// Keys of its records in Area::index begin so.
inline constexpr std::string_view kLogKeys = "~log/";

struct Logbook {
  bool asked = false, known = false;  // what is stored is being read; is here
  bool busy = false;                  // pieces are being made
  bool stale = false;                 // the cards were read again since they were looked at
  std::size_t unread = 0;             // pieces whose entries could not be read
  std::uint64_t of_acts = 0;          // the keeper's acts when the cards were looked at
  std::deque<std::string> to_make;    // sessions, the newest first
  std::vector<LogLine> lines;         // of the pieces in the list; most recently cut first

  void take(const std::vector<Record>& stored);
  // What of the cards is not known yet is to be made; what has no card any more goes.
  void look(const std::vector<SessionCard>& cards, Act& act);
  void put(const OpenSession& session, const SessionCard& card, Act& act);
  void derive(const std::vector<SessionCard>& cards);
  const LogLine* line(const std::string& key) const;  // null: none of that key

 private:
  struct Known {
    std::size_t entries = 0;
    std::int64_t changed_ms = 0;
    LogPiece piece;
  };
  bool is_known(const SessionCard& card) const;
  std::map<std::string, Known> pieces_;
};

}  // namespace tallyblock
