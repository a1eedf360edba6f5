// Done when asked for: acts on the open session, and on the list besides those that are there from the start.
#include <algorithm>
#include <utility>

#include "doing.h"
#include "web/app/acts/acts_of_blocks.h"
#include "web/app/acts/acts_of_cutting.h"
#include "web/app/acts/acts_of_piles.h"

namespace tallyblock::doing {
namespace {

const OpenSession& open(const Rooms& r) { return *r.desk.session(); }

EntryId id_of(const std::string& text) { return entry_id_from(text).value_or(EntryId{}); }

}  // namespace

void select(Rooms& r, const Asked& asked) {
  if (r.keypad.draft.selected == asked.one) return;
  r.keypad.draft.selected = asked.one;
  r.changed_draft();
}

void erase(Rooms& r, const Asked& asked) {
  if (!r.may_act() || !r.shelf.in_bin(asked.one)) return;
  const std::string title = title_of(r.shelf.binned_card(asked.one));
  Act act;
  r.shelf.erase(asked.one, act);
  act.when_kept = Notice{"notice.erased", {title}, false, false};
  r.keep(std::move(act));
}

// ---- piles

std::optional<Act> enter_pile(Rooms& r, const body::Pile& pile) {
  Made made = tallyblock::add_pile(open(r), r.writing(), pile, r.host.random_id(6));
  std::string key;
  if (!made.writing.made.empty()) {
    key = std::get<body::Pile>(made.writing.made.front().body).key;
  }
  auto act = r.enter(std::move(made));
  if (act) r.desk.undo().back().pile = std::exchange(r.keypad.draft.pile, key);
  return act;
}

void add_pile(Rooms& r, const Asked& asked) {
  if (!r.may_write()) return;
  body::Pile pile;
  pile.name = asked.one;
  pile.use = asked.two;
  pile.role = static_cast<Role>(asked.number);
  const PileFigures* chosen = pile_named(open(r).figures, r.keypad.draft.pile);
  if (chosen != nullptr && asked.three.empty()) pile.step = chosen->step;
  if (auto act = enter_pile(r, pile)) r.keep(*std::move(act));
}

void use_set(Rooms& r, const Asked& asked) {
  if (!r.may_write()) return;
  r.put(tallyblock::use_set(open(r), r.writing(), asked.one));
}

void set_pile_role(Rooms& r, const Asked& asked) {
  if (!r.may_write()) return;
  const Role role = static_cast<Role>(asked.number);
  r.put(tallyblock::set_pile_role(open(r), r.writing(), asked.one, role));
}

void set_by_difference(Rooms& r, const Asked& asked) {
  if (!r.may_write()) return;
  r.put(tallyblock::set_by_difference(open(r), r.writing(), asked.one, asked.number != 0));
}

void move_reading(Rooms& r, const Asked& asked) {
  if (!r.may_write()) return;
  auto act = r.enter(tallyblock::move_reading(open(r), r.writing(), id_of(asked.one), asked.two));
  if (!act) return;
  Draft& draft = r.keypad.draft;
  const bool from_cut = draft.panel == kMoveFromCut;
  draft.selected.clear();
  draft.panel.clear();
  if (from_cut) {  // the cutting goes on
    r.keypad.go(Screen::cut, r.desk.session());
    r.keypad.edit({FieldKind::block, ""}, r.desk.session(), r.shelf.settings);
  } else if (draft.digits.empty()) {  // what was moved tells which pile is being filled
    r.desk.undo().back().pile = draft.pile;
    r.keypad.fill_next(asked.two, open(r));
  }
  r.keep(*std::move(act));
}

// ---- taking back

void void_entry(Rooms& r, const Asked& asked) {
  if (!r.may_write()) return;
  r.put(tallyblock::void_entry(open(r), r.writing(), id_of(asked.one)));
}

void restore_entry(Rooms& r, const Asked& asked) {
  if (!r.may_write()) return;
  r.put(tallyblock::restore_entry(open(r), r.writing(), id_of(asked.one)));
}

// ---- tubs, steps, quality

void add_tub(Rooms& r, const Asked& asked) {
  if (!r.may_write()) return;
  const std::string fresh = r.host.random_id(6);
  auto act = r.enter(tallyblock::add_tub(open(r), r.writing(), asked.one, fresh));
  if (!act) return;
  Draft& draft = r.keypad.draft;
  const std::string key = open(r).figures.tubs.back().key;
  // Added beside the keypad, it is for what is weighed now.
  if (draft.screen == Screen::weigh) draft.tub = key;
  draft.field = {FieldKind::tub_tare, key};
  draft.digits.clear();
  r.keep(*std::move(act));
}

void break_down(Rooms& r, const Asked& asked) {
  if (!r.may_write()) return;
  Made made = tallyblock::break_down(open(r), r.writing(), asked.one, asked.two,
                                     static_cast<Process>(asked.number), r.host.random_id(6));
  std::string first;
  if (made.writing.made.size() > 1) {
    first = std::get<body::Pile>(made.writing.made[1].body).key;
  }
  auto act = r.enter(std::move(made));
  if (!act) return;
  r.keypad.draft.pile = first;
  r.keep(*std::move(act));
}

void take_out_step(Rooms& r, const Asked& asked) {
  if (!r.may_write()) return;
  auto act = r.enter(tallyblock::take_out_step(open(r), r.writing(), asked.one));
  if (!act) return;
  std::string& pile = r.keypad.draft.pile;
  if (pile_named(open(r).figures, pile) == nullptr) {
    r.desk.undo().back().pile = std::exchange(pile, {});
  }
  r.keep(*std::move(act));
}

void usual_tolerance(Rooms& r, const Asked& asked) {
  if (!r.may_write()) return;
  r.put(tallyblock::usual_tolerance(open(r), r.writing(), asked.one));
}

void set_quality(Rooms& r, const Asked& asked) {
  if (!r.may_write()) return;
  r.put(tallyblock::set_quality(open(r), r.writing(), asked.one, asked.number != 0));
}

// ---- people and time

void set_person(Rooms& r, const Asked& asked) {
  if (r.desk.session() == nullptr) return;
  const auto* person = body_at<body::Person>(open(r), id_of(asked.one));
  if (person == nullptr) return;
  r.keypad.draft.person = asked.one;
  r.tell("notice.person", {person->name});
  r.changed_draft();
}

void timer_start(Rooms& r, const Asked& /*asked*/) {
  Draft& draft = r.keypad.draft;
  if (r.desk.session() == nullptr || draft.timer_started_ms != 0) return;
  draft.timer_started_ms = std::max<std::int64_t>(r.host.utc_ms(), 1);
  r.watch = {r.host.monotonic_ms(), false};
  r.changed_draft();
  r.arm();
}

void timer_pause(Rooms& r, const Asked& /*asked*/) { r.pause_timer(); }

// ---- where to put the knife

void same_all_along(Rooms& r, const Asked& /*asked*/) {
  if (r.may_write()) r.put(tallyblock::same_all_along(open(r), r.writing(), r.shelf.settings));
}

void set_face_fill(Rooms& r, const Asked& asked) {
  if (!r.may_write()) return;
  r.put(tallyblock::set_face_fill(open(r), r.writing(), asked.one, asked.two));
}

void set_long_pieces(Rooms& r, const Asked& asked) {
  if (!r.may_write()) return;
  auto act = r.enter(
      tallyblock::set_long_pieces(open(r), r.writing(), static_cast<unsigned>(asked.number)));
  if (!act) return;
  r.keypad.after_field(r.desk.session());
  r.keep(*std::move(act));
}

void score_marks(Rooms& r, const Asked& asked) {
  tallyblock::score_marks(r.keypad.draft, asked.one, asked.two);
  r.changed_draft();
}

void trim_block(Rooms& r, const Asked& asked) {
  if (!r.may_write()) return;
  r.put(tallyblock::trim_block(open(r), r.writing(), id_of(asked.one), Mass::grams(asked.grams),
                               asked.two, r.shelf.settings));
}

void begin_cutting(Rooms& r, const Asked& /*asked*/) {
  if (r.desk.session() == nullptr || !r.keeper.writer()) return;
  const CookOf* cook = r.shelf.cook_of(cook_named(r), open(r).id);
  Made made = tallyblock::begin_cutting(open(r), r.writing(), cook);
  if (!made.writing.made.empty() && r.may_write()) r.put(std::move(made));
}

void close_cut(Rooms& r, const Asked& asked) {
  if (r.may_write()) r.put(tallyblock::close_cut(r.writing(), id_of(asked.one)));
}

void reopen_cut(Rooms& r, const Asked& asked) {
  if (r.may_write()) r.put(tallyblock::reopen_cut(open(r), r.writing(), id_of(asked.one)));
}

// Of the piece itself: it is sliced before it is split.
void cut_long_piece(Rooms& r, const Asked& asked) {
  Draft& draft = r.keypad.draft;
  draft.long_piece = asked.one;
  if (r.desk.session() != nullptr && asked.one.empty()) draft.sliced = open(r).id;
  draft.field = {FieldKind::block, ""};
  r.keypad.take_off();
  r.keypad.forget_asked();
  r.changed_draft();
}

void split_first(Rooms& r, const Asked& /*asked*/) {
  r.keypad.draft.sliced.clear();
  r.keypad.draft.field = {};
  r.changed_draft();
}

void take_out_long_piece(Rooms& r, const Asked& asked) {
  if (!r.may_write()) return;
  r.put(tallyblock::take_out_long_piece(open(r), r.writing(), asked.one));
}

}  // namespace tallyblock::doing
