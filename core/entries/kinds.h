// Each kind of entry, said once: its name in files, what makes the key of its fact, and its fields. What
// reads and writes entries, what finds the keys of facts and what looks for the things an entry names
// all go through these descriptions; FORMAT.md and the schema say the same for people and other
// programs.
//
// A description calls, for each field in the order in which problems are told, the member of `f` that says
// what the field is:
//   name, long_text, key            text that must be there; optional_...: absent where it is empty
//   priced                          what a price is of: "piece", "ready-cut", "pile:<key>"
//   pile, pile_ever                 key of a pile that must be there; one that is or once was
//   step, tub                       key of a step ("main" when absent) or of a tub (may be empty)
//   entry, optional_entry, entries  ids of entries; the first argument says what is named
//   mass, length, number, percent   as typed; optional_...: std::optional
//   division                        of the scale, absent where it is the usual one
//   choice, one_of, either          an enum by its name; text out of a set, needed or not; of two words
//   integer, count, truth, flag     a flag is written only when true
//   must, one_at_least              refuses the field, or says it is missing, unless the condition holds
//   later                           what only a newer minor version of the format knows, where it is used
#pragma once
#include <algorithm>
#include <array>
#include <string_view>

#include "entry.h"

namespace tallyblock {

inline constexpr std::int64_t kMaxCount = 10000;

// Of a fact the last one counts: its key is the kind's name and the first `Parts` fields. Entries of an
// additive kind all count. Minor: the version of the format that brought the kind.
template <int Parts, int Minor = 0>
struct FactOf {
  static constexpr int parts = Parts, minor = Minor;
};
template <int Minor = 0>
struct AdditiveOf {
  static constexpr int parts = -1, minor = Minor;
};

namespace kinds {

inline constexpr std::array<std::string_view, 5> kEntryUnits = {"g", "kg", "oz", "lb", "lb-oz"};
inline constexpr std::array<std::string_view, 4> kPriceUnits = {"g", "kg", "oz", "lb"};
inline constexpr std::array<std::string_view, 2> kShownPriceUnits = {"kg", "lb"};
inline constexpr std::array<std::string_view, 2> kDecimalMarks = {".", ","};

template <class Set>
bool is_in(const Set& set, std::string_view text) {
  return std::find(set.begin(), set.end(), text) != set.end();
}
inline bool is_currency(std::string_view text) {
  return text.size() == 3 &&
         std::all_of(text.begin(), text.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
}
// Settings unknown to this code take any value.
bool is_setting(std::string_view key, std::string_view value);

}  // namespace kinds

template <class Body>
struct Kind;

template <>
struct Kind<body::Piece> : FactOf<0> {
  static constexpr std::string_view name = "piece";
  static void fields(auto& f, auto& b) {
    f.optional_name("name", b.name);
    f.optional_name("species", b.species);
    f.optional_name("cut", b.cut);
  }
};
template <>
struct Kind<body::Setting> : FactOf<1> {
  static constexpr std::string_view name = "setting";
  static void fields(auto& f, auto& b) {
    f.key("key", b.key);
    f.name("value", b.value);
    f.must("value", [&] { return kinds::is_setting(b.key, b.value); });
  }
};
template <>
struct Kind<body::Lot> : FactOf<1> {
  static constexpr std::string_view name = "lot";
  static void fields(auto& f, auto& b) {
    f.key("field", b.field);
    f.name("value", b.value);
    f.must("value", [&] {
      return b.field != "receiving-temperature" || parse_temperature(b.value, "value").ok();
    });
  }
};
template <>
struct Kind<body::Specification> : FactOf<0> {
  static constexpr std::string_view name = "specification";
  static void fields(auto& f, auto& b) { f.long_text("text", b.text); }
};
template <>
struct Kind<body::Quality> : FactOf<1> {
  static constexpr std::string_view name = "quality";
  static void fields(auto& f, auto& b) {
    f.key("check", b.check);
    f.either("result", b.pass, "pass", "fail");
  }
};
template <>
struct Kind<body::Step> : FactOf<1> {
  static constexpr std::string_view name = "step";
  static void fields(auto& f, auto& b) {
    f.key("key", b.key);
    f.name("name", b.name);
    f.choice("process", b.process);
    if (b.key == "main") {
      f.key("from-pile", b.from_pile);  // nothing feeds the first step
    } else {
      f.pile("from-pile", b.from_pile);
    }
    f.optional_mass("weight", b.weight);
    f.division(b.division);
  }
};
template <>
struct Kind<body::Pile> : FactOf<1> {
  static constexpr std::string_view name = "pile";
  static void fields(auto& f, auto& b) {
    f.key("key", b.key);
    f.step(b.step);
    f.name("name", b.name);
    f.choice("role", b.role);
    f.optional_name("use", b.use);
  }
};
template <>
struct Kind<body::ByDifference> : FactOf<1> {
  static constexpr std::string_view name = "by-difference";
  static void fields(auto& f, auto& b) {
    f.pile_ever("pile", b.pile);
    f.truth("on", b.on);
  }
};
template <>
struct Kind<body::IncomingWeight> : FactOf<1> {
  static constexpr std::string_view name = "incoming";
  static void fields(auto& f, auto& b) {
    f.choice("which", b.which);
    const bool may_be_nothing = b.which == Incoming::packaging || b.which == Incoming::purge;
    f.mass("weight", b.weight, may_be_nothing ? Sign::zero_or_more : Sign::positive_only);
    f.division(b.division);
    f.count(b.count);
  }
};
template <>
struct Kind<body::Reading> : AdditiveOf<> {
  static constexpr std::string_view name = "reading";
  static void fields(auto& f, auto& b) {
    f.pile("pile", b.pile);
    f.choice("habit", b.habit);
    f.mass("weight", b.weight,
           b.habit == Habit::taken_off ? Sign::negative_only : Sign::positive_only);
    f.division(b.division);
    f.count(b.count);
    f.tub("tub", b.tub);
    f.optional_mass("tare", b.tare, Sign::zero_or_more);
    f.entries("reading", "covers", b.covers);
    f.optional_entry("cut", "cut", b.cut);
    f.flag("sure", b.sure);
    f.later(3, b.sure);
  }
};
template <>
struct Kind<body::Remainder> : AdditiveOf<> {
  static constexpr std::string_view name = "remainder";
  static void fields(auto& f, auto& b) {
    f.step(b.step);
    f.mass("weight", b.weight, Sign::zero_or_more);
    f.division(b.division);
  }
};
template <>
struct Kind<body::Checkpoint> : FactOf<2> {
  static constexpr std::string_view name = "checkpoint";
  static void fields(auto& f, auto& b) {
    f.step(b.step);
    f.name("name", b.name);
    f.mass("weight", b.weight);
    f.division(b.division);
  }
};
template <>
struct Kind<body::Tub> : FactOf<1> {
  static constexpr std::string_view name = "tub";
  static void fields(auto& f, auto& b) {
    f.key("key", b.key);
    f.name("name", b.name);
    f.mass("tare", b.tare, Sign::zero_or_more);
    f.division(b.division);
  }
};
template <>
struct Kind<body::Move> : FactOf<1> {
  static constexpr std::string_view name = "move";
  static void fields(auto& f, auto& b) {
    f.entry("reading", "reading", b.reading);
    f.pile("to-pile", b.to_pile);
  }
};
template <>
struct Kind<body::Transfer> : AdditiveOf<> {
  static constexpr std::string_view name = "transfer";
  static void fields(auto& f, auto& b) {
    f.pile("from-pile", b.from_pile);
    f.pile("to-pile", b.to_pile);
    f.mass("weight", b.weight);
    f.division(b.division);
  }
};
template <>
struct Kind<body::Price> : FactOf<1> {
  static constexpr std::string_view name = "price";
  static void fields(auto& f, auto& b) {
    f.priced("of", b.of);
    f.choice("basis", b.basis);
    f.number("amount", b.amount, b.of.starts_with("pile:") ? Sign::any : Sign::zero_or_more);
    f.one_of("unit", b.unit, kinds::kPriceUnits, b.basis == PriceBasis::per_mass);
    f.name("currency", b.currency);
    f.must("currency", [&] { return kinds::is_currency(b.currency); });
    f.optional_percent("quoted-yield", b.quoted_yield);
    f.must("quoted-yield", [&] { return !b.quoted_yield || b.quoted_yield->value > 0.0; });
    if (b.of != "ready-cut" || b.basis != PriceBasis::total) return;
    f.optional_integer("pieces", b.pieces, 1, kMaxCount);
    if (b.pieces) f.optional_mass("piece-weight", b.piece_weight);
    f.later(3, b.pieces.has_value());
  }
};
template <>
struct Kind<body::Labour> : AdditiveOf<> {
  static constexpr std::string_view name = "labour";
  static constexpr std::int64_t most_ms = 10000ll * 60 * 1000;
  static void fields(auto& f, auto& b) {
    f.optional_minutes("minutes", b.minutes);
    f.optional_integer("measured-ms", b.measured_ms, 0, most_ms);
    f.one_at_least("minutes", [&] { return b.minutes || b.measured_ms; });
  }
};
template <>
struct Kind<body::Target> : FactOf<1> {
  static constexpr std::string_view name = "target";
  static void fields(auto& f, auto& b) {
    f.pile_ever("pile", b.pile);
    f.mass("weight", b.weight);
    f.optional_mass("tolerance", b.tolerance, Sign::zero_or_more);
  }
};
template <>
struct Kind<body::EyeCall> : FactOf<1> {
  static constexpr std::string_view name = "eye-call";
  static void fields(auto& f, auto& b) {
    f.choice("role", b.role);
    f.percent("share", b.share);
  }
};
template <>
struct Kind<body::Cut> : AdditiveOf<> {
  static constexpr std::string_view name = "cut";
  static void fields(auto& f, auto& b) {
    f.step(b.step);
    f.optional_length("mark", b.mark);
    f.optional_mass("target", b.target);
    f.optional_long_text("plan", b.plan);
  }
};
// The key of its fact is an id (entry.h).
template <>
struct Kind<body::Person> : FactOf<0> {
  static constexpr std::string_view name = "person";
  static void fields(auto& f, auto& b) { f.name("name", b.name); }
};
template <>
struct Kind<body::Note> : AdditiveOf<> {
  static constexpr std::string_view name = "note";
  static void fields(auto& f, auto& b) {
    f.long_text("text", b.text);
    f.optional_entry("entry", "about", b.about);
    f.flag("next", b.next);
    f.later(4, b.next);
  }
};
template <>
struct Kind<body::Void> : AdditiveOf<> {
  static constexpr std::string_view name = "void";
  // It may come before its target: nothing is missed.
  static void fields(auto& f, auto& b) { f.entry("", "target", b.target); }
};
template <>
struct Kind<body::Line> : FactOf<0, 4> {
  static constexpr std::string_view name = "line";
  static void fields(auto& f, auto& b) {
    f.key("key", b.key);
    f.flag("start", b.start);
  }
};
}  // namespace tallyblock

#include "core/entries/inside/kinds_of_cutting.h"

namespace tallyblock {

// Looks at no field: what derives from it says again those it looks at.
struct IgnoreFields {
  void name(const auto&...) {}
  void optional_name(const auto&...) {}
  void long_text(const auto&...) {}
  void optional_long_text(const auto&...) {}
  void key(const auto&...) {}
  void optional_key(const auto&...) {}
  void pile(const auto&...) {}
  void pile_ever(const auto&...) {}
  void tub(const auto&...) {}
  void step(const auto&...) {}
  void priced(const auto&...) {}
  void entry(const auto&...) {}
  void optional_entry(const auto&...) {}
  void entries(const auto&...) {}
  void mass(const auto&...) {}
  void optional_mass(const auto&...) {}
  void division(const auto&...) {}
  void length(const auto&...) {}
  void optional_length(const auto&...) {}
  void number(const auto&...) {}
  void percent(const auto&...) {}
  void optional_percent(const auto&...) {}
  void optional_minutes(const auto&...) {}
  void choice(const auto&...) {}
  void one_of(const auto&...) {}
  void either(const auto&...) {}
  void integer(const auto&...) {}
  void optional_integer(const auto&...) {}
  void count(const auto&...) {}
  void truth(const auto&...) {}
  void flag(const auto&...) {}
  void must(const auto&...) {}
  void one_at_least(const auto&...) {}
  void later(const auto&...) {}
};

// Calls `use` with the kind that `body` is; not for an unknown one.
template <class AnyBody, class Use>
void with_kind(AnyBody& body, Use use) {
  std::visit(
      [&](auto& held) {
        using Held = std::remove_cvref_t<decltype(held)>;
        if constexpr (!std::is_same_v<Held, body::Unknown>) use(Kind<Held>{}, held);
      },
      body);
}

// All fields of `body`, through `f`.
template <class Fields, class AnyBody>
void visit_fields(Fields& f, AnyBody& body) {
  with_kind(body, [&](auto kind, auto& held) { kind.fields(f, held); });
}

}  // namespace tallyblock
