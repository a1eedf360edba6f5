// The result on one screen: what stands on its front, and that nothing is said twice.
#include <set>

#include "board_acts.h"
#include "web/figures/doubts.h"
#include "web/figures/show.h"

namespace tallyblock::test {
namespace {

struct Result : BoardActs {
  void SetUp() override {
    at.stage.size(390, 844, 2, 1);
    begin("2000");
  }
  // 8 portions of 180 g, trim of a value, 10 g lost; all known but the size of a portion.
  void weigh_all() {
    rig.enter(FieldKind::price_per_mass, "10");
    for (int i = 0; i < 8; ++i) rig.weigh("portions", "180");
    rig.weigh("usable-trim", "550");
    rig.enter(FieldKind::pile_value, "4", "usable-trim");
  }
  void know_all() {
    weigh_all();
    rig.enter(FieldKind::target, "180", "portions");
    rig.enter(FieldKind::ready_cut, "31");
    rig.enter(FieldKind::wage, "20");
    rig.enter(FieldKind::minutes, "12");
  }
  void front() { at.go(Screen::result); }
  // Figures on show but those within the pictures, and those of whole cards.
  std::vector<std::string> figures() {
    at.settle();
    std::vector<std::string> shown;
    for (const Node& n : at.drawn().nodes) {
      if (n.part == Part::text && n.look.figure) shown.emplace_back(n.text);
    }
    return shown;
  }
  bool line(const std::string& key) { return shows("result/chapter/" + key); }
  std::string line_said(const std::string& key) { return said("result/chapter/" + key); }
  float lowest(std::string_view path) {
    for (const AccessNode& n : at.access()) {
      if (n.id == Kit::id_of(path)) return (n.y + n.h) / at.drawn().scale.ratio;
    }
    return 1e9F;
  }
};

TEST_F(Result, OfAPieceOfWhichAllIsKnownIsOneAnswerTwoPicturesAndAFewLines) {
  know_all();
  front();
  // 20.00 less 2.20 over 1.44 kg: 12.36 per kg, 2.23 a portion; 4.00 of work over 8 portions
  EXPECT_EQ(said("result/answer"), "One portion of 180 g costs you 2.73 €");
  EXPECT_EQ(said("result/answer-parts"), "2.23 € of food, 0.50 € of work ");
  EXPECT_TRUE(shows("result/pictures"));
  EXPECT_FALSE(shows("result/card"));
  EXPECT_EQ(line_said("costs"), "Portions, per kg, with work, 15.14 € ");
  EXPECT_EQ(line_said("buy"), "Cheaper than ready-cut, in all, 22.84 € ");
  EXPECT_EQ(line_said("portions"), "On target, 8 of 8 ");
  EXPECT_EQ(line_said("loss"), "Lost in cutting, 10 g ");
  EXPECT_FALSE(line("doubts"));
  EXPECT_EQ(line_said("quality"), "Quality and trim, not judged ");
  EXPECT_LE(figures().size(), 7U);
  const auto shown = figures();
  EXPECT_EQ(std::set<std::string>(shown.begin(), shown.end()).size(), shown.size()) << "twice";
  EXPECT_LE(lowest("result/chapter/loss"), 844.0F - 56.0F) << "without scrolling";
  EXPECT_FALSE(at.drawn().page_scrolls);
}

TEST_F(Result, TellsTheSumWithNamesAndThePersonsOwnNumbersWhereALineIsOpened) {
  know_all();
  front();
  press("result/chapter/costs");
  EXPECT_EQ(said("result/costs-say"),
            "20.00 € paid, less 2.20 € for Usable trim, is 17.80 €; over 1.440 kg that is 12.36 € "
            "per kg. ");
  EXPECT_TRUE(shows("field/price-per-mass"));
  EXPECT_TRUE(shows("figure/net-cost"));
  press("result/chapter/loss");
  EXPECT_FALSE(shows("result/costs-say")) << "one at a time";
  EXPECT_EQ(said("result/loss-say"),
            "2000 g lay on the board, 1990 g lies on the piles: 10 g is lost in cutting. ");
  press("result/chapter/buy");
  EXPECT_EQ(said("result/verdict"),
            "Bought ready-cut, 1440 g would be 44.64 €. Cut yourself they were 21.80 €, 4.00 € of "
            "it work. ");
  press("result/chapter/buy");
  EXPECT_EQ(rig->draft().panel, "");
}

TEST_F(Result, KeepsEveryFigureWithinReach) {
  know_all();
  std::set<std::string> missing = {"portion-cost:portions",
                                   "portion-with-labour:portions",
                                   "cost-per-primary",
                                   "primary-share",
                                   "saleable-share",
                                   "usable-share",
                                   "loss",
                                   "loss-share",
                                   "cost",
                                   "by-product-value",
                                   "net-cost",
                                   "cost-per-primary-no-credit",
                                   "cost-per-usable",
                                   "labour",
                                   "cost-with-labour",
                                   "factor-nothing-saved",
                                   "factor-all-usable",
                                   "cost-factor",
                                   "portion-no-credit:portions",
                                   "portion-factor:portions",
                                   "saving",
                                   "may-be-spoiled",
                                   "may-be-binned",
                                   "break-even-ready-cut",
                                   "break-even-minutes",
                                   "break-even-ap-price",
                                   "portions-mean:portions",
                                   "portions-s:portions",
                                   "portions-median:portions",
                                   "portions-range:portions",
                                   "portions-bias:portions",
                                   "portions-within:portions",
                                   "portions-over:portions",
                                   "portions-over-cost:portions"};
  for (const char* key : {"costs", "buy", "portions", "loss", "all"}) {
    at.go(Screen::result, std::string("chapter:") + key);
    std::erase_if(missing, [&](const std::string& id) { return shows("figure/" + id); });
  }
  EXPECT_EQ(missing, std::set<std::string>());
  EXPECT_TRUE(shows("result/table"));
  EXPECT_TRUE(shows("field/new-price"));
}

TEST_F(Result, OfAnEmptyPieceAsksOneThing) {
  ask::new_session(*rig);
  rig.pump();
  front();
  EXPECT_EQ(said("result/card"), "Weigh the whole piece ");
  EXPECT_FALSE(shows("result/answer"));
  EXPECT_FALSE(shows("result/picture"));
  EXPECT_FALSE(line("loss"));
  press("field/drained");
  EXPECT_EQ(rig->draft().field.kind, FieldKind::drained);
  rig.enter(FieldKind::drained, "2000");
  front();
  EXPECT_EQ(said("result/card"), "2000 g still on the board ");
  EXPECT_FALSE(shows("result/all-weighed")) << "nothing was weighed";
}

TEST_F(Result, BeforeAllIsWeighedHasNoYieldNoLossAndNoVerdictUntilThatIsSaid) {
  rig.enter(FieldKind::price_per_mass, "10");
  rig.enter(FieldKind::target, "180", "portions");
  for (int i = 0; i < 4; ++i) rig.weigh("portions", "180");
  front();
  EXPECT_EQ(said("result/card"), "1280 g still on the board ");
  EXPECT_EQ(said("result/so-far"), "So far: 36.0 % into Portions. ");
  EXPECT_FALSE(shows("result/answer"));
  EXPECT_FALSE(line("loss"));
  EXPECT_FALSE(line("doubts")) << "that it is missing is said by the card";
  for (const char* key : {"costs", "buy", "portions", "all"}) {
    at.go(Screen::result, std::string("chapter:") + key);
    for (const char* id : {"primary-share", "loss", "cost-per-primary", "saving", "cost-factor"})
      EXPECT_FALSE(shows(std::string("figure/") + id)) << key << ' ' << id;
  }
  front();
  press("result/go-on");
  EXPECT_EQ(rig->draft().screen, Screen::weigh);
  front();
  press("result/all-weighed");
  rig.pump();
  EXPECT_TRUE(all_is_weighed(rig.figures()));
  EXPECT_FALSE(shows("result/card"));
  EXPECT_EQ(said("result/answer"), "One portion of 180 g costs you 5.00 €");
  EXPECT_EQ(line_said("loss"), "Lost in cutting, 1280 g ");
  press("result/chapter/loss");
  EXPECT_TRUE(shows("result/loss-high"));
  press("result/more-to-weigh");
  rig.pump();
  EXPECT_EQ(said("result/card"), "1280 g still on the board ");
}

TEST_F(Result, WithoutATargetIsTheCostByWeightAndAsksForTheSize) {
  weigh_all();
  front();
  EXPECT_EQ(said("result/answer"), "Portions, per kg 12.36 €");
  EXPECT_EQ(said("result/card"), "How large is a portion? ");
  EXPECT_TRUE(line_said("costs").starts_with("Everything usable, per kg")) << line_said("costs");
  EXPECT_FALSE(line("portions"));
  press("field/target/portions");
  EXPECT_EQ(rig->draft().field, (Field{FieldKind::target, "portions"}));
}

TEST_F(Result, WithoutAPriceAsksWhatItCostAndStillTellsTheLoss) {
  for (int i = 0; i < 8; ++i) rig.weigh("portions", "180");
  rig.weigh("usable-trim", "550");
  front();
  EXPECT_EQ(said("result/card"), "What did it cost? ");
  EXPECT_FALSE(shows("result/answer"));
  EXPECT_TRUE(shows("result/picture"));
  EXPECT_EQ(line_said("loss"), "Lost in cutting, 10 g ");
  press("result/chapter/costs");
  EXPECT_TRUE(shows("field/price-per-mass")) << "on the card, and only there";
}

TEST_F(Result, OfMoreThanThePieceWeighedSaysSoFirst) {
  know_all();
  rig.weigh("usable-trim", "400");
  front();
  EXPECT_EQ(said("result/card"), "390 g too much on the piles ");
  EXPECT_FALSE(shows("result/answer"));
  EXPECT_FALSE(line("loss"));
  EXPECT_TRUE(line_said("buy").find("not yet") != std::string::npos) << line_said("buy");
  EXPECT_EQ(
      std::ranges::count_if(rig.figures().doubts,
                            [](const Doubt& d) { return d.code == Code::doubt_loss_negative; }),
      1);
  EXPECT_FALSE(line("doubts")) << "it is the card that says so";
  press("result/readings");
  EXPECT_EQ(rig->draft().screen, Screen::weigh);
  EXPECT_EQ(rig->draft().panel, "readings");
}

TEST_F(Result, InPoundsAndDollarsSpeaksOfPounds) {
  ask::set_setting(*rig, "unit", "lb-oz");
  ask::set_setting(*rig, "price-unit", "lb");
  ask::set_setting(*rig, "currency", "USD");
  begin("");
  ask::set_unit(*rig, "oz");
  rig.enter(FieldKind::drained, "64");
  rig.enter(FieldKind::price_per_mass, "5");
  ask::set_unit(*rig, "oz");
  rig.weigh("portions", "32");
  ask::set_unit(*rig, "oz");
  rig.weigh("usable-trim", "32");
  front();
  EXPECT_EQ(said("result/answer"), "Portions, per lb $10.00");
  at.go(Screen::result, "chapter:all");
  EXPECT_NE(said("result/factors-say").find("The pound bought costs 1"), std::string::npos);
  EXPECT_EQ(said("result/factors-say").find("kilo"), std::string::npos);
}

TEST_F(Result, SaysNothingOfCuttingOrBuyingBeforeMinutesAndWageAreKnown) {
  weigh_all();
  rig.enter(FieldKind::target, "180", "portions");
  rig.enter(FieldKind::ready_cut, "31");
  rig.enter(FieldKind::minutes, "12");
  front();
  EXPECT_EQ(line_said("work"), "Labour, not yet ");
  EXPECT_EQ(line_said("buy"), "Cut it or buy it cut, not yet ");
  at.go(Screen::result, "chapter:buy");
  EXPECT_TRUE(shows("result/no-wage"));
  EXPECT_FALSE(shows("result/verdict"));
  rig.enter(FieldKind::wage, "20");
  EXPECT_EQ(line_said("work"), "Labour, 4.00 € ");
  EXPECT_EQ(line_said("buy"), "Cheaper than ready-cut, in all, 22.84 € ");
  EXPECT_TRUE(shows("result/verdict"));
}

TEST_F(Result, NamesThePilesThatNobodyHasValued) {
  rig.enter(FieldKind::price_per_mass, "10");
  rig.weigh("portions", "1440");
  rig.weigh("usable-trim", "550");
  front();
  EXPECT_EQ(said("result/unvalued"), "Usable trim: counted as worth nothing yet. ");
  rig.enter(FieldKind::pile_value, "4", "usable-trim");
  EXPECT_FALSE(shows("result/unvalued"));
}

TEST_F(Result, OfASlabTellsItsWeightShareAndMoney) {
  know_all();
  front();
  press("result/pictures");  // without a place: the first
  EXPECT_EQ(said("result/slab"), "Portions 1440 g, 72.0 %, 17.80 €");
  press("result/pictures");
  EXPECT_EQ(said("result/slab"), "Usable trim 550 g, 27.5 %, 2.20 €");
  press("result/pictures");
  EXPECT_EQ(said("result/slab"), "Lost in cutting 10 g, 0.5 %, 0.00 €");
  press("result/pictures");
  EXPECT_FALSE(shows("result/slab"));
}

TEST_F(Result, SaysWhatWasLostAndThrownOutTogether) {
  rig.enter(FieldKind::price_per_mass, "10");
  rig.weigh("portions", "1500");
  rig.weigh("unusable-trim", "480");
  at.go(Screen::result, "chapter:loss");
  // 20 g missing and 480 g thrown out of 2,000 g
  EXPECT_EQ(said("result/lost-in-all"),
            "With what was thrown out 500 g, 25.0 % of what was bought. ");
}

TEST_F(Result, TakesTheCentOfTheLargerPartSoThatTheTwoAddUp) {
  TargetFigures target;
  target.cost = Money::units(1.004);
  target.cost_with_labour = Money::units(1.508);
  const auto shown = show::portion_shown(target, {});
  ASSERT_TRUE(shown);
  EXPECT_EQ(shown->total, "1.51 €");
  EXPECT_EQ(shown->goods, "1.01 €");
  EXPECT_EQ(shown->work, "0.50 €");
}

TEST_F(Result, ShowsHalfAGramWhereOneWasTyped) {
  EXPECT_EQ(show::style_of(rig.figures()).weight_decimals, 0);
  rig.weigh("usable-trim", "12.5");
  EXPECT_EQ(show::style_of(rig.figures()).weight_decimals, 1);
  at.go(Screen::result, "chapter:all");
  const bool found = std::ranges::any_of(at.access(), [](const AccessNode& n) {
    return (std::string(n.label) + n.value).find("12.5 g") != std::string::npos;
  });
  EXPECT_TRUE(found);
}

TEST_F(Result, PutsWhatIsWrongFirst) {
  know_all();
  ask::set_quality(*rig, "membrane", true);
  rig.pump();
  front();
  EXPECT_EQ(line_said("quality"), "Quality and trim, passed ");
  const auto first = [&] {
    at.settle();
    for (const AccessNode& n : at.access()) {
      for (const char* key : {"doubts", "quality", "loss", "costs", "buy", "portions"}) {
        if (n.id == Kit::id_of(std::string("result/chapter/") + key)) return std::string(n.label);
      }
    }
    return std::string();
  };
  EXPECT_EQ(first(), "Portions, per kg, with work, 15.14 €");
  ask::set_quality(*rig, "membrane", false);
  rig.pump();
  EXPECT_EQ(first(), "Quality and trim, not passed");
}

}  // namespace
}  // namespace tallyblock::test
