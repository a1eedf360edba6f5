// The catalogue: a sentence for everything that can be said.
#include "web/words/words.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "web/app/app.h"
#include "web/app/shelf/defaults.h"
#include "web/figures/sentence.h"

namespace tallyblock {
namespace {

constexpr std::size_t kCodes = std::size(kCodeKeys);

// The most {n} in a text plus one.
std::size_t placeholders(std::string_view key) {
  std::size_t most = 0;
  for (std::size_t n = 0; n < 10; ++n) {
    std::vector<std::string> args(10, "");
    args[n] = "\x01mark\x01";
    if (say(key, args).find(args[n]) != std::string::npos) most = n + 1;
  }
  return most;
}

// How many figures each code carries at most, as written in the headers of the core.
std::size_t args_of(std::string_view key) {
  const auto is = [&](std::initializer_list<std::string_view> keys) {
    return std::find(keys.begin(), keys.end(), key) != keys.end();
  };
  if (key.substr(0, 5) == "need.") return 0;
  if (key == "typed.too-large") return 2;
  if (key == "typed.empty") return 0;
  if (key.substr(0, 6) == "typed.") return 1;
  if (is({"file.too-big", "file.newer-major", "file.field-missing", "file.field-type",
          "file.field-value", "file.changed"})) {
    return 2;
  }
  if (is({"file.too-deep", "file.too-many", "file.duplicate-id"})) return 1;
  if (key.substr(0, 5) == "file.") return 0;
  if (is({"plan.few-stations", "plan.first-station", "plan.no-weight", "plan.split-range",
          "plan.saw-range", "plan.value-range", "plan.too-many"})) {
    return 0;
  }
  if (is({"plan.stations-cross", "plan.limits-cross", "plan.least-over-thickness",
          "plan.trim-takes-all", "plan.target-too-heavy", "plan.thickness-max",
          "plan.thickness-min", "plan.least-dimension", "plan.tolerance-too-fine"})) {
    return 2;
  }
  if (is({"doubt.loss-high", "doubt.incoming-order", "doubt.tubs-apart"})) return 4;
  if (is({"doubt.loss-negative", "doubt.explain-tare", "doubt.explain-tare-twice",
          "doubt.explain-unit", "doubt.tub-below-readings", "doubt.tare-over-reading",
          "doubt.currency-mixed"})) {
    return 3;
  }
  if (is({"doubt.several-candidates", "doubt.unknown-kind", "doubt.unreadable-entry",
          "doubt.unknown-reference", "doubt.explain-repeated", "doubt.explain-sign",
          "doubt.taken-more-than-pile", "doubt.two-by-difference", "doubt.difference-readings"})) {
    return 2;
  }
  return 1;
}

TEST(Words, AreThoseOfTheRegion) {
  const std::vector<std::string> tables = [] {
    std::vector<std::string> all;
    for (const AppPart part : kParts) all.push_back(packed_words(part));
    return all;
  }();
  const auto anew = [&](std::string_view region) {
    forget_words();
    spell_as(region);
    for (const std::string& table : tables) add_words(table);
  };
  EXPECT_EQ(say("figure.labour"), "Labour");
  EXPECT_EQ(say("set.leg.usable-trim"), "Grind");
  anew("US");
  EXPECT_EQ(say("figure.labour"), "Labor");
  EXPECT_EQ(say("set.leg.usable-trim"), "Grind");
  for (const std::string_view key : word_keys()) {
    if (key.starts_with("spelling.")) continue;
    EXPECT_EQ(say(key).find("abour"), std::string::npos) << key;
  }
  anew("GB");
  EXPECT_EQ(say("figure.labour"), "Labour");
  EXPECT_EQ(say("set.leg.usable-trim"), "Mince");
  EXPECT_EQ(say("process.grinding"), "Minced");
  anew("DE");
  EXPECT_EQ(say("set.leg.usable-trim"), "Grind");
  spell_as("US");  // also of words that are there
  EXPECT_EQ(say("figure.labour"), "Labor");
  anew("");
}

TEST(Words, EveryCodeHasASentence) {
  for (std::size_t n = 0; n < kCodes; ++n) {
    const std::string_view key = key_of(static_cast<Code>(n));
    ASSERT_TRUE(has_words(key)) << key;
    const std::string sentence = say(key);
    EXPECT_GE(sentence.size(), 20u) << key;
    EXPECT_TRUE(sentence.back() == '.' || sentence.back() == ':') << key;
  }
}

TEST(Words, SentencesAskForNoFigureTheirCodeDoesNotCarry) {
  for (std::size_t n = 0; n < kCodes; ++n) {
    const std::string_view key = key_of(static_cast<Code>(n));
    EXPECT_LE(placeholders(key), args_of(key)) << key;
  }
}

TEST(Words, FormsAskForNoFigureTheirKeyDoesNotAskFor) {
  std::size_t forms = 0;
  for (const std::string_view key : word_keys()) {
    const std::size_t end = key.find('#');
    if (end == std::string_view::npos) continue;
    ++forms;
    EXPECT_TRUE(has_words(key.substr(0, end))) << key;
    EXPECT_LE(placeholders(key), placeholders(key.substr(0, end))) << key;
  }
  EXPECT_GT(forms, 10U);
}

TEST(Words, OneHasItsOwnFormWhereThereIsOne) {
  EXPECT_EQ(form_of("weigh.on-scale", 1), "weigh.on-scale#one");
  for (const double count : {0.0, 2.0, 3.0, 5.0, 11.0, 21.0})
    EXPECT_EQ(form_of("weigh.on-scale", count), "weigh.on-scale") << count;
  EXPECT_EQ(form_of("weigh.at-once", 1), "weigh.at-once");
}

TEST(Words, AnotherLanguageCountsByItsOwnRule) {
  const auto forms = [](const std::string& rule) {
    forget_words();
    add_words("n\nmany\nn#few\nfew\nn#one\none\n" + rule);
    std::string said;
    for (const double count : {0.0, 1.0, 2.0, 4.0, 5.0, 22.0})
      said += say(form_of("n", count)) + " ";
    return said;
  };
  EXPECT_EQ(forms(""), "many one many many many many ");
  EXPECT_EQ(forms("plural\nzero-one\n"), "one one many many many many ");
  EXPECT_EQ(forms("plural\none-few\n"), "many one few few many many ");
  EXPECT_FALSE(has_words("weigh.on-scale"));
  forget_words();
  for (const AppPart part : kParts) add_words(packed_words(part));
  EXPECT_TRUE(has_words("weigh.on-scale"));
}

TEST(Words, KeysAreThereOnce) {
  const std::vector<std::string_view> keys = word_keys();
  for (std::size_t n = 1; n < keys.size(); ++n) EXPECT_NE(keys[n - 1], keys[n]);
}

TEST(Words, ArgumentsAreNeverSearchedForPlaceholders) {
  EXPECT_EQ(say("notice.entered", {"{1}", "{0}"}), "{1}: {0}");
  EXPECT_EQ(say("notice.entered", {"only one"}), "only one: ");
}

TEST(Words, AnUnknownKeyIsShownAsItIs) {
  EXPECT_EQ(say("no.such-key"), "no.such-key");
  EXPECT_FALSE(has_words("no.such-key"));
}

TEST(Words, AProblemNamesItsPlaceInWords) {
  EXPECT_EQ(show::problem({Code::typed_two_marks, "price-per-mass", {Arg::typed("1.2.3")}}, {}),
            "Price: 1.2.3 has two decimal marks. Keep one.");
  EXPECT_EQ(show::problem({Code::file_not_text, Place::at_byte(7), {}}, {}),
            "The file is not text (byte 7). Choose a file saved by this app.");
}

TEST(Words, EveryFieldStatusAndDefaultPileHasItsName) {
  for (int n = 0; n <= static_cast<int>(FieldKind::default_division); ++n) {
    const std::string name(name_of(static_cast<FieldKind>(n)));
    EXPECT_TRUE(has_words("field." + name)) << name;
    if (n > 0) {
      EXPECT_TRUE(has_words("where." + name)) << name;
    }
  }
  for (int n = 0; n <= static_cast<int>(StoreStatus::unavailable); ++n) {
    EXPECT_TRUE(has_words(trouble_key(static_cast<StoreStatus>(n)))) << n;
  }
  for (const DefaultPile& pile : kDefaultPiles) EXPECT_NE(default_name(pile).substr(0, 5), "pile.");
}

}  // namespace
}  // namespace tallyblock
