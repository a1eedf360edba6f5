// The words of a language, one text for each part of the program. In the browser they are files
// (words_files.cpp), elsewhere within the program.
#include <array>
#include <span>

#include "web/figures/words_en_explain.h"
#include "web/figures/words_en_show.h"
#include "web/screens/cut/words_en_cut.h"
#include "web/screens/details/words_en_details.h"
#include "web/screens/log/words_en_log.h"
#include "web/screens/result/words_en_result.h"
#include "web/screens/sessions/words_en_bin.h"
#include "web/screens/sessions/words_en_sessions.h"
#include "web/screens/settings/words_en_about.h"
#include "web/screens/settings/words_en_settings.h"
#include "web/screens/share/words_en_share.h"
#include "web/screens/weigh/words_en_weigh.h"
#include "web/words/en/acts.h"
#include "web/words/en/app.h"
#include "web/words/en/problems.h"
#include "words.h"

namespace tallyblock {
namespace {

// All words in one text, key and text each on a line.
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
    text[at++] = '\n';
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

template <std::size_t Size>
std::string text_of(const std::array<char, Size>& text) {
  return std::string(text.data(), text.size());
}

#define TALLYBLOCK_FIRST kAppWords, kSessionsWords, kShowWords
#define TALLYBLOCK_BOARD \
  kActsWords, kCutWords, kExplainWords, kProblemWords, kResultWords, kWeighWords
#define TALLYBLOCK_OFFICE kAboutWords, kBinWords, kDetailsWords, kSettingsWords, kShareWords
#define TALLYBLOCK_LOG kLogWords
constexpr auto kFirst = packed<packed_size(TALLYBLOCK_FIRST)>(TALLYBLOCK_FIRST);
constexpr auto kBoard = packed<packed_size(TALLYBLOCK_BOARD)>(TALLYBLOCK_BOARD);
constexpr auto kOffice = packed<packed_size(TALLYBLOCK_OFFICE)>(TALLYBLOCK_OFFICE);
constexpr auto kLog = packed<packed_size(TALLYBLOCK_LOG)>(TALLYBLOCK_LOG);
#undef TALLYBLOCK_FIRST
#undef TALLYBLOCK_BOARD
#undef TALLYBLOCK_OFFICE
#undef TALLYBLOCK_LOG

}  // namespace

std::string packed_words(AppPart part) {
  switch (part) {
    case AppPart::first: return text_of(kFirst);
    case AppPart::board: return text_of(kBoard);
    case AppPart::office: return text_of(kOffice);
    case AppPart::log: return text_of(kLog);
  }
  return {};
}

}  // namespace tallyblock
