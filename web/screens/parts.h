// What several screens share: going about, lines of state, figures with what they need, fields and
// the keypad that opens below for them.
#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "web/app/app.h"
#include "web/app/shown.h"
#include "web/figures/doubts.h"
#include "web/figures/explain.h"
#include "web/figures/names.h"
#include "web/figures/show.h"
#include "web/kit/kit.h"

namespace tallyblock {

// What was seen of where to cut, by the revision of the desk: with another it is seen anew.
struct CutSeen {
  std::uint64_t guide = 0;   // the guide, from its top
  std::uint64_t nearby = 0;  // what other targets would give, asked for by a press
};

// What a screen works with during one frame.
struct Ui {
  Kit& kit;
  App& app;
  show::Style style;         // of the open session, else of the defaults
  CutSeen& cut;              // kept between frames
  std::string present = {};  // what the field the keypad is on holds now, as shown

  const Draft& draft() const { return app.draft(); }
  // Precondition: a session is open.
  const Figures& figures() const { return app.session()->figures; }
  const std::string& panel() const { return app.draft().panel; }
};

// The way back to the pieces, and what this screen is about.
void top(Ui& ui, std::string_view title, const std::string& path);
void way_back(Ui& ui);
// The one bar of places, the same ones for every screen of a piece and for every other: the present one is
// filled. Screens draws it: at the bottom, or at the top where there is little height.
void places_bar(Ui& ui, Screen now);
bool bar_on_top(const Ui& ui);
// Lines that must be seen on every screen: saving failed, another window writes, a new version.
void warnings(Ui& ui);
// The one line of what was just done, with its undo.
void notice(Ui& ui);
// The board says these in its own way: the newest reading, the display, the whole piece.
bool is_about_weighing(std::string_view notice_key);
std::string save_words(const App& app);  // "kept", "saving", "not kept"

Look look_of(Role role);
// Key of the first pile of portions; "" if there is none.
std::string first_primary(const Figures& figures);

// Figures, each explaining itself; unknown ones say what they need. Small ones stand two abreast.
void figure_lines(Ui& ui, const explain::Lines& lines, FigureSize size = FigureSize::small);
// What is missing, each with a button that goes where it is entered.
void needs(Ui& ui, const std::string& path, const std::vector<Code>& codes);
// Doubts, e.g. those about "step main"; an empty `where` shows all.
void doubts(Ui& ui, const std::string& path, std::string_view where = {});

// Known piles the session does not have yet, one tap each; the panel closes after it.
void add_pile_buttons(Ui& ui, const std::string& path);

// A button with the field's name and present value; tapped, the keypad types there.
void field(Ui& ui, const Field& field, std::string_view value, const std::string& name = {});
std::string field_path(const Field& field);
std::string field_label(const Field& field, const std::string& name = {});
// The label with what it is about: the pile, the tub, the weight that is typed anew.
std::string field_title(const Ui& ui, const Field& field);
// By its entry's id, wherever it lies now, or null.
const ReadingLine* reading_of(const Figures& figures, const std::string& id);
// The weight a portion of the pile is to have, and once that is known its tolerance.
void target_fields(Ui& ui, const PileFigures& pile);
// The live price of "piece", "ready-cut" or a pile as it was entered, or null.
const body::Price* price_entered(const Ui& ui, const std::string& of);
// A name or note, typed with the system's keyboard. `id` as in acts_of_names.h.
void text_field(Ui& ui, const std::string& id, std::string_view label_key,
                std::string_view hint_key = {}, bool multiline = false);
// "now 12.50 EUR", until a digit is typed; empty where the field holds nothing.
std::string present_words(const Ui& ui);
// The keypad at the bottom for the field it is on, unless there is none.
void keypad_sheet(Ui& ui);
// A screen whose fields are typed with the keypad: `body` opens one scroll area; the keypad comes
// below it, or beside it where the screen is low and wide.
void over_keypad(Ui& ui, void (*body)(Ui&));
// Why the digits were not taken; empty: they were, or nothing was typed.
std::string field_problem_words(const Ui& ui);
// The units a weight may be typed in beside `unit`: the metric or the pound ones.
const std::vector<std::string_view>& mass_units(std::string_view unit);
// Weights are typed with the keys for fractions of an ounce, which take a row of the keypad.
bool has_ounce_keys(const Ui& ui);
bool unit_is_one_key(const Ui& ui);  // where every row counts: it changes to the next one
bool has_row_of_keys(const Ui& ui);  // these or units, above the digits
struct KeyWords {
  std::string_view enter = {}, enter_detail = {};
  std::string_view side = {}, side_name = {};  // a key above the enter key, and its full name
  bool side_open = false;
  bool enter_enabled = true;
  int turn = 0;  // as KeypadOptions say
  float grow_by = 0;
};
// The keys for the present field; their presses reach the app. True: the side key was pressed.
bool keypad_here(Ui& ui, const std::string& path, const KeyWords& words);
// The unit shown behind the digits of the present field.
std::string digits_unit(const Ui& ui);

}  // namespace tallyblock
