// A sentence for every code of core/base/problem.h: what is wrong, where, what to do.
//
// {where} is the field or the place in a file (problems); {0}, {1}, ... are the values that each code
// carries, as said in core/typed/typed.h, core/entries/codec.h and core/session/session.h. "#one" behind a
// key: said of one.
#pragma once
#include "web/words/table.h"

namespace tallyblock {

inline constexpr Word kProblemWords[] = {
    // typed text: {0} what was typed, {1} a limit
    {"typed.empty", "{where}: nothing typed yet. Type a figure first."},
    {"typed.negative", "{where}: {0} is below zero. Type it without the minus."},
    {"typed.not-a-number", "{where}: {0} cannot be read as a figure. Type digits, like 450."},
    {"typed.unknown-unit", "{where}: {0} needs a unit: lb or oz, g or kg."},
    {"typed.two-marks", "{where}: {0} has two decimal marks. Keep one."},
    {"typed.ounces-over",
     "{where}: {0} has 16 ounces or more beside pounds. Carry 16 ounces into a pound."},
    {"typed.too-heavy", "{where}: {0} is over 1,000 kg. Check the digits and the unit."},
    {"typed.too-large", "{where}: {0} is beyond {1}. Check the digits."},
    {"typed.too-long", "{where}: {0} is too long. Shorten it."},
    {"typed.zero", "{where}: {0} is zero. Type what was really read."},
    {"typed.too-many-digits", "{where}: {0} has more digits than a scale shows. Leave some off."},
    {"typed.under-tub",
     "{where}: the empty tub alone weighs {0}. Choose the right tub, or no tub, beside the "
     "digits."},
    {"typed.not-whole", "{where}: {0} is no whole number up to 999. Type one, e.g. 12."},
    {"typed.must-be-negative",
     "{where}: {0} should be a weight taken off, read below zero. Choose another way of weighing."},
    // files: {0} the field, {1} the entry's place in the file, or figures
    {"file.too-big",
     "{where}: {0} bytes are more than the {1} that can be read. Choose another file."},
    {"file.empty", "The file is empty. Export it again, or choose another."},
    {"file.not-text", "The file is not text ({where}). Choose a file saved by this app."},
    {"file.not-json",
     "The file is cut off or damaged ({where}). Export it again, or choose another."},
    {"file.too-deep",
     "The file is nested deeper than {0} levels ({where}). It was not saved by this app; choose "
     "another."},
    {"file.not-ours",
     "This is no session and no backup ({where}). Choose a file saved by this app."},
    {"file.newer-major",
     "The file is of version {0}, this app reads up to {1}. Update the app, then import it again."},
    {"file.field-missing", "The file lacks {0} ({where}). Export it again, or choose another."},
    {"file.field-type",
     "The file holds the wrong kind of value for {0} ({where}). Export it again, or choose "
     "another."},
    {"file.field-value",
     "The file holds a value for {0} that cannot be ({where}). Export it again, or choose "
     "another."},
    {"file.changed",
     "The file was changed or damaged since it was saved ({where}). Export it again, or choose "
     "another."},
    {"file.duplicate-id",
     "Entry {0} is in the file twice ({where}). Export it again, or choose another."},
    {"file.too-many", "The file holds more than {0} items ({where}). Choose another file."},
    // doubts
    {"doubt.conflicting-copies",
     "Entries that arrived in two different copies: {0}. One copy counts; compare with the other "
     "phone."},
    {"doubt.several-candidates",
     "{1} values were entered for one thing ({0}), perhaps on two phones. The latest counts; enter "
     "it "
     "again to settle it."},
    {"doubt.missing-entries",
     "Entries missing from this copy: {0}. Import the session again from the phone it comes from."},
    {"doubt.unknown-kind#one",
     "{1} entry of the kind {0} comes from a newer version. It is kept but not counted; update the "
     "app."},
    {"doubt.unknown-kind",
     "{1} entries of the kind {0} come from a newer version. They are kept but not counted; update "
     "the "
     "app."},
    {"doubt.unreadable-entry",
     "An entry cannot be read and does not count (field {1}). It is kept; import the session "
     "again."},
    {"doubt.unknown-reference",
     "Something names a {0} that is not here ({1}). Move it to another, or void it."},
    {"doubt.loss-negative",
     "{0}: the piles weigh {1} more than what was on the board; the scale explains {2} at most. "
     "Weigh "
     "again."},
    {"doubt.loss-high",
     "{0}: {1} is missing, {2} of what was on the board; usual is up to {3}. Weigh again, or look "
     "for "
     "a pile not yet weighed."},
    {"doubt.explain-repeated", "{0}: {1} was entered more than once. If one is a repeat, void it."},
    {"doubt.explain-tare#one",
     "Forgetting the tare of {0} ({2}) once would explain the gap. Check whether the tub was "
     "zeroed."},
    {"doubt.explain-tare",
     "Forgetting the tare of {0} ({2}) {1} times would explain the gap. Check whether the tub was "
     "zeroed."},
    {"doubt.explain-tare-twice#one",
     "Taking the tare of {0} ({2}) off once too often would leave a usual loss. Was the "
     "scale zeroed with the tub on it already? Check it."},
    {"doubt.explain-tare-twice",
     "Taking the tare of {0} ({2}) off {1} times too often would leave a usual loss. Was the "
     "scale zeroed with the tub on it already? Check it."},
    {"doubt.explain-unit",
     "{0}: if {1} was meant as {2}, the gap closes. Check the unit and the decimal mark."},
    {"doubt.explain-sign",
     "{0}: if {1} was read the other way round (put on, not taken off), the gap closes. Check it."},
    {"doubt.tub-below-readings",
     "{0}: the tub weighed {1}, which is {2} less than what went into it. Weigh the tub again."},
    {"doubt.tubs-apart",
     "{0}: the tub weights {1} and {2} each include the same {3}, but neither includes the other, "
     "so "
     "that it counts twice. Void the one that no longer holds."},
    {"doubt.difference-readings",
     "{0} is marked as not weighed, so that its readings are left out: {1}. Weigh it after all, or "
     "void them."},
    {"doubt.tub-circular",
     "{0}: two tub weights each claim to include the other. Void one of them."},
    {"doubt.taken-more-than-pile",
     "{0}: {1} more was taken out than lay in it. Check what was carried on."},
    {"doubt.incoming-order",
     "The {0} weight ({1}) is above the {2} weight ({3}). Check which is which."},
    {"doubt.two-by-difference",
     "{0}: {1} piles are marked as not weighed. Only one can be found by difference; weigh the "
     "others."},
    {"doubt.net-cost-negative",
     "The other piles are worth more than was paid: the portions come out at {0}. Check the values "
     "of "
     "the piles."},
    {"doubt.tare-over-reading",
     "{0}: {1} is less than the tare {2}. Check the tub, or whether the scale was zeroed with it."},
    {"doubt.step-circular",
     "The step {0} takes its weight from a pile of its own. Void the step and choose another "
     "pile."},
    {"doubt.currency-mixed",
     "The price of {0} is in {1}, the session in {2}. It does not count; enter it again."},
    // needs
    {"need.whole-weight", "Needs the weight of the whole piece. Weigh it in."},
    {"need.price", "Needs what was paid. Enter the price."},
    {"need.primary", "Needs portions. Weigh some into their pile."},
    {"need.target", "Needs a portion target. Enter the weight a portion should have."},
    {"need.ready-cut-pieces",
     "The ready-cut price is a total. Enter how many pieces it buys, or a price by weight."},
    {"need.piece-weight",
     "The ready-cut price is for pieces. Enter what one of them weighs, or a target for the "
     "portions."},
    {"need.ready-cut-price", "Needs the price of ready-cut portions. Enter it."},
    {"need.wage", "Needs the hourly wage. Enter it."},
    {"need.minutes", "Needs the time worked. Start the timer, or enter the minutes."},
    {"need.usable", "Needs something usable. Weigh a pile that is used."},
    {"need.readings", "Needs readings. Weigh something."},
    {"need.price-not-zero", "Needs a price above zero."},
    {"need.prices-apart",
     "The ready-cut price equals the value of the trim, so spoiled weight changes nothing."},
    {"need.25-portions", "Needs 25 single portions; below that, counts only."},
    // where to put the knife: {0}, {1} the station's number, a limit with its unit, or what would work
    {"plan.few-stations",
     "Measure the piece at two places at least: at its first face and at its last."},
    {"plan.first-station", "The first place measured must be the first face, at 0. Measure there."},
    {"plan.station-zero",
     "Place {0} has no width or no depth. Measure it again, or end the piece before it tapers "
     "out."},
    {"plan.station-fill",
     "Place {0}: a face fills between 50 % and 100 % of its width times depth. Change the figure."},
    {"plan.stations-cross",
     "Place {0} lies at or before place {1} on the ruler. Read its distance from the first face "
     "again."},
    {"plan.too-long", "Place {0} is more than 3 m from the first face. Check the unit."},
    {"plan.no-weight", "The piece needs a weight above zero. Weigh it, or leave the weight open."},
    {"plan.no-target",
     "What should a portion weigh? Enter it, and a tolerance smaller than it; up to four kinds of "
     "portion."},
    {"plan.split-range", "A piece is split into 1 to 4 long pieces. Choose one of these."},
    {"plan.limits-cross",
     "The least thickness, {0}, is above the greatest, {1}. Lower the one or raise the "
     "other."},
    {"plan.least-over-thickness",
     "No side may be under {0}, yet blocks may be at most {1} thick. Lower the one or raise "
     "the other."},
    {"plan.trim-takes-all",
     "The ends cut off take the whole piece: {0} of {1}. Leave at least 2 mm between them."},
    {"plan.saw-range", "The saw loss is up to 20 mm a cut. Leave it empty for a knife."},
    {"plan.target-too-heavy",
     "A portion of {0} is more than the {1} there are between the ends. Lower the target to "
     "{1} or less."},
    {"plan.thickness-max",
     "No block may be over {0} thick, and none of the target is that thin. {1} works."},
    {"plan.thickness-min",
     "No block may be under {0} thick, and none of the target is that thick. {1} works."},
    {"plan.least-dimension",
     "No side may be under {0}, and no block of the target keeps to that. {1} works."},
    {"plan.limits-together",
     "No single limit stands in the way, but all together do. With each eased by {0} %, a portion "
     "fits."},
    {"plan.tolerance-too-fine",
     "No mark of the ruler gives a block within {0} of the target. A tolerance of {1} works."},
    {"plan.too-many",
     "There are too many ways to cut this piece. Narrow a tolerance, want fewer portions, or "
     "measure a "
     "shorter piece."},
    {"plan.value-range",
     "The value of a portion is at most 1,000 and that of the piece 1,000,000. Check the figure."},
    // values of closed lists
    {"incoming.invoice", "invoice"},
    {"incoming.received", "received"},
    {"incoming.drained", "drained"},
    {"incoming.packaging", "packaging"},
    {"incoming.purge", "purge"},
    // kinds of entries, and what prices are of
    {"kind.piece", "piece"},
    {"kind.setting", "setting"},
    {"kind.lot", "lot"},
    {"kind.specification", "specification"},
    {"kind.quality", "quality"},
    {"kind.step", "step"},
    {"kind.pile", "pile"},
    {"kind.by-difference", "by-difference"},
    {"kind.incoming", "incoming"},
    {"kind.reading", "reading"},
    {"kind.remainder", "remainder"},
    {"kind.checkpoint", "checkpoint"},
    {"kind.move", "move"},
    {"kind.tub", "tub"},
    {"kind.price", "price"},
    {"kind.labour", "labour"},
    {"kind.target", "target"},
    {"kind.eye-call", "eye-call"},
    {"kind.cut", "cut"},
    {"kind.person", "person"},
    {"kind.note", "note"},
    {"kind.entry", "entry"},
    {"kind.station", "station"},
    {"kind.plan-limits", "plan-limits"},
    {"kind.wanted", "wanted"},
    {"kind.long-piece", "long-piece"},
    {"kind.face", "face"},
    {"kind.cut-closed", "cut-closed"},
    {"kind.line", "line"},
    {"kind.correction", "correction"},
    {"kind.ready-cut", "ready-cut"},
    // places in a file
    {"place.line", "line {0}"},
    {"place.entry", "entry {0}"},
    {"place.field", "field {0}"},
    {"place.byte", "byte {0}"},
    // the places a problem names
    {"where.file", "The file"},
    {"where.entry", "The entry"},
    {"where.reading", "Weight"},
    {"where.anew", "Weight"},
    {"where.drained", "Whole piece"},
    {"where.invoice", "Invoice weight"},
    {"where.received", "Received weight"},
    {"where.packaging", "Packaging"},
    {"where.purge", "Purge"},
    {"where.price-per-mass", "Price"},
    {"where.price-total", "Invoice total"},
    {"where.ready-cut", "Ready-cut price"},
    {"where.ready-cut-yield", "Yield of the ready-cut"},
    {"where.ready-cut-pieces", "Pieces of the ready-cut price"},
    {"where.ready-cut-piece", "Weight of one piece"},
    {"where.pile-value", "Value of the pile"},
    {"where.wage", "Wage"},
    {"where.minutes", "Minutes"},
    {"where.target", "Portion target"},
    {"where.tolerance", "Tolerance"},
    {"where.eye-call", "Guess"},
    {"where.remainder", "Left on the board"},
    {"where.checkpoint", "Cleaned weight"},
    {"where.tub-tare", "Tub"},
    {"where.step-weight", "Weight taken further"},
    {"where.transfer", "Weight carried over"},
    {"where.new-price", "New price"},
    {"where.receiving-temperature", "Receiving temperature"},
    {"where.loss-limit", "Limit for the loss in cutting"},
    {"where.division", "Scale division"},
    {"where.default-wage", "Wage"},
    {"where.default-loss-limit", "Limit for the loss in cutting"},
    {"where.default-division", "Scale division"},
    {"where.name", "Name"},
    {"where.text", "Text"},
    {"where.use", "Use"},
    {"where.species", "Species"},
    {"where.cut", "Cut"},
    {"where.value", "Value"},
    {"where.key", "Key"},
    {"where.stations", "Places measured"},
    {"where.station", "Place measured"},
    {"where.piece-weight", "Weight of the piece"},
    {"where.split", "Long pieces"},
    {"where.long-piece", "Long piece"},
    {"where.thickness", "Thickness"},
    {"where.least-dimension", "Shortest side"},
    {"where.ends", "Ends cut off"},
    {"where.saw-loss", "Saw loss"},
    {"where.limits", "Limits"},
    {"where.portion-value", "Value of a portion"},
    {"where.remainder-value", "Value of what is left"},
};

}  // namespace tallyblock
