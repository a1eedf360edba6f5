// What happened to a piece, in order: cuts with what they gave, weighings without a cut, faces,
// re-weighed remainders. Internal to cutting.cpp.
#pragma once
#include <map>
#include <string>
#include <vector>

#include "core/cutting/cutting.h"
#include "core/session/facts.h"

namespace tallyblock {

class CuttingEvents {
 public:
  // Keeps references: facts and figures must outlive it.
  CuttingEvents(const Facts& facts, const Figures& figures, const std::string& step);

  // Runs the guide over the events of the object and fills its cuts, advice and what is known now.
  void run(PlanInput input, const CookPrior& cook, CuttingObject& object) const;
  // Lowers what is wanted by the portions cut from other objects.
  void take_elsewhere(const std::string& long_piece, std::vector<PortionSpec>& specs) const;

 private:
  struct Weighed {
    std::string pile;
    Mass net;
    unsigned count = 1;
    bool sure = false;
    TypedWeight typed = {};
  };
  struct Event {
    const Entry* entry = nullptr;
    std::string long_piece;
    std::vector<Weighed> weighed;  // of a cut, or the one without
    bool closed = false;           // of a cut
  };
  void gather(const Entry& entry);
  struct Portions {
    CutLine line;
    std::vector<const Weighed*> counted;  // without what was trimmed off
  };
  Portions portions_of(const Event& event, const std::vector<PortionSpec>& specs) const;
  void apply(const Event& event, const std::vector<PortionSpec>& specs, Guide* guide,
             CuttingObject& object) const;

  const Figures& figures_;
  std::string step_;
  std::map<EntryId, Weighed> readings_;  // those that count, of this step
  std::map<EntryId, std::size_t> cuts_;  // place in events_
  std::vector<Event> events_;
};

}  // namespace tallyblock
