// Done when asked for: digits, names, settings for new pieces.
#include <utility>

#include "core/json/json_text.h"
#include "doing.h"
#include "web/app/acts/acts_of_blocks.h"
#include "web/app/acts/acts_of_cutting.h"
#include "web/app/acts/acts_of_money.h"
#include "web/app/acts/acts_of_names.h"
#include "web/app/acts/acts_of_piles.h"
#include "web/app/acts/acts_of_sessions.h"
#include "web/app/acts/work.h"
#include "web/app/desk/tidy.h"
#include "web/words/words.h"

namespace tallyblock::doing {
namespace {

std::string upper(std::string text) {
  for (char& c : text) {
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  }
  return text;
}

Work work(Rooms& r, AppSettings& settings) {
  return {r.desk, r.keypad, settings, r.desk.session() != nullptr ? r.writing() : Writing{},
          r.timer_ms()};
}

std::string saved(const Rooms& r, const std::string& id) {
  return saved_text(r.desk.session(), r.shelf.settings, id);
}

// The digits of a field of the settings for new pieces.
bool keep_default(Rooms& r, AppSettings next) {
  const std::string changed = label_of(r.keypad.draft.field.kind);
  r.shelf.settings = std::move(next);
  r.keypad.after_field(r.desk.session());
  r.tell("notice.setting-changed", {changed});
  r.keep_settings();
  return true;
}

// What the person's cuts have shown is kept with the block, for later sessions.
void learn(Rooms& r, Act& act) {
  const CuttingView* view = r.desk.cutting().main();
  if (view == nullptr) return;
  const OpenSession& open = *r.desk.session();
  const auto shown = learned(open, view->cook, r.keypad.person());
  if (!shown) return;
  r.shelf.learn({cook_named(r), open.id, *shown});
  r.shelf.put_settings(act);
}

// The keypad moves on; after a block it stays for the next one.
bool put_typed(Rooms& r, Made made, const Field& field) {
  auto act = r.enter(std::move(made));
  if (!act) return false;
  if (field.kind == FieldKind::block) {
    r.keypad.take_off();
    r.keypad.forget_asked();
    learn(r, *act);
  } else {
    r.keypad.after_field(r.desk.session());
  }
  if (field.kind == FieldKind::length) {
    const std::string what = parts_of(field.subject).what;
    if (what == "depth" || what == "face-depth") r.keypad.draft.width.clear();
    if (what == "piece" && stations_of(*r.desk.session()).empty()) ask_length(r.keypad, "width:");
  }
  r.keep(*std::move(act));
  return true;
}

}  // namespace

std::string cook_named(const Rooms& r) { return saved(r, "person:" + r.keypad.draft.person); }

bool commit_field(Rooms& r) {
  const Field field = r.keypad.draft.field;
  const KeptIn kept = row_of(field.kind).kept;
  if (kept == KeptIn::settings && !r.may_act()) return false;
  if (kept == KeptIn::session && !r.may_write()) return false;
  AppSettings settings = r.shelf.settings;
  Work w = work(r, settings);
  Made made = taken(w);
  if (kept == KeptIn::settings && !made.problem) return keep_default(r, std::move(settings));
  const bool of_keypad_alone = made.writing.made.empty() && made.notice.key.empty();
  if (of_keypad_alone && !made.problem && !made.writing.problem) {
    r.changed_draft();
    return true;
  }
  return put_typed(r, std::move(made), field);
}

// ---- digits

void edit(Rooms& r, const Asked& asked) {
  const Field field{static_cast<FieldKind>(asked.number), asked.one};
  if (r.keypad.edit(field, r.desk.session(), r.shelf.settings)) r.changed_draft();
}

void key(Rooms& r, const Asked& asked) {
  if (r.keypad.key(asked.one, r.desk)) r.changed_draft();
}

void enter(Rooms& r, const Asked& /*asked*/) {
  if (r.keypad.draft.field.kind == FieldKind::none) return;
  commit_field(r);
  r.changed();
}

void answer_weight(Rooms& r, const Asked& asked) {
  AskedOf& of = r.keypad.asked;
  if (!of.weight) return;
  of.weight_sure = asked.one == of.weight->digits;
  r.keypad.draft.digits = asked.one;
  of.weight.reset();
  enter(r, asked);
}

void set_unit(Rooms& r, const Asked& asked) {
  if (r.keypad.set_unit(asked.one)) r.changed_draft();
}

void set_habit(Rooms& r, const Asked& asked) {
  if (r.keypad.set_habit(asked.one)) r.changed_draft();
}

void set_count(Rooms& r, const Asked& asked) {
  r.keypad.set_count(static_cast<unsigned>(asked.number));
  r.changed_draft();
}

void set_tub(Rooms& r, const Asked& asked) {
  r.keypad.draft.tub = asked.one;
  r.changed_draft();
}

void choose_pile(Rooms& r, const Asked& asked) {
  if (r.desk.session() == nullptr) return;
  Draft& draft = r.keypad.draft;
  if (draft.field.kind == FieldKind::none && draft.screen == Screen::weigh) {
    draft.field = {FieldKind::reading, ""};
  }
  r.keypad.fill_next(asked.one, *r.desk.session());
  r.keypad.problem.reset();
  const bool weighs = draft.field.kind == FieldKind::reading && !draft.digits.empty();
  if (!weighs || !commit_field(r)) r.changed_draft();
}

void keep_minutes(Rooms& r, const Asked& asked) {
  if (r.keypad.draft.field.kind != FieldKind::minutes || !r.may_write()) return;
  const bool instead = asked.number != 0;
  AppSettings settings = r.shelf.settings;
  if (instead && r.timer_ms() > 0) {
    Work before = work(r, settings);
    if (Made made = tallyblock::keep_minutes(before, instead); made.problem) {
      r.refuse(*std::move(made.problem));
      return;
    }
    r.pause_timer();
  }
  Work w = work(r, settings);
  auto act = r.enter(tallyblock::keep_minutes(w, instead));
  if (!act) return;
  if (r.keypad.draft.panel == "minutes") r.keypad.draft.panel.clear();
  r.keypad.after_field(r.desk.session());
  r.keep(*std::move(act));
}

// ---- names

void text_changed(Rooms& r, const Asked& asked) {
  Draft& draft = r.keypad.draft;
  if (text_problem(asked.two)) return;  // not UTF-8: no real input gives that
  if (draft.text_field == asked.one && draft.text == asked.two) return;
  draft.text_field = asked.one;
  draft.text = asked.two;
  r.changed_draft();
}

namespace {

// A pile of one's own, weighed into next; what it counts as can be changed in the details.
void name_new_pile(Rooms& r, const std::string& text) {
  body::Pile pile;
  pile.name = text;
  pile.role = Role::secondary;
  auto act = enter_pile(r, pile);
  if (!act) return;
  r.keypad.draft.panel.clear();
  r.keypad.clear_text();
  r.keep(*std::move(act));
}

// A text that is refused stays half typed.
void save_text(Rooms& r, const std::string& id, const std::string& text) {
  const auto [kind, key] = parts_of(id);
  if (text.size() > most_bytes(id)) return r.tell_error("notice.text-too-long");
  if (kind == "default") return set_setting(r, {Asked::What::set_setting, key, text});
  if (!r.may_write()) return;
  if (kind == "currency") {
    return set_session_setting(r, {Asked::What::set_session_setting, "currency", upper(text)});
  }
  if (kind == "new-pile") return name_new_pile(r, text);
  Made made = name(*r.desk.session(), r.writing(), id, text);
  const bool person = kind == "person" && key.empty() && !made.writing.made.empty();
  const std::string made_id = person ? to_text(made.writing.made.front().id) : "";
  auto act = r.enter(std::move(made));
  if (!act) return;
  if (person) r.keypad.draft.person = made_id;
  r.keypad.clear_text();
  r.keep(*std::move(act));
}

}  // namespace

void text_done(Rooms& r, const Asked& asked) {
  const std::string& id = asked.one;
  const NameParts parts = parts_of(id);
  const Draft& draft = r.keypad.draft;
  const std::string before = saved(r, id);
  const std::string text =
      tidied(draft.text_field == id ? draft.text : before, is_note(parts.what));
  const bool additive = parts.of.empty() && (parts.what == "note" || parts.what == "person" ||
                                             parts.what == "new-pile");
  if (text == before || (additive && text.empty())) {
    if (draft.text_field != id) return;
    r.keypad.clear_text();
    return r.changed_draft();
  }
  save_text(r, id, text);
  r.changed();
}

// ---- settings

void set_session_setting(Rooms& r, const Asked& asked) {
  const std::string &key = asked.one, &value = asked.two;
  if (!r.may_write()) return;
  if (!valid_setting(key, value)) return r.tell_error("notice.setting-refused", {value});
  auto act = r.enter(tallyblock::set_session_setting(*r.desk.session(), r.writing(), key, value));
  if (!act) return;
  if (key == "unit") {
    r.keypad.draft.unit = value;
    r.keypad.draft.units.clear();
  }
  if (r.keypad.draft.text_field == key) r.keypad.clear_text();
  r.keep(*std::move(act));
}

void set_setting(Rooms& r, const Asked& asked) {
  if (!r.may_act()) return;
  const auto next = with_setting(r.shelf.settings, asked.one, asked.two);
  if (!next) return r.tell_error("notice.setting-refused", {asked.two});
  r.shelf.settings = *next;
  if (r.keypad.draft.text_field == "default:" + asked.one) r.keypad.clear_text();
  r.keep_settings();
}

}  // namespace tallyblock::doing
