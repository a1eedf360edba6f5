#include "acts_of_sessions.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <utility>

#include "core/entries/entry_fields.h"
#include "web/app/desk/line_of.h"
#include "web/app/shelf/defaults.h"
#include "web/figures/doubts.h"
#include "web/figures/names.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

// Of an invented sample nothing is copied but what it was and how it was sorted.
bool is_name(const Entry& entry) {
  const auto* pile = std::get_if<body::Pile>(&entry.body);
  return std::holds_alternative<body::Piece>(entry.body) ||
         (pile != nullptr && pile->step == kMainStep);
}

// What "same again" takes from a live entry of the session before; nothing for the rest.
std::optional<Body> copied(const Entry& entry) {
  if (std::holds_alternative<body::Piece>(entry.body) ||
      std::holds_alternative<body::Specification>(entry.body) ||
      std::holds_alternative<body::Target>(entry.body) ||
      std::holds_alternative<body::PlanLimits>(entry.body) ||
      std::holds_alternative<body::Tub>(entry.body)) {
    return entry.body;
  }
  if (const auto* setting = std::get_if<body::Setting>(&entry.body)) {
    // What is known of the cook is taken along anew, from all sessions; another piece tapers as it does.
    const bool of_this_piece = setting->key == kAllWeighed || setting->key == "taper";
    if (setting->key != kSampleSetting && setting->key != "cook" && !of_this_piece) {
      return entry.body;
    }
  }
  if (const auto* pile = std::get_if<body::Pile>(&entry.body)) {
    if (pile->step == kMainStep) return entry.body;
  }
  // An invoice total belongs to one piece; a price per weight may hold for the next.
  if (const auto* price = std::get_if<body::Price>(&entry.body)) {
    if (price->basis == PriceBasis::per_mass || price->of == "ready-cut") return entry.body;
  }
  return std::nullopt;
}

using Winners = std::map<std::string, const Entry*>;

std::set<std::string> main_piles(const Winners& winners) {
  std::set<std::string> piles;
  for (const auto& [key, entry] : winners) {
    const auto* pile = std::get_if<body::Pile>(&entry->body);
    if (pile != nullptr && pile->step == kMainStep) piles.insert(pile->key);
  }
  return piles;
}

void copy_into(const OpenSession& from, Writing& to) {
  const LiveView live(from.set);
  Winners winners;  // the last live entry of each fact
  for (const Entry* entry : live.entries()) {
    const std::string key = fact_key(*entry);
    if (!key.empty()) winners[key] = entry;
  }
  const std::set<std::string> piles = main_piles(winners);
  // Each fact in the place where it was first said: piles keep their order however often renamed.
  for (const Entry* said : from.set.in_order()) {
    const auto winner = winners.find(fact_key(*said));
    if (winner == winners.end()) continue;
    const Entry* entry = winner->second;
    winners.erase(winner);
    std::optional<Body> body = copied(*entry);
    if (!body || (from.sample && !is_name(*entry))) continue;
    const auto* target = std::get_if<body::Target>(&*body);
    if (target != nullptr && !piles.contains(target->pile)) continue;
    const auto* price = std::get_if<body::Price>(&*body);
    if (price != nullptr && price->of.starts_with("pile:") &&
        !piles.contains(price->of.substr(5))) {
      continue;
    }
    to.add(*std::move(body));
  }
}

// True if the setting could not be used and the usual one stands instead.
bool set_or_usual(Writing& to, const std::string& key, const std::string& value,
                  const std::string& usual) {
  const bool fits = value == usual || valid_setting(key, value);
  const std::string& used = fits ? value : usual;
  if (!used.empty()) to.add(body::Setting{key, used});
  return !fits;
}

// A setting that is one of a few words, or one that a session checks.
struct Choice {
  std::string_view key;
  std::string AppSettings::* setting;
  std::string_view words;  // each between blanks; none: as a session demands
};
constexpr Choice kChoices[] = {
    {"unit", &AppSettings::unit, " g kg oz lb lb-oz "},
    {"price-unit", &AppSettings::price_unit, " kg lb "},
    {"decimal-mark", &AppSettings::decimal_mark, " . , "},
    {"clock", &AppSettings::clock, " 24 12 "},
    {"date", &AppSettings::date, " day-first month-first "},
    {"theme", &AppSettings::theme, " system light dark "},
    {"hand", &AppSettings::hand, " right left "},
    {"currency", &AppSettings::currency, ""},
    {"division", &AppSettings::division, ""},
    {"loss-limit", &AppSettings::loss_limit, ""},
    {"wage", &AppSettings::wage, ""},
};

bool fits(const Choice& choice, const std::string& value) {
  if (choice.words.empty()) {
    return (value.empty() && choice.key == "wage") || valid_setting(std::string(choice.key), value);
  }
  const bool one = !value.empty() && value.find(' ') == std::string::npos;
  return one && choice.words.find(' ' + value + ' ') != std::string_view::npos;
}

}  // namespace

bool valid_setting(const std::string& key, const std::string& value) {
  Entry probe;
  probe.id = {"0000000000", 1};
  probe.seq = 1;
  probe.body = body::Setting{key, value};
  return checked(std::move(probe)).ok();
}

std::optional<AppSettings> with_setting(AppSettings settings, const std::string& key,
                                        const std::string& value) {
  if (key == "person") {
    settings.person = value;
    return settings;
  }
  const auto choice = std::ranges::find(kChoices, key, &Choice::key);
  if (choice == std::end(kChoices) || !fits(*choice, value)) return std::nullopt;
  settings.*(choice->setting) = value;
  return settings;
}

void name_person(const AppSettings& settings, Writing& to) {
  if (settings.person.empty() || settings.person.size() > kMaxNameBytes) return;
  const EntryId id = to.add(body::Person{settings.person});
  if (!id.writer.empty()) to.by = id;
}

std::string begin_settings(const AppSettings& settings, Writing& to) {
  const AppSettings usual;
  std::string unfit;
  const auto put_in = [&](const std::string& key, const std::string& value,
                          const std::string& or_else) {
    if (!set_or_usual(to, key, value, or_else)) return;
    if (!unfit.empty()) unfit += ", ";
    unfit += say("setting." + key);
  };
  put_in("currency", settings.currency, usual.currency);
  put_in("unit", settings.unit, usual.unit);
  put_in("price-unit", settings.price_unit, usual.price_unit);
  put_in("division", settings.division, usual.division);
  put_in("loss-limit", settings.loss_limit, usual.loss_limit);
  if (settings.decimal_mark != ".") put_in("decimal-mark", settings.decimal_mark, "");
  put_in("wage", settings.wage, usual.wage);
  return unfit;
}

std::string begin_session(const AppSettings& settings, Writing& to) {
  name_person(settings, to);
  const std::string unfit = begin_settings(settings, to);
  for (const DefaultPile& pile : kDefaultPiles) {
    if (pile.at_start) to.add(made_of(pile, std::string(pile.key), kMainStep));
  }
  return unfit;
}

void same_again(const OpenSession& from, const AppSettings& settings, Writing& to) {
  name_person(settings, to);
  if (from.sample) begin_settings(settings, to);
  copy_into(from, to);
  if (from.sample) return;
  const body::Line* line = latest(from, body::Line{});
  to.add(body::Line{line == nullptr ? from.id : line->key, false});
}

}  // namespace tallyblock
