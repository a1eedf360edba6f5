// What is judged of a piece: its trim specification in words, its quality checks by a tap each. On its result and
// among its details.
#pragma once

namespace tallyblock {

struct Ui;

void trim_and_quality(Ui& ui);

}  // namespace tallyblock
