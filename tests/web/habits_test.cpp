// Figures as the person is used to them: what a first start begins with, and how texts are written.
#include <gtest/gtest.h>

#include "fake_host.h"
#include "web/app/shelf/defaults.h"
#include "web/figures/sentence.h"

namespace tallyblock::test {
namespace {

const Locale american{"US", false, true, true};
const Locale german{"DE", true, false, false};

struct Abroad : Rig {
  explicit Abroad(const Locale& locale) {
    host.speaks = locale;
    restart();
  }
};

std::string of(App& app, const std::string& setting) {
  const auto& all = app.session()->figures.settings.all;
  const auto found = all.find(setting);
  return found == all.end() ? "" : found->second;
}

TEST(FirstStart, InAmericaHasPoundsAndOuncesDollarsAndTwelveHours) {
  Abroad rig(american);
  EXPECT_EQ(rig->shelf().settings.clock, "12");
  EXPECT_EQ(rig->shelf().settings.date, "month-first");
  ask::new_session(*rig);
  rig.pump();
  EXPECT_EQ(of(*rig, "unit"), "lb-oz");
  EXPECT_EQ(of(*rig, "price-unit"), "lb");
  EXPECT_EQ(of(*rig, "currency"), "USD");
  EXPECT_EQ(of(*rig, "division"), "0.1 oz");
  EXPECT_EQ(of(*rig, "decimal-mark"), "");
}

TEST(FirstStart, InGermanyHasGramsEurosAndADecimalComma) {
  Abroad rig(german);
  EXPECT_EQ(rig->shelf().settings.clock, "24");
  ask::new_session(*rig);
  rig.pump();
  EXPECT_EQ(of(*rig, "unit"), "g");
  EXPECT_EQ(of(*rig, "currency"), "EUR");
  EXPECT_EQ(of(*rig, "decimal-mark"), ",");
}

TEST(FirstStart, KnowsTheCurrencyOfARegionAndHasEurosWhereItDoesNot) {
  const auto currency = [](const char* region) { return settings_for({region}).currency; };
  EXPECT_EQ(currency("GB"), "GBP");
  EXPECT_EQ(currency("CH"), "CHF");
  EXPECT_EQ(currency("SE"), "SEK");
  EXPECT_EQ(currency("AE"), "AED");
  EXPECT_EQ(currency("ZA"), "ZAR");
  EXPECT_EQ(currency("FR"), "EUR");
  EXPECT_EQ(currency("ED"), "EUR") << "inside another region's letters";
  EXPECT_EQ(currency(""), "EUR");
}

TEST(FirstStart, AsksTheDeviceNoMoreOnceSomethingWasChosen) {
  Abroad rig(american);
  ask::set_setting(*rig, "unit", "kg");
  rig.pump();
  rig.host.speaks = german;
  rig.restart();
  EXPECT_EQ(rig->shelf().settings.unit, "kg");
  EXPECT_EQ(rig->shelf().settings.currency, "USD");
  EXPECT_EQ(rig->shelf().settings.decimal_mark, ".");
}

TEST(FirstStart, LoadsTheSampleWithTheDecimalMarkOfTheDeviceAndTakesItOutWhole) {
  Abroad rig(german);
  ask::load_sample(*rig);
  rig.pump();
  ASSERT_FALSE(rig->shelf().cards.empty());
  for (const SessionCard& card : rig->shelf().cards) EXPECT_EQ(card.decimal_mark, ",");
  ask::remove_sample(*rig);
  rig.pump();
  EXPECT_TRUE(rig->shelf().cards.empty());
  EXPECT_TRUE(rig->shelf().binned.empty()) << "nobody worked on it";
}

TEST(Dates, AreWrittenAsChosen) {
  show::Style style;
  const std::int64_t morning = 1'795'594'380'000, offset = 60;
  EXPECT_EQ(show::date(morning, offset, style), "25 Nov 2026, 09:13");
  style.month_first = style.twelve_hours = true;
  EXPECT_EQ(show::date(morning, offset, style), "Nov 25, 2026, 9:13 am");
  EXPECT_EQ(show::date(morning + 3 * 3'600'000, offset, style), "Nov 25, 2026, 12:13 pm");
  EXPECT_EQ(show::date(morning - 9 * 3'600'000, offset, style), "Nov 25, 2026, 12:13 am");
}

TEST(TypedFigures, HaveTheMarkOfTheReaderAndNamesStayAsTheyAre) {
  show::Style comma, point;
  comma.mark = ',';
  EXPECT_EQ(show::typed("76.5 %", comma), "76,5 %");
  EXPECT_EQ(show::typed("76,5 %", point), "76.5 %");
  EXPECT_EQ(show::typed("-1.25", comma), "-1,25");
  EXPECT_EQ(show::typed("12.", comma), "12,");
  EXPECT_EQ(show::typed("5 lb 8.5 oz", comma), "5 lb 8,5 oz");
  EXPECT_EQ(show::typed("18.80 EUR per kg", comma), "18,80 EUR per kg");
  EXPECT_EQ(show::typed("3.5 \xC2\xB0"
                        "C",
                        comma),
            "3,5 \xC2\xB0"
            "C");
  for (const char* name : {"Bag 1.5", "1.5 kg bag", "No. 3", "v1.2.3", "1.2.3", ".5", "", "-"}) {
    EXPECT_EQ(show::args({Arg::name(name)}, comma).front(), name);
  }
}

}  // namespace
}  // namespace tallyblock::test
