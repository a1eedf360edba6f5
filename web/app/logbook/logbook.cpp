#include "logbook.h"

#include <algorithm>
#include <charconv>
#include <set>
#include <utility>

#include "core/log/log_piece_json.h"

namespace tallyblock {
namespace {

std::string key_of(const std::string& session) { return std::string(kLogKeys) + session; }

// What the first line of a record says; false: nothing.
template <class Number>
bool read_number(std::string_view& text, Number& number) {
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc()) return false;
  text.remove_prefix(static_cast<std::size_t>(end - text.data()));
  if (text.empty()) return false;
  text.remove_prefix(1);
  return true;
}

}  // namespace

void Logbook::take(const std::vector<Record>& stored) {
  pieces_.clear();
  for (const Record& record : stored) {
    if (!record.key.starts_with(kLogKeys)) continue;
    std::string_view text = record.bytes;
    Known kept;
    if (!read_number(text, kept.entries) || !read_number(text, kept.changed_ms)) continue;
    auto piece = log_piece_from_json(text);
    if (!piece || piece->session != record.key.substr(kLogKeys.size())) continue;
    kept.piece = *std::move(piece);
    pieces_.insert_or_assign(kept.piece.session, std::move(kept));
  }
  known = true;
}

bool Logbook::is_known(const SessionCard& card) const {
  const auto found = pieces_.find(card.id);
  return found != pieces_.end() && found->second.entries == card.entries &&
         found->second.changed_ms == card.changed_ms;
}

void Logbook::look(const std::vector<SessionCard>& cards, Act& act) {
  to_make.clear();
  for (const SessionCard& card : cards) {
    if (!card.as_begun && !is_known(card)) to_make.push_back(card.id);
  }
  std::set<std::string_view> listed;
  for (const SessionCard& card : cards) listed.insert(card.id);
  for (auto at = pieces_.begin(); at != pieces_.end();) {
    const bool gone = !listed.contains(at->first);
    if (gone) act.erase(Area::index, key_of(at->first));
    at = gone ? pieces_.erase(at) : std::next(at);
  }
}

void Logbook::put(const OpenSession& session, const SessionCard& card, Act& act) {
  Known kept{card.entries, card.changed_ms, log_piece_of(session.id, session.set, session.figures)};
  act.put(Area::index, key_of(session.id),
          std::to_string(kept.entries) + ' ' + std::to_string(kept.changed_ms) + '\n' +
              log_piece_to_json(kept.piece));
  pieces_.insert_or_assign(session.id, std::move(kept));
}

void Logbook::derive(const std::vector<SessionCard>& cards) {
  std::vector<LogPiece> pieces;
  for (const SessionCard& card : cards) {
    const auto found = pieces_.find(card.id);
    if (found != pieces_.end()) pieces.push_back(found->second.piece);
  }
  lines = log_lines(std::move(pieces));
}

const LogLine* Logbook::line(const std::string& key) const {
  const auto found = std::ranges::find(lines, key, &LogLine::key);
  return found == lines.end() ? nullptr : &*found;
}

}  // namespace tallyblock
