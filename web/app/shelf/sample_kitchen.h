// Writes down the sessions of the sample, entry after entry. Only the sample's own files use it.
#pragma once
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "sample.h"
#include "web/app/desk/line_of.h"
#include "web/figures/names.h"

namespace tallyblock::sample {

inline constexpr std::int64_t kBetweenMs = 35'000;  // from one entry to the next
inline constexpr int kOffsetMinutes = 120;

struct Setup {
  const char* file;     // name in demo-data/, without ".json"
  const char* session;  // id
  const char* writer;
  std::int64_t start_ms;  // UTC
  const char *piece, *species, *cut;
  const char *unit, *price_unit, *currency, *division;
};

struct PileSetup {
  const char *key, *name;
  Role role;
  const char* use;
  const char* value;  // price per price unit, or null
};

// Texts of the tables are right by construction; a test reads every entry back.
inline TypedMass mass(const char* text, Sign sign = Sign::positive_only) {
  const auto typed = parse_mass(text, "sample", sign);
  return typed ? *typed : TypedMass{};
}
inline TypedNumber number(const char* text) {
  const auto typed = parse_number(text, "sample", Sign::any);
  return typed ? *typed : TypedNumber{};
}
inline TypedNumber percent(const char* text) {
  const auto typed = parse_percent(text, "sample");
  return typed ? *typed : TypedNumber{};
}

// Writes down one session, entry after entry.
class Kitchen {
 public:
  explicit Kitchen(const Setup& setup) : setup_(setup), division_(mass(setup.division)) {
    file_.session = setup.session;
    setting(std::string(kSampleSetting).c_str(), "invented");
    add(body::Note{"Invented sample: made up to show what this tool does.", std::nullopt});
    add(body::Piece{setup.piece, setup.species, setup.cut});
    setting("currency", setup.currency);
    setting("unit", setup.unit);
    setting("price-unit", setup.price_unit);
    setting("division", setup.division);
    setting("loss-limit", "2 %");
  }

  EntryId add(Body body) {
    Entry entry;
    entry.id = {setup_.writer, static_cast<std::uint32_t>(file_.entries.size() + 1)};
    entry.seq = file_.entries.size() + 1;
    entry.time = {setup_.start_ms + kBetweenMs * static_cast<std::int64_t>(file_.entries.size()),
                  kOffsetMinutes};
    entry.by = by_;
    entry.body = std::move(body);
    EntryId id = entry.id;
    file_.entries.push_back(sealed(std::move(entry)));
    return id;
  }

  void setting(const char* key, const char* value) { add(body::Setting{key, value}); }

  EntryId person(const char* name) { return add(body::Person{name}); }
  void cutting(const EntryId& person) { by_ = person; }

  void piles(std::initializer_list<PileSetup> piles) {
    for (const PileSetup& pile : piles) {
      add(body::Pile{pile.key, kMainStep, pile.name, pile.role, pile.use});
      if (pile.value != nullptr) price((std::string("pile:") + pile.key).c_str(), pile.value);
    }
  }

  void incoming(Incoming which, const char* weight, unsigned count = 1) {
    add(body::IncomingWeight{which, mass(weight, Sign::zero_or_more), division_, count});
  }

  void price(const char* of, const char* amount, const char* quoted_yield = nullptr) {
    body::Price price{of, PriceBasis::per_mass, number(amount), setup_.price_unit, setup_.currency,
                      {}};
    if (quoted_yield != nullptr) price.quoted_yield = percent(quoted_yield);
    add(std::move(price));
  }

  EntryId weigh(const char* pile, const char* weight, Habit habit = Habit::piece,
                unsigned count = 1) {
    body::Reading reading;
    reading.pile = pile;
    reading.habit = habit;
    reading.weight =
        mass(weight, habit == Habit::taken_off ? Sign::negative_only : Sign::positive_only);
    reading.division = division_;
    reading.count = count;
    return add(std::move(reading));
  }

  // `weights`: of each, e.g. an initializer list.
  std::vector<EntryId> each(const char* pile, std::initializer_list<const char*> weights) {
    std::vector<EntryId> ids;
    for (const char* weight : weights) ids.push_back(weigh(pile, weight));
    return ids;
  }

  EntryId tub_now(const char* pile, const char* weight, std::vector<EntryId> covers) {
    body::Reading reading;
    reading.pile = pile;
    reading.habit = Habit::tub_now;
    reading.weight = mass(weight);
    reading.division = division_;
    reading.covers = std::move(covers);
    return add(std::move(reading));
  }

  void in_tub(const char* pile, const char* gross, const char* tub) {
    body::Reading reading;
    reading.pile = pile;
    reading.habit = Habit::increment;
    reading.weight = mass(gross);
    reading.division = division_;
    reading.tub = tub;
    add(std::move(reading));
  }

  void target(const char* pile, const char* weight) {
    add(body::Target{pile, mass(weight), std::nullopt});
  }
  void eye_call(const char* share) { add(body::EyeCall{Role::primary, percent(share)}); }
  void labour(std::int64_t minutes) { add(body::Labour{std::nullopt, minutes * 60'000}); }
  void quality(const char* check, bool pass) { add(body::Quality{check, pass}); }
  void specification(const char* text) { add(body::Specification{text}); }
  const TypedMass& division() const { return division_; }

  SessionFile done() { return std::move(file_); }

 private:
  const Setup& setup_;
  TypedMass division_;
  std::optional<EntryId> by_;
  SessionFile file_;
};

// With another decimal mark than the point each ends with the setting that says so.
inline std::vector<SessionFile> with_mark(std::vector<SessionFile> files, std::string_view mark) {
  if (mark == ".") return files;
  for (SessionFile& file : files) {
    Entry entry = file.entries.back();
    ++entry.id.counter;
    ++entry.seq;
    entry.time.utc_ms += kBetweenMs;
    entry.body = body::Setting{"decimal-mark", std::string(mark)};
    file.entries.push_back(sealed(std::move(entry)));
  }
  return files;
}

}  // namespace tallyblock::sample
