// Random sessions from a seed: the same entries on every machine, for the property tests.
//
// Every kind comes up, from several writers, with corrections, voids (of voids too), moves, tubs that
// cover readings, further steps, and weights in every way of writing them. A plain session hangs
// together: what is named exists, and no more is sorted than was weighed in. An awkward one also
// holds what only merged or damaged files hold: names of what is not there, circles of voids, voids
// ahead of their target, gaps in counters, kinds and fields of later versions.
#pragma once
#include <algorithm>
#include <cstdint>
#include <iterator>
#include <string>
#include <utility>
#include <vector>

#include "random_entries.h"

namespace tallyblock::testing {

class RandomSession : public RandomEntries {
 public:
  explicit RandomSession(std::uint32_t seed, RandomOptions options = {})
      : RandomEntries(seed, options) {
    id_ = drawn(kSessionIdLength);
    style_ = below(5);
    opening();
    while (entries_.size() < options_.entries) act();
  }

  const std::string& session() const { return id_; }
  SessionFile file() const {
    SessionFile file;
    file.session = id_;
    file.entries = entries_;
    return file;
  }
  EntrySet set() const { return set_of(entries_); }

 private:
  struct StepState {
    std::string key, from;
  };
  struct PileState {
    std::string key;
    EntryId defined_by;
    std::vector<EntryId> readings;
    unsigned grams = 0;
  };

  // In the session's way of writing, now and then in another.
  std::string weight_text(unsigned grams) {
    return testing::weight_text(grams, one_in(8) ? below(5) : style_);
  }
  TypedMass weight(unsigned grams) { return mass(weight_text(grams)); }
  TypedMass division() { return mass(std::vector<std::string>{"1 g", "5 g", "0.1 oz"}[below(3)]); }

  void opening() {
    people_.push_back(add(body::Person{"Invented cook A"}));
    add(body::Piece{"Practice piece", "beef", "top butt"});
    for (const auto& [key, value] : std::vector<std::pair<std::string, std::string>>{
             {"currency", "EUR"}, {"division", "1 g"}, {"unit", "kg"}, {"wage", "21.50"}}) {
      add(body::Setting{key, value});
    }
    whole_ = 3000 + below(9000);
    const unsigned drained = whole_ - below(150);
    add(body::IncomingWeight{Incoming::invoice, mass(std::to_string(whole_) + " g"), division()});
    add(body::IncomingWeight{Incoming::drained, mass(std::to_string(drained) + " g"), division()});
    left_ = drained * 98 / 100;
    const std::pair<const char*, Role> piles[] = {{"portions", Role::primary},
                                                  {"skewers", Role::secondary},
                                                  {"grind", Role::usable_trim},
                                                  {"waste", Role::unusable_trim}};
    for (const auto& [key, role] : piles) {
      const EntryId id = add(body::Pile{key, "main", key, role, ""});
      piles_.push_back({key, id, {}, 0});
    }
    add(body::Tub{"blue", "Blue tub", mass("212 g"), division()});
    add(body::Target{"portions", mass("225 g"), std::nullopt});
    add(body::Price{"piece", PriceBasis::per_mass, number("18.40"), "kg", "EUR", std::nullopt});
  }

  void act() {
    using Act = void (RandomSession::*)();
    static constexpr Act kActs[] = {&RandomSession::small_fact,
                                    &RandomSession::price,
                                    &RandomSession::step,
                                    &RandomSession::left_over,
                                    &RandomSession::cut,
                                    &RandomSession::people,
                                    &RandomSession::tub_now,
                                    &RandomSession::tub_now,
                                    &RandomSession::taken_off,
                                    &RandomSession::void_something,
                                    &RandomSession::void_something,
                                    &RandomSession::correct_reading,
                                    &RandomSession::move_or_transfer,
                                    &RandomSession::awkward};
    const unsigned act = below(22);
    if (act >= std::size(kActs)) return weigh();
    const bool left_out =
        (act >= 9 && act <= 12 && !options_.voids) || (act == 13 && !options_.awkward);
    if (!left_out) (this->*kActs[act])();
  }

  PileState& any_pile() { return piles_[below(static_cast<unsigned>(piles_.size()))]; }
  unsigned take(unsigned most) {
    const unsigned grams = std::min(left_, 20 + below(most));
    left_ -= grams;
    return grams;
  }

  void weigh() {
    const unsigned grams = take(400);
    if (grams < 20) {
      add(body::Note{"The board is clear", std::nullopt});
      return;
    }
    PileState& pile = any_pile();
    body::Reading reading;
    reading.pile = pile.key;
    reading.habit = one_in(3) ? Habit::increment : Habit::piece;
    reading.weight = weight(grams);
    reading.division = division();
    if (one_in(5)) reading.count = 2 + below(4);
    if (one_in(5)) {
      reading.weight = mass(std::to_string(grams + 212) + " g");
      reading.tub = "blue";
    } else if (one_in(9)) {
      reading.weight = mass(std::to_string(grams + 31) + " g");
      reading.tare = mass("31 g");
    }
    if (!cuts_.empty() && one_in(2)) reading.cut = any(cuts_);
    pile.grams += grams;
    pile.readings.push_back(add(std::move(reading)));
  }

  void tub_now() {
    PileState& pile = any_pile();
    const unsigned more = take(300);
    body::Reading reading;
    reading.pile = pile.key;
    reading.habit = Habit::tub_now;
    reading.covers = pile.readings;
    if (options_.awkward && !reading.covers.empty() && one_in(3)) reading.covers.pop_back();
    pile.grams += more;
    if (pile.grams == 0) return;
    reading.weight = mass(std::to_string(pile.grams + 212) + " g");
    reading.tub = "blue";
    reading.division = division();
    pile.readings.push_back(add(std::move(reading)));
  }

  void taken_off() {
    const unsigned grams = take(300);
    if (grams < 20) return;
    PileState& pile = any_pile();
    body::Reading reading;
    reading.pile = pile.key;
    reading.habit = Habit::taken_off;
    reading.weight = mass("-" + weight_text(grams));
    reading.division = division();
    pile.grams += grams;
    pile.readings.push_back(add(std::move(reading)));
  }

  void void_something() {
    // Readings, transfers and other voids; the opening facts stay.
    for (int tries = 0; tries < 20; ++tries) {
      const Entry& entry = any(entries_);
      const std::string_view kind = kind_name(entry.body);
      const bool of_the_tree =
          kind == "transfer" || kind == "by-difference" || (options_.awkward && kind == "step");
      if (kind == "reading" || kind == "void" || kind == "move" || kind == "note" || of_the_tree) {
        add(body::Void{entry.id});
        return;
      }
    }
  }

  void correct_reading() {
    for (int tries = 0; tries < 20; ++tries) {
      const Entry entry = any(entries_);
      const auto* old = std::get_if<body::Reading>(&entry.body);
      if (!old || old->habit == Habit::tub_now) continue;
      body::Reading reading = *old;
      reading.division = division();
      const EntryId id = add(reading, {entry.id});
      for (PileState& pile : piles_) {
        if (pile.key == reading.pile) pile.readings.push_back(id);
      }
      return;
    }
  }

  void move_or_transfer() {
    const std::string to = any(piles_).key;
    const PileState& from = any(piles_);
    if (one_in(3) && from.grams > 40 && from.key != to) {
      add(body::Transfer{from.key, to, weight(20 + below(20)), division()});
    } else if (!from.readings.empty()) {
      add(body::Move{any(from.readings), to});
    }
  }

  void small_fact() {
    switch (below(9)) {
      case 0: add(body::Lot{"lot", "INV-" + std::to_string(below(1000))}); break;
      case 1: add(body::Lot{"receiving-temperature", "3.5 C"}); break;
      case 2: add(body::Specification{"Chain off,\nfat cover 5 mm"}); break;
      case 3: add(body::Quality{one_in(2) ? "membrane" : "nerve", !one_in(4)}); break;
      case 4:
        add(body::EyeCall{Role::primary, percent(std::to_string(40 + below(40)) + " %")});
        break;
      case 5: add(body::ByDifference{one_in(3) ? any_pile().key : "waste", one_in(2)}); break;
      case 6: add(body::Setting{"tolerance", one_in(2) ? "imps" : "7 g"}); break;
      case 7: add(body::Line{one_in(2) ? session() : "strip-loin", one_in(3)}); break;
      default:
        add(body::IncomingWeight{one_in(2) ? Incoming::packaging : Incoming::purge,
                                 mass(std::to_string(below(60)) + " g"), division(), 1});
    }
  }

  void price() {
    switch (below(4)) {
      case 0:
        add(body::Price{"ready-cut", PriceBasis::per_mass, number("31,90"), "kg", "EUR",
                        percent(std::to_string(90 + below(11)) + " %")});
        break;
      case 1:
        add(body::Price{"piece", PriceBasis::total, number(std::to_string(40 + below(90))), "",
                        "EUR", std::nullopt});
        break;
      case 2:
        add(body::Price{"pile:waste", PriceBasis::per_mass, number("-0.15"), "kg", "EUR",
                        std::nullopt});
        break;
      default:
        add(body::Price{"pile:grind", PriceBasis::per_mass, number("6.20"), "kg", "EUR",
                        std::nullopt});
    }
  }

  // Goes on from any pile, with a weight said or with the whole of it, now and then with more than
  // there is; several may go on from one pile.
  void step() {
    if (steps_.size() >= 6 || (!steps_.empty() && one_in(3))) return renamed_pile();
    static constexpr Process kProcesses[] = {Process::cooking, Process::breakdown, Process::brine,
                                             Process::grinding, Process::breakdown};
    const std::string key = "step-" + std::to_string(steps_.size());
    // Half of them where one goes on already.
    const std::string from =
        !steps_.empty() && one_in(2) ? any(steps_).from : std::string(any_pile().key);
    body::Step made{key, "Further", kProcesses[below(5)], from, std::nullopt, division()};
    if (one_in(2)) made.weight = weight(20 + below(500));
    add(made);
    steps_.push_back({key, from});
    for (const char* name : {"-a", "-b"}) {
      const EntryId id = add(body::Pile{key + name, key, "Clear fat",
                                        one_in(2) ? Role::secondary : Role::usable_trim, "render"});
      piles_.push_back({key + name, id, {}, 0});
    }
  }

  void renamed_pile() {
    if (steps_.empty()) return;
    PileState& pile = piles_.back();
    pile.defined_by =
        add(body::Pile{pile.key, steps_.back().key, "Dripping", Role::usable_trim, "render"},
            {pile.defined_by});
  }

  void left_over() {
    if (one_in(3)) {
      add(body::Checkpoint{"main", "cleaned", mass(std::to_string(whole_ * 9 / 10) + " g"),
                           division()});
    } else {
      add(body::Remainder{"main", mass(std::to_string(left_) + " g"), division()});
    }
  }

  void cut() {
    body::Cut cut;
    cut.mark = length(one_in(2) ? "42 mm" : "1 5/8 in");
    cut.target = mass("225 g");
    cut.plan = "sections=2; thickness=42 mm";
    cuts_.push_back(add(std::move(cut)));
    if (one_in(4)) add(body::CutClosed{cuts_.back()});
  }

  void people() {
    switch (below(4)) {
      case 0: people_.push_back(add(body::Person{"Invented cook B"})); break;
      case 1: add(body::Person{"Invented cook C"}, {people_.front()}); break;
      case 2: {
        body::Labour labour;
        if (one_in(2)) {
          labour.measured_ms = 60000 + below(600000);
        } else {
          labour.minutes = minutes("12.5 min");
        }
        add(std::move(labour));
        break;
      }
      default:
        add(body::Note{"Gl\xC3\xA4nzend \"pr\xC3\xA4pariert\"\n\xF0\x9F\xA5\xA9", any(entries_).id,
                       one_in(4)});
    }
  }

  void awkward() {
    const EntryId nowhere{drawn(kWriterLength), 1 + below(99)};
    switch (below(8)) {
      case 0: add(body::Void{nowhere}); break;
      case 7: add(body::Step{"main", "Board", Process::cooking, "grind", std::nullopt, {}}); break;
      case 1: add(body::Move{nowhere, "grind"}); break;
      case 2: circle_of_voids(2 + below(3)); break;
      case 3: {
        body::Reading reading;
        reading.pile = "lost";
        reading.weight = mass("99 g");
        reading.covers = {nowhere};
        add(std::move(reading));
        break;
      }
      case 4: later_version("chill-curve", R"("points":[[0,7.25],[30,2e1]],"unit":"C")"); break;
      case 5: later_version("note", R"("text":"kept","colour":{"r":1,"g":null})"); break;
      default: later_version("pile", R"("key":"wings","name":"Wings","role":"display")"); break;
    }
  }

  std::string id_;
  unsigned style_ = 0;
  unsigned whole_ = 0, left_ = 0;  // grams
  std::vector<PileState> piles_;
  std::vector<StepState> steps_;
  std::vector<EntryId> cuts_;
};

}  // namespace tallyblock::testing
