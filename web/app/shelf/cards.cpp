#include "cards.h"

#include <algorithm>
#include <utility>

#include "web/app/desk/tidy.h"
#include "web/app/keeper/kept_json.h"
#include "web/figures/doubts.h"
#include "web/figures/names.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

struct Day {
  std::int64_t year = 1970;
  int month = 1, day = 1;
};

// Days since 1970-01-01 to a date of the Gregorian calendar, counted in years that begin in March.
Day day_of(std::int64_t days) {
  days += 719468;
  const std::int64_t era = (days >= 0 ? days : days - 146096) / 146097;
  const std::int64_t of_era = days - era * 146097;
  const std::int64_t year_of_era =
      (of_era - of_era / 1460 + of_era / 36524 - of_era / 146096) / 365;
  const std::int64_t of_year = of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
  const std::int64_t month_from_march = (5 * of_year + 2) / 153;
  Day out;
  out.day = static_cast<int>(of_year - (153 * month_from_march + 2) / 5 + 1);
  out.month = static_cast<int>(month_from_march < 10 ? month_from_march + 3 : month_from_march - 9);
  out.year = year_of_era + era * 400 + (out.month <= 2 ? 1 : 0);
  return out;
}

std::string two(int value) { return (value < 10 ? "0" : "") + std::to_string(value); }

struct CardFigure {
  std::string_view key;
  std::optional<double> SessionCard::* figure;
};
constexpr CardFigure kCardFigures[] = {
    {"whole", &SessionCard::whole_grams},
    {"primary", &SessionCard::primary_ratio},
    {"cost", &SessionCard::cost_per_primary_gram},
    {"usable", &SessionCard::usable_ratio},
    {"secondary", &SessionCard::secondary_ratio},
    {"waste", &SessionCard::waste_ratio},
    {"loss", &SessionCard::loss_ratio},
    {"usable-cost", &SessionCard::cost_per_usable_gram},
    {"portions", &SessionCard::portions},
    {"portions-within", &SessionCard::portions_within},
    {"portion-cost", &SessionCard::portion_cost},
    {"portion-cost-with-labour", &SessionCard::portion_cost_with_labour},
    {"target", &SessionCard::target_grams},
    {"unweighed", &SessionCard::unweighed_grams},
    {"eye-call", &SessionCard::eye_call},
    {"minutes", &SessionCard::minutes},
};

constexpr std::string_view kPassed = "passed", kFailed = "failed";

void put_shares(const Figures& figures, SessionCard& card) {
  const double whole = card.whole_grams.value_or(0.0);
  if (!(whole > 0.0)) return;
  const auto share = [whole](const Measured& mass) { return mass.value().in_grams() / whole; };
  if (figures.yield && figures.yield->usable > Mass())
    card.usable_ratio = figures.yield->usable_ratio;
  if (figures.secondary.value() > Mass()) card.secondary_ratio = share(figures.secondary);
  if (figures.unusable_trim.value() > Mass()) card.waste_ratio = share(figures.unusable_trim);
  if (figures.loss && figures.primary.value() > Mass()) {
    card.loss_ratio = share(*figures.loss);
  }
}

void put_portions(const Figures& figures, SessionCard& card) {
  if (figures.targets.empty()) return;
  const TargetFigures& target = figures.targets.front();
  if (target.portions) {
    card.portions = static_cast<double>(target.singles.size());
    card.portions_within = static_cast<double>(target.portions->within);
  }
  if (target.cost) card.portion_cost = target.cost->in_units();
  if (target.cost_with_labour) card.portion_cost_with_labour = target.cost_with_labour->in_units();
  card.target_grams = target.target.in_grams();
  card.target_pile = target.pile;
  const PileFigures* pile = pile_named(figures, target.pile);
  card.target_name = pile == nullptr ? target.pile : pile->name;
}

void put_people(const Figures& figures, SessionCard& card) {
  for (const PersonLine& person : figures.people) {
    if (!card.people.empty()) card.people += ", ";
    card.people += person.name;
  }
  for (const auto& [check, passed] : figures.quality) {
    card.quality = card.quality.value_or(true) && passed;
  }
}

// What a piece begins with is made at one moment.
bool is_as_begun(const OpenSession& session) {
  const bool from_a_file = !session.left_out.empty() || !session.extra.empty();
  if (session.sample || session.unreadable > 0 || from_a_file) return false;
  const Entry* first = nullptr;
  for (const Entry* entry : session.set.in_order()) {
    if (first == nullptr) first = entry;
    const bool usual = std::holds_alternative<body::Person>(entry->body) ||
                       std::holds_alternative<body::Setting>(entry->body) ||
                       std::holds_alternative<body::Pile>(entry->body) ||
                       std::holds_alternative<body::Line>(entry->body);
    const bool at_once = entry->time.utc_ms == first->time.utc_ms && entry->time.utc_ms != 0;
    if (!usual || !at_once || !entry->replaces.empty() || entry->id.writer != first->id.writer)
      return false;
  }
  return first != nullptr;
}

}  // namespace

SessionCard card_of(const OpenSession& session) {
  const Figures& figures = session.figures;
  SessionCard card;
  card.id = session.id;
  card.title = figures.piece;
  card.species = figures.species;
  card.cut = figures.cut;
  bool first = true;
  for (const Entry* entry : session.set.in_order()) {
    if (entry->time.utc_ms == 0) continue;  // not known
    if (first || entry->time.utc_ms < card.started_ms) {
      card.started_ms = entry->time.utc_ms;
      card.offset_minutes = entry->time.offset_minutes;
    }
    card.changed_ms = std::max(card.changed_ms, entry->time.utc_ms);
    first = false;
  }
  card.entries = session.set.size();
  if (figures.incoming.as_purchased) {
    card.whole_grams = figures.incoming.as_purchased->value().in_grams();
  }
  if (figures.yield && figures.primary.value() > Mass()) {
    if (card.whole_grams && *card.whole_grams > 0.0)
      card.primary_ratio = figures.yield->primary_ratio;
    if (figures.yield->cost_per_primary) {
      card.cost_per_primary_gram = figures.yield->cost_per_primary->per(MassUnit::gram);
    }
  }
  if (figures.yield && figures.yield->cost_per_usable) {
    card.cost_per_usable_gram = figures.yield->cost_per_usable->per(MassUnit::gram);
  }
  if (const auto missing = not_all_weighed(figures)) card.unweighed_grams = missing->in_grams();
  put_shares(figures, card);
  put_portions(figures, card);
  put_people(figures, card);
  card.as_begun = is_as_begun(session);
  for (const EyeCallFigures& call : figures.eye_calls) {
    if (call.role == Role::primary) card.eye_call = call.called;
  }
  if (figures.minutes_known) card.minutes = figures.minutes;
  card.currency = figures.settings.currency;
  card.price_unit = figures.settings.price_unit;
  card.unit = figures.settings.unit;
  card.division = figures.settings.division.text;
  const auto mark = figures.settings.all.find("decimal-mark");
  if (mark != figures.settings.all.end()) card.decimal_mark = mark->second;
  card.sample = session.sample;
  return card;
}

std::string card_to_json(const SessionCard& card) {
  Json out = Json::object();
  kept::put(out, "version", std::int64_t{card.version});
  kept::put(out, "title", card.title);
  kept::put(out, "species", card.species);
  kept::put(out, "cut", card.cut);
  kept::put(out, "started", card.started_ms);
  kept::put(out, "changed", card.changed_ms);
  kept::put(out, "tz", std::int64_t{card.offset_minutes});
  kept::put(out, "entries", static_cast<std::int64_t>(card.entries));
  for (const CardFigure& one : kCardFigures) kept::put(out, one.key, card.*one.figure);
  kept::put(out, "target-pile", card.target_pile);
  kept::put(out, "target-name", card.target_name);
  kept::put(out, "people", card.people);
  if (card.quality) kept::put(out, "quality", *card.quality ? kPassed : kFailed);
  kept::put_truth(out, "as-begun", card.as_begun);
  kept::put(out, "currency", card.currency);
  kept::put(out, "price-unit", card.price_unit);
  kept::put(out, "unit", card.unit);
  kept::put(out, "division", card.division);
  kept::put(out, "decimal-mark", card.decimal_mark);
  kept::put_truth(out, "sample", card.sample);
  return canonical_text(out);
}

std::optional<SessionCard> card_from_json(const std::string& id, std::string_view text) {
  const Json in = kept::object_from(text);
  const std::int64_t entries = kept::whole(in, "entries", -1);
  if (entries < 0) return std::nullopt;
  SessionCard card;
  card.id = id;
  card.version =
      static_cast<int>(std::clamp<std::int64_t>(kept::whole(in, "version"), 0, 1'000'000));
  card.title = tidied(kept::text(in, "title"));
  card.species = tidied(kept::text(in, "species"));
  card.cut = tidied(kept::text(in, "cut"));
  card.started_ms = kept::whole(in, "started");
  card.changed_ms = kept::whole(in, "changed");
  card.offset_minutes =
      static_cast<int>(std::clamp<std::int64_t>(kept::whole(in, "tz"), -1440, 1440));
  card.entries = static_cast<std::size_t>(entries);
  for (const CardFigure& one : kCardFigures) card.*one.figure = kept::figure(in, one.key);
  card.target_pile = kept::text(in, "target-pile");
  card.target_name = tidied(kept::text(in, "target-name"));
  card.people = tidied(kept::text(in, "people"));
  const std::string quality = kept::text(in, "quality");
  if (quality == kPassed || quality == kFailed) card.quality = quality == kPassed;
  card.as_begun = kept::truth(in, "as-begun");
  card.currency = kept::text(in, "currency");
  card.price_unit = kept::text(in, "price-unit", "kg");
  card.unit = kept::text(in, "unit", "g");
  card.division = kept::text(in, "division", card.division);
  card.decimal_mark = kept::text(in, "decimal-mark", card.decimal_mark);
  card.sample = kept::truth(in, "sample");
  return card;
}

std::string settings_to_json(const AppSettings& settings) {
  Json out = Json::object();
  kept::put(out, "unit", settings.unit);
  kept::put(out, "price-unit", settings.price_unit);
  kept::put(out, "currency", settings.currency);
  kept::put(out, "division", settings.division);
  kept::put(out, "loss-limit", settings.loss_limit);
  kept::put(out, "wage", settings.wage);
  kept::put(out, "decimal-mark", settings.decimal_mark);
  kept::put(out, "clock", settings.clock);
  kept::put(out, "date", settings.date);
  kept::put(out, "theme", settings.theme);
  kept::put(out, "hand", settings.hand);
  kept::put(out, "person", settings.person);
  kept::put_truth(out, "caution-seen", settings.caution_seen);
  std::vector<std::string> cooks;
  for (const CookOf& cook : settings.cooks) {
    const CookRecord& r = cook.record;
    const CookPrior numbers{r.habit, r.habit_sd, r.scatter, static_cast<double>(r.cuts)};
    for (std::string text : {cook.person, cook.session, cook_setting(numbers)}) {
      cooks.push_back(std::move(text));
    }
  }
  kept::put(out, "cooks", cooks);
  return canonical_text(out);
}

AppSettings settings_from_json(std::string_view text) {
  const Json in = kept::object_from(text);
  AppSettings out;
  out.unit = kept::text(in, "unit", out.unit);
  out.price_unit = kept::text(in, "price-unit", out.price_unit);
  out.currency = kept::text(in, "currency", out.currency);
  out.division = kept::text(in, "division", out.division);
  out.loss_limit = kept::text(in, "loss-limit", out.loss_limit);
  out.wage = kept::text(in, "wage");
  out.decimal_mark = kept::text(in, "decimal-mark", out.decimal_mark);
  out.clock = kept::text(in, "clock", out.clock);
  out.date = kept::text(in, "date", out.date);
  out.theme = kept::text(in, "theme", out.theme);
  out.hand = kept::text(in, "hand", out.hand);
  out.person = kept::text(in, "person");
  out.caution_seen = kept::truth(in, "caution-seen");
  const std::vector<std::string> cooks = kept::texts(in, "cooks");
  for (std::size_t i = 0; i + 3 <= cooks.size() && out.cooks.size() < kMostCooks; i += 3) {
    const CookPrior read = cook_from_setting(cooks[i + 2]);
    out.cooks.push_back(
        {cooks[i],
         cooks[i + 1],
         {read.habit, read.habit_sd, read.scatter, static_cast<std::size_t>(read.scatter_weight)}});
  }
  return out;
}

std::string ids_to_json(const std::vector<std::string>& ids) {
  Json out = Json::object();
  kept::put(out, "ids", ids);
  return canonical_text(out);
}

std::vector<std::string> ids_from_json(std::string_view text) {
  return kept::texts(kept::object_from(text), "ids");
}

std::string day_text(std::int64_t utc_ms, int offset_minutes) {
  constexpr std::int64_t day_ms = 24ll * 60 * 60 * 1000;
  const std::int64_t local = utc_ms + std::int64_t{offset_minutes} * 60 * 1000;
  const Day day = day_of(local >= 0 ? local / day_ms : -((-local + day_ms - 1) / day_ms));
  return std::to_string(day.year) + '-' + two(day.month) + '-' + two(day.day);
}

std::string slug_of(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const char small = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    const bool plain = (small >= 'a' && small <= 'z') || (small >= '0' && small <= '9');
    if (plain) {
      out += small;
    } else if (!out.empty() && out.back() != '-') {
      out += '-';
    }
    if (out.size() == 40) break;
  }
  while (!out.empty() && out.back() == '-') out.pop_back();
  return out;
}

std::string file_name_of(const SessionCard& card) {
  const std::string piece = slug_of(card.title);
  const std::string name = std::string(card.sample ? "tallyblock-invented-" : "tallyblock-") +
                           (piece.empty() ? "session" : piece);
  if (card.started_ms == 0) return name + ".json";  // when is not known
  return name + '-' + day_text(card.started_ms, card.offset_minutes) + ".json";
}

char mark_of(const AppSettings& settings) { return settings.decimal_mark == "," ? ',' : '.'; }

std::string as_shown(const AppSettings& settings, std::string_view typed) {
  return show::typed(typed, mark_of(settings));
}

std::string title_of(const SessionCard* card) {
  return card == nullptr || card->title.empty() ? say("session.unnamed") : card->title;
}

}  // namespace tallyblock
