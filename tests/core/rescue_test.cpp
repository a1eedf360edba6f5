// Rescue files: all that is stored comes back, damage is counted, nothing else is lost by it.
#include "core/entries/rescue.h"

#include <gtest/gtest.h>

#include <cstdio>
#include <string>
#include <utility>
#include <vector>

#include "random_session.h"

namespace tallyblock::testing {
namespace {

std::string u32(std::size_t value) {
  std::string out;
  for (int i = 0; i < 4; ++i, value >>= 8) out += static_cast<char>(value & 255u);
  return out;
}

std::string record(const std::string& key, const std::string& value, char area = 0) {
  return std::string(1, area) + u32(key.size()) + key + u32(value.size()) + value;
}

std::string sealed_value(const std::string& key, const std::string& payload) {
  char sum[10];
  std::snprintf(sum, sizeof sum, "\n%08x",
                static_cast<unsigned>(crc32("entries\n" + key + "\n" + payload)));
  return payload + sum;
}

std::string header(std::size_t records) {
  return R"({"format":"tallyblock-rescue","major":1,"minor":0,"records":)" +
         std::to_string(records) + "}\n";
}

std::string key_of_entry(const SessionFile& file, const Entry& entry) {
  return file.session + '/' + to_text(entry.id);
}

struct Read {
  std::vector<SessionFile> sessions;
  std::vector<Problem> problems;
  std::size_t damaged = 0;
};

Read read(const std::string& bytes, std::size_t piece = 1000) {
  RescueReader reader;
  Read out;
  const auto take = [&](std::vector<Result<SessionFile>> results) {
    for (Result<SessionFile>& result : results) {
      if (result)
        out.sessions.push_back(std::move(result.value()));
      else
        out.problems.push_back(result.problem());
    }
  };
  for (std::size_t at = 0; at < bytes.size(); at += piece)
    take(reader.feed(bytes.substr(at, piece)));
  take(reader.finish());
  out.damaged = reader.damaged();
  return out;
}

// As a page of today stores them, or as one did before records had a check value.
std::pair<std::string, std::size_t> records_of(const SessionFile& file, bool with_check = true) {
  std::string out;
  for (const Entry& entry : file.entries) {
    const std::string key = key_of_entry(file, entry);
    out += record(key, with_check ? sealed_value(key, entry.text) : entry.text);
  }
  return {out, file.entries.size()};
}

TEST(Rescue, GivesEverySessionWhateverThePiecesWithAndWithoutCheckValues) {
  for (const bool with_check : {true, false}) {
    const SessionFile a = RandomSession(1).file(), b = RandomSession(2).file();
    const auto [first, m] = records_of(a, with_check);
    const auto [second, n] = records_of(b, with_check);
    const std::string bytes = header(m + n + 2) + record("draft", "{}", 2) + first + second +
                              record(b.session, "1790000000000", 3);
    for (const std::size_t piece : {std::size_t{1}, std::size_t{33}, bytes.size()}) {
      const Read got = read(bytes, piece);
      ASSERT_EQ(got.sessions.size(), 2u);
      EXPECT_EQ(write_session(got.sessions[0]), write_session(a));
      EXPECT_EQ(write_session(got.sessions[1]), write_session(b));
      EXPECT_TRUE(got.problems.empty());
      EXPECT_EQ(got.damaged, 0u);
    }
  }
}

TEST(Rescue, ADamagedRecordIsCountedAndTheOthersCome) {
  const SessionFile file = RandomSession(3).file();
  std::string bytes = header(file.entries.size() + 2);
  const std::string spoilt = key_of_entry(file, file.entries[2]);
  for (const Entry& entry : file.entries) {
    const std::string key = key_of_entry(file, entry);
    std::string value = sealed_value(key, entry.text);
    if (key == spoilt) value[value.find("\"t\":") + 5] ^= 1;  // still an entry, but another
    bytes += record(key, value);
  }
  bytes += record("no session", "{}") + record(file.session + "/head", "[1");
  const Read got = read(bytes);
  ASSERT_EQ(got.sessions.size(), 1u);
  EXPECT_EQ(got.sessions[0].entries.size(), file.entries.size() - 1);
  EXPECT_EQ(got.damaged, 3u);
  EXPECT_TRUE(got.problems.empty());
}

TEST(Rescue, OfTwoPlacesTheGoodRecordCountsWhicheverComesFirst) {
  const SessionFile file = RandomSession(3).file();
  const std::string key = key_of_entry(file, file.entries[0]);
  const std::string good = record(key, sealed_value(key, file.entries[0].text));
  const std::string bad = record(key, sealed_value(key + "x", file.entries[0].text));
  for (const std::string& both : {good + bad, bad + good}) {
    const Read got = read(header(2) + both);
    ASSERT_EQ(got.sessions.size(), 1u);
    EXPECT_EQ(got.sessions[0].entries[0].text, file.entries[0].text);
    EXPECT_EQ(got.damaged, 0u);
  }
}

TEST(Rescue, AnotherTextUnderOneIdComesInAFileOfItsOwn) {
  const SessionFile file = RandomSession(4).file();
  const Entry& entry = file.entries[0];
  std::string other = entry.text;
  other.insert(1, R"("a-field":1,)");
  const std::string key = key_of_entry(file, entry);
  const Read got = read(header(2) + record(key, entry.text) + record(key + "~00000000", other));
  ASSERT_EQ(got.sessions.size(), 2u);
  EXPECT_EQ(got.sessions[0].session, got.sessions[1].session);
  EXPECT_EQ(got.sessions[0].entries[0].text, entry.text);
  EXPECT_EQ(got.sessions[1].entries[0].text, other);
}

TEST(Rescue, TheHeadOfASessionComesAlong) {
  const SessionFile file = RandomSession(5).file();
  const auto [records, n] = records_of(file);
  const std::string head = R"({"extra":"{\"x\":1}","left_out":["person","note"],"minor":7})";
  const Read got = read(header(n + 1) + records + record(file.session + "/head", head));
  ASSERT_EQ(got.sessions.size(), 1u);
  EXPECT_EQ(got.sessions[0].minor, 7);
  EXPECT_EQ(got.sessions[0].extra, R"({"x":1})");
  EXPECT_EQ(got.sessions[0].left_out, (std::vector<std::string>{"note", "person"}));
}

TEST(Rescue, CutOffItGivesWhatIsThereAndSaysSo) {
  const SessionFile file = RandomSession(6).file();
  const auto [records, n] = records_of(file);
  const std::string whole = header(n) + records;
  const Read got = read(whole.substr(0, whole.size() - 4));
  ASSERT_EQ(got.sessions.size(), 1u);
  EXPECT_EQ(got.sessions[0].entries.size(), n - 1);
  ASSERT_EQ(got.problems.size(), 1u);
  EXPECT_EQ(got.problems[0].code, Code::file_changed);
  EXPECT_EQ(got.problems[0].args, (Args{Arg::count(n), Arg::count(n - 1)}));
}

TEST(Rescue, LengthsThatCannotBeEndTheReadingWithWhatCameBefore) {
  const SessionFile file = RandomSession(6).file();
  const auto [records, n] = records_of(file);
  const Read got =
      read(header(n + 1) + records + std::string(1, '\0') + u32(0xffffffffu) + "rest of it");
  ASSERT_EQ(got.sessions.size(), 1u);
  EXPECT_EQ(got.sessions[0].entries.size(), n);
  ASSERT_EQ(got.problems.size(), 1u);
  EXPECT_EQ(got.problems[0].where, "records");
}

TEST(Rescue, WithoutItsFirstLineGivesOneProblemAndNothingElse) {
  for (const std::string& bytes :
       {std::string(), std::string("words"), std::string(10'000, 'x'),
        std::string("{\"format\":\"tallyblock-rescue\",\"major\":2,\"records\":0}\n")}) {
    const Read got = read(bytes);
    EXPECT_TRUE(got.sessions.empty());
    EXPECT_EQ(got.problems.size(), 1u) << bytes.substr(0, 20);
  }
  EXPECT_EQ(kind_of_file(header(3)), FileKind::rescue);
}

}  // namespace
}  // namespace tallyblock::testing
