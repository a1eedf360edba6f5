#include "cutting_now.h"

#include <algorithm>
#include <utility>

#include "core/base/sorted.h"
#include "line_of.h"

namespace tallyblock {

const CuttingView* CuttingNow::main() const {
  for (const CuttingView& view : views) {
    if (view.step == kMainStep) return &view;
  }
  return nullptr;
}

CuttingNow cutting_in(const OpenSession& session) {
  CuttingNow now;
  now.views = cutting_of(session.set, session.figures);
  now.stations = stations_of(session);
  now.open_end = open_end_of(session, now.stations);
  return now;
}

std::vector<StationLine> stations_of(const OpenSession& session) {
  std::vector<StationLine> lines;
  const LiveView live(session.set);
  for (const Entry* entry : live.entries()) {
    const auto* b = std::get_if<body::Station>(&entry->body);
    if (b == nullptr || b->step != kMainStep) continue;
    StationLine line{entry->id, b->at, b->width, b->depth, b->fill};
    const auto same = std::ranges::find_if(
        lines, [&](const StationLine& other) { return other.place() == line.place(); });
    if (same != lines.end()) {
      *same = std::move(line);  // the later one counts
    } else {
      lines.push_back(std::move(line));
    }
  }
  heap_sort(lines,
            [](const StationLine& a, const StationLine& b) { return a.place() < b.place(); });
  return lines;
}

std::string open_end_of(const OpenSession& session, const std::vector<StationLine>& stations) {
  const auto& all = session.figures.settings.all;
  const auto found = all.find(kPieceLength);
  if (found == all.end()) return {};
  const auto length = parse_length(found->second, "length");
  const bool measured = length && !stations.empty() && stations.back().place() >= length->length;
  return length && !measured ? found->second : std::string();
}

LengthUnit ruler_unit_of(const OpenSession& session) {
  const std::string_view name = ruler_of(session.figures.settings);
  return name == "in"   ? LengthUnit::inch
         : name == "cm" ? LengthUnit::centimetre
                        : LengthUnit::millimetre;
}

}  // namespace tallyblock
