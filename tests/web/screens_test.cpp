// Every screen of the app with the sample kitchen in it keeps the rules (every_screen.h), in every size,
// both themes and large text.
//
// With TALLYBLOCK_PICTURES set to a folder, each is written there as a PNG file.
#include "every_screen.h"

#include <gtest/gtest.h>

#include "web/words/words.h"

namespace tallyblock::test {
namespace {

// Weighing needs every key without scrolling, also with three rows of piles.
TEST(WeighScreen, HasEveryKeyOnASmallPhoneWithUpToSixPiles) {
  for (const char* piece : {"Beef tenderloin", "Pork loin, bone in", "Salmon side"}) {
    AppStage at;
    ASSERT_TRUE(at.stage.has_font) << "the font of the tests is missing: install fonts-inter";
    at.stage.size(360, 640, 2, 1);
    ask::load_sample(at.app());
    at.rig.pump();
    at.open(piece);
    ask::dismiss_notice(at.app());
    at.go(Screen::weigh);
    if (at.rig.figures().settings.unit == "lb-oz") ask::set_unit(at.app(), "oz");
    for (;;) {
      at.go(Screen::weigh, "");
      at.settle();
      EXPECT_FALSE(at.screens->kit().frame().page_scrolls)
          << piece << at.rig.figures().piles.size();
      // what is said of a portion out of tolerance takes no key away
      ask::set_count(at.app(), 1);  // however heavy
      at.rig.weigh(at.rig.figures().piles.front().key, "3");
      at.settle();
      EXPECT_FALSE(at.screens->kit().frame().page_scrolls)
          << piece << at.rig.figures().piles.size();
      ask::undo(at.app());  // or the balance would not close, which is said
      at.rig.pump();
      ask::dismiss_notice(at.app());
      if (at.rig.figures().piles.size() >= 6) break;
      ask::add_pile(at.app(), Role::secondary,
                    "Pile " + std::to_string(at.rig.figures().piles.size()), "");
      at.rig.pump();
      ask::dismiss_notice(at.app());
    }
  }
}

// Of all that is said on the screen, what has a point between two digits.
std::vector<std::string> with_points(const AccessList& list) {
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  std::vector<std::string> found;
  for (const AccessNode& node : list) {
    const std::string said = node.label + " | " + node.value;
    const bool example = said.find(say("settings.decimal-mark..")) != std::string::npos;
    if (example || said.starts_with("Session files of version")) continue;
    for (std::size_t i = 1; i + 1 < said.size(); ++i) {
      if (said[i] != '.' || !is_digit(said[i - 1]) || !is_digit(said[i + 1])) continue;
      found.push_back(said);
      break;
    }
  }
  return found;
}

TEST(DecimalComma, IsInEveryFigureOfEveryScreen) {
  for (const Place& place : places) {
    AppStage at;
    show(at, views[0], place, ",");
    EXPECT_EQ(with_points(at.access()), std::vector<std::string>()) << place.name;
  }
}

TEST(DecimalComma, IsMissedByThisTestWhereThereIsNone) {
  AppStage at;
  const auto result = std::find_if(std::begin(places), std::end(places), [](const Place& place) {
    return std::string_view(place.name) == "result-costs";
  });
  show(at, views[0], *result, ".");
  EXPECT_GT(with_points(at.access()).size(), 5U);
}

TEST(DecimalMark, IsThePersonsWhateverThePieceWasMadeWith) {
  for (const Place& place : places) {
    AppStage at;
    show(at, views[0], place, ".");
    ask::set_setting(at.app(), "decimal-mark", ",");
    at.settle();
    EXPECT_EQ(with_points(at.access()), std::vector<std::string>()) << place.name;
  }
  const auto result = std::ranges::find(places, std::string_view("result-costs"), &Place::name);
  AppStage at;
  show(at, views[0], *result, ",");
  ask::set_setting(at.app(), "decimal-mark", ".");
  at.settle();
  EXPECT_GT(with_points(at.access()).size(), 5U);
  for (const AccessNode& node : at.access()) {
    const std::string said = node.label + " | " + node.value;
    for (std::size_t i = 1; i + 1 < said.size(); ++i) {
      const bool mark = said[i] == ',' && std::isdigit(static_cast<unsigned char>(said[i - 1])) &&
                        std::isdigit(static_cast<unsigned char>(said[i + 1]));
      EXPECT_FALSE(mark) << said;
    }
  }
}

TEST(DecimalComma, IsInDoubtsAndRefusalsAndInWhatWasTypedWithAPoint) {
  AppStage at;
  ask::caution_read(at.app());
  ask::set_setting(at.app(), "decimal-mark", ",");
  ask::new_session(at.app());
  at.rig.pump();
  at.rig.enter(FieldKind::division, "0.5");
  at.rig.enter(FieldKind::drained, "2500.5");
  at.rig.enter(FieldKind::price_per_mass, "9.95");
  at.rig.enter(FieldKind::pile_value, "99.5", "usable-trim");
  ask::add_tub(at.app(), "");
  at.rig.pump();
  const std::string tub = at.rig.figures().tubs.front().key;
  at.rig.enter(FieldKind::tub_tare, "35.5", tub);
  at.rig.weigh("usable-trim", "910.5");
  at.rig.enter(FieldKind::invoice, "2400.5");
  for (const Screen screen : {Screen::weigh, Screen::result, Screen::details, Screen::sessions}) {
    at.go(screen);
    EXPECT_EQ(with_points(at.access()), std::vector<std::string>()) << name_of(screen);
  }
  EXPECT_GE(at.rig.figures().doubts.size(), 3U);
  at.go(Screen::weigh, "how");
  EXPECT_EQ(with_points(at.access()), std::vector<std::string>());
  ask::open_panel(at.app(), "");
  ask::set_tub(at.app(), tub);
  at.rig.weigh("portions", "12.5");
  ASSERT_TRUE(at.app().keypad().problem);
  at.settle();
  EXPECT_EQ(with_points(at.access()), std::vector<std::string>());
}

class EveryScreen : public ::testing::TestWithParam<int> {};

TEST_P(EveryScreen, KeepsTheRules) {
  draw_every_place(views[GetParam()], ".", "", [](AppStage&) {});
}

INSTANTIATE_TEST_SUITE_P(In, EveryScreen, ::testing::Range(0, static_cast<int>(std::size(views))),
                         name_of_view);

}  // namespace
}  // namespace tallyblock::test
