// Every screen in an invented language: a third longer, with a decimal comma, counting as Czech does. All
// words come from the catalogue, and nothing is cut off.
#include "language.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <functional>

#include "every_screen.h"
#include "web/app/sample.h"

namespace tallyblock::test {
namespace {

TEST(InventedLanguage, IsMadeOfTheEnglishWords) {
  EXPECT_EQ(InventedLanguage::invented("Into {0}"), "[Íntó~] {0}");
  EXPECT_EQ(InventedLanguage::invented("{0}: {1} is missing, {2} of it."),
            "{0}: {1} [ís~ míssíng~~,] {2} [óf~ ít.]");
  EXPECT_EQ(InventedLanguage::invented("{0}, {1}"), "{0}, {1}");
  EXPECT_EQ(InventedLanguage::invented("({where})."), "({where}).");
}

TEST(InventedLanguage, StandsInPlaceOfEnglishWhileItLives) {
  const std::string english = say("weigh.enter");
  {
    const InventedLanguage another;
    EXPECT_EQ(say("weigh.enter"), "[Wéígh~]");
    EXPECT_EQ(form_of("weigh.on-scale", 3), "weigh.on-scale#few");
    EXPECT_EQ(form_of("weigh.on-scale", 5), "weigh.on-scale");
  }
  EXPECT_EQ(say("weigh.enter"), english);
}

// What somebody gave as a name, a note or a code: the longest first.
std::vector<std::string> given_names(App& app) {
  std::vector<std::string> names;
  const auto add = [&names](const Figures& f) {
    names.insert(names.end(), {f.piece, f.species, f.cut, f.specification, f.settings.currency});
    for (const auto& [field, value] : f.lot) names.push_back(value);
    for (const TubFigures& tub : f.tubs) names.push_back(tub.name);
    for (const PersonLine& person : f.people) names.push_back(person.name);
    for (const NoteLine& note : f.notes) names.push_back(note.text);
    for (const PileFigures& pile : f.piles) {
      names.push_back(pile.name);
      names.push_back(pile.use);
    }
  };
  for (const SessionFile& file : sample_sessions()) {
    EntrySet set;
    for (const Entry& entry : file.entries) set.insert(entry);
    add(figures_of(set));
  }
  if (app.session() != nullptr) add(app.session()->figures);
  std::erase(names, "");
  std::ranges::sort(names, std::greater(), &std::string::size);
  return names;
}

// Words of `text` that are neither in brackets nor data; "" for none.
std::string english_in(std::string text, const std::vector<std::string>& names) {
  for (const std::string& name : names) {
    for (std::size_t at; (at = text.find(name)) != std::string::npos;)
      text.replace(at, name.size(), "_");
  }
  constexpr std::array<std::string_view, 13> units = {"g",  "kg", "oz", "lb", "lbs", "mm", "cm",
                                                      "in", "m",  "C",  "F",  "°C",  "°F"};
  constexpr std::array<std::string_view, 6> currencies = {"EUR", "USD", "GBP", "CHF", "CAD", "AUD"};
  std::string left, word;
  bool inside = false;
  text += ' ';
  for (const char c : text) {
    const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
    if (!inside && letter) {
      word += c;
      continue;
    }
    const bool unit = std::ranges::find(units, word) != units.end() ||
                      std::ranges::find(currencies, word) != currencies.end();
    if (!word.empty() && !unit) left += word + ' ';
    word.clear();
    inside = c == '[' || (inside && c != ']');
  }
  return left;
}

TEST(InventedLanguage, WordsOutsideItAreFoundUnlessTheyAreData) {
  const std::vector<std::string> names = {"Beef tenderloin"};
  EXPECT_EQ(english_in("[Íntó~] Beef tenderloin, 12,5 g", names), "");
  EXPECT_EQ(english_in("[Íntó~] the loin: 12 EUR", names), "the loin ");
  EXPECT_EQ(english_in("go.weigh", names), "go weigh ");
}

class EveryScreenInAnotherLanguage : public ::testing::TestWithParam<int> {
 protected:
  InventedLanguage another_;
};

TEST_P(EveryScreenInAnotherLanguage, IsWholeAndSaysNothingInEnglish) {
  const View& view = views[GetParam()];
  const char* folder = std::getenv("TALLYBLOCK_PICTURES");
  for (const Place& place : places) {
    SCOPED_TRACE(std::string(place.name) + " on " + view.name);
    AppStage stage;
    ASSERT_TRUE(stage.stage.has_font) << "the font of the tests is missing: install fonts-inter";
    show(stage, view, place, ",");
    EXPECT_GT(stage.drawn().nodes.size(), 5U);
    for (const Rule& rule : rules) {
      SCOPED_TRACE(rule.name);
      rule.check(stage, place);
    }
    const std::vector<std::string> names = given_names(stage.app());
    std::set<std::string> english;
    const auto look = [&](std::string_view said) {
      const std::string found = english_in(std::string(said), names);
      if (!found.empty()) english.insert(found + "in \"" + std::string(said) + '"');
    };
    for (const AccessNode& node : stage.access()) {
      look(node.label);
      look(node.value);
    }
    for (const Node& node : stage.drawn().nodes) look(node.text);
    for (const std::string& found : english) ADD_FAILURE() << found;
    if (folder == nullptr) continue;
    const std::string file =
        std::string(folder) + "/other-" + place.name + "-" + view.name + ".png";
    EXPECT_TRUE(write_png(file, render(stage.screens->kit().drawn())));
  }
}

INSTANTIATE_TEST_SUITE_P(In, EveryScreenInAnotherLanguage,
                         ::testing::Range(0, static_cast<int>(std::size(views))),
                         [](const auto& which) {
                           std::string name = views[which.param].name;
                           std::ranges::replace(name, '-', '_');
                           return name;
                         });

}  // namespace
}  // namespace tallyblock::test
