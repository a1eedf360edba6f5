// The result screen.
#pragma once
#include "web/words/table.h"

namespace tallyblock {

inline constexpr Word kResultWords[] = {
    {"result.bought", "As purchased (AP): {0}, {1}. Usable is the edible portion (EP)."},
    {"result.bought-no-price", "As purchased (AP): {0}. Usable is the edible portion (EP)."},
    {"result.bought-unknown", "The whole piece as purchased (AP) is not weighed yet."},
    {"result.where-it-went", "Where it went"},
    {"result.table", "Where the weight and the money went"},
    {"result.part", "Part"},
    {"result.weight", "Weight"},
    {"result.share", "Share"},
    {"result.money", "Money"},
    {"result.rounded",
     "Each part is rounded by itself, so the parts do not quite add up to the whole."},
    {"result.whole", "Whole piece"},
    {"result.loss", "Loss in cutting"},
    {"result.too-much", "Weighed too much"},
    {"result.packaging", "Packaging"},
    {"result.purge", "Purge"},
    {"result.short-delivery", "Short delivery"},
    {"result.still-needed", "Still needed"},
    {"result.no-value", "Piles without a value count as worth nothing:"},
    {"result.yield", "Yield, of the weight as purchased"},
    {"result.eye-call", "Eye call: {0} called, {1} weighed."},
    {"result.costs", "Cost"},
    {"result.factors", "How much dearer the usable is"},
    {"result.factors-say",
     "Three answers to one question, each true for what it counts. The kilo bought costs 1; the "
     "usable kilo costs so many times as much."},
    {"result.new-price", "If the price changes"},
    {"result.new-price-say", "Enter a new price to see the new cost, both ways."},
    {"result.make-or-buy", "Cut it yourself or buy it cut"},
    {"result.ahead", "Cutting it yourself saved {0}."},
    {"result.behind", "Buying it cut would have saved {0}."},
    {"result.none-spoiled", "Nothing could have been spoiled."},
    {"result.no-labour", "Labour counts as nothing here until minutes and a wage are entered."},
    {"result.portions", "Portions against their target"},
    {"result.usual-tolerance", "{0}, usual for this weight"},
    {"result.usual-again", "The usual tolerance"},
    {"result.portions-count#one", "{0} portion: {1} within tolerance, {2} short, {3} heavy."},
    {"result.portions-count", "{0} portions: {1} within tolerance, {2} short, {3} heavy."},
    {"result.spread",
     "{0} drawn against the target: from {1} to {2}; target {3}, within tolerance from {4} to "
     "{5}."},
    {"result.aim",
     "With this scatter, aiming at {0} loses least: {1} would be short, a short costs {2}, one to "
     "be "
     "trimmed {4}, weight above the target {3}."},
    {"result.mean-of-all",
     "{0} each over {1}. The spread is from {2} weighed singly; {3} were weighed together."},
    {"result.mean-together",
     "{0} each over {1}, all weighed together: what single ones weigh is not known."},
    {"result.like-several",
     "{0} counts as one portion, though it weighs like {1}. Were there several?"},
    {"result.like-several-more",
     "{0} weights count as one portion each, though {1} weighs like {2}. Were there several?"},
    {"result.say-how-many", "Say how many"},
    {"result.few-singles", "Spread and advice come from 3 weighed singly on; so far: {0}."},
    {"result.minutes-timed", "{0}, timed"},
    {"result.minutes-both", "{0}: {1} timed, {2} typed"},
    {"minutes.ask", "{0} are there already. Do these minutes stand instead, or come on top?"},
    {"minutes.instead", "Instead"},
    {"minutes.more", "On top"},
    {"minutes.in-all", "{0} in all"},
    {"result.for-pieces", "{0} for {1}"},
    {"result.piece-target", "{0}, the target"},
    {"result.not-all",
     "Not all is weighed: {0} is still on the board or missing. The costs below carry it and may "
     "be too high."},
    {"result.verdict-later", "Cut or buy can be told when all is weighed."},
    {"result.no-minutes",
     "How many minutes did it take? Without them nothing can be said of cutting or buying."},
    {"result.beyond-whole",
     "More lies on the piles than the piece weighed: a yield cannot be given. Look for a weight "
     "that is wrong."},
    {"needs.enter", "Enter it here"},
};

}  // namespace tallyblock
