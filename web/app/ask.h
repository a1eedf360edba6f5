// What may be asked of the app, by screens and by tests: each is done at once, or after the frame in whose
// midst it was asked for. Nothing is answered: what came of it stands in the rooms.
//
// To add one: a row of TALLYBLOCK_ASKS and its function here, what it says in ask.cpp, and what is done in
// doing_piece.cpp or doing_typed.cpp.
#pragma once
#include <cstdint>
#include <string>

#include "core/entries/entry.h"
#include "web/app/keypad/draft.h"

namespace tallyblock {

class App;
struct Rooms;

// Done by the part of the program that is there from the start.
// clang-format off
#define TALLYBLOCK_ASKS_OF_LIST(X) \
  X(go) X(open_panel) X(dismiss_notice) X(undo) X(new_session) X(same_again) X(open) \
  X(put_in_bin) X(take_from_bin) X(load_sample) X(remove_sample) X(caution_read) \
  X(export_session) X(export_backup) X(share_picture) X(read_log) X(set_line) X(import_file) X(stop_import) X(forget_refused) X(protect) \
  X(adopt_update) X(retry_save) X(take_over) X(start_again)
// Done by void NAME(Rooms&, const Asked&) in namespace `doing`.
#define TALLYBLOCK_ASKS(X) \
  X(select) X(edit) X(key) X(enter) X(set_unit) X(set_habit) X(set_count) X(answer_weight) \
  X(set_tub) X(choose_pile) X(text_changed) X(text_done) X(erase) X(add_pile) X(use_set) X(set_pile_role) \
  X(set_by_difference) X(void_entry) X(restore_entry) X(move_reading) X(add_tub) X(break_down) \
  X(set_quality) X(set_session_setting) X(set_person) X(take_out_step) X(usual_tolerance) \
  X(keep_minutes) X(timer_start) X(timer_pause) X(same_all_along) X(set_face_fill) \
  X(set_long_pieces) X(score_marks) X(trim_block) X(begin_cutting) X(close_cut) X(reopen_cut) \
  X(cut_long_piece) X(split_first) X(take_out_long_piece) X(set_setting)
// clang-format on

// One thing asked for, until it is done.
struct Asked {
  enum class What {
#define TALLYBLOCK_ASK(name) name,
    TALLYBLOCK_ASKS_OF_LIST(TALLYBLOCK_ASK) TALLYBLOCK_ASKS(TALLYBLOCK_ASK)
#undef TALLYBLOCK_ASK
  };
  What what;
  std::string one = {}, two = {}, three = {};  // keys, ids, texts
  std::int64_t number = 0;                     // counts, choices
  double grams = 0.0;
};

// Does what needs a piece or the keypad.
void do_asked(Rooms& rooms, const Asked& asked);

namespace ask {

// ---- going about
void go(App& app, Screen screen);
void open_panel(App& app, const std::string& panel);  // "" closes
void select(App& app, const std::string& entry);      // "" clears
void dismiss_notice(App& app);
void undo(App& app);  // the last act of this window, by voiding

// ---- typing (the keypad). key: "0".."9", ".", "space", "/", "lb", "oz", "minus", "back", "clear".
void edit(App& app, const Field& field);  // puts the keypad on a field
void key(App& app, const std::string& key);
void enter(App& app);  // commits the digits to the field, or says why not
void set_unit(App& app, const std::string& unit);  // of the digits; typed digits stay
void set_habit(App& app, const std::string& habit);
void set_count(App& app,
               unsigned count);  // pieces on the scale; also of the reading that is typed anew
void answer_weight(App& app, const std::string& digits);  // those typed: they are right
void set_tub(App& app, const std::string& tub);
void choose_pile(App& app, const std::string& pile);  // weighs the digits into it; none: chooses it
// Names and notes, through a real input. Ids: acts_of_names.h; done: leave the field and save.
void text_changed(App& app, const std::string& id, const std::string& text);
void text_done(App& app, const std::string& id);

// ---- sessions
void new_session(App& app);  // empty, with default piles and settings
void same_again(App& app,
                const std::string& session);  // its piles with their keys, piece, prices, target
void open(App& app, const std::string& session);
void put_in_bin(App& app, const std::string& session);  // undo stands in the notice
void take_from_bin(App& app, const std::string& session);
void erase(App& app, const std::string& session);  // from the bin, for good
void load_sample(App& app, bool of_log = false);   // or its second part, for the log
void remove_sample(App& app);

// ---- the open session
void add_pile(App& app, Role role, const std::string& name, const std::string& use,
              bool main = false);
void use_set(App& app, const std::string& set);  // its piles (defaults.h)
void set_pile_role(App& app, const std::string& pile, Role role);
void set_by_difference(App& app, const std::string& pile, bool on);
void void_entry(App& app, const EntryId& id);
void restore_entry(App& app, const EntryId& id);  // voids the voids
void move_reading(App& app, const EntryId& id, const std::string& to_pile);
void add_tub(App& app, const std::string& name);
void break_down(App& app, const std::string& pile, const std::string& name, Process process);
void set_quality(App& app, const std::string& check, bool pass);
void set_session_setting(App& app, const std::string& key, const std::string& value);
void set_person(App& app, const EntryId& person);       // who is cutting from now on
void take_out_step(App& app, const std::string& step);  // with its piles and readings, one undo
void usual_tolerance(App& app, const std::string& pile);
void keep_minutes(App& app,
                  bool instead);  // those typed: of all there were before, or on top of them
void timer_start(App& app);
void timer_pause(App& app);  // pausing keeps the measured time as a labour entry

// ---- where to put the knife; all in the step "main"
void same_all_along(App& app);  // the far end is like the last place measured
void set_face_fill(App& app, const std::string& percent,
                   const std::string& name);  // of all stations
void set_long_pieces(App& app, unsigned k);   // 0: as many as are best
void score_marks(App& app, const std::string& of,
                 const std::string& marks);  // none: they are given up
void trim_block(App& app, const EntryId& block, Mass target,
                const std::string& pile);  // into the pile
void begin_cutting(
    App& app);  // takes along what the person's newest session showed, unless it has begun
void close_cut(App& app, const EntryId& cut);   // no more portions come of it
void reopen_cut(App& app, const EntryId& cut);  // more come after all
void cut_long_piece(App& app,
                    const std::string& key);  // the next blocks are of this one, "" the piece
void split_first(App& app);                   // not sliced first after all
void take_out_long_piece(App& app, const std::string& key);

// ---- settings and files
void caution_read(App& app);
void set_setting(App& app, const std::string& key, const std::string& value);
void export_session(App& app, const std::string& session, bool with_names);
void export_backup(App& app);
// Of the open piece, or of the list; people are named in it only if asked for.
void share_picture(App& app, bool of_list, bool with_people);
// ---- the log
void read_log(App& app);  // what is not known of a piece is made, too
// The line of the log that a piece belongs to; `start`: its limits are fixed anew from this piece on.
void set_line(App& app, const std::string& session, const std::string& line, bool start);

void import_file(App& app);     // asks for a file
void stop_import(App& app);     // what is not imported yet is not wanted any more
void forget_refused(App& app);  // the list of files that were refused has been read
void protect(App& app);         // asks the browser to keep the data
void adopt_update(App& app);    // refused with a notice while anything is unsaved
void retry_save(App& app);
void take_over(App& app);    // takes the pen from another window
void start_again(App& app);  // reads all that is stored once more

}  // namespace ask
}  // namespace tallyblock
