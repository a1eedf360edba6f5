// Parts of the weighing screen; only weigh_screen.cpp uses them.
#pragma once
#include "web/screens/parts.h"

namespace tallyblock {

// A phone held upright: little room, the thumb's reach counts.
inline bool compact(const Ui& ui) { return !ui.kit.wide() && !ui.kit.broad(); }
inline bool small_phone(const Ui& ui) { return compact(ui) && ui.kit.low(); }
inline bool weighing_in(const Ui& ui) { return ui.draft().field.kind == FieldKind::drained; }

void pile_tiles(Ui& ui);  // tap: weigh in there, or choose; while moving: the right pile
void new_pile_panel(Ui& ui);
void more_acts(Ui& ui);   // what is rarer: new pile, what is left, all readings
void more_panel(Ui& ui);  // the same where there is little room, with what each is for
// The digits being typed; while there are none, the newest reading with its undo.
void display_or_last(Ui& ui);
std::string how_words(const Ui& ui);  // how the next reading is weighed, in a few words
void count_panel(Ui& ui);             // how many pieces lie on the scale
void how_panel(Ui& ui);               // habit, unit, how many at once, tub
bool has_reading(const Ui& ui);       // one that counts
void first_line(Ui& ui);              // before the first reading: the eye call, what was just done
void readings_panel(Ui& ui);
void reading_list(Ui& ui);  // newest first, each with its undo and its other pile
void move_words(Ui& ui);    // what is being moved, and the way back

}  // namespace tallyblock
