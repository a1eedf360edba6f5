// The desk: the open session, what is derived of it when it is asked for, and how its acts are taken back.
#pragma once
#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "cutting_now.h"
#include "open_session.h"
#include "writing.h"

namespace tallyblock {

// How to take an act on the open session back: entries to void.
struct UndoStep {
  std::vector<EntryId> entries;
  std::string pile = {};  // the chosen one before a move chose another
};

class Desk {
 public:
  Desk();
  ~Desk();

  const OpenSession* session() const { return open_.get(); }
  bool is_open(const std::string& id) const { return open_ && open_->id == id; }
  bool any_entries() const { return open_ && !open_->set.empty(); }
  // Grows with every change of the session, and when another lies here.
  std::uint64_t revision() const { return revision_; }

  void lay(OpenSession session);  // in place of the one before
  void clear();
  // Preconditions: a session is open.
  void enter(const std::vector<Entry>& entries);
  void merge(const OpenSession& found);  // with what is stored of it

  // Where to cut; found anew only when the session has changed. Precondition: a session is open.
  const CuttingNow& cutting() const;
  // What other targets near by would give, in these steps; none without a plan.
  const std::vector<TargetChange>& nearby(Mass step) const;
  std::string ruler() const;  // of the session, "mm", "cm" or "in"
  LengthUnit ruler_unit() const;

  std::vector<UndoStep>& undo();  // of the open session, the last act last
  void can_undo(const std::vector<Entry>& entries);

 private:
  struct Derived;
  Derived& derived() const;
  void changed();

  std::unique_ptr<OpenSession> open_;
  std::uint64_t revision_ = 1;
  std::map<std::string, std::vector<UndoStep>> undo_;  // by session
  mutable std::unique_ptr<Derived> derived_;
};

}  // namespace tallyblock
