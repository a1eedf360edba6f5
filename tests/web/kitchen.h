// A kitchen to try things in: an open session, another one, and one in the bin; and all that can be
// seen of a device's memory after a restart. Invented figures.
#pragma once
#include <sstream>

#include "fake_host.h"

namespace tallyblock::test {

inline constexpr StoreStatus kFaults[] = {
    StoreStatus::quota,   StoreStatus::aborted, StoreStatus::closed,     StoreStatus::timeout,
    StoreStatus::blocked, StoreStatus::newer,   StoreStatus::not_writer, StoreStatus::unavailable};

struct Start {
  Contents contents;
  std::uint64_t drawn = 0;
  std::string open, other, binned;  // session ids
};

inline const Start& start() {
  static const Start made = [] {
    Start s;
    Rig rig;
    ask::new_session(*rig);
    rig.pump();
    rig.enter(FieldKind::drained, "3000");
    s.binned = rig->session()->id;
    ask::put_in_bin(*rig, s.binned);
    rig.pump();
    ask::new_session(*rig);
    rig.pump();
    rig.name("piece", "Leg");
    rig.enter(FieldKind::drained, "1500");
    s.other = rig->session()->id;
    ask::new_session(*rig);
    rig.pump();
    rig.name("piece", "Loin");
    rig.enter(FieldKind::drained, "2500");
    rig.enter(FieldKind::price_per_mass, "8");
    rig.weigh("portions", "400");
    rig.weigh("portions", "410");
    s.open = rig->session()->id;
    s.contents = rig.store.kept;
    s.drawn = rig.host.drawn;
    return s;
  }();
  return made;
}

inline EntryId first_reading(App& app) {
  for (const Entry* entry : app.session()->set.in_order()) {
    if (std::holds_alternative<body::Reading>(entry->body)) return entry->id;
  }
  return {};
}

// All that can be seen after a restart, and all entries besides.
inline std::string seen(const Contents& contents) {
  Rig rig(contents, 100'000);
  std::ostringstream out;
  out << draft_to_json(rig->draft()) << '\n' << settings_to_json(rig->shelf().settings) << '\n';
  for (const SessionCard& card : rig->shelf().cards)
    out << card.id << ' ' << card_to_json(card) << '\n';
  for (const SessionCard& card : rig->shelf().binned) out << "bin " << card.id << '\n';
  if (rig->session() != nullptr) out << write_session(file_of(*rig->session())) << '\n';
  for (const auto& [key, bytes] : rig.store.kept[Area::entries]) out << key << ' ' << bytes << '\n';
  return out.str();
}

}  // namespace tallyblock::test
