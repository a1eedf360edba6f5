// App's files: what the porter takes in becomes acts, what he hands out is offered.
#include <memory>
#include <utility>

#include "app.h"
#include "core/base/sorted.h"
#include "web/words/words.h"

namespace tallyblock {

// ---- in

void App::on_files(std::size_t count) {
  rooms_.porter.expect(count);
  changed();
}

void App::stop_import_now() {
  rooms_.porter.stop();
  rooms_.tell_import();
}

void App::on_file_now(const std::string& name, const std::string& bytes, bool last_piece) {
  const bool may = !porter().begins(name) || rooms_.may_act();
  const std::string_view why_not = may ? "" : keeper().why_not();
  const Porter::News news = rooms_.porter.take(name, bytes, last_piece, why_not);
  go_on_in_background();
  if (news == Porter::News::refused) rooms_.tell_refused();
  if (news == Porter::News::empty) rooms_.tell_import();
  changed();
}

// What is here of the next ones is read, then their union with it is one act. The next ones wait for
// it to be kept, unless saving fails.
void App::import_next_now() {
  constexpr std::size_t most_acts = 2;
  Porter& porter = rooms_.porter;
  const bool saving = keeper().trouble() == StoreStatus::ok && keeper().waiting() >= most_acts;
  if (porter.busy || porter.waiting.empty() || saving || !keeper().why_not().empty()) return;
  porter.busy = true;
  const auto files = std::make_shared<std::vector<SessionFile>>(porter.next());
  std::vector<std::string> ids;
  for (const SessionFile& file : *files) ids.push_back(file.session);
  fetch_some(ids, [this, files](std::vector<Fetched>& here, bool stale) {
    import_batch(*files, here, stale);
  });
}

void App::import_batch(std::vector<SessionFile>& files, std::vector<Fetched>& here, bool stale) {
  Porter& porter = rooms_.porter;
  porter.busy = false;
  if (porter.stopped) return rooms_.tell_import();
  if (stale || !keeper().why_not().empty()) {
    porter.take_back(std::move(files));
    return go_on_in_background();
  }
  Act act;
  bool any = false;
  for (std::size_t i = 0; i < files.size(); ++i) {
    const bool in_memory = desk().is_open(files[i].session);
    if (!in_memory && here[i].status != StoreStatus::ok) {
      porter.refuse(say("import.not-read", {say(trouble_key(here[i].status))}));
      rooms_.tell_refused();
      continue;
    }
    any = true;
    // One that stays was there to be read when the file was picked.
    if (rooms_.notices.stays()) rooms_.notices.now.reset();
    OpenSession union_of;
    if (in_memory) {
      union_of = *session();
    } else {
      union_of = std::move(here[i].session);
    }
    const bool more = porter.unite(union_of, files[i], rooms_.shelf, act);
    if (more && in_memory) rooms_.desk.lay(std::move(union_of));
  }
  if (!act.ops.empty()) {
    act.when_kept = porter.report();
    rooms_.keep(std::move(act));
  } else if (any) {
    rooms_.tell_import();
  }
  go_on_in_background();
}

// ---- out

void App::offer(const OpenSession& session, bool with_names) {
  const Parcel parcel = parcel_of(session, with_names);
  rooms_.host.offer_file(parcel.name, parcel.mime, parcel.bytes);
  if (parcel.parts < 2) return rooms_.tell("notice.handed-over", {parcel.name});
  rooms_.tell(form_of("notice.export-parted", static_cast<double>(parcel.parts)),
              {std::to_string(parcel.parts)});
}

void App::export_session_now(const std::string& session, bool with_names) {
  if (desk().is_open(session)) return offer(*this->session(), with_names);
  fetch(session, [this, with_names](StoreStatus status, const OpenSession& found) {
    // What waits to be saved is in memory even where the store does not answer.
    if (found.set.empty()) {
      return rooms_.tell_error(
          "notice.not-exported",
          {status == StoreStatus::ok ? say("notice.not-there") : say(trouble_key(status))});
    }
    offer(found, with_names);
  });
}

void App::export_backup_now() {
  rooms_.keeper.load(
      Area::entries, "", [this](StoreStatus status, const std::vector<Record>& records) {
        std::vector<Record> all = keeper().with_pending(Area::entries, "", records);
        if (status != StoreStatus::ok && session() != nullptr) {  // at least what is in memory
          for (const Entry* entry : session()->set.in_order()) {
            all.push_back({entry_key(session()->id, entry->id), entry->text});
          }
          heap_sort(all, [](const Record& a, const Record& b) { return a.key < b.key; });
        }
        Host& host = rooms_.host;
        const Backup backup = backup_of(all, shelf().bin);
        if (backup.lines > 0) {
          const Parcel parcel = parcel_of(backup, day_text(host.utc_ms(), host.offset_minutes()));
          host.offer_file(parcel.name, parcel.mime, parcel.bytes);
          rooms_.tell("notice.handed-over", {parcel.name});
        }
        if (status != StoreStatus::ok)
          return rooms_.tell_error("notice.backup-partial", {say(trouble_key(status))});
        if (backup.unreadable + backup.binned > 0) {
          const std::vector<std::string> left_out = {std::to_string(backup.binned),
                                                     std::to_string(backup.unreadable)};
          if (backup.unreadable > 0) return rooms_.tell_error("notice.backup-without", left_out);
          return rooms_.tell("notice.backup-without", left_out);
        }
        if (backup.lines == 0) rooms_.tell("notice.nothing-to-export");
      });
}

void App::share_picture_now(bool of_list, bool with_people) {
  Host& host = rooms_.host;
  if (!of_list && session() == nullptr) return;
  std::string name = of_list ? "tallyblock-pieces-" + day_text(host.utc_ms(), host.offset_minutes())
                             : file_name_of(card_of(*session()));
  if (!of_list) name.resize(name.rfind('.'));
  name += ".png";
  host.offer_picture(name, {of_list, with_people});
  rooms_.tell("notice.handed-over", {name});
}

}  // namespace tallyblock
