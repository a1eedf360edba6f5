// Parts of the result screen; only result_screen.cpp uses them.
#pragma once
#include "web/screens/parts.h"

namespace tallyblock {

void costs_part(Ui& ui);        // price, from what was paid to the cost of the portions
void factors_part(Ui& ui);      // the three factors, named
void new_price_part(Ui& ui);    // what if the price changes
void make_or_buy_part(Ui& ui);  // cut it yourself or buy it cut
void portions_part(Ui& ui);     // portions against their target

}  // namespace tallyblock
