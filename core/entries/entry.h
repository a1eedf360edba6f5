// Entries: the immutable facts a session is made of.
//
// Everything shown is computed from the set of entries. An entry has an identity (writer + counter),
// a place in the order (logical counter, then id), wall time for show, and a body of one kind.
// Kinds and fields this code does not know are kept in `text` and exported unchanged.
// The stored form of every field, with its limits, is in FORMAT.md and session.schema.json; names of
// kinds, roles, habits and keys are frozen once released.
// Where a body has a `division`, an empty text means that none was stated: the session's setting
// "division" applies then.
#pragma once
#include <compare>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/base/problem.h"
#include "core/base/units.h"
#include "core/typed/typed.h"

namespace tallyblock {

inline constexpr std::uint64_t kMaxSeq = (1ull << 53) - 1;  // JSON numbers are exact up to here
inline constexpr std::uint32_t kMaxCounter = 1u << 31;
inline constexpr std::int64_t kMaxUtcMs = 253402300799999;  // 9999-12-31T23:59:59.999Z
inline constexpr std::size_t kWriterLength = 10;
inline constexpr std::size_t kSessionIdLength = 20;

// writer: 10 characters of [0-9a-hjkmnp-tv-z], drawn at random at each start of the app; counter
// from 1 within (writer, session). Text form "writer.counter". Order: writer, then counter as number.
struct EntryId {
  std::string writer;
  std::uint32_t counter = 0;
  auto operator<=>(const EntryId&) const = default;
};
std::string to_text(const EntryId& id);
// Absent unless `text` is exactly what to_text would write for a valid id.
std::optional<EntryId> entry_id_from(std::string_view text);
// True if `text` has `length` characters, all of the writer alphabet.
bool is_drawn_id(std::string_view text, std::size_t length);
// True for a key: [a-z0-9-]{1,40}.
bool is_key(std::string_view text);

struct Stamp {
  std::int64_t utc_ms = 0;  // milliseconds since 1970-01-01 UTC, for show
  int offset_minutes = 0;   // local time = UTC + offset
  friend bool operator==(const Stamp&, const Stamp&) = default;
};

enum class Role { primary, secondary, usable_trim, unusable_trim };
enum class Habit { piece, increment, tub_now, taken_off };
enum class Incoming { invoice, received, drained, packaging, purge };
enum class Process { breakdown, cooking, brine, grinding, other };
enum class PriceBasis { per_mass, total };

namespace body {

// What is on the board. Fact "piece".
struct Piece {
  std::string name, species, cut;
};
// A setting of the session (tolerance, division, currency, wage, convention). Fact "setting:<key>".
// Known keys and values: "currency" ISO code; "division" weight ("1 g"); "unit" one of g kg oz lb
// lb-oz; "wage" number per hour; "loss-limit" percent text ("2 %"); "tolerance" weight or "imps";
// "price-unit" kg or lb; "decimal-mark" . or ,
struct Setting {
  std::string key, value;
};
// Lot facts, all optional. field: lot, pack-date, establishment, supplier, receiving-temperature
// ("3.5 C"). Fact "lot:<field>".
struct Lot {
  std::string field, value;
};
// Trim specification as text. Fact "specification".
struct Specification {
  std::string text;
};
// Quality check. check: membrane, nerve, gouges, lean-on-waste; result: pass, fail.
// Fact "quality:<check>".
struct Quality {
  std::string check;
  bool pass = true;
};
// A further step on a weight taken from a pile. Fact "step:<key>". Key "main" is the breakdown of
// the purchase and exists without an entry. `weight` absent: the whole pile.
struct Step {
  std::string key, name;
  Process process{};
  std::string from_pile;
  std::optional<TypedMass> weight;
  TypedMass division;
};
// A pile. Fact "pile:<key>": a later entry renames or changes it, naming what it replaces.
// use: free text or one of grind, stew, stock, render, garnish, staff, waste.
struct Pile {
  std::string key, step = "main", name;
  Role role{};
  std::string use;
};
// Not weighed, by difference. Fact "by-difference:<pile>".
struct ByDifference {
  std::string pile;
  bool on = true;
};
// One of the incoming weights. Fact "incoming:<which>". count: how many pieces came.
struct IncomingWeight {
  Incoming which{};
  TypedMass weight;
  TypedMass division;
  unsigned count = 1;
};
// One reading of the scale for a pile. weight is the figure shown by the scale: gross if a tub or
// tare is named, negative for taken_off. count: how many pieces lay on the scale. covers: for
// tub_now, the readings this total includes. cut: the cut this weighs.
struct Reading {
  std::string pile;
  Habit habit{};
  TypedMass weight;
  TypedMass division;
  unsigned count = 1;
  std::string tub;
  std::optional<TypedMass> tare;
  std::vector<EntryId> covers;
  std::optional<EntryId> cut;
  bool sure = false;  // improbable, asked about, and right
};
// What is left on the board, re-weighed: not an output. The latest live one of a step counts.
struct Remainder {
  std::string step = "main";
  TypedMass weight;
  TypedMass division;
};
// A check weight on the way, e.g. "cleaned" before portioning: not an output. Fact
// "checkpoint:<step>:<name>".
struct Checkpoint {
  std::string step = "main", name;
  TypedMass weight;
  TypedMass division;
};
// A named tub and its tare. Fact "tub:<key>".
struct Tub {
  std::string key, name;
  TypedMass tare;
  TypedMass division;
};
// A reading belongs to another pile. Fact "move:<reading id>".
struct Move {
  EntryId reading;
  std::string to_pile;
};
// An amount was carried from one pile to another. Additive.
struct Transfer {
  std::string from_pile, to_pile;
  TypedMass weight;
  TypedMass division;
};
// A price. of: "piece" (the purchase), "ready-cut", or "pile:<key>" (value of that pile, may be
// negative: disposal). unit: g, kg, oz or lb for per_mass. quoted_yield: for ready-cut, its own yield
// to the same trim, percent text, above 0. Format 1.3, of ready-cut with basis total only: the amount buys
// so many pieces of such a weight each (absent: the session's target). Fact "price:<of>".
struct Price {
  std::string of;
  PriceBasis basis{};
  TypedNumber amount;
  std::string unit, currency;
  std::optional<TypedNumber> quoted_yield;
  std::optional<unsigned> pieces = std::nullopt;
  std::optional<TypedMass> piece_weight = std::nullopt;
};
// Time worked, minutes typed or timed (milliseconds as measured by one phone). Additive: minutes that
// stand instead of others name those in `replaces`.
struct Labour {
  std::optional<TypedNumber> minutes;
  std::optional<std::int64_t> measured_ms;
};
// Portion target and own tolerance (absent: the session's setting). Fact "target:<pile>".
struct Target {
  std::string pile;
  TypedMass weight;
  std::optional<TypedMass> tolerance;
};
// The guess before weighing: share of AP weight for a role, percent text. Fact "eye-call:<role>".
struct EyeCall {
  Role role{};
  TypedNumber share;
};
// A cut and the advice it followed. The weighing is a Reading naming it.
struct Cut {
  std::string step = "main";
  std::optional<TypedLength> mark;
  std::optional<TypedMass> target;
  std::string plan;
};
// People appear only here. Fact "person:<entry id of the first>": an entry that renames a person
// names the first entry of that person first in `replaces`; `by` always names the first.
struct Person {
  std::string name;
};
// about: the entry the note is on, if any. Format 1.4, next: it is for the next piece of the line, and shown
// when that one is begun.
struct Note {
  std::string text;
  std::optional<EntryId> about;
  bool next = false;
};
// Takes the target out. May arrive first, may itself be voided.
struct Void {
  EntryId target;
};
// Format 1.1: where to put the knife (cutting.h).
// A place measured along the cleaned piece of a step: distance from the first face (absent: 0), width
// across, depth, how the face fills its box (percent, 50 to 100; absent: 100). Additive.
struct Station {
  std::string step = "main";
  std::optional<TypedLength> at;
  TypedLength width, depth;
  std::optional<TypedNumber> fill;
};
// Limits of a block and what is lost. Fact "plan-limits:<step>". k_max: at most so many long pieces;
// k_only: just so many; both 1 to 4.
struct PlanLimits {
  std::string step = "main";
  std::optional<TypedLength> thickness_min, thickness_max, least;
  std::optional<TypedLength> trim_front, trim_back, saw;
  std::optional<std::int64_t> k_max, k_only;
};
// How many portions are wanted of a pile with a target; without it as many as possible. Fact
// "wanted:<pile>".
struct Wanted {
  std::string pile;
  unsigned count = 1;
};
// One of the `of` equal long pieces of the stretch from..to (absent: the ends), weighed by itself.
// Fact "long-piece:<step>:<key>".
struct LongPiece {
  std::string step = "main", key;
  std::int64_t of = 2;
  std::optional<TypedLength> from, to;
  TypedMass weight;
  TypedMass division;
};
// The face now showing, measured while cutting. Additive; its place in the order says when.
struct Face {
  std::string step = "main", long_piece;
  TypedLength width, depth;
};
// Format 1.2: no more portions come of a cut, though more were advised. Kept.
struct CutClosed {
  EntryId cut;
};
// Format 1.4: the line of the log that the session belongs to. Fact "line". A session without it belongs to
// the line whose key is its own id: "same again" and tying write the line's key, parting the session's own
// id. start: the limits of the line's chart are fixed anew from this piece on.
struct Line {
  std::string key;
  bool start = false;
};
// A kind this code does not know, or one it knows but cannot read (problem says why).
struct Unknown {
  std::string kind;
  std::optional<Problem> problem;
};

}  // namespace body

using Body =
    std::variant<body::Piece, body::Setting, body::Lot, body::Specification, body::Quality,
                 body::Step, body::Pile, body::ByDifference, body::IncomingWeight, body::Reading,
                 body::Remainder, body::Checkpoint, body::Tub, body::Move, body::Transfer,
                 body::Price, body::Labour, body::Target, body::EyeCall, body::Cut, body::Person,
                 body::Note, body::Void, body::Station, body::PlanLimits, body::Wanted,
                 body::LongPiece, body::Face, body::CutClosed, body::Line, body::Unknown>;

struct Entry {
  EntryId id;
  std::uint64_t seq = 0;  // logical counter, 1 + highest seen
  Stamp time;
  std::optional<EntryId> by;      // the person entry of who is cutting
  std::vector<EntryId> replaces;  // at most 5000
  Body body;
  std::string text;  // canonical JSON text; decides identity and conflicts
};

// The order of entries: seq, then id.
bool before(const Entry& a, const Entry& b);

// The frozen names used in files, e.g. "unusable-trim", "tub-now", "per-mass".
std::string_view name_of(Role role);
std::string_view name_of(Habit habit);
std::string_view name_of(Incoming which);
std::string_view name_of(Process process);
std::string_view name_of(PriceBasis basis);

// The other way; absent for a name not known.
std::optional<Role> role_from(std::string_view name);
std::optional<Habit> habit_from(std::string_view name);
std::optional<Incoming> incoming_from(std::string_view name);
std::optional<Process> process_from(std::string_view name);
std::optional<PriceBasis> price_basis_from(std::string_view name);

// The kind as named in files: "piece", "by-difference", ...; for an unknown body the kind it came
// with.
std::string_view kind_name(const Body& body);

}  // namespace tallyblock
