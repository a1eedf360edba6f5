// What is kept besides entries: a card per session for the list, the app's own settings. All as JSON text;
// whatever cannot be read gives nothing or the defaults.
//
// A card is a pure function of a session's entries and can be rebuilt from them.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/cutting/cook.h"
#include "web/app/desk/open_session.h"

namespace tallyblock {

// A line of the sessions list, kept in Area::index and rebuildable from the entries: all that a list, a
// log or a class shows of a session without opening it. What is not known is absent.
inline constexpr int kCardVersion = 4;  // cards of earlier ones are shown, and made again
struct SessionCard {
  std::string id;
  int version = kCardVersion;
  std::string title;  // piece name, or "" (catalogue has the stand-in)
  std::string species, cut;
  std::int64_t started_ms = 0, changed_ms = 0;  // UTC, of the first and the last entry
  int offset_minutes = 0;
  std::size_t entries = 0;
  std::optional<double> whole_grams, primary_ratio, cost_per_primary_gram;
  // Shares of the weight as purchased: all that is usable, unusable trim, loss in cutting.
  std::optional<double> usable_ratio, waste_ratio, loss_ratio;
  std::optional<double> secondary_ratio;  // secondary products, of the same
  std::optional<double> cost_per_usable_gram;
  // Of the first pile with a target: portions weighed one by one, how many are within their tolerance,
  // cost of one, the same with the work in it, what one is to weigh; the pile.
  std::optional<double> portions, portions_within, portion_cost, portion_cost_with_labour;
  std::optional<double> target_grams;
  std::string target_pile, target_name;   // key and name
  std::optional<double> unweighed_grams;  // so much is missing that the work goes on
  std::optional<double> eye_call;         // share of the weight that was called primary
  std::optional<double> minutes;
  std::string people;           // who cut, as they were named
  std::optional<bool> quality;  // every check passed; one failed
  bool as_begun = false;        // nothing but what every new piece begins with
  std::string currency, price_unit, unit;
  std::string division = "1 g", decimal_mark = ".";
  bool sample = false;  // part of the invented sample
};

// Defaults copied into each new session as setting entries; app preferences besides.
// What the cutting of one person showed in one session.
struct CookOf {
  std::string person, session;
  CookRecord record;
};

struct AppSettings {
  std::string unit = "g", price_unit = "kg", currency = "EUR";
  std::string division = "1 g", loss_limit = "2 %", wage;  // typed texts
  std::string decimal_mark = ".";                          // . or ,
  std::string clock = "24", date = "day-first";            // 24 or 12; day-first or month-first
  std::string theme = "system";                            // system, light, dark
  std::string hand = "right";                              // right, left
  std::string person;                                      // last name used
  bool caution_seen = false;
  std::vector<CookOf> cooks;  // oldest first, at most kMostCooks
};
inline constexpr std::size_t kMostCooks = 40;
char mark_of(const AppSettings& settings);
// What was typed, with the person's decimal mark.
std::string as_shown(const AppSettings& settings, std::string_view typed);

SessionCard card_of(const OpenSession& session);
std::string card_to_json(const SessionCard& card);
std::optional<SessionCard> card_from_json(const std::string& id, std::string_view text);

std::string settings_to_json(const AppSettings& settings);
AppSettings settings_from_json(std::string_view text);

std::string ids_to_json(const std::vector<std::string>& ids);
std::vector<std::string> ids_from_json(std::string_view text);

// "tallyblock-<piece>-<date>.json" in small letters, digits and hyphens only; the date is the local
// day of the first entry.
std::string file_name_of(const SessionCard& card);
// As it is called in a notice; null, or without a title: a word for that.
std::string title_of(const SessionCard* card);
// "2026-11-25", the local day.
std::string day_text(std::int64_t utc_ms, int offset_minutes);
// Small ASCII letters and digits, runs of anything else as one hyphen; at most 40 characters; may be
// empty.
std::string slug_of(std::string_view text);

}  // namespace tallyblock
