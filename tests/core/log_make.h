// Pieces of a log by hand, and sessions to make them of. Invented.
#pragma once
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/log/log_piece.h"
#include "make.h"
#include "session_builder.h"

namespace tallyblock::testing {

// Who did what in a session: person entries of these ids are not made here.
struct By {
  std::optional<EntryId> cook, judge;
};

inline EntrySet signed_by(const SessionBuilder& s, const By& by) {
  EntrySet set;
  for (Entry entry : s.entries()) {
    if (std::holds_alternative<body::Reading>(entry.body)) entry.by = by.cook;
    if (std::holds_alternative<body::Quality>(entry.body)) entry.by = by.judge;
    set.insert(sealed(std::move(entry)));
  }
  return set;
}
inline LogPiece piece_of(const EntrySet& set, const std::string& session = kSession) {
  return log_piece_of(session, set, figures_of(set));
}
inline LogPiece piece_of(const SessionBuilder& s) { return piece_of(s.set()); }

// 5 kg at 20.00 a kilo with 40 g of packaging: 3,400 g of portions, 300 g of secondary cuts, 700 g of grind at 6.00,
// 500 g of waste; 60 g are missing of B = 4,960 g.
inline SessionBuilder loin() {
  SessionBuilder s;
  s.named("Practice loin");
  s.setting("currency", "EUR");
  s.whole("5 kg");
  s.incoming(Incoming::packaging, "40 g");
  s.price("20", "kg");
  s.pile("portions", Role::primary);
  s.pile("skewers", Role::secondary);
  s.pile("grind", Role::usable_trim, "6", "kg");
  s.pile("waste", Role::unusable_trim);
  s.increment("portions", "3400 g");
  s.increment("skewers", "300 g");
  s.increment("grind", "700 g");
  s.increment("waste", "500 g");
  return s;
}

// The i-th piece of a line: closed and passed, with such shares of 5,000 g on the board.
struct Shares {
  double primary = 0.7, waste = 0.1, missing = 0.01;  // the rest is grind
};
inline LogPiece nth_piece(std::size_t i, const Shares& shares = {},
                          const std::string& line = "loins") {
  std::string id = std::to_string(100000 + i);
  id.insert(0, kSessionIdLength - id.size(), 's');
  const double grind = 1.0 - shares.primary - shares.waste - shares.missing;
  const PricePerMass six = PricePerMass::of(Money::units(6.0), MassUnit::kilogram);
  LogPiece piece;
  piece.session = id;
  piece.line = line;
  piece.first = {1760000000000 + static_cast<std::int64_t>(i) * 86400000, 60};
  piece.name = "Loin";
  piece.currency = "EUR";
  piece.cook = "Invented cook";
  piece.mark = LogMark::solid;
  piece.open = false;
  piece.board = Mass::grams(5000.0);
  piece.missing = Mass::grams(5000.0 * shares.missing);
  piece.primary = piece.prime = Mass::grams(5000.0 * shares.primary);
  piece.waste = Mass::grams(5000.0 * shares.waste);
  piece.usable = piece.primary + Mass::grams(5000.0 * grind);
  piece.piles = {{"portions", "Portions", Role::primary, shares.primary, {}},
                 {"grind", "Grind", Role::usable_trim, grind, six},
                 {"waste", "Waste", Role::unusable_trim, shares.waste, {}}};
  piece.bought = Mass::grams(5000.0);
  piece.cost = Money::units(100.0);
  piece.cost_per_portions =
      (Money::units(100.0) - Mass::grams(5000.0 * grind) * six) / piece.primary;
  piece.minutes = 20.0 + static_cast<double>(i);
  return piece;
}

}  // namespace tallyblock::testing
