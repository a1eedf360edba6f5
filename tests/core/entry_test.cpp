#include "core/entries/entry.h"

#include <gtest/gtest.h>

#include <set>
#include <utility>

#include "make.h"

namespace tallyblock::testing {
namespace {

const EntryId kA1{kWriterA, 1}, kA2{kWriterA, 2};
const EntryId kB1{kWriterB, 1};

std::vector<std::string> texts_of(const std::vector<const Entry*>& entries) {
  std::vector<std::string> texts;
  texts.reserve(entries.size());
  for (const Entry* each : entries) texts.push_back(each->text);
  return texts;
}

TEST(EntryRules, Rule01_IdIsWriterAndCounterAndReadsBackFromItsText) {
  EXPECT_EQ(to_text(EntryId{"0123456789", 12}), "0123456789.12");
  EXPECT_EQ(entry_id_from("0123456789.12"), (EntryId{"0123456789", 12}));
  EXPECT_EQ(entry_id_from("zzzzzzzzzz.2147483648"), (EntryId{"zzzzzzzzzz", 2147483648u}));
  for (const char* wrong :
       {"", "0123456789", "0123456789.", "0123456789.0", "0123456789.01", "012345678.1",
        "01234567890.1", "i123456789.1", "012345678I.1", "0123456789.-1", "0123456789.2147483649",
        "0123456789.99999999999", "0123456789 1", "0123456789.1 "}) {
    EXPECT_FALSE(entry_id_from(wrong)) << wrong;
  }
}

TEST(EntryRules, Rule02_OrderIsLogicalCounterThenWriterThenCounterAsNumber) {
  const Entry a2 = reading(kA2, 7, "100 g"), a10 = reading({kWriterA, 10}, 7, "100 g");
  const Entry b1 = reading(kB1, 7, "100 g"), early = reading({kWriterB, 99}, 6, "100 g");
  const EntrySet set = set_of({b1, a10, a2, early});
  const std::vector<const Entry*> order = set.in_order();
  ASSERT_EQ(order.size(), 4u);
  EXPECT_EQ(texts_of(order), (std::vector<std::string>{early.text, a2.text, a10.text, b1.text}));
}

TEST(EntryRules, Rule02_WallTimeDoesNotDecideTheOrder) {
  Entry late_by_the_clock = reading(kA1, 1, "100 g");
  late_by_the_clock.time.utc_ms += 999999;
  late_by_the_clock = sealed(late_by_the_clock);
  const EntrySet set = set_of({reading(kB1, 2, "100 g"), late_by_the_clock});
  EXPECT_EQ(set.in_order().front()->id, kA1);
}

TEST(Entry, ComesBeforeAnotherByPlaceThenWriterThenCounterAndNeverBeforeItself) {
  const auto at = [](std::uint64_t seq, EntryId id) {
    Entry made;
    made.seq = seq;
    made.id = std::move(id);
    return made;
  };
  const std::vector<Entry> ordered = {at(1, {kWriterB, 9}), at(2, {kWriterA, 2}),
                                      at(2, {kWriterA, 10}), at(2, {kWriterB, 1}),
                                      at(kMaxSeq, {kWriterA, 1})};
  for (std::size_t i = 0; i < ordered.size(); ++i) {
    for (std::size_t j = 0; j < ordered.size(); ++j) {
      EXPECT_EQ(before(ordered[i], ordered[j]), i < j) << i << ' ' << j;
    }
  }
}

// Of the letters i, l, o and u are left out: they are taken for others.
TEST(Entry, ADrawnIdHasItsLengthAndNoLetterThatIsTakenForAnother) {
  EXPECT_TRUE(is_drawn_id("0123456789abcdefghjkmnpqrstvwxyz", 32));
  EXPECT_TRUE(is_drawn_id("", 0));
  EXPECT_FALSE(is_drawn_id("abc", 4));
  EXPECT_FALSE(is_drawn_id("abc", 2));
  for (const char* wrong : {"i", "l", "o", "u", "A", "-", " ", "\x80"}) {
    EXPECT_FALSE(is_drawn_id(wrong, 1)) << wrong;
  }
  EXPECT_FALSE(is_drawn_id(std::string_view("\0", 1), 1));
}

TEST(Entry, AKeyHasOneToFortySmallLettersDigitsAndHyphens) {
  for (const std::string& good : {std::string("a"), std::string("usable-trim"), std::string("-"),
                                  std::string("0"), std::string(40, 'z')}) {
    EXPECT_TRUE(is_key(good)) << good;
  }
  for (const std::string& wrong :
       {std::string(), std::string(41, 'z'), std::string("Trim"), std::string("a b"),
        std::string("a_b"), std::string("a:b"), std::string("\xC3\xA4"), std::string("a\n"),
        std::string("a\0b", 3), std::string(100000, 'a')}) {
    EXPECT_FALSE(is_key(wrong)) << wrong.substr(0, 50);
  }
}

template <class Enum>
void expect_names(std::optional<Enum> (*from)(std::string_view),
                  const std::vector<std::pair<Enum, std::string>>& names) {
  for (const auto& [value, name] : names) {
    EXPECT_EQ(name_of(value), name);
    EXPECT_EQ(from(name), value) << name;
    EXPECT_FALSE(from(name + ' ')) << name;
    EXPECT_FALSE(from(name.substr(1))) << name;
  }
  for (const std::string wrong : {"", "Primary", "PIECE", "usable_trim", "none", "0"}) {
    EXPECT_FALSE(from(wrong)) << wrong;
  }
  EXPECT_FALSE(from(std::string(100000, 'a')));
}

// The names are those of FORMAT.md, frozen.
TEST(Entry, EveryNameReadsBackAndOneNotKnownIsAbsent) {
  expect_names<Role>(role_from, {{Role::primary, "primary"},
                                 {Role::secondary, "secondary"},
                                 {Role::usable_trim, "usable-trim"},
                                 {Role::unusable_trim, "unusable-trim"}});
  expect_names<Habit>(habit_from, {{Habit::piece, "piece"},
                                   {Habit::increment, "increment"},
                                   {Habit::tub_now, "tub-now"},
                                   {Habit::taken_off, "taken-off"}});
  expect_names<Incoming>(incoming_from, {{Incoming::invoice, "invoice"},
                                         {Incoming::received, "received"},
                                         {Incoming::drained, "drained"},
                                         {Incoming::packaging, "packaging"},
                                         {Incoming::purge, "purge"}});
  expect_names<Process>(process_from, {{Process::breakdown, "breakdown"},
                                       {Process::cooking, "cooking"},
                                       {Process::brine, "brine"},
                                       {Process::grinding, "grinding"},
                                       {Process::other, "other"}});
  expect_names<PriceBasis>(price_basis_from,
                           {{PriceBasis::per_mass, "per-mass"}, {PriceBasis::total, "total"}});
}

template <std::size_t... I>
std::vector<Body> one_of_each(std::index_sequence<I...>) {
  return {Body(std::in_place_index<I>)...};
}

TEST(Entry, EveryKindHasANameOfItsOwnThatFormatMdExplains) {
  const std::string page = file_bytes("core/entries/FORMAT.md");
  std::set<std::string> names;
  for (const Body& body : one_of_each(std::make_index_sequence<std::variant_size_v<Body>>())) {
    const std::string name(kind_name(body));
    if (std::holds_alternative<body::Unknown>(body)) continue;
    EXPECT_TRUE(is_key(name)) << name;
    EXPECT_TRUE(names.insert(name).second) << name;
    EXPECT_NE(page.find("\n| `" + name + "`"), std::string::npos) << name;
  }
  EXPECT_EQ(names.size(), std::variant_size_v<Body> - 1);
  EXPECT_EQ(kind_name(body::EyeCall{}), "eye-call");
  EXPECT_EQ(kind_name(body::CutClosed{}), "cut-closed");
}

TEST(Entry, AKindNotKnownIsNamedAsItCame) {
  EXPECT_EQ(kind_name(body::Unknown{"chill-curve", std::nullopt}), "chill-curve");
  EXPECT_EQ(kind_name(body::Unknown{"pile",
                                    Problem{Code::file_field_value, "role", {Arg::code("role")}}}),
            "pile");
}

}  // namespace
}  // namespace tallyblock::testing
