// Acts as functions over a session: no frame, no store, no App. Expected entries are written by hand.
#include <gtest/gtest.h>

#include "core/cutting/advice_text.h"
#include "web/app/acts/acts_of_cutting.h"
#include "web/app/acts/acts_of_names.h"
#include "web/app/acts/acts_of_piles.h"
#include "web/app/acts/acts_of_sessions.h"
#include "web/app/acts/work.h"

namespace tallyblock::test {
namespace {

constexpr const char* kWriter = "0000000001";

TypedLength mm(const std::string& digits) { return *parse_length(digits + " mm", "test"); }

class ActsAlone : public ::testing::Test {
 protected:
  ActsAlone() {
    OpenSession session;
    session.id = "00000000000000000001";
    desk.lay(std::move(session));
    Writing first = to();
    begin_session(settings, first);
    desk.enter(first.made);
  }
  Writing to() { return writing_into(open(), kWriter, {1'790'000'000'000, 60}); }
  const OpenSession& open() { return *desk.session(); }
  Work work() { return {desk, keypad, settings, to(), 0}; }
  // What the digits of a field come to; nothing is entered.
  Made typed(FieldKind kind, const std::string& digits, const std::string& subject = "") {
    keypad.draft.field = {kind, subject};
    keypad.draft.digits = digits;
    Work w = work();
    return taken(w);
  }
  void entered(Made made) {
    ASSERT_FALSE(made.problem);
    ASSERT_FALSE(made.writing.made.empty());
    desk.enter(made.writing.made);
  }
  void entered(Body body) {
    Writing w = to();
    w.add(std::move(body));
    ASSERT_FALSE(w.problem);
    desk.enter(w.made);
  }
  // A loin of 5.2 kg, 600 mm long, 130 x 80 mm at the first face, 110 x 70 mm at the other end.
  void measure() {
    entered(typed(FieldKind::drained, "5200"));
    entered(typed(FieldKind::target, "180", "portions"));
    entered(body::Station{"main", {}, mm("130"), mm("80"), {}});
    entered(body::Station{"main", mm("600"), mm("110"), mm("70"), {}});
  }
  template <class B>
  const B& only(const Made& made) {
    EXPECT_EQ(made.writing.made.size(), 1U);
    return std::get<B>(made.writing.made.at(0).body);
  }
  AppSettings settings;
  Desk desk;
  Keypad keypad;
};

TEST_F(ActsAlone, AReadingIsOneEntryThatNamesItsPile) {
  keypad.draft.pile = "portions";
  const Made made = typed(FieldKind::reading, "412");
  const auto& reading = only<body::Reading>(made);
  EXPECT_EQ(reading.pile, "portions");
  EXPECT_EQ(reading.weight.text, "412 g");
  EXPECT_EQ(made.notice.key, "notice.weighed");
  EXPECT_TRUE(pile_named(open().figures, "portions")->lines.empty());  // nothing was entered
}

TEST_F(ActsAlone, DigitsThatAreNoWeightAreAProblemAndNoEntry) {
  const Made none = typed(FieldKind::reading, "");
  ASSERT_TRUE(none.problem);
  EXPECT_EQ(none.problem->code, Code::typed_empty);
  EXPECT_TRUE(none.writing.made.empty());
  const Made two = typed(FieldKind::drained, "1.2.3");
  EXPECT_TRUE(two.problem);
}

TEST_F(ActsAlone, APriceToTryThatIsNoneSaysWhatIsWrongWithIt) {
  const Made none = typed(FieldKind::new_price, "");
  ASSERT_TRUE(none.problem);
  EXPECT_EQ(none.problem->code, Code::typed_empty);
  const Made much = typed(FieldKind::new_price, "99999999");
  ASSERT_TRUE(much.problem);
  EXPECT_EQ(much.problem->code, Code::typed_too_large);
}

TEST_F(ActsAlone, HowManyAreWantedIsSaidWithTheMarkOfThePerson) {
  settings.decimal_mark = ",";
  const Made made = typed(FieldKind::wanted, "12.0", "portions");
  ASSERT_EQ(made.notice.args.size(), 2U);
  EXPECT_EQ(made.notice.args[1], "12,0");
}

TEST_F(ActsAlone, WhatIsAskedAboutTheDigitsIsLeftOnTheKeypad) {
  entered(typed(FieldKind::target, "200", "portions"));
  keypad.draft.pile = "portions";
  const Made made = typed(FieldKind::reading, "600");
  EXPECT_TRUE(made.writing.made.empty());
  EXPECT_FALSE(made.problem);
  EXPECT_EQ(keypad.asked.count, 3U);
  EXPECT_EQ(keypad.draft.panel, "count");
  keypad.asked.count_said = true;
  EXPECT_EQ(typed(FieldKind::reading, "600").writing.made.size(), 1U);
}

TEST_F(ActsAlone, AFactTakesThePlaceOfTheOneBefore) {
  Made first = typed(FieldKind::drained, "2000");
  const EntryId before = first.writing.made.at(0).id;
  entered(std::move(first));
  const Made again = typed(FieldKind::drained, "2100");
  EXPECT_EQ(again.writing.made.at(0).replaces, std::vector<EntryId>{before});
  EXPECT_EQ(latest_entry(open(), only<body::IncomingWeight>(again))->id, before);
}

TEST_F(ActsAlone, APriceKeepsWhatWasSaidOfItBefore) {
  entered(typed(FieldKind::ready_cut, "12.50"));
  entered(typed(FieldKind::ready_cut_yield, "90"));
  const Made made = typed(FieldKind::ready_cut, "13");
  const auto& price = only<body::Price>(made);
  EXPECT_EQ(price.amount.text, "13");
  ASSERT_TRUE(price.quoted_yield);
  EXPECT_NEAR(price.quoted_yield->value, 0.9, 1e-12);
}

TEST_F(ActsAlone, MinutesAreNotAddedToOthersUnasked) {
  entered(typed(FieldKind::minutes, "10"));
  const Made more = typed(FieldKind::minutes, "5");
  EXPECT_TRUE(more.writing.made.empty());
  EXPECT_EQ(keypad.draft.panel, "minutes");
}

TEST_F(ActsAlone, ASettingForNewPiecesIsNoEntry) {
  const Made made = typed(FieldKind::default_wage, "18.5");
  EXPECT_FALSE(made.problem);
  EXPECT_TRUE(made.writing.made.empty());
  EXPECT_EQ(settings.wage, "18.5");
}

TEST_F(ActsAlone, APileOfAKnownUseGetsItsKeyAndNoKeyComesTwice) {
  body::Pile stew;
  stew.use = "stew";
  stew.role = Role::usable_trim;
  Made made = add_pile(open(), to(), stew, "abcdef");
  EXPECT_EQ(only<body::Pile>(made).key, "stew");
  entered(std::move(made));
  EXPECT_EQ(only<body::Pile>(add_pile(open(), to(), stew, "abcdef")).key, "stew-2");
}

TEST_F(ActsAlone, TheSameRoleAgainIsNothingToDo) {
  EXPECT_TRUE(set_pile_role(open(), to(), "portions", Role::primary).writing.made.empty());
  EXPECT_TRUE(set_pile_role(open(), to(), "nowhere", Role::primary).writing.made.empty());
  const Made made = set_pile_role(open(), to(), "portions", Role::secondary);
  EXPECT_EQ(only<body::Pile>(made).role, Role::secondary);
}

TEST_F(ActsAlone, ACorrectedFactIsTakenOutWithAllItReplaced) {
  entered(typed(FieldKind::drained, "2000"));
  Made again = typed(FieldKind::drained, "2100");
  const EntryId last = again.writing.made.at(0).id;
  entered(std::move(again));
  Made out = void_entry(open(), to(), last);
  EXPECT_EQ(out.writing.made.size(), 2U);
  entered(std::move(out));
  EXPECT_FALSE(open().figures.incoming.on_the_board);
  EXPECT_TRUE(void_entry(open(), to(), last).writing.made.empty());  // it is out
  EXPECT_EQ(restore_entry(open(), to(), last).writing.made.size(), 2U);
}

TEST_F(ActsAlone, NothingIsBrokenDownOfWhatIsGone) {
  keypad.draft.pile = "second-cuts";
  entered(typed(FieldKind::reading, "500"));
  entered(break_down(open(), to(), "second-cuts", "Skewers", Process::other, "abcdef"));
  entered(typed(FieldKind::step_weight, "500", "second-cuts"));
  const Made none = break_down(open(), to(), "second-cuts", "Skewers", Process::other, "abcdeg");
  EXPECT_TRUE(none.writing.made.empty());
  EXPECT_EQ(none.notice.key, "notice.nothing-left");
  EXPECT_TRUE(none.notice.is_error);
}

TEST_F(ActsAlone, ANameChangesNothingElseOfItsPile) {
  const Made made = name(open(), to(), "pile:portions", "Steaks");
  const auto& pile = only<body::Pile>(made);
  EXPECT_EQ(pile.name, "Steaks");
  EXPECT_EQ(pile.role, Role::primary);
  EXPECT_TRUE(name(open(), to(), "pile:nowhere", "Steaks").writing.made.empty());
}

TEST_F(ActsAlone, TheFarEndIsLikeTheLastPlaceOnlyWhileItIsOpen) {
  EXPECT_TRUE(same_all_along(open(), to(), settings).writing.made.empty());
  entered(body::Setting{kPieceLength, "400 mm"});
  entered(body::Station{"main", {}, mm("90"), mm("60"), {}});
  Made far = same_all_along(open(), to(), settings);
  EXPECT_EQ(only<body::Station>(far).at->text, "400 mm");
  EXPECT_EQ(only<body::Station>(far).width.text, "90 mm");
  entered(std::move(far));
  EXPECT_TRUE(same_all_along(open(), to(), settings).writing.made.empty());
}

TEST_F(ActsAlone, ABlockIsWeighedWithoutAFrameEverDrawn) {
  measure();
  entered(set_long_pieces(open(), to(), 1));
  const std::optional<Guide::Advice> advice = desk.cutting().main()->objects.at(0).advice;
  ASSERT_TRUE(advice);
  const Made made = typed(FieldKind::block, "181");
  ASSERT_EQ(made.writing.made.size(), 2U);
  const auto& cut = std::get<body::Cut>(made.writing.made[0].body);
  const auto& reading = std::get<body::Reading>(made.writing.made[1].body);
  ASSERT_TRUE(cut.mark);
  EXPECT_EQ(cut.mark->length, ruler_mark(advice->next, LengthUnit::millimetre));
  EXPECT_EQ(cut.target->text, "180 g");
  EXPECT_EQ(advice_from(cut.plan).k, 1);
  EXPECT_EQ(reading.pile, "portions");
  EXPECT_EQ(reading.cut, made.writing.made[0].id);
  EXPECT_EQ(reading.weight.text, "181 g");
}

TEST_F(ActsAlone, ABlockThatCannotBeIsAskedAbout) {
  measure();
  entered(set_long_pieces(open(), to(), 1));
  EXPECT_TRUE(typed(FieldKind::block, "1810").writing.made.empty());
  ASSERT_TRUE(keypad.asked.weight);
  EXPECT_EQ(keypad.asked.weight->meant.at(0), "181");
}

TEST_F(ActsAlone, WhereToCutIsFoundAnewOnlyWhenTheSessionChanges) {
  measure();
  const std::uint64_t before = desk.revision();
  const CuttingNow* found = &desk.cutting();
  EXPECT_EQ(&desk.cutting(), found);
  EXPECT_EQ(desk.revision(), before);
  EXPECT_TRUE(desk.cutting().main()->objects.at(0).cuts.empty());
  entered(typed(FieldKind::block, "181"));
  EXPECT_GT(desk.revision(), before);
  EXPECT_EQ(desk.cutting().main()->objects.at(0).cuts.size(), 1U);
}

// Another window's copy of an entry may be the one that counts.
TEST_F(ActsAlone, WhatIsStoredIsNewsOnlyIfItChangesSomething) {
  keypad.draft.pile = "portions";
  Made mine = typed(FieldKind::reading, "412"), theirs = typed(FieldKind::reading, "411");
  ASSERT_EQ(mine.writing.made.at(0).id, theirs.writing.made.at(0).id);
  ASSERT_GT(mine.writing.made.at(0).text,
            theirs.writing.made.at(0).text);  // the smaller one counts
  OpenSession stored = open();
  stored.set.insert(theirs.writing.made.at(0));
  entered(std::move(mine));
  const std::uint64_t before = desk.revision();
  desk.merge(OpenSession(open()));
  EXPECT_EQ(desk.revision(), before);
  desk.merge(stored);
  EXPECT_GT(desk.revision(), before);
  EXPECT_EQ(pile_named(open().figures, "portions")->lines.back().net.in_grams(), 411.0);
}

TEST_F(ActsAlone, SameAgainTakesTheTargetsAndNoWeights) {
  measure();
  entered(typed(FieldKind::price_per_mass, "9"));
  OpenSession next;
  Writing taken_along = writing_into(next, kWriter, {});
  same_again(open(), settings, taken_along);
  for (const Entry& entry : taken_along.made) next.set.insert(entry);
  refresh(next);
  EXPECT_NE(target_of(next.figures, "portions"), nullptr);
  EXPECT_EQ(next.figures.piles.size(), open().figures.piles.size());
  EXPECT_FALSE(next.figures.incoming.on_the_board);
  EXPECT_TRUE(stations_of(next).empty());
}

TEST_F(ActsAlone, ASettingThatDoesNotFitIsNone) {
  EXPECT_EQ(with_setting(settings, "unit", "kg").value_or(settings).unit, "kg");
  EXPECT_FALSE(with_setting(settings, "unit", "stone"));
  EXPECT_FALSE(with_setting(settings, "unit", "g kg"));
  EXPECT_FALSE(with_setting(settings, "unit", ""));
  EXPECT_FALSE(with_setting(settings, "division", "wide"));
  EXPECT_TRUE(with_setting(settings, "wage", ""));
  EXPECT_FALSE(with_setting(settings, "nothing", "kg"));
}

}  // namespace
}  // namespace tallyblock::test
