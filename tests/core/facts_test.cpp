#include "core/session/facts.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>

#include "random_session.h"
#include "session_builder.h"

namespace tallyblock::testing {
namespace {

std::vector<EntryId> ids_of(const std::vector<const Entry*>& entries) {
  std::vector<EntryId> ids;
  ids.reserve(entries.size());
  for (const Entry* each : entries) ids.push_back(each->id);
  return ids;
}

TEST(Facts, TheHighestInOrderDecidesAndTheOthersAreADoubt) {
  SessionBuilder s;
  const EntryId first = s.named("Rump"), second = s.named("Sirloin"), last = s.named("Top butt");
  std::vector<Entry> entries = s.entries();
  for (int round = 0; round < 6; ++round) {
    std::next_permutation(entries.begin(), entries.end(), before);
    const EntrySet set = set_of(entries);
    const Facts facts(set);
    ASSERT_NE(facts.winner("piece"), nullptr);
    EXPECT_EQ(facts.winner("piece")->id, last);
    EXPECT_EQ(facts.find<body::Piece>("piece")->name, "Top butt");
    EXPECT_TRUE(facts.is_outvoted(first) && facts.is_outvoted(second));
    EXPECT_FALSE(facts.is_outvoted(last));
    EXPECT_EQ(ids_of(facts.counted()), std::vector<EntryId>{last});
    ASSERT_EQ(facts.doubts().size(), 1U);
    EXPECT_EQ(facts.doubts()[0], (Doubt{Code::doubt_several_candidates,
                                        "fact piece",
                                        {first, second, last},
                                        {Arg::fact("piece"), Arg::count(3)},
                                        std::nullopt}));
  }
}

TEST(Facts, AVoidOrReplacedCandidateIsNone) {
  SessionBuilder s;
  const EntryId first = s.named("Rump"), second = s.named("Sirloin");
  s.voids(second);
  const EntrySet one_left = s.set();
  EXPECT_EQ(Facts(one_left).winner("piece")->id, first);
  EXPECT_TRUE(Facts(one_left).doubts().empty());
  const EntryId corrected = s.add(body::Piece{"Top butt", "", ""}, {first});
  const EntrySet replaced = s.set();
  EXPECT_EQ(Facts(replaced).winner("piece")->id, corrected);
  EXPECT_TRUE(Facts(replaced).doubts().empty());
  s.voids(corrected);
  s.voids(first);
  const EntrySet none = s.set();
  EXPECT_EQ(Facts(none).winner("piece"), nullptr);
  EXPECT_EQ(Facts(none).find<body::Piece>("piece"), nullptr);
}

TEST(Facts, OfTwoCorrectionsOfOneReadingTheHigherCounts) {
  SessionBuilder s;
  const EntryId wrong = s.read("portions", "540 g"), other = s.read("portions", "100 g");
  const EntryId lower = s.corrected(wrong, "portions", "450 g");
  const EntryId higher = s.corrected(wrong, "portions", "460 g");
  const EntrySet set = s.set();
  const Facts facts(set);
  EXPECT_EQ(ids_of(facts.counted()), (std::vector<EntryId>{other, higher}));
  EXPECT_TRUE(facts.is_outvoted(lower));
  EXPECT_FALSE(facts.counts(facts.place_of(lower)));
  EXPECT_FALSE(facts.counts(facts.place_of(wrong)));
  EXPECT_TRUE(facts.counts(facts.place_of(higher)));
  ASSERT_EQ(facts.doubts().size(), 1U);
  EXPECT_EQ(facts.doubts()[0].code, Code::doubt_several_candidates);
  EXPECT_EQ(facts.doubts()[0].where, "fact correction:" + to_text(wrong));
}

TEST(Facts, WinnersAreThoseWhoseKeyStartsSoByKey) {
  SessionBuilder s;
  const EntryId waste = s.pile("waste", Role::unusable_trim),
                grind = s.pile("grind", Role::secondary);
  s.price_of("pile:grind", "6.20", "kg");
  s.by_difference("waste");
  const EntryId tub = s.tub("blue", "212 g");
  const EntrySet set = s.set();
  const Facts facts(set);
  EXPECT_EQ(ids_of(facts.winners("pile:")), (std::vector<EntryId>{grind, waste}));
  EXPECT_EQ(ids_of(facts.winners("pile:w")), std::vector<EntryId>{waste});
  EXPECT_EQ(ids_of(facts.winners("tub:blue")), std::vector<EntryId>{tub});
  EXPECT_TRUE(facts.winners("tub:blue-2").empty());
  EXPECT_TRUE(facts.winners("zzz").empty());
  EXPECT_EQ(facts.winners("").size(), 5U);
  EXPECT_EQ(facts.find<body::Tub>("pile:waste"), nullptr) << "a fact of another kind";
}

// 1/8 oz = 28.349523125 g / 8 (NIST SP 811, B.8).
TEST(Facts, TheUsualDivisionIsTheSettingElseFollowsTheUnit) {
  const auto usual = [](const std::string& unit, const std::string& division) {
    SessionBuilder s;
    if (!unit.empty()) s.setting("unit", unit);
    if (!division.empty()) s.setting("division", division);
    const EntrySet set = s.set();
    return Facts(set).usual_division().mass.in_grams();
  };
  EXPECT_EQ(usual("", ""), 1.0);
  EXPECT_EQ(usual("kg", ""), 1.0);
  EXPECT_EQ(usual("lb", ""), 1.0);
  EXPECT_NEAR(usual("oz", ""), 3.543690390625, 1e-12);
  EXPECT_NEAR(usual("lb-oz", ""), 3.543690390625, 1e-12);
  EXPECT_EQ(usual("oz", "5 g"), 5.0);
  EXPECT_EQ(usual("", "five"), 1.0) << "what cannot be read is passed over";
  SessionBuilder s;
  s.setting("division", "2 g");
  const EntrySet set = s.set();
  EXPECT_EQ(Facts(set).division_of(mass("0.1 g")), Mass::grams(0.1));
  EXPECT_EQ(Facts(set).division_of(TypedMass{}), Mass::grams(2));
}

TEST(Facts, AnEntryReplacesWhatItNamesAndWhatThatReplacedButNothingLaterAndNotItself) {
  const auto note = [](std::uint32_t counter, std::vector<EntryId> replaces) {
    return entry({kWriterA, counter}, counter, body::Note{"x", {}}, std::move(replaces));
  };
  const EntryId nowhere{kWriterB, 7}, one{kWriterA, 1}, two{kWriterA, 2}, three{kWriterA, 3};
  const EntrySet set = set_of({note(1, {two}), note(2, {one, two, nowhere}), note(3, {two, one})});
  const Facts facts(set);
  std::vector<EntryId> all = facts.replaced_by(*facts.find(three));
  std::sort(all.begin(), all.end());
  EXPECT_EQ(all, (std::vector<EntryId>{one, two, nowhere}));
  EXPECT_EQ(facts.replaced_by(*facts.find(two)), (std::vector<EntryId>{one, nowhere}));
  EXPECT_TRUE(facts.replaced_by(*facts.find(one)).empty());
}

TEST(Facts, WhatCountsIsLiveAndNotOutvotedInEverySession) {
  for (std::uint32_t seed = 0; seed < 40; ++seed) {
    RandomOptions options;
    options.awkward = seed % 2 == 1;
    RandomSession session(seed, options);
    const EntrySet set = session.set();
    const Facts facts(set);
    std::vector<const Entry*> expected;
    for (std::size_t place = 0; place < facts.in_order().size(); ++place) {
      const Entry* each = facts.in_order()[place];
      EXPECT_EQ(facts.place_of(each->id), place) << seed;
      const bool counts = facts.live().is_live(each->id) && !facts.is_outvoted(each->id) &&
                          !std::holds_alternative<body::Void>(each->body);
      EXPECT_EQ(facts.counts(place), counts) << seed << ' ' << each->text;
      if (counts) expected.push_back(each);
    }
    EXPECT_EQ(facts.counted(), expected) << seed;
  }
}

// ---- the index

std::vector<const Entry*> pointers_to(const std::vector<Entry>& entries) {
  std::vector<const Entry*> pointers;
  pointers.reserve(entries.size());
  for (const Entry& each : entries) pointers.push_back(&each);
  return pointers;
}
Entry with_id(std::string writer, std::uint32_t counter) {
  Entry made;
  made.id = {std::move(writer), counter};
  return made;
}

// Ten thousand in so many places: many must share one (birthday problem).
TEST(IdIndex, FindsEachOfManyAndNoneThatIsNotThere) {
  std::vector<Entry> entries;
  for (std::uint32_t i = 0; i < 10000; ++i) {
    entries.push_back(with_id("writer" + std::to_string(i % 97), i * 4096 + 1));
  }
  const std::vector<const Entry*> pointers = pointers_to(entries);
  IdIndex index;
  index.build(pointers);
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const EntryId& id = entries[i].id;
    ASSERT_EQ(index.find(id), i);
    ASSERT_EQ(index.find({id.writer, id.counter + 1}), kNoPlace);
    ASSERT_EQ(index.find({id.writer + "x", id.counter}), kNoPlace);
  }
}

// Writers whose hashes lie so close that counters make up for it: then the whole hash is one.
TEST(IdIndex, KeepsIdsOfOneHashApart) {
  std::vector<std::pair<std::size_t, std::string>> hashed;
  for (int i = 0; i < 300000; ++i) {
    std::string writer = "w" + std::to_string(i);
    const std::size_t hash = std::hash<std::string>{}(writer);
    hashed.emplace_back(hash, std::move(writer));
  }
  std::sort(hashed.begin(), hashed.end());
  int pairs = 0;
  for (std::size_t i = 1; i < hashed.size() && pairs < 5; ++i) {
    const std::size_t apart = hashed[i].first - hashed[i - 1].first;
    if (apart >= kMaxCounter) continue;
    ++pairs;
    const auto far = static_cast<std::uint32_t>(apart) + 1;
    const std::vector<Entry> entries = {with_id(hashed[i - 1].second, far),
                                        with_id(hashed[i].second, 1)};
    const std::vector<const Entry*> both = pointers_to(entries), one = {&entries[0]};
    IdIndex index;
    index.build(both);
    EXPECT_EQ(index.find(entries[0].id), 0U);
    EXPECT_EQ(index.find(entries[1].id), 1U);
    index.build(one);
    EXPECT_EQ(index.find(entries[0].id), 0U);
    EXPECT_EQ(index.find(entries[1].id), kNoPlace);
  }
  EXPECT_GT(pairs, 0) << "else nothing was tried";
}

TEST(IdIndex, OfNothingFindsNothingAndBuiltAgainForgetsWhatItHeld) {
  const std::vector<Entry> entries = {with_id(kWriterA, 1), with_id(kWriterA, 2)};
  const std::vector<const Entry*> all = pointers_to(entries), none;
  IdIndex index;
  index.build(none);
  EXPECT_EQ(index.find({kWriterA, 1}), kNoPlace);
  index.build(all);
  EXPECT_EQ(index.find({kWriterA, 2}), 1U);
  index.build(none);
  EXPECT_EQ(index.find({kWriterA, 2}), kNoPlace);
}

// A set holds each id once; should a list not, an entry of that id is found all the same.
TEST(IdIndex, AnIdThatStandsTwiceIsFoundOnce) {
  const std::vector<Entry> entries = {with_id(kWriterB, 5), with_id(kWriterA, 1),
                                      with_id(kWriterA, 1)};
  const std::vector<const Entry*> all = pointers_to(entries);
  IdIndex index;
  index.build(all);
  const std::size_t place = index.find({kWriterA, 1});
  ASSERT_LT(place, all.size());
  EXPECT_EQ(all[place]->id, (EntryId{kWriterA, 1}));
  EXPECT_EQ(index.find({kWriterB, 5}), 0U);
}

}  // namespace
}  // namespace tallyblock::testing
