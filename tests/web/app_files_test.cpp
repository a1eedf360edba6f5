// Files out and in.
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <sstream>

#include "files_stage.h"
#include "web/app/shelf/sample.h"
#include "web/figures/doubts.h"
#include "web/figures/sentence.h"
#include "web/words/words.h"

namespace tallyblock::test {
namespace {

struct Files : WithAPiece {};

TEST_F(Files, ASessionIsExportedUnderASafeName) {
  const std::string bytes = exported();
  EXPECT_EQ(rig.host.offered.back().name, "tallyblock-beef-ribeye-no-1-2026-09-21.json");
  const auto file = read_session(bytes);
  ASSERT_TRUE(file.ok());
  EXPECT_EQ(file->session, id());
  EXPECT_EQ(file->entries.size(), app.session()->set.size());
}

TEST_F(Files, NamesStayAtHomeWhenAskedTo) {
  const std::string bytes = exported(false);
  EXPECT_EQ(bytes.find("Ada"), std::string::npos);
  const auto file = read_session(bytes);
  ASSERT_TRUE(file.ok());
  EXPECT_FALSE(file->left_out.empty());
}

TEST_F(Files, WhatWasExportedComesBackTheSameAfterAWipe) {
  const std::string bytes = exported();
  Rig fresh;
  give(fresh, "a.json", bytes);
  ASSERT_EQ(fresh->shelf().cards.size(), 1u);
  ask::open(*fresh, fresh->shelf().cards[0].id);
  fresh.pump();
  EXPECT_EQ(write_session(file_of(*fresh->session())), bytes);
  fresh.restart();
  ask::export_session(*fresh, fresh->shelf().cards[0].id, true);
  fresh.pump();
  EXPECT_EQ(fresh.host.offered.back().bytes, bytes);
}

TEST_F(Files, ImportIsTheUnionAndCountsWhatItBrought) {
  const std::string before = exported();
  rig.weigh("portions", "100");
  rig.weigh("usable-trim", "50");
  const std::size_t all = app.session()->set.size();
  give(rig, "old.json", before);
  EXPECT_EQ(app.session()->set.size(), all);
  EXPECT_EQ(line(rig), say("import.many#one", {"1", "0", std::to_string(all - 2), "0", "0"}));
  const std::string after = exported();
  Rig other;
  give(other, "old.json", before);
  give(other, "new.json", after);
  EXPECT_EQ(line(other), say("import.many#one", {"1", "2", std::to_string(all - 2), "0", "0"}));
}

TEST_F(Files, ImportIntoTheOpenSessionShowsAtOnce) {
  Rig other(rig.store.kept, 900);
  ask::open(*other, id());
  other.pump();
  other.weigh("second-cuts", "333");
  ask::export_session(*other, id(), true);
  other.pump();
  give(rig, "b.json", other.host.offered.back().bytes);
  EXPECT_EQ(rig.grams("second-cuts"), 333.0);
  EXPECT_EQ(app.keeper().unsaved(), 0u);
}

TEST_F(Files, EntriesThatDifferUnderOneIdAreBothKeptAndSaidAfterARestartToo) {
  const std::string bytes = exported();
  auto file = read_session(bytes);
  ASSERT_TRUE(file.ok());
  for (Entry& entry : file.value().entries) {
    if (auto* reading = std::get_if<body::Reading>(&entry.body)) {
      reading->weight = *parse_mass("901 g", "weight");
      entry = sealed(entry);
    }
  }
  const std::string other = write_session(file.value());
  give(rig, "edited.json", other);
  EXPECT_NE(line(rig).find("in conflict 1"), std::string::npos);
  EXPECT_TRUE(rig.has_doubt(Code::doubt_conflicting_copies));
  const std::string winner = exported();
  rig.restart();
  EXPECT_TRUE(rig.has_doubt(Code::doubt_conflicting_copies));
  // Whichever way round they meet, the same copy counts.
  Rig reverse;
  give(reverse, "edited.json", other);
  give(reverse, "first.json", bytes);
  ask::export_session(*reverse, reverse->shelf().cards[0].id, true);
  reverse.pump();
  EXPECT_EQ(reverse.host.offered.back().bytes, winner);
}

TEST_F(Files, ImportBringsASessionBackFromTheBinAndFromErasureAndSaysSo) {
  const std::string bytes = exported();
  const std::string session = id();
  ask::put_in_bin(app, session);
  rig.pump();
  give(rig, "a.json", bytes);
  EXPECT_EQ(app.shelf().cards.size(), 1u);
  EXPECT_TRUE(app.shelf().binned.empty());
  EXPECT_NE(line(rig).find(say("import.restored", {"1"})), std::string::npos);
  ask::put_in_bin(app, session);
  ask::erase(app, session);
  rig.pump();
  rig.restart();
  EXPECT_TRUE(rig->shelf().cards.empty());
  give(rig, "a.json", bytes);
  EXPECT_NE(line(rig).find(say("import.restored", {"1"})), std::string::npos);
  give(rig, "a.json", bytes);
  EXPECT_EQ(line(rig).find(say("import.restored", {"1"})), std::string::npos) << "only once";
}

TEST_F(Files, ADamagedFileIsRefusedAsAWholeWithItsSentence) {
  const std::string bytes = exported();
  const Contents before = rig.store.kept;
  Rig fresh;
  const Contents nothing = fresh.store.kept;
  for (std::size_t length = 0; length < bytes.size(); length += 97) {
    give(fresh, "cut.json", bytes.substr(0, length));
    ASSERT_EQ(fresh.notice(), "import.report") << length;
    ASSERT_TRUE(fresh->notice()->is_error);
    ASSERT_EQ(line(fresh).substr(0, 26), "cut.json was not imported.") << line(fresh);
  }
  EXPECT_EQ(fresh.store.kept, nothing);
  std::string flipped = bytes;
  flipped[bytes.size() / 2] = static_cast<char>(flipped[bytes.size() / 2] ^ 1);
  give(rig, "flipped.json", flipped);
  EXPECT_EQ(rig.store.kept, before);
}

TEST_F(Files, AFileThatIsTooBigIsRefusedBeforeItIsRead) {
  ask::import_file(*rig);
  const std::string piece(1024 * 1024, ' ');
  app.on_file("big.json", piece, false);
  app.on_file("big.json", piece, false);
  EXPECT_FALSE(app.notice() && app.notice()->is_error);
  app.on_file("big.json", piece, false);
  EXPECT_NE(line(rig).find("2097152"), std::string::npos);
  app.on_file("big.json", piece, true);
  EXPECT_EQ(app.shelf().cards.size(), 1u);
}

TEST_F(Files, AKindOfALaterVersionSurvivesImportEditAndExport) {
  auto file = read_session(exported());
  ASSERT_TRUE(file.ok());
  const std::string text =
      R"({"angle":45,"id":"fa7erc0de1.1","kind":"blade","seq":900,"t":1790000000000,"tz":0})";
  const auto future = decode_entry_strict(text);
  ASSERT_TRUE(future.ok());
  file.value().entries.push_back(*future);
  file.value().extra = R"({"colour":"red"})";
  give(rig, "future.json", write_session(file.value()));
  EXPECT_NE(line(rig).find("of a kind unknown here 1"), std::string::npos);
  rig.restart();
  rig.weigh("portions", "10");
  const std::string out = exported();
  EXPECT_NE(out.find(R"("angle":45)"), std::string::npos);
  EXPECT_NE(out.find(R"("colour":"red")"), std::string::npos);
  EXPECT_TRUE(read_session(out).ok());
}

TEST_F(Files, AStrippedCopyNeverTakesNamesAwayAndStaysStrippedAlone) {
  const std::string stripped = exported(false), whole = exported();
  give(rig, "stripped.json", stripped);
  EXPECT_TRUE(app.session()->left_out.empty());
  Rig other;
  give(other, "stripped.json", stripped);
  ask::open(*other, id());
  other.pump();
  EXPECT_FALSE(other->session()->left_out.empty());
  other.restart();
  EXPECT_FALSE(other->session()->left_out.empty());
  give(other, "whole.json", whole);
  EXPECT_TRUE(other->session()->left_out.empty());
}

TEST_F(Files, ABackupHoldsEverySessionAndComesInPieces) {
  ask::load_sample(app);
  rig.pump();
  const std::size_t sessions = app.shelf().cards.size();
  ask::export_backup(app);
  rig.pump();
  const FakeHost::File backup = rig.host.offered.back();
  EXPECT_EQ(backup.name, "tallyblock-backup-2026-09-21.jsonl");
  for (const std::size_t piece : {std::size_t{1000}, std::size_t{5000}, std::string::npos}) {
    Rig fresh;
    give(fresh, backup.name, backup.bytes, piece);
    EXPECT_EQ(fresh->shelf().cards.size(), sessions) << piece;
    EXPECT_EQ(fresh.store.kept[Area::entries], rig.store.kept[Area::entries]) << piece;
    EXPECT_EQ(fresh->notice()->key, "import.report");
    EXPECT_FALSE(fresh->notice()->is_error) << line(fresh);
  }
}

TEST_F(Files, ADamagedLineOfABackupIsNamedAndTheOthersComeIn) {
  ask::load_sample(app);
  rig.pump();
  ask::export_backup(app);
  rig.pump();
  std::string bytes = rig.host.offered.back().bytes;
  const std::size_t second = bytes.find('\n', bytes.find('\n') + 1);
  bytes[second + 40] = static_cast<char>(bytes[second + 40] ^ 1);
  Rig fresh;
  give(fresh, "backup.jsonl", bytes);
  EXPECT_EQ(fresh->shelf().cards.size(), app.shelf().cards.size() - 1);
  EXPECT_TRUE(fresh->notice()->is_error);
  EXPECT_NE(line(fresh).find("backup.jsonl was not imported."), std::string::npos) << line(fresh);
}

TEST_F(Files, SeveralFilesOfOnePickAreCountedTogether) {
  ask::import_file(*rig);
  for (const SessionFile& file : sample_sessions()) {
    app.on_file(sample_file_name(file), write_session(file), true);
  }
  app.on_file("photo.jpg", "\xff\xd8\xff", true);
  rig.pump();
  EXPECT_EQ(app.shelf().cards.size(), 5u);
  EXPECT_NE(line(rig).find("4 sessions imported"), std::string::npos) << line(rig);
  EXPECT_NE(line(rig).find("photo.jpg was not imported."), std::string::npos) << line(rig);
}

TEST_F(Files, ExportWorksFromMemoryWhileSavingFails) {
  rig.store.set_fault({1, StoreStatus::quota, true, false});
  rig.weigh("portions", "77");
  EXPECT_EQ(save_state(app), SaveState::failed);
  const auto file = read_session(exported());
  ASSERT_TRUE(file.ok());
  EXPECT_EQ(file->entries.size(), app.session()->set.size());
  ask::export_backup(app);
  rig.pump();
  EXPECT_NE(rig.host.offered.back().bytes.find("77 g"), std::string::npos);
}

TEST_F(Files, ASessionLeftBehindUnsavedIsStillExportedWhole) {
  const std::string first = id();
  rig.store.set_fault({1, StoreStatus::quota, true, false});
  rig.weigh("portions", "77");
  ask::new_session(app);
  rig.pump();
  rig.store.set_fault({});
  // The store answers reads again, but the entry still waits to be saved.
  ask::export_session(app, first, true);
  rig.pump();
  EXPECT_NE(rig.host.offered.back().bytes.find("77 g"), std::string::npos);
}

// ---- the sample

std::vector<SessionFile> both_parts() {
  std::vector<SessionFile> files = sample_sessions();
  for (SessionFile& file : sample_log()) files.push_back(std::move(file));
  return files;
}

TEST(Sample, EveryEntryReadsBackStrictlyAndIsMarkedAsInvented) {
  const auto sessions = both_parts();
  ASSERT_GE(sessions.size(), 9u);
  for (const SessionFile& file : sessions) {
    const auto back = read_session(write_session(file));
    ASSERT_TRUE(back.ok()) << sample_file_name(file) << show::problem(back.problem(), {});
    EXPECT_EQ(write_session(*back), write_session(file));
    EntrySet set;
    for (const Entry& entry : file.entries) EXPECT_TRUE(set.insert(entry));
    const Figures figures = figures_of(set);
    EXPECT_EQ(figures.settings.all.at("sample"), "invented");
    EXPECT_FALSE(figures.notes.empty());
    for (const Doubt& doubt : figures.doubts) {
      ADD_FAILURE() << sample_file_name(file) << ": " << doubt_words(figures, {}, doubt);
    }
    ASSERT_TRUE(figures.yield && figures.yield->cost_per_primary) << sample_file_name(file);
    ASSERT_FALSE(figures.targets.empty());
    EXPECT_TRUE(figures.make_or_buy) << sample_file_name(file);
  }
}

TEST(Sample, IsAsLargeAsItIsSaidToBe) {
  const auto sessions = both_parts();
  ASSERT_EQ(sessions.size(), std::size(kSampleSizes));
  for (std::size_t n = 0; n < sessions.size(); ++n) {
    EXPECT_EQ(sessions[n].session, kSampleSizes[n].session);
    EXPECT_EQ(sessions[n].entries.size(), kSampleSizes[n].entries);
  }
}

TEST(Sample, TheDemoDataFilesAreTheSample) {
  const std::string folder = std::string(TALLYBLOCK_SOURCE_DIR) + "/demo-data/";
  for (const SessionFile& file : both_parts()) {
    const std::string path = folder + sample_file_name(file);
    if (std::getenv("TALLYBLOCK_WRITE_DEMO_DATA") != nullptr) {
      std::ofstream(path, std::ios::binary) << write_session(file);
    }
    std::ostringstream bytes;
    bytes << std::ifstream(path, std::ios::binary).rdbuf();
    EXPECT_EQ(bytes.str(), write_session(file))
        << path << ": run once with TALLYBLOCK_WRITE_DEMO_DATA=1 after the sample changed";
  }
}

}  // namespace
}  // namespace tallyblock::test
