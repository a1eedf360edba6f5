// What is half typed survives as text.
#include "web/app/keypad/draft.h"

#include <gtest/gtest.h>

namespace tallyblock {
namespace {

Draft full() {
  Draft draft;
  draft.screen = Screen::details;
  draft.session = "0000000000000000000a";
  draft.field = {FieldKind::pile_value, "usable-trim"};
  draft.digits = "-12.5";
  draft.unit = "lb-oz";
  draft.pile = "portions";
  draft.habit = "tub-now";
  draft.count = 4;
  draft.tub = "tub-1";
  draft.selected = "0000000001.7";
  draft.panel = "explain:portion-cost";
  draft.text = "Küchenchef \"A\"\nzwei";
  draft.text_field = "note";
  draft.timer_started_ms = 1'790'000'000'000;
  draft.timer_gathered_ms = 61'000;
  draft.new_price = "31,20";
  draft.person = "0000000001.1";
  draft.held = {FieldKind::reading, ""};
  draft.aside["reading"] = "18|g";
  draft.scroll = 120.5F;
  return draft;
}

TEST(Draft, EveryPartSurvivesTheWayThroughText) {
  const std::string text = draft_to_json(full());
  const Draft back = draft_from_json(text);
  EXPECT_EQ(draft_to_json(back), text);
  EXPECT_EQ(back.screen, Screen::details);
  EXPECT_EQ(back.session, "0000000000000000000a");
  EXPECT_EQ(back.field, (Field{FieldKind::pile_value, "usable-trim"}));
  EXPECT_EQ(back.digits, "-12.5");
  EXPECT_EQ(back.unit, "lb-oz");
  EXPECT_EQ(back.pile, "portions");
  EXPECT_EQ(back.habit, "tub-now");
  EXPECT_EQ(back.count, 4u);
  EXPECT_EQ(back.tub, "tub-1");
  EXPECT_EQ(back.selected, "0000000001.7");
  EXPECT_EQ(back.panel, "explain:portion-cost");
  EXPECT_EQ(back.text, "Küchenchef \"A\"\nzwei");
  EXPECT_EQ(back.text_field, "note");
  EXPECT_EQ(back.timer_started_ms, 1'790'000'000'000);
  EXPECT_EQ(back.timer_gathered_ms, 61'000);
  EXPECT_EQ(back.new_price, "31,20");
  EXPECT_EQ(back.person, "0000000001.1");
  EXPECT_EQ(back.held, (Field{FieldKind::reading, ""}));
  EXPECT_EQ(back.aside.at("reading"), "18|g");
  EXPECT_EQ(back.scroll, 120.5F);
}

TEST(Draft, EveryScreenAndFieldHasItsOwnName) {
  for (int n = 0; n <= static_cast<int>(Screen::about); ++n) {
    Draft draft;
    draft.screen = static_cast<Screen>(n);
    EXPECT_EQ(draft_from_json(draft_to_json(draft)).screen, draft.screen) << n;
  }
  for (int n = 0; n <= static_cast<int>(FieldKind::default_division); ++n) {
    Draft draft;
    draft.field.kind = static_cast<FieldKind>(n);
    EXPECT_EQ(draft_from_json(draft_to_json(draft)).field.kind, draft.field.kind) << n;
  }
}

TEST(Draft, DamagedTextGivesTheDefaultDraft) {
  const std::string text = draft_to_json(full());
  const std::string normal = draft_to_json(Draft{});
  EXPECT_EQ(draft_to_json(draft_from_json("")), normal);
  EXPECT_EQ(draft_to_json(draft_from_json("[]")), normal);
  EXPECT_EQ(draft_to_json(draft_from_json("\xff\xfe")), normal);
  for (std::size_t length = 0; length < text.size(); ++length) {
    EXPECT_EQ(draft_to_json(draft_from_json(text.substr(0, length))), normal) << length;
  }
}

TEST(Draft, ValuesOfTheWrongKindAreReadAsTheDefault) {
  const Draft draft = draft_from_json(
      R"({"screen":7,"count":"many","digits":[1],"scroll":"far","timer-started":-5,"field":"nonsense"})");
  EXPECT_EQ(draft_to_json(draft), draft_to_json(Draft{}));
}

}  // namespace
}  // namespace tallyblock
