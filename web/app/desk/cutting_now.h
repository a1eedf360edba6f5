// Where to put the knife in a session: what was measured, and what the core finds for it. Its step is "main".
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/cutting/cutting.h"
#include "core/cutting/ruler.h"
#include "open_session.h"

namespace tallyblock {

// Setting of a session: its length as typed, until its far end is measured.
inline constexpr const char* kPieceLength = "piece-length";

// A station that counts, as entered.
struct StationLine {
  EntryId id;
  std::optional<TypedLength> at;  // absent: the first face
  TypedLength width, depth;
  std::optional<TypedNumber> fill;
  Length place() const { return at ? at->length : Length(); }
};

struct CuttingNow {
  std::vector<CuttingView> views;
  std::vector<StationLine> stations;
  std::string open_end;
  // That of the step "main", or null.
  const CuttingView* main() const;
};

CuttingNow cutting_in(const OpenSession& session);
// Along the piece, those that count.
std::vector<StationLine> stations_of(const OpenSession& session);
// The length as typed while the far end is not measured, else "".
std::string open_end_of(const OpenSession& session, const std::vector<StationLine>& stations);
// As the session's lengths are shown.
LengthUnit ruler_unit_of(const OpenSession& session);

}  // namespace tallyblock
