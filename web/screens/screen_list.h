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

}  // namespace tallyblock
