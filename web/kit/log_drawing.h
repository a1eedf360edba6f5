// One figure of several pieces in the order in which they were cut, drawn: each a mark with its whisker, what may
// be said of all of them as lines.
//
// Solid: quality checked and passed; half: passed by the cook alone; hollow: failed or not judged. A whisker
// reaches from the least to the most that a value may be; it has no cap where more may come.
#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "kit.h"

namespace tallyblock {

enum class MarkFill : std::uint8_t { solid, half, hollow };

struct PieceMark {
  float value = 0, low = 0, high = 0;  // value: what was weighed, one of the ends
  MarkFill fill = MarkFill::hollow;
  bool open = false;
  bool lit = false;
  bool parted = false;  // from the one before: another specification, or a new start
};

struct MarkLevel {
  float value = 0;
  std::string label;
};

struct LogDrawing {
  std::vector<PieceMark> marks;
  std::optional<MarkLevel> centre, lower, upper;
  bool provisional = false;             // dashed lines
  std::string first_label, last_label;  // below the ends, e.g. dates
  std::string name;                     // said for who does not see it
};

// The mark just touched, by its place. By key or reader it goes from mark to mark.
// Values that are not finite are left out.
std::optional<std::size_t> log_drawing(Kit& kit, std::string_view path, const LogDrawing& drawing);

}  // namespace tallyblock
