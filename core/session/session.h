// Everything the core derives from the entries of one session.
//
// figures_of() is a pure function of the set: no clock, no settings outside the entries. The order of
// arrival never matters. Masses carry uncertainty (measured.h). Absent figures are absent with a
// Code saying what they need; no figure is ever infinite or not a number.
// Balance (formulas): per step, input = sum of outputs + loss in cutting; at the door, invoice weight
// = drained + packaging + purge + short delivery. Loss in cutting is never entered.
#pragma once
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/base/measured.h"
#include "core/base/problem.h"
#include "core/entries/entry_set.h"
#include "core/formulas/make_or_buy.h"
#include "core/formulas/portions.h"
#include "core/formulas/yield_test.h"

namespace tallyblock {

// A doubt in words where it matters: code, the entries it is about, figures for the sentence.
// args per code ({0}, {1}, ... of the sentence; piles, steps and tubs by name, the first step as the piece;
// what was typed as typed, other weights as masses):
//   conflicting_copies {count}            several_candidates {fact, count}
//   missing_entries {count}               unknown_kind {kind, count}
//   unreadable_entry {problem key, field} unknown_reference {a word, key}: "kind." and pile, step,
//                                           tub, reading, cut, person, entry or price
//   loss_negative {step, gap, 2 x standard uncertainty}   loss_high {step, loss, its share, limit}
//   explain_repeated {pile, typed weight} explain_tare {tub, how many times, tare}
//   explain_tare_twice {tub or pile, how many times, tare}
//   explain_unit {pile or incoming weight, typed, as it may have been meant}
//   explain_sign {pile, typed}            tub_below_readings {pile, typed, gap}
//   tub_circular {pile}                   taken_more_than_pile {pile, excess}
//   incoming_order {larger, its weight, smaller, its weight}   two_by_difference {step, count}
//   net_cost_negative {amount}                                 tare_over_reading {pile, typed, tare}
//   step_circular {step}                  currency_mixed {fact priced, its currency, the session's}
//   tubs_apart {pile, the earlier total as typed, the later one, weight counted in both}
//   difference_readings {pile, count}
struct Doubt {
  Code code{};
  std::string where;  // "step main", "pile portions", "fact price:piece", "session"
  std::vector<EntryId> entries;
  Args args;
  std::optional<Mass> amount;  // e.g. size of the gap, excess or loss
  friend bool operator==(const Doubt&, const Doubt&) = default;
};

// One live or dead reading as shown in lists.
struct ReadingLine {
  EntryId id;
  std::string pile;  // after moves
  Habit habit{};
  std::string typed;  // as entered
  WeightStyle style{};
  unsigned count = 1;
  // After tare and sign; for tub_now what it adds beyond what it covers, less what was carried off to
  // another pile after it. Of the lines that are
  // neither void nor outvoted the sum is the pile's weight but for transfers.
  Mass net;
  bool is_void = false;
  bool covered = false;  // included in a later tub reading
  bool moved = false;
  bool outvoted = false;  // another correction of the same reading counts instead
  std::uint64_t seq = 0;
};

struct PileFigures {
  std::string key, name, step = "main", use;
  Role role{};
  std::optional<EntryId> defined_by;
  Measured weighed;        // sum of its live readings, tub rule applied, transfers included
  Measured carried;        // to piles of other steps
  Measured from_apart;     // carried here from piles that are not counted: in weighed, not in kept
  Measured taken_further;  // by later steps and carried to their piles, cooking apart
  // What the yield test counts: weighed - taken_further, less what was carried here from a pile that
  // is not counted.
  Measured kept;
  unsigned pieces = 0;  // pieces of its piece and taken-off readings
  bool by_difference = false;
  bool weight_known = true;        // false: by difference, and the step's input is not known
  bool counted = true;             // false: its step hangs on nothing; not in the yield test
  std::vector<ReadingLine> lines;  // in order, voided ones included
  std::optional<PricePerMass> value;
  std::optional<Money> worth;  // kept x value; unusable trim without a value: 0
  double share_of_ap = 0.0;    // kept / W; 0 while W is unknown
  double share_uncertainty = 0.0;
};

struct StepFigures {
  std::string key, name, from_pile;
  Process process{};
  // Drained weight for "main", else what was taken from the pile; plus what was carried in from
  // piles of other steps.
  std::optional<Measured> input;
  std::optional<Measured> taken;      // of the pile it goes on from; absent for "main"
  Measured outputs;                   // sum of its piles, as weighed
  std::optional<Measured> on_board;   // latest re-weighed remainder
  std::optional<Measured> unweighed;  // input - outputs: loss in cutting if work stops now
  std::optional<Measured> loss;       // the same, unless a pile is by difference
  std::optional<Measured>
      missing_now;                   // input - outputs so far - remainder, at the latest remainder
  bool read_since_on_board = false;  // something was weighed after that remainder
  std::optional<double> loss_share;  // loss / input
  std::map<std::string, Measured> checkpoints;
  bool reached = true;  // false: no chain of piles leads from the purchase here
  bool counted = true;  // false: not reached, or cooking and what goes on from it
};

struct IncomingFigures {
  std::optional<Measured> invoice, received, drained, packaging, purge;
  unsigned pieces = 1;
  // W: invoice, else received, else drained (then drained + packaging + purge if those are given).
  std::optional<Measured> as_purchased;
  std::string as_purchased_from;  // "invoice", "received", "drained"
  // What carries the balance: drained, else received - packaging - purge, else invoice - packaging -
  // purge.
  std::optional<Measured> on_the_board;
  std::optional<Measured>
      short_delivery;  // invoice - (drained + packaging + purge); drained absent:
                       // invoice - received
  std::optional<Measured> received_short;  // invoice - received
};

// Costs of a unit of the primary part at a new AP price: F x p', and (W p' - V) / primary.
struct PriceUpdate {
  PricePerMass new_price, values_move, values_held;
};

struct TargetFigures {
  std::string pile;
  Mass target, tolerance;
  bool own_tolerance = false;
  WeightStyle style{};
  std::vector<Mass> singles;               // pieces weighed one by one, net, in order
  std::optional<PortionFigures> portions;  // of them
  unsigned not_single = 0;                 // pieces weighed together, not in the spread
  std::optional<Money> over_target_cost;
  std::optional<Money> cost;              // target x u
  std::optional<Money> cost_with_labour;  // target x (N + L) / primary
  std::optional<Money> cost_no_credit;
  std::optional<double> factor;  // portion cost / price per price unit, in price-unit mass
  long whole_portions = 0;       // floor(pile weight / target)
};

struct EyeCallFigures {
  Role role{};
  double called = 0.0;  // share of AP
  std::optional<double> weighed;
};

struct Settings {
  std::string currency = "EUR";
  std::string unit = "g";         // entry unit: g kg oz lb lb-oz
  std::string price_unit = "kg";  // kg or lb
  TypedMass division;             // default "1/8 oz" for units oz and lb-oz, else "1 g"
  double loss_limit = 0.02;
  std::optional<Money> wage_per_hour;
  std::map<std::string, std::string> all;  // as entered
};

struct TubFigures {
  std::string key, name;
  TypedMass tare;
  std::optional<EntryId> defined_by;
};

struct NoteLine {
  EntryId id;
  std::string text;
  std::optional<EntryId> about;
  bool next = false;  // for the next piece of the line
};

struct PersonLine {
  EntryId id;
  std::string name;
};

// A ready-cut price for so many pieces: amount / (pieces x each) is the price per weight.
struct PiecePrice {
  Money amount;
  unsigned pieces = 1;
  std::optional<TypedMass> each;  // absent: not stated, and no one target to take
  bool each_from_target = false;  // else stated with the price
};

struct Figures {
  std::string piece, species, cut;
  std::map<std::string, std::string> lot;  // field -> value
  std::string specification;
  std::map<std::string, bool> quality;
  Settings settings;
  IncomingFigures incoming;
  std::vector<StepFigures> steps;  // "main" first, then in order of entry
  std::vector<PileFigures> piles;  // in order of first definition
  std::vector<TubFigures> tubs;
  std::vector<PersonLine> people;
  std::vector<NoteLine> notes;
  // money
  bool price_known = false;        // a price of the purchase in the session's currency
  std::optional<Money> cost;       // C
  std::optional<YieldTest> yield;  // once W, a price of the purchase or a value of a pile is known
  Measured primary, secondary, usable_trim, unusable_trim;  // kept, summed over steps
  std::optional<Measured> loss;      // summed over breakdown steps; absent if one is
  Measured change_of_weight;         // input - outputs of all other steps, summed
  double primary_uncertainty = 0.0;  // of primary / W
  std::optional<Money> labour;       // L
  double minutes = 0.0;              // timed + typed
  double minutes_timed = 0.0;        // of them, measured by the timer
  double minutes_typed = 0.0;
  bool minutes_known = false;  // there are labour entries
  bool labour_known = false;
  std::optional<MakeOrBuy> make_or_buy;
  std::optional<PricePerMass> ready_cut;            // as quoted
  double ready_cut_yield = 1.0;                     // its own yield to the same trim
  std::optional<PricePerMass> ready_cut_same_trim;  // ready_cut / ready_cut_yield
  std::optional<PiecePrice> piece_price;            // where it was quoted for pieces
  // Why a price that was entered gives no price per weight: need_ready_cut_pieces (a total, but for how
  // many pieces), need_piece_weight.
  std::optional<Code> ready_cut_need;
  std::string miscut_pile;    // usable-trim pile of the highest value, or ""
  PricePerMass miscut_value;  // v; 0 when there is no such pile
  std::vector<TargetFigures> targets;
  std::vector<EyeCallFigures> eye_calls;
  std::vector<Doubt> doubts;
  std::vector<Code> needs;  // for the headline figures, in order
  std::size_t entry_count = 0;
};

Figures figures_of(const EntrySet& set, const std::vector<std::string>& left_out = {});

// What a further step of that process may still take of a pile: what no other step and no transfer to
// another step has taken, never below nothing. Cooking leaves the pile to the others; they leave
// nothing to it. `but` is the key of a step whose own taking is not counted. Absent while the weight
// of the pile is not known.
std::optional<Measured> left_of(const Figures& figures, const PileFigures& pile, Process process,
                                const std::string& but = {});

// Null where there is none of that key, or no target for the pile.
const PileFigures* pile_named(const Figures& figures, const std::string& key);
const TubFigures* tub_named(const Figures& figures, const std::string& key);
const TargetFigures* target_of(const Figures& figures, const std::string& pile);

// What the cost of the purchase went to: the net cost of the primary part, then every valued pile;
// `shown` in units of 10^-decimals, so that the lines add up to the cost rounded half up, away from
// zero (largest remainders). Empty while the net cost is unknown.
struct CostLine {
  std::string pile;  // "" for the primary part
  Money exact;
  std::int64_t shown = 0;
};
std::vector<CostLine> cost_lines(const Figures& figures, int decimals = 2);

// "g", "kg", "oz", "lb" or "lb-oz"; grams for any other text.
WeightStyle style_named(std::string_view unit);
// A weight in the session's unit: g 0 decimals (1 below 10 g), kg 3, oz 1, lb 2, lb-oz 1; half even.
std::string shown_mass(Mass mass, WeightStyle style);
std::string shown_mass(Mass mass, const Settings& settings);
// A value of a doubt as reports hold it: a point for the decimal mark, weights as shown_mass, money with two
// decimals (half away from zero), words and facts by their keys without the list, the piece as "main".
std::string text_of(const Arg& arg, const Settings& settings = {});

// Update of the cost per primary unit to a new AP price; absent while the yield test lacks figures.
std::optional<PriceUpdate> price_update(const Figures& figures, PricePerMass new_price);

}  // namespace tallyblock
