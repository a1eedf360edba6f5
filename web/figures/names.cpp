#include "names.h"

#include <algorithm>

#include "web/words/words.h"

namespace tallyblock {

std::string title_of(const Figures& figures) {
  const std::string name = figures.piece.empty() ? say("sessions.untitled") : figures.piece;
  const bool sample = figures.settings.all.contains(std::string(kSampleSetting));
  return sample ? say("sample.title", {name}) : name;
}

std::string person_name(const Figures& figures, const EntryId& id) {
  for (const PersonLine& person : figures.people) {
    if (person.id == id) return person.name;
  }
  return {};
}

std::uint8_t place_in_role(const Figures& figures, const PileFigures& pile) {
  unsigned before = 0;
  for (const PileFigures& other : figures.piles) {
    if (other.key == pile.key) break;
    if (other.role == pile.role) ++before;
  }
  return static_cast<std::uint8_t>(std::min(before, 255U));
}

}  // namespace tallyblock
