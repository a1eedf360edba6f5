// The screens, one function each, in the order of enum Screen. Each draws one frame and calls acts.
#pragma once
#include "parts.h"

namespace tallyblock {

void sessions_screen(Ui& ui);
void weigh_screen(Ui& ui);
void result_screen(Ui& ui);
void details_screen(Ui& ui);
void share_screen(Ui& ui);
void settings_screen(Ui& ui);
void bin_screen(Ui& ui);
void about_screen(Ui& ui);
void cut_screen(Ui& ui);
void log_screen(Ui& ui);

// What is shared as a picture: the result of the open piece, and the list of pieces. `with_people`: who cut.
void picture_of_piece(Ui& ui, bool with_people);
void picture_of_list(Ui& ui, bool with_people);

}  // namespace tallyblock
