// tallyblock_replay FILE: everything the core derives from a session file, as one line of JSON.
// tallyblock_replay FILE... [OPTION...]: the same of several session files, or of the sessions of a backup,
// with the log of them. Files of one session are its parts.
//
//   --portions N --of WEIGHT   what to order from each line: so many raw portions of such a weight
//   --confidence SHARE         of the order, from 0.5 on and below 1; 0.9 if not said
//   --piece WEIGHT             of a piece to be bought; the line's usual one if not said
//   --case N                   pieces in a case; 1 if not said
//
// Standard output holds the report and nothing else (keys: core/report/REPORT.md). A file that cannot be
// read is told in one sentence with its catalogue key on standard error; the exit code is then 1,
// and 2 if the command itself is wrong. The size is looked at before anything is read.
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/entries/codec.h"
#include "core/report/log_report.h"
#include "core/report/report.h"
#include "core/session/session.h"

namespace {

using namespace tallyblock;

constexpr std::uintmax_t kMaxBackupBytes = std::uintmax_t{512} * 1024 * 1024;
constexpr std::size_t kFirstBytes = 4096;

struct Command {
  std::vector<std::string> files;
  std::map<std::string, std::string, std::less<>> options;
  std::optional<LogOrderAsked> asked;
};

struct Session {
  EntrySet set;
  std::vector<std::string> left_out;
};
// By id, and whether it is a log: more than one file, or a backup.
struct Everything {
  std::map<std::string, Session> sessions;
  bool is_log = false;
};

int refuse(const Problem& problem) {
  std::string details;
  for (const Arg& arg : problem.args) details += " " + text_of(arg);
  const std::string where = text_of(problem.where);
  std::fprintf(stderr, "The session file cannot be used: %s at %s%s.\n",
               std::string(key_of(problem.code)).c_str(),
               where.empty() ? "the file" : where.c_str(), details.c_str());
  return 1;
}

int misused(const std::string& why) {
  std::fprintf(stderr, "%s Use: tallyblock_replay FILE... (options: replay_main.cpp)\n",
               why.c_str());
  return 2;
}

std::optional<std::size_t> whole_number(const std::string& text) {
  const auto number = parse_number(text, "number");
  const bool fits = number && number->value >= 1.0 && number->value <= 1e6 &&
                    number->value == static_cast<double>(static_cast<long>(number->value));
  return fits ? std::optional(static_cast<std::size_t>(number->value)) : std::nullopt;
}

// What is wrong with the options, or nothing.
std::optional<std::string> take_options(Command& command) {
  if (command.options.empty()) return std::nullopt;
  LogOrderAsked asked;
  for (const auto& [name, value] : command.options) {
    const auto number = parse_number(value, name);
    const auto mass = parse_mass(value, name);
    const auto whole = whole_number(value);
    if (name == "--portions" && whole) {
      asked.needed.portions = *whole;
    } else if (name == "--of" && mass) {
      asked.needed.portion = mass->mass;
    } else if (name == "--confidence" && number && number->value >= 0.5 && number->value < 1.0) {
      asked.confidence = number->value;
    } else if (name == "--piece" && mass) {
      asked.piece = mass->mass;
    } else if (name == "--case" && whole) {
      asked.case_of = *whole;
    } else {
      return "The option " + name + " " + value + " is not known.";
    }
  }
  if (asked.needed.portions == 0 || !(asked.needed.portion > Mass())) {
    return std::string("An order needs --portions and --of.");
  }
  command.asked = asked;
  return std::nullopt;
}

void add(Everything& all, const SessionFile& file) {
  Session& session = all.sessions[file.session];
  for (const Entry& entry : file.entries) session.set.insert(entry);
  session.left_out.insert(session.left_out.end(), file.left_out.begin(), file.left_out.end());
}

// 0, or the exit code; what is wrong is told then.
int add_backup(const std::string& bytes, Everything& all) {
  all.is_log = true;
  BackupReader reader;
  for (auto read : {reader.feed(bytes), reader.finish()}) {
    for (const Result<SessionFile>& file : read) {
      if (!file) return refuse(file.problem());
      add(all, *file);
    }
  }
  return 0;
}

int add_file(const std::string& path, Everything& all) {
  std::error_code failed;
  const std::uintmax_t size = std::filesystem::file_size(path, failed);
  if (failed) {
    std::fprintf(stderr, "The file %s cannot be opened.\n", path.c_str());
    return 1;
  }
  std::ifstream in(path, std::ios::binary);
  std::string first(kFirstBytes, '\0');
  in.read(first.data(), static_cast<std::streamsize>(first.size()));
  first.resize(static_cast<std::size_t>(in.gcount()));
  const bool is_backup = kind_of_file(first) == FileKind::backup;
  if (size > (is_backup ? kMaxBackupBytes : kMaxSessionBytes)) {
    return refuse({Code::file_too_big, "file", {Arg::count(size)}});
  }
  in.clear();
  in.seekg(0);
  const std::string bytes{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  if (is_backup) return add_backup(bytes, all);
  const Result<SessionFile> file = read_session(bytes);
  if (!file) return refuse(file.problem());
  add(all, *file);
  return 0;
}

void print_log(const Everything& all, const std::optional<LogOrderAsked>& asked) {
  std::vector<LogPiece> pieces;
  std::string reports;
  for (const auto& [id, session] : all.sessions) {
    const Figures figures = figures_of(session.set, session.left_out);
    pieces.push_back(log_piece_of(id, session.set, figures));
    reports += (reports.empty() ? "" : ",") + std::string("{\"session\":\"") + id +
               "\",\"report\":" + report_json(figures, cutting_of(session.set, figures)) + "}";
  }
  std::printf("{\"sessions\":[%s],\"log\":%s}\n", reports.c_str(),
              log_json(log_lines(std::move(pieces)), asked).c_str());
}

int replay(const Command& command) {
  Everything all;
  all.is_log = command.files.size() > 1;
  for (const std::string& path : command.files) {
    if (const int code = add_file(path, all); code != 0) return code;
  }
  if (all.is_log) {
    print_log(all, command.asked);
    return 0;
  }
  if (command.asked) return misused("One session alone has no log to order from.");
  for (const auto& [id, session] : all.sessions) {
    const Figures figures = figures_of(session.set, session.left_out);
    std::printf("%s\n", report_json(figures, cutting_of(session.set, figures)).c_str());
  }
  return 0;
}

}  // namespace

int main(int count, char** words) {
  Command command;
  for (int i = 1; i < count; ++i) {
    const std::string word = words[i];
    if (!word.starts_with("--")) {
      command.files.push_back(word);
    } else if (i + 1 < count) {
      command.options[word] = words[++i];
    } else {
      return misused("The option " + word + " needs a value.");
    }
  }
  if (command.files.empty()) return misused("No file is named.");
  if (const auto wrong = take_options(command)) return misused(*wrong);
  return replay(command);
}
