// tallyblock_replay FILE: everything the core derives from a session file, as one line of JSON.
//
// Standard output holds the report and nothing else (keys: core/report/REPORT.md). A file that cannot be
// read is told in one sentence with its catalogue key on standard error; the exit code is then 1,
// and 2 if the command itself is wrong. The size is looked at before anything is read.
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "core/entries/codec.h"
#include "core/report/report.h"
#include "core/session/session.h"

namespace {

using namespace tallyblock;

int refuse(const Problem& problem) {
  std::string details;
  for (const Arg& arg : problem.args) details += " " + text_of(arg);
  const std::string where = text_of(problem.where);
  std::fprintf(stderr, "The session file cannot be used: %s at %s%s.\n",
               std::string(key_of(problem.code)).c_str(),
               where.empty() ? "the file" : where.c_str(), details.c_str());
  return 1;
}

int replay(const char* path) {
  std::error_code failed;
  const std::uintmax_t size = std::filesystem::file_size(path, failed);
  if (failed) {
    std::fprintf(stderr, "The file %s cannot be opened.\n", path);
    return 1;
  }
  if (size > kMaxSessionBytes) return refuse({Code::file_too_big, "file", {Arg::count(size)}});
  std::ifstream in(path, std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  const Result<SessionFile> file = read_session(bytes);
  if (!file) return refuse(file.problem());
  EntrySet set;
  for (const Entry& entry : file->entries) set.insert(entry);
  const Figures figures = figures_of(set, file->left_out);
  std::printf("%s\n", report_json(figures, cutting_of(set, figures)).c_str());
  return 0;
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) {
    std::fprintf(stderr, "Use: tallyblock_replay FILE\n");
    return 2;
  }
  return replay(words[1]);
}
