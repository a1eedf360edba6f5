// Damaged, hostile and foreign files: each is refused with a problem, or means what it meant.
#include <gtest/gtest.h>

#include "core/json/json_text.h"
#include "make.h"

namespace tallyblock::testing {
namespace {

std::string golden(const char* name) {
  return file_bytes("tests/golden/" + std::string(name) + ".json");
}

// `text` with the right check for whatever it now says; unchanged if it is no JSON object.
std::string with_right_check(const std::string& text) {
  const Result<Json> parsed = parse_json(text, kMaxDepth);
  if (!parsed || parsed->type != Json::Type::object) return text;
  Json object = *parsed;
  object.remove("check");
  char check[9];
  std::snprintf(check, sizeof check, "%08x", static_cast<unsigned>(crc32(canonical_text(object))));
  object.set("check", Json::string(check));
  return canonical_text(object);
}

std::string replaced(std::string text, const std::string& what, const std::string& with) {
  const std::size_t at = text.find(what);
  EXPECT_NE(at, std::string::npos) << what;
  if (at != std::string::npos) text.replace(at, what.size(), with);
  return text;
}

Code code_of(const std::string& bytes) {
  const Result<SessionFile> file = read_session(bytes);
  EXPECT_FALSE(file) << bytes.substr(0, 200);
  return file ? Code::typed_empty : file.problem().code;
}

// A file that is read must mean exactly what the golden one means.
void expect_refused_or_equal(const std::string& bytes, const EntrySet& before,
                             const std::string& good, const std::string& label) {
  const Result<SessionFile> file = read_session(bytes);
  if (!file) {
    EXPECT_FALSE(file.problem().where.empty()) << label;
    return;
  }
  EXPECT_EQ(write_session(*file), good) << label;
  EntrySet after = before;
  for (const Entry& each : file->entries) EXPECT_FALSE(after.insert(each)) << label;
  EXPECT_EQ(after, before) << label;
}

TEST(MalformedFile, CutOffAtEveryLengthIsRefused) {
  const std::string good = golden("small-lb-oz");
  for (std::size_t length = 0; length < good.size(); ++length) {
    const Result<SessionFile> file = read_session(std::string_view(good).substr(0, length));
    ASSERT_FALSE(file) << length;
    EXPECT_EQ(file.problem().code, length == 0 ? Code::file_empty : Code::file_not_json) << length;
  }
}

TEST(MalformedFile, WithAnyBitFlippedIsRefusedOrMeansTheSame) {
  const std::string good = golden("small-lb-oz");
  const Result<SessionFile> file = read_session(good);
  ASSERT_TRUE(file);
  const EntrySet before = set_of(file->entries);
  std::size_t refused = 0;
  for (std::size_t bit = 0; bit < good.size() * 8; ++bit) {
    std::string flipped = good;
    flipped[bit / 8] = static_cast<char>(flipped[bit / 8] ^ (1 << (bit % 8)));
    if (!read_session(flipped)) ++refused;
    expect_refused_or_equal(flipped, before, good, "bit " + std::to_string(bit));
  }
  EXPECT_EQ(refused, good.size() * 8) << "canonical text has no bit to spare";
}

TEST(MalformedFile, WithAByteLeftOutDoubledOrSpacedIsRefusedOrMeansTheSame) {
  const std::string good = golden("small-lb-oz");
  const Result<SessionFile> file = read_session(good);
  ASSERT_TRUE(file);
  const EntrySet before = set_of(file->entries);
  for (std::size_t at = 0; at < good.size(); ++at) {
    std::string without = good, doubled = good, spaced = good;
    without.erase(at, 1);
    doubled.insert(at, 1, good[at]);
    spaced.insert(at, 1, ' ');
    for (const std::string& bytes : {without, doubled, spaced}) {
      expect_refused_or_equal(bytes, before, good, "byte " + std::to_string(at));
    }
  }
}

TEST(MalformedFile, ThatIsNoTextIsCalledSo) {
  const std::string good = golden("small-lb-oz");
  EXPECT_EQ(code_of(replaced(good, "Practice",
                             "Pr\xE4"
                             "ctice")),
            Code::file_not_text)
      << "Latin-1";
  for (const bool little : {true, false}) {
    std::string utf16;
    for (const char c : good) utf16 += little ? std::string{c, '\0'} : std::string{'\0', c};
    EXPECT_EQ(code_of(utf16), Code::file_not_text);
    EXPECT_EQ(code_of((little ? "\xFF\xFE" : "\xFE\xFF") + utf16), Code::file_not_text);
  }
  // Overlong, surrogate, beyond U+10FFFF, cut off: Unicode Standard 15.0, table 3-7.
  for (const char* bytes : {"\xC0\xAF", "\xE0\x80\x80", "\xED\xA0\x80", "\xF4\x90\x80\x80",
                            "\xF8\x88\x80\x80\x80", "\x80", "\xE2\x82", "\xF0\x9F\xA5"}) {
    EXPECT_EQ(code_of(replaced(good, "Practice", bytes)), Code::file_not_text);
  }
  EXPECT_EQ(code_of(std::string("\0\0\0\0", 4)), Code::file_not_text);
  EXPECT_EQ(code_of("\x89PNG\r\n\x1a\n"), Code::file_not_text);
}

TEST(MalformedFile, ThatIsNoJsonOrNotOursIsCalledSo) {
  EXPECT_EQ(code_of(""), Code::file_empty);
  EXPECT_EQ(code_of(" \r\n\t "), Code::file_empty);
  for (const char* text : {"weights", "{", "[1,]", "{\"a\":1,}", "{'a':1}", "{\"a\":01}", "nul",
                           "\"\\ud800\"", "{} {}", "// note\n{}", "NaN", "{\"a\":+1}"}) {
    EXPECT_EQ(code_of(text), Code::file_not_json) << text;
  }
  for (const char* text : {"{}", "[]", "5", "null", "\"tallyblock-session\"", R"({"format":1})",
                           R"({"format":"tallyblock-backup","major":1})"}) {
    EXPECT_EQ(code_of(text), Code::file_not_ours) << text;
  }
}

TEST(MalformedFile, TooLargeTooDeepOrTooManyIsRefusedBeforeAnythingIsBuilt) {
  EXPECT_EQ(code_of(std::string(kMaxSessionBytes + 1, ' ')), Code::file_too_big);
  EXPECT_EQ(code_of(std::string(kMaxSessionBytes, ' ')), Code::file_empty);
  EXPECT_EQ(code_of(std::string(10000, '[')), Code::file_too_deep);
  std::string objects;
  for (int i = 0; i < 10000; ++i) objects += "{\"a\":";
  EXPECT_EQ(code_of(objects), Code::file_too_deep);
  std::string many = "[1";
  for (std::size_t i = 0; i < kMaxJsonValues; ++i) many += ",1";
  EXPECT_EQ(code_of(many + "]"), Code::file_too_many);
}

TEST(MalformedFile, NestsAsDeepAsAllowedAndNoDeeper) {
  const auto entry_with = [](int depth) {
    return R"({"id":"aaaaaaaaaa.1","kind":"deep","seq":1,"t":0,"tz":0,"x":)" +
           std::string(static_cast<std::size_t>(depth), '[') +
           std::string(static_cast<std::size_t>(depth), ']') + "}";
  };
  const Result<Entry> deepest = decode_entry_strict(entry_with(kMaxDepth - 3));
  ASSERT_TRUE(deepest);
  EXPECT_FALSE(decode_entry_strict(entry_with(kMaxDepth - 2)));
  SessionFile file;
  file.session = kSession;
  file.entries = {*deepest};
  EXPECT_TRUE(read_session(write_session(file))) << "what is stored can be exported";
}

TEST(MalformedFile, WithMoreEntriesThanAllowedIsRefused) {
  std::string entries;
  for (std::size_t i = 0; i <= kMaxEntries; ++i) entries += i == 0 ? "{}" : ",{}";
  EXPECT_EQ(code_of(with_right_check(R"({"entries":[)" + entries +
                                     R"(],"format":"tallyblock-session","major":1,"minor":0,)"
                                     R"("session":"0123456789abcdefghjk"})")),
            Code::file_too_many);
}

TEST(MalformedFile, WithAnEntryOrAListThatIsTooLargeIsRefused) {
  const std::string big(kMaxEntryBytes, 'x');
  const std::string text = R"({"id":"aaaaaaaaaa.1","kind":"note","seq":1,"t":0,"text":"a","tz":0,)";
  EXPECT_EQ(decode_entry_strict(text + "\"y\":\"" + big + "\"}").problem().code,
            Code::file_too_big);
  EXPECT_EQ(code_of(with_right_check(replaced(
                golden("small-lb-oz"), "\"species\":", "\"y\":\"" + big + "\",\"species\":"))),
            Code::file_too_big);
  std::string ids;
  for (int i = 1; i <= 5001; ++i) ids += (i > 1 ? ",\"b.1\"" : "\"b.1\"");
  EXPECT_FALSE(decode_entry_strict(text + "\"replaces\":[" + ids + "]}"));
}

TEST(MalformedFile, WithANumberBeyondADoubleIsRefused) {
  for (const char* number : {"1e999", "-1e999", "1e309"}) {
    EXPECT_EQ(
        code_of(replaced(golden("small-lb-oz"), "\"tz\":120", "\"tz\":" + std::string(number))),
        Code::file_field_value);
  }
  const Result<Entry> kept =
      decode_entry_strict(R"({"id":"aaaaaaaaaa.1","kind":"later","seq":1,"t":0,"tz":0,"x":1e308})");
  ASSERT_TRUE(kept) << "an unknown field may hold any double";
  EXPECT_NE(kept->text.find("\"x\":1e308"), std::string::npos);
  for (const char* field : {"seq", "t", "tz"}) {
    for (const char* number : {"1e308", "1.5", "1e0", "-1e308", "99999999999999999999",
                               "-99999999999999999999", "18446744073709551615"}) {
      std::string text = R"({"id":"aaaaaaaaaa.1","kind":"later","seq":1,"t":0,"tz":0})";
      const std::string old = std::string("\"") + field + "\":";
      text.replace(text.find(old), old.size() + 1, old + number);
      EXPECT_FALSE(decode_entry_strict(text)) << text;
    }
  }
}

TEST(MalformedFile, WithAKeyTwiceInOneObjectIsRefused) {
  const std::string good = golden("small-lb-oz");
  EXPECT_EQ(code_of(replaced(good, "\"major\":1", "\"major\":1,\"major\":1")),
            Code::file_field_value);
  EXPECT_EQ(code_of(replaced(good, "\"tz\":120", "\"tz\":120,\"tz\":120")), Code::file_field_value);
  EXPECT_EQ(code_of(replaced(good, "\"tz\":120", "\"tz\":120,\"t\\u007a\":120")),
            Code::file_field_value)
      << "the same key in another spelling";
}

TEST(MalformedFile, WithAnIdTwiceIsRefusedEvenIfTheEntriesAreAlike) {
  const std::string good = golden("small-lb-oz");
  const Result<SessionFile> file = read_session(good);
  ASSERT_TRUE(file);
  for (const bool alike : {true, false}) {
    SessionFile twice = *file;
    twice.entries.push_back(alike ? file->entries[3] : reading(file->entries[3].id, 4, "7 g"));
    const Result<SessionFile> read = read_session(write_session(twice));
    ASSERT_FALSE(read);
    EXPECT_EQ(read.problem(),
              (Problem{Code::file_duplicate_id, "entries", {Arg::code("dem00000c3.4")}}));
  }
}

TEST(MalformedFile, EditedWithoutItsCheckIsCalledChanged) {
  const std::string good = golden("small-lb-oz");
  EXPECT_EQ(code_of(replaced(good, "2 lb 13 oz", "2 lb 12 oz")), Code::file_changed);
  EXPECT_EQ(code_of(replaced(good, "\"check\":\"", "\"check\":\"0")), Code::file_changed);
  EXPECT_EQ(code_of(replaced(good, "\"check\":", "\"chekc\":")), Code::file_field_missing);
}

TEST(MalformedFile, NamesTheEntryAndTheFieldThatAreWrong) {
  const Result<SessionFile> file = read_session(
      with_right_check(replaced(golden("small-lb-oz"), "\"2 lb 13 oz\"", "\"2 lb 16 oz\"")));
  ASSERT_FALSE(file);
  Place in_entry_8("weight");
  in_entry_8.entry = 8;
  EXPECT_EQ(text_of(in_entry_8), "entry 8, field weight");
  EXPECT_EQ(file.problem(),
            (Problem{Code::file_field_value, in_entry_8, {Arg::code("weight"), Arg::number(8)}}));
}

// Values of every type; each stands in for each field of each entry.
const char* const kAnyValue[] = {"null",
                                 "true",
                                 "-1",
                                 "0",
                                 "7",
                                 "1.5",
                                 "1e308",
                                 "\"\"",
                                 "\"x\"",
                                 "\"-5 g\"",
                                 "\"\\u0000\"",
                                 "[]",
                                 "[7]",
                                 "[\"x\"]",
                                 "{}",
                                 "{\"a\":1}",
                                 "99999999999999999999"};

TEST(MalformedFile, WithAWrongTypeInAnyFieldOfAnyKindIsRefusedOrReadsBackAsItIs) {
  const Result<SessionFile> file = read_session(golden("every-kind"));
  ASSERT_TRUE(file);
  std::size_t refused = 0, accepted = 0;
  for (const Entry& each : file->entries) {
    const Result<Json> object = parse_json(each.text, kMaxDepth);
    ASSERT_TRUE(object);
    for (const Json& field : object->children) {
      for (const char* value : kAnyValue) {
        Json changed = *object;
        const Result<Json> other = parse_json(value, kMaxDepth);
        ASSERT_TRUE(other) << value;
        changed.set(field.key, *other);
        const Result<Entry> read = decode_entry_strict(canonical_text(changed));
        if (!read) {
          ++refused;
          EXPECT_EQ(read.problem().where, field.key) << canonical_text(changed);
          continue;
        }
        ++accepted;
        // Text stays text: only the same type of value can have been read.
        EXPECT_TRUE(other->type == field.type || field.key == "kind") << canonical_text(changed);
        EXPECT_EQ(read->text, canonical_text(changed));
      }
    }
  }
  EXPECT_GT(refused, accepted * 10);
}

TEST(MalformedFile, WithoutARequiredFieldIsRefusedAndOnlyTheOptionalOnesMayLack) {
  std::set<std::string> may_lack;
  const Result<SessionFile> file = read_session(golden("every-kind"));
  ASSERT_TRUE(file);
  for (const Entry& each : file->entries) {
    const Result<Json> object = parse_json(each.text, kMaxDepth);
    ASSERT_TRUE(object);
    for (const Json& field : object->children) {
      Json changed = *object;
      changed.remove(field.key);
      const Result<Entry> read = decode_entry_strict(canonical_text(changed));
      if (read) {
        may_lack.insert(std::string(kind_name(each.body)) + ' ' + field.key);
      } else {
        EXPECT_EQ(read.problem().code, Code::file_field_missing) << canonical_text(changed);
      }
    }
  }
  EXPECT_EQ(may_lack, (std::set<std::string>{"checkpoint division",
                                             "cut mark",
                                             "cut plan",
                                             "cut target",
                                             "incoming by",
                                             "incoming division",
                                             "eye-call by",
                                             "note about",
                                             "piece cut",
                                             "piece name",
                                             "piece species",
                                             "pile step",
                                             "pile use",
                                             "price quoted-yield",
                                             "reading by",
                                             "reading count",
                                             "reading covers",
                                             "reading cut",
                                             "reading division",
                                             "reading replaces",
                                             "reading tare",
                                             "reading tub",
                                             "remainder division",
                                             "step division",
                                             "step weight",
                                             "target tolerance",
                                             "transfer division",
                                             "tub division"}));
}

}  // namespace
}  // namespace tallyblock::testing
