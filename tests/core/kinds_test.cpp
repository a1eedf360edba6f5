// What kinds.h says of each kind against the schema, which is written apart from it.
#include "core/entries/kinds.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "core/json/json_text.h"
#include "core/session/session.h"
#include "make.h"

namespace tallyblock::testing {
namespace {

// The fields a description names, and whether they must be there.
struct Named : IgnoreFields {
  std::map<std::string, bool> fields;

  void needed(std::string_view field) { fields[std::string(field)] = true; }
  void absent(std::string_view field) { fields.emplace(field, false); }

  void name(std::string_view field, const auto&...) { needed(field); }
  void optional_name(std::string_view field, const auto&...) { absent(field); }
  void long_text(std::string_view field, const auto&...) { needed(field); }
  void optional_long_text(std::string_view field, const auto&...) { absent(field); }
  void key(std::string_view field, const auto&...) { needed(field); }
  void optional_key(std::string_view field, const auto&...) { absent(field); }
  void pile(std::string_view field, const auto&...) { needed(field); }
  void pile_ever(std::string_view field, const auto&...) { needed(field); }
  void tub(std::string_view field, const auto&...) { absent(field); }
  void step(const auto&...) { absent("step"); }
  void priced(std::string_view field, const auto&...) { needed(field); }
  void entry(const char*, std::string_view field, const auto&...) { needed(field); }
  void optional_entry(const char*, std::string_view field, const auto&...) { absent(field); }
  void entries(const char*, std::string_view field, const auto&...) { absent(field); }
  void mass(std::string_view field, const auto&...) { needed(field); }
  void optional_mass(std::string_view field, const auto&...) { absent(field); }
  void division(const auto&...) { absent("division"); }
  void length(std::string_view field, const auto&...) { needed(field); }
  void optional_length(std::string_view field, const auto&...) { absent(field); }
  void number(std::string_view field, const auto&...) { needed(field); }
  void percent(std::string_view field, const auto&...) { needed(field); }
  void optional_percent(std::string_view field, const auto&...) { absent(field); }
  void optional_minutes(std::string_view field, const auto&...) { absent(field); }
  void choice(std::string_view field, const auto&...) { needed(field); }
  void one_of(std::string_view field, const auto&, const auto&, bool must_be) {
    must_be ? needed(field) : absent(field);
  }
  void either(std::string_view field, const auto&...) { needed(field); }
  void integer(std::string_view field, const auto&...) { needed(field); }
  void optional_integer(std::string_view field, const auto&...) { absent(field); }
  void count(const auto&...) { absent("count"); }
  void truth(std::string_view field, const auto&...) { needed(field); }
  void flag(std::string_view field, const auto&...) { absent(field); }
};

Json schema() {
  const std::string text = file_bytes("core/entries/session.schema.json");
  const Result<Json> parsed = parse_json(text, 40);
  return parsed ? *parsed : Json();
}

std::map<std::string, bool> fields_of(const Json& shape) {
  std::map<std::string, bool> fields;
  const Json* properties = shape.member("properties");
  if (properties != nullptr)
    for (const Json& property : properties->children) fields[property.key] = false;
  const Json* required = shape.member("required");
  if (required != nullptr)
    for (const Json& field : required->children) fields[field.text] = true;
  return fields;
}

template <std::size_t I = 0, class Use>
void for_each_kind(Use use) {
  if constexpr (I + 1 < std::variant_size_v<Body>) {
    use(std::variant_alternative_t<I, Body>{});
    for_each_kind<I + 1>(use);
  }
}

TEST(Kinds, HaveTheFieldsOfTheSchemaAndNeedThoseItNeeds) {
  const Json all = schema();
  const Json* shapes = all.member("$defs");
  ASSERT_NE(shapes, nullptr);
  std::size_t seen = 0;
  for_each_kind([&](auto held) {
    using Held = decltype(held);
    const std::string kind(Kind<Held>::name);
    const Json* shape = shapes->member("kind-" + kind);
    ASSERT_NE(shape, nullptr) << kind;
    Named named;
    if constexpr (std::is_same_v<Held, body::Price>) held.basis = PriceBasis::total;
    Kind<Held>::fields(named, held);
    EXPECT_EQ(named.fields, fields_of(*shape)) << kind;
    ++seen;
  });
  EXPECT_EQ(seen, 30U);
}

TEST(Kinds, AreNamedOnceEach) {
  std::set<std::string_view> names;
  for_each_kind([&](auto held) { EXPECT_TRUE(names.insert(Kind<decltype(held)>::name).second); });
  for (const std::string_view name : names) EXPECT_TRUE(is_key(name)) << name;
}

TEST(Kinds, APackHasItsOwnFieldsAndAPriceByWeightNeedsItsUnit) {
  body::Price price;
  price.of = "ready-cut";
  price.basis = PriceBasis::total;
  price.pieces = 6;
  Named pack;
  Kind<body::Price>::fields(pack, price);
  EXPECT_TRUE(pack.fields.contains("pieces"));
  EXPECT_TRUE(pack.fields.contains("piece-weight"));
  EXPECT_FALSE(pack.fields.at("unit"));
  price.basis = PriceBasis::per_mass;
  Named by_weight;
  Kind<body::Price>::fields(by_weight, price);
  EXPECT_FALSE(by_weight.fields.contains("pieces"));
  EXPECT_TRUE(by_weight.fields.at("unit"));
}

// Frozen: which version of the format brought a kind, and which fields came later (FORMAT.md).
TEST(Kinds, NeedTheVersionThatBroughtThem) {
  const std::map<std::string, int> later = {
      {"station", 1}, {"plan-limits", 1}, {"wanted", 1}, {"long-piece", 1},
      {"face", 1},    {"cut-closed", 2},  {"line", 4}};
  for_each_kind([&](auto held) {
    const std::string kind(Kind<decltype(held)>::name);
    const auto found = later.find(kind);
    EXPECT_EQ(minor_of(entry({kWriterA, 1}, 1, held)), found == later.end() ? 0 : found->second)
        << kind;
  });
  body::Reading sure;
  sure.sure = true;
  EXPECT_EQ(minor_of(entry({kWriterA, 1}, 1, sure)), 3);
  body::Price pack;
  pack.of = "ready-cut";
  pack.basis = PriceBasis::total;
  EXPECT_EQ(minor_of(entry({kWriterA, 1}, 1, pack)), 0);
  pack.pieces = 6;
  EXPECT_EQ(minor_of(entry({kWriterA, 1}, 1, pack)), 3);
  EXPECT_EQ(minor_of(entry({kWriterA, 1}, 1, body::Note{"dull knife", {}, true})), 4);
}

// A part of a key that KeyOfFact does not know would be left out of it unseen.
TEST(Kinds, TheKeyOfAFactHasAllItsParts) {
  for_each_kind([&](auto held) {
    using Held = decltype(held);
    const std::string key = fact_key(entry({kWriterA, 1}, 1, held));
    if (Kind<Held>::parts < 0) {
      EXPECT_EQ(key, "");
      return;
    }
    if constexpr (std::is_same_v<Held, body::Person>) return;  // an id
    EXPECT_EQ(std::count(key.begin(), key.end(), ':'), Kind<Held>::parts) << key;
    EXPECT_TRUE(key.starts_with(Kind<Held>::name)) << key;
  });
}

// Every field that names something: what is told missing where nothing of the kind is there.
TEST(Kinds, WhatAnEntryNamesAndIsNotThereIsTold) {
  const EntryId gone{kWriterB, 7};
  const TypedMass g = mass("1 g");
  const auto reading_of = [&](auto change) {
    body::Reading reading;
    reading.pile = "here";
    reading.weight = g;
    change(reading);
    return Body(reading);
  };
  const std::string id = to_text(gone);
  const std::vector<std::pair<Body, std::string>> table = {
      {body::Pile{"p", "no-step", "P", Role::primary, ""}, "step no-step"},
      {body::Step{"s", "S", Process::cooking, "no-pile", {}, {}}, "pile no-pile"},
      {body::ByDifference{"no-pile", true}, "pile no-pile"},
      {reading_of([](auto& r) { r.pile = "no-pile"; }), "pile no-pile"},
      {reading_of([](auto& r) { r.tub = "no-tub"; }), "tub no-tub"},
      {reading_of([&](auto& r) { r.covers = {gone}; }), "reading " + id},
      {reading_of([&](auto& r) { r.cut = gone; }), "cut " + id},
      {body::Remainder{"no-step", g, {}}, "step no-step"},
      {body::Checkpoint{"no-step", "cleaned", g, {}}, "step no-step"},
      {body::Move{gone, "here"}, "reading " + id},
      {body::Move{{kWriterA, 2}, "no-pile"}, "pile no-pile"},
      {body::Transfer{"no-pile", "here", g, {}}, "pile no-pile"},
      {body::Transfer{"here", "no-pile", g, {}}, "pile no-pile"},
      {body::Price{"pile:no-pile", PriceBasis::total, number("1"), "", "EUR", {}}, "pile no-pile"},
      {body::Target{"no-pile", g, {}}, "pile no-pile"},
      {body::Cut{"no-step", {}, {}, ""}, "step no-step"},
      {body::Note{"about", gone}, "entry " + id},
      {body::Station{"no-step", {}, length("9 mm"), length("9 mm"), {}}, "step no-step"},
      {body::Wanted{"no-pile", 3}, "pile no-pile"},
      {body::LongPiece{"no-step", "2-1", 2, {}, {}, g, {}}, "step no-step"},
      {body::Face{"no-step", "", length("9 mm"), length("9 mm")}, "step no-step"},
      {body::CutClosed{gone}, "cut " + id}};
  for (const auto& [body, told] : table) {
    EntrySet set =
        set_of({entry({kWriterA, 1}, 1, body::Pile{"here", "main", "H", Role::primary, ""}),
                reading({kWriterA, 2}, 2, "10 g", "here"), entry({kWriterA, 3}, 3, body)});
    std::vector<std::string> all;
    for (const Doubt& doubt : figures_of(set).doubts) {
      if (doubt.code == Code::doubt_unknown_reference) all.push_back(doubt.where);
    }
    EXPECT_EQ(all, std::vector<std::string>{told}) << kind_name(body);
  }
}

// A pile that was taken away on purpose is missed by what lies on it, not by facts about it.
TEST(Kinds, FactsAboutAPileTakenAwayAreNoLoss) {
  for (const Body& body :
       {Body(body::ByDifference{"gone", true}), Body(body::Target{"gone", mass("1 g"), {}}),
        Body(body::Wanted{"gone", 3}),
        Body(body::Price{"pile:gone", PriceBasis::total, number("1"), "", "EUR", {}})}) {
    const EntrySet set =
        set_of({entry({kWriterA, 1}, 1, body::Pile{"gone", "main", "G", Role::primary, ""}),
                entry({kWriterA, 2}, 2, body), entry({kWriterA, 3}, 3, body::Void{{kWriterA, 1}})});
    for (const Doubt& doubt : figures_of(set).doubts) {
      EXPECT_NE(doubt.code, Code::doubt_unknown_reference) << kind_name(body);
    }
  }
}

// Limits of FORMAT.md that no other test holds.
TEST(Kinds, AFieldTakesWhatFormatMdSaysAndNoMore) {
  const auto stored = [](Body body) {
    return checked(entry({kWriterA, 1}, 1, std::move(body))).ok();
  };
  const auto station = [](const char* fill) {
    return body::Station{"main", {}, length("90 mm"), length("70 mm"), percent(fill)};
  };
  EXPECT_TRUE(stored(station("50 %")));
  EXPECT_FALSE(stored(station("49 %")));
  constexpr std::int64_t most = 10'000ll * 60 * 1000;
  EXPECT_TRUE(stored(body::Labour{{}, most}));
  EXPECT_FALSE(stored(body::Labour{{}, most + 1}));
  EXPECT_FALSE(stored(body::Labour{{}, {}}));
}

TEST(Kinds, AnUnknownOneIsNotDescribed) {
  Body body = body::Unknown{"from-later", std::nullopt};
  Named named;
  visit_fields(named, body);
  EXPECT_TRUE(named.fields.empty());
}

}  // namespace
}  // namespace tallyblock::testing
