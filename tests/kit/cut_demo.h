// An invented boneless loin of 600 mm, measured, planned and cut, for the tests of its drawings.
#pragma once
#include <cmath>
#include <limits>
#include <string>

#include "web/kit/cut_drawing.h"

namespace tallyblock::test {

inline constexpr float nan = std::numeric_limits<float>::quiet_NaN();
inline constexpr float infinite = std::numeric_limits<float>::infinity();

// An invented boneless loin, tapering.
inline CutDrawing loin(int stations = 3) {
  CutDrawing d;
  d.length = 600;
  for (int i = 0; i < stations; ++i) {
    const float share = static_cast<float>(i) / static_cast<float>(std::max(1, stations - 1));
    const float at = std::round(600 * share), width = 130 - 40 * share * share;
    const std::string place = std::to_string(static_cast<int>(at));
    CutStation& station = d.stations.emplace_back();
    station.at = at;
    station.width = width;
    station.label = place;
    station.name = "Station at " + place + " mm";
  }
  d.name = "The piece from above, 600 mm long.";
  return d;
}

inline CutDrawing planned(int blocks = 15) {
  CutDrawing d = loin();
  d.trim_front = 10;
  d.trim_back = 15;
  const float each = 575.0F / static_cast<float>(blocks);
  for (int i = 0; i < blocks; ++i) {
    const float from = 10 + each * static_cast<float>(i);
    d.blocks.push_back({from, from + each, 2, std::to_string(i + 1), CutState::planned});
    d.marks.push_back(std::to_string(static_cast<int>(from + each)));
  }
  d.marks.back() += " mm";
  d.sections = {{10, 585, {0.5F}}};
  return d;
}

inline CutDrawing guided(int next = 5) {
  CutDrawing d = planned();
  const CutState before[] = {CutState::cut,    CutState::over,      CutState::cut,
                             CutState::short_, CutState::unweighed, CutState::taken_out,
                             CutState::cut};
  for (int i = 0; i < next; ++i) d.blocks[static_cast<std::size_t>(i)].state = before[i % 7];
  d.blocks[static_cast<std::size_t>(next)].state = CutState::next;
  d.cut_to = d.blocks[static_cast<std::size_t>(next)].from;
  d.sections.clear();
  return d;
}

inline CutFaceShape oval_in_thirds() {
  return {130, 80, 2, {0.367F, 0.633F}, "130 mm", "80 mm", {"1", "2", "3"}, "From the end."};
}

}  // namespace tallyblock::test
