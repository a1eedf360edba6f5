#include "defaults.h"

#include "web/words/words.h"

namespace tallyblock {
namespace {

// Region and currency, five letters each and a space.
constexpr std::string_view kCurrencyOf =
    "AEAED ARARS AUAUD BRBRL CACAD CHCHF CLCLP CNCNY COCOP CZCZK DKDKK EGEGP GBGBP HKHKD HUHUF "
    "IDIDR ILILS ININR ISISK JPJPY KEKES KRKRW LICHF LRLRD MAMAD MMMMK MXMXN MYMYR NGNGN NONOK "
    "NZNZD PEPEN PHPHP PLPLN RORON SASAR SESEK SGSGD THTHB TRTRY TWTWD UAUAH USUSD VNVND ZAZAR ";
constexpr std::size_t kEach = 6;

std::string currency_of(std::string_view region, std::string_view otherwise) {
  for (std::size_t at = 0; at < kCurrencyOf.size(); at += kEach) {
    if (kCurrencyOf.substr(at, 2) == region) return std::string(kCurrencyOf.substr(at + 2, 3));
  }
  return std::string(otherwise);
}

}  // namespace

AppSettings settings_for(const Locale& locale) {
  AppSettings settings;
  settings.currency = currency_of(locale.region, settings.currency);
  if (locale.region == "US" || locale.region == "LR" || locale.region == "MM") {
    settings.unit = "lb-oz";
    settings.price_unit = "lb";
    settings.division = "0.1 oz";
  }
  if (locale.decimal_comma) settings.decimal_mark = ",";
  if (locale.twelve_hours) settings.clock = "12";
  if (locale.month_first) settings.date = "month-first";
  return settings;
}

std::string default_name(const DefaultPile& pile) { return say("pile." + std::string(pile.key)); }

std::string set_name(const PileSet& set, const DefaultPile& pile) {
  return say("set." + std::string(set.key) + "." + std::string(pile.key));
}

body::Pile made_of(const DefaultPile& pile, const std::string& key, const std::string& step) {
  return {key, step, default_name(pile), pile.role, std::string(pile.use)};
}

}  // namespace tallyblock
