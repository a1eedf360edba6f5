// Parts of the weighing screen; only the files of this folder use them.
#pragma once
#include <optional>

#include "web/kit/style.h"
#include "web/screens/parts.h"

namespace tallyblock {

// Turns in which the parts of the board take the height that is left (Kit::may_grow).
inline constexpr int kKeysTurn = 1, kTilesTurn = 2, kDisplayTurn = 3, kBlockTurn = 4;

// A phone held upright: little room, the thumb's reach counts.
inline bool compact(const Ui& ui) { return !ui.kit.wide() && !ui.kit.broad(); }
inline bool weighing_in(const Ui& ui) { return ui.draft().field.kind == FieldKind::drained; }
inline bool is_moving(const Ui& ui) { return ui.panel() == kMove || ui.panel() == kMoveFromCut; }
bool wants_pile(const Ui& ui);  // digits are typed, and no pile is chosen for them

Kit::Box pile_grid(Ui& ui);  // for tiles_of
void tiles_of(Ui& ui);       // tap: weigh in there, or choose; while moving: the right pile
void pile_tiles(Ui& ui);     // both
void other_piles(Ui& ui, const ReadingLine& line);  // tap: it was meant for that one
void set_choice(Ui& ui);  // piles by kind of piece, while the whole is weighed in
// One more pile: on a low phone only in a place that would stay empty.
bool offers_new_pile(const Ui& ui);
void new_pile_panel(Ui& ui);
// The digits being typed; while there are none, the number just weighed. Beside it how many pieces it is
// of, or what can be done about it.
void display_row(Ui& ui);
void error_notice(Ui& ui);
std::string how_words(const Ui& ui);  // how the next reading is weighed, in a few words
void count_panel(Ui& ui);             // how many pieces lie on the scale
void how_panel(Ui& ui);               // habit, unit, how many at once, tub
void last_panel(Ui& ui);         // the number just weighed: cross out, other pile, anew, how many
bool has_reading(const Ui& ui);  // one that counts
void first_line(Ui& ui);         // before the first reading: the eye call, what was just done
void readings_panel(Ui& ui);
void reading_list(Ui& ui);  // newest first, each with its undo and its other pile
void move_words(Ui& ui);    // what is being moved, and the way back
void start_move(Ui& ui, const ReadingLine& line);
const ReadingLine* newest_that_counts(const Figures& figures);
std::string tub_name(const Ui& ui, const std::string& key);
std::string kept_words(const Ui& ui, const ReadingLine& line);
// How far a portion is from its target, when that is outside its tolerance.
std::string off_target(const Ui& ui, const ReadingLine& line);
std::string weighed_into(const Ui& ui, const ReadingLine& line);

}  // namespace tallyblock
