#include "core/log/log_piece.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "hostile.h"
#include "log_make.h"
#include "random_session.h"

namespace tallyblock::testing {
namespace {

// Own derivation: every figure from the weights and prices of loin().
TEST(LogPiece, HoldsTheFiguresOfTheSession) {
  const LogPiece p = piece_of(loin());
  EXPECT_EQ(p.session, kSession);
  EXPECT_EQ(p.name, "Practice loin");
  EXPECT_EQ(p.currency, "EUR");
  EXPECT_EQ(p.first, (Stamp{1760000007000, 120}));
  ASSERT_TRUE(p.board && p.missing && p.bought && p.cost && p.cost_per_portions);
  EXPECT_NEAR(p.board->in_grams(), 4960.0, 1e-9);
  EXPECT_NEAR(p.missing->in_grams(), 60.0, 1e-9);
  EXPECT_NEAR(p.usable.in_grams(), 4400.0, 1e-9);
  EXPECT_NEAR(p.waste.in_grams(), 500.0, 1e-9);
  EXPECT_NEAR(p.prime.in_grams(), 3700.0, 1e-9);
  EXPECT_NEAR(p.primary.in_grams(), 3400.0, 1e-9);
  EXPECT_NEAR(p.bought->in_grams(), 5000.0, 1e-9);
  EXPECT_NEAR(p.cost->in_units(), 100.0, 1e-9);
  EXPECT_NEAR(p.cost_per_portions->per(MassUnit::gram), (100.0 - 0.7 * 6.0) / 3400.0, 1e-12);
  ASSERT_EQ(p.piles.size(), 4U);
  EXPECT_EQ(p.piles[2].key, "grind");
  EXPECT_EQ(p.piles[2].role, Role::usable_trim);
  EXPECT_NEAR(p.piles[2].share, 700.0 / 4960.0, 1e-12);
  EXPECT_NEAR(p.piles[2].value->per(MassUnit::kilogram), 6.0, 1e-12);
  EXPECT_FALSE(p.piles[3].value);
  EXPECT_FALSE(p.open);
  EXPECT_FALSE(p.minutes || p.labour || p.portions || p.eye_call);
  EXPECT_FALSE(p.count_fixed);
  EXPECT_EQ(p.pieces, 1U);
}

// First order (JCGM 100, 5.2.2): waste w and board b = invoice - packaging are read on scales of 1 g; u = 1 / sqrt(12)
// each, and the ratio's is sqrt(u^2 + 2 (w / b)^2 u^2) / b.
TEST(LogPiece, SaysWhatTheScaleAloneLeavesOpen) {
  const LogPiece p = piece_of(loin());
  const double ratio = 500.0 / 4960.0;
  EXPECT_NEAR(p.waste_u, std::sqrt((1.0 + 2.0 * ratio * ratio) / 12.0) / 4960.0, 1e-12);
  EXPECT_GT(p.usable_u, p.prime_u);
  EXPECT_GT(p.prime_u, p.waste_u);
}

TEST(LogPiece, BelongsToItsOwnLineUnlessAnEntrySaysAnother) {
  SessionBuilder s = loin();
  EXPECT_EQ(piece_of(s).line, kSession);
  EXPECT_FALSE(piece_of(s).start);
  s.add(body::Line{"strip-loins", true});
  EXPECT_EQ(piece_of(s).line, "strip-loins");
  EXPECT_TRUE(piece_of(s).start);
  const EntryId parted = s.add(body::Line{kSession, false});
  EXPECT_EQ(piece_of(s).line, kSession) << "the later one counts";
  EXPECT_FALSE(piece_of(s).start);
  s.voids(parted);
  EXPECT_EQ(piece_of(s).line, "strip-loins");
}

TEST(LogPiece, IsMarkedByWhoPassedIt) {
  const EntryId cook{kWriterB, 1}, chef{kWriterB, 2}, namesake{kWriterB, 3};
  struct Row {
    std::vector<bool> checks;
    By by;
    LogMark mark;
  };
  const std::vector<Row> table = {{{}, {cook, chef}, LogMark::hollow},
                                  {{false}, {cook, chef}, LogMark::hollow},
                                  {{true, false}, {cook, chef}, LogMark::hollow},
                                  {{true, true}, {cook, chef}, LogMark::solid},
                                  {{true}, {cook, cook}, LogMark::half},
                                  {{true}, {cook, namesake}, LogMark::half},
                                  {{true}, {cook, {}}, LogMark::half},
                                  {{true}, {{}, {}}, LogMark::half},
                                  {{true}, {{}, chef}, LogMark::solid}};
  for (std::size_t i = 0; i < table.size(); ++i) {
    SessionBuilder s = loin();
    const char* const names[] = {"membrane", "nerve"};
    for (std::size_t c = 0; c < table[i].checks.size(); ++c) {
      s.add(body::Quality{names[c], table[i].checks[c]});
    }
    EntrySet set = signed_by(s, table[i].by);
    set.insert(entry(cook, 1, body::Person{"Ada"}));
    set.insert(entry(chef, 1, body::Person{"Bo"}));
    set.insert(entry(namesake, 1, body::Person{"Ada"}));
    EXPECT_EQ(piece_of(set).mark, table[i].mark) << i;
  }
}

TEST(LogPiece, IsSolidOnlyWhereEveryCheckWasJudgedByAnother) {
  SessionBuilder s = loin();
  const EntryId cook{kWriterB, 1}, chef{kWriterB, 2};
  const EntryId own = s.add(body::Quality{"membrane", true});
  s.add(body::Quality{"nerve", true});
  EntrySet set;
  const EntrySet by_chef = signed_by(s, {cook, chef});
  for (const Entry* judged : by_chef.in_order()) {
    Entry each = *judged;
    if (each.id == own) each.by = cook;
    set.insert(sealed(each));
  }
  EXPECT_EQ(piece_of(by_chef).mark, LogMark::solid);
  EXPECT_EQ(piece_of(set).mark, LogMark::half);
  // Whoever made a cut is a cook, too.
  SessionBuilder cut = loin();
  cut.add(body::Quality{"membrane", true});
  EntrySet cutting = signed_by(cut, {{}, chef});
  Entry made = entry({kWriterB, 9}, 90, body::Cut{});
  EXPECT_EQ(piece_of(cutting).mark, LogMark::solid);
  made.by = chef;
  cutting.insert(sealed(made));
  EXPECT_EQ(piece_of(cutting).mark, LogMark::half);
}

TEST(LogPiece, NamesTheCookWhereThereIsOne) {
  const EntryId ada{kWriterB, 1}, bo{kWriterB, 2};
  EntrySet set = signed_by(loin(), {ada, {}});
  EXPECT_EQ(piece_of(set).cook, "") << "names were stripped";
  set.insert(entry(ada, 1, body::Person{"Ada"}));
  EXPECT_EQ(piece_of(set).cook, "Ada");
  EntrySet other = set;
  Entry more = reading({kWriterB, 9}, 90, "20 g", "waste");
  other.insert(more);
  EXPECT_EQ(piece_of(other).cook, "") << "one weighing names nobody";
  more.by = bo;
  set.insert(sealed(more));
  EXPECT_EQ(piece_of(set).cook, "") << "two cooks";
}

TEST(LogPiece, IsOpenUntilItsSumIsClosed) {
  struct Row {
    const char* what;
    void (*change)(SessionBuilder&);
    bool open;
  };
  const std::vector<Row> table = {
      {"as it is", [](SessionBuilder&) {}, false},
      {"missing above the limit", [](SessionBuilder& s) { s.setting("loss-limit", "1.2 %"); },
       true},
      {"just within", [](SessionBuilder& s) { s.setting("loss-limit", "1.21 %"); }, false},
      {"though said to be all",
       [](SessionBuilder& s) {
         s.setting("loss-limit", "1 %");
         s.setting("all-weighed", "yes");
       },
       true},
      {"more on the piles than there was", [](SessionBuilder& s) { s.increment("waste", "70 g"); },
       true},
      {"within what readings explain", [](SessionBuilder& s) { s.increment("waste", "61 g"); },
       false},
      {"one pile by difference", [](SessionBuilder& s) { s.by_difference("waste"); }, false},
      {"two of them", [](SessionBuilder& s) { s.by_difference("waste"), s.by_difference("grind"); },
       true}};
  for (const Row& row : table) {
    SessionBuilder s = loin();
    row.change(s);
    EXPECT_EQ(piece_of(s).open, row.open) << row.what;
  }
  SessionBuilder nothing;
  EXPECT_TRUE(piece_of(nothing).open);
  nothing.whole("5 kg").pile("waste", Role::unusable_trim);
  EXPECT_TRUE(piece_of(nothing).open) << "nothing weighed";
  nothing.by_difference("waste");
  EXPECT_TRUE(piece_of(nothing).open) << "all of it by difference is nothing weighed";
  SessionBuilder no_board;
  no_board.pile("portions", Role::primary);
  no_board.read("portions", "200 g");
  EXPECT_TRUE(piece_of(no_board).open);
  EXPECT_FALSE(piece_of(no_board).board);
  EXPECT_TRUE(piece_of(no_board).piles.empty());
}

TEST(LogPiece, APileThatIsWhatIsLeftLeavesNothingMissing) {
  SessionBuilder s = loin();
  s.by_difference("waste");
  const LogPiece p = piece_of(s);
  EXPECT_FALSE(p.missing);
  EXPECT_NEAR(p.waste.in_grams(), 560.0, 1e-9);
}

TEST(LogPiece, TheRoleThatWasNotCalledIsWhatTheOthersLeave) {
  const auto called = [](std::vector<std::pair<Role, const char*>> calls) {
    SessionBuilder s = loin();
    for (const auto& [role, share] : calls) s.add(body::EyeCall{role, percent(share)});
    return piece_of(s).eye_call;
  };
  // Weighed of 5,000 g bought: 68, 6, 14 and 10 %; 2 % are packaging and missing.
  const auto eye =
      called({{Role::primary, "70 %"}, {Role::secondary, "4 %"}, {Role::unusable_trim, "10 %"}});
  ASSERT_TRUE(eye);
  EXPECT_NEAR(eye->called[2], 0.16, 1e-12);
  EXPECT_NEAR(eye->error, (0.02 + 0.02 + 0.02 + 0.0) / 2.0, 1e-12);
  EXPECT_NEAR(eye->bias, 0.0, 1e-12);
  const auto all = called({{Role::primary, "72 %"},
                           {Role::secondary, "6 %"},
                           {Role::usable_trim, "12 %"},
                           {Role::unusable_trim, "10 %"}});
  ASSERT_TRUE(all);
  EXPECT_NEAR(all->error, (0.04 + 0.0 + 0.02 + 0.0) / 2.0, 1e-12);
  EXPECT_NEAR(all->bias, 0.04, 1e-12);
  EXPECT_FALSE(called({}));
  EXPECT_FALSE(called({{Role::primary, "70 %"}, {Role::secondary, "4 %"}})) << "two are open";
  EXPECT_FALSE(
      called({{Role::primary, "80 %"}, {Role::secondary, "11 %"}, {Role::usable_trim, "10 %"}}))
      << "over 100 %";
}

TEST(LogPiece, TakesThePortionsOfTheFirstTargetThatHasAny) {
  SessionBuilder s = loin();
  s.target("grind", "100 g");
  s.target("portions", "150 g", "5 g");
  EXPECT_FALSE(piece_of(s).portions);
  s.read("portions", "149 g");
  ASSERT_TRUE(piece_of(s).portions);
  EXPECT_FALSE(piece_of(s).portions->s) << "one portion has no scatter";
  s.read("portions", "157 g");
  s.read("portions", "150 g");
  s.read("portions", "400 g", "", 2);  // weighed together: not in the spread
  const LogPortions p = *piece_of(s).portions;
  EXPECT_EQ(p.n, 3U);
  EXPECT_EQ(p.within, 2U);
  EXPECT_NEAR(p.mean.in_grams(), 152.0, 1e-12);
  EXPECT_NEAR(p.target.in_grams(), 150.0, 1e-12);
  EXPECT_NEAR(p.s->in_grams(), std::sqrt((9.0 + 25.0 + 4.0) / 2.0), 1e-12);
}

TEST(LogPiece, KnowsWhetherTheNumberOfPortionsWasFixed) {
  SessionBuilder s = loin();
  s.add(body::Wanted{"grind", 3});
  EXPECT_FALSE(piece_of(s).count_fixed) << "grind is no portion";
  const EntryId wanted = s.add(body::Wanted{"portions", 12});
  EXPECT_TRUE(piece_of(s).count_fixed);
  s.voids(wanted);
  EXPECT_FALSE(piece_of(s).count_fixed);
}

TEST(LogPiece, KeepsTheLastNoteForTheNextPiece) {
  SessionBuilder s = loin();
  s.add(body::Note{"About this one", {}});
  EXPECT_EQ(piece_of(s).next, "");
  s.add(body::Note{"Colder", {}, true});
  const EntryId last = s.add(body::Note{"Sharper", {}, true});
  EXPECT_EQ(piece_of(s).next, "Sharper");
  s.voids(last);
  EXPECT_EQ(piece_of(s).next, "Colder");
}

TEST(LogPiece, BeginsAtTheEarliestTimeThatIsKnown) {
  EntrySet set = loin().set();
  Entry early = reading({kWriterB, 1}, 900, "1 g", "waste");
  early.time = {1750000000000, -300};
  set.insert(sealed(early));
  Entry unknown = reading({kWriterB, 2}, 1, "1 g", "waste");
  unknown.time = {0, 0};
  set.insert(sealed(unknown));
  EXPECT_EQ(piece_of(set).first, (Stamp{1750000000000, -300}));
  EXPECT_EQ(piece_of(EntrySet()).first, Stamp());
}

TEST(LogPiece, TheOrderOfArrivalDoesNotMatterAndTheSharesAddUp) {
  int summed = 0;
  for (std::uint32_t seed = 0; seed < 150; ++seed) {
    RandomOptions options;
    options.awkward = seed % 3 == 0;
    RandomSession random(seed, options);
    std::vector<Entry> entries = random.entries();
    const EntrySet set = set_of(entries);
    const LogPiece piece = piece_of(set, random.session());
    random.shuffle(entries);
    ASSERT_EQ(piece_of(set_of(entries), random.session()), piece) << seed;
    for (const double u : {piece.usable_u, piece.waste_u, piece.prime_u}) {
      ASSERT_TRUE(test::finite(u) && u >= 0.0);
    }
    if (!piece.board || !piece.missing) continue;
    double sum = piece.missing->in_grams();
    for (const LogPile& pile : piece.piles) sum += pile.share * piece.board->in_grams();
    const double change = figures_of(set).change_of_weight.value().in_grams();
    ASSERT_NEAR(sum + change, piece.board->in_grams(), 1e-6) << seed;
    ++summed;
  }
  EXPECT_GT(summed, 50);
}

}  // namespace
}  // namespace tallyblock::testing
