// Where the weight and the money went, line by line, so that both add up.
//
// Weight: every pile's kept weight, packaging, purge, short delivery, and the rest, which is the loss
// in cutting if work stops now; together the weight as purchased. Money: what was paid; a pile that
// is not portions carries its worth (0 where it has none), the portions the remainder by weight.
// Every part is rounded by itself, so that it has the same digits wherever it is shown; whether the
// parts then add up is told. Shown cents add up (core's cost lines).
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "show.h"

namespace tallyblock {

struct BreakdownRow {
  std::string name;
  std::optional<Role> role;  // of a pile; else a part of the delivery, or the rest
  std::uint8_t place = 0;    // among those of its role, or of the delivery (from 1)
  Mass weight;
  Money money;
  std::string weight_shown, share_shown, money_shown;  // empty where not known
  bool is_rest = false;
  std::string pile = {};  // key
};

struct Breakdown {
  std::vector<BreakdownRow> rows;  // in the order of the piles, the rest last
  std::optional<Mass> whole;       // W
  std::optional<Money> cost;       // C; money is known only with portions
  std::string whole_shown, cost_shown;
  bool adds_up = true;  // weights and shares, as shown
};

Breakdown breakdown_of(const Figures& figures, const show::Style& style);

}  // namespace tallyblock
