// What it is, and how the figures are made.
#pragma once
#include "web/words/table.h"

namespace tallyblock {

inline constexpr Word kAboutWords[] = {
    {"about.title", "About Tallyblock"},
    {"about.figures", "How the figures are made"},
    {"about.ap-ep",
     "AP is the weight as purchased, the one the invoice charges for. EP is the edible portion: "
     "what "
     "is left to use. Yield is EP over AP."},
    {"about.balance",
     "What lay on the board is the sum of all piles plus the loss in cutting. The loss is never "
     "typed in: it is what is missing."},
    {"about.yield-test",
     "The cost of the portions is what was paid less the value of the other piles, over the weight "
     "of the portions: the butcher's yield test."},
    {"about.credit",
     "A credit is not income. Usable trim that nobody uses becomes a loss, so the cost without "
     "credit stands beside the other."},
    {"about.factors",
     "Three factors are named. A third lost does not make meat a third dearer: averaged over all "
     "that is usable, 30 % lost means {0} times the price."},
    {"about.labour",
     "Labour is minutes times wage. It is shown apart and never inside the factor."},
    {"about.portions",
     "Tolerance of portions follows the bands of the IMPS, the US purchase specifications for "
     "meat, "
     "unless you set your own."},
    {"about.rounding",
     "Everything is computed exactly from what you typed and rounded once, when shown: money half "
     "up, as a till does. Shown cents add up to shown totals."},
    {"about.conventions", "Conventions used"},
    {"about.convention-base", "Percentages are of the weight as purchased (AP)."},
    {"about.convention-labour", "Labour is per piece, added after yield."},
    {"about.convention-portions", "Portions are whole, rounded down; their cost goes by weight."},
    {"about.convention-price",
     "A new price is shown both ways: other values moving with it, and staying as they are."},
    {"about.convention-uncertainty",
     "A scale that shows steps of d knows a weight to within d / √12, standard uncertainty."},
    {"about.keeping", "Where it is saved"},
    {"about.keeping-what",
     "Only on this device, in this browser. Nothing is sent anywhere. Export what you must not "
     "lose."},
    {"about.notices", "Licences"},
    {"about.notices-what", "Built with open-licensed software and a free font."},
    {"about.notices-link", "Read the notices"},
    {"about.format", "Session files of version {0}.{1}."},
};

}  // namespace tallyblock
