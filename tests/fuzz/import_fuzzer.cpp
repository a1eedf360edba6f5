// Fuzz target of the importer: any bytes are refused with a problem or give a session on which the
// promises of codec.h, entry_set.h and session.h hold.
//
//   fuzz_import_fuzzer FOLDER            libFuzzer: mutate, starting from the files of the folder
//   fuzz_import_fuzzer FILE...           replay single files
// Without libFuzzer: compile with -DREPLAY_MAIN and any compiler; takes files and folders.
//
// Mutations would die at the check of the file, so that the mutator writes the right check again, and
// each input is also tried with the right check put in.
#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <random>
#include <string>
#include <vector>

#include "core/cutting/cutting.h"
#include "core/entries/codec.h"
#include "core/entries/entry_set.h"
#include "core/entries/rescue.h"
#include "core/json/json_text.h"
#include "core/report/report.h"
#include "core/session/session.h"

namespace {

using namespace tallyblock;

void expect(bool holds, const char* promise) {
  if (holds) return;
  std::fprintf(stderr, "BROKEN PROMISE: %s\n", promise);
  std::abort();
}

std::string with_right_check(Json object) {
  object.remove("check");
  char check[9];
  std::snprintf(check, sizeof check, "%08x", static_cast<unsigned>(crc32(canonical_text(object))));
  object.set("check", Json::string(check));
  return canonical_text(object);
}

EntrySet set_of(const std::vector<Entry>& entries) {
  EntrySet set;
  for (const Entry& entry : entries) set.insert(entry);
  return set;
}

void check_text(const SessionFile& file) {
  const std::string written = write_session(file);
  if (written.size() > kMaxSessionBytes) return;
  const Result<SessionFile> again = read_session(written);
  expect(again.ok(), "what is written can be read");
  expect(write_session(*again) == written, "write, read, write gives the same bytes");
  for (const Entry& entry : file.entries) {
    const Result<Entry> stored = decode_entry_lenient(entry.text);
    expect(stored.ok() && stored->text == entry.text, "an entry reads back byte for byte");
  }
  const SessionFile stripped = without_names(file);
  expect(read_session(write_session(stripped)).ok(), "a file without names can be read");
}

void check_set(const SessionFile& file) {
  EntrySet set = set_of(file.entries);
  expect(set.conflicts().empty(), "a file names each id once");
  EntrySet twice = set;
  for (const Entry& entry : file.entries)
    expect(!twice.insert(entry), "importing again adds nothing");
  twice.merge(set);
  expect(twice == set, "union is idempotent");
  expect(set.next_seq() <= kMaxSeq, "there is a next place in the order");
  expect(set.missing().size() <= EntrySet::kMaxMissing, "gaps are listed up to a limit");
  const LiveView live(set);
  for (const Entry* entry : live.entries()) {
    expect(live.is_live(entry->id), "what is listed as live is live");
    (void)fact_key(*entry);
  }
}

std::string report_of(const std::vector<Entry>& entries, const SessionFile& file) {
  const EntrySet set = set_of(entries);
  const Figures figures = figures_of(set, file.left_out);
  return report_json(figures, cutting_of(set, figures));
}

void check_figures(const SessionFile& file) {
  const std::string report = report_of(file.entries, file);
  expect(parse_json(report, 64).ok(), "the report is JSON: no infinity, nothing that is no number");
  std::vector<Entry> reversed(file.entries.rbegin(), file.entries.rend());
  expect(report_of(reversed, file) == report, "figures do not depend on the order of arrival");
}

void check_session(std::string_view bytes) {
  const Result<SessionFile> file = read_session(bytes);
  if (!file) {
    expect(!file.problem().where.empty(), "a problem says where");
    expect(!text_problem(text_of(file.problem().where)), "a problem is shown as text");
    for (const Arg& arg : file.problem().args) {
      expect(!text_problem(text_of(arg)), "a problem is shown as text");
    }
    return;
  }
  check_text(*file);
  check_set(*file);
  check_figures(*file);
}

std::size_t count_of(std::string_view bytes, std::size_t piece) {
  BackupReader reader;
  std::size_t results = 0;
  for (std::size_t at = 0; at < bytes.size(); at += piece) {
    results += reader.feed(bytes.substr(at, piece)).size();
  }
  return results + reader.finish().size();
}

// What a rescue file gives, read in pieces of that size.
std::vector<std::string> rescued(std::string_view bytes, std::size_t piece) {
  RescueReader reader;
  std::vector<std::string> out;
  const auto take = [&](const std::vector<Result<SessionFile>>& results) {
    for (const Result<SessionFile>& result : results) {
      out.push_back(result ? write_session(*result) : text_of(result.problem().where));
      if (!result) continue;
      check_text(*result);
      check_set(*result);
    }
  };
  for (std::size_t at = 0; at < bytes.size(); at += piece) {
    take(reader.feed(bytes.substr(at, piece)));
  }
  take(reader.finish());
  out.push_back(std::to_string(reader.damaged()));
  return out;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  check_session(bytes);
  if (const Result<Json> object = parse_json(bytes, kMaxDepth);
      object && object->type == Json::Type::object) {
    check_session(with_right_check(*object));
  }
  if (kind_of_file(bytes) == FileKind::backup) {
    expect(count_of(bytes, 1) == count_of(bytes, 4096), "a backup reads alike in any pieces");
  }
  if (kind_of_file(bytes) == FileKind::rescue) {
    expect(rescued(bytes, 1) == rescued(bytes, 4096), "a rescue file reads alike in any pieces");
  }
  return 0;
}

#ifndef REPLAY_MAIN
extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t max_size);

namespace {

const char* const kTexts[] = {
    "1 g",         "0 g",     "-5 g",      "999 kg",     "5 lb 8 1/2 oz", "0,450 kg",
    "1/2 oz",      "main",    "waste",     "portions",   "grind",         "blue",
    "50 %",        "0",       "1000000",   "12 min",     "42 mm",         "imps",
    "piece",       "tub-now", "taken-off", "pile:waste", "total",         "per-mass",
    "ready-cut",   "kg",      "lb",        "EUR",        "unusable-trim", "primary",
    "usable-trim", "drained", "invoice",   "purge",      "cooking"};
const char* const kKinds[] = {"piece",    "setting",   "pile",       "step",   "incoming",
                              "reading",  "remainder", "checkpoint", "tub",    "move",
                              "transfer", "price",     "labour",     "target", "by-difference",
                              "eye-call", "cut",       "person",     "note",   "void"};

class Mutator {
 public:
  explicit Mutator(unsigned seed) : random_(seed) {}

  // One change in the structure: a value from elsewhere, a field gone, an entry twice or gone.
  void change(Json& file) {
    for (Json& member : file.children) {
      if (member.key == "entries" && !member.children.empty()) change_entries(member.children);
    }
  }

 private:
  std::size_t below(std::size_t limit) { return random_() % limit; }

  void change_entries(std::vector<Json>& entries) {
    Json& entry = entries[below(entries.size())];
    const Json other = entries[below(entries.size())];  // a copy: it may be `entry` itself
    switch (below(6)) {
      case 0: {
        Json copy = entry;
        copy.set("id", Json::string("0000000000." + std::to_string(1 + below(99))));
        entries.push_back(std::move(copy));
        break;
      }
      case 1:
        entries.erase(entries.begin() + static_cast<std::ptrdiff_t>(below(entries.size())));
        break;
      case 2: entry.set("kind", Json::string(kKinds[below(std::size(kKinds))])); break;
      case 3:
        if (!entry.children.empty()) entry.remove(entry.children[below(entry.children.size())].key);
        break;
      default: change_field(entry, other);
    }
  }
  void change_field(Json& entry, const Json& other) {
    if (entry.children.empty() || other.children.empty()) return;
    const std::string key = entry.children[below(entry.children.size())].key;
    switch (below(4)) {
      case 0: {
        const Json value = other.children[below(other.children.size())];
        entry.set(below(2) == 0 ? key : value.key, value);
        break;
      }
      case 1: entry.set(key, Json::number(static_cast<std::int64_t>(below(12)))); break;
      case 2:  // a name of another entry
        if (const Json* id = other.member("id")) {
          Json list = Json::array();
          list.children.push_back(*id);
          list.children.back().key.clear();
          entry.set(below(2) == 0 ? "replaces" : "covers", list);
          if (entry.member("target") && below(2) == 0) entry.set("target", *id);
        }
        break;
      default: entry.set(key, Json::string(kTexts[below(std::size(kTexts))]));
    }
  }

  std::mt19937 random_;
};

}  // namespace

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size,
                                               std::size_t max_size, unsigned seed) {
  std::string text(reinterpret_cast<const char*>(data), size);
  Result<Json> object = parse_json(text, kMaxDepth);
  const bool structural = object && object->type == Json::Type::object && seed % 4 != 0;
  if (structural) {
    Mutator mutator(seed);
    for (unsigned i = 0; i <= seed / 4 % 3; ++i) mutator.change(object.value());
  } else {
    size = LLVMFuzzerMutate(data, size, max_size);
    text.assign(reinterpret_cast<const char*>(data), size);
    object = parse_json(text, kMaxDepth);
    if (!object || object->type != Json::Type::object) return size;
  }
  const std::string sealed_text = with_right_check(object.value());
  if (sealed_text.size() > max_size) return size;
  std::copy(sealed_text.begin(), sealed_text.end(), reinterpret_cast<char*>(data));
  return sealed_text.size();
}

#else  // REPLAY_MAIN
#include <filesystem>
#include <fstream>
#include <iterator>

int main(int count, char** words) {
  namespace fs = std::filesystem;
  std::vector<fs::path> files;
  for (int i = 1; i < count; ++i) {
    if (fs::is_directory(words[i])) {
      for (const auto& entry : fs::recursive_directory_iterator(words[i])) {
        if (entry.is_regular_file()) files.push_back(entry.path());
      }
    } else {
      files.emplace_back(words[i]);
    }
  }
  std::sort(files.begin(), files.end());
  for (const fs::path& file : files) {
    std::ifstream in(file, std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
    std::fprintf(stderr, "%s\n", file.c_str());
    LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
  }
  std::printf("%zu passed, 0 failed\n", files.size());
  return files.empty() ? 1 : 0;
}
#endif
