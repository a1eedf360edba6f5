#include "sample.h"

#include <utility>

#include "sample_kitchen.h"

namespace tallyblock {
namespace {

using namespace sample;

constexpr Setup kBeef = {"beef-tenderloin",
                         "samp1ebeef0000000001",
                         "samp1e0001",
                         1'788'766'800'000,
                         "Beef tenderloin",
                         "beef",
                         "tenderloin",
                         "g",
                         "kg",
                         "EUR",
                         "1 g"};
constexpr Setup kPork = {"pork-loin",
                         "samp1ep0rk0000000002",
                         "samp1e0002",
                         1'788'854'700'000,
                         "Pork loin, bone in",
                         "pork",
                         "loin",
                         "kg",
                         "kg",
                         "EUR",
                         "5 g"};
constexpr Setup kChicken = {"chickens",
                            "samp1ech1ck000000003",
                            "samp1e0003",
                            1'789'372'200'000,
                            "Four chickens",
                            "chicken",
                            "whole bird",
                            "g",
                            "kg",
                            "EUR",
                            "1 g"};
constexpr Setup kFish = {"salmon-side",
                         "samp1es1de0000000004",
                         "samp1e0004",
                         1'789'477'800'000,
                         "Salmon side",
                         "salmon",
                         "side, skin on",
                         "lb-oz",
                         "lb",
                         "USD",
                         "1/8 oz"};

// Every portion by itself; one weight landed in the wrong pile, one was typed twice.
SessionFile beef() {
  Kitchen k(kBeef);
  const EntryId ada = k.person("Ada (invented)");
  k.cutting(ada);
  k.piles({{"portions", "Centre-cut steaks", Role::primary, "", nullptr},
           {"second-cuts", "Tail and head", Role::secondary, "", "22.00"},
           {"usable-trim", "Grind", Role::usable_trim, "grind", "9.50"},
           {"unusable-trim", "Membrane and fat", Role::unusable_trim, "waste", nullptr}});
  k.specification("Side strap off, membrane off, steaks from the centre, squared ends.");
  k.incoming(Incoming::invoice, "2480 g");
  k.incoming(Incoming::drained, "2452 g");
  k.incoming(Incoming::packaging, "12 g");
  k.incoming(Incoming::purge, "16 g");
  k.eye_call("62 %");
  k.price("piece", "29.80");
  k.price("ready-cut", "58.00", "97 %");
  k.target("portions", "180 g");
  k.setting("wage", "18.00");
  k.weigh("unusable-trim", "334 g");
  k.each("portions", {"182 g", "178 g", "185 g", "176 g", "181 g"});
  const EntryId strayed = k.weigh("usable-trim", "179 g");
  k.add(body::Move{strayed, "portions"});
  k.each("portions", {"190 g", "174 g"});
  const EntryId twice = k.weigh("portions", "174 g");
  k.add(body::Void{twice});
  k.weigh("second-cuts", "312 g");
  k.weigh("second-cuts", "96 g");
  k.weigh("usable-trim", "238 g");
  k.labour(22);
  k.quality("membrane", true);
  k.quality("gouges", false);
  k.quality("lean-on-waste", true);
  return k.done();
}

// The tub grows and is weighed now and then; bones in a tub with a tare; waste by difference.
SessionFile pork() {
  Kitchen k(kPork);
  const EntryId ben = k.person("Ben (invented)");
  k.cutting(ben);
  k.piles({{"portions", "Chops", Role::primary, "", nullptr},
           {"second-cuts", "Ribs for the grill", Role::secondary, "", "5.80"},
           {"stock-bones", "Stock bones", Role::usable_trim, "stock", "0.90"},
           {"usable-trim", "Stew", Role::usable_trim, "stew", "4.20"},
           {"unusable-trim", "Unusable trim", Role::unusable_trim, "waste", nullptr}});
  k.add(body::Tub{"tub-large", "Large tub", mass("0.180 kg"), k.division()});
  k.incoming(Incoming::invoice, "4.620 kg");
  k.incoming(Incoming::drained, "4.620 kg");
  k.add(body::Price{"piece", PriceBasis::total, number("27.72"), "", "EUR", {}});
  k.price("ready-cut", "11.90");
  k.target("portions", "0.200 kg");
  k.add(body::ByDifference{"unusable-trim", true});
  std::vector<EntryId> first = k.each("portions", {"0.205 kg", "0.210 kg", "0.195 kg"});
  const EntryId tub = k.tub_now("portions", "1.255 kg", std::move(first));
  k.weigh("second-cuts", "-0.540 kg", Habit::taken_off);
  k.tub_now("portions", "2.310 kg", {tub});
  k.in_tub("stock-bones", "1.120 kg", "tub-large");
  k.weigh("usable-trim", "0.250 kg", Habit::increment);
  k.weigh("usable-trim", "0.205 kg", Habit::increment);
  k.setting("wage", "18.00");
  k.labour(31);
  return k.done();
}

// Four birds as one purchase, legs weighed four at a time, another hand takes over.
SessionFile chickens() {
  Kitchen k(kChicken);
  const EntryId ada = k.person("Ada (invented)");
  const EntryId ben = k.person("Ben (invented)");
  k.cutting(ada);
  k.piles({{"portions", "Breasts", Role::primary, "", nullptr},
           {"second-cuts", "Legs", Role::secondary, "", "5.20"},
           {"usable-trim", "Wings and trim", Role::usable_trim, "staff", "2.00"},
           {"stock-bones", "Stock bones", Role::usable_trim, "stock", "1.10"},
           {"fat-to-render", "Fat to render", Role::usable_trim, "render", "1.00"},
           {"unusable-trim", "Unusable trim", Role::unusable_trim, "waste", "-0.30"}});
  k.incoming(Incoming::drained, "6420 g", 4);
  k.price("piece", "4.90");
  k.price("ready-cut", "12.40");
  k.target("portions", "210 g");
  k.eye_call("25 %");
  k.each("portions", {"212 g", "208 g", "219 g", "205 g"});
  k.weigh("second-cuts", "1180 g", Habit::piece, 4);
  k.cutting(ben);
  k.each("portions", {"214 g", "210 g", "221 g", "203 g"});
  k.weigh("second-cuts", "1172 g", Habit::piece, 4);
  k.weigh("usable-trim", "180 g", Habit::increment);
  k.weigh("stock-bones", "1710 g", Habit::increment);
  k.weigh("fat-to-render", "215 g", Habit::increment);
  k.weigh("unusable-trim", "205 g", Habit::increment);
  k.setting("wage", "18.00");
  k.labour(46);
  return k.done();
}

// Pounds and ounces; the belly is read as taken off the scale.
SessionFile fish() {
  Kitchen k(kFish);
  const EntryId ada = k.person("Ada (invented)");
  k.cutting(ada);
  k.piles({{"portions", "Portions", Role::primary, "", nullptr},
           {"second-cuts", "Belly", Role::secondary, "", "7.00"},
           {"usable-trim", "Scrapings", Role::usable_trim, "garnish", "6.00"},
           {"unusable-trim", "Pin bones and skin", Role::unusable_trim, "waste", nullptr}});
  k.incoming(Incoming::drained, "3 lb 9 oz");
  k.price("piece", "11.50");
  k.price("ready-cut", "21.00");
  k.target("portions", "6 oz");
  k.weigh("second-cuts", "-6 3/4 oz", Habit::taken_off);
  k.each("portions", {"6 oz", "6 1/4 oz", "5 3/4 oz", "6 1/8 oz", "5 7/8 oz", "6 1/2 oz"});
  k.weigh("usable-trim", "4 1/2 oz");
  k.weigh("unusable-trim", "8 1/2 oz");
  k.setting("wage", "21.00");
  k.labour(17);
  return k.done();
}

}  // namespace

std::vector<SessionFile> sample_sessions(std::string_view decimal_mark) {
  return with_mark({beef(), pork(), chickens(), fish()}, decimal_mark);
}

std::string sample_file_name(const SessionFile& file) {
  for (const Setup* setup : {&kBeef, &kPork, &kChicken, &kFish}) {
    if (file.session == setup->session) return std::string(setup->file) + ".json";
  }
  return sample_log_file_name(file);
}

}  // namespace tallyblock
