// Cost, by-product values, yield test, make or buy, targets. Internal to the session figures.
//
// A price in another currency than the session's is left out and doubted: two currencies never add.
#pragma once
#include "steps.h"

namespace tallyblock {

// Sums by role, loss and change of weight; then what needs prices.
void total_weights(const PileTable& table, Figures& figures);
void count_money(const Facts& facts, PileTable& table, Figures& figures);

// Fills figures.targets; needs the yield test (targets.cpp).
void judge_targets(const Facts& facts, const PileTable& table, Figures& figures);
void judge_eye_calls(const Facts& facts, Figures& figures);

}  // namespace tallyblock
