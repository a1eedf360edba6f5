// All that the log needs of one session, so that the log never opens one. A pure function of the
// session's entries; it is kept beside them and can be made again.
//
// B is the weight on the board: all piles and what is missing. Weights are in grams, money in currency units,
// nothing is rounded. What is not known is absent, never infinite.
//
// Mark. solid: every quality check that counts passed, and each was judged by a named person who is none
// of those who cut (named in `by` of a counted weighing or cut; the same name is the same person). half:
// all passed, but one at least by a cook or by nobody named. hollow: a check failed, or there is none.
//
// Open: the sum of the piece is not closed. No weight on the board, nothing weighed, a pile of unknown
// weight, more missing than the session's limit allows of B, or more on the piles than there was, by more
// than the readings explain. That somebody said "all is weighed" closes no sum.
#pragma once
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/session/session.h"

namespace tallyblock {

enum class LogMark { hollow, half, solid };

// A pile that counts.
struct LogPile {
  std::string key, name;
  Role role{};
  double share = 0.0;  // of B
  std::optional<PricePerMass> value;
  friend bool operator==(const LogPile&, const LogPile&) = default;
};

// Portions weighed one by one, of the first pile with a target that has any.
struct LogPortions {
  std::size_t n = 0, within = 0;
  Mass target, mean;
  std::optional<Mass> s;  // n - 1; from two on
  friend bool operator==(const LogPortions&, const LogPortions&) = default;
};

// The call of three roles at least; the one that was not called is what the others leave of 100 %. Shares of the
// weight as purchased, as calls are. Of more than 100 % in all there is none.
struct LogEyeCall {
  std::array<double, 4> called{};  // primary, secondary, usable trim, unusable trim
  double error = 0.0;              // half the sum of the absolute differences from what was weighed
  double bias = 0.0;               // primary and secondary called, less weighed
  friend bool operator==(const LogEyeCall&, const LogEyeCall&) = default;
};

struct LogPiece {
  std::string session;  // id
  std::string line;     // key; the session's id where no entry names one
  bool start = false;   // the line's limits are fixed anew from here
  Stamp first;          // the earliest time that is known; utc_ms 0: none is
  std::string name, specification, currency;
  std::string cook;  // where all weighings name one person whose name is known; else ""
  std::string next;  // the last note for the next piece, or ""
  LogMark mark = LogMark::hollow;
  bool open = true;

  std::optional<Mass> board;           // B, above 0
  std::optional<Mass> missing;         // loss in cutting; absent where a pile is what is left
  Mass usable, waste, prime, primary;  // waste: unusable trim; prime: primary and secondary
  // Standard uncertainty (k = 1) of usable, waste and prime over B, from the scale alone.
  double usable_u = 0.0, waste_u = 0.0, prime_u = 0.0;
  std::vector<LogPile> piles;  // as in Figures; empty without B

  std::optional<LogPortions> portions;
  bool count_fixed = false;  // so many portions were wanted of a primary pile
  std::optional<LogEyeCall> eye_call;

  std::optional<Mass> bought;                     // W, above 0
  unsigned pieces = 1;                            // that came
  std::optional<Money> cost;                      // C, paid for W
  std::optional<PricePerMass> cost_per_portions;  // N / primary, labour apart
  std::optional<double> minutes;
  std::optional<Money> labour;
  friend bool operator==(const LogPiece&, const LogPiece&) = default;
};

// `figures` as figures_of() gives them for `set`.
LogPiece log_piece_of(const std::string& session, const EntrySet& set, const Figures& figures);

}  // namespace tallyblock
