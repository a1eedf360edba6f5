#include "shelf.h"

#include <algorithm>
#include <cstdlib>
#include <optional>
#include <utility>

#include "core/base/sorted.h"

namespace tallyblock {
namespace {

constexpr std::size_t kMostErased = 1000;

bool newer_first(const SessionCard& a, const SessionCard& b) {
  return a.started_ms != b.started_ms ? a.started_ms > b.started_ms : a.id < b.id;
}

std::vector<SessionCard>::const_iterator place_of(const std::vector<SessionCard>& cards,
                                                  const std::string& id) {
  return std::ranges::find(cards, id, &SessionCard::id);
}

const SessionCard* card_in(const std::vector<SessionCard>& cards, const std::string& id) {
  const auto found = place_of(cards, id);
  return found == cards.end() ? nullptr : &*found;
}

std::optional<SessionCard> taken(std::vector<SessionCard>& cards, const std::string& id) {
  const auto found = place_of(cards, id);
  if (found == cards.end()) return std::nullopt;
  SessionCard card = *found;
  cards.erase(found);
  return card;
}

void place(std::vector<SessionCard>& cards, const SessionCard& card) {
  const auto same = place_of(cards, card.id);
  if (same != cards.end()) cards.erase(same);
  const auto at = std::ranges::find_if(
      cards, [&](const SessionCard& other) { return newer_first(card, other); });
  cards.insert(at, card);
}

}  // namespace

const SessionCard* Shelf::card(const std::string& session) const { return card_in(cards, session); }

const SessionCard* Shelf::binned_card(const std::string& session) const {
  return card_in(binned, session);
}

// ---- as it was stored

void Shelf::take_app_records(const std::vector<Record>& records) {
  for (const Record& record : records) {
    if (record.key == "settings") settings = settings_from_json(record.bytes);
    if (record.key == "erased") erased = ids_from_json(record.bytes);
  }
}

bool Shelf::take_cards(const std::vector<Record>& in_the_bin, const std::vector<Record>& index) {
  bin.clear();
  for (const Record& record : in_the_bin) {
    bin[record.key] = std::strtoll(record.bytes.c_str(), nullptr, 10);
  }
  forget_cards();
  remake = {};
  for (const Record& record : index) {
    auto card = card_from_json(record.key, record.bytes);
    if (!card) ++remake.damaged;
    if (!card || card->version < kCardVersion) remake.sessions.push_back(record.key);
    if (card) (bin.contains(card->id) ? binned : cards).push_back(*std::move(card));
  }
  heap_sort(cards, newer_first);
  heap_sort(binned, newer_first);
  return !index.empty();
}

void Shelf::forget_cards() {
  cards.clear();
  binned.clear();
}

// ---- what is done

void Shelf::put(const SessionCard& card, Act& act) {
  act.put(Area::index, card.id, card_to_json(card));
  place(bin.contains(card.id) ? binned : cards, card);
}

void Shelf::drop_card(const std::string& session, Act& act) {
  taken(cards, session);
  taken(binned, session);
  act.erase(Area::index, session);
}

void Shelf::set_bin(const std::string& session, bool in, std::int64_t utc_ms, Act& act) {
  if (in) {
    bin[session] = utc_ms;
    act.put(Area::bin, session, std::to_string(utc_ms));
  } else {
    bin.erase(session);
    act.erase(Area::bin, session);
  }
  if (auto card = taken(in ? cards : binned, session)) put(*card, act);
}

void Shelf::drop(const std::string& session, Act& act) {
  act.ops.push_back({Op::What::erase_prefix, Area::entries, session + '/', ""});
  drop_card(session, act);
  act.erase(Area::index, "~log/" + session);  // what the log knows of it (logbook.h)
  act.erase(Area::bin, session);
  bin.erase(session);
}

void Shelf::erase(const std::string& session, Act& act) {
  drop(session, act);
  if (std::erase_if(settings.cooks, [&](const CookOf& c) { return c.session == session; }) > 0) {
    put_settings(act);
  }
  erased.push_back(session);
  if (erased.size() > kMostErased) erased.erase(erased.begin());
  act.put(Area::app, "erased", ids_to_json(erased));
}

bool Shelf::forget_erased(const std::string& session, Act& act) {
  const auto found = std::ranges::find(erased, session);
  if (found == erased.end()) return false;
  erased.erase(found);
  act.put(Area::app, "erased", ids_to_json(erased));
  return true;
}

void Shelf::put_settings(Act& act) const {
  act.put(Area::app, "settings", settings_to_json(settings));
}

void Shelf::learn(CookOf cook) {
  std::vector<CookOf>& cooks = settings.cooks;
  std::erase_if(cooks, [&](const CookOf& other) { return other.session == cook.session; });
  cooks.push_back(std::move(cook));
  if (cooks.size() > kMostCooks) cooks.erase(cooks.begin());
}

// Each record holds what the ones before it showed: the newest alone counts.
const CookOf* Shelf::cook_of(const std::string& person, const std::string& but) const {
  const CookOf* newest = nullptr;
  for (const CookOf& cook : settings.cooks) {
    if (cook.person == person && cook.session != but) newest = &cook;
  }
  return newest;
}

}  // namespace tallyblock
