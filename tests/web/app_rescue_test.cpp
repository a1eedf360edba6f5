// Files that are large, empty, picked twice, or made by a page that could not start the program.
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "files_stage.h"
#include "web/words/words.h"

namespace tallyblock::test {
namespace {

struct OddFiles : WithAPiece {};

// What the page hands out when the program does not start: records as they are stored.
std::string rescue_file(const Contents& kept) {
  std::string records;
  std::size_t count = 0;
  const auto put = [&](const std::string& text) {
    for (std::size_t i = 0, n = text.size(); i < 4; ++i, n >>= 8)
      records += static_cast<char>(n & 255u);
    records += text;
  };
  for (const auto& [area, all] : kept) {
    for (const auto& [key, bytes] : all) {
      records += static_cast<char>(area);
      put(key);
      put(bytes);
      ++count;
    }
  }
  return R"({"format":"tallyblock-rescue","major":1,"minor":0,"records":)" + std::to_string(count) +
         "}\n" + records;
}

TEST_F(OddFiles, ARescueFileBringsEveryPieceIntoAnEmptyApp) {
  const std::string first = exported();
  ask::new_session(app);
  rig.pump();
  rig.enter(FieldKind::drained, "3000");
  const std::string second = exported();
  Rig fresh;
  give(fresh, "rescue.bin", rescue_file(rig.store.kept), 700);
  ASSERT_EQ(fresh->shelf().cards.size(), 2u);
  EXPECT_EQ(line(fresh).find("2 sessions imported"), 0u) << line(fresh);
  for (const std::string& bytes : {first, second}) {
    ask::open(*fresh, read_session(bytes)->session);
    fresh.pump();
    EXPECT_EQ(write_session(file_of(*fresh->session())), bytes);
  }
}

TEST_F(OddFiles, ARescueFileWithDamageSaysHowManyRecordsAreLeftOut) {
  Contents kept = rig.store.kept;
  const std::size_t entries = app.session()->set.size();
  kept[Area::entries].begin()->second.pop_back();
  Rig fresh;
  give(fresh, "rescue.bin", rescue_file(kept));
  ASSERT_EQ(fresh->shelf().cards.size(), 1u);
  EXPECT_EQ(fresh->shelf().cards[0].entries, entries - 1);
  EXPECT_NE(line(fresh).find("Damaged records that were left out: 1."), std::string::npos)
      << line(fresh);
}

constexpr std::uint32_t kMany = 3'000;  // at 900 bytes each over the limit of a file

// `count` notes in a session, as another device may have gathered them.
SessionFile grown(const std::string& session, std::uint32_t count, const std::string& text) {
  SessionFile file;
  file.session = session;
  for (std::uint32_t n = 1; n <= count; ++n) {
    Entry entry;
    entry.id = {"0000000abc", n};
    entry.seq = n;
    entry.time.utc_ms = 1'790'000'000'000;
    entry.body = body::Note{text, std::nullopt};
    file.entries.push_back(sealed(std::move(entry)));
  }
  return file;
}

TEST_F(OddFiles, ASessionThatHasGrownOverTwoMegabytesComesBackFromExportAndBackup) {
  const SessionFile whole = grown("00000000000000000grm", kMany, std::string(900, 'x'));
  std::string lines;
  const std::vector<std::string> parts = write_session_parts(whole);
  ASSERT_GT(parts.size(), 1u);
  for (const std::string& part : parts) lines += part + '\n';
  give(rig, "grown.jsonl", backup_header(parts.size()) + lines, 1 << 20);
  EXPECT_EQ(line(rig).find("1 session imported"), 0u) << line(rig);
  for (const bool backup : {false, true}) {
    if (backup)
      ask::export_backup(app);
    else
      ask::export_session(app, whole.session, true);
    rig.pump();
    Rig fresh;
    give(fresh, "a.jsonl", rig.host.offered.back().bytes, 1 << 20);
    ask::open(*fresh, whole.session);
    fresh.pump();
    EXPECT_EQ(fresh->session()->set.size(), kMany);
    EXPECT_EQ(write_session_parts(file_of(*fresh->session())), parts);
  }
}

TEST_F(OddFiles, ABackupSaysWhatItLeftOut) {
  ask::new_session(app);
  rig.pump();
  rig.enter(FieldKind::drained, "3000");
  ask::put_in_bin(app, id());
  rig.pump();
  rig.store.kept[Area::entries].begin()->second = "damaged";
  ask::export_backup(app);
  rig.pump();
  EXPECT_EQ(rig.notice(), "notice.backup-without");
  EXPECT_EQ(app.notice()->args, (std::vector<std::string>{"1", "1"}));
  EXPECT_TRUE(app.notice()->is_error);
}

TEST_F(OddFiles, TheSameFilePickedTwiceIsReadOnceAndSaid) {
  const std::string bytes = exported();
  Rig fresh;
  ask::import_file(*fresh);
  for (int i = 0; i < 2; ++i) fresh->on_file("pork.json", bytes, true);
  fresh.pump();
  EXPECT_EQ(line(fresh).find("1 session imported"), 0u) << line(fresh);
  EXPECT_NE(line(fresh).find("pork.json was picked twice; it counts once."), std::string::npos)
      << line(fresh);
  EXPECT_NE(line(fresh).find("known 0"), std::string::npos) << line(fresh);
}

TEST_F(OddFiles, ABackupOfNothingSaysThatItHoldsNoPiece) {
  give(rig, "empty.jsonl", backup_header(0));
  EXPECT_EQ(line(rig), "empty.jsonl holds no piece. Nothing was changed by it.");
}

TEST_F(OddFiles, ABlankAtTheStartOfAFileNameIsNotShown) {
  give(rig, "  a\tfile.json ", "no session");
  EXPECT_EQ(line(rig).find("a file.json was not imported."), 0u) << line(rig);
  give(rig, " ", "no session");
  EXPECT_EQ(line(rig).find("A file without a name was not imported."), 0u) << line(rig);
}

}  // namespace
}  // namespace tallyblock::test
