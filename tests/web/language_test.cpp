// Every screen in an invented language: a third longer, with a decimal comma, counting as Czech does. All
// words come from the catalogue, and nothing is cut off.
#include "language.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "every_screen.h"
#include "tests/core/random_session.h"
#include "web/figures/doubts.h"
#include "web/figures/sentence.h"

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
    EXPECT_EQ(say("weigh.enter"), "[Íntó~]");
    EXPECT_EQ(form_of("weigh.on-scale", 3), "weigh.on-scale#few");
    EXPECT_EQ(form_of("weigh.on-scale", 5), "weigh.on-scale");
  }
  EXPECT_EQ(say("weigh.enter"), english);
}

TEST(InventedLanguage, WordsOutsideItAreFoundUnlessTheyAreData) {
  const std::vector<std::string> names = {"Beef tenderloin"};
  EXPECT_EQ(english_in("[Íntó~] Beef tenderloin, 12,5 g", names), "");
  EXPECT_EQ(english_in("[Íntó~] the loin: 12 EUR", names), "the loin ");
  EXPECT_EQ(english_in("go.weigh", names), "go weigh ");
}

TEST(InventedLanguage, IsThatOfEveryDoubt) {
  const InventedLanguage another;
  std::set<Code> told;
  for (std::uint32_t seed = 1; seed <= 200; ++seed) {
    const Figures f = figures_of(testing::RandomSession(seed, {.awkward = true}).set());
    show::Style style = show::style_of(f.settings);
    style.mark = ',';
    for (const Doubt& doubt : f.doubts) {
      std::vector<std::string> names;
      add_names(f, names);
      for (const Arg& arg : doubt.args) {
        const std::string& text = arg.text();
        if (arg.kind() == Arg::Kind::name || arg.kind() == Arg::Kind::code) names.push_back(text);
        if (arg.kind() == Arg::Kind::fact)  // the key, behind the kind
          names.push_back(text.substr(std::min(text.find(':'), text.size())));
      }
      const std::string said = doubt_words(f, style, doubt);
      EXPECT_EQ(english_in(said, names), "") << said;
      told.insert(doubt.code);
    }
  }
  EXPECT_GT(told.size(), 15U);
}

TEST(InventedLanguage, IsThatOfRefusedDigitsAndFiles) {
  const InventedLanguage another;
  const auto look = [](const Problem& problem, const std::vector<std::string>& data) {
    const std::string said = show::problem(problem, {});
    EXPECT_EQ(english_in(said, data), "") << said;
  };
  look(parse_mass("1..2", "reading").problem(), {});
  look(parse_mass("", "drained").problem(), {});
  look(parse_mass("2000 kg", "drained").problem(), {});
  look(parse_minutes("20000", "minutes").problem(), {});
  look(parse_percent("120", "loss-limit").problem(), {});
  look(parse_length("11 m", "width").problem(), {});
  look(parse_length("11000 mm", "width").problem(), {});
  look(parse_temperature("300 C", "receiving-temperature").problem(), {});
  look(parse_number("1e5", "price-per-mass").problem(), {"1e5"});
  look(read_session("").problem(), {});
  look(read_session("{").problem(), {});
  look(read_session("kg \xFF").problem(), {});
  look(read_session("{\"format\":\"other\"}").problem(), {"format"});
  tallyblock::Place place("seq");
  place.line = 3;
  place.entry = 12;
  look({Code::file_field_value, place, {Arg::code("seq"), Arg::number(12)}}, {"seq"});
}

// Each act says what it did.
TEST(InventedLanguage, IsThatOfNotices) {
  const InventedLanguage another;
  Rig rig;
  std::set<std::string> said;
  const auto look = [&] {
    rig.pump();
    if (!rig->notice()) return;
    std::vector<std::string> names;
    names.emplace_back("[no such] currency");
    if (rig->session() != nullptr) add_names(rig.figures(), names);
    const std::string words = say(rig->notice()->key, rig->notice()->args);
    EXPECT_EQ(english_in(words, names), "") << words;
    said.insert(rig->notice()->key);
  };
  ask::set_setting(*rig, "decimal-mark", ",");
  ask::new_session(*rig);
  look();
  rig.enter(FieldKind::drained, "5200,5");
  look();
  rig.enter(FieldKind::price_per_mass, "9.95");
  look();
  rig.enter(FieldKind::wage, "18.5");
  look();
  rig.enter(FieldKind::minutes, "12");
  look();
  rig.enter(FieldKind::target, "180", "portions");
  look();
  rig.enter(FieldKind::loss_limit, "3.5");
  look();
  rig.enter(FieldKind::receiving_temperature, "3.5");
  look();
  rig.enter(FieldKind::eye_call, "60");
  look();
  rig.weigh("portions", "182");
  look();
  const std::string reading = to_text(rig.pile("portions").lines.back().id);
  rig.enter(FieldKind::anew, "183", reading);
  look();
  ask::undo(*rig);
  look();
  ask::add_tub(*rig, "");
  look();
  ask::add_pile(*rig, Role::secondary, "[Strips]", "");
  look();
  ask::set_by_difference(*rig, "usable-trim", true);
  look();
  ask::break_down(*rig, "second-cuts", say("process.cooking"), Process::cooking);
  look();
  rig.name("person", "Ada");
  look();
  rig.name("note", "cut thin");
  look();
  ask::set_session_setting(*rig, "unit", "oz");
  look();
  ask::set_setting(*rig, "currency", "[no such] currency");
  look();
  ask::load_sample(*rig);
  look();
  EXPECT_GT(said.size(), 10U);
}

TEST(WeighScreenInAnotherLanguage, HasEveryKeyOnASmallPhone) {
  const InventedLanguage another;
  AppStage at;
  ASSERT_TRUE(at.stage.has_font) << "the font of the tests is missing: install fonts-inter";
  for (const Place& place : places) {
    if (place.screen != Screen::weigh) continue;
    AppStage stage;
    show(stage, views[0], place);
    EXPECT_FALSE(stage.screens->kit().frame().page_scrolls) << place.name;
  }
}

class EveryScreenInAnotherLanguage : public ::testing::TestWithParam<int> {
 protected:
  InventedLanguage another_;
};

TEST_P(EveryScreenInAnotherLanguage, IsWholeAndSaysNothingInEnglish) {
  draw_every_place(views[GetParam()], ",", "other-", [](AppStage& stage) {
    std::vector<std::string> names = sample_names();
    if (stage.app().session() != nullptr) add_names(stage.app().session()->figures, names);
    std::set<std::string> english;
    const auto look = [&](std::string_view said) {
      const std::string found = english_in(std::string(said), names);
      if (!found.empty()) english.insert(found + "in \"" + std::string(said) + '"');
    };
    for (const AccessNode& node : stage.access()) {
      look(node.label);
      if (node.kind != AccessKind::link) look(node.value);  // a path
    }
    for (const Node& node : stage.drawn().nodes) look(node.text);
    for (const std::string& found : english) ADD_FAILURE() << found;
  });
}

INSTANTIATE_TEST_SUITE_P(In, EveryScreenInAnotherLanguage,
                         ::testing::Range(0, static_cast<int>(std::size(views))), name_of_view);

}  // namespace
}  // namespace tallyblock::test
