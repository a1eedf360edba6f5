#include "words.h"

#include <algorithm>
#include <deque>
#include <span>
#include <utility>

#include "core/base/sorted.h"
#include "table.h"

namespace tallyblock {
namespace {

using Catalogue = std::vector<Word>;

// The texts themselves, which the words of the catalogue look into, and the words by key.
struct Words {
  std::deque<std::string> texts;
  Catalogue all;
  std::string region;
};

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at)) {
    text.replace(at, from.size(), to);
    at += to.size();
  }
}

void spell(Words& known) {
  const std::string key = "spelling." + known.region;
  const auto pairs = std::ranges::find(known.all, key, &Word::key);
  if (pairs == known.all.end()) return;
  for (Word& word : known.all) {
    if (word.key.starts_with("spelling.")) continue;
    std::string text(word.text);
    for (std::string_view left = pairs->text; !left.empty();) {
      const std::string_view pair = left.substr(0, left.find(' '));
      left.remove_prefix(std::min(pair.size() + 1, left.size()));
      const std::size_t middle = pair.find('=');
      replace_all(text, pair.substr(0, middle), pair.substr(middle + 1));
    }
    if (text != word.text) word.text = known.texts.emplace_back(std::move(text));
  }
}

void add(Words& known, std::string packed) {
  known.texts.push_back(std::move(packed));
  std::string_view left = known.texts.back();
  const auto next = [&left] {
    const std::string_view text = left.substr(0, left.find('\n'));
    left.remove_prefix(std::min(text.size() + 1, left.size()));
    return text;
  };
  while (!left.empty()) {
    const std::string_view key = next();
    known.all.push_back({key, next()});
  }
  heap_sort(known.all, [](const Word& a, const Word& b) { return a.key < b.key; });
  if (!known.region.empty()) spell(known);
}

Words at_the_start() {
  Words known;
#ifndef TALLYBLOCK_WORDS_APART
  for (const AppPart part : kParts) add(known, packed_words(part));
#endif
  return known;
}

Words& words() {
  static Words known = at_the_start();
  return known;
}

const Catalogue& catalogue() { return words().all; }

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

// By name of the rule: "zero-one" as in French, "one-few" as in Czech. For a language that counts in
// another way one line more.
std::string_view form_in(std::string_view rule, double count) {
  if (count == 1.0 || (count == 0.0 && rule == "zero-one")) return "#one";
  if (count >= 2.0 && count <= 4.0 && rule == "one-few") return "#few";
  return {};
}

}  // namespace

std::string say(std::string_view key, std::initializer_list<std::string_view> args) {
  const Word* word = find(key);
  return word == nullptr ? std::string(key) : filled(word->text, {args.begin(), args.size()}, {});
}

std::string say(std::string_view key) {
  return say(key, std::initializer_list<std::string_view>{});
}

std::string say(std::string_view key, const std::vector<std::string>& args,
                std::string_view where) {
  const Word* word = find(key);
  const std::vector<std::string_view> views(args.begin(), args.end());
  return word == nullptr ? std::string(key) : filled(word->text, views, where);
}

std::string form_of(std::string_view key, double count) {
  const Word* rule = find("plural");
  std::string form(key);
  form += form_in(rule == nullptr ? std::string_view() : rule->text, count);
  return find(form) == nullptr ? std::string(key) : form;
}

void forget_words() {
  Words none;
  none.region = words().region;
  words() = std::move(none);
}

void add_words(std::string packed) { add(words(), std::move(packed)); }

void spell_as(std::string_view region) {
  words().region = region;
  spell(words());
}

bool has_words(std::string_view key) { return find(key) != nullptr; }

std::vector<std::string_view> word_keys() {
  std::vector<std::string_view> keys;
  for (const Word& word : catalogue()) keys.push_back(word.key);
  return keys;
}

}  // namespace tallyblock
