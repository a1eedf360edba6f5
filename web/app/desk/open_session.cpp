#include "open_session.h"

#include <algorithm>
#include <string_view>
#include <utility>

#include "tidy.h"
#include "web/app/keeper/kept_json.h"
#include "web/figures/names.h"

namespace tallyblock {
namespace {

constexpr std::string_view kHead = "head";

void take_head(OpenSession& session, std::string_view text) {
  const Json head = kept::object_from(text);
  session.left_out = kept::texts(head, "left_out");
  session.minor =
      static_cast<int>(std::clamp<std::int64_t>(kept::whole(head, "minor"), 0, 1'000'000));
  session.extra = kept::text(head, "extra");
}

}  // namespace

OpenSession session_from(const std::string& id, const std::vector<Record>& records) {
  OpenSession session;
  session.id = id;
  const std::size_t skip = id.size() + 1;
  for (const Record& record : records) {
    if (record.key.size() <= skip) continue;
    if (std::string_view(record.key).substr(skip) == kHead) {
      take_head(session, record.bytes);
      continue;
    }
    Result<Entry> entry = decode_entry_lenient(record.bytes);
    if (entry) {
      session.set.insert(std::move(entry.value()));
    } else {
      ++session.unreadable;
    }
  }
  refresh(session);
  return session;
}

void refresh(OpenSession& session) {
  Figures now = figures_of(session.set, session.left_out);
  tidy_names(now);
  session.figures = std::move(now);
  session.sample = session.figures.settings.all.contains(std::string(kSampleSetting));
}

SessionFile file_of(const OpenSession& session) {
  SessionFile file;
  file.session = session.id;
  for (const Entry* entry : session.set.in_order()) file.entries.push_back(*entry);
  file.left_out = session.left_out;
  file.minor = session.minor;
  file.extra = session.extra;
  return file;
}

std::string head_to_json(const OpenSession& session) {
  if (session.left_out.empty() && session.extra.empty() && session.minor == 0) return "";
  Json out = Json::object();
  kept::put(out, "left_out", session.left_out);
  kept::put(out, "minor", std::int64_t{session.minor});
  kept::put(out, "extra", session.extra);
  return canonical_text(out);
}

}  // namespace tallyblock
