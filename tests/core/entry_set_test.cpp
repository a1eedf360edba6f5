// Properties of the union of sets, of files and of what counts, on random sessions.
#include <gtest/gtest.h>

#include "random_session.h"

namespace tallyblock::testing {
namespace {

constexpr unsigned kSeeds = 60;

RandomSession session_of(std::uint32_t seed) {
  RandomOptions options;
  options.awkward = seed % 2 == 1;
  return RandomSession(seed, options);
}

// A copy of the session as another phone has it: some entries not there, some damaged.
EntrySet seen_by_one(RandomSession& session) {
  EntrySet set;
  for (Entry each : session.entries()) {
    if (session.one_in(4)) continue;
    if (session.one_in(12)) {
      each.time.utc_ms += session.below(3);
      each.text.clear();
      each = sealed(each);
    }
    set.insert(each);
  }
  return set;
}

EntrySet merged(EntrySet a, const EntrySet& b) {
  a.merge(b);
  return a;
}

std::vector<EntryId> live_ids(const EntrySet& set) {
  std::vector<EntryId> ids;
  const LiveView live(set);
  for (const Entry* each : live.entries()) ids.push_back(each->id);
  return ids;
}

TEST(Union, IsCommutativeAssociativeAndIdempotent) {
  unsigned with_conflicts = 0;
  for (std::uint32_t seed = 0; seed < kSeeds; ++seed) {
    RandomSession session = session_of(seed);
    const EntrySet a = seen_by_one(session), b = seen_by_one(session), c = seen_by_one(session);
    EXPECT_EQ(merged(a, b), merged(b, a)) << seed;
    EXPECT_EQ(merged(merged(a, b), c), merged(a, merged(b, c))) << seed;
    EXPECT_EQ(merged(a, a), a) << seed;
    const EntrySet all = merged(merged(a, b), c);
    EXPECT_EQ(merged(all, b), all) << seed;
    EXPECT_EQ(live_ids(merged(a, b)), live_ids(merged(b, a))) << seed;
    if (!all.conflicts().empty()) ++with_conflicts;
  }
  EXPECT_GT(with_conflicts, kSeeds / 2) << "else the damaged copies prove nothing";
}

TEST(Union, DoesNotDependOnTheOrderOfArrival) {
  for (std::uint32_t seed = 0; seed < kSeeds; ++seed) {
    RandomSession session = session_of(seed);
    const EntrySet in_order = session.set();
    std::vector<Entry> arriving = session.entries();
    session.shuffle(arriving);
    const EntrySet shuffled = set_of(arriving);
    EXPECT_EQ(in_order, shuffled) << seed;
    EXPECT_EQ(live_ids(in_order), live_ids(shuffled)) << seed;
    EXPECT_EQ(in_order.next_seq(), shuffled.next_seq()) << seed;
    EXPECT_EQ(in_order.missing(), shuffled.missing()) << seed;
  }
}

TEST(Union, ASetIsDifferentFromOneThatLacksAnEntryOrHasAnotherText) {
  RandomSession session = session_of(1);
  const EntrySet whole = session.set();
  std::vector<Entry> fewer = session.entries();
  fewer.pop_back();
  EXPECT_FALSE(whole == set_of(fewer));
  EntrySet other = set_of(fewer);
  Entry changed = session.entries().front();
  changed.time.utc_ms += 1;
  changed.text.clear();
  changed = sealed(changed);
  other.insert(session.entries().back());
  EXPECT_TRUE(whole == other);
  EXPECT_TRUE(other.insert(changed));
  EXPECT_FALSE(whole == other);
}

TEST(Files, ARandomSessionReadsBackAndWritesTheSameBytes) {
  for (std::uint32_t seed = 0; seed < kSeeds; ++seed) {
    RandomSession session = session_of(seed);
    SessionFile file = session.file();
    session.shuffle(file.entries);
    const std::string bytes = write_session(file);
    const Result<SessionFile> back = read_session(bytes);
    ASSERT_TRUE(back) << seed << ' ' << key_of(back.problem().code)
                      << text_of(back.problem().where);
    EXPECT_EQ(write_session(*back), bytes) << seed;
    EXPECT_EQ(set_of(back->entries), session.set()) << seed;
    EXPECT_EQ(write_session(session.file()), bytes) << "whatever the order of entries";
  }
}

TEST(Files, EveryEntryOfARandomSessionDecodesAndIsWrittenAlike) {
  for (std::uint32_t seed = 0; seed < kSeeds; ++seed) {
    const RandomSession session(seed);
    for (const Entry& each : session.entries()) {
      Result<Entry> back = decode_entry_strict(each.text);
      ASSERT_TRUE(back) << each.text << ' ' << text_of(back.problem().where);
      EXPECT_EQ(back->text, each.text);
      Entry rewritten = back.value();
      rewritten.text.clear();
      EXPECT_EQ(sealed(rewritten).text, each.text);
    }
  }
}

TEST(LiveEntries, AreNeitherVoidNorReplacedAndRestoringThemAllWorks) {
  for (std::uint32_t seed = 0; seed < kSeeds; ++seed) {
    RandomSession session = session_of(seed);
    EntrySet set = session.set();
    const LiveView live(set);
    for (const Entry* each : live.entries()) {
      EXPECT_FALSE(live.is_void(each->id) || live.is_replaced(each->id));
    }
    // Voiding the live voids of an entry brings it back.
    std::uint32_t counter = 0;
    std::vector<EntryId> restored;
    EntrySet after = set;
    for (const Entry& each : session.entries()) {
      if (!live.is_void(each.id) || std::holds_alternative<body::Void>(each.body)) continue;
      EXPECT_FALSE(live.voids_of(each.id).empty());
      for (const EntryId& id : live.voids_of(each.id)) {
        after.insert(entry({"zzzzzzzzzz", ++counter}, after.next_seq(), body::Void{id}));
      }
      restored.push_back(each.id);
    }
    const LiveView now(after);
    for (const EntryId& id : restored) EXPECT_FALSE(now.is_void(id)) << seed << to_text(id);
  }
}

TEST(LiveEntries, OfCirclesOfVoidsOfAnyLengthAreTheSameInAnyOrderOfArrival) {
  for (std::uint32_t length = 1; length <= 9; ++length) {
    std::vector<Entry> circle;
    circle.reserve(length);
    for (std::uint32_t i = 0; i < length; ++i) {
      circle.push_back(
          entry({kWriterA, i + 1}, i + 1, body::Void{{kWriterA, (i + 1) % length + 1}}));
    }
    EXPECT_TRUE(LiveView(set_of(circle)).is_live({kWriterA, 1})) << length;
    std::vector<Entry> reversed(circle.rbegin(), circle.rend());
    const EntrySet one = set_of(circle), other = set_of(reversed);
    const LiveView a(one), b(other);
    for (const Entry& each : circle) {
      EXPECT_EQ(a.is_live(each.id), b.is_live(each.id)) << length;
      // A void that counts takes its target out, except where the circle closes.
      const EntryId& target = std::get<body::Void>(each.body).target;
      if (a.is_live(each.id) && target != EntryId{kWriterA, 1}) {
        EXPECT_TRUE(a.is_void(target)) << length;
      }
    }
  }
}

}  // namespace
}  // namespace tallyblock::testing
