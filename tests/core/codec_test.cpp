// Entries, session files and backups to and from text.
#include "core/entries/codec.h"

#include <gtest/gtest.h>

#include <tuple>

#include "core/session/session.h"
#include "make.h"
#include "random_session.h"

namespace tallyblock::testing {
namespace {

const EntryId kA1{kWriterA, 1};

SessionFile file_of(std::vector<Entry> entries) {
  SessionFile file;
  file.session = kSession;
  file.entries = std::move(entries);
  return file;
}
std::string described(const Problem& problem) {
  std::string text = std::string(key_of(problem.code)) + " at " + text_of(problem.where);
  for (const Arg& arg : problem.args) text += " | " + text_of(arg);
  return text;
}

TEST(Crc32, GivesTheCheckValueOfItsDefinition) {
  // Check value of CRC-32/ISO-HDLC, as catalogued for the CRC of IEEE 802.3 and ISO 3309.
  EXPECT_EQ(crc32("123456789"), 0xCBF43926u);
  EXPECT_EQ(crc32(""), 0u);
  EXPECT_EQ(hex8(0xCBF43926u), "cbf43926");
  EXPECT_EQ(hex8(7u), "00000007");
}

TEST(EntryText, IsSortedWithoutSpacesAndOmitsWhatSaysNothing) {
  body::Reading body;
  body.pile = "portions";
  body.weight = mass("5 lb 8 1/2 oz");
  EXPECT_EQ(entry(kA1, 3, body).text,
            R"({"habit":"piece","id":"aaaaaaaaaa.1","kind":"reading","pile":"portions","seq":3,)"
            R"("t":1760000000000,"tz":120,"weight":"5 lb 8 1/2 oz"})");
  body.count = 4;
  body.covers = {{kWriterB, 2}};
  EXPECT_NE(entry(kA1, 3, body).text.find(R"({"count":4,"covers":["bbbbbbbbbb.2"],)"),
            std::string::npos);
}

TEST(EntryText, KeepsWeightsAsTypedAndNeverAsANumber) {
  for (const char* text : {"12.35 lb", "5 lb 8 1/2 oz", "0,450 kg", "450 g", "1/2 oz"}) {
    const Result<Entry> back = decode_entry_strict(reading(kA1, 1, text).text);
    ASSERT_TRUE(back) << text;
    EXPECT_EQ(std::get<body::Reading>(back->body).weight.text, text);
    EXPECT_EQ(std::get<body::Reading>(back->body).weight.mass, mass(text).mass);
    EXPECT_NE(back->text.find("\"weight\":\"" + std::string(text) + "\""), std::string::npos);
  }
}

TEST(EntryText, OfSpacedOrUnsortedJsonBecomesCanonical) {
  const Result<Entry> loose = decode_entry_strict(
      "{ \"kind\" : \"note\", \"text\":\"a\\u00e4\\/\\u0041\", \"tz\":-0,\n\"t\":0,"
      "\"seq\":1,\"id\":\"aaaaaaaaaa.1\", \"z\":[ 1.50 , 1E2, true ]}");
  ASSERT_TRUE(loose) << described(loose.problem());
  EXPECT_EQ(loose->text,
            "{\"id\":\"aaaaaaaaaa.1\",\"kind\":\"note\",\"seq\":1,\"t\":0,"
            "\"text\":\"a\xC3\xA4/A\",\"tz\":0,\"z\":[1.50,1E2,true]}");
  const Result<Entry> again = decode_entry_strict(loose->text);
  ASSERT_TRUE(again);
  EXPECT_EQ(again->text, loose->text);
}

TEST(EntryText, KeepsUnknownFieldsOfAKnownKind) {
  const std::string text =
      R"({"id":"aaaaaaaaaa.1","kind":"person","later":{"a":[{}],"b":0.10},"name":"A","seq":1,"t":0,"tz":0})";
  const Result<Entry> back = decode_entry_strict(text);
  ASSERT_TRUE(back);
  EXPECT_EQ(back->text, text);
  EXPECT_EQ(write_session(file_of({*back})).find(text) != std::string::npos, true);
}

TEST(EntryText, OfAnUnknownKindIsKeptAndNamed) {
  const std::string text =
      R"({"id":"aaaaaaaaaa.1","kind":"smoke-ring","mm":4.0,"seq":1,"t":0,"tz":0})";
  const Result<Entry> back = decode_entry_strict(text);
  ASSERT_TRUE(back);
  const auto* unknown = std::get_if<body::Unknown>(&back->body);
  ASSERT_NE(unknown, nullptr);
  EXPECT_EQ(unknown->kind, "smoke-ring");
  EXPECT_FALSE(unknown->problem);
  EXPECT_EQ(sealed(*back).text, text);
}

TEST(EntryText, ThatCannotBeReadIsKeptWhenReadLeniently) {
  const std::string text =
      R"({"by":"aaaaaaaaaa.9","id":"aaaaaaaaaa.1","key":"p","kind":"pile","name":"P","role":"display","seq":4,"t":5,"tz":0})";
  const Result<Entry> strict = decode_entry_strict(text);
  ASSERT_FALSE(strict);
  EXPECT_EQ(strict.problem(), (Problem{Code::file_field_value, "role", {Arg::code("role")}}));
  const Result<Entry> lenient = decode_entry_lenient(text);
  ASSERT_TRUE(lenient);
  const auto* unknown = std::get_if<body::Unknown>(&lenient->body);
  ASSERT_NE(unknown, nullptr);
  EXPECT_EQ(unknown->kind, "pile");
  EXPECT_EQ(unknown->problem, strict.problem());
  EXPECT_EQ(lenient->text, text);
  EXPECT_EQ(lenient->seq, 4u);
  EXPECT_FALSE(decode_entry_lenient(R"({"id":"aaaaaaaaaa.1","kind":"pile","t":5,"tz":0})"));
  EXPECT_FALSE(decode_entry_lenient(R"({"id":"x","kind":"pile","seq":1,"t":5,"tz":0})"));
}

TEST(EntryText, ThatCouldNotBeReadIsExportedSoThatItCanBeImportedAgain) {
  const Result<Entry> entry_of_later = decode_entry_lenient(
      R"({"id":"aaaaaaaaaa.1","kind":"pile","role":"display","seq":4,"t":5,"tz":0})");
  ASSERT_TRUE(entry_of_later);
  const std::string bytes = write_session(file_of({*entry_of_later}));
  const Result<SessionFile> back = read_session(bytes);
  ASSERT_TRUE(back) << described(back.problem());
  EXPECT_EQ(back->minor, kFormatMinor + 1);
  EXPECT_EQ(write_session(*back), bytes);
}

TEST(Checked, PassesWhatCanBeStoredAndNamesTheFieldThatPreventsIt) {
  EXPECT_TRUE(checked(reading(kA1, 1, "100 g")));
  Result<Entry> bad_key = checked(entry(kA1, 1, body::Pile{"Two words", "main", "P", {}, ""}));
  ASSERT_FALSE(bad_key);
  EXPECT_EQ(bad_key.problem().where, "key");
  EXPECT_FALSE(checked(entry(kA1, 1, body::Person{std::string(201, 'n')})));
  EXPECT_TRUE(checked(entry(kA1, 1, body::Person{std::string(200, 'n')})));
  EXPECT_FALSE(checked(entry(kA1, 1, body::Note{std::string(4001, 'n'), {}})));
  EXPECT_TRUE(checked(entry(kA1, 1, body::Note{std::string(3999, 'n') + '\n', {}})));
  EXPECT_FALSE(checked(entry(kA1, 1, body::Note{"tab\there", {}})));
  EXPECT_FALSE(checked(entry(kA1, 1, body::Person{"two\nlines"})));
  EXPECT_FALSE(checked(entry(kA1, 1, body::Person{"\x7f"})));
  EXPECT_FALSE(checked(entry(kA1, 1, body::Person{"Latin \xE4"})));
  EXPECT_FALSE(checked(entry(kA1, 0, body::Person{"A"})));
  EXPECT_FALSE(checked(entry(kA1, kMaxSeq + 1, body::Person{"A"})));
  EXPECT_TRUE(checked(entry(kA1, kMaxSeq, body::Person{"A"})));
  EXPECT_FALSE(checked(entry({"short", 1}, 1, body::Person{"A"})));
  EXPECT_FALSE(checked(entry({kWriterA, kMaxCounter + 1}, 1, body::Person{"A"})));
}

TEST(Checked, WeightsAreOfTheSignTheirPlaceAllows) {
  const auto passes = [](Body body) { return checked(entry(kA1, 1, std::move(body))).ok(); };
  const auto incoming = [&](Incoming which, const char* weight) {
    return passes(body::IncomingWeight{which, mass(weight), {}, 1});
  };
  const auto weighed = [&](Habit habit, const char* weight) {
    body::Reading reading;
    reading.pile = "portions";
    reading.habit = habit;
    reading.weight = mass(weight);
    return passes(std::move(reading));
  };
  for (const Incoming which : {Incoming::packaging, Incoming::purge}) {
    EXPECT_TRUE(incoming(which, "0 g"));
  }
  for (const Incoming which : {Incoming::invoice, Incoming::received, Incoming::drained}) {
    EXPECT_FALSE(incoming(which, "0 g"));
    EXPECT_TRUE(incoming(which, "1 g"));
  }
  for (const Habit habit : {Habit::piece, Habit::increment, Habit::tub_now}) {
    EXPECT_TRUE(weighed(habit, "1 g"));
    EXPECT_FALSE(weighed(habit, "0 g"));
    EXPECT_FALSE(weighed(habit, "-1 g"));
  }
  EXPECT_TRUE(weighed(Habit::taken_off, "-1 g"));
  EXPECT_FALSE(weighed(Habit::taken_off, "1 g"));
  EXPECT_TRUE(passes(body::Remainder{"main", mass("0 g"), {}}));
  EXPECT_FALSE(passes(body::Checkpoint{"main", "cleaned", mass("0 g"), {}}));
  EXPECT_TRUE(passes(body::Tub{"blue", "Blue", mass("0 g"), {}}));
  EXPECT_FALSE(passes(body::Tub{"blue", "Blue", mass("-1 g"), {}}));
  EXPECT_FALSE(passes(body::Transfer{"a", "b", mass("0 g"), {}}));
  EXPECT_FALSE(passes(body::Target{"portions", mass("0 g"), {}}));
  EXPECT_TRUE(passes(body::Target{"portions", mass("1 g"), mass("0 g")}));
  const auto priced = [&](const char* of, const char* amount) {
    return passes(body::Price{of, PriceBasis::total, number(amount), "", "EUR", {}});
  };
  EXPECT_TRUE(priced("piece", "0"));
  EXPECT_FALSE(priced("piece", "-1"));
  EXPECT_FALSE(priced("ready-cut", "-1"));
  EXPECT_TRUE(priced("pile:waste", "-1"));
}

TEST(Checked, KnownSettingsAndLotFactsMustMakeSense) {
  const auto setting = [](const char* key, const char* value) {
    return checked(entry(kA1, 1, body::Setting{key, value})).ok();
  };
  for (const auto& [key, good, bad] :
       {std::tuple{"currency", "EUR", "euro"}, std::tuple{"division", "1/2 oz", "0 g"},
        std::tuple{"unit", "lb-oz", "stone"}, std::tuple{"wage", "21,50", "-1"},
        std::tuple{"loss-limit", "2 %", "101 %"}, std::tuple{"tolerance", "imps", "some"},
        std::tuple{"tolerance", "0 g", "-1 g"}, std::tuple{"price-unit", "lb", "g"},
        std::tuple{"decimal-mark", ",", ";"}}) {
    EXPECT_TRUE(setting(key, good)) << key;
    EXPECT_FALSE(setting(key, bad)) << key;
  }
  EXPECT_TRUE(setting("of-a-later-version", "anything"));
  EXPECT_TRUE(checked(entry(kA1, 1, body::Lot{"receiving-temperature", "38 F"})));
  EXPECT_FALSE(checked(entry(kA1, 1, body::Lot{"receiving-temperature", "cold"})));
}

TEST(SessionText, GoldenFilesReadAndWriteTheSameBytes) {
  for (const char* name : {"every-kind", "small-lb-oz", "cutting", "cut-closed", "piece-price",
                           "line", "future-minor"}) {
    const std::string bytes = file_bytes("tests/golden/" + std::string(name) + ".json");
    ASSERT_FALSE(bytes.empty()) << name;
    const Result<SessionFile> file = read_session(bytes);
    ASSERT_TRUE(file) << name << ' ' << described(file.problem());
    EXPECT_EQ(write_session(*file), bytes) << name;
  }
}

TEST(SessionText, GoldenFilesTogetherHoldEveryKindAndNoneIsReadAsUnknown) {
  std::set<std::size_t> kinds;
  for (const char* name : {"every-kind", "cutting", "cut-closed", "piece-price", "line"}) {
    const Result<SessionFile> file =
        read_session(file_bytes("tests/golden/" + std::string(name) + ".json"));
    ASSERT_TRUE(file) << name;
    for (const Entry& each : file->entries) {
      kinds.insert(each.body.index());
      EXPECT_FALSE(std::holds_alternative<body::Unknown>(each.body)) << each.text;
      Entry rewritten = each;
      rewritten.text.clear();
      EXPECT_EQ(sealed(rewritten).text, each.text);
    }
  }
  EXPECT_EQ(kinds.size(), std::variant_size_v<Body> - 1);
}

TEST(SessionText, SaysNoHigherMinorVersionThanItsKindsNeed) {
  EXPECT_EQ(read_session(write_session(file_of({reading(kA1, 1, "100 g")})))->minor, 0);
  EXPECT_EQ(
      read_session(write_session(file_of({entry(kA1, 1, body::Wanted{"portions", 4})})))->minor, 1);
  EXPECT_EQ(
      read_session(write_session(file_of({entry(kA1, 1, body::Wanted{"portions", 4}),
                                          entry({"aaaaaaaaaa", 2}, 2, body::CutClosed{kA1})})))
          ->minor,
      2);
  body::Price price{"ready-cut", PriceBasis::total, number("23.15"), "", "EUR", {}};
  EXPECT_EQ(read_session(write_session(file_of({entry(kA1, 1, price)})))->minor, 0);
  price.pieces = 24;
  EXPECT_EQ(read_session(write_session(file_of({entry(kA1, 1, price)})))->minor, 3);
  body::Note note{"Colder knife", {}};
  EXPECT_EQ(read_session(write_session(file_of({entry(kA1, 1, note)})))->minor, 0);
  note.next = true;
  const Entry line = entry(kA1, 1, body::Line{kSession, false});
  for (const Entry& later : {entry(kA1, 1, note), line}) {
    EXPECT_EQ(read_session(write_session(file_of({later})))->minor, 4);
  }
  // What says no more than its absence is not written.
  EXPECT_EQ(line.text.find("start"), std::string::npos);
  EXPECT_NE(entry(kA1, 1, note).text.find("\"next\":true"), std::string::npos);
}

TEST(SessionText, OfANewerMinorVersionKeepsWhatItCannotRead) {
  const Result<SessionFile> file = read_session(file_bytes("tests/golden/future-minor.json"));
  ASSERT_TRUE(file);
  std::vector<std::string> unknown, unreadable;
  for (const Entry& each : file->entries) {
    if (const auto* body = std::get_if<body::Unknown>(&each.body)) {
      (body->problem ? unreadable : unknown).push_back(body->kind);
    }
  }
  EXPECT_EQ(unknown, (std::vector<std::string>{"chill-curve", "sharpening"}));
  EXPECT_EQ(unreadable, (std::vector<std::string>{"pile", "reading"}));
  EXPECT_EQ(file->extra, R"({"class":{"name":"Invented evening class","seats":12},"zoom":1.50})");
}

TEST(SessionText, IsReadWithSpacesAndLineEndsToo) {
  std::string bytes = file_bytes("tests/golden/small-lb-oz.json");
  for (std::size_t at = 0; (at = bytes.find(",\"", at)) != std::string::npos; at += 4) {
    bytes.insert(at + 1, "\r\n ");
  }
  const Result<SessionFile> file = read_session(" " + bytes + "\n");
  ASSERT_TRUE(file) << described(file.problem());
  EXPECT_EQ(write_session(*file), file_bytes("tests/golden/small-lb-oz.json"));
}

TEST(SessionText, OfNoEntriesIsAFileToo) {
  const std::string bytes = write_session(file_of({}));
  const Result<SessionFile> back = read_session(bytes);
  ASSERT_TRUE(back) << described(back.problem());
  EXPECT_TRUE(back->entries.empty());
}

TEST(SessionText, ReservedNamesInExtraDoNotTakeThePlaceOfTheHeader) {
  SessionFile file = file_of({});
  file.extra = R"({"check":"0","entries":5,"major":9,"note":"kept"})";
  const Result<SessionFile> back = read_session(write_session(file));
  ASSERT_TRUE(back) << described(back.problem());
  EXPECT_EQ(back->extra, R"({"note":"kept"})");
}

// Feeds `bytes` in pieces of `size`; what came out, in words.
std::vector<std::string> backup_read(const std::string& bytes, std::size_t size) {
  BackupReader reader;
  std::vector<std::string> out;
  const auto take = [&out](const std::vector<Result<SessionFile>>& results) {
    for (const Result<SessionFile>& each : results) {
      out.push_back(each ? write_session(*each) : described(each.problem()));
    }
  };
  for (std::size_t at = 0; at < bytes.size(); at += size) take(reader.feed(bytes.substr(at, size)));
  take(reader.finish());
  return out;
}

TEST(Backup, GivesItsSessionsWhateverThePieces) {
  std::vector<std::string> lines;
  std::string bytes = backup_header(3);
  for (std::uint32_t seed = 1; seed <= 3; ++seed) {
    lines.push_back(write_session(RandomSession(seed).file()));
    bytes += lines.back() + '\n';
  }
  for (const std::size_t size : {std::size_t{1}, std::size_t{7}, std::size_t{4096}, bytes.size()}) {
    EXPECT_EQ(backup_read(bytes, size), lines) << size;
  }
  EXPECT_EQ(backup_read(bytes.substr(0, bytes.size() - 1), 4096), lines) << "no last line end";
}

TEST(Backup, OneBadLineIsNamedAndTheOthersStillCome) {
  const std::string good = write_session(RandomSession(1).file());
  std::string bad = good;
  bad[bad.size() / 2] = static_cast<char>(bad[bad.size() / 2] ^ 1);
  const std::vector<std::string> out =
      backup_read(backup_header(3) + good + "\n" + bad + "\n" + good + "\n", 512);
  ASSERT_EQ(out.size(), 3u);
  EXPECT_EQ(out[0], good);
  EXPECT_NE(out[1].find("at line 3, "), std::string::npos) << out[1];
  EXPECT_EQ(out[2], good);
}

TEST(Backup, ALineThatIsTooLongIsNamedAndNotHeld) {
  const std::string good = write_session(RandomSession(1).file());
  const std::vector<std::string> out = backup_read(
      backup_header(2) + std::string(kMaxSessionBytes + 10, '[') + "\n" + good + "\n", 60000);
  ASSERT_EQ(out.size(), 2u);
  EXPECT_EQ(out[0], "file.too-big at line 2 | 2097162 | 2097152");
  EXPECT_EQ(out[1], good);
}

TEST(Backup, CutOffBetweenTwoLinesIsNoticed) {
  const std::string good = write_session(RandomSession(1).file());
  const std::vector<std::string> out = backup_read(backup_header(2) + good + "\n", 512);
  ASSERT_EQ(out.size(), 2u);
  EXPECT_EQ(out[1], "file.changed at backup | 2 | 1");
}

TEST(Backup, WithoutItsHeaderGivesOneProblemAndNothingElse) {
  const std::string session = write_session(RandomSession(1).file());
  EXPECT_EQ(backup_read(session + "\n" + session + "\n", 100),
            std::vector<std::string>{"file.not-ours at line 1, format"});
  EXPECT_EQ(backup_read("", 1), std::vector<std::string>{"file.empty at file"});
  EXPECT_EQ(backup_read("\n\n", 1), std::vector<std::string>{"file.empty at file"});
  std::string newer = backup_header(1);
  newer.replace(newer.find("\"major\":1"), 9, "\"major\":3");
  EXPECT_EQ(backup_read(newer + session, 100),
            std::vector<std::string>{"file.newer-major at line 1, major | 3 | 1"});
}

TEST(SessionParts, OfMoreEntriesThanAFileTakesAreReadBackToTheWhole) {
  SessionFile file;
  file.session = "00000000000000000grm";
  for (std::uint32_t n = 1; n <= kMaxEntries + 500; ++n) {
    Entry entry;
    entry.id = {"0000000abc", n};
    entry.seq = n;
    entry.body = body::Note{std::string(120, 'x'), std::nullopt};
    file.entries.push_back(sealed(std::move(entry)));
  }
  std::vector<std::string> texts;
  for (const std::string& part : write_session_parts(file)) {
    EXPECT_LE(part.size(), kMaxSessionBytes);
    const Result<SessionFile> back = read_session(part);
    ASSERT_TRUE(back);
    for (const Entry& entry : back->entries) texts.push_back(entry.text);
  }
  ASSERT_EQ(texts.size(), file.entries.size());
  for (std::size_t i = 0; i < texts.size(); ++i) ASSERT_EQ(texts[i], file.entries[i].text);
}

TEST(FileKind, IsGuessedFromTheFirstBytes) {
  const std::string session = write_session(RandomSession(1).file());
  EXPECT_EQ(kind_of_file(session.substr(0, 100)), FileKind::session);
  EXPECT_EQ(kind_of_file("{ \"format\" : \"tallyblock-session\"}"), FileKind::session);
  EXPECT_EQ(kind_of_file(backup_header(1) + session), FileKind::backup);
  EXPECT_EQ(kind_of_file("PK\x03\x04"), FileKind::other);
  EXPECT_EQ(kind_of_file(""), FileKind::other);
}

}  // namespace
}  // namespace tallyblock::testing
