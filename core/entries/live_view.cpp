// LiveView: which entries of a set are void, replaced, live.
#include <ranges>
#include <string_view>
#include <utility>

#include "entry_set.h"

namespace tallyblock {
namespace {

const EntryId* void_target(const Entry& entry) {
  const auto* taking_out = std::get_if<body::Void>(&entry.body);
  return taking_out ? &taking_out->target : nullptr;
}

// The voids of a set and whether each takes effect. A void has one target, so that voids of voids
// form chains and trees, each ending at most in one circle.
class VoidGraph {
 public:
  explicit VoidGraph(const std::vector<const Entry*>& in_order) {
    for (const Entry* entry : in_order) {
      if (const EntryId* target = void_target(*entry)) {
        voids_.push_back(entry);
        nodes_.emplace(entry->id, Node{target, 0, State::open});
      }
    }
    for (auto& [id, node] : nodes_) {
      const auto aimed_at = nodes_.find(*node.target);
      if (aimed_at != nodes_.end()) ++aimed_at->second.open_voids;
    }
    for (const Entry* entry : voids_) {
      if (nodes_.at(entry->id).open_voids == 0) settle_from(entry->id);
    }
    // What is still open lies on a circle: its first in order takes effect.
    for (const Entry* entry : voids_) settle_from(entry->id);
  }

  const std::vector<const Entry*>& voids() const { return voids_; }
  bool takes_effect(const EntryId& id) const { return nodes_.at(id).state == State::effective; }

 private:
  enum class State { open, effective, dead };
  struct Node {
    const EntryId* target;
    std::size_t open_voids;  // voids on this one whose state is open
    State state;
  };

  // Settles an open void as effective, then all that follows from it.
  void settle_from(const EntryId& id) {
    Node* node = &nodes_.at(id);
    if (node->state != State::open) return;
    node->state = State::effective;
    for (;;) {
      const auto next = nodes_.find(*node->target);
      if (next == nodes_.end() || next->second.state != State::open) return;
      --next->second.open_voids;
      if (node->state == State::effective) {
        next->second.state = State::dead;
      } else if (next->second.open_voids == 0) {
        next->second.state = State::effective;
      } else {
        return;
      }
      node = &next->second;
    }
  }

  std::vector<const Entry*> voids_;
  std::map<EntryId, Node> nodes_;
};

}  // namespace

LiveView::LiveView(const EntrySet& set) : set_(&set) {
  const std::vector<const Entry*> ordered = set.in_order();
  find_void(ordered);
  find_replaced(ordered);
  for (const Entry* entry : ordered) {
    if (!void_target(*entry) && !is_void(entry->id) && !is_replaced(entry->id))
      live_.push_back(entry);
  }
}

void LiveView::find_void(const std::vector<const Entry*>& ordered) {
  const VoidGraph graph(ordered);
  for (const Entry* entry : graph.voids()) {
    const EntryId& target = *void_target(*entry);
    if (!graph.takes_effect(entry->id)) {
      void_.insert(entry->id);
      continue;
    }
    // The void that closes a circle aims at one that takes effect all the same.
    const Entry* aimed_at = set_->find(target);
    if (aimed_at && void_target(*aimed_at) && graph.takes_effect(target)) continue;
    void_.insert(target);
    voids_of_[target].push_back(entry->id);
  }
}

void LiveView::find_replaced(const std::vector<const Entry*>& ordered) {
  // From the last to the first: whatever replaces an entry comes later in order, so that it has been
  // decided before. A void entry hands on only what replaces it.
  for (const Entry* at : std::views::reverse(ordered)) {
    const Entry& entry = *at;
    if (is_void(entry.id) && !is_replaced(entry.id)) continue;
    for (const EntryId& id : entry.replaces) {
      const Entry* target = set_->find(id);
      if (target && before(*target, entry)) replaced_.insert(id);
    }
  }
}

bool LiveView::is_void(const EntryId& id) const { return void_.contains(id); }
bool LiveView::is_replaced(const EntryId& id) const { return replaced_.contains(id); }
bool LiveView::is_live(const EntryId& id) const {
  return set_->find(id) != nullptr && !is_void(id) && !is_replaced(id);
}

std::vector<EntryId> LiveView::voids_of(const EntryId& id) const {
  const auto found = voids_of_.find(id);
  return found == voids_of_.end() ? std::vector<EntryId>{} : found->second;
}

}  // namespace tallyblock
