// The second part of the sample: five invented veal loins of one line, so that a newcomer sees a log.
#include <iterator>

#include "sample_kitchen.h"

namespace tallyblock {
namespace {

using namespace sample;

constexpr std::int64_t kWeekMs = std::int64_t{7} * 24 * 60 * 60 * 1000;
constexpr const char* kLine = "samp1evea10000000005";

struct Loin {
  Setup setup;
  const char *whole, *price, *called[3];
  std::initializer_list<const char*> portions;
  const char *ends, *grind, *waste;
  std::int64_t minutes;
  bool by_another;  // who judged it
  const char* next;
};

constexpr Setup loin_setup(const char* file, const char* session, const char* writer, int week) {
  return {file,
          session,
          writer,
          1'785'916'800'000 + week * kWeekMs,
          "Veal loin",
          "veal",
          "loin, boneless",
          "g",
          "kg",
          "EUR",
          "1 g"};
}

const Loin kLoins[] = {
    {loin_setup("veal-loin-1", kLine, "samp1e0005", 0),
     "3240 g",
     "24.50",
     {"65 %", "10 %", "10 %"},
     {"152 g", "171 g", "160 g", "149 g", "168 g", "163 g", "155 g", "174 g", "158 g", "166 g",
      "151 g", "169 g"},
     "322 g",
     "418 g",
     "543 g",
     34,
     false,
     ""},
    {loin_setup("veal-loin-2", "samp1evea10000000006", "samp1e0006", 1),
     "3385 g",
     "24.50",
     {"62 %", "10 %", "12 %"},
     {"157 g", "164 g", "152 g", "168 g", "161 g", "155 g", "166 g", "159 g", "163 g", "170 g",
      "154 g", "160 g"},
     "348 g",
     "402 g",
     "689 g",
     31,
     true,
     ""},
    {loin_setup("veal-loin-3", "samp1evea10000000007", "samp1e0007", 2),
     "3150 g",
     "25.90",
     {"58 %", "11 %", "12 %"},
     {"158 g", "163 g", "155 g", "166 g", "160 g", "161 g", "157 g", "164 g", "153 g", "162 g",
      "159 g"},
     "372 g",
     "371 g",
     "625 g",
     30,
     true,
     "Take the chain off before the membrane: less went to waste that way."},
    {loin_setup("veal-loin-4", "samp1evea10000000008", "samp1e0008", 3),
     "3310 g",
     "25.90",
     {"60 %", "10 %", "11 %"},
     {"161 g", "158 g", "163 g", "160 g", "156 g", "164 g", "159 g", "162 g", "160 g", "157 g",
      "163 g", "161 g", "159 g"},
     "318 g",
     "356 g",
     "540 g",
     28,
     true,
     ""},
    {loin_setup("veal-loin-5", "samp1evea10000000009", "samp1e0009", 4),
     "3295 g",
     "25.20",
     {"62 %", "10 %", "11 %"},
     {"160 g", "162 g", "158 g", "161 g", "159 g", "163 g", "160 g", "157 g", "161 g", "160 g",
      "162 g", "159 g", "160 g"},
     "306 g",
     "349 g",
     "547 g",
     27,
     true,
     ""},
};

SessionFile cut(const Loin& loin) {
  Kitchen k(loin.setup);
  const EntryId ada = k.person("Ada (invented)");
  const EntryId ben = k.person("Ben (invented)");
  k.cutting(ada);
  if (loin.setup.session != std::string_view(kLine)) k.add(body::Line{kLine, false});
  k.piles({{"portions", "Portions", Role::primary, "", nullptr},
           {"second-cuts", "Ends and tail", Role::secondary, "", "14.00"},
           {"usable-trim", "Grind", Role::usable_trim, "grind", "8.00"},
           {"unusable-trim", "Chain fat and membrane", Role::unusable_trim, "waste", nullptr}});
  k.specification("Chain and membrane off, ends squared.");
  k.add(body::EyeCall{Role::primary, percent(loin.called[0])});
  k.add(body::EyeCall{Role::secondary, percent(loin.called[1])});
  k.add(body::EyeCall{Role::usable_trim, percent(loin.called[2])});
  k.incoming(Incoming::drained, loin.whole);
  k.price("piece", loin.price);
  k.price("ready-cut", "52.00");
  k.target("portions", "160 g");
  k.weigh("unusable-trim", loin.waste);
  k.each("portions", loin.portions);
  k.weigh("second-cuts", loin.ends);
  k.weigh("usable-trim", loin.grind);
  k.setting("wage", "18.00");
  k.labour(loin.minutes);
  if (loin.by_another) k.cutting(ben);
  k.quality("membrane", true);
  k.quality("gouges", true);
  k.quality("lean-on-waste", true);
  if (*loin.next != 0) k.add(body::Note{loin.next, std::nullopt, true});
  return k.done();
}

}  // namespace

std::vector<SessionFile> sample_log(std::string_view decimal_mark) {
  std::vector<SessionFile> files;
  for (const Loin& loin : kLoins) files.push_back(cut(loin));
  return with_mark(std::move(files), decimal_mark);
}

std::string sample_log_file_name(const SessionFile& file) {
  for (const Loin& loin : kLoins) {
    if (file.session == loin.setup.session) return std::string(loin.setup.file) + ".json";
  }
  return file.session + ".json";
}

}  // namespace tallyblock
