// The list of pieces: its cards, the piece in work, the first run, the cautions before the first piece, and
// pieces that were begun and left again.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "app_stage.h"
#include "web/app/desk/open_session.h"
#include "web/words/words.h"

namespace tallyblock::test {
namespace {

struct Pieces : ::testing::Test {
  AppStage at;
  Rig& rig = at.rig;
  void SetUp() override {
    at.stage.in.reduced_motion = true;
    at.stage.size(390, 844, 2, 1);
    at.settle();
  }
  const AccessNode* node(std::string_view path) { return Stage::find(at.access(), path); }
  bool seen(std::string_view path) { return node(path) != nullptr; }
  void tap(std::string_view path) {
    ASSERT_TRUE(seen(path)) << path;
    at.stage.in.activated.push_back(Kit::id_of(path));
    at.settle();
  }
  void begin() {
    ask::new_session(*rig);
    rig.pump();
  }
  std::string said_of(const SessionCard& card) {
    const AccessNode* n = node("sessions/" + card.id);
    return n == nullptr ? std::string() : n->label;
  }
  const SessionCard& card(const std::string& title) {
    return *std::ranges::find(rig->shelf().cards, title, &SessionCard::title);
  }
  bool any_says(std::string_view words) {
    return std::ranges::any_of(at.access(), [&](const AccessNode& n) {
      return (n.label + " " + n.value).find(words) != std::string::npos;
    });
  }
};

TEST_F(Pieces, AFirstRunFitsOneScreenOfEveryPhoneHeldUpright) {
  for (const auto& [w, h] : {std::pair{390.0F, 844.0F}, {360.0F, 640.0F}}) {
    at.stage.size(w, h, 2, 1);
    at.settle();
    EXPECT_FALSE(at.drawn().page_scrolls) << h;
    for (const char* path : {"first/whole/picture", "first/piles/picture", "first/cost",
                             "first/sample", "sessions/new"}) {
      ASSERT_TRUE(seen(path)) << path;
      EXPECT_TRUE(node(path)->visible) << path;
    }
    EXPECT_FALSE(seen("sessions/caution-seen"));
  }
}

TEST_F(Pieces, TheCautionsAreReadOnceBeforeTheFirstNewPiece) {
  tap("sessions/new");
  EXPECT_EQ(rig->draft().panel, "caution:new");
  EXPECT_TRUE(rig->shelf().cards.empty());
  EXPECT_TRUE(seen("sessions/caution/caution.knife"));
  tap("sessions/caution-seen");
  EXPECT_TRUE(rig->shelf().settings.caution_seen);
  EXPECT_EQ(rig->draft().screen, Screen::weigh);
  EXPECT_EQ(rig->shelf().cards.size(), 1U);
  EXPECT_EQ(rig->draft().panel, "");
  rig.name("piece", "Leg");
  at.go(Screen::sessions);
  tap("sessions/new");
  EXPECT_EQ(rig->draft().screen, Screen::weigh);
  EXPECT_EQ(rig->shelf().cards.size(), 2U);
}

TEST_F(Pieces, TheExampleTooIsLoadedAfterTheCautions) {
  tap("first/sample");
  EXPECT_EQ(rig->draft().panel, "caution:sample");
  tap("sessions/caution-seen");
  EXPECT_EQ(rig->shelf().cards.size(), 4U);
  EXPECT_TRUE(any_says("Invented"));
}

TEST_F(Pieces, AKillComesBackToTheCautionsAndGoesOnFromThere) {
  tap("sessions/new");
  rig.restart();
  at.screens = std::make_unique<Screens>(*rig);
  at.settle();
  ASSERT_TRUE(seen("sessions/caution-seen"));
  tap("sessions/caution-seen");
  EXPECT_EQ(rig->draft().screen, Screen::weigh);
}

TEST_F(Pieces, TheSheetIsPutAwayByItsPlace) {
  tap("sessions/new");
  tap("place.sessions");
  EXPECT_FALSE(seen("sessions/caution-seen"));
  EXPECT_FALSE(rig->shelf().settings.caution_seen);
  EXPECT_TRUE(rig->shelf().cards.empty());
}

TEST_F(Pieces, TheSameAgainOfAPieceWaitsForTheCautions) {
  begin();
  rig.name("piece", "Leg");
  rig.enter(FieldKind::drained, "2000");
  const std::string id = rig->session()->id;
  at.go(Screen::share);
  tap("share/again");
  EXPECT_EQ(rig->draft().panel, "caution:again:" + id);
  EXPECT_EQ(rig->shelf().cards.size(), 1U);
  tap("sessions/caution-seen");
  EXPECT_EQ(rig->shelf().cards.size(), 2U);
  EXPECT_EQ(rig.figures().piece, "Leg");
}

TEST_F(Pieces, ThePieceInWorkStandsOnTopWithWhatIsStillToWeigh) {
  ask::load_sample(*rig);
  begin();
  rig.name("piece", "Loin");
  rig.enter(FieldKind::drained, "2500");
  rig.enter(FieldKind::price_per_mass, "10");
  rig.weigh("portions", "230");
  ask::dismiss_notice(*rig);
  at.go(Screen::sessions);
  ASSERT_TRUE(seen("sessions/go-on"));
  EXPECT_EQ(node("sessions/go-on")->label, "Loin, Go on: 2270 g still to weigh");
  EXPECT_EQ(said_of(card("Loin")), "") << "it stands on top alone";
  EXPECT_FALSE(any_says("108.70")) << "no cost of portions before all is weighed";
  tap("sessions/go-on");
  EXPECT_EQ(rig->draft().screen, Screen::weigh);
  rig.weigh("unusable-trim", "2260");
  at.go(Screen::sessions);
  EXPECT_FALSE(seen("sessions/go-on"));
  EXPECT_NE(said_of(card("Loin")).find("108.70 € per kg of portions"), std::string::npos)
      << said_of(card("Loin"));
}

TEST_F(Pieces, ACardSaysWhatAPortionCostsWhoCutItAndHowWell) {
  ask::load_sample(*rig);
  rig.pump();
  at.go(Screen::settings);
  at.go(Screen::sessions);
  const std::string beef = said_of(card("Beef tenderloin"));
  EXPECT_NE(beef.find("Invented, "), std::string::npos) << beef;
  EXPECT_NE(beef.find("2480 g, Ada (invented). A quality check failed"), std::string::npos) << beef;
  EXPECT_NE(beef.find("8.63 € Centre-cut steaks, 180 g each"), std::string::npos) << beef;
  tap("sessions/" + card("Beef tenderloin").id);
  EXPECT_EQ(rig->session()->figures.piece, "Beef tenderloin");
  const TargetFigures& target = rig.figures().targets.front();
  ASSERT_TRUE(target.cost_with_labour);
  EXPECT_NEAR(*card("Beef tenderloin").portion_cost_with_labour,
              target.cost_with_labour->in_units(), 1e-9);
}

TEST_F(Pieces, QualityOfACardIsPassedOnlyWhereEveryCheckIs) {
  begin();
  EXPECT_FALSE(rig->shelf().cards.front().quality);
  ask::set_quality(*rig, "membrane", true);
  rig.pump();
  EXPECT_EQ(rig->shelf().cards.front().quality, true);
  ask::set_quality(*rig, "gouges", false);
  rig.pump();
  const SessionCard& failed = rig->shelf().cards.front();
  EXPECT_EQ(failed.quality, false);
  const auto read = card_from_json(failed.id, card_to_json(failed));
  ASSERT_TRUE(read);
  EXPECT_EQ(read->quality, false);
  EXPECT_FALSE(card_from_json("a", R"({"entries":1,"quality":"perhaps"})")->quality);
}

TEST_F(Pieces, WhatWasBegunAndLeftAgainIsNoPiece) {
  begin();
  const std::string first = rig->session()->id;
  at.go(Screen::sessions);
  EXPECT_FALSE(seen("sessions/" + first));
  EXPECT_TRUE(seen("first/whole/picture")) << "there is still no piece";
  begin();
  EXPECT_NE(rig->session()->id, first);
  rig.restart();
  EXPECT_FALSE(seen("sessions/" + first));
  const auto& entries = rig.store.kept[Area::entries];
  EXPECT_TRUE(std::ranges::any_of(entries, [&](const auto& entry) {
    return entry.first.starts_with(first);
  })) << "what was stored once is never erased unasked";
}

TEST_F(Pieces, IsNotCalledBegunWithoutAClock) {
  begin();
  ASSERT_TRUE(rig->shelf().cards.front().as_begun);
  OpenSession open = *rig->session();
  EntrySet anew;
  for (const Entry* entry : open.set.in_order()) {
    Entry copy = *entry;
    copy.time.utc_ms = 0;
    anew.insert(copy);
  }
  open.set = anew;
  EXPECT_FALSE(card_of(open).as_begun) << "when it was made cannot tell what was done later";
}

TEST_F(Pieces, WhatHoldsAnythingIsAPiece) {
  const auto counts = [&](auto&& act) {
    begin();
    act();
    rig.pump();
    const std::string id = rig->session()->id;
    at.go(Screen::sessions);
    EXPECT_FALSE(seen("first/whole/picture"));
    const std::size_t before = rig->shelf().cards.size();
    begin();
    EXPECT_NE(rig->shelf().card(id), nullptr);
    EXPECT_EQ(rig->shelf().cards.size(), before + 1);
    ask::put_in_bin(*rig, id);
    rig.pump();
  };
  counts([&] { rig.name("piece", "Leg"); });
  counts([&] { rig.enter(FieldKind::drained, "2000"); });
  counts([&] { rig.weigh("portions", "200"); });
  counts([&] { rig.name("note", "cold"); });
  counts([&] {  // a pile of one's own, made after the beginning
    rig.wait(1000);
    ask::add_pile(*rig, Role::secondary, "Cheeks", "");
  });
  counts([&] {  // digits half typed
    ask::edit(*rig, {FieldKind::drained, ""});
    rig.type("24");
  });
}

TEST_F(Pieces, WhatStoodBelowTheListStandsUnderMore) {
  ask::load_sample(*rig);
  rig.pump();
  at.go(Screen::settings);
  for (const char* path :
       {"more/import", "more/backup", "more/sample", "more/protect", "go.bin", "go.about"})
    EXPECT_TRUE(seen(path)) << path;
  tap("more/sample");
  EXPECT_TRUE(rig->shelf().cards.empty());
  tap("more/sample");
  EXPECT_EQ(rig->draft().panel, "caution:sample");
  tap("place.settings");
  tap("more/import");
  EXPECT_EQ(rig->draft().screen, Screen::sessions) << "what comes is seen in the list";
}

TEST_F(Pieces, OpenOnTheirResultWhenTheyAreDoneAndOnTheBoardWhileTheyAreInWork) {
  begin();
  rig.name("piece", "Done");
  rig.enter(FieldKind::drained, "2000");
  rig.enter(FieldKind::price_per_mass, "10");
  rig.weigh("portions", "1500");
  const std::string id = rig->session()->id;
  for (const bool done : {false, true}) {
    if (done) rig.weigh("usable-trim", "490");
    ask::go(*rig, Screen::sessions);
    rig.pump();
    ask::open(*rig, id);
    rig.pump();
    EXPECT_EQ(rig->draft().screen, done ? Screen::result : Screen::weigh);
    rig.restart();
    ask::go(*rig, Screen::sessions);
    rig.pump();
    ask::open(*rig, id);
    rig.pump();
    EXPECT_EQ(rig->draft().screen, done ? Screen::result : Screen::weigh) << "after a restart";
    ask::go(*rig, Screen::weigh);
    rig.pump();
  }
}

TEST_F(Pieces, HaveSecondCutsAndUsableTrimApartInTheirBlock) {
  begin();
  rig.enter(FieldKind::drained, "2000");
  rig.weigh("portions", "1000");
  rig.weigh("second-cuts", "300");
  rig.weigh("usable-trim", "500");
  const SessionCard now = card_of(*rig->session());
  EXPECT_DOUBLE_EQ(now.secondary_ratio.value_or(0), 0.15);
  EXPECT_DOUBLE_EQ(now.usable_ratio.value_or(0), 0.9);
  const auto again = card_from_json(now.id, card_to_json(now));
  ASSERT_TRUE(again);
  EXPECT_DOUBLE_EQ(again->secondary_ratio.value_or(0), 0.15);
}

}  // namespace
}  // namespace tallyblock::test
