// Small shared pieces of the widgets.
#pragma once
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "frame.h"

namespace tallyblock::parts {

inline TextLook words(const Frame& f, float css_size, Colour colour) {
  TextLook look;
  look.size = f.type(css_size);
  look.colour = colour;
  return look;
}

// Both with the separator between, or the one that is not empty.
inline std::string joined(std::string_view a, std::string_view separator, std::string_view b) {
  std::string out(a);
  if (!a.empty() && !b.empty()) out += separator;
  out += b;
  return out;
}

inline void card(const Frame& f, Node& n, bool held) {
  const Palette& p = f.colours();
  n.ground = held ? p.pressed : p.raised;
  n.border = p.edge_soft;
  n.border_w = f.px(style::edge);
  n.corner = f.px(style::corner);
  n.pad_x = f.px(style::pad);
  n.pad_y = f.px(style::gap);
}

inline void toggle(std::vector<std::uint32_t>& set, std::uint32_t id) {
  const auto at = std::find(set.begin(), set.end(), id);
  if (at == set.end()) {
    set.push_back(id);
  } else {
    set.erase(at);
  }
}

// Makes a drawing a target and says which of its regions (Frame::regions) was just touched: the one under the
// finger; of a press without a place the one after that which is lit, and after the last the same again.
std::optional<std::size_t> touched_region(Frame& f, int node, std::uint32_t id,
                                          std::string_view sentence,
                                          std::optional<std::size_t> lit);

}  // namespace tallyblock::parts
