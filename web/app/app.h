// The app without its pixels: what is open, what was entered, what is kept, what can be done.
//
// Six rooms (rooms.h) hold all of it; App composes them and routes what comes from outside: answers of the
// store, files, other windows. What may be used of each other is proven by tests/tools/includes.py:
//
//   keeper   transactions, queue, retry, loads; who has the pen
//     ^
//   desk     the open session, its figures and cutting, undo
//     ^
//   shelf    cards, bin, settings
//     ^  ^
//     |  keypad   draft, table of fields, digits, what is asked of the weight typed
//     |    ^
//     |  acts     functions over a session that answer entries
//     |    ^
//   porter |      files in and out, backup, import in batches; beside it logbook: what the log knows of each piece
//     ^    ^
//   App, what is asked of it (ask.h), what is done then (doing_*.cpp, rooms.h)
//
// Screens read the rooms and ask for acts (ask.h); they hold no state of their own. What is asked for in the midst
// of a frame is done after it: nothing a screen walks changes under it. Every act that changes a session becomes
// entries saved in ONE transaction; until it completes they are "saving", never "kept". A failed save is said at
// once, keeps the entries in memory, is retried (on a timer and on request), and the session can still be exported.
// Works natively against any Store and Host.
#pragma once
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ask.h"
#include "rooms.h"
#include "store.h"
#include "web/words/part.h"

namespace tallyblock {

class App {
 public:
  enum class Phase { loading, ready, unreadable };

  App(Store& store, Host& host);

  // ---- life
  void start();  // loads index, bin, app records, the open session
  void on_commit(std::uint32_t token, StoreStatus status);
  void on_load(std::uint32_t token, StoreStatus status, const std::vector<Record>& records);
  void on_files(std::size_t count);  // so many were picked and come in turn
  void on_file(const std::string& name, const std::string& bytes, bool last_piece);
  void on_protected(bool granted);
  void on_role(bool writer);  // this window has the pen or follows
  void
  begin_in_parts();  // before start(): all parts of the program but the first are still to come
  void on_part(AppPart part);  // it is here, and all before it
  void on_part_failed();       // the next one could not be had; it will be tried again
  void on_store_news(StoreNews news, std::size_t count);
  void on_others_changed();  // another window kept something: reload
  void on_update_waiting();
  void on_offline(bool works);  // whether the app opens without a connection
  void on_hidden();             // flush draft
  void on_shown();
  void on_timer();

  // ---- what is asked for (ask.h)
  void ask(const Asked& asked);
  void begin_frame() { in_frame_ = true; }
  void after_frame();  // does what was asked for meanwhile, in its order

  // ---- what screens read
  Phase phase() const { return phase_; }
  const Keeper& keeper() const { return rooms_.keeper; }
  const Desk& desk() const { return rooms_.desk; }
  const Shelf& shelf() const { return rooms_.shelf; }
  const Keypad& keypad() const { return rooms_.keypad; }
  const Porter& porter() const { return rooms_.porter; }
  const Logbook* log() const { return rooms_.log.get(); }  // null: nobody opened it yet
  const OpenSession* session() const { return rooms_.desk.session(); }
  const Draft& draft() const { return rooms_.keypad.draft; }
  const std::optional<Notice>& notice() const { return rooms_.notices.now; }
  std::int64_t timer_ms() const {
    return rooms_.timer_ms();
  }  // shown labour time of the running timer
  bool timer_doubtful() const;  // the clock jumped while it ran: only what is certain is counted
  std::uint64_t revision() const { return rooms_.revision; }  // grows with every visible change
  // What is known of the page besides.
  struct Page {
    bool update_waiting = false, online_only = false;
    std::optional<bool> is_protected;
    bool adopt_when_kept = false;  // the waiting version
  };
  const Page& page() const { return page_; }
  bool has(AppPart part) const { return part <= here_; }
  bool part_failed() const { return part_failed_; }
  bool waits_for_part() const { return !later_.empty(); }  // something was asked for and put off
  const std::string& opening() const { return opening_; }  // being fetched to be opened, or ""
  void set_scroll(float scroll);                           // kept with the next change

 private:
  using Loaded = Keeper::Loaded;
  using Opened = std::function<void(StoreStatus, const OpenSession&)>;
  // A session as it is stored.
  struct Fetched {
    StoreStatus status = StoreStatus::ok;
    OpenSession session;
  };
  using FetchedSome = std::function<void(std::vector<Fetched>&, bool stale)>;
  // What a start has loaded so far.
  struct Starting {
    std::vector<Record> app, index, bin;
    int waiting = 0;
    StoreStatus status = StoreStatus::ok;
    bool first = true;  // at start, not after another window kept something
  };

  // app_loading.cpp, app.cpp
  void load_everything(bool first);
  void take_part(std::vector<Record>& part, StoreStatus status, const std::vector<Record>& records);
  void take_records();
  void rebuild_index();
  void make_cards_now();
  void take_made(const std::vector<Fetched>& all, bool stale);
  void take_all_entries(const std::vector<Record>& records);
  void resume_session();
  void take_up(const OpenSession& found);
  void reload_open();
  void be_ready();
  void load_failed(StoreStatus status, bool first);
  void failed(StoreStatus status, bool of_draft);
  void fetch(const std::string& session, const Opened& then);
  void fetch_some(const std::vector<std::string>& sessions, const FetchedSome& then);
  void changed() { rooms_.changed(); }
  void run(const Asked& asked);
  // app_parts.cpp; ..._now() is what it says, in a later part
  [[gnu::noinline]] void when_here(AppPart part, std::string_view what, std::function<void()> act);
  void new_session(), load_sample(bool of_log), stop_import(), export_backup(), undo();
  void same_again(const std::string& session);
  void export_session(const std::string& session, bool with_names);
  void share_picture(bool of_list, bool with_people);
  void read_log();
  void set_line(const std::string& session, const std::string& line, bool start);
  void new_session_now();
  void same_again_now(const std::string& session);
  void load_sample_now(bool of_log);
  void taken_away_now(std::size_t count);
  void stop_import_now();
  void export_session_now(const std::string& session, bool with_names);
  void export_backup_now();
  void share_picture_now(bool of_list, bool with_people);
  void on_file_now(const std::string& name, const std::string& bytes, bool last_piece);
  void undo_now();
  void read_log_now();
  void make_log_now();
  void set_line_now(const std::string& session, const std::string& line, bool start);
  void rebuild_from(std::vector<Record> all);
  void rebuild_from_now(const std::vector<Record>& all);
  void go_on_in_background();
  void import_next();
  void make_cards();
  void make_log();
  void look_at_log();
  void fetch_now(const std::string& session, Opened then);
  // app_sessions.cpp, app_files.cpp
  void open(const std::string& session);
  void retry_save();
  void adopt_update();
  void offer(const OpenSession& session, bool with_names);
  void import_next_now();
  void import_batch(std::vector<SessionFile>& files, std::vector<Fetched>& here, bool stale);

  Rooms rooms_;
  Phase phase_ = Phase::loading;
  Page page_;
  std::string opening_;
  std::unique_ptr<Starting> starting_;
  bool reload_due_ = false;  // another window's changes could not be read yet
  bool in_frame_ = false;
  std::vector<Asked> asked_;      // in the frame that is being drawn
  AppPart here_ = kParts.back();  // the last one that is here
  bool part_failed_ = false;
  struct Later {
    AppPart part;
    std::string what;
    std::function<void()> act;
  };
  std::vector<Later> later_;  // put off until its part is here
};

}  // namespace tallyblock
