#include "words.h"

#include <algorithm>
#include <array>
#include <span>

#include "core/sorted.h"
#include "en/about.h"
#include "en/app.h"
#include "en/bin.h"
#include "en/cut.h"
#include "en/details.h"
#include "en/explain.h"
#include "en/problems.h"
#include "en/result.h"
#include "en/sessions.h"
#include "en/settings.h"
#include "en/share.h"
#include "en/show.h"
#include "en/weigh.h"

namespace tallyblock {
namespace {

// All words in one text, key and text each with a zero behind: no table of addresses is downloaded.
template <std::size_t... N>
consteval std::size_t packed_size(const Word (&... tables)[N]) {
  std::size_t size = 0;
  const auto add = [&](std::span<const Word> words) {
    for (const Word& word : words) size += word.key.size() + word.text.size() + 2;
  };
  (add(tables), ...);
  return size;
}

template <std::size_t Size, std::size_t... N>
consteval std::array<char, Size> packed(const Word (&... tables)[N]) {
  std::array<char, Size> text = {};
  std::size_t at = 0;
  const auto put = [&](std::string_view words) {
    for (const char c : words) text[at++] = c;
    text[at++] = '\0';
  };
  const auto add = [&](std::span<const Word> words) {
    for (const Word& word : words) {
      put(word.key);
      put(word.text);
    }
  };
  (add(tables), ...);
  return text;
}

#define TALLYBLOCK_TABLES                                                                    \
  kAboutWords, kAppWords, kBinWords, kCutWords, kDetailsWords, kExplainWords, kProblemWords, \
      kResultWords, kSessionsWords, kSettingsWords, kShareWords, kShowWords, kWeighWords
constexpr auto kPacked = packed<packed_size(TALLYBLOCK_TABLES)>(TALLYBLOCK_TABLES);
#undef TALLYBLOCK_TABLES

using Catalogue = std::vector<Word>;

Catalogue gathered() {
  Catalogue all;
  std::string_view left(kPacked.data(), kPacked.size());
  const auto next = [&left] {
    const std::string_view text = left.substr(0, left.find('\0'));
    left.remove_prefix(text.size() + 1);
    return text;
  };
  while (!left.empty()) {
    const std::string_view key = next();
    all.push_back({key, next()});
  }
  heap_sort(all, [](const Word& a, const Word& b) { return a.key < b.key; });
  return all;
}

const Catalogue& catalogue() {
  static const Catalogue all = gathered();
  return all;
}

const Word* find(std::string_view key) {
  const auto found =
      std::lower_bound(catalogue().begin(), catalogue().end(), key,
                       [](const Word& word, std::string_view k) { return word.key < k; });
  return found != catalogue().end() && found->key == key ? &*found : nullptr;
}

using Arguments = std::span<const std::string_view>;

// The argument that "{0}", "{1}", ..., "{where}" at the start of `text` stands for, and its length.
struct Placeholder {
  std::size_t length = 0;  // 0: no placeholder
  std::string_view argument;
};
Placeholder placeholder(std::string_view text, Arguments args, std::string_view where) {
  constexpr std::string_view place = "{where}";
  if (text.substr(0, place.size()) == place) return {place.size(), where};
  if (text.size() < 3 || text[0] != '{' || text[2] != '}' || text[1] < '0' || text[1] > '9')
    return {};
  const auto at = static_cast<std::size_t>(text[1] - '0');
  return {3, at < args.size() ? args[at] : std::string_view()};
}

std::string filled(std::string_view text, Arguments args, std::string_view where) {
  std::string out;
  out.reserve(text.size() + 32);
  while (!text.empty()) {
    const Placeholder found = placeholder(text, args, where);
    if (found.length == 0) {
      out += text.front();
      text.remove_prefix(1);
    } else {
      out += found.argument;
      text.remove_prefix(found.length);
    }
  }
  return out;
}

}  // namespace

std::string say(std::string_view key, std::initializer_list<std::string_view> args) {
  const Word* word = find(key);
  return word == nullptr ? std::string(key) : filled(word->text, {args.begin(), args.size()}, {});
}

std::string say(std::string_view key) {
  return say(key, std::initializer_list<std::string_view>{});
}

std::string say(std::string_view key, const std::vector<std::string>& args) {
  const Word* word = find(key);
  const std::vector<std::string_view> views(args.begin(), args.end());
  return word == nullptr ? std::string(key) : filled(word->text, views, {});
}

std::string say(const Problem& problem) {
  const Word* word = find(key_of(problem.code));
  if (word == nullptr) return std::string(key_of(problem.code));
  const Word* place = find("where." + problem.where);
  const std::vector<std::string_view> views(problem.args.begin(), problem.args.end());
  return filled(word->text, views, place == nullptr ? problem.where : place->text);
}

bool has_words(std::string_view key) { return find(key) != nullptr; }

std::vector<std::string_view> word_keys() {
  std::vector<std::string_view> keys;
  for (const Word& word : catalogue()) keys.push_back(word.key);
  return keys;
}

}  // namespace tallyblock
