#include "desk.h"

#include <utility>

namespace tallyblock {
namespace {

constexpr std::size_t kMostUndo = 50;

}  // namespace

struct Desk::Derived {
  CuttingNow cutting;
  std::vector<TargetChange> nearby;
  bool nearby_known = false;
};

Desk::Desk() = default;
Desk::~Desk() = default;

void Desk::changed() {
  ++revision_;
  derived_.reset();
}

void Desk::lay(OpenSession session) {
  open_ = std::make_unique<OpenSession>(std::move(session));
  changed();
}

void Desk::clear() {
  open_.reset();
  changed();
}

void Desk::enter(const std::vector<Entry>& entries) {
  for (const Entry& entry : entries) open_->set.insert(entry);
  refresh(*open_);
  changed();
}

void Desk::merge(const OpenSession& found) {
  const EntrySet before = open_->set;
  const bool same_left_out = open_->left_out == found.left_out;
  open_->set.merge(found.set);
  open_->left_out = found.left_out;
  refresh(*open_);
  if (!same_left_out || !(open_->set == before)) changed();
}

Desk::Derived& Desk::derived() const {
  if (!derived_) derived_ = std::make_unique<Derived>(Derived{cutting_in(*open_), {}, false});
  return *derived_;
}

const CuttingNow& Desk::cutting() const { return derived().cutting; }

const std::vector<TargetChange>& Desk::nearby(Mass step) const {
  Derived& now = derived();
  const CuttingView* view = now.cutting.main();
  if (!now.nearby_known && view != nullptr && view->input) {
    now.nearby = nearby_targets(*view->input, step);
  }
  now.nearby_known = true;
  return now.nearby;
}

std::string Desk::ruler() const {
  return open_ ? std::string(ruler_of(open_->figures.settings)) : "mm";
}

LengthUnit Desk::ruler_unit() const {
  return open_ ? ruler_unit_of(*open_) : LengthUnit::millimetre;
}

std::vector<UndoStep>& Desk::undo() { return undo_[open_->id]; }

void Desk::can_undo(const std::vector<Entry>& entries) {
  std::vector<UndoStep>& steps = undo();
  UndoStep step;
  for (const Entry& entry : entries) step.entries.push_back(entry.id);
  steps.push_back(std::move(step));
  if (steps.size() > kMostUndo) steps.erase(steps.begin());
}

}  // namespace tallyblock
