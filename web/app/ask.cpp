#include "ask.h"

#include <utility>

#include "app.h"
#include "web/app/desk/line_of.h"

namespace tallyblock::ask {

using What = Asked::What;

void go(App& app, Screen screen) { app.ask({What::go, {}, {}, {}, static_cast<int>(screen)}); }
void open_panel(App& app, const std::string& panel) { app.ask({What::open_panel, panel}); }
void select(App& app, const std::string& entry) { app.ask({What::select, entry}); }
void dismiss_notice(App& app) { app.ask({What::dismiss_notice}); }
void undo(App& app) { app.ask({What::undo}); }
void edit(App& app, const Field& field) {
  app.ask({What::edit, field.subject, {}, {}, static_cast<int>(field.kind)});
}
void key(App& app, const std::string& key) { app.ask({What::key, key}); }
void enter(App& app) { app.ask({What::enter}); }
void set_unit(App& app, const std::string& unit) { app.ask({What::set_unit, unit}); }
void set_habit(App& app, const std::string& habit) { app.ask({What::set_habit, habit}); }
void set_count(App& app, unsigned count) { app.ask({What::set_count, {}, {}, {}, count}); }
void answer_weight(App& app, const std::string& digits) { app.ask({What::answer_weight, digits}); }
void set_tub(App& app, const std::string& tub) { app.ask({What::set_tub, tub}); }
void choose_pile(App& app, const std::string& pile) { app.ask({What::choose_pile, pile}); }
void text_changed(App& app, const std::string& id, const std::string& text) {
  app.ask({What::text_changed, id, text});
}
void text_done(App& app, const std::string& id) { app.ask({What::text_done, id}); }
void new_session(App& app) { app.ask({What::new_session}); }
void same_again(App& app, const std::string& session) { app.ask({What::same_again, session}); }
void open(App& app, const std::string& session) { app.ask({What::open, session}); }
void put_in_bin(App& app, const std::string& session) { app.ask({What::put_in_bin, session}); }
void take_from_bin(App& app, const std::string& session) {
  app.ask({What::take_from_bin, session});
}
void erase(App& app, const std::string& session) { app.ask({What::erase, session}); }
void load_sample(App& app) { app.ask({What::load_sample}); }
void remove_sample(App& app) { app.ask({What::remove_sample}); }
void add_pile(App& app, Role role, const std::string& name, const std::string& use, bool main) {
  app.ask({What::add_pile, name, use, main ? kMainStep : "", static_cast<int>(role)});
}
void set_pile_role(App& app, const std::string& pile, Role role) {
  app.ask({What::set_pile_role, pile, {}, {}, static_cast<int>(role)});
}
void set_by_difference(App& app, const std::string& pile, bool on) {
  app.ask({What::set_by_difference, pile, {}, {}, on});
}
void void_entry(App& app, const EntryId& id) { app.ask({What::void_entry, to_text(id)}); }
void restore_entry(App& app, const EntryId& id) { app.ask({What::restore_entry, to_text(id)}); }
void move_reading(App& app, const EntryId& id, const std::string& to_pile) {
  app.ask({What::move_reading, to_text(id), to_pile});
}
void add_tub(App& app, const std::string& name) { app.ask({What::add_tub, name}); }
void break_down(App& app, const std::string& pile, const std::string& name, Process process) {
  app.ask({What::break_down, pile, name, {}, static_cast<int>(process)});
}
void set_quality(App& app, const std::string& check, bool pass) {
  app.ask({What::set_quality, check, {}, {}, pass});
}
void set_session_setting(App& app, const std::string& key, const std::string& value) {
  app.ask({What::set_session_setting, key, value});
}
void set_person(App& app, const EntryId& person) { app.ask({What::set_person, to_text(person)}); }
void take_out_step(App& app, const std::string& step) { app.ask({What::take_out_step, step}); }
void usual_tolerance(App& app, const std::string& pile) { app.ask({What::usual_tolerance, pile}); }
void keep_minutes(App& app, bool instead) { app.ask({What::keep_minutes, {}, {}, {}, instead}); }
void timer_start(App& app) { app.ask({What::timer_start}); }
void timer_pause(App& app) { app.ask({What::timer_pause}); }
void same_all_along(App& app) { app.ask({What::same_all_along}); }
void set_face_fill(App& app, const std::string& percent, const std::string& name) {
  app.ask({What::set_face_fill, percent, name});
}
void set_long_pieces(App& app, unsigned k) { app.ask({What::set_long_pieces, {}, {}, {}, k}); }
void score_marks(App& app, const std::string& of, const std::string& marks) {
  app.ask({What::score_marks, of, marks});
}
void trim_block(App& app, const EntryId& block, Mass target, const std::string& pile) {
  app.ask({What::trim_block, to_text(block), pile, {}, 0, target.in_grams()});
}
void begin_cutting(App& app) { app.ask({What::begin_cutting}); }
void close_cut(App& app, const EntryId& cut) { app.ask({What::close_cut, to_text(cut)}); }
void reopen_cut(App& app, const EntryId& cut) { app.ask({What::reopen_cut, to_text(cut)}); }
void cut_long_piece(App& app, const std::string& key) { app.ask({What::cut_long_piece, key}); }
void split_first(App& app) { app.ask({What::split_first}); }
void take_out_long_piece(App& app, const std::string& key) {
  app.ask({What::take_out_long_piece, key});
}
void caution_read(App& app) { app.ask({What::caution_read}); }
void set_setting(App& app, const std::string& key, const std::string& value) {
  app.ask({What::set_setting, key, value});
}
void export_session(App& app, const std::string& session, bool with_names) {
  app.ask({What::export_session, session, {}, {}, with_names});
}
void export_backup(App& app) { app.ask({What::export_backup}); }
void import_file(App& app) { app.ask({What::import_file}); }
void stop_import(App& app) { app.ask({What::stop_import}); }
void forget_refused(App& app) { app.ask({What::forget_refused}); }
void protect(App& app) { app.ask({What::protect}); }
void adopt_update(App& app) { app.ask({What::adopt_update}); }
void retry_save(App& app) { app.ask({What::retry_save}); }
void take_over(App& app) { app.ask({What::take_over}); }
void start_again(App& app) { app.ask({What::start_again}); }

}  // namespace tallyblock::ask
