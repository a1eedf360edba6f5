// What is known of how a person cuts, carried from session to session.
#include <algorithm>
#include <utility>

#include "app.h"

namespace tallyblock {

// As it was saved, "" if nobody was named.
std::string App::person_shown() const { return saved_text("person:" + draft_.person); }

void App::begin_cutting() {
  if (!open_ || !writer_ || open_->figures.settings.all.contains("cook")) return;
  const LiveView live(open_->set);
  for (const Entry* entry : live.entries()) {
    if (std::holds_alternative<body::Cut>(entry->body)) return;  // begun without
  }
  // Each record holds what the ones before it showed: the newest alone counts.
  const std::string name = person_shown();
  const CookOf* newest = nullptr;
  for (const CookOf& cook : settings_.cooks) {
    if (cook.person == name && cook.session != open_->id) newest = &cook;
  }
  if (newest == nullptr || !may_write()) return;
  Writing writing = this->writing();
  writing.add(body::Setting{"cook", cook_setting(carried_prior({newest->record}))});
  put(std::move(writing), {"notice.cook-carried", {}, true, false});
}

void App::learned(const CookRecord& record) {
  // Only what was cut here just now, and by one person alone.
  if (!std::exchange(block_made_, false) || !open_ || record.cuts == 0 || open_->sample) return;
  const EntryId who = person();
  const LiveView live(open_->set);
  for (const Entry* entry : live.entries()) {
    const bool cut = std::holds_alternative<body::Cut>(entry->body);
    if (cut && entry->by.value_or(EntryId{}) != who) return;
  }
  const CookOf now{person_shown(), open_->id, record};
  std::erase_if(settings_.cooks, [&](const CookOf& cook) { return cook.session == now.session; });
  settings_.cooks.push_back(now);
  if (settings_.cooks.size() > kMostCooks) settings_.cooks.erase(settings_.cooks.begin());
  Act act;
  act.ops.push_back(settings_op());
  enqueue(std::move(act));
}

}  // namespace tallyblock
