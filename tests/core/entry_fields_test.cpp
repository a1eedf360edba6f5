#include "core/entries/entry_fields.h"

#include <gtest/gtest.h>

#include "core/entries/codec.h"
#include "make.h"

namespace tallyblock::testing {
namespace {

Json object_of(const std::string& text) {
  const Result<Json> json = parse_json(text, kMaxDepth);
  EXPECT_TRUE(json) << text.substr(0, 80);
  return json ? *json : Json::object();
}
Json with(const std::string& field, std::string_view text) {
  Json object = Json::object();
  object.set(field, Json::string(text));
  return object;
}
// The code of what `read` meets in the field "f", absent where it is content.
template <class Read>
std::optional<Code> met(const std::string& value, Read read) {
  const Json object = object_of("{\"f\":" + value + "}");
  FieldReader reader(object);
  read(reader);
  if (!reader.problem()) return std::nullopt;
  EXPECT_EQ(reader.problem()->where, "f");
  EXPECT_EQ(reader.problem()->args, Args{Arg::code("f")});
  return reader.problem()->code;
}
std::optional<Code> met_by_name(std::string_view text, bool lines) {
  const Json object = with("f", text);
  FieldReader reader(object);
  const std::string read = lines ? reader.long_text("f") : reader.name("f");
  EXPECT_EQ(read, reader.problem() ? "" : text);
  return reader.problem() ? std::optional(reader.problem()->code) : std::nullopt;
}

TEST(FieldReader, KeepsTheFirstProblemItMeets) {
  const Json object = object_of(R"({"a":1,"b":"x"})");
  FieldReader reader(object);
  EXPECT_EQ(reader.name("b"), "x");
  EXPECT_FALSE(reader.problem());
  EXPECT_EQ(reader.key("a"), "");
  EXPECT_FALSE(reader.truth("not there"));
  reader.refuse(Code::file_field_value, "b");
  EXPECT_EQ(reader.problem(), (Problem{Code::file_field_type, "a", {Arg::code("a")}}));
}

TEST(FieldReader, TextIsLimitedInBytesAndHasNoControlsButLineEndsWhereAllowed) {
  std::string umlauts;
  for (int i = 0; i < 100; ++i) umlauts += "\xC3\xA4";
  EXPECT_EQ(met_by_name(umlauts, false), std::nullopt);
  EXPECT_EQ(met_by_name(umlauts + "a", false), Code::file_field_value);
  EXPECT_EQ(met_by_name(std::string(4000, 'a'), true), std::nullopt);
  EXPECT_EQ(met_by_name(std::string(4001, 'a'), true), Code::file_field_value);
  EXPECT_EQ(met_by_name("", false), std::nullopt);
  EXPECT_EQ(met_by_name("a\nb", true), std::nullopt);
  EXPECT_EQ(met_by_name("a\nb", false), Code::file_field_value);
  for (const std::string& control : {std::string("\t"), std::string("\r"), std::string("\x1F"),
                                     std::string("\x7F"), std::string(1, '\0')}) {
    EXPECT_EQ(met_by_name(control, false), Code::file_field_value);
    EXPECT_EQ(met_by_name(control, true), Code::file_field_value);
  }
}

TEST(FieldReader, AnOptionalFieldMayBeAbsentButNotWrong) {
  const Json none = Json::object();
  FieldReader reader(none);
  EXPECT_EQ(reader.optional_name("f"), "");
  EXPECT_EQ(reader.optional_long_text("f"), "");
  EXPECT_EQ(reader.key_or("f", "main"), "main");
  EXPECT_EQ(reader.count(), 1U);
  EXPECT_EQ(reader.division().text, "");
  EXPECT_FALSE(reader.optional_integer("f", 5, 6) || reader.optional_id("f") ||
               reader.optional_mass("f") || reader.optional_length("f") ||
               reader.optional_number("f", parse_percent));
  EXPECT_TRUE(reader.optional_ids("f").empty());
  EXPECT_FALSE(reader.problem());
  const auto wrong = Code::file_field_type;
  EXPECT_EQ(met("null", [](FieldReader& r) { r.optional_name("f"); }), wrong);
  EXPECT_EQ(met("null", [](FieldReader& r) { r.key_or("f", "main"); }), wrong);
  EXPECT_EQ(met("7", [](FieldReader& r) { (void)r.optional_mass("f"); }), wrong);
  EXPECT_EQ(met("{}", [](FieldReader& r) { r.optional_ids("f"); }), wrong);
  EXPECT_EQ(met("\"Main\"", [](FieldReader& r) { r.key_or("f", "main"); }), Code::file_field_value);
}

TEST(FieldReader, AnIntegerIsWithinItsBoundsAndOneBeyond64BitsIsOutOfThem) {
  const auto read = [](FieldReader& r) { (void)r.integer("f", -2, 3); };
  EXPECT_EQ(met("-2", read), std::nullopt);
  EXPECT_EQ(met("3", read), std::nullopt);
  for (const char* out : {"-3", "4", "9223372036854775808", "-99999999999999999999"}) {
    EXPECT_EQ(met(out, read), Code::file_field_value) << out;
  }
  for (const char* other : {"1.0", "1e0", "\"1\"", "true", "null", "[1]"}) {
    EXPECT_EQ(met(other, read), Code::file_field_type) << other;
  }
  const Json object = object_of(R"({"f":3,"g":4})");
  FieldReader reader(object);
  EXPECT_EQ(reader.integer("f", -2, 3), 3);
  EXPECT_EQ(reader.integer("g", -2, 3), -2) << "refused: the least";
}

TEST(FieldReader, TypedFiguresAreReadAsTheyAreTyped) {
  const Json object =
      object_of(R"({"division":"0,5 g","off":"-1 lb","share":"62 %","mark":"42 mm"})");
  FieldReader reader(object);
  EXPECT_EQ(reader.division().mass, Mass::grams(0.5));
  EXPECT_EQ(reader.mass("off", Sign::negative_only).mass, Mass::grams(-453.59237));
  EXPECT_DOUBLE_EQ(reader.number("share", parse_percent).value, 0.62);
  EXPECT_EQ(reader.optional_length("mark")->length, Length::millimetres(42));
  EXPECT_FALSE(reader.problem());
  EXPECT_EQ(reader.mass("off").text, "") << "below zero where that may not be";
  EXPECT_EQ(reader.problem(), (Problem{Code::file_field_value, "off", {Arg::code("off")}}));
}

TEST(FieldReader, AChoiceIsOneOfItsNames) {
  const Json object = object_of(R"({"good":"usable-trim","bad":"display"})");
  FieldReader reader(object);
  EXPECT_EQ(reader.choice("good", role_from), Role::usable_trim);
  EXPECT_FALSE(reader.problem());
  EXPECT_EQ(reader.choice("bad", role_from), Role{});
  EXPECT_EQ(reader.problem()->code, Code::file_field_value);
}

TEST(FieldReader, AListOfIdsHasFiveThousandAtMostAndNothingElseInIt) {
  const auto read = [](FieldReader& r) { r.optional_ids("f"); };
  std::string list = "[\"aaaaaaaaaa.1\"";
  for (std::size_t i = 1; i < kMaxIds; ++i) list += ",\"aaaaaaaaaa.1\"";
  EXPECT_EQ(met(list + "]", read), std::nullopt);
  EXPECT_EQ(met(list + ",\"aaaaaaaaaa.1\"]", read), Code::file_field_value);
  EXPECT_EQ(met("[]", read), std::nullopt);
  EXPECT_EQ(met("[\"aaaaaaaaaa.0\"]", read), Code::file_field_value);
  EXPECT_EQ(met("[\"aaaaaaaaaa.1\",7]", read), Code::file_field_type);
  const Json object = object_of(R"({"f":["bbbbbbbbbb.2","aaaaaaaaaa.1"]})");
  FieldReader reader(object);
  EXPECT_EQ(reader.optional_ids("f"), (std::vector<EntryId>{{kWriterB, 2}, {kWriterA, 1}}));
}

// ---- whole entries

Json note(const std::string& field, const std::string& value) {
  Json object = object_of(
      R"({"by":"bbbbbbbbbb.3","id":"aaaaaaaaaa.7","kind":"note","replaces":["aaaaaaaaaa.1"],"seq":9,"t":5,"text":"x","tz":60})");
  object.set(field, object_of("{\"v\":" + value + "}").children.at(0));
  return object;
}

TEST(EntryFrom, KeepsAnUnreadableEntryOfAKnownKindOnlyWhenLenient) {
  const Json wrong = note("text", "5");
  const Problem problem{Code::file_field_type, "text", {Arg::code("text")}};
  EXPECT_EQ(entry_from(wrong, Strictness::strict).problem(), problem);
  const Result<Entry> kept = entry_from(wrong, Strictness::lenient);
  ASSERT_TRUE(kept);
  EXPECT_EQ(kept->id, (EntryId{kWriterA, 7}));
  EXPECT_EQ(kept->seq, 9U);
  EXPECT_EQ(kept->time, Stamp{});
  EXPECT_FALSE(kept->by);
  EXPECT_TRUE(kept->replaces.empty());
  EXPECT_EQ(std::get<body::Unknown>(kept->body).kind, "note");
  EXPECT_EQ(std::get<body::Unknown>(kept->body).problem, problem);
  EXPECT_EQ(kept->text, canonical_text(wrong));
}

TEST(EntryFrom, WithoutIdPlaceOrKindItIsRefusedEvenWhenLenient) {
  for (const auto& [field, value] :
       std::vector<std::pair<std::string, std::string>>{{"id", "\"aaaaaaaaaa\""},
                                                        {"seq", "0"},
                                                        {"seq", "9007199254740992"},
                                                        {"kind", "\"Note\""}}) {
    const Result<Entry> read = entry_from(note(field, value), Strictness::lenient);
    ASSERT_FALSE(read) << field << ' ' << value;
    EXPECT_EQ(read.problem(), (Problem{Code::file_field_value, field, {Arg::code(field)}}));
  }
  EXPECT_EQ(entry_from(Json::array(), Strictness::lenient).problem().code, Code::file_field_type);
}

TEST(EntryFrom, AKindNotKnownIsKeptWithWhatAllKindsShare) {
  const Result<Entry> read = entry_from(note("kind", "\"chill-curve\""), Strictness::strict);
  ASSERT_TRUE(read);
  EXPECT_EQ(std::get<body::Unknown>(read->body).kind, "chill-curve");
  EXPECT_FALSE(std::get<body::Unknown>(read->body).problem);
  EXPECT_EQ(read->time, (Stamp{5, 60}));
  EXPECT_EQ(read->by, (EntryId{kWriterB, 3}));
  EXPECT_EQ(read->replaces, (std::vector<EntryId>{{kWriterA, 1}}));
}

TEST(EntryFrom, AnEntryOfExactly64KilobytesIsReadAndOneByteMoreIsNot) {
  const std::size_t rest = canonical_text(note("later", "\"\"")).size();
  const auto padded = [&](std::size_t more) {
    return note("later", '"' + std::string(kMaxEntryBytes - rest + more, 'a') + '"');
  };
  const Result<Entry> full = entry_from(padded(0), Strictness::strict);
  ASSERT_TRUE(full);
  EXPECT_EQ(full->text.size(), kMaxEntryBytes);
  EXPECT_EQ(entry_from(padded(1), Strictness::lenient).problem(),
            (Problem{Code::file_too_big, "entry", {Arg::count(65537), Arg::count(65536)}}));
}

}  // namespace
}  // namespace tallyblock::testing
