#include "ask.h"

#include <string_view>

#include "app.h"
#include "web/app/desk/line_of.h"

namespace tallyblock::ask {

namespace {

using What = Asked::What;

void put(App& app, What what, std::string_view one = {}, std::string_view two = {},
         std::string_view three = {}, std::int64_t number = 0, double grams = 0.0) {
  app.ask({what, std::string(one), std::string(two), std::string(three), number, grams});
}

}  // namespace

void go(App& app, Screen screen) { put(app, What::go, {}, {}, {}, static_cast<int>(screen)); }
void open_panel(App& app, const std::string& panel) { put(app, What::open_panel, panel); }
void select(App& app, const std::string& entry) { put(app, What::select, entry); }
void dismiss_notice(App& app) { put(app, What::dismiss_notice); }
void undo(App& app) { put(app, What::undo); }
void edit(App& app, const Field& field) {
  put(app, What::edit, field.subject, {}, {}, static_cast<int>(field.kind));
}
void key(App& app, const std::string& key) { put(app, What::key, key); }
void enter(App& app) { put(app, What::enter); }
void set_unit(App& app, const std::string& unit) { put(app, What::set_unit, unit); }
void set_habit(App& app, const std::string& habit) { put(app, What::set_habit, habit); }
void set_count(App& app, unsigned count) { put(app, What::set_count, {}, {}, {}, count); }
void answer_weight(App& app, const std::string& digits) { put(app, What::answer_weight, digits); }
void set_tub(App& app, const std::string& tub) { put(app, What::set_tub, tub); }
void choose_pile(App& app, const std::string& pile) { put(app, What::choose_pile, pile); }
void text_changed(App& app, const std::string& id, const std::string& text) {
  put(app, What::text_changed, id, text);
}
void text_done(App& app, const std::string& id) { put(app, What::text_done, id); }
void new_session(App& app) { put(app, What::new_session); }
void same_again(App& app, const std::string& session) { put(app, What::same_again, session); }
void open(App& app, const std::string& session) { put(app, What::open, session); }
void put_in_bin(App& app, const std::string& session) { put(app, What::put_in_bin, session); }
void take_from_bin(App& app, const std::string& session) { put(app, What::take_from_bin, session); }
void erase(App& app, const std::string& session) { put(app, What::erase, session); }
void load_sample(App& app, bool of_log) { put(app, What::load_sample, {}, {}, {}, of_log); }
void remove_sample(App& app) { put(app, What::remove_sample); }
void add_pile(App& app, Role role, const std::string& name, const std::string& use, bool main) {
  put(app, What::add_pile, name, use, main ? kMainStep : "", static_cast<int>(role));
}
void set_pile_role(App& app, const std::string& pile, Role role) {
  put(app, What::set_pile_role, pile, {}, {}, static_cast<int>(role));
}
void set_by_difference(App& app, const std::string& pile, bool on) {
  put(app, What::set_by_difference, pile, {}, {}, on);
}
void void_entry(App& app, const EntryId& id) { put(app, What::void_entry, to_text(id)); }
void restore_entry(App& app, const EntryId& id) { put(app, What::restore_entry, to_text(id)); }
void use_set(App& app, const std::string& set) { put(app, What::use_set, set); }
void move_reading(App& app, const EntryId& id, const std::string& to_pile) {
  put(app, What::move_reading, to_text(id), to_pile);
}
void add_tub(App& app, const std::string& name) { put(app, What::add_tub, name); }
void break_down(App& app, const std::string& pile, const std::string& name, Process process) {
  put(app, What::break_down, pile, name, {}, static_cast<int>(process));
}
void set_quality(App& app, const std::string& check, bool pass) {
  put(app, What::set_quality, check, {}, {}, pass);
}
void set_session_setting(App& app, const std::string& key, const std::string& value) {
  put(app, What::set_session_setting, key, value);
}
void set_person(App& app, const EntryId& person) { put(app, What::set_person, to_text(person)); }
void take_out_step(App& app, const std::string& step) { put(app, What::take_out_step, step); }
void usual_tolerance(App& app, const std::string& pile) { put(app, What::usual_tolerance, pile); }
void keep_minutes(App& app, bool instead) { put(app, What::keep_minutes, {}, {}, {}, instead); }
void timer_start(App& app) { put(app, What::timer_start); }
void timer_pause(App& app) { put(app, What::timer_pause); }
void same_all_along(App& app) { put(app, What::same_all_along); }
void set_face_fill(App& app, const std::string& percent, const std::string& name) {
  put(app, What::set_face_fill, percent, name);
}
void set_long_pieces(App& app, unsigned k) { put(app, What::set_long_pieces, {}, {}, {}, k); }
void score_marks(App& app, const std::string& of, const std::string& marks) {
  put(app, What::score_marks, of, marks);
}
void trim_block(App& app, const EntryId& block, Mass target, const std::string& pile) {
  put(app, What::trim_block, to_text(block), pile, {}, 0, target.in_grams());
}
void begin_cutting(App& app) { put(app, What::begin_cutting); }
void close_cut(App& app, const EntryId& cut) { put(app, What::close_cut, to_text(cut)); }
void reopen_cut(App& app, const EntryId& cut) { put(app, What::reopen_cut, to_text(cut)); }
void cut_long_piece(App& app, const std::string& key) { put(app, What::cut_long_piece, key); }
void split_first(App& app) { put(app, What::split_first); }
void take_out_long_piece(App& app, const std::string& key) {
  put(app, What::take_out_long_piece, key);
}
void caution_read(App& app) { put(app, What::caution_read); }
void set_setting(App& app, const std::string& key, const std::string& value) {
  put(app, What::set_setting, key, value);
}
void export_session(App& app, const std::string& session, bool with_names) {
  put(app, What::export_session, session, {}, {}, with_names);
}
void export_backup(App& app) { put(app, What::export_backup); }
void read_log(App& app) { put(app, What::read_log); }
void set_line(App& app, const std::string& session, const std::string& line, bool start) {
  put(app, What::set_line, session, line, {}, start);
}
void share_picture(App& app, bool of_list, bool with_people) {
  put(app, What::share_picture, of_list ? "list" : "", {}, {}, with_people);
}
void import_file(App& app) { put(app, What::import_file); }
void stop_import(App& app) { put(app, What::stop_import); }
void forget_refused(App& app) { put(app, What::forget_refused); }
void protect(App& app) { put(app, What::protect); }
void adopt_update(App& app) { put(app, What::adopt_update); }
void retry_save(App& app) { put(app, What::retry_save); }
void take_over(App& app) { put(app, What::take_over); }
void start_again(App& app) { put(app, What::start_again); }

}  // namespace tallyblock::ask
