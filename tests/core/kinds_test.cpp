// What kinds.h says of each kind against the schema, which is written apart from it.
#include "core/entries/kinds.h"

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "core/json/json_text.h"
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
  EXPECT_EQ(seen, 29U);
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

TEST(Kinds, AnUnknownOneIsNotDescribed) {
  Body body = body::Unknown{"from-later", std::nullopt};
  Named named;
  visit_fields(named, body);
  EXPECT_TRUE(named.fields.empty());
}

}  // namespace
}  // namespace tallyblock::testing
