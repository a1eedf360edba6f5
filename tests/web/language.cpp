#include "language.h"

#include <algorithm>
#include <array>
#include <functional>

#include "web/app/shelf/sample.h"

namespace tallyblock::test {
namespace {

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

std::string marked(char c) {
  constexpr std::string_view plain = "aeiouAEIOU";
  constexpr std::array<std::string_view, 10> with_marks = {"á", "é", "í", "ó", "ú",
                                                           "Á", "É", "Í", "Ó", "Ú"};
  const std::size_t at = plain.find(c);
  return at == std::string_view::npos ? std::string(1, c) : std::string(with_marks[at]);
}

// A run of words without figures to be filled in: its words with marks, each a third longer.
std::string run_of(std::string_view text) {
  if (std::ranges::none_of(text, is_letter)) return std::string(text);
  const std::size_t from = text.find_first_not_of(" ,;:."), end = text.find_last_not_of(' ') + 1;
  std::string out(text.substr(0, from));
  out += '[';
  std::size_t letters = 0, owed = 0;
  for (std::size_t i = from; i < end; ++i) {
    out += marked(text[i]);
    letters += is_letter(text[i]) ? 1U : 0U;
    const bool word_ends = is_letter(text[i]) && (i + 1 == end || !is_letter(text[i + 1]));
    for (; word_ends && owed < (letters + 1) / 3; ++owed) out += '~';
  }
  out += ']';
  return out.append(text.substr(end));
}

// The length of "{0}" or "{where}" at the start of `text`, else 0.
std::size_t placeholder(std::string_view text) {
  if (text.starts_with("{where}")) return 7;
  return text.size() > 2 && text[0] == '{' && text[2] == '}' ? 3 : 0;
}

}  // namespace

std::string InventedLanguage::invented(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    std::size_t run = 0;
    while (run < text.size() && placeholder(text.substr(run)) == 0) ++run;
    out += run_of(text.substr(0, run));
    text.remove_prefix(run);
    const std::size_t given = placeholder(text);
    out += text.substr(0, given);
    text.remove_prefix(given);
  }
  return out;
}

std::string InventedLanguage::all_invented(std::string_view packed) {
  const std::string all(packed);
  std::string out;
  while (!packed.empty()) {
    const auto line = [&packed] {
      const std::string_view text = packed.substr(0, packed.find('\n'));
      packed.remove_prefix(text.size() + 1);
      return text;
    };
    const std::string_view key = line(), text = line();
    out.append(key).append("\n").append(invented(text)).append("\n");
    // What is said of one in another way is, of two, three and four, too.
    if (all.find("\n" + std::string(key) + "#one\n") == std::string::npos) continue;
    out.append(key).append("#few\n").append(invented(text)).append("\n");
  }
  return out;
}

void add_names(const Figures& f, std::vector<std::string>& names) {
  names.insert(names.end(), {f.piece, f.species, f.cut, f.specification, f.settings.currency});
  for (const auto& [field, value] : f.lot) names.push_back(value);
  for (const TubFigures& tub : f.tubs) names.push_back(tub.name);
  for (const PersonLine& person : f.people) names.push_back(person.name);
  for (const NoteLine& note : f.notes) names.push_back(note.text);
  for (const PileFigures& pile : f.piles) names.push_back(pile.name);
}

std::vector<std::string> sample_names() {
  std::vector<std::string> names;
  std::vector<SessionFile> files = sample_sessions();
  for (SessionFile& file : sample_log()) files.push_back(std::move(file));
  for (const SessionFile& file : files) {
    EntrySet set;
    for (const Entry& entry : file.entries) set.insert(entry);
    add_names(figures_of(set), names);
  }
  return names;
}

std::string english_in(std::string text, std::vector<std::string> names) {
  std::erase(names, "");
  std::ranges::sort(names, std::greater(), &std::string::size);  // the longest first
  for (const std::string& name : names) {
    for (std::size_t at; (at = text.find(name)) != std::string::npos;)
      text.replace(at, name.size(), "_");
  }
  constexpr std::array<std::string_view, 13> units = {"g",  "kg", "oz", "lb", "lbs", "mm", "cm",
                                                      "in", "m",  "C",  "F",  "°C",  "°F"};
  constexpr std::array<std::string_view, 6> currencies = {"EUR", "USD", "GBP", "CHF", "CAD", "AUD"};
  std::string left, word;
  bool inside = false;
  text += ' ';
  for (const char c : text) {
    const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
    if (!inside && letter) {
      word += c;
      continue;
    }
    const bool unit = std::ranges::find(units, word) != units.end() ||
                      std::ranges::find(currencies, word) != currencies.end();
    if (!word.empty() && !unit) left += word + ' ';
    word.clear();
    inside = c == '[' || (inside && c != ']');
  }
  return left;
}

}  // namespace tallyblock::test
