// The app without its pixels: what is open, what was entered, what is kept, what can be done.
//
// Screens read App and call its acts; they hold no state of their own. Every act that changes a
// session becomes entries saved in ONE transaction; until it completes they are "saving", never
// "kept". A failed save is said at once, keeps the entries in memory, is retried (on a timer and on
// request), and the session can still be exported. Works natively against any Store and Host.
//
// The keypad and the screens: digits half typed into a field that is left are put aside (Draft.aside)
// and are there again when the keypad comes back to it. Leaving the weighing screen takes the keypad
// off its field, coming back restores it. So a screen shows the keypad exactly when draft().field.kind
// is not none.
//
// A notice and its undo belong to the piece they are about, or to the list of pieces: they leave with it.
#pragma once
#include <cstdint>
#include <deque>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "acts.h"
#include "app_parts.h"
#include "cards.h"
#include "core/entries/codec.h"
#include "core/entries/entry_set.h"
#include "core/session/session.h"
#include "cutting_acts.h"
#include "draft.h"
#include "host.h"
#include "importing.h"
#include "store.h"

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

  // ---- what screens read
  Phase phase() const { return phase_; }
  StoreStatus trouble() const { return trouble_; }  // why saving fails, ok if it does not
  const std::vector<SessionCard>& cards() const { return cards_; }  // newest first, without the bin
  std::vector<SessionCard> binned() const;
  const OpenSession* session() const { return open_.get(); }
  const Draft& draft() const { return draft_; }
  const AppSettings& settings() const { return settings_; }
  SaveState save_state() const;
  bool is_kept(const EntryId& id) const;  // its transaction completed
  std::size_t unsaved() const;            // entries not yet kept
  bool is_writer() const { return writer_; }
  bool has(AppPart part) const { return part <= here_; }
  bool part_failed() const { return part_failed_; }
  bool waits_for_part() const { return !later_.empty(); }  // something was asked for and put off
  bool online_only() const { return online_only_; }
  bool update_waiting() const { return update_waiting_; }
  std::optional<bool> is_protected() const { return protected_; }
  const std::optional<Notice>& notice() const { return notice_; }
  const std::optional<Problem>& field_problem() const { return field_problem_; }  // of the digits
  std::int64_t timer_ms() const;  // shown labour time of the running timer
  bool timer_doubtful() const;    // the clock jumped while it ran: only what is certain is counted
  std::uint64_t revision() const { return revision_; }  // grows with every visible change
  std::string field_unit() const;  // behind the digits: "g", "EUR per kg", "%", "min", "C"
  bool field_is_weight() const;    // its unit can be chosen
  EntryId person() const;          // who is cutting from now on; empty if nobody was named
  const std::string& opening() const { return opening_; }  // being fetched to be opened, or ""

  // ---- going about
  void go(Screen screen);
  void open_panel(const std::string& panel);  // "" closes
  void select(const std::string& entry);      // "" clears
  void set_scroll(float scroll);
  void dismiss_notice();

  // ---- typing (the keypad). key: "0".."9", ".", "space", "/", "lb", "oz", "minus", "back", "clear".
  void edit(const Field& field);  // puts the keypad on a field
  void key(const std::string& key);
  void enter();                            // commits the digits to the field, or says why not
  void set_unit(const std::string& unit);  // of the digits; typed digits stay
  void set_habit(const std::string& habit);
  void set_count(unsigned count);  // pieces on the scale; also of the reading that is typed anew
  // What is being asked: how many pieces the weight last entered looks like, else 0; whether it is right.
  unsigned asked_count() const { return asked_count_; }
  const std::optional<AskedWeight>& asked_weight() const { return asked_weight_; }
  void answer_weight(const std::string& digits);  // those typed: they are right
  void set_tub(const std::string& tub);
  void choose_pile(const std::string& pile);  // weighs the digits into it; none: chooses it
  // Names and notes, through a real input. id: "piece", "pile:<key>", "note", "person", "lot:<field>",
  // "specification", "tub:<key>", "currency", ... ; done: leave the field and save.
  void text_changed(const std::string& id, const std::string& text);
  void text_done(const std::string& id);
  std::string text_of(const std::string& id) const;  // half typed if any, else the saved value

  // ---- acts on sessions
  void new_session();                           // empty, with default piles and settings
  void same_again(const std::string& session);  // its piles with their keys, piece, prices, target
  void open(const std::string& session);
  void put_in_bin(const std::string& session);  // undo stands in the notice
  void take_from_bin(const std::string& session);
  void erase(const std::string& session);  // from the bin, for good
  void load_sample();
  void remove_sample();

  // ---- acts on the open session
  void add_pile(Role role, const std::string& name, const std::string& use, bool main = false);
  void set_pile_role(const std::string& pile, Role role);
  void set_by_difference(const std::string& pile, bool on);
  void void_entry(const EntryId& id);
  void restore_entry(const EntryId& id);  // voids the voids
  void move_reading(const EntryId& id, const std::string& to_pile);
  void undo();  // the last act of this window, by voiding
  void add_tub(const std::string& name);
  void break_down(const std::string& pile, const std::string& name, Process process);
  void set_quality(const std::string& check, bool pass);
  void set_session_setting(const std::string& key, const std::string& value);
  void set_person(const EntryId& person);       // who is cutting from now on
  void take_out_step(const std::string& step);  // with its piles and readings, one undo
  void usual_tolerance(const std::string& pile);
  bool keep_minutes(bool instead);  // those typed: of all there were before, or on top of them
  void timer_start();
  void timer_pause();  // pausing keeps the measured time as a labour entry

  // ---- where to put the knife (app_cutting.cpp); all in the step "main"
  std::string ruler() const;  // of the session, "mm", "cm" or "in"
  LengthUnit ruler_unit() const;
  std::vector<StationLine> stations() const;  // along the piece, those that count
  std::string open_end() const;  // the length as typed while the far end is not measured, else ""
  void same_all_along();         // the far end is like the last place measured
  void set_face_fill(const std::string& percent, const std::string& name);  // of all stations
  void set_long_pieces(unsigned k);                            // 0: as many as are best
  void follow(Followed f) { followed_ = std::move(f); }        // said before the block is weighed
  void score_marks(const std::string& of, std::string marks);  // none: they are given up
  void trim_block(const EntryId& block, Mass target, const std::string& pile);  // into the pile
  void begin_cutting();  // takes along what the person's newest session showed, unless it has begun
  void learned(const CookRecord& record);  // by blocks; after one it is kept for later sessions
  void close_cut(const EntryId& cut);      // no more portions come of it
  void reopen_cut(const EntryId& cut);     // more come after all
  void cut_long_piece(const std::string& key);  // the next blocks are of this one, "" the piece
  void split_first();                           // not sliced first after all
  void take_out_long_piece(const std::string& key);

  // ---- settings and files
  void caution_read();
  void set_setting(const std::string& key, const std::string& value);
  void export_session(const std::string& session, bool with_names);
  void export_backup();
  void import_file();     // asks for a file
  void stop_import();     // what is not imported yet is not wanted any more
  void forget_refused();  // the list of files that were refused has been read
  const Importing& importing() const { return in_; }
  void protect();       // ask the browser to keep the data
  void adopt_update();  // refused with a notice while anything is unsaved
  void retry_save();
  void take_over();  // take the pen from another window

 private:
  using Loaded = std::function<void(StoreStatus, const std::vector<Record>&)>;
  using Opened = std::function<void(StoreStatus, const OpenSession&)>;
  using FetchedSome = std::function<void(std::vector<Fetched>&, bool stale)>;

  // app_loading.cpp, app.cpp
  void load_everything(bool first);
  void load(Area area, const std::string& prefix, Loaded then);
  void take_part(std::vector<Record>& part, StoreStatus status, const std::vector<Record>& records);
  void take_records();
  void take_app_records(const Starting& start);
  bool take_cards(const Starting& start);
  void rebuild_index();
  void make_cards_now();
  void take_made(const std::vector<Fetched>& all, bool stale);
  void take_all_entries(const std::vector<Record>& records);
  void resume_session();
  void be_ready();
  std::vector<Record> with_pending(Area area, const std::string& prefix,
                                   std::vector<Record> records) const;
  void fetch(const std::string& session, const Opened& then);
  void fetch_some(const std::vector<std::string>& sessions, const FetchedSome& then);
  void show_session(OpenSession session);
  void leave_session();
  void going_on();            // what was only said, and offers nothing, has been read
  std::string place() const;  // the open session on its screens, else ""
  void leave_place();         // its notice waits
  void come_to_place();
  void put_aside();  // the digits of the present field
  void take_up();    // those put aside for it
  void changed() { ++revision_; }
  void changed_draft();  // visible, and to be kept
  // app_parts.cpp; ..._now() is what it says, in a later part
  [[gnu::noinline]] void when_here(AppPart part, std::string_view what, std::function<void()> act);
  void new_session_now();
  void same_again_now(const std::string& session);
  void load_sample_now();
  void taken_away_now(std::size_t count);
  void stop_import_now();
  void export_session_now(const std::string& session, bool with_names);
  void export_backup_now();
  void on_file_now(const std::string& name, const std::string& bytes, bool last_piece);
  void undo_now();
  void rebuild_from(std::vector<Record> all);
  void rebuild_from_now(const std::vector<Record>& all);
  void go_on_in_background();
  void import_next();
  void make_cards();
  void fetch_now(const std::string& session, Opened then);
  // app_saving.cpp
  std::string_view why_not() const;
  bool may_act();
  bool may_write();
  void tell(std::string key, std::vector<std::string> args = {}, bool can_undo = false);
  void tell_error(std::string key, std::vector<std::string> args = {});
  void enqueue(Act act);
  void send();
  void failed(StoreStatus status, bool of_draft);
  void load_failed(StoreStatus status, bool first);
  void write_all_again();
  void arm();
  Writing writing() const;
  Writing writing_into(const OpenSession& session) const;
  Stamp stamp_in(const OpenSession& session) const;
  // `after` changes the draft once the entries are in, so that both are kept together.
  bool put(Writing writing, Notice notice, const std::function<void()>& after = {});
  void put_into(OpenSession& session, const std::vector<Entry>& made, Act& act);
  void put_card(const SessionCard& card, Act& act);
  // app_typing.cpp, app_fields.cpp
  bool commit_field();
  bool commit_nothing() { return false; }
  std::string pile_name(const std::string& key) const;
  bool commit_reading(), commit_anew();
  bool asks_count(const body::Reading& reading);
  unsigned looks_like(const body::Reading& reading) const;
  bool holds_its_tub(const body::Reading& reading);
  void fill_next(const std::string& pile);
  bool weighed_in_tub(const std::string& pile, const std::string& tub) const;
  bool commit_incoming(), commit_remainder(), commit_checkpoint(), commit_division();
  bool commit_tub_tare(), commit_step_weight(), commit_transfer(), commit_target(),
      commit_tolerance();
  bool takes_too_much(const std::string& key, const TypedMass& mass, Process process,
                      const std::string& but);
  // app_money.cpp
  bool commit_price(), commit_new_price(), commit_loss_limit();
  bool commit_ready_cut_yield(), commit_ready_cut_pieces(), commit_ready_cut_piece();
  bool commit_wage(), commit_minutes(), commit_temperature(), commit_eye_call();
  bool commit_default_wage(), commit_default_loss_limit(), commit_default_division();
  bool keep_default(AppSettings next);
  std::optional<TypedNumber> typed_amount(), typed_share();
  std::optional<body::Price> ready_cut_now();  // to be changed; none: that is said
  // app_cutting.cpp
  body::PlanLimits limits_now() const;
  Result<TypedLength> typed_length() const;
  std::string person_shown() const;
  bool commit_length(), commit_piece_length();
  bool commit_depth(const std::string& place), commit_limit(const std::string& limit);
  bool commit_wanted(), commit_long_piece(), commit_block();
  bool asks_weight(const TypedMass& mass, unsigned count);
  void forget_asked();
  void ask_next(const std::string& subject);
  std::vector<EntryId> all_of(const Body& body) const;
  bool refuse(Problem problem);
  template <class Value>
  std::optional<Value> accepted(Result<Value> result) {  // else its problem is said
    if (result) return std::move(result.value());
    refuse(result.problem());
    return std::nullopt;
  }
  std::optional<TypedMass> typed_mass(Sign sign), typed_mass();  // of the sign its field takes
  std::string label() const;                                     // of the field
  std::string where_typed() const { return std::string(name_of(draft_.field.kind)); }
  bool put_fact(Body body, const std::string& label, const std::string& value);
  bool put_fact(Body body, const std::string& value);  // of the field
  void after_field();
  std::vector<EntryId> live_of(const Body& body) const;
  template <class B>
  const B* latest(const Body& like) const;
  std::vector<EntryId> uncovered_of(const std::string& pile, const std::string& tub) const;
  void go_to_default_field();
  // app_text.cpp
  std::string saved_text(const std::string& id) const;
  bool save_text(const std::string& id, const std::string& text);
  bool save_named(const std::string& kind, const std::string& key, const std::string& text);
  void write_named(const std::string& kind, const std::string& key, const std::string& text,
                   Writing& writing) const;
  void rewrite_text(const std::string& kind, const EntryId& id, const std::string& text,
                    Writing& writing) const;
  void clear_text();
  // app_acts.cpp, app_marks.cpp
  void begin_session(OpenSession session, const Writing& writing, const std::string& notice);
  void copy_into(const OpenSession& from, Writing& to) const;
  void name_person(Writing& writing);
  void pause_before_leaving();
  void watch_timer();
  std::string fresh_pile_key(std::string_view use, const std::string& name) const;
  void leave_gone_tub();
  bool void_all(const std::vector<EntryId>& ids, Notice notice, bool undoable);
  bool set_or_usual(Writing& writing, const std::string& key, const std::string& value,
                    const std::string& usual);
  std::string begin_settings(Writing& writing);  // names those that could not be used
  std::vector<EntryId> all_of_step(const std::string& step) const;
  std::vector<EntryId> with_what_it_replaced(const EntryId& id) const;
  std::vector<EntryId> trims_of(const EntryId& id) const;
  void set_bin(const std::string& session, bool binned, Act& act);
  void drop(const std::string& session, Act& act);
  Op settings_op() const;
  [[gnu::noinline]] bool valid_setting(const std::string& key, const std::string& value);
  // app_files.cpp, app_import.cpp
  void offer(const OpenSession& session, bool with_names);
  void take_piece(IncomingFile& file, const std::string& name, const std::string& bytes, bool last);
  std::vector<Result<SessionFile>> read_piece(IncomingFile& file, const std::string& bytes);
  std::size_t take_sessions(std::vector<Result<SessionFile>> sessions, const std::string& name);
  void end_file(IncomingFile& file, const std::string& name);
  void refuse_file(const std::string& name, const Problem& problem);
  void note_refused(const std::string& sentence);
  void refused(const std::string& sentence);
  void import_next_now();
  void import_batch(std::vector<SessionFile>& files, std::vector<Fetched>& here, bool stale);
  void import_into(OpenSession session, const SessionFile& file, Act& act);
  std::vector<Entry> missing_here(OpenSession& session, const SessionFile& file, Act& act);
  Notice import_notice() const;
  void tell_import();

  Store& store_;
  Host& host_;
  Phase phase_ = Phase::loading;
  StoreStatus trouble_ = StoreStatus::ok;
  std::vector<SessionCard> cards_;  // without the bin
  std::vector<SessionCard> binned_;
  std::map<std::string, std::int64_t> bin_;
  std::vector<std::string> erased_;  // ids erased for good, to say so when they come back
  std::unique_ptr<OpenSession> open_;
  std::string opening_;
  Draft draft_;
  AppSettings settings_;
  bool writer_ = true, update_waiting_ = false;
  std::optional<bool> protected_;
  std::optional<Notice> notice_;
  std::optional<Problem> field_problem_;
  std::uint64_t revision_ = 0;
  AppPart here_ = kParts.back();  // the last one that is here
  bool part_failed_ = false;
  std::vector<Later> later_;  // put off until its part is here
  // saving
  std::string writer_id_;
  std::uint32_t last_token_ = 0;
  std::map<std::uint32_t, Loaded> loads_;
  std::deque<Act> queue_;
  std::uint64_t acts_ = 0;         // so far
  std::set<std::string> unsaved_;  // "<session>/<entry id>" of all entries in the queue
  std::uint32_t in_flight_ = 0;    // token, 0: none
  bool draft_in_flight_ = false;
  bool draft_dirty_ = false;
  bool holding_ = false;  // an act is being put together: its draft goes with it
  bool adopt_when_kept_ = false;
  bool anything_kept_ = false;  // by this window since the start
  bool memory_only_ = false;    // this browser keeps nothing
  bool reload_due_ = false;     // another window's changes could not be read yet
  int attempts_ = 0;
  std::optional<std::int64_t> retry_at_;  // monotonic
  std::unique_ptr<Starting> starting_;
  bool online_only_ = false, newer_ = false;  // stored by a later version: read, never written
  std::int64_t timer_seen_ms_ = 0;  // monotonic: this window knows of the running timer since then
  bool timer_told_ = false;         // that the clock jumped
  std::vector<UndoStep> undo_;      // of the open session
  std::map<std::string, Waiting> waits_;  // by place
  unsigned asked_count_ = 0;              // of the weight being typed, like the next two
  std::optional<AskedWeight> asked_weight_;
  bool count_said_ = false, weight_sure_ = false;
  std::optional<Followed> followed_;
  bool block_made_ = false;  // since learned() was told
  // files
  Importing in_;
  Remaking remake_;  // cards to be made again
};

}  // namespace tallyblock
