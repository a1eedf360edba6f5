// Reads a rescue file: all that a page which could not start has stored, as it was stored.
//
// A first line {"format":"tallyblock-rescue","major":1,"minor":0,"records":N}, then N records: u8 area
// (0 entries, 1 index, 2 app, 3 bin), u32le length of the key, key, u32le length of the value, value.
// Only entries are read: their keys are "<session>/<entry id>", with "~<crc-32>" behind for another text
// under that id, or "<session>/head". A value may end in a line feed and 8 hexadecimal digits: CRC-32 of
// "entries", key and payload, parted by line feeds; it is checked and taken off. See FORMAT.md.
#pragma once
#include <cstddef>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "codec.h"
#include "entry_set.h"

namespace tallyblock {

// feed() any number of times, then finish(). Gives sessions as soon as the next one begins; another
// text under an id stands in a further SessionFile of the same session, and a session whose records lie
// apart comes in several. Entries are read leniently and are not limited in number. What is damaged is
// left out and counted. A first line that is none gives one problem and nothing more; finish() adds
// file_changed (where = "records", args = {promised, found}) if their number differs.
class RescueReader {
 public:
  std::vector<Result<SessionFile>> feed(std::string_view piece);
  std::vector<Result<SessionFile>> finish();
  // Keys of entries that were damaged wherever they stood; complete after finish().
  std::size_t damaged() const { return damaged_.size(); }

 private:
  using Results = std::vector<Result<SessionFile>>;
  bool take_first_line(Results& out);
  void take_records(Results& out);
  void take_entry(const std::string& key, std::string_view stored, Results& out);
  bool keep(const std::string& rest, std::string_view payload);
  void end_session(Results& out);

  std::string pending_;
  std::size_t promised_ = 0, found_ = 0;
  bool header_seen_ = false, dead_ = false;
  std::string session_;  // being collected
  // Of one session: each file names an id once.
  std::vector<std::map<EntryId, Entry>> layers_;
  SessionFile head_;
  std::set<std::string> good_, damaged_;  // keys
};

}  // namespace tallyblock
